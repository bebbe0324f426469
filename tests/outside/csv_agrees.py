"""Python's csv module against our export: every row and every cell, read by its rules.

    python tests/outside/csv_agrees.py FOLDER

FOLDER holds NAME.csv and NAME.json (the rows as they should be read, null for an empty cell), as
written by `cargo test --test all variety::exchange` (into target/tmp/csv). The module is part of Python and reads
RFC 4180; nothing is installed. Exit status 1 where a cell is read otherwise or a file is missing.
"""

import csv
import json
import pathlib
import sys

NAMES = ["hard", "demo", "generated"]
# One apostrophe stands before what a spreadsheet would take for a formula.
BEGINS = tuple("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20")


def without_guard(cell):
    """The cell as it was before the apostrophe."""
    guarded = cell.startswith("'") and cell.lstrip("'").startswith(BEGINS)
    return cell[1:] if guarded else cell


def without_quotes(name):
    """A name that has quotation marks of its own stands in one pair more."""
    pairs = [("''"), ("‘’"), ('""'), ("“”")]
    if len(name) > 2 and name[0] == name[-1] == "'" and any(name[1:].startswith(p[0]) for p in pairs):
        return name[1:-1]
    return name


def faults_of(folder, name):
    try:
        expected = json.loads((folder / f"{name}.json").read_text(encoding="utf-8"))
        with open(folder / f"{name}.csv", encoding="utf-8", newline="") as file:
            rows = list(csv.reader(file, strict=True))
    except (OSError, csv.Error, ValueError) as error:
        return [f"{name}: {error}"], 0
    heading, rows = rows[0], rows[1:]
    faults, cells = [], 0
    if len(rows) != len(expected):
        faults.append(f"{name}: found {len(rows)} rows, expected {len(expected)}")
    for line, (row, wanted) in enumerate(zip(rows, expected), 2):
        if len(row) != len(heading):
            faults.append(f"{name}, row {line}: found {len(row)} cells, expected {len(heading)}")
            continue
        read = dict(zip(heading, row))
        for field, value in wanted.items():
            cell = read[field]
            if cell.startswith(BEGINS):
                faults.append(f"{name}, row {line}: {field} begins like a formula: {cell!r}")
            found = without_guard(cell)
            if field == "name":
                found = without_quotes(found)
            cells += 1
            if found != (value or ""):
                faults.append(f"{name}, row {line}: {field} is {found!r}, expected {value!r}")
    return faults, cells


def main(folder):
    folder = pathlib.Path(folder)
    faults, cells = [], 0
    for name in NAMES:
        found, read = faults_of(folder, name)
        faults += found
        cells += read
    if not faults:
        print(f"csv agrees: {cells} cells of {len(NAMES)} exports")
    return faults


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("expected the folder that holds the exports, such as target/tmp/csv")
    found = main(sys.argv[1])
    for fault in found[:20]:
        print(fault, file=sys.stderr)
    sys.exit(1 if found else 0)
