//! What there should be to work with in a week: what is in flower, how many of its stems the needs take,
//! and how many are free.

use crate::account::{Cell, Column, Pair, Part, Section, Table};
use crate::measure::day::Weeks;
use crate::order::model::STEM;
use crate::order::solution::given;
use crate::order::{Order, Plan, Settled};
use crate::variety::Varieties;

/// What a variety in the beds should give in a week.
#[derive(Debug, Clone, PartialEq)]
pub struct ToHand {
    /// The variety's place in the list.
    pub row: usize,
    /// Stems that should be cut, usable.
    pub stems: f64,
    /// Those of them that needs take: the place of the need, and its stems.
    pub promised: Vec<(usize, f64)>,
}

impl ToHand {
    /// Stems that no need takes.
    pub fn free(&self) -> f64 {
        (self.stems - self.taken()).max(0.0)
    }

    fn taken(&self) -> f64 {
        // From 0, for the sum of nothing is less than that.
        self.promised
            .iter()
            .fold(0.0, |sum, (_, stems)| sum + stems)
    }
}

/// What should be in flower in a week of the year, by variety, the most stems first.
pub fn to_hand(
    plan: &Plan,
    settled: &Settled,
    order: &Order,
    list: &Varieties,
    week: u8,
) -> Vec<ToHand> {
    let candidates = &settled.candidates;
    let at = candidates.weeks.iter().position(|own| *own == week);
    let shared = at.map(|at| given(&candidates.model, &order.choice, at));
    let promised = |candidate: usize| -> Vec<(usize, f64)> {
        let needs = shared.iter().flatten().enumerate();
        let own = needs.filter_map(|(need, given)| {
            let own = given.iter().find(|(variety, _)| *variety == candidate)?;
            (own.1 > 0).then(|| (need, own.1 as f64 / STEM as f64))
        });
        own.collect()
    };
    let of = |one: &crate::order::Planted| {
        let first = candidates.first_cuts[one.candidate];
        let each: u64 = plan
            .season
            .gives(&list.list()[one.row], first, &[week])
            .iter()
            .sum();
        ToHand {
            row: one.row,
            stems: (each * one.plants) as f64 / STEM as f64,
            promised: promised(one.candidate),
        }
    };
    let mut all: Vec<ToHand> = order.planted.iter().map(of).collect();
    all.retain(|one| one.stems > 0.0);
    all.sort_by(|one, other| other.stems.total_cmp(&one.stems));
    all
}

/// The same as an account: a row a variety with its colours, and what all come to.
pub fn have(plan: &Plan, settled: &Settled, order: &Order, list: &Varieties, week: u8) -> Section {
    let all = to_hand(plan, settled, order, list, week);
    let weeks = Weeks {
        first: week,
        last: week,
    };
    let told = weeks.told(plan.season.weeks_of());
    let columns = [
        Column::words("variety", "variety"),
        Column::words("colours", "colours"),
        Column::figures("stems", "stems"),
        Column::figures("promised", "promised"),
        Column::figures("free", "free"),
        Column::words("needs", "for"),
    ];
    let row = |one: &ToHand| {
        let variety = &list.list()[one.row];
        let mut colours: Vec<String> = { variety.colours.iter() }
            .map(|note| note.colour.to_string())
            .collect();
        colours.dedup();
        let needs = one.promised.iter().map(|(need, stems)| {
            let name = plan.needs[*need].name.to_string();
            let figures = vec![
                ("need", name.as_str().into()),
                ("stems", Cell::Number(*stems, 1)),
            ];
            Cell::worded(format!("{name} {stems:.0}"), Cell::Record(figures))
        });
        vec![
            variety.name.as_str().into(),
            Cell::worded(colours.join(" and "), Cell::list(colours)),
            whole(one.stems),
            whole(one.taken()),
            whole(one.free()),
            Cell::list(needs),
        ]
    };
    let sum = |of: fn(&ToHand) -> f64| all.iter().map(of).fold(0.0, |sum, one| sum + one);
    let (stems, free) = (sum(|one| one.stems), sum(ToHand::free));
    let told = match all.is_empty() {
        true => format!("Nothing should be in flower in {told}."),
        false => format!(
            "In {told} some {stems:.0} stems should be cut, of which {free:.0} are free of promises. They are what is expected on average; --risk tells how likely each need is met."
        ),
    };
    Section::default()
        .with(Part::Pairs(vec![Pair::data("have_week", week)]))
        .with(Part::sentences("have_told", [told]))
        .with(Part::Table(
            Table::of("have", columns).with(all.iter().map(row)),
        ))
}

/// Week by week of the plan's needs what there should be to work with, in sentences: `week 36 (6 Sep to
/// 12 Sep): 139 stems, 11 of them free. Skerry Barley 7, Wrack Trowel 5 (5 free).`
pub fn weeks_to_hand(
    plan: &Plan,
    settled: &Settled,
    order: &Order,
    list: &Varieties,
) -> Vec<String> {
    let one = |own: &ToHand| {
        let free = own.free().round();
        let free = (free > 0.0).then(|| format!(" ({free:.0} free)"));
        let name = &list.list()[own.row].name;
        format!("{name} {:.0}{}", own.stems, free.unwrap_or_default())
    };
    let week = |week: &u8| {
        let all = to_hand(plan, settled, order, list, *week);
        let sum = |of: fn(&ToHand) -> f64| all.iter().map(of).fold(0.0, |sum, one| sum + one);
        let named: Vec<String> = { all.iter() }
            .filter(|own| own.stems.round() > 0.0)
            .map(one)
            .collect();
        let weeks = Weeks {
            first: *week,
            last: *week,
        };
        format!(
            "{}: {:.0} stems, {:.0} of them free. {}",
            weeks.told(plan.season.weeks_of()),
            sum(|one| one.stems),
            sum(ToHand::free),
            named.join(", ")
        )
    };
    settled.candidates.weeks.iter().map(week).collect()
}

/// Stems for people whole, for programs to a tenth.
fn whole(stems: f64) -> Cell {
    Cell::worded(format!("{stems:.0}"), Cell::Number(stems, 1))
}
