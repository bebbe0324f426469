//! A figure of a plan changed: by what was typed, or by a step.

use jiff::civil::Date;

use super::Item;
use crate::measure::brief;
use crate::measure::day::{self, Calendar};
use crate::measure::{Length, SizeUnits, id_of, same_id};
use crate::order::{Bed, Frost, Method, Plan};
use crate::variety::{Money, StemsAWeek, Text};

/// Steps of money and of postage, in hundredths.
const MONEY_STEP: u64 = 1000;
const POSTAGE_STEP: u64 = 50;
/// What stands behind the stems of a plant where they are those of a whole season.
pub(in crate::order) const IN_A_SEASON: &str = "in a season";
/// What a bed grows by in a step: by the grower's units.
const BED_STEP: [&str; 2] = ["1m", "1ft"];

impl Item {
    /// The plan with the figure as typed, days read by `days`. Whether all of the plan still makes sense is asked of
    /// [`Plan::problems`].
    ///
    /// # Errors
    /// A sentence: what was found, what was expected.
    pub fn set(self, plan: &Plan, text: &str, days: &Calendar) -> Result<Plan, String> {
        let mut plan = plan.clone();
        let season = &mut plan.season;
        let day = |text: &str| day::typed(text, days).map(|typed| typed.day);
        match self {
            Item::Need(_) if text.is_empty() => {
                return Err(
                    "found nothing, expected what changes: stems, weeks, or a word with ="
                        .to_string(),
                );
            }
            Item::Need(at) => match self.written(&plan) {
                Item::Work(work) => change_work(&mut plan, work, text, days)?,
                _ => plan.needs[at] = plan.needs[at].with(text, days)?,
            },
            Item::Work(_) if text.is_empty() => {
                return Err(
                    "found nothing, expected what changes: a day, so many of a piece, or a word with ="
                        .to_string(),
                );
            }
            Item::Work(at) => change_work(&mut plan, at, text, days)?,
            Item::CutBefore => plan.cut_before = number_if_any(text)?,
            Item::Money if same_id(text, "none") => plan.money = None,
            Item::Money => {
                let money = text.parse::<Money>();
                plan.money = Some(money.map_err(|error| format!("{error}; or none"))?);
            }
            Item::Bed(at) => plan.beds[at] = plan.beds[at].with(text)?,
            Item::Planted => season.planted = day(text)?,
            Item::Started => {
                season.method = match id_of(text).as_str() {
                    "potted" => Method::Potted,
                    "tubers" => Method::Tubers,
                    _ => {
                        return Err(format!(
                            "found {text:?}, expected potted or tubers",
                            text = brief(text)
                        ));
                    }
                };
            }
            Item::FirstCut => season.weeks_to_first_cut = number_if_any(text)?,
            Item::Stems => match text.strip_suffix(IN_A_SEASON).map(str::trim) {
                Some(total) => {
                    season.stems_a_plant = number_if_any(total)?;
                    season.stems_a_week = None;
                }
                None => {
                    let stems: Option<f64> = number_if_any(text)?;
                    season.stems_a_week = stems.map(StemsAWeek::try_from).transpose()?;
                    season.stems_a_plant = None;
                }
            },
            Item::Ramp => {
                let shares = text.split(',').map(str::trim);
                let shares = shares
                    .filter(|share| !share.is_empty())
                    .map(number_if_any::<f64>);
                let shares: Vec<Option<f64>> = shares.collect::<Result<_, _>>()?;
                season.ramp = shares.into_iter().flatten().collect();
            }
            Item::PlantsLost => season.plants_lost = number_if_any(text)?,
            Item::StemsLost => season.stems_lost = number_if_any(text)?,
            Item::Storage => plan.storage_kept = number_if_any(text)?,
            Item::LastFrost => season.last_frost = Frost::with_words(text, days)?,
            Item::FirstFrost => season.first_frost = Frost::with_words(text, days)?,
            Item::Ordered => plan.ordered = day(text)?,
            Item::Supplier(at) => plan.suppliers[at] = plan.suppliers[at].with(text, days)?,
            Item::Tried => {
                let forms = text
                    .split(',')
                    .map(str::trim)
                    .filter(|form| !form.is_empty());
                let forms =
                    forms.map(|form| Text::new(id_of(form)).map_err(|error| error.to_string()));
                plan.tried = forms.collect::<Result<_, _>>()?;
            }
            Item::Shortlist => {
                plan.shortlist_only = match id_of(text).as_str() {
                    "yes" | "y" => true,
                    "no" | "n" => false,
                    _ => {
                        return Err(format!(
                            "found {text:?}, expected yes or no",
                            text = brief(text)
                        ));
                    }
                };
            }
        }
        Ok(plan)
    }

    /// The plan with the figure a step more, or less where `by` is under 0.
    ///
    /// # Errors
    /// A sentence where there is no step from here.
    pub fn step(self, plan: &Plan, by: i32, units: SizeUnits) -> Result<Plan, String> {
        let season = &plan.season;
        let moved = |number: u64, step: u64| match by > 0 {
            true => number.saturating_add(step),
            false => number.saturating_sub(step),
        };
        let money = |money: Money, step: u64| Money::hundredths(moved(money.in_hundredths(), step));
        let next = |day: Date| day::later(day, by.signum().into()).to_string();
        let frost = |frost: &Frost| match frost.spread() > 0.0 {
            true => Err("There are risk levels: Enter sets a day in their place.".to_string()),
            false => Ok(next(frost.middle())),
        };
        let hundredth = |share: f64| moved((share * 100.0).round() as u64, 1).to_string();
        let text = match self {
            Item::Need(at) => match self.written(plan) {
                Item::Work(_) => return self.written(plan).step(plan, by, units),
                _ => moved(plan.needs[at].stems.get().into(), 1).to_string(),
            },
            Item::Work(at) => {
                let mut plan = plan.clone();
                plan.work[at] = plan.work[at].stepped(by);
                return Ok(plan);
            }
            Item::CutBefore => moved(plan.days_before().into(), 1).to_string(),
            Item::Money => match plan.money {
                None => return Err("There is no limit of money: Enter sets one.".to_string()),
                Some(own) => money(own, MONEY_STEP).to_string(),
            },
            Item::Bed(at) => bed_step(&plan.beds[at], by, units)?,
            Item::Planted => next(season.planted),
            Item::Ordered => next(plan.ordered),
            Item::Started => match season.method {
                Method::Tubers => "potted".to_string(),
                Method::Potted => "tubers".to_string(),
            },
            Item::FirstCut => moved(season.weeks_for("", None).into(), 1).to_string(),
            Item::Stems => {
                let tenths = moved((season.weekly_stems() * 10.0).round() as u64, 1);
                (tenths.max(1) as f64 / 10.0).to_string()
            }
            Item::PlantsLost => hundredth(1.0 - season.plants_kept()),
            Item::StemsLost => hundredth(1.0 - season.stems_kept()),
            Item::Storage => hundredth(plan.storage() / 100.0),
            Item::LastFrost => frost(&season.last_frost)?,
            Item::FirstFrost => frost(&season.first_frost)?,
            Item::Supplier(at) => money(plan.suppliers[at].postage, POSTAGE_STEP).to_string(),
            Item::Ramp | Item::Tried => {
                return Err("There is no step: Enter changes it.".to_string());
            }
            Item::Shortlist => if by > 0 { "yes" } else { "no" }.to_string(),
        };
        self.set(plan, &text, &Calendar::FILES)
    }
}

/// An event or a round changed. What it already came to in the plan is as far from its colours as it now
/// is; all else is worked out anew ([`Plan::whole`]).
fn change_work(plan: &mut Plan, at: usize, text: &str, days: &Calendar) -> Result<(), String> {
    plan.work[at] = plan.work[at].with(text, days)?;
    let within = plan.work[at].within;
    let of_it = |need: &&mut crate::order::Need| {
        let from = need.of_work.as_ref().is_some_and(|from| from.work == at);
        from && !need.colours.is_empty()
    };
    for need in plan.needs.iter_mut().filter(of_it) {
        need.within = within;
    }
    Ok(())
}

fn bed_step(bed: &Bed, by: i32, units: SizeUnits) -> Result<String, String> {
    let step = BED_STEP[usize::from(units == SizeUnits::In)].parse::<Length>();
    let step = step.map_err(|error| error.to_string())?;
    let own = bed.length.mm();
    let length = if by > 0 {
        own + step.mm()
    } else {
        own - step.mm()
    };
    Ok(bed.length.with_mm(length).to_string())
}

pub(in crate::order) fn number_if_any<T: std::str::FromStr>(
    text: &str,
) -> Result<Option<T>, String> {
    match text {
        "" => Ok(None),
        text => {
            let read = text.parse().map(Some);
            read.map_err(|_| {
                format!(
                    "found {text:?}, expected a number, or nothing",
                    text = brief(text)
                )
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plan() -> Plan {
        let text = include_str!("../../../catalogue/order.ron");
        Plan::read("order.ron", text).expect("the demo's order")
    }

    #[test]
    fn every_figure_has_a_name_of_its_own_and_a_step_or_a_reason() {
        let plan = plan();
        let items = Item::all(&plan);
        assert_eq!(
            items.len(),
            plan.needs.len() + plan.beds.len() + plan.suppliers.len() + 14
        );
        for item in items {
            assert_eq!(Item::named(&plan, &item.name(&plan)), Some(item));
            for units in [SizeUnits::Mm, SizeUnits::In] {
                let there = item.step(&plan, 1, units);
                let back = there.as_ref().map(|there| item.step(there, -1, units));
                match (&there, back) {
                    (Err(told), _) => assert!(told.contains("Enter"), "{item:?}: {told}"),
                    (Ok(there), Ok(back)) => {
                        assert_ne!(there, &plan, "{item:?}");
                        assert_eq!(back, Ok(plan.clone()), "{item:?}");
                    }
                    other => panic!("{item:?}: {other:?}"),
                }
            }
        }
    }

    #[test]
    fn a_bed_is_made_longer_in_the_unit_that_it_is_written_in() {
        let mut plan = plan();
        plan.beds[0].length = "40ft".parse().expect("a length");
        let stepped = |units| {
            let longer = Item::Bed(0).step(&plan, 1, units);
            longer.map(|plan| plan.beds[0].length.to_string())
        };
        assert_eq!(stepped(SizeUnits::In).as_deref(), Ok("41ft"));
        // No decimal of a foot is enough.
        assert_eq!(stepped(SizeUnits::Mm).as_deref(), Ok("13192mm"));
    }

    #[test]
    fn words_change_one_figure() {
        let plan = plan();
        let today = Date::constant(2027, 2, 1);
        let days = Calendar::noting(today, None).planning(2027);
        let set = |name: &str, text: &str| {
            let item = Item::named(&plan, name).unwrap_or_else(|| panic!("{name}"));
            item.set(&plan, text, &days)
                .map(|plan| item.value(&plan, SizeUnits::Mm))
        };
        for (name, text, value) in [
            ("Money", "none", "no limit"),
            ("sea wall", "width=2m rows=4", "30.0 m, 300 places"),
            ("tidegrass tubers", "8 free= least=", "8.00"),
            ("Tidegrass Tubers", "free=300", "7.50 free at 300.00"),
            ("first frost", "2027-10-20", "2027-10-20"),
            ("first frost", "20 Oct", "2027-10-20"),
            ("planted", "29/04/2027", "2027-04-29"),
            ("planted", "week 17", "2027-04-26"),
            ("orders go out", "friday", "2027-02-05"),
            ("sea wall", "20 m rows=2 width=4 ft", "20.0 m, 100 places"),
            ("started", "tubers", "tubers"),
            ("forms to try", "stellar, orchid", "stellar, orchid"),
            ("forms to try", "", "none"),
            ("plants lost, %", "", "5, assumed"),
            ("stems a week", "1.2", "1.2"),
            ("stems a week", "", "1, assumed"),
            ("rise to flower", "0.5,1", "0.5, 1"),
            ("rise to flower", "", "0.4, 0.7, 1, assumed"),
        ] {
            assert_eq!(set(name, text), Ok(value.to_string()), "{name}={text}");
        }
        for (name, text, told) in [
            ("money", "-3", "without a sign"),
            ("sea wall", "depth=1m", "\"depth\""),
            ("Tidegrass Tubers", "sooner=1", "\"sooner\""),
            ("planted", "May", "2027-04-29"),
            ("quay stall bunches", "", "found nothing"),
            ("stems a week", "0", "over 0 and at most 100"),
            ("stems a week", "many", "a number, or nothing"),
        ] {
            let error = set(name, text).expect_err(name);
            assert!(error.contains(told), "{name}={text}: {error}");
        }
        let terms = Item::named(&plan, "Tidegrass Tubers").expect("a supplier");
        let closes = |text: &str| {
            let changed = terms.set(&plan, text, &days).expect(text);
            let Item::Supplier(at) = terms else {
                panic!("{terms:?}")
            };
            changed.suppliers[at].closes.map(|day| day.to_string())
        };
        assert_eq!(
            closes("closes=28 Feb free=300").as_deref(),
            Some("2027-02-28")
        );
        assert_eq!(closes("closes="), None);
    }

    #[test]
    fn what_was_taken_is_told_where_it_was_not_typed_in_full() {
        let plan = plan();
        let days = Calendar::noting(Date::constant(2027, 2, 1), None).planning(2027);
        for (name, text, told) in [
            ("planted", "29 Apr", Some("29 Apr, so 2027-04-29")),
            ("planted", "2027-04-29", None),
            ("money", "450", None),
            (
                "Tidegrass Tubers",
                "closes=28 Feb",
                Some("closes on 2027-02-28"),
            ),
            ("Tidegrass Tubers", "closes=2027-02-28", None),
            (
                "quay stall bunches",
                "20 Aug - 5 Sep",
                Some("weeks 33 to 35 (16 Aug to 5 Sep)"),
            ),
            ("quay stall bunches", "33-35", None),
            ("quay stall bunches", "within=8", None),
        ] {
            let item = Item::named(&plan, name).expect(name);
            let set = item.set(&plan, text, &days).expect(text);
            assert_eq!(
                item.taken(&set, text, &days).as_deref(),
                told,
                "{name}={text}"
            );
        }
    }
}
