//! What each need gets, and what is planted for it.

use super::work::{needs_of, stems_and_weeks};
use crate::account::{Cell, Column, Part, Section, Table};
use crate::order::report::why::of_need;
use crate::order::report::{Lack, lacking, weeks_in_words};
use crate::order::{Gives, Match, Need, Order, Plan, Planted, Promise, Promised, Settled, Weekly};
use crate::variety::Ground;

/// Varieties that are named as giving most of a need.
const MOST_NAMED: usize = 2;

/// Each need, whether it is met and in how many seasons of a hundred, and which varieties give most of it.
pub fn needs(plan: &Plan, settled: &Settled, order: &Order) -> Section {
    let lacks = &lacking(settled);
    let columns = [
        Column::words("", "need"),
        Column::figures("", "a week"),
        Column::words("", "weeks"),
        Column::words("", "met"),
        Column::words("", "most from"),
    ];
    let row = |(at, need): (usize, &Need)| {
        let weeks: Vec<u8> = (need.weeks.0..=need.weeks.1).collect();
        let short = order.short().filter(|one| one.need == at).count();
        let met = match short {
            0 if lacks.iter().any(|lack| lack.need == Some(at)) => "too few kinds".to_string(),
            0 => met(settled, at),
            short => format!("short, {short} w"),
        };
        let stems = need.stems.to_string();
        // What an event comes to stands under its name.
        let part = need.of_work.as_ref().map(|from| format!("  {}", from.part));
        let cells = [
            part.unwrap_or(need.name.to_string()),
            stems,
            weeks_in_words(&weeks),
            met,
            most_from(order, at),
        ];
        cells.map(Cell::from).to_vec()
    };
    let own = plan.needs.iter().enumerate();
    let own = own.filter(|(_, need)| need.of_work.is_none()).map(row);
    let mut told = Table::of("", columns).with(own);
    for (at, work) in plan.work.iter().enumerate() {
        let (stems, weeks) = stems_and_weeks(plan, at);
        let parts: Vec<usize> = needs_of(plan, at).map(|(need, _)| need).collect();
        let met = match parts.iter().any(|need| falls_short(order, lacks, *need)) {
            true => "not all".to_string(),
            false => work_met(settled, at, &parts),
        };
        let (name, stems) = (work.name.to_string(), stems.to_string());
        let cells = [name, stems, weeks_in_words(&weeks), met, work.when.told()];
        told.rows.push(cells.map(Cell::from).to_vec());
        told.rows.extend(needs_of(plan, at).map(row));
    }
    let row = |one: &Weekly| {
        let stems = [one.needed, one.given].map(|stems| Cell::Number(stems, 1));
        let [needed, given] = stems;
        let name = plan.needs[one.need].name.to_string();
        vec![name.into(), one.week.into(), needed, given]
    };
    let weekly = Table::data("needs", ["need", "week", "needed", "given"])
        .with(order.weekly.iter().map(row));
    Section::default()
        .with(Part::Table(told))
        .with(Part::Table(weekly))
}

/// How a need that is met in a usual season is met: in so many seasons of a hundred, where it was settled for
/// that.
fn met(settled: &Settled, need: usize) -> String {
    let promise = settled.promise(Promised::Need(need));
    promise.map_or("yes".to_string(), Promise::told)
}

/// The same of an event or a round as one; of one that comes to a single need, as of that.
fn work_met(settled: &Settled, work: usize, parts: &[usize]) -> String {
    let promise = settled.promise(Promised::Work(work));
    match (promise, parts) {
        (Some(promise), _) => promise.told(),
        (None, [need]) => met(settled, *need),
        (None, _) => "yes".to_string(),
    }
}

/// Whether a need lacks stems, varieties or forms.
fn falls_short(order: &Order, lacks: &[Lack], need: usize) -> bool {
    order.short().any(|one| one.need == need) || lacks.iter().any(|lack| lack.need == Some(need))
}

/// `Tangle Furnace 38 %, Taing Smokehouse 28 %`.
fn most_from(order: &Order, need: usize) -> String {
    let given = order.planted.iter().flat_map(|one| {
        let own = one.gives.iter().filter(|gives| gives.need == need);
        own.map(|gives| (gives.stems, one.variety.as_str()))
    });
    let mut given: Vec<(f64, &str)> = given.collect();
    given.sort_by(|one, other| other.0.total_cmp(&one.0));
    let all: f64 = given.iter().map(|(stems, _)| stems).sum();
    let most = given.iter().take(MOST_NAMED);
    let most = most.map(|(stems, variety)| format!("{variety} {:.0} %", stems / all * 100.0));
    most.collect::<Vec<_>>().join(", ")
}

/// What is planted: how much of the beds and the money it takes, tubers to spare and tubers from the
/// grower's own store; variety by variety for programs.
pub fn planted(plan: &Plan, settled: &Settled, order: &Order) -> Section {
    let money = match plan.money {
        None => "no limit of money".to_string(),
        Some(money) => format!("{} of {money}", order.cost),
    };
    let places = plan.places();
    let mut told = vec![format!(
        "{} plants in {places} places; {money}.",
        order.plants
    )];
    let listed = |lead: &str, count: fn(&Planted) -> u64| {
        let own = order.planted.iter().filter(|one| count(one) > 0);
        let own: Vec<String> = own
            .map(|one| format!("{} {}", one.variety, count(one)))
            .collect();
        (!own.is_empty()).then(|| format!("{lead}: {}.", own.join(", ")))
    };
    told.extend(listed("Spare tubers", |one| one.spare));
    let store = "From your own store (what is expected to keep)";
    told.extend(listed(store, |one| one.plants.min(one.on_hand)));
    let row = |one: &Planted| {
        let weeks = settled.candidates.first_cuts.get(one.candidate);
        let first = weeks.map(|weeks| plan.season.first_cut(*weeks));
        vec![
            one.variety.as_str().into(),
            one.plants.into(),
            one.on_hand.into(),
            one.bought.into(),
            one.spare.into(),
            first.into(),
            Cell::list(one.gives.iter().map(|gives| {
                let matches = &settled.candidates.matches[one.candidate];
                given(plan, gives, of_need(matches, gives.need))
            })),
        ]
    };
    let rows = Table::data(
        "planted",
        [
            "variety",
            "plants",
            "on_hand",
            "bought",
            "spare",
            "first_cut",
            "gives",
        ],
    )
    .with(order.planted.iter().map(row));
    Section::default()
        .with(Part::sentences("", told))
        .with(Part::Table(rows))
}

fn given(plan: &Plan, gives: &Gives, own: Option<&Match>) -> Cell {
    let number =
        |value: Option<f64>, digits| value.map_or(Cell::Nothing, |one| Cell::Number(one, digits));
    let rests = own.and_then(|own| own.rests);
    let known = rests.map_or(Cell::Nothing, |rests| {
        let by = |ground: Ground| (ground.word(), Cell::list(rests.on(ground)));
        Cell::Record(Ground::ALL.map(by).to_vec())
    });
    Cell::Record(vec![
        ("need", plan.needs[gives.need].name.to_string().into()),
        ("weeks", Cell::list(gives.weeks.iter().copied())),
        ("stems", Cell::Number(gives.stems, 1)),
        ("fitness", number(own.and_then(|own| own.fitness), 3)),
        ("distance", number(own.and_then(|own| own.distance), 1)),
        ("known", known),
    ])
}
