//! Why a variety is in the order, or is not.

use super::columns::in_weeks;
use crate::order::{Match, OrderLine, Plan, Planted, Settled};
use crate::variety::Money;

/// Why a variety is bought or planted: which needs it serves, in which weeks, by how much, and how
/// well it suits them; or what it fills up.
pub fn why(plan: &Plan, settled: &Settled, planted: &Planted) -> Vec<String> {
    let candidates = &settled.candidates;
    let mut lines = vec![format!(
        "{}: {} planted; {} bought, {} on hand, {} spare.",
        planted.variety, planted.plants, planted.bought, planted.on_hand, planted.spare
    )];
    for gives in &planted.gives {
        let own = of_need(&candidates.matches[planted.candidate], gives.need);
        lines.push(format!(
            "  {} for {} in {}{}",
            stems(gives.stems),
            plan.needs[gives.need].name,
            in_weeks(&gives.weeks),
            own.map(suits).unwrap_or_default()
        ));
        lines.extend(own.and_then(rests));
    }
    let trials = candidates.model.trials.iter();
    for trial in trials.filter(|trial| trial.varieties.contains(&planted.candidate)) {
        lines.push(format!("  it is of a form to be tried: {}", trial.name));
    }
    for bill in settled.order.iter().flat_map(|order| &order.bills) {
        let own = bill.lines.iter().filter(|line| line.row == planted.row);
        let told = own.filter_map(OrderLine::padding_in_words);
        lines.extend(told.map(|told| format!("  {} bought of {}", told, bill.supplier)));
    }
    let name = &planted.variety;
    if (plan.fixed.iter()).any(|fixed| fixed.packs > 0 && fixed.variety.as_str() == name) {
        lines.push("  it is fixed by hand".to_string());
    }
    if planted.plants == 0 {
        lines.push("  none of it is planted, so it needs no place in the beds".to_string());
    }
    lines
}

/// Why a variety of the list is not planted.
pub fn why_not(plan: &Plan, settled: &Settled, row: usize, name: &str) -> Vec<String> {
    let candidates = &settled.candidates;
    let serving = |at: &usize| !candidates.matches[*at].is_empty();
    let at = candidates.rows.iter().position(|own| *own == row);
    let Some(at) = at.filter(serving) else {
        return vec![format!(
            "{name}: not in the order. It serves none of the needs: none is of its form, colour and use together."
        )];
    };
    let mut lines = vec![format!("{name}: not in the order. It could serve:")];
    for one in &candidates.matches[at] {
        lines.push(format!("  {}{}", plan.needs[one.need].name, suits(one)));
        lines.extend(rests(one));
    }
    let offers = candidates
        .model
        .offers
        .iter()
        .filter(|offer| offer.variety == at);
    let offers: Vec<String> = offers
        .map(|offer| {
            let supplier = &candidates.model.suppliers[offer.supplier].name;
            format!(
                "{} a tuber in packs of {} from {supplier}",
                Money::hundredths(offer.price / offer.tubers.max(1)),
                offer.tubers
            )
        })
        .collect();
    lines.push(match offers.is_empty() {
        true => "  but none can be bought: there is no offer that is open, or it is not on the shortlist".to_string(),
        false => format!("  at {}; others meet these needs as cheaply or at less cost. Fix a quantity by hand to see what it costs to have it.", offers.join(", ")),
    });
    lines
}

fn stems(stems: f64) -> String {
    match stems.round() {
        0.0 => "less than a stem".to_string(),
        1.0 => "1 stem".to_string(),
        stems => format!("{stems} stems"),
    }
}

/// How a variety meets a need.
pub(super) fn of_need(matches: &[Match], need: usize) -> Option<&Match> {
    matches.iter().find(|one| one.need == need)
}

/// `, fitness 82 %, 3.1 from the colour`.
fn suits(own: &Match) -> String {
    let fitness = own
        .fitness
        .map(|fitness| format!(", fitness {:.0} %", fitness * 100.0));
    let distance = own
        .distance
        .map(|distance| format!(", {distance:.1} from the colour"));
    [fitness, distance].into_iter().flatten().collect()
}

/// `    size seen on it; vase life only expected of its form`.
fn rests(own: &Match) -> Option<String> {
    Some(format!("    {}", own.rests?.told()))
}
