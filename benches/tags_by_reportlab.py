"""The peer of `tags`: the same words and codes on as many labels, by ReportLab.

Argument: a JSON file of labels, each a list of [text, bold, points, x, y] in mm from the label's
upper left corner, and what its code holds. Nothing is fitted, measured or drawn: the words are put
where ours are, in a font that is not embedded. Prints the seconds and the bytes.
"""

import io
import json
import sys
import time

from reportlab.graphics.barcode.qr import QrCodeWidget
from reportlab.graphics.shapes import Drawing
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

labels = json.load(open(sys.argv[1], encoding="utf-8"))
WIDTH, HEIGHT, CODE = 98 * mm, 68 * mm, 35 * mm

start = time.perf_counter()
file = io.BytesIO()
canvas = Canvas(file, pagesize=(WIDTH, HEIGHT), pageCompression=1)
for label in labels:
    for text, bold, points, x, y in label["words"]:
        canvas.setFont("Helvetica-Bold" if bold else "Helvetica", points)
        canvas.drawString(x * mm, HEIGHT - y * mm, text)
    code = QrCodeWidget(label["code"], barLevel="L", barWidth=CODE, barHeight=CODE)
    drawing = Drawing(CODE, CODE)
    drawing.add(code)
    drawing.drawOn(canvas, WIDTH - CODE, 0)
    canvas.showPage()
canvas.save()
print(time.perf_counter() - start, len(file.getvalue()))
