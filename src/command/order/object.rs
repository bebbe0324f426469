//! The order as one JSON object. Money is a number of the grower's currency, weeks are of the year.
//!
//! | key | holds |
//! |---|---|
//! | `status` | `optimal`, `short` (not every need can be met), `stopped` (before either was proved) |
//! | `told` | the same in a sentence |
//! | `cost`, `gap`, `bound` | of the order; (cost - bound) / cost; what is proved: no order costs less; null where unknown |
//! | `all_needs_cost` | where only money is short: what meeting every need costs |
//! | `lines` | `variety`, `supplier`, `packs`, `tubers`, `price` (a pack), `cost`, `padding`: null, or `packs` that only fill the order up, `least` (order) and `free_over` that they reach (null where not), `told` |
//! | `suppliers`, `postage` | `supplier`, `goods`, `postage`, `total`; the postage of all |
//! | `planted` | `variety`, `plants`, `on_hand`, `bought`, `spare`, `first_cut`, `gives` [`need`, `weeks`, `stems`] |
//! | `short`, `lacking` | `need`, `week`, `stems`; `need` or null, `told` |
//! | `needs` | by need and week: `need`, `week`, `needed`, `given` |
//! | `weeks` | of the season: `week`, `monday`, `needed`, `expected`, `low`, `high` (nine seasons in ten), `short` |
//! | `mends` | `by` (`bed`, `money`, `colour`, `earlier`), what of it, `set` (what `--set` takes to make it), `cost` (of an order then, at most), `least` (proved that less would not do), `told` |
//! | `beds`, `places` | `bed`, `variety`, `plants`, `from_mm`, `to_mm`; places in all beds |
//! | `dates` | `id`, `day`, `what`, `more` |
//! | `figures` | `name`, `value`, `source` |
//! | `risk` | with `--risk`: `need`, `week` (null: all of its weeks), `chance` (0 to 1) |
//! | `risk_told` | with `--risk`: what varies between the seasons that are drawn, and what does not |
//! | `why` | with `--why`: `variety`, `told`, `in_order`, `without` (what doing without it costs more) |
//! | `notes`, `written`, `rules` | what was left out or assumed; files written; the rule set |

use serde_json::{Value, json};

use super::{OrderArguments, Without, Worked};
use crate::command::Context;
use crate::order::report::{
    Chart, bed_plan, key_dates, lacking, mend_told, reckoned, risk_told, status_told,
};
use crate::order::{By, Mend, Order, Plan, Status, Weekly};
use crate::variety::Money;

pub(super) fn of(
    arguments: &OrderArguments,
    worked: &Worked,
    context: &Context,
    written: &[String],
) -> Value {
    let Worked {
        plan,
        list,
        settled,
        mends,
        chances,
        asked,
        model: _,
    } = worked;
    let (status, gap, bound) = match settled.status {
        Status::Optimal => (
            "optimal",
            Some(0.0),
            settled.order.as_ref().map(|order| order.cost),
        ),
        Status::Within { bound, gap } => ("stopped", Some(gap), Some(bound)),
        Status::Short { .. } => ("short", None, None),
        Status::Unknown => ("stopped", None, None),
    };
    let needed = match settled.status {
        Status::Short { needed, .. } => needed,
        _ => None,
    };
    let chart = Chart::of(plan, settled, chances.as_ref());
    let weeks = chart.iter().flat_map(|chart| &chart.weeks).map(|one| {
        json!({
            "week": one.week, "monday": one.monday.map(|day| day.to_string()), "needed": one.needed,
            "expected": one.expected, "low": one.range.map(|range| range.0),
            "high": one.range.map(|range| range.1), "short": one.short,
        })
    });
    let mut object = json!({
        "status": status,
        "told": status_told(settled),
        "cost": settled.order.as_ref().map(|order| money(order.cost)),
        "gap": gap,
        "bound": bound.map(money),
        "all_needs_cost": needed.map(money),
        "lines": [], "suppliers": [], "postage": 0.0, "planted": [], "short": [], "needs": [], "beds": [],
        "weeks": weeks.collect::<Vec<_>>(),
        "mends": mends.iter().map(|one| mend(plan, one)).collect::<Vec<_>>(),
        "figures": reckoned(plan).iter().map(|one| json!({
            "name": one.name, "value": one.value, "source": one.source,
        })).collect::<Vec<_>>(),
        "dates": key_dates(plan, settled, list).iter().map(|date| json!({
            "id": date.id, "day": date.day.to_string(), "what": date.what, "more": date.more,
        })).collect::<Vec<_>>(),
        "places": plan.places(),
        "lacking": lacking(settled).iter().map(|lack| json!({
            "need": lack.need.map(|need| &plan.needs[need].name), "told": lack.told,
        })).collect::<Vec<_>>(),
        "notes": settled.candidates.notes,
        "written": written,
    });
    if let Some(order) = &settled.order {
        take_order(&mut object, order, worked);
    }
    if !asked.is_empty() {
        let why = asked.iter().map(|one| {
            let dearer = match &one.without {
                Some(Without::Costs(more)) => Some(money(*more)),
                Some(Without::NotFound) | None => None,
            };
            json!({ "variety": one.name, "told": one.lines, "in_order": one.in_order, "without": dearer })
        });
        object["why"] = why.collect();
    }
    if let Some(chances) = chances.as_ref().filter(|_| arguments.risk) {
        let throughout = plan.needs.iter().zip(&chances.throughout);
        let throughout = throughout
            .map(|(need, chance)| json!({ "need": need.name, "week": null, "chance": chance }));
        let each = plan.needs.iter().zip(&chances.met).flat_map(|(need, met)| {
            met.iter()
                .map(|(week, chance)| json!({ "need": need.name, "week": week, "chance": chance }))
        });
        object["risk"] = throughout.chain(each).collect();
        object["risk_told"] = json!(risk_told(plan));
    }
    // The rule set and the units decide what is served and how a bed is told.
    object["rules"] = json!(context.set().id);
    object
}

fn take_order(object: &mut Value, order: &Order, worked: &Worked) {
    let plan = &worked.plan;
    let lines = order.bills.iter().flat_map(|bill| {
        bill.lines.iter().map(|line| {
            json!({
                "variety": line.variety, "supplier": bill.supplier, "packs": line.packs,
                "tubers": line.tubers, "price": money(line.price), "cost": money(line.cost),
                "padding": line.padding.map(|padding| json!({
                    "packs": padding.packs, "least": padding.least.map(money),
                    "free_over": padding.free_over.map(money), "told": line.padding_told(),
                })),
            })
        })
    });
    object["lines"] = lines.collect();
    let suppliers = order.bills.iter().map(|bill| {
        json!({
            "supplier": bill.supplier, "goods": money(bill.goods), "postage": money(bill.postage),
            "total": money(bill.total()),
        })
    });
    object["suppliers"] = suppliers.collect();
    let postage = order
        .bills
        .iter()
        .map(|bill| bill.postage.in_hundredths())
        .sum();
    object["postage"] = json!(money(Money::hundredths(postage)));
    let first = |candidate: usize| {
        worked
            .settled
            .candidates
            .first_cuts
            .get(candidate)
            .map(|weeks| plan.season.first_cut(*weeks).to_string())
    };
    let planted = order.planted.iter().map(|one| {
        let gives = one.gives.iter().map(|gives| json!({ "need": plan.needs[gives.need].name, "weeks": gives.weeks, "stems": gives.stems }));
        json!({
            "variety": one.variety, "plants": one.plants, "on_hand": one.on_hand,
            "bought": one.bought, "spare": one.spare, "first_cut": first(one.candidate),
            "gives": gives.collect::<Vec<_>>(),
        })
    });
    object["planted"] = planted.collect();
    let need = |one: &Weekly| plan.needs[one.need].name.clone();
    object["short"] = order
        .short()
        .map(|one| json!({ "need": need(one), "week": one.week, "stems": one.short() }))
        .collect();
    object["needs"] = (order.weekly.iter())
        .map(|one| json!({ "need": need(one), "week": one.week, "needed": one.needed, "given": one.given }))
        .collect();
    let stretches = bed_plan(plan, order, &worked.settled.candidates.first_cuts);
    let beds = stretches.iter().map(|one| {
        json!({
            "bed": one.bed_name, "variety": one.variety, "plants": one.plants,
            "from_mm": one.from.mm().to_f64(), "to_mm": one.to.mm().to_f64(),
        })
    });
    object["beds"] = beds.collect();
}

fn mend(plan: &Plan, mend: &Mend) -> Value {
    let mut object = match mend.by {
        By::Bed { places, at_least } => {
            json!({ "by": "bed", "places": places, "at_least": at_least })
        }
        By::Money { more, at_least } => {
            json!({ "by": "money", "more": money(more), "at_least": money(at_least) })
        }
        By::Colour { wider, .. } => json!({ "by": "colour", "wider": wider }),
        By::Earlier { weeks, frost, .. } => {
            json!({ "by": "earlier", "weeks": weeks, "frost": frost })
        }
    };
    let edits = mend.edits.iter().map(|edit| json!(edit.words(plan)));
    object["set"] = edits.collect();
    object["cost"] = json!(money(mend.cost));
    object["least"] = json!(mend.is_least());
    object["told"] = json!(mend_told(plan, mend));
    object
}

fn money(money: Money) -> f64 {
    money.in_hundredths() as f64 / 100.0
}
