"""Cuts the fonts of this folder from Noto Sans: `python subset.py FOLDER`, with fonttools 4.68.

FOLDER holds NotoSans-Regular.ttf, NotoSans-Bold.ttf and NotoSansMath-Regular.ttf, as Debian's
package fonts-noto-core 20201225-1 installs them. Noto Sans has no arrows and no minus sign, so those
few glyphs come from Noto Sans Math, which is drawn to the same measure.
"""

import sys
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

RANGES = [
    (0x0020, 0x007E),  # Basic Latin
    (0x00A0, 0x00AC),  # Latin-1 Supplement but for the soft hyphen, which is no letter
    (0x00AE, 0x024F),  # Latin-1 Supplement, Latin Extended-A and -B
    (0x02B9, 0x02CA),  # Modifier letters: primes, apostrophes, stress
    (0x0370, 0x03FF),  # Greek
    (0x0400, 0x0482),  # Cyrillic, but for its combining marks
    (0x048A, 0x04FF),  # Cyrillic
    (0x1E00, 0x1EFF),  # Latin Extended Additional, Vietnamese too
    (0x2010, 0x2026),  # dashes, quotation marks, dagger, bullet, ellipsis
    (0x2030, 0x203A),  # per mille, primes, angle quotation marks
    (0x2074, 0x2089),  # superior and inferior digits
    (0x20A0, 0x20BF),  # currency
    (0x2113, 0x2126),  # litre, numero, trade mark, ohm
    (0x2150, 0x215E),  # fractions
]
BORROWED = "←↑→↓−≈≤≥"


def borrow(font: TTFont, lender: TTFont) -> None:
    """Copies outlines, widths and characters that the font lacks."""
    names = lender.getBestCmap()
    for character in BORROWED:
        name = names[ord(character)]
        font["glyf"][name] = lender["glyf"][name]
        font["hmtx"][name] = lender["hmtx"][name]
        for table in font["cmap"].tables:
            if table.isUnicode():
                table.cmap[ord(character)] = name
    font.setGlyphOrder(font["glyf"].glyphOrder)


def main(folder: Path) -> None:
    lender = TTFont(folder / "NotoSansMath-Regular.ttf", recalcTimestamp=False)
    for weight in ["Regular", "Bold"]:
        font = TTFont(folder / f"NotoSans-{weight}.ttf", recalcTimestamp=False)
        wanted = {code for low, high in RANGES for code in range(low, high + 1)}
        options = subset.Options(
            hinting=False, layout_features=[], notdef_outline=True, recalc_timestamp=False
        )
        options.drop_tables += ["GSUB", "GPOS", "GDEF", "gasp"]
        cutter = subset.Subsetter(options)
        cutter.populate(unicodes=wanted)
        cutter.subset(font)
        borrow(font, lender)
        font.save(Path(__file__).parent / f"NotoSans-{weight}.ttf")


main(Path(sys.argv[1]))
