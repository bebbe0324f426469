//! The season as it goes, as an account: week by week, by variety, the promises that are left, and what is
//! free to sell.

use super::weeks_in_words;
use crate::account::text::counted;
use crate::account::{Cell, Column, Pair, Part, Section, Table};
use crate::order::{Free, Going, Plan, SeasonSoFar};

/// Varieties named of a week's free stems.
const MOST_NAMED: usize = 3;

/// The account.
pub fn season_so_far(plan: &Plan, one: &SeasonSoFar) -> Vec<Section> {
    let mut sections = vec![how_it_goes(one), weeks(&one.going), varieties(one)];
    sections.push(match one.left.is_empty() {
        false => promises(plan, one),
        true => Section::under("No need has a week to come that begins after that day."),
    });
    if !one.free.is_empty() {
        sections.push(free(&one.free));
    }
    sections
}

fn percent(share: f64) -> String {
    format!("{:.0} %", share * 100.0)
}

fn how_it_goes(one: &SeasonSoFar) -> Section {
    let Going {
        day, counted: own, ..
    } = &one.going;
    let cut: u32 = own.iter().map(|one| one.cut).sum();
    let planned: f64 = own.iter().map(|one| one.planned).sum();
    let of = (planned > 0.0).then(|| f64::from(cut) / planned);
    let share = of.map_or(String::new(), |of| format!(", {}", percent(of)));
    let of_varieties = counted(own.len(), "variety");
    let [low, middle, high] = one.so_far.season.range().map(percent);
    let told = [
        format!(
            "Up to {day}: {cut} stems cut of {planned:.0} that were planned by then of {of_varieties} that were counted{share}."
        ),
        format!(
            "By that this season gives about {middle} of what is planned, {low} to {high} in nine seasons of ten like it; each variety more or less about that by its own counts."
        ),
    ];
    let [low, middle, high] = one.so_far.season.range();
    Section::default()
        .with(Part::sentences("told", told))
        .with(Part::Pairs(vec![
            Pair::data("day", *day),
            Pair::data(
                "season_likely",
                Cell::list([low, middle, high].map(Cell::Share)),
            ),
            Pair::data("seasons", one.seasons),
        ]))
}

fn weeks(going: &Going) -> Section {
    let columns = [
        Column::figures("week", "week"),
        Column::words("monday", "from"),
        Column::figures("planned", "planned"),
        Column::figures("planned_of_counted", "of it counted"),
        Column::figures("cut", "cut"),
    ];
    let rows = going.weeks.iter().map(|one| {
        let from = one.monday.map(|day| day.strftime("%-d %b").to_string());
        vec![
            one.week.into(),
            Cell::worded(from.unwrap_or_default(), one.monday),
            Cell::Number(one.planned, 0),
            Cell::Number(one.planned_of_counted, 0),
            one.cut.into(),
        ]
    });
    Section::under("Stems by week, planned of all that is planted and of what was counted, and cut")
        .with(Part::Table(Table::of("weeks", columns).with(rows)))
}

fn varieties(one: &SeasonSoFar) -> Section {
    let columns = [
        Column::words("variety", "variety"),
        Column::words("last", "last count"),
        Column::figures("planned", "planned by then"),
        Column::figures("cut", "cut"),
        Column::figures("likely", "now likely"),
        Column::figures("low", "from"),
        Column::figures("high", "to"),
    ];
    let rows = one.going.counted.iter().map(|own| {
        let [low, middle, high] = one.so_far.of_variety(own.candidate).range();
        vec![
            own.variety.as_str().into(),
            own.last.into(),
            Cell::Number(own.planned, 0),
            own.cut.into(),
            Cell::worded(percent(middle), Cell::Share(middle)),
            Cell::worded(percent(low), Cell::Share(low)),
            Cell::worded(percent(high), Cell::Share(high)),
        ]
    });
    Section::under("What each variety is now likely to give, of what is planned")
        .with(Part::Table(Table::of("counted", columns).with(rows)))
}

fn promises(plan: &Plan, one: &SeasonSoFar) -> Section {
    let columns = [
        Column::words("need", "need"),
        Column::words("weeks", "weeks left"),
        Column::figures("chance", "all of them"),
        Column::figures("", "the least"),
    ];
    let rows = one.left.iter().map(|left| {
        let weeks: Vec<u8> = left.weeks.iter().map(|(week, _)| *week).collect();
        let by_week = left.weeks.iter();
        let by_week =
            by_week.map(|(week, chance)| Cell::list([Cell::from(*week), Cell::Share(*chance)]));
        let least = left.weeks.iter().min_by(|a, b| a.1.total_cmp(&b.1));
        let least = least.filter(|_| left.weeks.len() > 1);
        let least = least.map(|(week, chance)| format!("{} in week {week}", percent(*chance)));
        vec![
            left.of.name(plan).into(),
            Cell::worded(weeks_in_words(&weeks), Cell::list(by_week)),
            Cell::Share(left.throughout),
            least.into(),
        ]
    });
    let head = format!(
        "The promises that are left: the chance that each is met, in {} ends of this season drawn at random",
        one.seasons
    );
    Section::under(head).with(Part::Table(Table::of("promises", columns).with(rows)))
}

fn free(weeks: &[Free]) -> Section {
    let columns = [
        Column::figures("week", "week"),
        Column::words("monday", "from"),
        Column::figures("expected", "expected"),
        Column::figures("promised", "promised"),
        Column::figures("free", "free"),
        Column::words("of", "mostly"),
    ];
    let rows = weeks.iter().map(|one| {
        let named = one.of.iter().take(MOST_NAMED);
        let named: Vec<String> = named
            .map(|(name, stems)| format!("{name} {stems:.0}"))
            .collect();
        let more = one.of.len().saturating_sub(MOST_NAMED);
        let more = match more {
            0 => String::new(),
            more => format!(", {more} more"),
        };
        let of = one.of.iter();
        let of = of
            .map(|(name, stems)| Cell::list([Cell::from(name.as_str()), Cell::Number(*stems, 0)]));
        let from = one.monday.map(|day| day.strftime("%-d %b").to_string());
        vec![
            one.week.into(),
            Cell::worded(from.unwrap_or_default(), one.monday),
            Cell::Number(one.expected, 0),
            Cell::Number(one.promised, 0),
            Cell::Number(one.free, 0),
            Cell::worded(format!("{}{more}", named.join(", ")), Cell::list(of)),
        ]
    });
    Section::under("Free to sell: stems that are expected and that no need takes")
        .with(Part::Table(Table::of("free", columns).with(rows)))
}
