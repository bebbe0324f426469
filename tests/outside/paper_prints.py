"""poppler and librsvg against our pages: what they find in the files, and what they draw.

    python tests/outside/paper_prints.py FOLDER

FOLDER holds expected.json and the files that it names, as written by `cargo test --test all paper::` (into
target/tmp/paper) and by `cargo test --test all tag::` (into target/tmp/tags). Needs pdfinfo, pdftotext, pdffonts and pdftocairo (Debian: poppler-utils),
rsvg-convert (librsvg2-bin) and pillow from PyPI.

- pdfinfo: the title, the number of pages, every page's size.
- pdftotext: every line of text of every page.
- the fonts have every Latin letter with an accent.
- pdffonts: every font embedded, a subset, with a table back to Unicode.
- an XML parser: the SVG is well formed, its size is the page's, and as words it says every line.
- the SVG as outlines, drawn by librsvg, looks like the page drawn by poppler.
The first pages of each file are there as SVG too.
Exit status 1 where anything differs, or where there is nothing to check.
"""

import json
import pathlib
import re
import subprocess
import sys
import tempfile
import unicodedata
import xml.etree.ElementTree as XML

from PIL import Image, ImageChops, ImageFilter, ImageStat

LEAST_FILES = 5
DOTS = 200
# Thin lines and edges are smoothed differently, so both pictures are blurred, by this many dots.
BLUR = 4
# The mean difference may be this part of what moving one picture by a millimetre makes.
# Measured: 0.14 at most.
SHARE = 0.33
# Every letter of the blocks Latin-1 Supplement, Latin Extended-A and -B and Latin Extended Additional
# that is a letter with an accent, by Python's copy of the Unicode database.
BLOCKS = [(0xC0, 0x250), (0x1E00, 0x1F00)]
LATIN = [
    chr(code)
    for low, high in BLOCKS
    for code in range(low, high)
    if unicodedata.decomposition(chr(code)) and unicodedata.category(chr(code))[0] == "L"
    and not unicodedata.decomposition(chr(code)).startswith("<")
]
SVG = "{http://www.w3.org/2000/svg}"


def run(*command):
    return subprocess.run(command, check=True, capture_output=True).stdout


def squeezed(text):
    return re.sub(r"\s+", " ", text).strip()


def millimetres(points):
    return float(points) * 25.4 / 72


def close(found, expected):
    return abs(found - expected) < 0.05


def check_pdf(path, entry):
    wrong = []
    pages = entry["pages"]
    told = run("pdfinfo", "-f", "1", "-l", str(len(pages)), path).decode()
    title = re.search(r"^Title:\s*(.*)$", told, re.MULTILINE)
    if not title or title[1] != entry["title"]:
        wrong.append(f"found title {title and title[1]!r}, expected {entry['title']!r}")
    sizes = re.findall(r"^Page +\d+ size: +([\d.]+) x ([\d.]+) pts", told, re.MULTILINE)
    count = int(re.search(r"^Pages: +(\d+)", told, re.MULTILINE)[1])
    if count != len(pages) or len(sizes) != len(pages):
        wrong.append(f"found {count} pages, expected {len(pages)}")
    for at, (size, page) in enumerate(zip(sizes, pages), 1):
        width, height = map(millimetres, size)
        if not (close(width, page["width"]) and close(height, page["height"])):
            wrong.append(f"page {at}: found {width:.2f} by {height:.2f} mm, expected {page}")
        text = run("pdftotext", "-raw", "-f", str(at), "-l", str(at), path, "-").decode()
        # What the page says twice must be found twice.
        left, apart = f" {squeezed(text)} ", []
        for line in sorted(page["texts"], key=len, reverse=True):
            # By whole words: one line may be a part of a word of another.
            whole = f" {squeezed(line)} "
            if whole not in left:
                # pdftotext may tell lines that stand close in another order: then by their words.
                apart.extend(whole.split())
            left = left.replace(whole, "  ", 1)
        if sorted(apart) != sorted(left.split()):
            wrong.append(f"page {at}: pdftotext finds {left.split()}, expected {apart}")
    if entry["name"] == "latin":
        text = run("pdftotext", "-raw", path, "-").decode()
        lacking = [letter for letter in LATIN if text.count(letter) < 2]
        if lacking:
            wrong.append(f"expected every Latin letter with an accent twice, lacks {lacking}")
    fonts = run("pdffonts", path).decode().splitlines()[2:]
    for font in fonts:
        name, *_, embedded, subset, unicode_, _number, _generation = font.split()
        if "NotoSans" not in name or (embedded, subset, unicode_) != ("yes", "yes", "yes"):
            wrong.append(f"found the font {font!r}, expected it embedded, cut, with Unicode")
    if not fonts:
        wrong.append("found no font")
    return wrong


def check_svg(folder, name, at, page):
    wrong = []
    for kind in ["words", "outlines"]:
        path = folder / f"{name}-{at}.{kind}.svg"
        try:
            root = XML.parse(path).getroot()
        except XML.ParseError as error:
            wrong.append(f"{path.name}: not well formed: {error}")
            continue
        size = [float(part) for part in root.get("viewBox").split()]
        if not (close(size[2], page["width"]) and close(size[3], page["height"])):
            wrong.append(f"{path.name}: found {size}, expected the page's size")
        texts = [text.text for text in root.iter(f"{SVG}text")]
        if texts != (page["texts"] if kind == "words" else []):
            wrong.append(f"{path.name}: the texts are not the page's")
    return wrong


def difference(one, other):
    blurred = [picture.filter(ImageFilter.GaussianBlur(BLUR)) for picture in (one, other)]
    return sum(ImageStat.Stat(ImageChops.difference(*blurred)).mean) / 3


def compared(pdf, at, other):
    """The mean difference of poppler's page and a picture of it, of 255; and of the same picture
    moved by 1 mm right and down."""
    with tempfile.TemporaryDirectory() as place:
        stem = f"{place}/page"
        run("pdftocairo", "-r", str(DOTS), "-png", "-singlefile", "-f", str(at), pdf, stem)
        drawn = Image.open(f"{stem}.png").convert("RGB")
    other = other.resize(drawn.size)
    # Both ways: a ruler with a mark each millimetre looks the same moved along itself.
    step = round(DOTS / 25.4)
    return difference(drawn, other), difference(drawn, ImageChops.offset(other, step, step))


def pictures(folder, name, at, page):
    with tempfile.TemporaryDirectory() as place:
        svg, picture = folder / f"{name}-{at}.outlines.svg", f"{place}/svg.png"
        width, height = (str(round(page[side] * DOTS / 25.4)) for side in ("width", "height"))
        run("rsvg-convert", "-b", "white", "-w", width, "-h", height, "-o", picture, svg)
        return compared(folder / f"{name}.pdf", at, Image.open(picture).convert("RGB"))


def main(folder):
    folder = pathlib.Path(folder)
    try:
        expected = json.loads((folder / "expected.json").read_text(encoding="utf-8"))
    except OSError as error:
        return [f"found no expected answers, expected {folder / 'expected.json'}: {error}"]
    if len(expected) < LEAST_FILES:
        return [f"found {len(expected)} files to check, expected {LEAST_FILES} or more"]
    wrong, worst, count = [], 0.0, 0
    for entry in expected:
        name = entry["name"]
        found = check_pdf(folder / f"{name}.pdf", entry)
        for at, page in enumerate(entry["pages"], 1):
            count += 1
            if not page["svg"]:
                continue
            found += check_svg(folder, name, at, page)
            mean, moved = pictures(folder, name, at, page)
            worst = max(worst, mean / moved)
            if mean > SHARE * moved:
                found.append(
                    f"page {at}: SVG and PDF differ by {mean:.2f} of 255, moved by 1 mm {moved:.2f}"
                )
        wrong += [f"{name}: {one}" for one in found]
    print(
        f"{count} pages in {len(expected)} files; SVG and PDF differ by"
        f" {worst:.2f} of a millimetre's move at most"
    )
    return wrong


if __name__ == "__main__":
    problems = main(sys.argv[1])
    for problem in problems:
        print(problem)
    sys.exit(1 if problems else 0)
