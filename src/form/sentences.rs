//! What a reading says, in sentences for a grower: the same on paper, screen and command line.

use super::belief::{Keyer, Suspect};
use super::limits::{Close, MOST_MORE, READ_AS_EITHER};
use super::near::NearMiss;
use super::phrase::mask_said;
use super::reading::Reading;
use super::traits::{Kind, list_and, list_or};
use super::verdict::{Conflict, Status};
use super::words::{number_words, range_words};
use crate::measure::SizeUnits;

pub use crate::measure::percent;

impl Keyer {
    /// The verdict in one sentence.
    pub fn verdict_sentence(&self, reading: &Reading, units: SizeUnits) -> String {
        let name = |form: usize| self.set.forms[form].name.as_str();
        match reading.verdict.status {
            Status::Settled(form) => match &reading.size {
                Some(size) => {
                    let size = self.set.size_in_words(Some(form), size, units);
                    format!("Settled: {}, {size}.", name(form))
                }
                None => format!("Settled: {}.", name(form)),
            },
            Status::Open if reading.verdict.possible.len() <= 4 => {
                let names: Vec<&str> = reading.verdict.possible.iter().map(|f| name(*f)).collect();
                format!("Open: {} are possible.", list_and(&names))
            }
            Status::Open => format!(
                "Open: {} forms are possible.",
                reading.verdict.possible.len()
            ),
            Status::None => "No form: the answers contradict each other.".to_string(),
        }
    }

    /// A limit that is near, and what would settle the side.
    pub fn close_sentence(&self, close: &Close, units: SizeUnits) -> String {
        let one = self.set.traits.get(close.index);
        let limit = number_words(one, close.limit, units);
        let [below, above] = close.forms.map(|form| self.set.forms[form].name.as_str());
        let on = &self.set.forms[close.on_limit].name;
        if matches!(one.kind, Kind::Count(..)) {
            return format!(
                "Close: up to {limit} {} it is {below}, with more {above}.",
                one.id
            );
        }
        let sides = format!("below {limit} it is {below}, above {above}, exactly on it {on}");
        let note = self.note(close);
        let note = note.map_or(String::new(), |note| format!(" {note}"));
        let told = match (close.chance, close.distance) {
            (Some(chance), _) => {
                let more = match close.more {
                    Some(1) => "; measure 1 more bloom to settle it".to_string(),
                    Some(more) if more > MOST_MORE => format!("; {READ_AS_EITHER}"),
                    Some(more) => format!("; measure {more} more blooms to settle it"),
                    None => String::new(),
                };
                format!(
                    "Close: the mean is above {limit} with a chance of {}: {sides}{more}.",
                    percent(chance)
                )
            }
            (None, Some(distance)) => {
                let value = match one.kind {
                    // A difference of shares is told in points: 3 % of 50 % would be 1.5 %.
                    Kind::Share => format!("{} points", distance.to_decimal(1)),
                    _ => number_words(one, distance, units),
                };
                let more = match one.kind {
                    Kind::Length(_) => "; one bloom says little, measure more",
                    _ => "",
                };
                format!(
                    "Close: {value} from the limit of {limit} for {}: {sides}{more}.",
                    one.id
                )
            }
            (None, None) => {
                let range = close.range.map(|range| range_words(one, range, units));
                format!(
                    "Close: {} for {} is on both sides of {limit}: {sides}.",
                    range.unwrap_or_default(),
                    one.id
                )
            }
        };
        told + &note
    }

    /// A form that the bloom would have but for a few answers.
    pub fn near_sentence(&self, near: &NearMiss, units: SizeUnits) -> String {
        let wants: Vec<String> = near
            .but_for
            .iter()
            .map(|(index, mask)| {
                let one = self.set.traits.get(*index);
                let scale = &self.set.scales()[*index];
                mask_said(one, scale, *mask, units)
            })
            .collect();
        let wants: Vec<&str> = wants.iter().map(String::as_str).collect();
        format!(
            "Would be {} with {}.",
            self.set.forms[near.form].name,
            list_and(&wants)
        )
    }

    /// Which answers cannot stand together, and what would mend it.
    pub fn conflict_sentence(&self, conflict: &Conflict, units: SizeUnits) -> String {
        let id = |index: usize| self.set.traits.get(index).id.as_str();
        let ids: Vec<&str> = conflict.traits.iter().map(|index| id(*index)).collect();
        if conflict.gap {
            return format!(
                "The rule set has no form for these answers for {}: it has a gap there.",
                list_and(&ids)
            );
        }
        let mends: Vec<String> = conflict
            .mends
            .iter()
            .filter(|(_, mask)| *mask != 0)
            .map(|(index, mask)| {
                let one = self.set.traits.get(*index);
                mask_said(one, &self.set.scales()[*index], *mask, units)
            })
            .collect();
        let mends: Vec<&str> = mends.iter().map(String::as_str).collect();
        let no_mend = "No single change mends it.".to_string();
        let mend = if mends.is_empty() {
            no_mend
        } else {
            format!("It would agree with {}.", list_or(&mends))
        };
        format!(
            "The answers for {} cannot all be right. {mend}",
            list_and(&ids)
        )
    }

    /// The answer that most likely misleads.
    pub fn suspect_sentence(&self, suspect: &Suspect) -> String {
        let id = &self.set.traits.get(suspect.index).id;
        format!(
            "If one answer misleads, it is most likely {id} ({}).",
            percent(suspect.chance)
        )
    }
}
