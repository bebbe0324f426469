//! What speaks against the figures of an entry: against each by itself, beside each other, and beside
//! what was seen of the plant on other days.

use jiff::civil::Date;

use super::{EntryContext, Trial, odd};
use crate::account::text::counted;
use crate::trial::entry::{Entry, Observation};
use crate::trial::evidence::range;
use crate::variety::Extent;

/// No bloom is wider; the table of traits has the same limit.
const MOST_DIAMETER: f64 = 500.0;
/// Days in the vase beyond this are rare enough to ask after. Assumed.
const USUAL_VASE: f64 = 21.0;

impl Trial {
    /// Tells `doubt` whether it cannot be so, and what was found and expected.
    pub(super) fn check_figures(
        &self,
        entry: &Entry,
        seen: &Observation,
        grounds: &EntryContext<'_>,
        doubt: &mut impl FnMut(bool, String),
    ) {
        let replaced = self.replaced(entry);
        let others: Vec<(&Entry, &Observation)> = self
            .observations(&entry.of)
            .into_iter()
            .filter(|(other, _)| Some(other.id) != replaced)
            .collect();
        for one in &seen.diameters {
            let (mm, shown) = (one.mm(), one.length());
            if mm > MOST_DIAMETER {
                doubt(
                    true,
                    format!("diameter: found {shown}, expected a length over 0 and up to 500mm"),
                );
            } else if !odd::DIAMETER.usual.contains(&mm) {
                doubt(
                    false,
                    format!("diameter: found {shown}, expected 20mm to 350mm of most blooms"),
                );
            }
        }
        for (kind, of) in [
            (
                &odd::DIAMETER,
                (|seen| &seen.diameters) as fn(&Observation) -> &Vec<Extent>,
            ),
            (&odd::STEM, |seen| &seen.stems),
        ] {
            let known = others
                .iter()
                .flat_map(|(other, seen)| of(seen).iter().map(|one| (other.date, one.mm())));
            let told = odd_lengths(kind, entry, of(seen), known.collect(), grounds);
            told.into_iter().for_each(|told| doubt(false, told));
        }
        for stem in seen.vase.iter().filter(|stem| stem.days.get() > USUAL_VASE) {
            doubt(
                false,
                format!("vase: found {stem} days, expected up to {USUAL_VASE} of most stems"),
            );
        }
        let before = others
            .iter()
            .rev()
            .filter(|(other, _)| other.date <= entry.date);
        let lifted = before
            .map(|(_, seen)| seen.tubers)
            .find_map(|tubers| tubers);
        match (seen.sound, seen.tubers.or(lifted)) {
            (Some(sound), Some(lifted)) if sound > lifted => {
                doubt(
                    true,
                    format!("sound: found {sound}, expected at most the {lifted} tubers lifted"),
                );
            }
            (Some(_), None) => doubt(
                false,
                "sound: found a count without tubers lifted before, expected that first"
                    .to_string(),
            ),
            _ => {}
        }
        if seen.open == Some(0) && !seen.diameters.is_empty() {
            doubt(
                false,
                "open: found 0 beside measured blooms, expected at least those".to_string(),
            );
        }
    }
}

/// The lengths of a note that are odd beside the plant's others and beside each other: a sentence each.
fn odd_lengths(
    kind: &odd::Kind,
    entry: &Entry,
    noted: &[Extent],
    known: Vec<(Date, f64)>,
    grounds: &EntryContext<'_>,
) -> Vec<String> {
    let sentence = |(at, one): (usize, &Extent)| {
        // What is outside of these is told by itself.
        if !kind.usual.contains(&one.mm()) {
            return None;
        }
        let beside = noted.iter().enumerate().filter(|(other, _)| *other != at);
        let beside = beside.map(|(_, one)| (entry.date, one.mm()));
        let others: Vec<(Date, f64)> = known.iter().copied().chain(beside).collect();
        let limits = odd::foretold(kind, &others, noted.len())?;
        (one.mm() < limits.low || one.mm() > limits.high).then(|| {
            let (found, of) = (one.length().told(grounds.units), &entry.of);
            let expected = range(limits, grounds.units);
            let others = counted(others.len(), &format!("other {}", kind.of));
            format!(
                "{}: found {found}, expected {expected} beside {others} of {of}",
                kind.name
            )
        })
    };
    noted.iter().enumerate().filter_map(sentence).collect()
}
