"""Drawn plans settled a second time, from what their words mean, by scipy's MILP.

    python tests/outside/order_meaning.py FOLDER

FOLDER holds plan-*.json, as written by `cargo test --test all order::meaning` (into target/tmp/plans): a list
and an order as a grower writes them, what the list says where a need asks for a use or a colour, and the
answer of `trug order --json`. Nothing of our model is read. Stems by week are worked out from the season;
whether an order can be had is asked once for each way to deal with the suppliers (nothing of this one,
that one with postage, a third with enough for free postage), so that no variable says who is bought of;
stems are stems, shared out week by week, and who counts as one of several varieties or forms is said for
each week by itself. Compared are whether there is an order, its least cost, and the least cost whatever
the money. Then our order is checked line by line: offers, packs, terms, sums, beds, tubers, and for
every week an assignment of its stems to the needs, found here; packs that are said only to fill an order
up must be needed for nothing else. Versions in requirements.txt.
Exit status 1 where anything differs, or where the plans show too little.
"""

import collections
import datetime
import itertools
import json
import math
import pathlib
import sys
from fractions import Fraction

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_matrix

# So many plans at least, of each kind.
LEAST = {"plans": 40, "met": 20, "dearer than the money": 2, "impossible": 2, "padded": 5}
# A need is met where it lacks less than this, in stems.
APART = 1e-5
# What the plan does not say (README, `trug order` under "Reckoned with").
STORAGE, WITHIN, FITNESS = 80, 8.0, 0.7
# How much of a bloom shows a colour that is not its main one, by part and pattern.
SHOWS = {"bicolour": 0.5, "blend": 0.25, "self": 0.25, "tipped": 0.25, "flecked": 0.15}
BEHIND = {"reverse": 0.2, "centre": 0.1}
PLANTS_LOST, STEMS_LOST = 5, 10
STEMS_A_WEEK, RAMP, FULL_WEEKS = 1, (0.4, 0.7, 1), 8
FIRST_CUT = {"tubers": 13, "potted": 10}


def hundredths(text):
    return int(Fraction(text) * 100)


def millimetres(text):
    for unit, size in (("mm", 1), ("cm", 10), ("m", 1000)):
        if text.endswith(unit):
            return Fraction(text[: -len(unit)].strip()) * size
    raise ValueError(text)


def day(text):
    return datetime.date.fromisoformat(text)


class Milp:
    """Columns and rows by name, gathered for scipy."""

    def __init__(self):
        self.at, self.cost, self.whole, self.low, self.high = {}, [], [], [], []
        self.rows, self.row_low, self.row_high = [], [], []

    def column(self, name, cost=0, whole=False, low=0, high=np.inf):
        self.at[name] = len(self.cost)
        self.cost.append(cost)
        self.whole.append(whole)
        self.low.append(low)
        self.high.append(high)

    def row(self, cells, low=-np.inf, high=np.inf):
        self.rows.append([(self.at[name], float(value)) for name, value in cells if value])
        self.row_low.append(float(low))
        self.row_high.append(float(high))

    def solved(self):
        """Cost and values by name; None where there is no answer."""
        if not self.cost:
            fits = all(low <= 0 <= high for low, high in zip(self.row_low, self.row_high))
            return (0, {}) if fits else None
        cells = [(at, column, value) for at, row in enumerate(self.rows) for column, value in row]
        at, column, value = zip(*cells) if cells else ((), (), ())
        matrix = coo_matrix((value, (at, column)), shape=(len(self.rows), len(self.cost)))
        # scipy takes no matrix without rows.
        limits = [LinearConstraint(matrix.tocsr(), self.row_low, self.row_high)] if self.rows else []
        found = milp(
            self.cost,
            integrality=np.array(self.whole, dtype=int),
            bounds=Bounds(self.low, self.high),
            constraints=limits,
            options={"mip_rel_gap": 0, "time_limit": 120},
        )
        if found.status == 2:
            return None
        if found.status != 0:
            raise RuntimeError(found.message)
        return found.fun, {name: found.x[at] for name, at in self.at.items()}


class Plan:
    """A plan and the list that it is read with."""

    def __init__(self, read):
        self.plan, self.list, self.facts = read["plan"], read["list"], read["facts"]
        self.needs = self.plan["needs"]
        self.names = [one["name"] for one in self.list]
        self.forms = [one.get("form", {}).get("id") for one in self.list]
        self.weeks = sorted({week for need in self.needs for week in self.runs(need)})
        self.money = hundredths(self.plan["money"]) if "money" in self.plan else None
        self.terms = {one["name"]: one for one in self.plan.get("suppliers", [])}
        self.places = sum(self.bed(bed) for bed in self.plan["beds"])
        kept = Fraction(str(self.plan.get("storage_kept", STORAGE))) / 100
        self.own = [math.floor(one.get("on_hand", 0) * kept) for one in self.list]
        self.offers = list(self.open_offers())
        self.serves = [[self.can_serve(at, need) for need in self.needs] for at in range(len(self.list))]
        self.stems = [[self.by_week(one)[week] for week in self.weeks] for one in self.list]

    @staticmethod
    def runs(need):
        return range(need["weeks"][0], need["weeks"][1] + 1)

    @staticmethod
    def bed(bed):
        length, width, spacing = (millimetres(bed[part]) for part in ("length", "width", "spacing"))
        return (length // spacing) * bed.get("rows", width // spacing)

    def open_offers(self):
        """Variety, supplier, price in hundredths, tubers a pack, least and most packs."""
        fixed = {(one["variety"], one["supplier"]): one["packs"] for one in self.plan.get("fixed", [])}
        for at, one in enumerate(self.list):
            for offer in one.get("offers", []):
                if day(offer.get("closes", "9999-12-31")) < day(self.plan["ordered"]):
                    continue
                packs = fixed.get((one["name"], offer["supplier"]))
                least, most = (0, offer.get("available", np.inf)) if packs is None else (packs, packs)
                if self.plan.get("shortlist_only") and "shortlist" not in one and packs is None:
                    most = 0
                yield at, offer["supplier"], hundredths(offer["price"]), offer["pack"], least, most

    def can_serve(self, at, need):
        if "use" in need:
            fitness = self.facts["fitness"][need["use"]][at]
            if (fitness or 0) < need.get("fitness", FITNESS):
                return False
        if need.get("colours"):
            shades = self.facts["shades"][need["name"]][at]
            if not shades or self.apart(shades, need.get("colour_by", "mostly")) > need.get("within", WITHIN):
                return False
        return not need.get("forms") or self.forms[at] in need["forms"]

    @staticmethod
    def apart(shades, by):
        """How far a bloom is from the nearest of the colours of a need."""
        nearest = [min(one["apart"]) for one in shades]
        petals = [far for far, one in zip(nearest, shades) if one["part"] in ("main", "second")]
        main = [one for one in shades if one["part"] == "main"] or shades[:1]
        if by == "any":
            return min(nearest)
        if by == "every":
            return max(petals or nearest[:1])
        if by == "main":
            return min(min(one["apart"]) for one in main)
        best = math.inf
        for target in range(len(shades[0]["apart"])):
            far = min(one["apart"][target] for one in main)
            best = min(best, far)
            for one in shades:
                if one["part"] != "main":
                    shows = BEHIND.get(one["part"], SHOWS[one["pattern"]])
                    best = min(best, shows * one["apart"][target] + (1 - shows) * far)
        return best

    def by_week(self, one):
        """Usable stems of one plant set out, by week of the year."""
        season = self.plan["season"]
        lost = Fraction(str(season.get("plants_lost", PLANTS_LOST))) / 100
        unfit = Fraction(str(season.get("stems_lost", STEMS_LOST))) / 100
        counts = [count for count in season.get("counted", []) if count["variety"] == one["name"]]
        first = day(season["planted"]) + datetime.timedelta(weeks=self.first_cut(one))
        ramp = [Fraction(str(share)) for share in season.get("ramp", RAMP)]
        stems = {}
        for week in self.weeks:
            monday = datetime.date.fromisocalendar(day(season["planted"]).isocalendar()[0], week, 1)
            days = [monday + datetime.timedelta(days=at) for at in range(7)]
            days = [one for one in days if one < day(season["first_frost"]["date"])]
            if counts:
                cut = sum(cut for count in counts for at, cut in count["stems"] if at == week)
                plants = sum(count["plants"] for count in counts)
                each = Fraction(cut, plants) * Fraction(len(days), 7) * (1 - lost)
            else:
                periods = [(one - first).days // 7 for one in days if one >= first]
                shares = sum(ramp[min(period, len(ramp) - 1)] for period in periods)
                each = self.at_full_flower(one) / 7 * shares * (1 - lost) * (1 - unfit)
            stems[week] = math.floor(1000 * each) / 1000
        return stems

    def first_cut(self, one):
        """Weeks from planting to the first cut: of this variety, else of its form, else of all."""
        season = self.plan["season"]
        for word in (one["name"], one.get("form", {}).get("id")):
            for cut in season.get("first_cuts", []):
                if word in cut["of"]:
                    return cut["weeks"]
        return season.get("weeks_to_first_cut", FIRST_CUT[season.get("method", "tubers")])

    def at_full_flower(self, one):
        """Stems of one plant in a week at full flower: its own figure, else that for all."""
        for who in (one, self.plan["season"]):
            if "stems_a_week" in who:
                return Fraction(str(who["stems_a_week"]))
            if "stems_a_plant" in who:
                return Fraction(who["stems_a_plant"], FULL_WEEKS)
        return Fraction(STEMS_A_WEEK)

    def share_out(self, program, week, plants):
        """Rows that share a week's stems out; `plants` gives a variety's cells and constant."""
        place = self.weeks.index(week)
        running = [at for at, need in enumerate(self.needs) if week in self.runs(need)]
        for at in range(len(self.list)):
            grown = self.stems[at][place]
            mine = [need for need in running if self.serves[at][need]]
            for need in mine:
                share = self.needs[need].get("most_from_one", 100)
                most = float(Fraction(self.needs[need]["stems"] * share, 100))
                program.column(("gives", at, need, week), high=most)
            cells, there = plants(at)
            given = [(("gives", at, need, week), 1) for need in mine]
            program.row(given + [(name, -grown * each) for name, each in cells], high=grown * there)
        for need in running:
            asked = self.needs[need]
            able = [at for at in range(len(self.list)) if self.serves[at][need]]
            program.row([(("gives", at, need, week), 1) for at in able], low=asked["stems"])
            if self.counts(asked):
                self.count(program, week, need, able)

    @staticmethod
    def counts(need):
        return max(need.get("varieties", 1), need.get("different_forms", 1)) > 1

    def count(self, program, week, need, able):
        """In this week so many varieties, of so many forms, give it so many stems each."""
        asked = self.needs[need]
        forms = collections.defaultdict(list)
        for at in able:
            column = ("counts", at, need, week)
            program.column(column, whole=True, high=1)
            program.row([(("gives", at, need, week), 1), (column, -asked.get("each", 1))], low=0)
            forms[self.forms[at]].append((column, 1))
        program.row([cell for cells in forms.values() for cell in cells], low=asked.get("varieties", 1))
        for form, cells in forms.items():
            program.column(("form", form, need, week), whole=True, high=1)
            program.row([*cells, (("form", form, need, week), -1)], low=0)
        of_forms = [(("form", form, need, week), 1) for form in forms]
        program.row(of_forms, low=asked.get("different_forms", 1))

    def ways(self, supplier):
        """How to deal with a supplier: postage, and the least and most worth of what is bought."""
        terms = self.terms.get(supplier)
        if terms is None:
            return [(0, 0, np.inf)]
        least, postage = hundredths(terms.get("least", "0")), hundredths(terms["postage"])
        ways = [(0, None, None)]
        free = hundredths(terms["free_over"]) if "free_over" in terms and postage else None
        if free is None or free > least:
            ways.append((postage, least, np.inf))
        if free is not None:
            ways.append((0, max(least, free), np.inf))
        return ways

    def least_cost(self):
        """The least cost in hundredths whatever the money; None where no order meets every need."""
        suppliers = sorted({offer[1] for offer in self.offers})
        best = None
        for ways in itertools.product(*map(self.ways, suppliers)):
            found = self.least_by(dict(zip(suppliers, ways)), best)
            best = best if found is None else found
        return best

    def least_by(self, ways, best):
        """The least cost by one way with each supplier; None where it is no less than the best."""
        program = Milp()
        for at in range(len(self.list)):
            program.column(("plants", at), whole=True)
        for at, (_, supplier, price, _, least, most) in enumerate(self.offers):
            if ways[supplier][1] is None:
                most = 0
            if most < least:
                return None
            program.column(("packs", at), cost=price, whole=True, low=least, high=most)
        for at in range(len(self.list)):
            bought = [(("packs", own), -offer[3]) for own, offer in enumerate(self.offers) if offer[0] == at]
            program.row([(("plants", at), 1), *bought], high=self.own[at])
        program.row([(("plants", at), 1) for at in range(len(self.list))], high=self.places)
        for form in self.plan.get("try", []):
            program.row([(("plants", at), 1) for at, own in enumerate(self.forms) if own == form], low=1)
        for supplier, (_, low, high) in ways.items():
            if low:
                own = [(("packs", at), offer[2]) for at, offer in enumerate(self.offers) if offer[1] == supplier]
                program.row(own, low=low, high=high)
        postage = sum(way[0] for way in ways.values())
        if best is not None:
            goods = [(("packs", at), offer[2]) for at, offer in enumerate(self.offers)]
            program.row(goods, high=best - postage - 1)
        for week in self.weeks:
            self.share_out(program, week, lambda at: ([(("plants", at), 1)], 0))
        solved = program.solved()
        return None if solved is None else round(solved[0]) + postage

    def lacking(self, plants):
        """The weeks in which these plants' stems cannot be shared out so that every need is met."""
        for week in self.weeks:
            program = Milp()
            self.share_out(program, week, lambda at: ([], plants[at] + 1e-9))
            if program.solved() is None:
                yield week


def checked(plan, answer):
    """What is wrong with an order that is said to meet every need, line by line."""
    cents = lambda value: round(value * 100)
    offers = {(plan.names[offer[0]], offer[1], offer[2], offer[3]): offer for offer in plan.offers}
    bought, packs, worth = [0] * len(plan.list), collections.Counter(), collections.Counter()
    for line in answer["lines"]:
        name = line["variety"], line["supplier"], cents(line["price"]), line["tubers"] // line["packs"]
        offer = offers.get(name)
        if offer is None:
            yield f"no open offer is {name}"
            continue
        if cents(line["cost"]) != offer[2] * line["packs"] or line["tubers"] != offer[3] * line["packs"]:
            yield f"packs of {name} do not add up"
        bought[offer[0]] += line["tubers"]
        packs[name] += line["packs"]
        worth[line["supplier"]] += cents(line["cost"])
    for name, offer in offers.items():
        if not offer[4] <= packs[name] <= offer[5]:
            yield f"{packs[name]} packs of {name} of {offer[4]} to {offer[5]}"
    cost = 0
    told = {one["supplier"]: one for one in answer["suppliers"]}
    if told.keys() != worth.keys():
        yield f"bought of {set(worth)}, told of {set(told)}"
    for supplier, goods in worth.items():
        terms = plan.terms.get(supplier, {"postage": "0"})
        if goods < hundredths(terms.get("least", "0")):
            yield f"{supplier} takes no order of {goods}"
        free = "free_over" in terms and goods >= hundredths(terms["free_over"])
        postage = 0 if free else hundredths(terms["postage"])
        if [cents(told[supplier][part]) for part in ("goods", "postage")] != [goods, postage]:
            yield f"{supplier}: {told[supplier]}, expected {goods} and {postage}"
        cost += goods + postage
    if cost != cents(answer["cost"]) or (plan.money is not None and cost > plan.money):
        yield f"the lines cost {cost}, {answer['cost']} is told, the money is {plan.money}"
    plants = [0] * len(plan.list)
    for one in answer["planted"]:
        at = plan.names.index(one["variety"])
        plants[at] = one["plants"]
        if (one["on_hand"], one["bought"]) != (plan.own[at], bought[at]):
            yield f"{one}: on hand {plan.own[at]}, bought {bought[at]}"
        if one["plants"] + one["spare"] != plan.own[at] + bought[at] or one["spare"] < 0:
            yield f"{one}: tubers do not add up"
    if sum(plants) > plan.places:
        yield f"{sum(plants)} plants in {plan.places} places"
    for form in plan.plan.get("try", []):
        if not any(number for number, own in zip(plants, plan.forms) if own == form):
            yield f"no {form} is planted"
    for week in plan.lacking(plants):
        yield f"week {week}: not every need can be met"
    yield from padding_wrong(plan, answer, plants)


def padding_wrong(plan, answer, plants):
    """What is wrong with the packs that are said only to fill an order up: without all of them every
    need must be met, and each term that they reach be missed."""
    plants, left = list(plants), collections.Counter()
    planted = {one["variety"]: one for one in answer["planted"]}
    for line in answer["lines"]:
        left[line["supplier"]] += line["cost"]
        if line["padding"]:
            at, fewer = plan.names.index(line["variety"]), line["padding"]["packs"]
            tubers = planted[line["variety"]]["spare"] + plants[at]
            plants[at] = min(plants[at], tubers - fewer * (line["tubers"] // line["packs"]))
            planted[line["variety"]]["spare"] = tubers - plants[at] - fewer * (line["tubers"] // line["packs"])
            left[line["supplier"]] -= fewer * line["price"]
    for line in answer["lines"]:
        if line["padding"]:
            limits = [line["padding"][limit] for limit in ("least", "free_over")]
            limits = [limit for limit in limits if limit is not None]
            if not limits or any(left[line["supplier"]] > limit - 0.005 for limit in limits):
                yield f"{line} reaches nothing: without it {left[line['supplier']]:.2f}"
    for week in plan.lacking(plants):
        yield f"week {week}: what fills an order up is needed"


def main(folder):
    faults, seen = [], collections.Counter()
    for path in sorted(pathlib.Path(folder).glob("plan-*.json")):
        read = json.loads(path.read_text(encoding="utf-8"))
        plan, answer = Plan(read), read["answer"]
        cost = plan.least_cost()
        within = cost is not None and (plan.money is None or cost <= plan.money)
        expected = ("optimal", cost, None) if within else ("short", None, cost)
        of = lambda name: None if answer[name] is None else round(answer[name] * 100)
        found = (answer["status"], of("cost") if within else None, of("all_needs_cost"))
        padded = any(line["padding"] for line in answer["lines"])
        print(f"{path.name}  {expected[0]:8} {cost if cost is not None else '-':>7}{'  padded' if padded else ''}")
        if found != expected:
            faults.append(f"{path.name}: we say {found}, expected {expected}")
        elif within:
            faults.extend(f"{path.name}: {told}" for told in checked(plan, answer))
        seen["plans"] += 1
        seen["met" if within else "impossible" if cost is None else "dearer than the money"] += 1
        seen["padded"] += within and padded
    faults.extend(
        f"found {seen[kind]} {kind}, expected at least {least}"
        for kind, least in LEAST.items()
        if seen[kind] < least
    )
    return faults


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: order_meaning.py FOLDER")
    FAULTS = main(sys.argv[1])
    for fault in FAULTS:
        print(fault, file=sys.stderr)
    sys.exit(1 if FAULTS else 0)
