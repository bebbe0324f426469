//! What a grower types for a number, and what is meant by it.

use crate::form::{Answer, AnswerError, Kind, Trait, part};
use crate::measure::SizeUnits;
use crate::screen::lengths;

/// Reads a typed line as the answer to `one`. Forgiving where the meaning is plain: `4-7` and
/// `4 to 7` are ranges, `10 or more` is `10+`, and a length without a unit takes the unit that follows it, else the
/// grower's own, so that `98 104 101` is three blooms.
pub(super) fn read(text: &str, one: &Trait, units: SizeUnits) -> Result<Answer, AnswerError> {
    Answer::read(&meant(text, one, units), one)
}

fn meant(text: &str, one: &Trait, units: SizeUnits) -> String {
    let text = text.trim().replace(" to ", "..").replace(" or more", "+");
    match one.kind {
        Kind::OneOf(_) => text,
        // A hyphen is within a part, such as two-thirds, or between two numbers.
        Kind::Share if part::read(&text).is_some() => text,
        Kind::Count(..) | Kind::Share => text.replacen('-', "..", 1),
        Kind::Length(_) => match text.split_once("..") {
            Some((low, high)) => {
                let ends =
                    lengths::with_units(&[low.trim(), high.trim()].map(str::to_string), units);
                ends.join("..")
            }
            None => lengths::bloom_list(&text, units),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Traits;

    fn told(id: &str, text: &str, units: SizeUnits) -> String {
        let traits = Traits::embedded();
        let one = traits.get(traits.find(id).expect(id));
        match read(text, one, units) {
            Ok(answer) => answer.print(one),
            Err(error) => error.to_string(),
        }
    }

    #[test]
    fn quick_entries_mean_what_a_grower_means() {
        for (id, text, meant) in [
            ("diameter", "98 104 101", "98mm,104mm,101mm"),
            ("diameter", "98, 104,101", "98mm,104mm,101mm"),
            ("diameter", "98 mm 104 mm", "98mm,104mm"),
            ("diameter", "3 1/2 in", "88.9mm"),
            ("diameter", "3 1/2 4 in", "88.9mm,101.6mm"),
            ("diameter", "3-1/2\"", "88.9mm"),
            ("diameter", "9.8cm", "98mm"),
            ("diameter", "80..90", "80mm..90mm"),
            ("diameter", "3 to 4 in", "76.2mm..101.6mm"),
            ("rows", "4-7", "4..7"),
            ("rows", "4 to 7", "4..7"),
            ("rolled", "60 %", "60"),
            ("rolled", "50-60%", "50..60"),
            ("rolled", "0", "0"),
            ("rolled", "1/4", "1/4"),
            ("rolled", "3/4", "3/4"),
            ("rolled", "a third", "1/3"),
            ("rolled", "half", "1/2"),
            ("rolled", "two thirds", "2/3"),
            ("rolled", "two-thirds", "2/3"),
            ("rolled", "1/4-1/2", "25..50"),
            ("rolled", "a quarter to half", "25..50"),
            ("rolled", "60 % or more", "60..100"),
            ("rows", "10+", "10+"),
            ("rows", "10 or more", "10+"),
        ] {
            assert_eq!(told(id, text, SizeUnits::Mm), meant, "{text}");
        }
        assert_eq!(told("diameter", "3 1/2", SizeUnits::In), "88.9mm");
        assert_eq!(told("diameter", "3.5 4", SizeUnits::In), "88.9mm,101.6mm");
        assert_eq!(told("diameter", "98 104 mm", SizeUnits::In), "98mm,104mm");
    }

    #[test]
    fn what_cannot_be_meant_is_refused_with_a_sentence() {
        for (id, text) in [
            ("rows", "many"),
            ("rows", "0"),
            ("rolled", "120"),
            ("rolled", "5/4"),
            ("rows", "half"),
            ("diameter", "98,,104"),
            ("diameter", "98 x"),
            ("diameter", "-3"),
        ] {
            let told = told(id, text, SizeUnits::Mm);
            assert!(
                told.contains("found") && told.contains("expected"),
                "{text}: {told}"
            );
        }
    }
}
