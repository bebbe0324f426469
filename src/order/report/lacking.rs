//! What an order lacks beside stems: too few varieties or forms, a form that is not tried, a least
//! order or a sum of money that what is fixed by hand does not keep to.

use super::columns::in_weeks;
use crate::order::model::{Candidate, Demand, TryOut};
use crate::order::solution::given;
use crate::order::solve::check::Fault;
use crate::order::{Order, Settled};
use crate::variety::Money;

/// One thing that is lacking.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lack {
    /// The need that lacks it; `None` where it is the order's.
    pub need: Option<usize>,
    /// What is lacking, as a clause: `2 of the 3 varieties asked for in weeks 33 to 38`.
    pub told: String,
}

/// Everything that a settled order lacks beside stems; empty where every need is met.
pub fn lacking(settled: &Settled) -> Vec<Lack> {
    if !settled.falls_short() {
        return Vec::new();
    }
    let model = &settled.candidates.model;
    let Some(order) = &settled.order else {
        let least: Vec<u64> = model.offers.iter().map(|offer| offer.least).collect();
        let money = model.money.filter(|money| model.cost(&least) > *money);
        let told = money.map(|money| {
            let [least, money] = [model.cost(&least), money].map(Money::hundredths);
            format!("what is fixed by hand costs {least} by itself, and there is {money}")
        });
        return told
            .into_iter()
            .map(|told| Lack { need: None, told })
            .collect();
    };
    let mut lacks = Vec::new();
    for at in 0..model.needs.len() {
        lacks.extend(too_few(settled, order, at, settled.candidates.asked(at)));
    }
    for at in &settled.aside().trials {
        lacks.push(Lack {
            need: None,
            told: untried(&model.trials[*at]),
        });
    }
    for fault in model.faults(&order.choice) {
        let told = match fault {
            Fault::Trial(at) => untried(&model.trials[at]),
            Fault::LeastOrder(at) => {
                let supplier = &model.suppliers[at];
                let least = Money::hundredths(supplier.least);
                format!("{} takes no order under {least}", supplier.name)
            }
            _ => continue,
        };
        lacks.push(Lack { need: None, told });
    }
    lacks
}

fn untried(group: &TryOut) -> String {
    let none = match group.varieties.is_empty() {
        true => ": the list has none",
        false => "",
    };
    format!("no {} is planted, which is to be tried{none}", group.name)
}

/// Where a need has too few varieties or forms: in the weeks in which it is so, the fewest.
fn too_few(settled: &Settled, order: &Order, at: usize, need: &Demand) -> Vec<Lack> {
    let candidates = &settled.candidates;
    let model = &candidates.model;
    let asked = [("varieties", need.varieties), ("forms", need.forms)];
    let kinds = |varieties: Vec<usize>, what: &str| {
        let kind = |one: usize| {
            if what == "forms" {
                model.varieties[one].form
            } else {
                one
            }
        };
        let mut kinds: Vec<usize> = varieties.into_iter().map(kind).collect();
        kinds.sort_unstable();
        kinds.dedup();
        kinds.len() as u64
    };
    let lack = |(what, least): (&str, u64)| {
        let mut weeks = Vec::new();
        let mut fewest = least;
        for (place, week) in candidates.weeks.iter().enumerate() {
            if least < 2 || !need.runs(place) {
                continue;
            }
            let given = &given(model, &order.choice, place)[at];
            let counts = |(_, stems): &&(usize, u64)| *stems >= need.reserved(place).max(1);
            let count = kinds(given.iter().filter(counts).map(|one| one.0).collect(), what);
            if count < least {
                weeks.push(*week);
                fewest = fewest.min(count);
            }
        }
        let serves = |one: &(usize, &Candidate)| one.1.serves.contains(&at);
        let able = model.varieties.iter().enumerate().filter(serves);
        let able = kinds(able.map(|one| one.0).collect(), what);
        let all = if able < least {
            format!(": the list has {able} that could")
        } else {
            String::new()
        };
        (!weeks.is_empty()).then(|| Lack {
            need: Some(at),
            told: format!(
                "{fewest} of the {least} {what} asked for in {}{all}",
                in_weeks(&weeks)
            ),
        })
    };
    asked.into_iter().filter_map(lack).collect()
}
