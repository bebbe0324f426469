"""The chances that orders promise, drawn a second time from what the plan's words mean, by numpy.

    python tests/outside/order_sure.py FOLDER

FOLDER holds sure-*.json, as written by `cargo test --test all order::sure` (into target/tmp/sure): a list and an
order as a grower writes them, what the list says where a need asks for a use or a colour, and the answer of
`trug order --json`. Nothing of our model is read, and no number of our draws: only what is planted. Seasons are
drawn here by the laws that `trug order --risk` tells in words, day by day; who gets what where stems lack is not
worked out by a flow, but by what any flow obeys: needs that are served first have together as much as if there
were no others (the least, over all sets of them, of what the others want and what can reach the set: Ford and
Fulkerson, Flows in Networks, 1962, from memory), so a need has all its stems where those before it and itself have
as much more than those before it alone as it asks for.

Each chance has to agree within 4.5 standard errors of both samples and half a percent.
Exit status 1 where one does not, or where the plans show too little.
"""

import datetime
import json
import math
import pathlib
import sys

import numpy as np
from scipy.stats import norm

from order_meaning import Plan, day

# So many plans and promises at least, so many of them of an event as one, and so many neither nearly sure nor
# nearly hopeless.
LEAST = {"plans": 20, "promises": 30, "as one": 5, "doubtful": 10}
# `trug order --risk`: one standard deviation of the logarithm, and of how many a share lost is as if counted.
SEASON, KNOWN, COUNTED = 0.15, 0.10, 20
# Nine varieties of ten gave 5 to 12 stems.
UNKNOWN = math.log(12 / 5) / (2 * 1.645)
# Served in turn by how sure; where neither need nor grower says so, by the usual.
USUALLY = 0.8
OURS, DRAWN = 10_000, 4_000
ERRORS, APART = 4.5, 0.005


def curve(frost, last):
    """Middle and spread, in days as ordinals, of a frost by date or by two risk levels: the chance that it comes
    after the day (the last), or before it (the first)."""
    if "date" in frost:
        return day(frost["date"]).toordinal(), 0.0
    (one, other) = frost["risks"]
    days = [day(risk["on"]).toordinal() for risk in (one, other)]
    before = lambda risk: 1 - risk["chance"] / 100 if last else risk["chance"] / 100
    deviations = [norm.ppf(before(risk)) for risk in (one, other)]
    spread = (days[1] - days[0]) / (deviations[1] - deviations[0])
    return days[0] - deviations[0] * spread, abs(spread)


class Season(Plan):
    """A plan whose frosts are curves, and what is drawn of it."""

    def by_week(self, one):
        return {week: 0 for week in self.weeks}

    def draw(self, dice, count):
        season = self.plan["season"]
        share = lambda word, usual: season.get(word, usual) / 100
        self.lost, unfit = share("plants_lost", 5), share("stems_lost", 10)
        frosts = {}
        for word in ("last_frost", "first_frost"):
            middle, spread = curve(season[word], word == "last_frost")
            # A frost is on a day.
            frosts[word] = np.round(middle + spread * dice.standard_normal(count)).astype(int)
        self.late = np.maximum(frosts["last_frost"] - day(season["planted"]).toordinal(), 0)
        self.frost = frosts["first_frost"]
        beta = lambda mean: dice.beta(mean * COUNTED, (1 - mean) * COUNTED, count) if mean else np.zeros(count)
        self.share_lost = beta(self.lost)
        self.usable = 1 - beta(unfit)
        self.good = self.about_one(dice, SEASON, count)

    @staticmethod
    def about_one(dice, spread, count):
        return np.exp(spread * dice.standard_normal(count) - spread**2 / 2)

    def gives(self, dice, one, plants):
        """Stems of so many plants, by week, then season."""
        season, count = self.plan["season"], len(self.late)
        known = "stems_a_week" in one or "stems_a_plant" in one
        own = self.about_one(dice, KNOWN if known else UNKNOWN, count)
        stand = dice.binomial(plants, 1 - self.share_lost)
        first = day(season["planted"]).toordinal() + 7 * self.first_cut(one) + self.late
        ramp = np.array([float(share) for share in season.get("ramp", (0.4, 0.7, 1))])
        year = day(season["planted"]).isocalendar()[0]
        each = float(self.at_full_flower(one)) / 7
        weeks = []
        for week in self.weeks:
            monday = datetime.date.fromisocalendar(year, week, 1).toordinal()
            full = np.zeros(count)
            for today in range(monday, monday + 7):
                period = np.clip((today - first) // 7, 0, len(ramp) - 1)
                full += np.where((today >= first) & (today < self.frost), ramp[period], 0)
            weeks.append(each * full * stand * own * self.good * self.usable)
        return weeks

    def chances(self, dice, planted, count):
        """By need: the seasons in which it has all its stems in all its weeks."""
        self.draw(dice, count)
        rows = {one["name"]: at for at, one in enumerate(self.list)}
        grown = {rows[name]: self.gives(dice, self.list[rows[name]], plants) for name, plants in planted}
        met = np.ones((len(self.needs), count), dtype=bool)
        turns = sorted(range(len(self.needs)), key=lambda need: -self.needs[need].get("sure", USUALLY))
        for place, week in enumerate(self.weeks):
            running = [need for need in turns if week in self.runs(self.needs[need])]
            supply = {at: stems[place] for at, stems in grown.items()}
            before = np.zeros(count)
            for last, need in enumerate(running):
                most = self.most_shared(running[: last + 1], supply, count)
                met[need] &= most - before >= self.needs[need]["stems"] - 1e-2
                before = most
        return dict(zip((need["name"] for need in self.needs), met))

    def most_shared(self, needs, supply, count):
        """What these needs can have together: the least over the sets of them."""
        least = np.full(count, np.inf)
        for chosen in range(1 << len(needs)):
            within = [need for at, need in enumerate(needs) if chosen >> at & 1]
            others = sum(self.needs[need]["stems"] for need in needs if need not in within)
            through = np.full(count, float(others))
            for at, stems in supply.items():
                caps = [self.cap(need) for need in within if self.serves[at][need]]
                if caps:
                    through += np.minimum(stems, sum(caps))
            least = np.minimum(least, through)
        return least

    def cap(self, need):
        asked = self.needs[need]
        share = asked.get("most_from_one")
        return asked["stems"] * share / 100 if share else np.inf


def main(folder):
    files = sorted(pathlib.Path(folder).glob("sure-*.json"))
    seen = {"plans": len(files), "promises": 0, "as one": 0, "doubtful": 0}
    worst, wrong = 0.0, []
    for number, file in enumerate(files):
        read = json.loads(file.read_text())
        plan, dice = Season(read), np.random.default_rng(20_270_000 + number)
        planted = [(one["variety"], one["plants"]) for one in read["answer"]["planted"] if one["plants"]]
        met = plan.chances(dice, planted, DRAWN)
        promised = [promise["need"] for promise in read["answer"]["promises"] if not promise["as_one"]]
        assert promised == list(met), file
        for promise in read["answer"]["promises"]:
            name, told = promise["need"], promise["chance"]
            # An event is met as one where none of its parts fails.
            parts = [own for need, own in met.items() if need.startswith(f"{name}: ")]
            chance = (np.all(parts, axis=0) if promise["as_one"] else met[name]).mean()
            seen["as one"] += promise["as_one"]
            middle = min(max((told * OURS + chance * DRAWN) / (OURS + DRAWN), 1 / DRAWN), 1 - 1 / DRAWN)
            error = math.sqrt(middle * (1 - middle) * (1 / OURS + 1 / DRAWN))
            seen["promises"] += 1
            seen["doubtful"] += 0.1 < told < 0.95
            off = abs(told - chance)
            worst = max(worst, (off - APART) / error)
            if off > ERRORS * error + APART:
                wrong.append(f"{file.name}: {name}: told {told:.4f}, drawn here {chance:.4f}")
    print(f"{seen}; the farthest apart {worst:.2f} standard errors over {APART}")
    print("\n".join(wrong))
    few = [word for word, least in LEAST.items() if seen[word] < least]
    if few:
        print("too few:", ", ".join(few))
    return 1 if wrong or few else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
