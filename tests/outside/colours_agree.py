"""The colours of drawn blooms, as renderers that are not ours show them.

Usage: colours_agree.py FOLDER, with expected.json, blooms.pdf and an SVG for each of its pages, as written by
`cargo test --test all draw::` (into target/tmp/colours). Needs pdftocairo (Debian: poppler-utils), rsvg-convert
(librsvg2-bin), and coloraide, numpy and pillow from PyPI.

- what most of a bloom shows is within 2 CIEDE2000 of the colour that it is said to have;
- what poppler makes of the PDF and librsvg of the SVG is the same over the whole bloom: the means, in linear
  light, are within 2 of each other.
"""

import io
import json
import subprocess
import sys
from collections import Counter
from pathlib import Path

import numpy
from coloraide import Color
from PIL import Image

MOST = 2.0
SIDE = 600
# A pixel whose darkest channel is lighter is paper, or a smoothed edge of it.
PAPER = 254
LEAST_BLOOMS = 15


def drawn(*command):
    picture = subprocess.run(command, check=True, capture_output=True).stdout
    pixels = numpy.asarray(Image.open(io.BytesIO(picture)).convert("RGB")).reshape(-1, 3)
    return pixels[pixels.min(axis=1) < PAPER]


def colour(rgb):
    return Color("srgb", [float(channel) / 255 for channel in rgb])


def away(one, other):
    return one.delta_e(other, method="2000")


def mean(pixels):
    """The mean in linear light, by the curve of IEC 61966-2-1."""
    channels = pixels / 255
    light = numpy.where(channels <= 0.04045, channels / 12.92, ((channels + 0.055) / 1.055) ** 2.4)
    return Color("srgb-linear", light.mean(axis=0).tolist())


def main(folder):
    folder = Path(folder)
    expected = json.loads((folder / "expected.json").read_text(encoding="utf-8"))
    if len(expected) < LEAST_BLOOMS:
        return [f"found {len(expected)} blooms, expected {LEAST_BLOOMS} or more"]
    wrong, most, apart = [], 0.0, 0.0
    for page, one in enumerate(expected, 1):
        stated = Color(one["stated"])
        side = ["-scale-to-x", str(SIDE), "-scale-to-y", str(SIDE)]
        only = ["-png", "-singlefile", "-f", str(page)]
        seen = {
            "poppler": drawn("pdftocairo", *only, *side, folder / "blooms.pdf", "-"),
            "librsvg": drawn("rsvg-convert", "-w", str(SIDE), "-h", str(SIDE), folder / one["svg"]),
        }
        for program, pixels in seen.items():
            if len(pixels) < SIDE * SIDE / 20:
                wrong.append(f"{one['name']}: {program} drew {len(pixels)} pixels, expected a bloom")
                continue
            fill, _ = Counter(map(tuple, pixels.tolist())).most_common(1)[0]
            far = away(colour(fill), stated)
            most = max(most, far)
            if far > MOST:
                wrong.append(f"{one['name']}: {program} shows {fill}, expected {one['stated']}: {far:.1f} away")
        far = away(*map(mean, seen.values()))
        apart = max(apart, far)
        if far > MOST:
            wrong.append(f"{one['name']}: the means of {' and '.join(seen)} are {far:.1f} apart")
    print(f"{len(expected)} blooms: the commonest fill is at most {most:.2f} CIEDE2000 from what is stated, "
          f"means at most {apart:.2f} apart")
    return wrong


wrong = main(sys.argv[1])
print("\n".join(wrong))
sys.exit(bool(wrong))
