//! The key dates of a season: order by, pot up, plant, pinch, first cut, lift.

use jiff::civil::Date;

use crate::measure::day;
use crate::order::{Bill, Method, Plan, Settled, week_of};
use crate::variety::{Money, Varieties};

/// One date of the season.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyDate {
    /// What it is the date of, the same from year to year: `plant`, `order-haaf-bulbs`.
    pub id: String,
    /// The day.
    pub day: Date,
    /// What is to be done, in a few words.
    pub what: String,
    /// More of it, and where the date comes from.
    pub more: String,
}

/// Weeks under cover before planting out. Common practice, no source.
const POTTED: i64 = 4;
/// Weeks from planting to pinching: when there are three or four pairs of leaves. Common practice,
/// no source.
const PINCH: i64 = 4;
/// The same for plants that were raised in pots.
const PINCH_POTTED: i64 = 1;
/// Days from the first frost to lifting: the tops are black by then. Common practice, no source.
const LIFT: i64 = 7;
/// More varieties than these are counted in a title and named below it.
const NAMED: usize = 2;

/// The dates in order of time; without an order those of the season alone.
pub fn key_dates(plan: &Plan, settled: &Settled, list: &Varieties) -> Vec<KeyDate> {
    let season = &plan.season;
    let mut dates = orders(plan, settled, list);
    let mut add = |id: &str, day: Date, what: &str, more: String| {
        dates.push(KeyDate {
            id: id.to_string(),
            day,
            what: what.to_string(),
            more,
        });
    };
    let weeks = |from: Date, weeks: i64| day::later(from, weeks * 7);
    let potted = season.method == Method::Potted;
    if potted {
        let more = format!("{POTTED} weeks before planting out. Assumed: common practice.");
        add(
            "pot-up",
            weeks(season.planted, -POTTED),
            "Pot up the tubers",
            more,
        );
    }
    let plants = settled.order.as_ref().map_or(0, |order| order.plants);
    let mut more = format!(
        "{plants} plants. The grower's date; the last frost is looked for on {}",
        season.last_frost.middle()
    );
    // A date without a spread says nothing of chances.
    more += &match season.last_frost.spread() > 0.0 {
        true => format!(
            ", and comes after planting in {:.0} years of 100.",
            season.frost_after_planting() * 100.0
        ),
        false => ".".to_string(),
    };
    add(
        "plant",
        season.planted,
        if potted {
            "Plant out"
        } else {
            "Plant the tubers"
        },
        more,
    );
    let pinch = if potted { PINCH_POTTED } else { PINCH };
    let after = in_words(pinch, "week", "weeks");
    let more = format!(
        "When there are three or four pairs of leaves: {after} after planting. Assumed: common practice."
    );
    add("pinch", weeks(season.planted, pinch), "Pinch", more);
    let frost = season.first_frost.middle();
    let more = format!(
        "The middle of what is looked for ({}).",
        season.first_frost.source()
    );
    add("first-frost", frost, "First frost looked for", more);
    let lift = day::later(frost, LIFT);
    let more = format!(
        "{LIFT} days after the first frost, when the tops are black; after the frost itself, whenever it comes. Assumed: common practice."
    );
    add("lift", lift, "Lift and store", more);
    dates.extend(first_cuts(plan, settled));
    dates.extend(cuts_for_work(plan));
    dates.sort_by(|one, other| (one.day, &one.id).cmp(&(other.day, &other.id)));
    dates
}

/// By event and day of the cut: what is cut for it; of a round its first cut alone.
fn cuts_for_work(plan: &Plan) -> Vec<KeyDate> {
    let mut cuts: Vec<(usize, Date, Vec<String>)> = Vec::new();
    for need in &plan.needs {
        let Some(from) = &need.of_work else { continue };
        let told = format!("{} {}", need.stems, from.part);
        match cuts
            .iter_mut()
            .find(|cut| (cut.0, cut.1) == (from.work, from.cut))
        {
            Some(cut) => cut.2.push(told),
            None => cuts.push((from.work, from.cut, vec![told])),
        }
    }
    let date = |(at, day, parts): (usize, Date, Vec<String>)| {
        let work = &plan.work[at];
        KeyDate {
            id: format!("cut-{}-{day}", slug(&work.name)),
            day,
            what: match work.is_event() {
                true => format!("Cut for {}", work.name),
                false => format!("Cut for {}, and every week from then on", work.name),
            },
            more: format!("{}. Wanted on {}.", parts.join("; "), work.when.in_words()),
        }
    };
    cuts.into_iter().map(date).collect()
}

/// By supplier: the day on which the first of what is bought there closes.
fn orders(plan: &Plan, settled: &Settled, list: &Varieties) -> Vec<KeyDate> {
    let Some(order) = &settled.order else {
        return Vec::new();
    };
    let date = |bill: &Bill| {
        let first = order_by(plan, bill, list);
        let tubers: u64 = bill.lines.iter().map(|line| line.tubers).sum();
        let tubers = i64::try_from(tubers).unwrap_or(i64::MAX);
        let total: Money = bill.total();
        let source = if first.is_some() {
            "The supplier's closing date."
        } else {
            "The day set for the orders: no closing date is known."
        };
        KeyDate {
            id: format!("order-{}", slug(&bill.supplier)),
            day: first.unwrap_or(plan.ordered),
            what: format!("Last day to order from {}", bill.supplier),
            more: format!(
                "{} of {}, {total} with postage. {source}",
                in_words(tubers, "tuber", "tubers"),
                in_words(bill.lines.len() as i64, "variety", "varieties")
            ),
        }
    };
    order.bills.iter().map(date).collect()
}

/// The day on which the first of what is bought there, or the supplier, closes; `None` where no
/// closing date is known.
pub fn order_by(plan: &Plan, bill: &Bill, list: &Varieties) -> Option<Date> {
    let terms = plan
        .suppliers
        .iter()
        .find(|terms| terms.name.as_str() == bill.supplier);
    let offers = bill
        .lines
        .iter()
        .flat_map(|line| &list.list()[line.row].offers);
    let own = offers.filter(|offer| offer.supplier.as_str() == bill.supplier);
    // What closed before the order is not what is bought.
    let closes = own
        .filter_map(|offer| offer.closes)
        .filter(|closes| *closes >= plan.ordered);
    closes.chain(terms.and_then(|terms| terms.closes)).min()
}

/// The first cuts, one date for all varieties that come in on a day.
fn first_cuts(plan: &Plan, settled: &Settled) -> Vec<KeyDate> {
    let Some(order) = &settled.order else {
        return Vec::new();
    };
    let first = |one: &crate::order::Planted| {
        let weeks = settled.candidates.first_cuts.get(one.candidate).copied();
        (
            plan.season.first_cut(weeks.unwrap_or(0)),
            weeks.unwrap_or(0),
        )
    };
    let planted = || order.planted.iter().filter(|one| one.plants > 0);
    let mut days: Vec<(Date, u32)> = planted().map(first).collect();
    days.sort();
    days.dedup();
    let date = |(day, weeks): (Date, u32)| {
        let names: Vec<&str> = planted()
            .filter(|one| first(one) == (day, weeks))
            .map(|one| one.variety.as_str())
            .collect();
        let what = match names.len() {
            count if count > NAMED => format!("First cut of {count} varieties"),
            _ => format!("First cut: {}", names.join(", ")),
        };
        let after = in_words(weeks.into(), "week", "weeks");
        let mut more = format!("{after} after planting, week {}.", week_of(day));
        if names.len() > NAMED {
            more = format!("{}: {more}", names.join(", "));
        }
        KeyDate {
            id: format!("first-cut-{weeks}"),
            day,
            what,
            more,
        }
    };
    days.into_iter().map(date).collect()
}

fn in_words(count: i64, one: &str, several: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { several })
}

/// Letters and digits of a name, hyphens for the rest.
fn slug(name: &str) -> String {
    let words = name
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty());
    words.map(str::to_lowercase).collect::<Vec<_>>().join("-")
}
