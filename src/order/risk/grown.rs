//! What grows in each of the seasons drawn.

use std::ops::Range;

use hashbrown::HashMap;
use jiff::civil::Date;

use super::drawn::Drawn;
use super::spreads::Spreads;
use crate::cores::all_in_spans;
use crate::measure::day;
use crate::order::candidates::Candidates;
use crate::order::plan::Plan;
use crate::order::season::thousandths;
use crate::variety::{Varieties, Variety};

/// Usable thousandths of a stem of all plants of a variety, by season, then week.
pub type Grown = Vec<i64>;

/// Seasons by which orders are tried and judged, whatever is ordered. Each is as likely as any other.
pub trait Grows: Sync {
    /// How many there are.
    fn count(&self) -> usize;

    /// What so many plants of a candidate, by its place, give in a span of the seasons: of more plants never
    /// less, in any week.
    fn grown(&self, candidate: usize, plants: u64, seasons: Range<usize>) -> Grown;
}

/// Seasons drawn.
pub(in crate::order) struct Seasons<'a> {
    plan: &'a Plan,
    /// The candidates.
    varieties: Vec<&'a Variety>,
    weeks: usize,
    drawn: Vec<Drawn>,
    /// By season: which of the frosts that there are it has. Many have theirs on the same days.
    frosts: Vec<usize>,
    /// Each candidate's flowering.
    flowering: Vec<Flowering>,
    /// By what is first cut on the same day: its days at full flower, by the frosts that there are, then week.
    full_days: Vec<Vec<f64>>,
}

/// When a variety flowers.
enum Flowering {
    /// As it was counted in the row: stems of a plant set out, by the frosts that there are, then week.
    Counted(Vec<f64>),
    /// By its first cut, the place of its full days, and its stems of a week at full flower.
    Figured(usize, f64),
}

/// Seasons that are drawn before a thread has started.
const DRAWN_A_THREAD: usize = 200;

impl<'a> Seasons<'a> {
    /// The seasons of these numbers.
    pub(in crate::order) fn of(
        plan: &'a Plan,
        candidates: &Candidates,
        list: &'a Varieties,
        spreads: Spreads,
        numbers: Range<u32>,
    ) -> Seasons<'a> {
        let season = &plan.season;
        let drawn = all_in_spans(numbers.len(), DRAWN_A_THREAD, |span| {
            let own = span.map(|at| numbers.start + at as u32);
            own.map(|number| Drawn::of(season, spreads, number))
                .collect()
        });
        let (frosts, of_season) = frosts(&drawn);
        let weeks = &candidates.weeks;
        let varieties: Vec<&Variety> = { candidates.rows.iter() }
            .map(|row| &list.list()[*row])
            .collect();
        let mut firsts: Vec<u32> = Vec::new();
        let flowering = varieties.iter().zip(&candidates.first_cuts);
        let flowering = flowering.map(|(variety, first)| {
            let mut counts = season.counted.iter();
            if counts.any(|count| count.variety == variety.name) {
                let given = |(late, frost): &(i32, Date)| {
                    season.given(variety, *first, weeks, *late, *frost)
                };
                return Flowering::Counted(frosts.iter().flat_map(given).collect());
            }
            let known = firsts.iter().position(|one| one == first);
            let at = known.unwrap_or_else(|| {
                firsts.push(*first);
                firsts.len() - 1
            });
            Flowering::Figured(at, variety.weekly_stems().unwrap_or(season.weekly_stems()))
        });
        let flowering = flowering.collect();
        let full_days = firsts.into_iter().map(|first| {
            let days = |(late, frost): &(i32, Date)| {
                let first = day::later(season.first_cut(first), (*late).into());
                season.full_days(weeks, first, *frost)
            };
            frosts.iter().flat_map(days).collect()
        });
        Seasons {
            plan,
            full_days: full_days.collect(),
            flowering,
            varieties,
            weeks: weeks.len(),
            drawn,
            frosts: of_season,
        }
    }

    /// Stems of a plant set out of a candidate, by week, with the frosts of a place.
    fn given(&self, candidate: usize, frosts: usize) -> impl Iterator<Item = f64> + '_ {
        let own = frosts * self.weeks..(frosts + 1) * self.weeks;
        let (stems, a_week) = match &self.flowering[candidate] {
            Flowering::Counted(stems) => (&stems[own], None),
            Flowering::Figured(at, a_week) => (&self.full_days[*at][own], Some(*a_week)),
        };
        let season = &self.plan.season;
        let in_week = move |one: &f64| a_week.map_or(*one, |a_week| season.flowered(a_week, *one));
        stems.iter().map(in_week)
    }
}

impl Grows for Seasons<'_> {
    fn count(&self) -> usize {
        self.drawn.len()
    }

    fn grown(&self, candidate: usize, plants: u64, seasons: Range<usize>) -> Grown {
        let season = &self.plan.season;
        let variety = self.varieties[candidate];
        let known = season.knows(variety);
        let mut all = Vec::with_capacity(seasons.len() * self.weeks);
        for at in seasons {
            let own = self.drawn[at].of_variety(&variety.name, known);
            let stems = own.stems / season.plants_kept();
            let stand = own.standing(plants) * stems;
            let given = self.given(candidate, self.frosts[at]);
            let stems = given.map(|of_one| thousandths(of_one * stand));
            all.extend(stems.map(|stems| i64::try_from(stems).unwrap_or(i64::MAX)));
        }
        all
    }
}

/// The last and first frosts that seasons have, and which of them each has.
fn frosts(drawn: &[Drawn]) -> (Vec<(i32, Date)>, Vec<usize>) {
    let mut places: HashMap<(i32, Date), usize> = HashMap::new();
    let mut frosts = Vec::new();
    let of = |one: &Drawn| {
        let own = (one.late, one.frost);
        *places.entry(own).or_insert_with(|| {
            frosts.push(own);
            frosts.len() - 1
        })
    };
    let of_season = drawn.iter().map(of).collect();
    (frosts, of_season)
}
