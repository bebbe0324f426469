//! Events and rounds as needs: how many stems of each part, in which colours, cut in which weeks.
//!
//! Stems are counted in ten-thousandths, so that shares and spares are exact, and each need is rounded up
//! once. What one event comes to hangs on it alone, on the pieces and on how long its flowers last.

use std::collections::HashSet;
use std::num::NonZeroU32;

use super::need::Need;
use super::plan::Plan;
use super::season::week_of;
use super::work::{Count, FromWork, Part, Pieces, Work};
use crate::measure::{brief, day};
use crate::problem::{Path, Step, Wrong};
use crate::variety::Text;

/// A hundred shares of a hundred spares.
const WHOLE: u64 = 10_000;

/// Stems of one part, of the same colours.
struct Group<'a> {
    /// The place of the part in its table.
    at: usize,
    part: &'a Part,
    colours: &'a [Text],
    /// Ten-thousandths of a stem, spares counted.
    parts: u64,
}

impl Plan {
    /// The plan with the needs that its events and rounds come to, behind its own and each with where it is
    /// from. `lasts` knows the vase life, in days, of what fits a use.
    ///
    /// # Errors
    /// What of the work cannot be, each with its place in the plan: a piece that is not there, a cut before
    /// planting or after the frost.
    pub fn whole(
        &self,
        pieces: &Pieces,
        lasts: &dyn Fn(&str) -> Option<f64>,
    ) -> Result<Plan, Vec<Wrong>> {
        let mut whole = self.as_written();
        if whole.work.is_empty() {
            return Ok(whole);
        }
        let mut wrong = Vec::new();
        for (at, work) in self.work.iter().enumerate() {
            match groups(work, at, pieces) {
                Ok(groups) => {
                    let needs = groups.iter().map(|group| self.need(at, group, lasts));
                    let needs: Vec<Need> = needs.collect();
                    wrong.extend(needs.iter().filter_map(|need| self.out_of_year(need)));
                    whole.needs.extend(needs);
                }
                Err(unknown) => wrong.extend(unknown),
            }
        }
        if wrong.is_empty() {
            wrong = whole.in_file(whole.wrong());
        }
        match wrong.is_empty() {
            true => Ok(whole),
            false => Err(wrong),
        }
    }

    /// What is wrong with needs that were worked out, at the fields of the work that they are from, each
    /// once.
    pub fn in_file(&self, wrong: Vec<Wrong>) -> Vec<Wrong> {
        let mut before = HashSet::new();
        let placed = wrong.into_iter().filter_map(|one| {
            let of_work = self.placed(&one);
            let again = of_work
                .as_ref()
                .is_some_and(|at| !before.insert(at.clone()));
            let at = of_work.unwrap_or(one.at);
            (!again).then(|| Wrong::new(at, one.message))
        });
        placed.collect()
    }

    fn placed(&self, wrong: &Wrong) -> Option<Path> {
        let [Step::Field("needs"), Step::At(at), rest @ ..] = wrong.at.steps() else {
            return None;
        };
        let need = self.needs.get(*at)?;
        let from = need.of_work.as_ref()?;
        let work = &self.work[from.work];
        let place = Path::field("work").nth(from.work);
        Some(match rest {
            [Step::Field("colours"), Step::At(nth)] => {
                let colour = need.colours.get(*nth);
                let own = work.colours.iter().position(|own| Some(own) == colour);
                place.then("colours").nth(own.unwrap_or(0))
            }
            [Step::Field("weeks"), Step::At(end)] => place.then(work.when.field(*end == 1)),
            [Step::Field("within"), ..] => place.then("within"),
            [Step::Field("name"), ..] => place.then("name"),
            _ => place.then("pieces"),
        })
    }

    /// The need that a group comes to.
    fn need(&self, at: usize, group: &Group<'_>, lasts: &dyn Fn(&str) -> Option<f64>) -> Need {
        let work = &self.work[at];
        let Group {
            part,
            colours,
            parts,
            ..
        } = *group;
        let for_use = part.for_use.as_ref();
        let asked = work.cut_before.unwrap_or_else(|| self.days_before());
        let bound = for_use
            .and_then(|id| lasts(id.as_str()))
            .filter(|days| most(*days) < asked);
        let before = bound.map_or(asked, most);
        // Of a round without days none is asked: that is told as wrong.
        let ends = work.when.ends().unwrap_or((self.ordered, self.ordered));
        let cut = |day| day::later(day, -i64::from(before));
        let (first, last) = (cut(ends.0), cut(ends.1));
        let mut told = part.id.to_string();
        if colours.len() < work.colours.len() {
            let colours: Vec<&str> = colours.iter().map(Text::as_str).collect();
            told += &format!(", {}", colours.join(" or "));
        }
        let named = |told: &str| Text::cleaned(told).unwrap_or_else(|| work.name.clone());
        let stems = u32::try_from(parts.div_ceil(WHOLE)).unwrap_or(u32::MAX);
        let stems = NonZeroU32::new(stems).unwrap_or(NonZeroU32::MIN);
        let name = named(&format!("{}: {told}", work.name));
        Need {
            for_use: for_use.cloned(),
            colours: colours.to_vec(),
            within: work.within.filter(|_| !colours.is_empty()),
            sure: work.sureness(),
            of_work: Some(FromWork {
                work: at,
                part: named(&told),
                cut: first,
                before,
                lasts: bound,
            }),
            ..Need::of_any(name, stems, (week_of(first), week_of(last)))
        }
    }

    /// A cut in another year than the one whose weeks are planned.
    fn out_of_year(&self, need: &Need) -> Option<Wrong> {
        let from = need.of_work.as_ref()?;
        let work = &self.work[from.work];
        let year = self.season.weeks_of();
        let (first, last) = work.when.ends()?;
        let year_of = |day| {
            day::later(day, -i64::from(from.before))
                .iso_week_date()
                .year()
        };
        let of_last = year_of(first) == year;
        let day = if of_last { last } else { first };
        (year_of(day) != year).then(|| {
            let place = Path::field("work").nth(from.work);
            let told = format!(
                "{}: found {day}, expected a day of {year}, the year that is planned",
                work.name
            );
            Wrong::new(place.then(work.when.field(of_last)), told)
        })
    }
}

/// The most days before its use that what lasts so long can be cut: it is to be fresh for all of its day.
fn most(days: f64) -> u8 {
    // A float as a whole number stays within its bounds.
    (days.floor() - 1.0).max(0.0) as u8
}

/// Stems by part and colours, the parts in the order of their table.
fn groups<'a>(work: &'a Work, at: usize, pieces: &'a Pieces) -> Result<Vec<Group<'a>>, Vec<Wrong>> {
    let mut groups: Vec<Group<'a>> = Vec::new();
    let mut wrong = Vec::new();
    for (nth, Count(number, name)) in work.pieces.iter().enumerate() {
        let Some(piece) = pieces.find(name.as_str()) else {
            let place = Path::field("work").nth(at).then("pieces").nth(nth).nth(1);
            let told = format!(
                "{}: found the piece {:?}, expected one of {}",
                work.name,
                brief(name.as_str()),
                pieces.names()
            );
            wrong.push(Wrong::new(place, told));
            continue;
        };
        let parts = piece.stems.iter().filter_map(|(id, stems)| {
            let (at, part) = pieces.part(id.as_str())?;
            Some((at, part, stems))
        });
        for (at, part, stems) in parts {
            let all = u64::from(number.get()) * u64::from(stems.get());
            for (share, colours) in piece.split(&work.colours) {
                let parts = all * share * (100 + u64::from(piece.spares));
                let same = |own: &&mut Group<'_>| (own.at, own.colours) == (at, colours);
                match groups.iter_mut().find(same) {
                    Some(own) => own.parts = own.parts.saturating_add(parts),
                    None => groups.push(Group {
                        at,
                        part,
                        colours,
                        parts,
                    }),
                }
            }
        }
    }
    groups.sort_by_key(|group| group.at);
    match wrong.is_empty() {
        true => Ok(groups),
        false => Err(wrong),
    }
}

#[cfg(test)]
mod tests;
