"""The stock book's sums and losses, worked out again from the lines of its journal.

    python tests/outside/stock_agrees.py FILE

FILE is stock.json, as written by `cargo test --test all stock::sums` (into target/tmp): the lines of random
books and of the demo's, and our figures. From the lines alone, read by a few expressions and not by our reader:

- which entries count: an entry is out where a withdrawal that is not out came after it and names it or what
  it goes back to by corrections; of what is left of a chain the last made stands;
- what lies where: every tuber by itself in a list, taken one at a time;
- exact intervals: scipy's beta.ppf;
- the share that many tubers of a plant would lose: the posterior mean under beta-binomial laws by a sum over
  400 by 200 equal steps, and its limits by the sum of scipy's beta.cdf.

Exit status 1 where a figure differs, is missing, or where too few were compared.
"""

import collections
import json
import re
import sys

import numpy as np
import scipy
from scipy import stats
from scipy.optimize import brentq
from scipy.special import betaln

COUNTS = "lifted divided stored sound lost potted cuttings given promised sold planted keep".split()
LEAST = {
    "pile": 400,
    "gone": 400,
    "takings": 200,
    "promised": 100,
    "free": 100,
    "price": 60,
    "kept back": 60,
    "winter": 60,
    "exact limit": 100,
    "expected share": 100,
    "expected limit": 20,
}

agreed, faults = collections.Counter(), []


def same(kind, where, ours, theirs, within=0.0):
    """Two figures, or two absences, that should be the same."""
    if ours is None or theirs is None:
        fits = ours is theirs
    else:
        fits = abs(ours - theirs) <= within
    if fits:
        agreed[kind] += 1
    else:
        faults.append(f"{where}: {kind}: we say {ours}, from the lines it is {theirs}")


def parsed(line):
    """An entry of a line, such as (id: 7, date: "2026-04-18", of: "24-001", what: happened((sold: 31)))."""
    head, what = line.split(", what: ", 1)

    def text(name, of):
        found = re.search(rf'\b{name}: "((?:[^"\\]|\\.)*)"', of)
        return found and found.group(1)

    def number(name, of):
        found = re.search(rf"\b{name}: (\d+)", of)
        return found and int(found.group(1))

    day = text("date", head)
    usual = int(day[:4]) - (int(day[5:7]) < 8)
    entry = {
        "id": number("id", head),
        "corrects": number("corrects", head),
        "date": day,
        "of": text("of", head),
        "year": number("year", head) or usual,
        "place": text("place", head) or "",
        "withdraws": what.startswith("withdrawn"),
        "to": text("to", what),
    }
    price = text("price", what)
    entry["price"] = price and round(float(price) * 100)
    entry.update({name: number(name, what) for name in COUNTS})
    return entry


def standing(entries):
    """The entries that count, by date; those of one day by the first that each goes back to."""
    by_id = {entry["id"]: entry for entry in entries}

    def names(entry):
        """The entry that it changes; none where that is another plant's, which changes nothing."""
        other = by_id.get(entry["corrects"])
        return other if other and other["of"] == entry["of"] and other["id"] < entry["id"] else None

    # A withdrawal of nothing is left out, and nothing can name it.
    while lost := [entry for entry in entries if entry["withdraws"] and not names(entry)]:
        entries = [entry for entry in entries if entry not in lost]
        by_id = {entry["id"]: entry for entry in entries}

    def root(entry):
        while names(entry):
            entry = names(entry)
        return entry["id"]

    def goes_back(entry, named):
        while entry:
            if entry is named:
                return True
            entry = None if entry["withdraws"] else names(entry)
        return False

    out = {}
    for entry in reversed(entries):
        later = [by for by in entries if by["id"] > entry["id"] and by["withdraws"] and not out[by["id"]]]
        out[entry["id"]] = any(goes_back(entry, names(by)) for by in later)
    chains = collections.defaultdict(list)
    for entry in entries:
        if not entry["withdraws"] and not out[entry["id"]]:
            chains[root(entry)].append(entry)
    last = [(own[-1]["date"], first, own[-1]) for first, own in chains.items()]
    return [entry for _, _, entry in sorted(last, key=lambda one: one[:2])]


class Bench:
    """Every tuber of one plant and year by itself: a place and a pile."""

    def __init__(self, year):
        self.year, self.ones, self.gone = year, [], collections.Counter()
        self.promises, self.keep, self.price, self.asked = collections.Counter(), None, None, False
        self.lost_in_store = self.left = 0
        self.seen = self.counted = False

    def take(self, place, piles):
        for pile in piles:
            fits = [
                one
                for one in self.ones
                if (one[1] == "pots") == (pile == "pots") and (not place or one[0] == place)
            ]
            if fits:
                one = min(fits, key=lambda one: (one[0], one[1] != "store"))
                self.ones.remove(one)
                return one
        return None

    def enter(self, entry):
        place, new_year = entry["place"], int(entry["date"][:4]) > self.year
        self.ones += [(place, "bench")] * (entry["divided"] or 0) + [(place, "pots")] * (entry["cuttings"] or 0)
        for _ in range(entry["stored"] or 0):
            for at in (place, ""):
                if (at, "bench") in self.ones:
                    self.ones.remove((at, "bench"))
                    break
            self.ones.append((place, "store"))
        for word, piles in (
            ("lost", ("tubers", "pots")),
            ("potted", ("tubers",)),
            ("given", ("tubers", "pots")),
            ("sold", ("tubers", "pots")),
            ("planted", ("pots", "tubers")),
        ):
            for _ in range(entry[word] or 0):
                one = self.take(place, piles)
                if one is None:
                    break
                of_store = one[1] != "pots"
                if word == "potted":
                    self.ones.append((one[0], "pots"))
                else:
                    self.gone[one[0], word] += 1
                if word == "sold":
                    self.gone[one[0], "takings"] += entry["price"] or 0
                if word == "lost":
                    self.lost_in_store += of_store
                    self.seen |= of_store and new_year
                elif of_store and new_year:
                    self.left += 1
                    self.seen = True
        handed = entry["sold"] if entry["sold"] is not None else entry["given"]
        if handed is not None and entry["to"]:
            name = entry["to"].lower()
            self.promises[name] = max(0, self.promises[name] - handed)
        if entry["promised"] is not None:
            free = max(0, len(self.ones) - sum(self.promises.values()))
            self.promises[(entry["to"] or "").lower()] += min(free, entry["promised"])
        if entry["sound"] is not None:
            own = [one for one in self.ones if one[1] != "pots" and (not place or one[0] == place)]
            for _ in range(len(own) - entry["sound"]):
                one = self.take(place, ("tubers",))
                self.gone[one[0], "lost"] += 1
                self.lost_in_store += 1
            self.seen |= new_year
            self.counted |= new_year
        if entry["keep"] is not None:
            self.keep = entry["keep"]
        if entry["price"] is not None:
            if entry["sold"] is None:
                self.price, self.asked = entry["price"], True
            elif not self.asked:
                self.price = entry["price"]

    def winter(self):
        left = sum(one[1] != "pots" for one in self.ones)
        of = self.lost_in_store + self.left + left
        over = self.counted or (left == 0 and self.seen)
        return (self.lost_in_store, of) if over and of else None


def laws(winters):
    """The means and weights of beta laws, and how likely each is after all winters."""
    mean = (np.arange(400) + 0.5) / 400
    spread = (np.arange(200) + 0.5) / 200
    mean, spread = (one.ravel() for one in np.meshgrid(mean, spread))
    tubers = 1 / spread**2 - 1
    a, b = mean * tubers, (1 - mean) * tubers
    weight = sum((betaln(a + x, b + n - x) - betaln(a, b) for x, n in winters if n), np.zeros_like(a))
    likely = np.exp(weight - weight.max())
    keep = likely > 1e-9
    return a[keep], b[keep], likely[keep] / likely[keep].sum()


def book(where, ours, level, with_limits):
    entries = [parsed(line) for line in ours["journal"]]
    by_plant = collections.defaultdict(dict)
    for entry in standing(entries):
        year = entry["year"]
        by_plant[entry["of"]].setdefault(year, Bench(year)).enter(entry)
    if sorted(by_plant) != sorted(one["plant"] for one in ours["plants"]):
        faults.append(f"{where}: other plants: {sorted(by_plant)}")
        return
    winters = {}
    for plant, years in by_plant.items():
        own = [bench.winter() for bench in years.values() if bench.winter()]
        winters[plant] = (sum(x for x, _ in own), sum(n for _, n in own))
    a, b, likely = laws(winters.values())
    same("expected share", f"{where}, new", ours["new"], float((likely * a / (a + b)).sum()), 4e-3)
    tail = (1 - level) / 2
    for one in ours["plants"]:
        at = f"{where}, {one['plant']}"
        years = by_plant[one["plant"]]
        if sorted(years) != sorted(lifting["year"] for lifting in one["liftings"]):
            faults.append(f"{at}: other years: {sorted(years)}")
            continue
        for lifting in one["liftings"]:
            check(f"{at}, {lifting['year']}", lifting, years[lifting["year"]])
        lost, of = winters[one["plant"]]
        same("winter", at, one["lost"], lost)
        same("winter", at, one["of"], of)
        low = stats.beta.ppf(tail, lost, of - lost + 1) if lost else 0.0
        high = stats.beta.ppf(1 - tail, lost + 1, of - lost) if lost < of else 1.0
        same("exact limit", at, one["exact"][0], float(low), 1e-9)
        same("exact limit", at, one["exact"][1], float(high), 1e-9)
        x, y = a + lost, b + of - lost
        same("expected share", at, one["expected"], float((likely * x / (x + y)).sum()), 4e-3)
        if with_limits:
            for part, limit in zip((tail, 1 - tail), one["limits"]):
                theirs = brentq(lambda p: (likely * stats.beta.cdf(p, x, y)).sum() - part, 0, 1, xtol=1e-6)
                same("expected limit", at, limit, theirs, 1.5e-2)


def check(at, ours, bench):
    piles = collections.Counter(bench.ones)
    places = {one["place"] or "" for one in ours["places"]}
    for place in {one[0] for one in bench.ones} | {place for place, _ in bench.gone}:
        if place not in places:
            faults.append(f"{at}: no place {place!r}")
    for one in ours["places"]:
        place = one["place"] or ""
        for pile in ("bench", "store", "pots"):
            same("pile", f"{at}, {place}", one[pile], piles[place, pile])
        for word in ("lost", "sold", "given", "planted"):
            same("gone", f"{at}, {place}, {word}", one[word], bench.gone[place, word])
        same("takings", f"{at}, {place}", one["takings"], bench.gone[place, "takings"])
    promised = sum(bench.promises.values())
    same("promised", at, ours["promised"], promised)
    same("kept back", at, ours["keep"], bench.keep)
    same("free", at, ours["free"], max(0, len(bench.ones) - promised - (bench.keep or 0)))
    same("price", at, ours["price"], bench.price)
    winter = bench.winter()
    same("winter", at, ours["winter"] and ours["winter"][0], winter and winter[0])
    same("winter", at, ours["winter"] and ours["winter"][1], winter and winter[1])


def main(path):
    try:
        with open(path, encoding="utf-8") as file:
            ours = json.load(file)
    except OSError as error:
        faults.append(f"found no figures, expected {path}: {error}")
        return
    for at, one in enumerate(ours["books"]):
        # The sum over beta laws takes its time: of limits some books are enough, the demo's among them.
        book(f"book {at}", one, ours["level"], at % 8 == 0 or one is ours["books"][-1])
    for kind, count in sorted(agreed.items()):
        print(f"{kind:20} {count:6} agree")
    for kind, least in LEAST.items():
        if agreed[kind] < least:
            faults.append(f"found {agreed[kind]} of '{kind}' that agree, expected at least {least}")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: stock_agrees.py FILE")
    print("scipy", scipy.__version__)
    main(sys.argv[1])
    for fault in faults:
        print(fault, file=sys.stderr)
    sys.exit(1 if faults else 0)
