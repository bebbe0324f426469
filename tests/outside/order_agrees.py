"""HiGHS against our search: every model, solved by both to the same least cost.

    python tests/outside/order_agrees.py FOLDER

FOLDER holds .mps files and expected*.tsv (file, cost in hundredths or `impossible`,
our_microseconds), as written by `cargo test` (tests order_demo and order_solver, into
target/tmp/mps) or `cargo bench --bench order`. With times in it, the ratio of HiGHS's time to ours is printed. The
files are the whole model, with every week and every sharing out of stems, where our search merges
and projects. Needs highspy 1.16.0 from PyPI.
Exit status 1 where HiGHS disagrees, where a file is missing or left over, or where there are few.
"""

import csv
import pathlib
import sys
import time

import highspy

LEAST_FILES = 49
LEAST_TIMED = 2
# For one model; where ours is timed on the same file, longer than that tells nothing new.
SECONDS = 600.0
TIMED_SECONDS = 120.0
# Under half a hundredth: costs are whole hundredths.
APART = 0.4


def solved(path, seconds):
    """HiGHS's least cost in hundredths with its time in microseconds. Out of time: the two bounds
    that it has. Else its status in words."""
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 0.001)
    solver.setOptionValue("mip_feasibility_tolerance", 1e-9)
    solver.setOptionValue("time_limit", seconds)
    if solver.readModel(str(path)) != highspy.HighsStatus.kOk:
        return "not read", 0.0
    start = time.perf_counter()
    solver.run()
    took = (time.perf_counter() - start) * 1e6
    status = solver.getModelStatus()
    if status == highspy.HighsModelStatus.kOptimal:
        return solver.getInfo().objective_function_value * 100, took
    if status == highspy.HighsModelStatus.kInfeasible:
        return "impossible", took
    if status == highspy.HighsModelStatus.kTimeLimit:
        info = solver.getInfo()
        feasible = int(highspy.SolutionStatus.kSolutionStatusFeasible)
        has_one = info.primal_solution_status == feasible
        high = info.objective_function_value * 100 if has_one else float("inf")
        return (info.mip_dual_bound * 100, high), took
    return str(status), took


def main(folder):
    folder = pathlib.Path(folder)
    rows = []
    for path in sorted(folder.glob("expected*.tsv")):
        with open(path, encoding="utf-8") as file:
            rows.extend(csv.DictReader(file, delimiter="\t"))
    if not rows:
        return [f"found no expected costs, expected them in {folder / 'expected*.tsv'}"]
    faults = []
    listed = {row["file"] for row in rows}
    there = {path.name for path in folder.glob("*.mps")}
    least = LEAST_TIMED if any(row["our_microseconds"] for row in rows) else LEAST_FILES
    if len(listed) < least:
        faults.append(f"found {len(listed)} models, expected at least {least}")
    for name in sorted(there ^ listed):
        faults.append(f"found {name} only in {'the list' if name in listed else 'the folder'}")
    met = 0
    for row in rows:
        if row["file"] not in there:
            continue
        ours = float(row["our_microseconds"] or 0)
        found, took = solved(folder / row["file"], TIMED_SECONDS if ours else SECONDS)
        # Out of time against ours, the ratio is at least so much, and its bounds must hold ours.
        over = ">" if isinstance(found, tuple) else " "
        ratio = f"  ours {ours / 1e6:7.2f} s  HiGHS/ours {over}{took / ours:6.1f}" if ours else ""
        print(f"{row['file']:16} cost {row['cost']:>10}  HiGHS {took / 1e6:7.2f} s{ratio}", flush=True)
        if row["cost"] == "impossible":
            agrees = found == "impossible"
        elif ours and isinstance(found, tuple):
            met += 1
            low, high = found
            agrees = low - APART < float(row["cost"]) < high + APART
        else:
            met += 1
            agrees = isinstance(found, float) and abs(found - float(row["cost"])) < APART
        if not agrees:
            faults.append(f"{row['file']}: HiGHS says {found}, we say {row['cost']}")
    if met * 2 < len(listed):
        faults.append(f"found {met} models with an order, expected at least half of {len(listed)}")
    return faults


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: order_agrees.py FOLDER")
    FAULTS = main(sys.argv[1])
    for fault in FAULTS:
        print(fault, file=sys.stderr)
    sys.exit(1 if FAULTS else 0)
