//! Observations in plain words.

use super::answer::Answer;
use super::part;
use super::space::{Atom, Block, Scale, Span, bits};
use super::traits::{Kind, State, Trait, Traits, list_or};
use crate::measure::{Exact, Length, SizeUnits};

/// A block in words, only the traits that it narrows: `centre closed; 4 to 7 rows of florets`. Empty where
/// the block narrows nothing.
pub fn block_words(traits: &Traits, scales: &[Scale], block: &Block, units: SizeUnits) -> String {
    let mut said = Vec::new();
    for (index, (one, scale)) in traits.list().iter().zip(scales).enumerate() {
        let present = scale.full() & !scale.absent();
        let mask = block.0[index];
        // What follows from another trait alone need not be said: that a trait does not apply, or
        // that a number is 0 or is not.
        let zero = if one.zero_where.is_some() {
            scale.touched(Span::point(Exact::zero()))
        } else {
            0
        };
        let implied = mask == scale.absent() || mask == zero || mask == present & !zero;
        if implied || mask & present == present {
            continue;
        }
        said.push(one.said(&mask_words_of(one, scale, mask, units, State::word)));
    }
    said.join("; ")
}

/// A set of one trait's atoms in words: `pointed or split`, `over 25 % and under 50 %`.
pub fn mask_words(one: &Trait, scale: &Scale, mask: u64, units: SizeUnits) -> String {
    mask_words_of(one, scale, mask, units, |state| &state.id)
}

fn mask_words_of(
    one: &Trait,
    scale: &Scale,
    mask: u64,
    units: SizeUnits,
    word: fn(&State) -> &str,
) -> String {
    let states: Vec<&str> = bits(mask)
        .filter_map(|at| match scale.atoms()[at] {
            Atom::State(state) => Some(word(&one.states()[state])),
            _ => None,
        })
        .collect();
    if !states.is_empty() {
        return list_or(&states);
    }
    let spans: Vec<String> = spans(scale, mask)
        .into_iter()
        .map(|span| span_words(one, span, units))
        .collect();
    if spans.is_empty() {
        return "does not apply".to_string();
    }
    list_or(&spans.iter().map(String::as_str).collect::<Vec<_>>())
}

/// The mask's numbers as few spans: neighbouring atoms are joined.
pub(super) fn spans(scale: &Scale, mask: u64) -> Vec<Span> {
    let mut spans: Vec<(usize, Span)> = Vec::new();
    for at in bits(mask) {
        let Atom::Span(span) = scale.atoms()[at] else {
            continue;
        };
        match spans.last_mut() {
            Some((last, joined)) if *last + 1 == at => {
                *last = at;
                joined.high = span.high;
                joined.high_in = span.high_in;
            }
            _ => spans.push((at, span)),
        }
    }
    spans.into_iter().map(|(_, span)| span).collect()
}

/// A span in words: `1`, `4 to 7`, `over 50 %`, `over 51 mm and under 89 mm`.
pub fn span_words(one: &Trait, span: Span, units: SizeUnits) -> String {
    let show = |number| number_words(one, number, units);
    if span.low == span.high {
        return show(span.low);
    }
    let domain = one.domain().unwrap_or(span);
    let from_start = span.low == domain.low && span.low_in == domain.low_in;
    let to_end = span.high == domain.high && span.high_in == domain.high_in;
    if span.low_in && span.high_in && !from_start && !to_end {
        return format!("{} to {}", show(span.low), show(span.high));
    }
    let mut said = Vec::new();
    if !from_start {
        said.push(format!(
            "{} {}",
            if span.low_in { "at least" } else { "over" },
            show(span.low)
        ));
    }
    if !to_end {
        said.push(format!(
            "{} {}",
            if span.high_in { "at most" } else { "under" },
            show(span.high)
        ));
    }
    if said.is_empty() {
        "any".to_string()
    } else {
        said.join(" and ")
    }
}

/// One number of a trait with its unit.
pub fn number_words(one: &Trait, number: Exact, units: SizeUnits) -> String {
    match one.kind {
        Kind::Length(_) => Length::from_mm(number).shown(units),
        Kind::Share => format!("{} %", number.to_decimal(1)),
        _ => number.to_decimal(1),
    }
}

/// An answer in the words of the table and the grower's units: `rounded or pointed`, `98 mm, 3 blooms`.
pub fn answer_words(one: &Trait, answer: &Answer, units: SizeUnits) -> String {
    match answer {
        Answer::CannotTell => "passed".to_string(),
        Answer::States(mask) => {
            let states = bits(*mask).filter_map(|at| one.states().get(at));
            list_or(&states.map(|state| state.id.as_str()).collect::<Vec<_>>())
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

/// A range of a trait in words; a part by its name too: `about a third (28.3 % to 38.3 %)`.
pub fn range_words(one: &Trait, span: Span, units: SizeUnits) -> String {
    let told = span_words(one, span, units);
    match part::named(span).filter(|_| matches!(one.kind, Kind::Share)) {
        Some((_, name)) => format!("about {name} ({told})"),
        None => told,
    }
}
