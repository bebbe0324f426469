"""z3 against our proof: every set of claims, answered by both.

    python tests/outside/z3_agrees.py FOLDER

FOLDER holds .smt2 files and expected.tsv (file, gap, overlap, our_microseconds), as written by
`cargo test --test all form::proof` (into target/tmp/smt) or `cargo bench --bench proof`. With times in it,
the ratio of z3's time to ours is printed. Needs z3-solver 5.4.1.0 from PyPI.
Exit status 1 where z3 disagrees, where a file is missing or left over, or where there is none.
"""

import csv
import pathlib
import statistics
import sys
import time

import z3

RUNS = 5
LEAST_FILES = 8


def answers(text):
    """What z3 says to each check-sat, and its median time in microseconds, reading included."""
    times = []
    for _ in range(RUNS):
        context = z3.Context()
        start = time.perf_counter()
        said = z3.Z3_eval_smtlib2_string(context.ref(), text)
        times.append((time.perf_counter() - start) * 1e6)
    return said.split(), statistics.median(times)


def main(folder):
    folder = pathlib.Path(folder)
    try:
        with open(folder / "expected.tsv", encoding="utf-8") as file:
            rows = list(csv.DictReader(file, delimiter="\t"))
    except OSError as error:
        return [f"found no expected answers, expected {folder / 'expected.tsv'}: {error}"]
    faults = []
    listed = {row["file"] for row in rows}
    there = {path.name for path in folder.glob("*.smt2")}
    if len(listed) < LEAST_FILES:
        faults.append(f"found {len(listed)} sets of claims, expected at least {LEAST_FILES}")
    for name in sorted(there ^ listed):
        faults.append(f"found {name} only in {'the list' if name in listed else 'the folder'}")
    agreed = {"sat": 0, "unsat": 0}
    for row in rows:
        if row["file"] not in there:
            continue
        found, z3_time = answers((folder / row["file"]).read_text(encoding="utf-8"))
        expected = [row["gap"], row["overlap"]]
        our_time = float(row["our_microseconds"] or 0)
        ratio = f"  ours {our_time:7.0f} us  z3/ours {z3_time / our_time:6.1f}" if our_time else ""
        print(f"{row['file']:40} gap {expected[0]:5} overlap {expected[1]:5}  z3 {z3_time:9.0f} us{ratio}")
        if found != expected:
            faults.append(f"{row['file']}: z3 says {found}, we say {expected}")
        for answer in expected:
            agreed[answer] = agreed.get(answer, 0) + 1
    if set(agreed) != {"sat", "unsat"} or 0 in agreed.values():
        faults.append(f"found answers {agreed}, expected some sat, some unsat and no other")
    return faults


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: z3_agrees.py FOLDER")
    print("z3", z3.get_version_string())
    FAULTS = main(sys.argv[1])
    for fault in FAULTS:
        print(fault, file=sys.stderr)
    sys.exit(1 if FAULTS else 0)
