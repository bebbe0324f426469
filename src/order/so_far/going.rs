//! What was cut so far, held against what was planned by then.

use jiff::civil::Date;

use crate::order::candidates::Candidates;
use crate::order::plan::Plan;
use crate::order::season::{monday, week_of};
use crate::order::solution::Order;
use crate::variety::{Text, Varieties};

/// One day's cut of one variety, as the row's book has it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cut {
    /// The variety.
    pub variety: Text,
    /// The day.
    pub day: Date,
    /// Stems cut for use; `None` where the entry only counts plants.
    pub stems: Option<u32>,
    /// Plants that stood; `None` where the entry does not say.
    pub plants: Option<u32>,
}

impl Cut {
    /// A day's counts of a variety, by the name that the list has for it: stems cut, and plants that stood.
    pub fn of(list: &Varieties, name: &Text, day: Date, [stems, plants]: [Option<u32>; 2]) -> Cut {
        let known = list.find(name).map(|row| &list.list()[row].name);
        Cut {
            variety: known.unwrap_or(name).clone(),
            day,
            stems,
            plants,
        }
    }
}

/// A season under way.
#[derive(Debug, Clone, PartialEq)]
pub struct Going {
    /// Up to which day: that of the last count, or an earlier one that was asked for.
    pub day: Date,
    /// What was counted, in the order of the candidates.
    pub counted: Vec<Counted>,
    /// Week by week up to that day, from the first in which anything was planned or cut.
    pub weeks: Vec<WeekGone>,
}

/// A variety of the order of which stems were counted.
#[derive(Debug, Clone, PartialEq)]
pub struct Counted {
    /// Its place among the candidates.
    pub candidate: usize,
    /// Its name.
    pub variety: String,
    /// The day of its last count.
    pub last: Date,
    /// Stems cut.
    pub cut: u32,
    /// Stems planned by the day of its last count, of the plants that the counts are of.
    pub planned: f64,
}

/// A week of the season, as far as it is gone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeekGone {
    /// The week of the year.
    pub week: u8,
    /// Its Monday.
    pub monday: Option<Date>,
    /// Stems planned of all that the order plants.
    pub planned: f64,
    /// The same of what was counted, up to the last count of each.
    pub planned_of_counted: f64,
    /// Stems cut.
    pub cut: u32,
}

/// Weeks that a year may have.
const WEEKS: u8 = 53;

/// Holds the cuts of the plan's year up to `until` against the plan; `None` where none is of a variety
/// that the order plants. Cuts are of all plants that it sets out, or where the plants that stand were
/// counted in the year, of those. A week that has begun counts by its days.
pub fn going(
    plan: &Plan,
    candidates: &Candidates,
    list: &Varieties,
    order: &Order,
    cuts: &[Cut],
    until: Option<Date>,
) -> Option<Going> {
    let year = plan.season.weeks_of();
    let in_time = |cut: &&Cut| {
        cut.day.iso_week_date().year() == year && until.is_none_or(|until| cut.day <= until)
    };
    let own: Vec<&Cut> = cuts.iter().filter(in_time).collect();
    let weeks: Vec<u8> = (1..=WEEKS).collect();
    let (mut counted, mut gone) = (Vec::new(), vec![(0.0, 0.0, 0_u32); weeks.len()]);
    let plants = { order.choice.plants.iter() }.enumerate();
    let mut all = Vec::new();
    for (candidate, plants) in plants.filter(|(_, plants)| **plants > 0) {
        let variety = &list.list()[candidates.rows[candidate]];
        let first = candidates.first_cuts[candidate];
        let frost = plan.season.first_frost.middle();
        let a_plant = plan.season.given(variety, first, &weeks, 0, frost);
        all.push((*plants as f64, a_plant.clone()));
        let cuts = || own.iter().filter(|cut| cut.variety == variety.name);
        let Some(last) = { cuts() }
            .filter(|cut| cut.stems.is_some())
            .map(|cut| cut.day)
            .max()
        else {
            continue;
        };
        let stood = cuts().filter_map(|cut| Some((cut.day, cut.plants?))).max();
        let set_out = stood.map(|(_, stood)| f64::from(stood) / plan.season.plants_kept());
        let set_out = set_out.map_or(*plants as f64, |own| own.min(*plants as f64));
        let mut planned = 0.0;
        for (at, stems) in a_plant.iter().enumerate() {
            let by_then = stems * set_out * share_gone(weeks[at], last);
            planned += by_then;
            gone[at].1 += by_then;
        }
        let mut cut = 0;
        for one in cuts() {
            let stems = one.stems.unwrap_or(0);
            cut += stems;
            gone[usize::from(week_of(one.day)) - 1].2 += stems;
        }
        counted.push(Counted {
            candidate,
            variety: variety.name.to_string(),
            last,
            cut,
            planned,
        });
    }
    let day = counted.iter().map(|one| one.last).max()?;
    for (set_out, a_plant) in all {
        for (at, stems) in a_plant.iter().enumerate() {
            gone[at].0 += stems * set_out * share_gone(weeks[at], day);
        }
    }
    let of_week = |(week, (planned, planned_of_counted, cut)): (u8, (f64, f64, u32))| WeekGone {
        week,
        monday: monday(plan.season.planted, week),
        planned,
        planned_of_counted,
        cut,
    };
    let weeks = weeks.into_iter().zip(gone).map(of_week);
    let weeks = weeks.skip_while(|one| one.planned <= 0.0 && one.cut == 0);
    let weeks = weeks.take_while(|one| one.week <= week_of(day)).collect();
    Some(Going {
        day,
        counted,
        weeks,
    })
}

/// The share of a week that is gone by the end of a day.
fn share_gone(week: u8, day: Date) -> f64 {
    let own = day.iso_week_date();
    match week_of(day).cmp(&week) {
        std::cmp::Ordering::Less => 0.0,
        std::cmp::Ordering::Equal => f64::from(own.weekday().to_monday_one_offset()) / 7.0,
        std::cmp::Ordering::Greater => 1.0,
    }
}
