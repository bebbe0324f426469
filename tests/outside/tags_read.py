"""Readers of codes against our tags, and a browser against our pages.

    python tests/outside/tags_read.py FOLDER

FOLDER holds expected.json and the files that it names, as written by `cargo test --test all tag::` (into
target/tmp/tags). Needs pdftoppm (Debian: poppler-utils), zbarimg (zbar-tools), chromium, and
pillow and zxing-cpp from PyPI.

- zbar and zxing-cpp read every QR code, one tag at a time, at 200 dots an inch, those of a roll at the 203
  of its label printer, whose whole dots its squares are: all that the tag says, to the letter.
- zxing-cpp finds on whole pages of copies, without being told where, as many codes of each plant as there
  are to be, whether a sheet was half used or each label is a page.
- zbar still does after a photocopy at 300 dots an inch: turned by a degree one way or the other,
  blurred, and thresholded to black and white, once too light and once too dark.
- a browser draws the SVG as outlines as poppler draws the page of the PDF.
Exit status 1 where anything differs, or where there is nothing to check.
"""

import collections
import json
import pathlib
import subprocess
import sys
import tempfile

import zxingcpp
from PIL import Image, ImageFilter

from paper_prints import DOTS, SHARE, compared, run

# Dots to the inch of the printer of a roll: `dots` of the rolls in assets/tags.ron.
ROLL = 203
# Found fewer codes than this, and something was not written.
LEAST_CODES = 150
# What the files of copies are named by, and how many there are.
COPIES = "copies-"
COPIED = 3
# Copies are light or dark by the threshold between paper and ink, of 255.
THRESHOLDS = (96, 168)
# What a plain copier scans at, from memory, in dots an inch.
COPIER = 300
# In its dots: a lens that is a little out of focus.
FOCUS = 1.2
# What a browser draws.
PAGES = ["sale-a4-1", "chart-a4-1", "tuber-roll-1"]
BROWSER = [
    *"chromium --headless --no-sandbox --disable-gpu --disable-background-networking".split(),
    *"--disable-sync --no-first-run --hide-scrollbars".split(),
]
SECONDS = 60
# CSS has 96 pixels to the inch.
CSS = 96


def zbar(picture, place):
    path = f"{place}/tag.pgm"
    picture.save(path)
    read = ["zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", path]
    found = subprocess.run(read, capture_output=True, check=False).stdout.decode()
    return found.removesuffix("\n")


def zxing(picture):
    found = zxingcpp.read_barcodes(picture)
    return "\n".join(one.text for one in found)


def of_copy(picture, threshold, place):
    """What zbar reads of a copy. A camera takes many frames, so what one does not give another may."""
    frames = (zbar(copied(picture, threshold, turn), place) for turn in (1, -1))
    return next((text for text in frames if text), "")


def copied(picture, threshold, turn):
    turned = picture.rotate(turn, Image.Resampling.BICUBIC, fillcolor=255)
    blurred = turned.filter(ImageFilter.GaussianBlur(FOCUS))
    return blurred.point(lambda dot: 255 if dot > threshold else 0)


def drawn(pdf, at, dots, place):
    stem = f"{place}/page"
    run("pdftoppm", "-r", str(dots), "-gray", "-singlefile", "-f", str(at), pdf, stem)
    return Image.open(f"{stem}.pgm").convert("L")


def cropped(page, area, dots):
    left, top, width, height = (length * dots / 25.4 for length in area)
    return page.crop((round(left), round(top), round(left + width), round(top + height)))


def check_codes(folder, entry, place):
    wrong, count = [], 0
    printer = ROLL if entry["name"].endswith("-roll") else DOTS
    for at, page in enumerate(entry["pages"], 1):
        if not page["codes"]:
            continue
        pdf = folder / f"{entry['name']}.pdf"
        plain, fine = (drawn(pdf, at, dots, place) for dots in (printer, COPIER))
        for code in page["codes"]:
            count += 1
            tag = cropped(plain, code["area"], printer)
            found = {"zbar": zbar(tag, place), "zxing-cpp": zxing(tag)}
            for threshold in THRESHOLDS:
                copy = cropped(fine, code["area"], COPIER)
                found[f"zbar, copied at {threshold}"] = of_copy(copy, threshold, place)
            wrong += [
                f"{entry['name']}, page {at}: {reader} finds {text!r}, expected {code['text']!r}"
                for reader, text in found.items()
                if text != code["text"]
            ]
    return wrong, count


def check_copies(folder, entry, place):
    """What is wrong with the copies of a file, and how many codes were counted."""
    wrong, count = [], 0
    for at, page in enumerate(entry["pages"], 1):
        picture = drawn(folder / f"{entry['name']}.pdf", at, COPIER, place)
        found = collections.Counter(one.text for one in zxingcpp.read_barcodes(picture))
        expected = collections.Counter(code["text"] for code in page["codes"])
        count += found.total()
        if found != expected:
            wrong.append(
                f"{entry['name']}, page {at}: found {found.total()} codes, expected"
                f" {expected.total()}: {found - expected} over, {expected - found} lacking"
            )
    return wrong, count


def browser_draws(folder, name, place):
    """The picture of an SVG by a browser, as large as poppler's."""
    svg = (folder / f"{name}.outlines.svg").resolve()
    picture = f"{place}/browser.png"
    stem, at = name.rsplit("-", 1)
    page = next(one for one in expected(folder) if one["name"] == stem)["pages"][int(at) - 1]
    width, height = (round(page[side] / 25.4 * CSS) for side in ("width", "height"))
    drawn = subprocess.run(
        [
            *BROWSER,
            f"--force-device-scale-factor={DOTS / CSS}",
            f"--window-size={width},{height}",
            f"--screenshot={picture}",
            svg.as_uri(),
        ],
        capture_output=True,
        timeout=SECONDS,
        check=False,
    )
    if drawn.returncode or not pathlib.Path(picture).exists():
        raise OSError(f"the browser drew nothing: {drawn.stderr.decode()[-500:]}")
    return Image.open(picture).convert("RGB")


def check_browser(folder, place):
    wrong, worst = [], 0.0
    for name in PAGES:
        stem, at = name.rsplit("-", 1)
        try:
            drawn = browser_draws(folder, name, place)
        except (OSError, subprocess.TimeoutExpired) as error:
            wrong.append(f"{name}: {error}")
            continue
        mean, moved = compared(folder / f"{stem}.pdf", int(at), drawn)
        worst = max(worst, mean / moved)
        if mean > SHARE * moved:
            wrong.append(f"{name}: the browser differs by {mean:.2f} of 255, moved {moved:.2f}")
    return wrong, worst


def expected(folder):
    return json.loads((folder / "expected.json").read_text(encoding="utf-8"))


def main(folder):
    folder = pathlib.Path(folder)
    wrong, count = [], 0
    with tempfile.TemporaryDirectory() as place:
        for entry in expected(folder):
            found, codes = check_codes(folder, entry, place)
            wrong, count = wrong + found, count + codes
        copies = [one for one in expected(folder) if one["name"].startswith(COPIES)]
        if len(copies) != COPIED:
            wrong.append(f"found {len(copies)} files of copies, expected {COPIED}")
        copied = 0
        for entry in copies:
            found, codes = check_copies(folder, entry, place)
            wrong, copied = wrong + found, copied + codes
        if count < LEAST_CODES:
            wrong.append(f"found {count} codes, expected {LEAST_CODES} or more")
        found, worst = check_browser(folder, place)
    print(
        f"{count} codes read four ways, {copied} copies counted; a browser and the PDF differ by {worst:.2f} of a"
        " millimetre's move at most"
    )
    return wrong + found


if __name__ == "__main__":
    problems = main(sys.argv[1])
    for problem in problems:
        print(problem)
    sys.exit(1 if problems else 0)
