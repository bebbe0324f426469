//! What an order promises, below its chart.

use crate::order::{Plan, Promise, Settled};

/// The most bytes of a line of promises.
const LINE: usize = 90;

/// In how many seasons of a hundred each need has all its stems in all its weeks, in lines that are not wrapped
/// on any paper.
pub(super) fn promised(plan: &Plan, settled: &Settled) -> Vec<String> {
    let one = |promise: &Promise| {
        let name = promise.of.name(plan);
        let chance = promise.in_hundred();
        match promise.is_met() {
            true => format!("{name} {chance}"),
            false => format!("{name} {chance} ({:.0} asked)", promise.sure * 100.0),
        }
    };
    let mut lines = vec!["Met in all its weeks in so many seasons of 100:".to_string()];
    for (at, promise) in settled.promises.iter().enumerate() {
        let mark = match at + 1 == settled.promises.len() {
            true => ".",
            false => ";",
        };
        let told = one(promise) + mark;
        match lines.last_mut() {
            Some(line) if line.len() + told.len() < LINE => *line += &format!(" {told}"),
            _ => lines.push(told),
        }
    }
    lines.retain(|_| !settled.promises.is_empty());
    lines
}
