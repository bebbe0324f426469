//! The form that a plant is taken to have, and from where: one rule for rows, screens and tags.

use super::evidence::Evidence;
use crate::form::sentences::percent;
use crate::form::{Keyer, Likely, RuleSet};
use crate::variety::{FormKnown, FormNote};

/// The form that a plant is taken to have.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Taken<'a> {
    /// Settled by what the row has seen.
    Seen(Likely),
    /// As the grower's list has it.
    Listed(&'a FormNote),
    /// Looked at and not settled: the likeliest.
    Likeliest(Likely),
}

impl Evidence {
    /// The form that the row has settled: rules and looks agree on it, it has at least `credence`,
    /// and the measured blooms lie clear of the limits to its neighbours.
    pub fn settled(&self, keyer: &Keyer, credence: f64) -> Option<usize> {
        let diameters = self.diameters.as_ref();
        let straddles =
            diameters.is_some_and(|own| !own.straddles(&self.form.close, keyer).is_empty());
        self.form.settled(credence).filter(|_| !straddles)
    }

    /// The form that it is taken to have, the row's own looks before what the list has for it: a
    /// form that the list has keyed stands against looks that settle nothing, one that is only stated
    /// where nobody looked. `None` where neither knows: a diameter alone tells no form.
    pub fn taken<'a>(
        &self,
        keyer: &Keyer,
        listed: Option<&'a FormNote>,
        credence: f64,
    ) -> Option<Taken<'a>> {
        let leading = self.form.leading().filter(|_| self.form.days > 0);
        match (leading, listed) {
            (Some(leading), _) if self.settled(keyer, credence).is_some() => {
                Some(Taken::Seen(leading))
            }
            (_, Some(note)) if note.known == FormKnown::Keyed => Some(Taken::Listed(note)),
            (Some(leading), _) => Some(Taken::Likeliest(leading)),
            (None, note) => note.map(Taken::Listed),
        }
    }
}

impl<'a> Taken<'a> {
    /// The name of the form.
    pub fn name(&self, rules: &'a RuleSet) -> &'a str {
        match self {
            Taken::Seen(likely) | Taken::Likeliest(likely) => &rules.forms[likely.form].name,
            Taken::Listed(note) => note.name(rules),
        }
    }

    /// The form's place in the set; `None` of one that the set does not have.
    pub fn form(&self, rules: &RuleSet) -> Option<usize> {
        match self {
            Taken::Seen(likely) | Taken::Likeliest(likely) => Some(likely.form),
            Taken::Listed(note) => rules.find(&note.id),
        }
    }

    /// On what ground, to stand behind the name: `98 %` by looks, else `(list)`.
    pub fn ground(&self) -> String {
        match self {
            Taken::Seen(likely) | Taken::Likeliest(likely) => percent(likely.share),
            Taken::Listed(note) => match note.known {
                FormKnown::Keyed => "(list)".to_string(),
                FormKnown::Stated => "(stated)".to_string(),
                FormKnown::Guessed => "(by eye)".to_string(),
            },
        }
    }

    /// Where it is from, as JSON has it.
    pub fn from(&self) -> &'static str {
        match self {
            Taken::Seen(_) => "row",
            Taken::Listed(_) => "list",
            Taken::Likeliest(_) => "row, not settled",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::evidence::tests::{BALL, Bench};
    use crate::variety::Text;

    const CREDENCE: f64 = 0.95;

    /// What stands in a row's table for a plant of this listed form and these observations.
    fn cell(known: Option<FormKnown>, observed: &[&str]) -> String {
        let bench = Bench::new();
        let note = known.map(|known| FormNote {
            id: Text::new("formal-decorative").expect("an id"),
            known,
            by: None,
        });
        let evidence = bench.evidence(observed);
        let taken = evidence.taken(&bench.keyer, note.as_ref(), CREDENCE);
        taken.map_or("?".to_string(), |taken| {
            format!("{} {}", taken.name(&bench.keyer.set), taken.ground())
        })
    }

    #[test]
    fn the_list_s_keyed_form_stands_until_the_row_settles_one() {
        use FormKnown::{Guessed, Keyed, Stated};
        let settled = format!("{BALL} diameter=100mm");
        let open = "centre=closed tip=rounded diameter=100mm";
        for (known, observed, told) in [
            (Some(Keyed), "diameter=72mm", "formal decorative (list)"),
            (Some(Keyed), open, "formal decorative (list)"),
            (Some(Keyed), &settled, "ball 96 %"),
            (Some(Stated), "diameter=72mm", "formal decorative (stated)"),
            (Some(Guessed), "vase=6", "formal decorative (by eye)"),
            (Some(Stated), &settled, "ball 96 %"),
            (None, "diameter=72mm", "?"),
            (None, &settled, "ball 96 %"),
        ] {
            assert_eq!(cell(known, &[observed]), told, "{known:?} {observed}");
        }
        // Blooms on both sides of a limit settle no form either.
        let straddling = format!("{BALL} diameter=87mm,90mm,88mm,91mm");
        assert_eq!(
            cell(Some(Keyed), &[&straddling]),
            "formal decorative (list)"
        );
        // Looks that settle nothing stand against what somebody states, with their share.
        let likeliest = cell(Some(Stated), &[open]);
        assert!(likeliest.ends_with(" %"), "{likeliest}");
    }
}
