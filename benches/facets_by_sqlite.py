"""The peer of `choose`: the same questions put to SQLite, in memory, with an index on every column.

Arguments: a file of rows (tab-separated, `|` between several values; the first line names the
columns, a last column `distance` is the colour distance, which SQLite cannot reckon itself) and a
file of questions (words, form or nothing, greatest distance or nothing). Prints the median and the
99th percentile in milliseconds.
"""

import csv
import sqlite3
import sys
import time

MANY = ("use", "colour", "supplier")
HALVES_EVERY = 8.0

rows_file, questions_file = sys.argv[1:]
data = sqlite3.connect(":memory:")
with open(rows_file, newline="", encoding="utf-8") as text:
    rows = list(csv.DictReader(text, delimiter="\t", quoting=csv.QUOTE_NONE))
single = [column for column in rows[0] if column not in MANY]
numbers = ("fitness", "distance")
data.execute(
    "create table variety (id integer primary key, "
    + ", ".join(f'"{one}" {"real" if one in numbers else "text"}' for one in single)
    + ")"
)
marks = ", ".join("?" * (len(single) + 1))
data.executemany(
    f"insert into variety values ({marks})",
    ([at, *(row[one] for one in single)] for at, row in enumerate(rows)),
)
facets = [one for one in single if one not in (*numbers, "name")]
for facet in facets:
    data.execute(f'create index "by_{facet}" on variety ("{facet}")')
data.execute("create index by_distance on variety (distance)")
for many in MANY:
    data.execute(f'create table "{many}" (id integer, value text, primary key (id, value)) without rowid')
    data.executemany(
        f'insert or ignore into "{many}" values (?, ?)',
        ((at, value) for at, row in enumerate(rows) for value in row[many].split("|") if value),
    )
data.execute("analyze")
data.execute("create temp table hit (id integer primary key)")


def ask(words, form, within):
    """Narrows, ranks and counts every facet, as one keystroke does."""
    wanted, given = ["1"], []
    for word in words.split():
        wanted.append("(name || ' ' || raiser) like ?")
        given.append(f"%{word}%")
    if form:
        wanted.append("form = ?")
        given.append(form)
    if within:
        wanted.append("distance <= ?")
        given.append(float(within))
    data.execute("delete from hit")
    data.execute(f"insert into hit select id from variety where {' and '.join(wanted)}", given)
    first = data.execute(
        "select id from hit join variety using (id) "
        "order by fitness * pow(0.5, distance / ?) desc, name limit 200",
        [HALVES_EVERY],
    ).fetchall()
    counts = [
        data.execute(f'select "{facet}", count(*) from hit join variety using (id) group by 1').fetchall()
        for facet in facets
    ]
    counts += [
        data.execute(f'select value, count(*) from hit join "{many}" using (id) group by 1').fetchall()
        for many in MANY
    ]
    return first, counts


took = []
with open(questions_file, encoding="utf-8") as questions:
    for line in questions:
        words, form, within = line.rstrip("\n").split("\t")
        start = time.perf_counter()
        ask(words, form, within)
        took.append((time.perf_counter() - start) * 1e3)
took.sort()
print(took[len(took) // 2], took[len(took) * 99 // 100])
