//! Events and rounds: what each comes to in stems, by part and week.

use crate::account::{Cell, Column, Part, Section, Table};
use crate::measure::days;
use crate::order::report::weeks_in_words;
use crate::order::told::spaced;
use crate::order::{Count, Need, Pieces, Plan, When, Work};
use crate::variety::Text;

/// Each event and round of a plan whose needs are worked out ([`Plan::whole`]): its pieces, and the stems
/// that they take, part by part, with their weeks and the day of the cut.
pub fn work(plan: &Plan, pieces: &Pieces) -> Vec<Section> {
    let mut sections: Vec<Section> = (plan.work.iter().enumerate())
        .map(|(at, work)| one(plan, (at, work), pieces))
        .collect();
    if sections.is_empty() {
        let told = "No events or rounds are in the order: --add-event and --add-round try one.";
        sections.push(Section::default().with(Part::sentences("", [told])));
    }
    sections.push(Section::default().with(Part::Table(data(plan))));
    sections
}

/// The needs of an event or a round, each with its place.
pub fn needs_of(plan: &Plan, at: usize) -> impl Iterator<Item = (usize, &Need)> {
    let of_it = move |need: &Need| need.of_work.as_ref().is_some_and(|from| from.work == at);
    let needs = plan.needs.iter().enumerate();
    needs.filter(move |(_, need)| of_it(need))
}

/// Stems of an event or a round in all, of a round a week, and its weeks.
pub fn stems_and_weeks(plan: &Plan, at: usize) -> (u64, Vec<u8>) {
    let needs = || needs_of(plan, at).map(|(_, need)| need);
    let first = needs().map(|need| need.weeks.0).min().unwrap_or(1);
    let last = needs().map(|need| need.weeks.1).max().unwrap_or(0);
    let stems = needs().map(|need| u64::from(need.stems.get())).sum();
    (stems, (first..=last).collect())
}

fn one(plan: &Plan, (at, work): (usize, &Work), pieces: &Pieces) -> Section {
    let (stems, weeks) = stems_and_weeks(plan, at);
    let each = if work.is_event() {
        "stems"
    } else {
        "stems a week"
    };
    let columns = [
        Column::words("", "part"),
        Column::words("", "for"),
        Column::figures("", each),
        Column::words("", "weeks"),
        Column::words("", "cut"),
    ];
    let row = |(_, need): (usize, &Need)| {
        let from = need.of_work.as_ref();
        let for_use = need.for_use.as_ref();
        let for_use = for_use.map_or("any use".to_string(), spaced);
        let weeks: Vec<u8> = (need.weeks.0..=need.weeks.1).collect();
        let cut = from.map_or(String::new(), |from| match work.when {
            When::On(_) => from.cut.strftime("%a %-d %b").to_string(),
            When::Every { .. } => from.cut.strftime("%As").to_string(),
        });
        vec![
            from.map_or(String::new(), |from| from.part.to_string())
                .into(),
            for_use.into(),
            need.stems.get().to_string().into(),
            weeks_in_words(&weeks).into(),
            cut.into(),
        ]
    };
    let mut table = Table::of("", columns).with(needs_of(plan, at).map(row));
    let all = ["all", "", &stems.to_string(), &weeks_in_words(&weeks), ""];
    table.rows.push(all.map(Cell::from).to_vec());
    let of_colours: Vec<&str> = work.colours.iter().map(Text::as_str).collect();
    let of_colours = match of_colours.is_empty() {
        true => String::new(),
        false => format!("; {}", crate::form::traits::list_or(&of_colours)),
    };
    let told = format!("{}{of_colours}.", work.pieces_told(Some(pieces)));
    let head = format!("{}, {} on {}", work.name, work.kind(), work.when.told());
    Section::under(head)
        .with(Part::sentences("", [told]))
        .with(Part::Table(table))
        .with(Part::sentences("", [cut_told(plan, at, work)]))
}

/// When it is cut and why then, in a sentence or two.
fn cut_told(plan: &Plan, at: usize, work: &Work) -> String {
    let asked = work.cut_before.unwrap_or_else(|| plan.days_before());
    let assumed = match work.cut_before.or(plan.cut_before) {
        Some(_) => "",
        None => " (assumed)",
    };
    let mut told = format!(
        "Cut {} before{assumed}; spares are counted.",
        days(asked.into())
    );
    let later = cut_later(plan, at);
    if !later.is_empty() {
        told += &format!(
            " Cut later, since half of what fits the use lasts no longer in the vase: {}.",
            later.join(", ")
        );
    }
    told
}

/// The uses whose flowers do not last from the day that was asked: `low bowl (4 days before: 5.3 days)`.
fn cut_later(plan: &Plan, at: usize) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    for (_, need) in needs_of(plan, at) {
        let lasts = need
            .of_work
            .as_ref()
            .and_then(|from| Some((from.before, from.lasts?)));
        if let Some(((before, lasts), id)) = lasts.zip(need.for_use.as_ref()) {
            let [before, lasts] = [f64::from(before), (lasts * 10.0).round() / 10.0].map(days);
            let name = spaced(id);
            told.push(format!("{name} ({before} before: {lasts})"));
        }
    }
    // The parts of a use stand together.
    told.dedup();
    told
}

/// Events and rounds for programs: the needs are named as among `needs`.
fn data(plan: &Plan) -> Table {
    let columns = [
        "name", "kind", "when", "first", "last", "pieces", "colours", "sure", "stems", "needs",
    ];
    let row = |(at, work): (usize, &Work)| {
        let ends = work.when.ends();
        let pieces = work.pieces.iter().map(|Count(number, name)| {
            Cell::Record(vec![
                ("piece", name.as_str().into()),
                ("number", u64::from(number.get()).into()),
            ])
        });
        let needs = needs_of(plan, at).map(|(_, need)| {
            let from = need.of_work.as_ref();
            Cell::Record(vec![
                ("need", need.name.as_str().into()),
                ("part", from.map_or("", |from| from.part.as_str()).into()),
                ("stems", u64::from(need.stems.get()).into()),
                ("weeks", Cell::list(need.weeks.0..=need.weeks.1)),
                ("cut", from.map(|from| from.cut).into()),
                (
                    "days_before",
                    from.map(|from| u64::from(from.before)).into(),
                ),
            ])
        });
        vec![
            work.name.as_str().into(),
            work.kind().into(),
            work.when.told().into(),
            ends.map(|ends| ends.0).into(),
            ends.map(|ends| ends.1).into(),
            Cell::list(pieces),
            Cell::list(work.colours.iter().map(Text::as_str)),
            work.sureness().map_or(Cell::Nothing, Cell::Share),
            stems_and_weeks(plan, at).0.into(),
            Cell::list(needs),
        ]
    };
    Table::data("work", columns).with(plan.work.iter().enumerate().map(row))
}
