//! What a bloom shows as a grower would say it: `tips round or pointed`, `4 to 8 in across`. Ids, names
//! of limits and signs are for files and commands.

use super::answer::Answer;
use super::condition::Condition;
use super::rules::{RuleSet, Shape};
use super::space::{Atom, Scale, Span, bits};
use super::traits::{Kind, State, Trait, Traits, list_and, list_or};
use super::words::{answer_words, number_words, span_words, spans};
use crate::measure::{Length, SizeUnits};

/// What stands in a phrase in place of the answer.
const ANSWER: &str = "{}";

impl Trait {
    /// The trait with this answer: `tips round`, `4 to 8 in across`, `one row of florets`.
    pub fn said(&self, answer: &str) -> String {
        match &self.phrase_of_one {
            Some(one) if answer == "1" => one.clone(),
            _ => self.phrase.replace(ANSWER, answer),
        }
    }

    /// Some of its states in the trait's phrase.
    fn states_said(&self, mask: u64) -> String {
        let states = bits(mask).filter_map(|at| self.states().get(at));
        self.said(&list_or(&states.map(State::word).collect::<Vec<_>>()))
    }

    /// A number or a span of it in the trait's phrase. Which end of a width belongs to it is told
    /// where forms are told apart by size, and is left out here.
    fn span_said(&self, span: Span, units: SizeUnits) -> String {
        let some = self.domain().map(|domain| Span {
            low_in: false,
            ..domain
        });
        if let (Some(phrase), true) = (&self.phrase_of_some, some == Some(span)) {
            return phrase.clone();
        }
        // What is over nothing goes without saying.
        let from = match self.domain() {
            Some(domain) if domain.low == span.low => Span {
                low_in: domain.low_in,
                ..span
            },
            _ => span,
        };
        self.said(&match self.kind {
            Kind::Length(_) => widths(self, span, units),
            _ => span_words(self, from, units),
        })
    }
}

/// `4 to 8 in`, `up to 4 in`, `over 10 in`.
fn widths(one: &Trait, span: Span, units: SizeUnits) -> String {
    let domain = one.domain().unwrap_or(span);
    let [low, high] = [span.low, span.high].map(|end| number_words(one, end, units));
    match (span.low <= domain.low, span.high >= domain.high) {
        (true, true) => "any width".to_string(),
        (true, false) => format!("up to {high}"),
        (false, true) => format!("over {low}"),
        (false, false) if low == high => low,
        (false, false) => {
            let bare = low.rsplit_once(' ').map_or(low.as_str(), |(bare, _)| bare);
            format!("{bare} to {high}")
        }
    }
}

/// A set of one trait's atoms as it is said: `tips pointed or split`, `florets rolled over 50 % of their
/// length`, `2 to 3.5 in across`.
pub fn mask_said(one: &Trait, scale: &Scale, mask: u64, units: SizeUnits) -> String {
    let states = bits(mask).filter_map(|at| match scale.atoms()[at] {
        Atom::State(state) => Some(1 << state),
        _ => None,
    });
    let states: u64 = states.sum();
    if states != 0 {
        return one.states_said(states);
    }
    let spans = spans(scale, mask).into_iter();
    let spans: Vec<String> = spans.map(|span| one.span_said(span, units)).collect();
    match spans.is_empty() {
        true => format!("{} does not apply", one.id),
        false => list_or(&spans.iter().map(String::as_str).collect::<Vec<_>>()),
    }
}

/// An answer as it is said: `tips round or pointed`, `5 rows of florets`, `65 to 70 mm across`.
pub fn answer_said(one: &Trait, answer: &Answer, units: SizeUnits) -> String {
    match answer {
        Answer::CannotTell => format!("{} not told", one.id),
        Answer::States(mask) => one.states_said(*mask),
        Answer::Range(span) => one.span_said(*span, units),
        Answer::Values(_) => one.said(&answer_words(one, answer, units)),
    }
}

impl Condition {
    /// The condition as it is said: `centre closed; tips round; edges flat or rolled back`.
    pub fn said(&self, traits: &Traits, units: SizeUnits) -> String {
        let parts = self.parts_said(traits, units);
        match parts.is_empty() {
            true => "anything".to_string(),
            false => parts.join("; "),
        }
    }

    /// Each thing that must hold.
    fn parts_said(&self, traits: &Traits, units: SizeUnits) -> Vec<String> {
        let one_of = |list: &[Condition], joined: fn(&[&str]) -> String| {
            let parts = list.iter().map(|one| {
                let parts = one.parts_said(traits, units);
                list_and(&parts.iter().map(String::as_str).collect::<Vec<_>>())
            });
            let parts: Vec<String> = parts.collect();
            joined(&parts.iter().map(String::as_str).collect::<Vec<_>>())
        };
        match self {
            Condition::All(list) => {
                let tests = together(list);
                let parts = tests.iter();
                parts
                    .flat_map(|one| one.parts_said(traits, units))
                    .collect()
            }
            Condition::Any(list) => vec![one_of(list, list_or)],
            Condition::Not(condition) => {
                let but = [(**condition).clone()];
                vec![format!("not with {}", one_of(&but, list_and))]
            }
            Condition::States(index, mask) => vec![traits.get(*index).states_said(*mask)],
            Condition::Number(index, span) => {
                vec![traits.get(*index).span_said(*span, units)]
            }
        }
    }
}

/// What must hold together, one test a trait: `over 4 in` and `at most 8 in` are one.
fn together(list: &[Condition]) -> Vec<Condition> {
    let mut tests: Vec<Condition> = Vec::new();
    let flat = list.iter().flat_map(|one| match one {
        Condition::All(inner) => together(inner),
        one => vec![one.clone()],
    });
    for one in flat {
        let joined = tests.iter_mut().find_map(|known| {
            let both = match (&*known, &one) {
                (Condition::States(at, own), Condition::States(other, more)) if at == other => {
                    Condition::States(*at, own & more)
                }
                (Condition::Number(at, own), Condition::Number(other, more)) if at == other => {
                    Condition::Number(*at, own.meet(*more)?)
                }
                _ => return None,
            };
            *known = both;
            Some(())
        });
        if joined.is_none() {
            tests.push(one);
        }
    }
    tests
}

impl RuleSet {
    /// What a shape's rule demands, before the shapes that come first.
    pub fn rule_said(&self, shape: &Shape, units: SizeUnits) -> String {
        shape.requires.said(&self.traits, units)
    }

    /// What most blooms of a shape show; `None` where that is not told.
    pub fn typical_said(&self, shape: &Shape, units: SizeUnits) -> Option<String> {
        let typical = Condition::All(shape.typical.clone());
        (!shape.typical.is_empty()).then(|| typical.said(&self.traits, units))
    }

    /// What is to be known of the limits of a shape: `3.5 in: Published lists differ ...`.
    pub fn limits_said<'a>(
        &'a self,
        shape: &'a Shape,
        units: SizeUnits,
    ) -> impl Iterator<Item = String> + 'a {
        shape.names.iter().filter_map(move |named| {
            let limit = named.value.parse::<Length>();
            let limit = limit.map_or(named.value.clone(), |limit| limit.shown(units));
            named.note.as_ref().map(|note| format!("{limit}: {note}"))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(shape: &str, units: SizeUnits) -> [String; 2] {
        let set = RuleSet::embedded().remove(0);
        let shape = set.shapes.iter().find(|one| one.id == shape);
        let shape = shape.expect("a shape").clone();
        let often = set.typical_said(&shape, units).unwrap_or_default();
        [set.rule_said(&shape, units), often]
    }

    #[test]
    fn a_rule_reads_as_a_grower_would_say_it() {
        assert_eq!(
            said("waterlily", SizeUnits::In),
            [
                "centre closed; 4 to 7 rows of florets; a saucer from the side; florets in even order; florets alike in length; tips round or pointed; edges flat or florets rolled under 25 % of their length",
                "broad florets; edges flat or rolled forward; florets bent toward the face or straight; heart round; tips round; 4 to 6 in across",
            ]
        );
        let [single, often] = said("single", SizeUnits::Mm);
        assert_eq!(
            single,
            "centre open; one row of florets; no collar; not with edges rolled forward and florets rolled at least 67 % of their length"
        );
        assert!(often.ends_with("up to 101.6 mm across"), "{often}");
    }

    #[test]
    fn florets_of_which_any_part_is_rolled_are_rolled_at_all() {
        let set = RuleSet::embedded().remove(0);
        let at = set.traits.find("rolled").expect("a trait");
        let one = set.traits.get(at);
        let domain = one.domain().expect("numbers");
        let over_nothing = Span {
            low_in: false,
            ..domain
        };
        let said = one.span_said(over_nothing, SizeUnits::In);
        assert_eq!(said, "florets rolled at all");
    }

    /// Over every shape there is: no sign of the rules' language, and no name of a limit or a word.
    #[test]
    fn no_rule_in_words_names_what_only_its_file_knows() {
        for set in RuleSet::embedded() {
            for shape in &set.shapes {
                for units in [SizeUnits::In, SizeUnits::Mm] {
                    let often = set.typical_said(shape, units).unwrap_or_default();
                    let told = format!("{}; {often}", set.rule_said(shape, units));
                    assert!(!told.contains(['=', '|', '{']), "{}: {told}", shape.id);
                    for (limit, _) in &set.limits {
                        assert!(!told.contains(limit), "{}: {told}", shape.id);
                    }
                }
            }
        }
    }
}
