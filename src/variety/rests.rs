//! On what the fitness of a variety for a use rests: what was seen on it, what somebody states, what is
//! only expected of its form, and of what nothing is known.

use super::estimate::Estimate;
use super::fitness::Known;
use super::uses::{Quantity, Use, Wanted};
use crate::form::traits::list_and;

/// How one thing is known of a variety.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ground {
    /// It was seen on the variety itself.
    Seen,
    /// Somebody states it, or the grower guessed it.
    Stated,
    /// Its form leads one to expect it.
    Expected,
    /// Nothing is known.
    Unknown,
}

/// What a use wants of a variety, by how it is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Rests {
    /// By ground: a bit for each of [`SUBJECTS`].
    by: [u8; 4],
}

/// What a use may want, in the order in which it is told.
const SUBJECTS: [&str; 7] = [
    "form",
    "centre",
    "size",
    "stem",
    "vase life",
    "wind and rain",
    "height",
];

impl Ground {
    /// Every ground, the firmest first.
    pub const ALL: [Ground; 4] = [
        Ground::Seen,
        Ground::Stated,
        Ground::Expected,
        Ground::Unknown,
    ];

    /// The word in JSON.
    pub fn word(self) -> &'static str {
        match self {
            Ground::Seen => "seen",
            Ground::Stated => "stated",
            Ground::Expected => "expected",
            Ground::Unknown => "unknown",
        }
    }

    fn of_number(estimate: Option<Estimate<'_>>) -> Ground {
        match estimate {
            None => Ground::Unknown,
            Some(one) if one.observed.is_some() => Ground::Seen,
            Some(one) if one.stated.is_some() => Ground::Stated,
            Some(_) => Ground::Expected,
        }
    }
}

impl Rests {
    /// What is known so, in words: `size`, `vase life`.
    pub fn on(self, ground: Ground) -> impl Iterator<Item = &'static str> {
        let bits = self.by[ground as usize];
        let subjects = SUBJECTS.into_iter().enumerate();
        subjects.filter_map(move |(at, word)| (bits >> at & 1 == 1).then_some(word))
    }

    /// All of it in one sentence without its end: `size seen on it; vase life only expected of its form;
    /// nothing known of height`.
    pub fn told(self) -> String {
        let grounds = Ground::ALL.into_iter().filter_map(|ground| {
            let words: Vec<&str> = self.on(ground).collect();
            let words = (!words.is_empty()).then(|| list_and(&words))?;
            Some(match ground {
                Ground::Seen => format!("{words} seen on it"),
                Ground::Stated => format!("{words} stated"),
                Ground::Expected => format!("{words} only expected of its form"),
                Ground::Unknown => format!("nothing known of {words}"),
            })
        });
        grounds.collect::<Vec<_>>().join("; ")
    }
}

impl Known<'_> {
    /// On what its fitness for a use rests.
    pub fn rests(&self, one: &Use) -> Rests {
        let mut rests = Rests::default();
        let of = |seen: Option<bool>, else_by: Ground| match seen {
            None => Ground::Unknown,
            Some(true) => Ground::Seen,
            Some(false) => else_by,
        };
        for want in &one.wants {
            let (subject, ground) = match &want.of {
                Wanted::Form(_) => (0, of(self.form_seen(), Ground::Stated)),
                Wanted::Centre(_) => (1, of(self.centre_seen(), Ground::Expected)),
                Wanted::Number(quantity, _) => {
                    let ground = Ground::of_number(self.number(*quantity));
                    (subject(*quantity), ground)
                }
            };
            rests.by[ground as usize] |= 1 << subject;
        }
        rests
    }
}

/// The place of a number among [`SUBJECTS`].
fn subject(quantity: Quantity) -> usize {
    match quantity {
        Quantity::Diameter => 2,
        Quantity::Stem => 3,
        Quantity::Vase => 4,
        Quantity::Stands => 5,
        Quantity::Height => 6,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::RuleSet;
    use crate::variety::{Uses, Varieties};

    #[test]
    fn what_was_seen_and_what_is_only_expected_are_told_apart() {
        let (rules, uses) = (&RuleSet::embedded()[0], &Uses::embedded());
        for (record, id, told) in [
            (
                "form: (id: \"ball\", known: keyed), diameters: [\"96mm\"], stem: \"40cm\"",
                "market-bunch",
                "form and size seen on it; stem stated; vase life only expected of its form",
            ),
            (
                "form: (id: \"novelty-open\", known: stated)",
                "exposed",
                "size only expected of its form; nothing known of wind and rain and height",
            ),
            (
                "form: (id: \"single\", known: guessed)",
                "pollinators",
                "form stated; centre only expected of its form",
            ),
        ] {
            let text = format!("[(name: \"A\", {record})]");
            let list = Varieties::read("v", &text).expect(record);
            let known = Known::of(&list.list()[0], rules, uses);
            let one = &uses.list()[uses.find(id).expect(id)];
            assert_eq!(known.rests(one).told(), told, "{record}");
        }
    }
}
