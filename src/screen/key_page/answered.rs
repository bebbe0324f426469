//! Answers in words, and what they rule out.

use super::KeyPage;
use crate::form::traits::list_or;
use crate::form::words::{number_words, range_words};
use crate::form::{Answer, Likely, Trait};
use crate::measure::{Exact, SizeUnits};

/// An answer in the words of the table and the grower's units.
pub(super) fn answer_words(one: &Trait, answer: &Answer, units: SizeUnits) -> String {
    match answer {
        Answer::CannotTell => "passed".to_string(),
        Answer::States(mask) => {
            let states = one.states().iter().enumerate();
            let chosen = states
                .filter(|(at, _)| mask >> at & 1 == 1)
                .map(|(_, state)| state.id.as_str());
            list_or(&chosen.collect::<Vec<_>>())
        }
        Answer::Values(values) => match (&values[..], Exact::mean(values)) {
            ([_, _, ..], Some(mean)) => {
                format!(
                    "{}, {} blooms",
                    number_words(one, mean, units),
                    values.len()
                )
            }
            (_, Some(one_value)) => number_words(one, one_value, units),
            (_, None) => String::new(),
        },
        Answer::Range(span) => range_words(one, *span, units),
    }
}

/// What the rules say of a form as the answers stand: it fits, or what rules it out.
pub(super) fn why_words(page: &KeyPage, likely: &Likely) -> String {
    let by = page
        .reading
        .ruled_out
        .iter()
        .find(|(form, _)| *form == likely.form);
    let Some((_, by)) = by else {
        return "fits".to_string();
    };
    let told = by.iter().map(|index| {
        let one = page.trait_at(*index);
        let answer = page.answers.get(*index);
        let words = answer.map_or(String::new(), |answer| {
            answer_words(one, answer, page.units)
        });
        format!("{} {words}", one.id)
    });
    format!("not with {}", told.collect::<Vec<_>>().join(", "))
}
