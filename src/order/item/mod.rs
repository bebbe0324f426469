//! The figures of a plan, each with its name, its value and how it is changed in words: the rows of
//! the Order page, and what `trug order --set` takes.

mod set;

pub(super) use set::number_if_any;

pub(super) use set::IN_A_SEASON;

use super::{Method, Need, Plan};
use crate::measure::day::{Calendar, Weeks};
use crate::measure::{SizeUnits, same_id};

/// One figure of a plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Item {
    /// A need: its place.
    Need(usize),
    /// An event or a round: its place.
    Work(usize),
    /// Days between the cut and the work.
    CutBefore,
    /// The money.
    Money,
    /// A bed: its place.
    Bed(usize),
    /// The day of planting.
    Planted,
    /// Whether tubers go into the bed or are potted up first.
    Started,
    /// Weeks to the first cut.
    FirstCut,
    /// Stems of a plant in a week at full flower.
    Stems,
    /// The rise to full flower.
    Ramp,
    /// Plants lost.
    PlantsLost,
    /// Stems lost.
    StemsLost,
    /// Tubers kept through the winter.
    Storage,
    /// The last frost of spring.
    LastFrost,
    /// The first frost of autumn.
    FirstFrost,
    /// The day on which the orders go out.
    Ordered,
    /// A supplier's terms: its place.
    Supplier(usize),
    /// Forms to be tried.
    Tried,
    /// Whether only the shortlist is bought.
    Shortlist,
}

impl Item {
    /// Every figure of a plan: needs, then events and rounds, each before the needs that it comes to, then
    /// means.
    pub fn all(plan: &Plan) -> Vec<Item> {
        let of = |work: Option<usize>| {
            let needs = plan.needs.iter().enumerate();
            let own =
                needs.filter(move |(_, need)| need.of_work.as_ref().map(|from| from.work) == work);
            own.map(|(at, _)| Item::Need(at))
        };
        let mut all: Vec<Item> = of(None).collect();
        for at in 0..plan.work.len() {
            all.push(Item::Work(at));
            all.extend(of(Some(at)));
        }
        if !plan.work.is_empty() {
            all.push(Item::CutBefore);
        }
        all.push(Item::Money);
        all.extend((0..plan.beds.len()).map(Item::Bed));
        all.extend([
            Item::Planted,
            Item::Started,
            Item::FirstCut,
            Item::Stems,
            Item::Ramp,
            Item::PlantsLost,
            Item::StemsLost,
            Item::Storage,
            Item::LastFrost,
            Item::FirstFrost,
            Item::Ordered,
        ]);
        all.extend((0..plan.suppliers.len()).map(Item::Supplier));
        all.extend([Item::Tried, Item::Shortlist]);
        all
    }

    /// What is changed where this is: of a need that was worked out the event or the round that it is
    /// from.
    pub fn written(self, plan: &Plan) -> Item {
        match self {
            Item::Need(at) => {
                let need = plan.needs.get(at).and_then(|need| need.of_work.as_ref());
                need.map_or(self, |from| Item::Work(from.work))
            }
            item => item,
        }
    }

    /// The figure of this name, in any case of letters; a bed may be named without `bed,`, and what an event
    /// comes to is the event.
    pub fn named(plan: &Plan, name: &str) -> Option<Item> {
        let called = |item: &Item| {
            let own = item.name(plan);
            let bed = own.strip_prefix("bed, ");
            same_id(name, &own) || bed.is_some_and(|own| same_id(name, own))
        };
        let of_work = || {
            let (work, _) = name.split_once(':')?;
            let mut all = plan.work.iter();
            let at = all.position(|own| same_id(work, own.name.as_str()))?;
            Some(Item::Work(at))
        };
        Item::all(plan).into_iter().find(called).or_else(of_work)
    }

    /// What it is called.
    pub fn name(self, plan: &Plan) -> String {
        let name = match self {
            Item::Need(at) => return plan.needs[at].name.to_string(),
            Item::Bed(at) => return format!("bed, {}", plan.beds[at].name),
            Item::Supplier(at) => return plan.suppliers[at].name.to_string(),
            Item::Work(at) => return plan.work[at].name.to_string(),
            Item::CutBefore => "cut before, days",
            Item::Money => "money",
            Item::Planted => "planted",
            Item::Started => "started",
            Item::FirstCut => "first cut, weeks",
            Item::Stems => "stems a week",
            Item::Ramp => "rise to flower",
            Item::PlantsLost => "plants lost, %",
            Item::StemsLost => "stems lost, %",
            Item::Storage => "tubers kept, %",
            Item::LastFrost => "last frost",
            Item::FirstFrost => "first frost",
            Item::Ordered => "orders go out",
            Item::Tried => "forms to try",
            Item::Shortlist => "shortlist only",
        };
        name.to_string()
    }

    /// Its value in a few words; of a need all that it asks.
    pub fn value(self, plan: &Plan, units: SizeUnits) -> String {
        let season = &plan.season;
        let or_assumed =
            |own: Option<String>, assumed: String| own.unwrap_or(format!("{assumed}, assumed"));
        match self {
            Item::Need(at) => plan.needs[at].told(),
            Item::Work(at) => plan.work[at].told(None),
            Item::CutBefore => or_assumed(
                plan.cut_before.map(|days| days.to_string()),
                plan.days_before().to_string(),
            ),
            Item::Money => (plan.money).map_or("no limit".to_string(), |money| money.to_string()),
            Item::Bed(at) => {
                let bed = &plan.beds[at];
                let places = bed.places().unwrap_or(0);
                format!("{}, {places} places", bed.length.shown_along_a_bed(units))
            }
            Item::Planted => season.planted.to_string(),
            Item::Started => match season.method {
                Method::Tubers => "tubers".to_string(),
                Method::Potted => "potted".to_string(),
            },
            Item::FirstCut => or_assumed(
                season.weeks_to_first_cut.map(|weeks| weeks.to_string()),
                season.weeks_for("", None).to_string(),
            ),
            Item::Stems => or_assumed(
                season
                    .stems_a_week
                    .map(|stems| stems.get().to_string())
                    .or(season
                        .stems_a_plant
                        .map(|stems| format!("{stems} in a season"))),
                season.weekly_stems().to_string(),
            ),
            Item::Ramp => {
                let shares: Vec<String> = season.rise().iter().map(f64::to_string).collect();
                let own = !season.ramp.is_empty();
                or_assumed(own.then(|| shares.join(", ")), shares.join(", "))
            }
            Item::PlantsLost => or_assumed(
                season.plants_lost.map(|lost| lost.to_string()),
                percent(1.0 - season.plants_kept()),
            ),
            Item::StemsLost => or_assumed(
                season.stems_lost.map(|lost| lost.to_string()),
                percent(1.0 - season.stems_kept()),
            ),
            Item::Storage => or_assumed(
                plan.storage_kept.map(|kept| kept.to_string()),
                plan.storage().to_string(),
            ),
            Item::LastFrost => frost(&season.last_frost),
            Item::FirstFrost => frost(&season.first_frost),
            Item::Ordered => plan.ordered.to_string(),
            Item::Supplier(at) => match &plan.suppliers[at] {
                terms if terms.free_over.is_some() => {
                    let over = terms.free_over.unwrap_or_default();
                    format!("{} free at {over}", terms.postage)
                }
                terms => terms.postage.to_string(),
            },
            Item::Tried => match &plan.tried[..] {
                [] => "none".to_string(),
                forms => {
                    let forms: Vec<&str> = forms.iter().map(|form| form.as_str()).collect();
                    forms.join(", ")
                }
            },
            Item::Shortlist => if plan.shortlist_only { "yes" } else { "no" }.to_string(),
        }
    }

    /// What is said of it when it was changed.
    pub fn described(self, plan: &Plan, units: SizeUnits) -> String {
        let value = match self {
            Item::Need(at) => {
                let (stems, weeks) = plan.needs[at].stems_and_weeks();
                format!("{stems} a week, weeks {weeks}")
            }
            item => item.value(plan, units),
        };
        format!("{}: {value}", self.name(plan))
    }

    /// What was taken, where days or weeks were typed and not in full: `29 Apr, so 2027-04-29`. The plan
    /// is the one that was made of it.
    pub fn taken(self, plan: &Plan, typed: &str, days: &Calendar) -> Option<String> {
        let day = match self {
            Item::Need(at) => {
                let year = plan.season.weeks_of();
                return plan.needs[at].weeks_taken(typed, days, year);
            }
            Item::Supplier(at) => {
                let closes = plan.suppliers[at].closes?.to_string();
                let so = typed.contains("closes=") && !typed.contains(&closes);
                return so.then(|| format!("closes on {closes}"));
            }
            Item::Planted => plan.season.planted,
            Item::LastFrost => plan.season.last_frost.middle(),
            Item::FirstFrost => plan.season.first_frost.middle(),
            Item::Ordered => plan.ordered,
            Item::Work(at) => {
                let when = plan.work[at].when;
                let (from, to) = when.ends()?;
                let plain = [from, to]
                    .iter()
                    .any(|day| typed.contains(&day.to_string()));
                let dated = self.set(plan, typed, &Calendar::FILES).is_err();
                return (dated && !plain).then(|| when.told());
            }
            _ => return None,
        };
        let so = typed.trim() != day.to_string();
        so.then(|| format!("{}, so {day}", typed.trim()))
    }

    /// What may be typed.
    pub fn hint(self) -> &'static str {
        match self {
            Item::Need(_) => {
                "Only what changes: 60, or 30-42, or 20 Aug - 5 Sep, or within=8 colours=plum,wine forms=ball most=40 (nothing after = takes it away)."
            }
            Item::Work(_) => {
                "Only what changes: a day, or 14 table bowl (0 takes it away), or colours=plum,blush within=8 cut=1 sure=0.9 pieces= (all anew)."
            }
            Item::CutBefore => "A whole number of days; nothing leaves it to what is assumed.",
            Item::Money => "An amount such as 450 or 450.50; none is no limit.",
            Item::Bed(_) => {
                "Its length such as 24m or 80ft; or width=1.2m spacing=40cm rows=2 row-spacing=50cm staggered=yes."
            }
            Item::Planted | Item::Ordered => "A day such as 29 Apr, 2027-04-29 or week 17.",
            Item::Started => "potted (raised in pots, then planted out) or tubers (into the bed).",
            Item::FirstCut => "A whole number; nothing leaves it to what is assumed.",
            Item::Stems => {
                "A number such as 1.2, at full flower, or 8 in a season; nothing leaves it to what is assumed."
            }
            Item::Ramp => {
                "Shares of full flower by week from the first cut, never falling, the last 1, such as 0.4, 0.7, 1; nothing leaves it to what is assumed."
            }
            Item::PlantsLost | Item::StemsLost | Item::Storage => {
                "Of a hundred; nothing leaves it to what is assumed."
            }
            Item::LastFrost | Item::FirstFrost => {
                "A day such as 14 May, or two risk levels such as 90%: 1 May, 10%: 27 May."
            }
            Item::Supplier(_) => {
                "Postage such as 7.50; or free=250 (from what it is free) least=20 closes=28 Feb."
            }
            Item::Tried => "Ids of forms such as stellar, laciniated; nothing is none.",
            Item::Shortlist => "yes or no.",
        }
    }
}

impl Need {
    /// Its weeks with their days in a year: `weeks 34 to 36 (17 Aug to 6 Sep)`.
    pub fn weeks_told(&self, year: i16) -> String {
        let (first, last) = self.weeks;
        Weeks { first, last }.told(year)
    }

    /// Its stems and its weeks as they stand in a table.
    pub fn stems_and_weeks(&self) -> (String, String) {
        let (first, last) = self.weeks;
        let weeks = if first == last {
            first.to_string()
        } else {
            format!("{first}-{last}")
        };
        (self.stems.to_string(), weeks)
    }
}

fn percent(share: f64) -> String {
    format!("{:.0}", share * 100.0)
}

fn frost(frost: &super::Frost) -> String {
    match frost.spread() > 0.0 {
        true => format!("{} +-{:.0} d", frost.middle(), frost.spread()),
        false => frost.middle().to_string(),
    }
}
