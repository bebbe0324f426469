//! After the season: what came in against what was planned, by variety.

use std::num::NonZeroU32;

use super::weeks_in_words;
use crate::account::{Cell, Column, Pair, Part, Section, Table};
use crate::form::RuleSet;
use crate::order::{Cut, Plan, RowCount, Season, week_of};
use crate::variety::{Text, Varieties, Variety};

/// A variety's season.
#[derive(Debug, Clone, PartialEq)]
pub struct Brought {
    /// The variety.
    pub variety: Text,
    /// Plants that stood, as counted last in the season; `None` where none were counted.
    pub plants: Option<u32>,
    /// Stems cut, by week of the year.
    pub stems: Vec<(u8, u32)>,
    /// Usable stems a plant that were planned, losses taken off.
    pub planned: f64,
}

impl Brought {
    /// Stems cut in the season.
    pub fn all(&self) -> u32 {
        self.stems.iter().map(|(_, stems)| stems).sum()
    }

    /// Stems cut a plant; `None` where no plants were counted.
    pub fn a_plant(&self) -> Option<f64> {
        let plants = self.plants.filter(|plants| *plants > 0)?;
        Some(f64::from(self.all()) / f64::from(plants))
    }
}

/// Adds up a season's cuts by variety, in order of name. What was planned is what the plan gives a
/// plant without that year's own counts.
pub fn brought(
    plan: &Plan,
    list: &Varieties,
    rules: &RuleSet,
    cuts: &[Cut],
    year: i16,
) -> Vec<Brought> {
    let mut without = plan.season.clone();
    without.counted.retain(|count| count.year != Some(year));
    let mut cuts: Vec<&Cut> = cuts.iter().filter(|cut| cut.day.year() == year).collect();
    cuts.sort_by(|one, other| (&one.variety, one.day).cmp(&(&other.variety, other.day)));
    let mut seasons: Vec<Brought> = Vec::new();
    for cut in cuts {
        if seasons
            .last()
            .is_none_or(|last| last.variety != cut.variety)
        {
            seasons.push(Brought {
                variety: cut.variety.clone(),
                plants: None,
                stems: Vec::new(),
                planned: planned(&without, list, rules, &cut.variety),
            });
        }
        let Some(season) = seasons.last_mut() else {
            continue;
        };
        season.plants = cut.plants.or(season.plants);
        if let Some(stems) = cut.stems {
            let week = week_of(cut.day);
            match season.stems.last_mut().filter(|last| last.0 == week) {
                Some(last) => last.1 += stems,
                None => season.stems.push((week, stems)),
            }
        }
    }
    seasons.retain(|season| !season.stems.is_empty());
    seasons
}

/// Usable stems of a plant set out, of a variety of the list or of one that is not in it.
fn planned(season: &Season, list: &Varieties, rules: &RuleSet, name: &Text) -> f64 {
    let record = list.find(name).map(|row| list.list()[row].clone());
    let record = record.unwrap_or_else(|| Variety::named(name.clone()));
    let form = record
        .form_under(rules)
        .map(|form| rules.forms[form].id.as_str());
    season.season_total(&record, season.weeks_for(name, form))
}

/// What next year's plan reckons with: the counts of varieties whose plants were counted. The day of
/// planting is the plan's, where it is the plan of that year.
pub fn counts(plan: &Plan, seasons: &[Brought], year: i16) -> Vec<RowCount> {
    let planted = Some(plan.season.planted).filter(|planted| planted.year() == year);
    let count = |one: &Brought| {
        let plants = NonZeroU32::new(one.plants?)?;
        Some(RowCount {
            variety: one.variety.clone(),
            year: Some(year),
            planted,
            plants,
            stems: one.stems.clone(),
        })
    };
    seasons.iter().filter_map(count).collect()
}

/// The account: stems a plant as planned and as they came in.
pub fn harvest_section(seasons: &[Brought], year: i16) -> Section {
    let columns = [
        Column::words("variety", "variety"),
        Column::figures("plants", "plants"),
        Column::figures("stems", "stems"),
        Column::figures("a_plant", "a plant"),
        Column::figures("planned", "planned"),
        Column::figures("", "of planned"),
        Column::words("weeks", "weeks"),
    ];
    let known = |cell: Option<Cell>| cell.unwrap_or_else(|| Cell::worded("?", Cell::Nothing));
    let row = |one: &Brought| {
        let weeks: Vec<u8> = one.stems.iter().map(|(week, _)| *week).collect();
        let by_week = one.stems.iter();
        let by_week = by_week.map(|(week, stems)| Cell::list([u32::from(*week), *stems]));
        let a_plant = one.a_plant();
        let planned = a_plant.filter(|_| one.planned > 0.0);
        let of_planned = planned.map(|stems| format!("{:.0} %", stems / one.planned * 100.0));
        vec![
            one.variety.to_string().into(),
            known(one.plants.map(Cell::from)),
            one.all().into(),
            known(a_plant.map(|stems| Cell::Number(stems, 1))),
            Cell::Number(one.planned, 1),
            known(of_planned.map(Cell::from)),
            Cell::worded(weeks_in_words(&weeks), Cell::list(by_week)),
        ]
    };
    let table = Table::of("varieties", columns).with(seasons.iter().map(row));
    let none = format!(
        "No stems of a variety were counted in {year}: `trug row note NAME cut=5 plants=4` counts them."
    );
    let none = seasons.is_empty().then_some(none);
    Section::default()
        .with(Part::sentences("", none))
        .with(Part::Table(table))
        .with(Part::Pairs(vec![Pair::data("season", year.unsigned_abs())]))
}
