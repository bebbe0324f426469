"""Days and their weeks by Python's datetime, written as people write them: tests/data/days.csv.

    python tests/outside/days.py > tests/data/days.csv

Each line is a day, and ways of writing it; the last two name its week (ISO 8601, by isocalendar), of
which `monday` is the first day. The days are those about every new year from 2000 to 2060, where weeks and
years part, and every 29 February. The module is part of Python; nothing is installed.
"""

import csv
import datetime
import sys

DAY = datetime.timedelta(days=1)


def days():
    for year in range(2000, 2061):
        first = datetime.date(year, 12, 28)
        yield from (first + n * DAY for n in range(8))
        if year % 4 == 0:
            yield datetime.date(year, 2, 29)


def row(day):
    year, week, weekday = day.isocalendar()
    monday = datetime.date.fromisocalendar(year, week, 1)
    number, month = day.day, day.strftime("%B")
    return [
        day.isoformat(),
        f"{number} {month} {day.year}",
        f"{month[:3]} {number}, {day.year}",
        day.strftime("%A, %-d %b %y"),
        day.strftime("%d.%m.%Y"),
        day.strftime("%-d/%b/%Y"),
        f"{year}-W{week:02}-{weekday}",
        monday.isoformat(),
        f"week {week} {year}",
    ]


rows = csv.writer(sys.stdout, lineterminator="\n")
rows.writerow(["day", "typed", "typed", "typed", "typed", "typed", "typed", "monday", "week"])
rows.writerows(row(day) for day in days())
