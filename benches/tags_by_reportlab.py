"""The peer of `tags`: the same words on as many labels, by ReportLab.

Argument: a JSON file of labels, each a list of [text, bold, points, x, y] in mm from the label's
upper left corner. Nothing is fitted, measured or drawn, there are no codes, and the font is not
embedded: the words are put where ours are. Prints the seconds and the bytes.
"""

import io
import json
import sys
import time

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

labels = json.load(open(sys.argv[1], encoding="utf-8"))
WIDTH, HEIGHT = 98 * mm, 68 * mm

start = time.perf_counter()
file = io.BytesIO()
canvas = Canvas(file, pagesize=(WIDTH, HEIGHT), pageCompression=1)
for label in labels:
    for text, bold, points, x, y in label:
        canvas.setFont("Helvetica-Bold" if bold else "Helvetica", points)
        canvas.drawString(x * mm, HEIGHT - y * mm, text)
    canvas.showPage()
canvas.save()
print(time.perf_counter() - start, len(file.getvalue()))
