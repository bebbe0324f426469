"""Sixels that the tests wrote, read by libsixel and compared with the pixels that they were made of.

Usage: pixels_agree.py FOLDER, with NAME.six and NAME.png for each picture. Clear pixels of the PNG are left
out; the others are within 2 CIEDE2000 on average (coloraide's).
"""

import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

from coloraide import Color
from PIL import Image

MOST = 2.0


def difference(one, other):
    colours = [Color("srgb", [channel / 255 for channel in rgb]) for rgb in (one, other)]
    return colours[0].delta_e(colours[1], method="2000")


def main(folder):
    files = sorted(Path(folder).glob("*.six"))
    assert len(files) >= 3, f"{folder} has {len(files)} pictures, expected 3 or more"
    for file in files:
        with tempfile.NamedTemporaryFile(suffix=".png") as read:
            subprocess.run(["sixel2png", "-i", file, "-o", read.name], check=True)
            shown = Image.open(read.name).convert("RGB")
        meant = Image.open(file.with_suffix(".png")).convert("RGBA")
        # libsixel may fill the last six rows up.
        assert shown.width == meant.width and 0 <= shown.height - meant.height < 6, (shown.size, meant.size)
        shown = shown.crop((0, 0, *meant.size))
        pairs = Counter(
            (own[:3], other)
            for own, other in zip(meant.get_flattened_data(), shown.get_flattened_data())
            if own[3] > 0
        )
        count = sum(pairs.values())
        away = sum(difference(*pair) * times for pair, times in pairs.items()) / count
        print(f"{file.stem}: {count} pixels, {away:.2f} CIEDE2000 on average")
        assert away <= MOST, f"{file}: {away}"


main(sys.argv[1])
