//! The form: settled, provisional, between two, a novelty, or not said.

use super::Known;
use crate::draw::Bloom;
use crate::form::Likely;
use crate::variety::FormKnown;

/// Under this share a second form is no rival of the first. Our own choice.
const RIVAL: f64 = 0.1;
/// Two forms are named as rivals where one of them is it with at least this chance. Our own choice.
const ONE_OF_TWO: f64 = 0.8;

impl Known<'_> {
    /// The form as far as it is known.
    pub(super) fn form(&self) -> Option<String> {
        let seen = &self.evidence.form;
        let credence = self.grounds.release.least.credence;
        match (seen.settled(credence), self.record) {
            (None, Some(record)) if record.form.is_some() => self.noted_form(),
            _ => self.seen_form(),
        }
    }

    /// As the record has it, and how that is known.
    fn noted_form(&self) -> Option<String> {
        let note = self.record?.form.as_ref()?;
        let set = &self.grounds.under.keyer.set;
        let name = match set.find(&note.id) {
            Some(form) => &set.forms[form].name,
            // A form of another rule set is said as that set's keeper wrote it.
            None => note.id.as_str(),
        };
        Some(match (note.known, &note.by) {
            (FormKnown::Keyed, _) => name.to_string(),
            (FormKnown::Stated, Some(by)) => format!("{name} (stated by {by})"),
            (FormKnown::Stated, None) => format!("{name} (stated, not keyed)"),
            (FormKnown::Guessed, _) => format!("{name} (provisional: by eye)"),
        })
    }

    /// As the row has seen it.
    fn seen_form(&self) -> Option<String> {
        let seen = &self.evidence.form;
        let keyer = self.grounds.under.keyer;
        let name = |form: usize| keyer.set.forms[form].name.as_str();
        let leading = seen.leading()?;
        if self.evidence.novelty {
            return Some(format!(
                "novelty, a form of its own (nearest: {})",
                keyer.set.shape_of(leading.form).name
            ));
        }
        let diameters = self.evidence.diameters.as_ref();
        let straddles = diameters.map(|own| own.straddles(&seen.close, keyer));
        if let Some(straddle) = straddles.iter().flatten().next() {
            let [below, above] = straddle.forms.map(name);
            return Some(format!("between {below} and {above}"));
        }
        if let Some(form) = seen.settled(self.grounds.release.least.credence) {
            return Some(match keyer.set.shape_of(form).catch_all {
                false => name(form).to_string(),
                // No named form fits, and the grower has not held that it is one of its own.
                true => format!("{} (provisional)", name(form)),
            });
        }
        match &seen.likely[..] {
            [_, second, ..] if second.share < RIVAL => {
                Some(format!("{} (provisional)", name(leading.form)))
            }
            [first, second, ..] if first.share + second.share >= ONE_OF_TWO => Some(format!(
                "between {} and {}",
                name(first.form),
                name(second.form)
            )),
            [only] => Some(format!("{} (provisional)", name(only.form))),
            _ => Some("form not settled yet".to_string()),
        }
    }

    /// The bloom to draw: as it was seen, the rest as is typical of its form.
    pub(super) fn bloom(&self) -> Option<Bloom> {
        let set = &self.grounds.under.keyer.set;
        let answers = self.variety.answers(&set.traits).unwrap_or_default();
        let leading: Option<Likely> = self.evidence.form.leading();
        let form = self.variety.form_under(set);
        let form = form.or_else(|| leading.map(|likely| likely.form));
        form.map(|form| Bloom::of_form(set, form, &answers))
    }
}
