//! A size beside a form, so that the two cannot be taken for another form.
//!
//! The words for sizes are also parts of forms' names, and mean something else there: a miniature
//! ball is at most so wide, and a ball may be of the size miniature all the same. So wherever a form
//! stands, its size is told as a width, the word only behind it and said to be a size: `3.5 to 4 in
//! across (size miniature)`. In a table the width alone stands.

use super::rules::RuleSet;
use super::space::Span;
use crate::measure::{Exact, Length, SizeUnits};

/// A width and its size word, as they stand beside a form: the one wording for both.
pub fn width_and_size(width: &str, word: &str) -> String {
    format!("{width} across (size {word})")
}

impl RuleSet {
    /// A size beside a form: `3.5 to 4 in across (size miniature)`. The form, where it is known,
    /// narrows the width.
    pub fn size_in_words(&self, form: Option<usize>, word: &str, units: SizeUnits) -> String {
        match self.widths(form, word) {
            Some(span) => width_and_size(&self.width_words(span, " to ", "up to ", units), word),
            // A word of another rule set: how wide it is is not known here.
            None => format!("size {word}"),
        }
    }

    /// The same for a buyer, in centimetres and inches, the grower's own unit first: `up to 5.1 cm, up to
    /// 2 in across (size miniature)`.
    pub fn size_in_both_units(&self, form: Option<usize>, word: &str, units: SizeUnits) -> String {
        let Some(span) = self.widths(form, word) else {
            return format!("size {word}");
        };
        let told = |units| {
            let number = |mm: Exact| match units {
                SizeUnits::Mm => (mm / Exact::whole(10)).to_decimal(1),
                SizeUnits::In => Length::from_mm(mm).inches().to_decimal(2),
            };
            self.span_words(span, " to ", "up to ", number, units.of_buyers())
        };
        let other = match units {
            SizeUnits::Mm => SizeUnits::In,
            SizeUnits::In => SizeUnits::Mm,
        };
        width_and_size(&format!("{}, {}", told(units), told(other)), word)
    }

    /// The width alone, for a table: `3.5-4 in`, `to 4 in`, `over 10 in`.
    pub fn size_cell(&self, form: Option<usize>, word: &str, units: SizeUnits) -> String {
        match self.widths(form, word) {
            Some(span) => self.width_words(span, "-", "to ", units),
            None => format!("size {word}"),
        }
    }

    /// The same under a head that tells the unit: `3.5-4`, `to 4`, `over 10`.
    pub fn size_figures(&self, form: Option<usize>, word: &str, units: SizeUnits) -> String {
        let cell = self.size_cell(form, word, units);
        let unit = format!(" {}", units.of_blooms());
        cell.strip_suffix(&unit)
            .map_or(cell.clone(), str::to_string)
    }

    /// The diameters of a size word, within those of the form where they meet.
    fn widths(&self, form: Option<usize>, word: &str) -> Option<Span> {
        let (_, span) = self.size_words.iter().find(|(own, _)| own == word)?;
        let form = form.and_then(|form| self.forms.get(form));
        let met = form.and_then(|form| form.diameter.meet(*span));
        Some(met.unwrap_or(*span))
    }

    /// Whole millimetres, hundredths of an inch.
    fn width_words(&self, span: Span, joiner: &str, least: &str, units: SizeUnits) -> String {
        let number = |mm: Exact| match units {
            SizeUnits::Mm => mm.to_decimal(0),
            SizeUnits::In => Length::from_mm(mm).inches().to_decimal(2),
        };
        self.span_words(span, joiner, least, number, units.of_blooms())
    }

    fn span_words(
        &self,
        span: Span,
        joiner: &str,
        least: &str,
        number: impl Fn(Exact) -> String,
        unit: &str,
    ) -> String {
        let (low, high) = (number(span.low), number(span.high));
        let domain = self.traits.find("diameter");
        let domain = domain.and_then(|at| self.traits.get(at).domain());
        let from_start = domain.is_some_and(|domain| domain.low == span.low);
        let to_end = domain.is_some_and(|domain| domain.high == span.high);
        match (from_start, to_end) {
            (true, true) => "any width".to_string(),
            (true, false) => format!("{least}{high} {unit}"),
            (false, true) => format!("over {low} {unit}"),
            (false, false) => format!("{low}{joiner}{high} {unit}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Over every form and size there is: the word is never beside the form's name, always said to
    /// be a size and behind a number; and no other form's name can be read out of the two.
    #[test]
    fn no_size_can_be_taken_for_a_part_of_a_form() {
        for set in RuleSet::embedded() {
            for (at, form) in set.forms.iter().enumerate() {
                for (word, _) in &set.size_words {
                    for units in [SizeUnits::In, SizeUnits::Mm] {
                        let told = set.size_in_words(Some(at), word, units);
                        let (width, rest) = told.split_once(" across (size ").expect(&told);
                        assert_eq!(rest, format!("{word})"), "{}: {told}", form.name);
                        let cell = set.size_cell(Some(at), word, units);
                        for width in [width, &cell] {
                            assert!(width.contains(|c: char| c.is_ascii_digit()), "{width}");
                            for (word, _) in &set.size_words {
                                assert!(!width.contains(word.as_str()), "{width}");
                            }
                        }
                        for said in [
                            format!("{}, {told}", form.name),
                            format!("{told} {}", form.name),
                            format!("{} {cell} {}", form.name, form.name),
                        ] {
                            let said = said.replace(&form.name, "_");
                            let other = set.forms.iter().find(|other| said.contains(&other.name));
                            assert_eq!(other.map(|other| &other.name), None, "{said}");
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn a_width_is_within_the_forms_own() {
        let [trade, register] = &RuleSet::embedded()[..] else {
            panic!("two sets")
        };
        for (form, word, units, text, cell) in [
            (
                "ball",
                "miniature",
                SizeUnits::In,
                "3.5 to 4 in across (size miniature)",
                "3.5-4 in",
            ),
            (
                "miniature-ball",
                "miniature",
                SizeUnits::In,
                "2 to 3.5 in across (size miniature)",
                "2-3.5 in",
            ),
            (
                "pompon",
                "miniature",
                SizeUnits::In,
                "up to 2 in across (size miniature)",
                "to 2 in",
            ),
            (
                "micro-anemone",
                "miniature",
                SizeUnits::Mm,
                "up to 51 mm across (size miniature)",
                "to 51 mm",
            ),
            (
                "peony",
                "small",
                SizeUnits::In,
                "4 to 6 in across (size small)",
                "4-6 in",
            ),
            (
                "peony",
                "giant",
                SizeUnits::Mm,
                "over 254 mm across (size giant)",
                "over 254 mm",
            ),
            // Stated, and it cannot be: the size is told as it was stated.
            (
                "pompon",
                "large",
                SizeUnits::In,
                "8 to 10 in across (size large)",
                "8-10 in",
            ),
            ("ball", "tiny", SizeUnits::In, "size tiny", "size tiny"),
        ] {
            let at = trade.find(form);
            assert!(at.is_some(), "{form}");
            assert_eq!(trade.size_in_words(at, word, units), text);
            assert_eq!(trade.size_cell(at, word, units), cell);
        }
        for (form, word, units, text) in [
            (
                "pompon",
                "miniature",
                SizeUnits::Mm,
                "up to 5.1 cm, up to 2 in across (size miniature)",
            ),
            (
                "peony",
                "small",
                SizeUnits::In,
                "4 to 6 in, 10.2 to 15.2 cm across (size small)",
            ),
            (
                "peony",
                "giant",
                SizeUnits::In,
                "over 10 in, over 25.4 cm across (size giant)",
            ),
            ("ball", "tiny", SizeUnits::In, "size tiny"),
        ] {
            assert_eq!(
                trade.size_in_both_units(trade.find(form), word, units),
                text
            );
        }
        let told = register.size_in_words(register.find("ball"), "small", SizeUnits::Mm);
        assert_eq!(told, "100 to 150 mm across (size small)");
        let told = trade.size_in_words(None, "miniature", SizeUnits::In);
        assert_eq!(told, "up to 4 in across (size miniature)");
    }
}
