"""Every system call of a save fails once: a note, a list that is imported, a file that is exported.

    python3 tests/outside/syscalls.py [target/debug/trug]

strace makes one call fail, with the error of a broken disk and, where something is written, of a full
one; each run is in a fresh folder. After each of them, whatever failed:

- the files are whole: the old text or the new, the book's old entries and at most one whole new one;
- what was called saved (exit status 0) is there, and what was not is told (status 1 or 2, a sentence);
- the next note in the same folder is taken.

Then locks are refused, as by a disk that knows none: the note is taken all the same, and nothing of the
second way to hold the folder is left.
"""

import collections
import concurrent.futures
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import zlib

TRUG = str(pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else "target/debug/trug").resolve())
# What a save asks of the system about files; memory and threads are not its own.
CALLS = (
    "open openat read pread64 write pwrite64 writev fsync fdatasync ftruncate rename renameat renameat2 "
    "link linkat unlink unlinkat flock lseek fchmod close statx newfstatat fstat lstat stat getdents64 "
    "copy_file_range sendfile readlink readlinkat mkdir fcntl"
).split()
WRITES = {"openat", "write", "pwrite64", "writev", "fsync", "fdatasync", "rename", "renameat", "renameat2",
          "link", "linkat", "ftruncate", "copy_file_range"}
LIST = '[\n  (name: "Haaf Bell"),\n]\n'
SEEDLINGS = '[\n  (number: "26-001"),\n]\n'
OLD_EXPORT = "the export of last week\n"
# From here on the folder is held, or the file is made.
BEGINS = {"note": ".trug.lock", "import": ".trug.lock", "export": "out.csv"}
WORDS = {
    "note": ["row", "note", "26-001", "cut=3", "--even-so"],
    "import": ["import", "new.csv"],
    "export": ["export", "out.csv", "--replace"],
}


def line(text):
    return f"{zlib.crc32(text.encode()):08x} {text}\n"


def lay_out(home):
    lane = home / "lane"
    lane.mkdir()
    (lane / "varieties.ron").write_text(LIST)
    (lane / "trial.ron").write_text(SEEDLINGS)
    (home / "new.csv").write_text("name\nEbb Kist\n")
    (home / "out.csv").write_text(OLD_EXPORT)
    return lane


def run(home, kind, tracing=()):
    surroundings = {"HOME": str(home), "PATH": os.environ["PATH"], "TZ": "UTC"}
    return subprocess.run(
        [*tracing, TRUG, *WORDS[kind], "--at", "lane"],
        cwd=home, env=surroundings, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60,
    )


def strace(log, *more):
    return ["strace", "-f", "-qq", "--seccomp-bpf", "-o", str(log), *more, "--"]


def calls_of(kind):
    """The calls from where the save begins, each with its count among those of its name."""
    with tempfile.TemporaryDirectory() as place:
        home = pathlib.Path(place)
        lay_out(home)
        log = home / "log"
        done = run(home, kind, strace(log, "-e", "trace=" + ",".join("?" + call for call in CALLS)))
        assert done.returncode == 0, done.stderr
        first = log.read_text().split(maxsplit=1)[0]
        counts, found, begun = collections.Counter(), [], False
        for row in log.read_text().splitlines():
            told = re.match(r"(\d+) +(\w+)\(", row)
            if not told or told[1] != first:
                continue
            counts[told[2]] += 1
            begun = begun or BEGINS[kind] in row and "execve" not in row
            if begun:
                found.append((told[2], counts[told[2]]))
        expected = {
            "note": outcome(home)["book"], "import": outcome(home)["list"], "export": outcome(home)["out"],
        }[kind]
        return found, expected


def outcome(home):
    def text(path):
        return path.read_text() if path.exists() else ""

    lane = home / "lane"
    return {
        "book": text(lane / "trial.journal"), "list": text(lane / "varieties.ron"),
        "seedlings": text(lane / "trial.ron"), "out": text(home / "out.csv"),
        "kept": text(lane / "varieties.ron.last"),
    }


def whole_entries(book):
    rows = book.splitlines(keepends=True)
    return all(row.endswith("\n") and line(row[9:-1]) == row for row in rows)


def fault(kind, call, at, error, new):
    """Runs once with one call failing; what is amiss, or nothing."""
    with tempfile.TemporaryDirectory() as place:
        home = pathlib.Path(place)
        lay_out(home)
        log = home / "log"
        injected = f"inject={call}:error={error}:when={at}"
        done = run(home, kind, strace(log, "-e", f"trace={call}", "-e", injected))
        hit = [row for row in log.read_text().splitlines() if "(INJECTED)" in row]
        if not hit:
            return f"{kind}: {call} {at} did not come"
        first = re.match(r"\d+ +\w+\((\d+)", hit[0])
        descriptor = first[1] if first else ""
        speechless = call in ("write", "writev") and descriptor in ("1", "2")
        found = outcome(home)
        amiss = []
        # Rust's own library ends a program where a folder that was read cannot be closed.
        ended = call == "close" and "during closedir" in done.stderr
        if done.returncode not in (0, 1, 2) and not ended:
            amiss.append(f"status {done.returncode}")
        told = done.stderr.startswith("trug: ") or speechless or ended
        if done.returncode != 0 and not told:
            amiss.append(f"not told: {done.stderr!r}")
        key, old = {"note": ("book", ""), "import": ("list", LIST), "export": ("out", OLD_EXPORT)}[kind]
        if found[key] not in (old, new):
            amiss.append(f"{key} is neither old nor new: {found[key]!r}")
        if done.returncode == 0 and found[key] != new:
            amiss.append("called saved, and is not there")
        unconfirmed = "did not confirm" in done.stderr
        if done.returncode != 0 and found[key] == new and not (speechless or unconfirmed):
            amiss.append(f"is there, and was told not to be: {done.stderr!r}")
        if kind != "import" and found["list"] != LIST or found["seedlings"] != SEEDLINGS:
            amiss.append("another file was changed")
        if found["kept"] not in ("", LIST):
            amiss.append("the copy kept is not whole")
        before = found["book"]
        after = run(home, "note")
        book = outcome(home)["book"]
        if after.returncode != 0 or not book.startswith(before) or not whole_entries(book):
            amiss.append(f"the next note: {after.returncode}, {after.stderr!r}")
        return f"{kind}: {call} {at} {error}: " + "; ".join(amiss) if amiss else None


def without_locks(error):
    with tempfile.TemporaryDirectory() as place:
        home = pathlib.Path(place)
        lane = lay_out(home)
        done = run(home, "note", strace(home / "log", "-e", "trace=flock", "-e", f"inject=flock:error={error}"))
        left = [path.name for path in lane.iterdir() if path.name.startswith(".trug.held")]
        took = "(INJECTED)" in (home / "log").read_text()
        if not took or done.returncode != 0 or left or not whole_entries(outcome(home)["book"]):
            return f"without locks, {error}: {took}, {done.returncode}, {left}, {done.stderr!r}"
        return None


def main():
    if shutil.which("strace") is None:
        sys.exit("found no strace, expected it: apt-get install strace")
    jobs = []
    for kind in WORDS:
        found, new = calls_of(kind)
        print(f"{kind}: {len(found)} calls")
        assert len(found) >= 15, "the save was not found in the trace"
        for call, at in found:
            jobs.append((kind, call, at, "EIO", new))
            if call in WRITES:
                jobs.append((kind, call, at, "ENOSPC", new))
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        told = list(pool.map(lambda job: fault(*job), jobs))
    told += [without_locks(error) for error in ("EOPNOTSUPP", "ENOLCK", "ENOSYS")]
    amiss = [one for one in told if one]
    print(f"{len(told)} runs, {len(amiss)} amiss")
    for one in amiss:
        print(one)
    sys.exit(1 if amiss else 0)


main()
