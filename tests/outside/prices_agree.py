"""The price list's pages and table against what `trug stock prices --json` says of the same stock.

    python tests/outside/prices_agree.py FOLDER

FOLDER holds colour.json, name.json and of each .csv, .pdf and .svg, as written by
`cargo test --test all stock::prices` (into target/tmp/prices). Python's csv module and pandas read the table; poppler's
pdftotext the pages, and Python's XML parser the drawing of one page. Every offer must be there once, in its order, with its
price and its number beside its name. Exit status 1 where one is not.
"""

import csv
import json
import pathlib
import subprocess
import sys
import xml.etree.ElementTree as tree

import pandas

faults, agreed = [], 0
# One apostrophe stands before what a spreadsheet would take for a formula.
BEGINS = tuple("=+-@")


def same(where, ours, theirs):
    global agreed
    if ours == theirs:
        agreed += 1
    else:
        faults.append(f"{where}: we say {ours!r}, it is read as {theirs!r}")


def guarded(text):
    return "'" + text if text.startswith(BEGINS) else text


def table(path, offers):
    with open(path, encoding="utf-8", newline="") as file:
        by_module = list(csv.DictReader(file, strict=True))
    by_library = pandas.read_csv(path, dtype=str, keep_default_na=False).to_dict("records")
    same(f"{path.name}: rows", len(offers), len(by_module))
    same(f"{path.name}: both readers", by_module, by_library)
    for offer, row in zip(offers, by_module):
        where = f"{path.name}: {offer['plant']}"
        for field in ["plant", "name", "colour", "form", "size", "evidence"]:
            same(f"{where}: {field}", guarded(offer[field] or ""), row[field])
        same(f"{where}: left", str(offer["left"]), row["left"])
        same(f"{where}: each", f"{offer['price']:.2f}", row["each"])
        same(f"{where}: counted", offer["counted"], row["counted"])


def pages(path, offers):
    told = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, check=True, text=True).stdout
    lines = [" ".join(line.split()) for line in told.splitlines() if line.strip()]
    places = []
    for offer in offers:
        where = f"{path.name}: {offer['plant']}"
        # A name that is set in curly marks has curly apostrophes, too.
        beside = f"{offer['name'].replace(chr(39), chr(8217))} {offer['price']:.2f}"
        found = [at for at, line in enumerate(lines) if line == beside]
        same(f"{where}: name and price", 1, len(found))
        if found:
            places.append(found[0])
            below = lines[found[0] + 1 : found[0] + 4]
            same(f"{where}: left", True, any(line.endswith(f"{offer['left']} left") for line in below))
    same(f"{path.name}: order", sorted(places), places)
    same(f"{path.name}: said once", 1, told.count("wear gloves"))


def main():
    folder = pathlib.Path(sys.argv[1])
    for order in ["colour", "name"]:
        offers = json.loads((folder / f"{order}.json").read_text(encoding="utf-8"))["offers"]
        table(folder / f"{order}.csv", offers)
        pages(folder / f"{order}.pdf", offers)
        drawings = sorted(folder.glob(f"{order}*.svg"))
        same(f"{order}: drawings", True, len(drawings) > 0)
        for drawing in drawings:
            same(drawing.name, True, tree.parse(drawing).getroot().tag.endswith("svg"))
    print("\n".join(faults) if faults else f"prices: {agreed} figures and names agree")
    if agreed < 120:
        faults.append("too few were compared")
        print(faults[-1], agreed)
    return 1 if faults else 0


sys.exit(main())
