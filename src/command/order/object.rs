//! The order as one JSON object. Money is a number of the grower's currency, weeks are of the year.
//!
//! | key | holds |
//! |---|---|
//! | `status` | `optimal` (the least cost, proved), `found` (as sure as asked, and the least that was found), `short` (not every need can be met, or not as surely as asked), `stopped` (before either was proved) |
//! | `told` | the same in a sentence |
//! | `cost`, `gap`, `bound` | of the order; (cost - bound) / cost; what is proved: no order costs less; null where unknown |
//! | `all_needs_cost` | where only money is short: what meeting every need costs |
//! | `promises` | `need`, `sure` (as asked, 0 to 1), `chance` (that it has all its stems in all its weeks), `met`, `ceiling` (no order has a greater chance), `as_one` (of an event or a round: all its parts together); none with `--on-average` |
//! | `surer` | with `--surer`: `need` (or event; null: every one), `sure`, `cost` (the least found; null where none was) |
//! | `lines` | `variety`, `supplier`, `packs`, `a_pack` (tubers), `tubers`, `price` (a pack), `cost`, `padding`: null, or `packs` that only fill the order up, `least` (order) and `free_over` that they reach (null where not), `told` |
//! | `suppliers`, `postage` | `supplier`, `goods`, `postage`, `free_over` (from what worth it is free, null where the goods do not reach it), `total`; the postage of all |
//! | `planted` | `variety`, `plants`, `on_hand`, `bought`, `spare`, `first_cut`, `gives` [`need`, `weeks`, `stems`, `fitness` (0 to 1) and `distance` (CIEDE2000) for that need, null where it asks for none, `known`: on what the fitness rests, what the use wants by `seen`, `stated`, `expected`, `unknown`] |
//! | `short`, `lacking` | `need`, `week`, `stems`; `need` or null, `told` |
//! | `set_aside` | what no order can meet, whatever beds and money: `need`, `weeks`, `kept` (what is ordered for all the same: its `other_weeks`, the `most` that there is, `nothing`); `cost`, `gap` and `bound` are then of all else |
//! | `causes` | why a need is not met, or not as surely as was asked: `need`, `weeks`, `why` (`before_first_cut`, `after_frost`, `not_in_bloom`, `no_variety`, `not_offered`, `closed`, `shortlist`, `fixed`, `least_order`, `too_few_varieties`, `too_few_forms`, `most_from_one`, `too_few_tubers`, `beds`, `money`, `beds_or_money`, `beds_and_money`, `late_first_cut`, `early_frost`, `unknown`), `day` (of the first cut, the frost, the closing), `share` (of the seasons that fail), `nearest` [`variety`, `fitness`, `distance`], `competes` (sets of needs: without any one set it could be met), `told` |
//! | `needs` | by need and week: `need`, `week`, `needed`, `given` |
//! | `work` | events and rounds: `name`, `kind` (`event`, `round`), `when`, `first` and `last` (day), `pieces` [`piece`, `number`], `colours`, `sure` (or null), `stems` (of a round a week), `needs` [`need`, `part`, `stems`, `weeks`, `cut` (first day), `days_before`] |
//! | `weeks` | of the season: `week`, `monday`, `needed`, `expected`, `low`, `high` (nine seasons in ten), `short` |
//! | `mends` | `by` (`bed`, `money`, `colour`, `earlier`, `weeks`, `fitness`, `stems`), what of it, `and` (what is changed with it, as `by`), `set` (what `--set` takes to make it), `cost` (of an order then, at most), `least` (proved that less would not do), `told` |
//! | `beds`, `places` | `bed`, `variety`, `plants`, `from_mm`, `to_mm`; places in all beds |
//! | `dates` | `id`, `day`, `what`, `more` |
//! | `figures` | `name`, `value`, `source` |
//! | `risk` | with `--risk`: `need`, `week` (null: all of its weeks), `chance` (0 to 1) |
//! | `risk_told` | with `--risk`: what varies between the seasons that are drawn, and what does not |
//! | `have_week`, `have`, `have_told` | with `--have`: the week; `variety`, `colours`, `stems` (expected in it), `promised`, `free`, `needs` [`need`, `stems`]; the same in a sentence |
//! | `why` | with `--why`: `variety`, `told`, `in_order`, `without` (what doing without it costs more) |
//! | `notes`, `written`, `rules` | what was left out or assumed; files written; the rule set |

use serde_json::{Value, json};

use super::asked::{Surer, Without};
use super::{OrderArguments, Worked};
use crate::account::{Pair, Part, Section, object};
use crate::command::Context;
use crate::order::report::account::{
    causes, dates, figures, mended, needs, notes, planted, promises, risk, shortfall, spreads,
    status, surer, weeks, work,
};
use crate::order::report::{Chart, bed_plan, beds, have, sheet};
use crate::order::{Order, Plan};
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
        causes: whys,
        mends,
        chances,
        surer: costs,
        asked,
        model: _,
        have: of_week,
    } = worked;
    let chart = Chart::of(plan, settled, chances.as_ref());
    let mut sections = vec![
        status(plan, settled),
        promises(plan, settled),
        shortfall(plan, settled),
        causes(plan, settled, whys),
        mended(plan, mends),
        weeks(chart.as_ref()),
        dates(plan, settled, list),
        figures(plan, list),
        notes(settled),
        work_data(plan, context),
        // The rule set and the units decide what is served and how a bed is told.
        Section::default()
            .with(Part::sentences("written", written.iter().cloned()))
            .with(Part::Pairs(vec![Pair::data(
                "rules",
                context.set().id.as_str(),
            )])),
    ];
    if let Some(order) = &settled.order {
        sections.extend(of_order(order, worked, context));
        sections.extend(of_week.map(|week| have(plan, settled, order, list, week)));
    }
    if let Some(chances) = chances.as_ref().filter(|_| arguments.risk) {
        sections.extend([risk(plan, chances, usize::MAX), spreads(plan)]);
    }
    if let Some(Surer { of, steps }) = costs {
        sections.push(surer(plan, *of, steps));
    }
    let mut object = object(&sections);
    // Without an order there is nothing in them.
    object["postage"] = object["postage"].as_f64().unwrap_or_default().into();
    for list in ["lines", "suppliers", "planted", "needs", "beds"] {
        object
            .as_object_mut()
            .map(|object| object.entry(list).or_insert_with(|| json!([])));
    }
    if !asked.is_empty() {
        let why = asked.iter().map(|one| {
            let dearer = match &one.without {
                Some(Without::Costs(more)) => Some(more.in_hundredths() as f64 / 100.0),
                Some(Without::NotFound) | None => None,
            };
            json!({ "variety": one.name, "told": one.lines, "in_order": one.in_order, "without": dearer })
        });
        object["why"] = why.collect();
    }
    object
}

/// Events and rounds, with the needs that they come to.
fn work_data(plan: &Plan, context: &Context) -> Section {
    let sections = work(plan, &context.contents.pieces).into_iter();
    // The last one is for programs.
    sections.last().unwrap_or_default()
}

fn of_order(order: &Order, worked: &Worked, context: &Context) -> Vec<Section> {
    let Worked {
        plan,
        settled,
        list,
        ..
    } = worked;
    let postage = order.bills.iter().map(|bill| bill.postage.in_hundredths());
    let postage = Pair::data("postage", Money::hundredths(postage.sum()));
    let mut sections = sheet(plan, order, list);
    sections.push(Section::default().with(Part::Pairs(vec![postage])));
    sections.push(needs(plan, settled, order));
    sections.push(planted(plan, settled, order));
    let stretches = bed_plan(plan, order, &settled.candidates.first_cuts);
    sections.extend(beds(plan, &stretches, context.units));
    sections
}
