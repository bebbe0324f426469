//! The form: settled, stated, between two, a novelty, or not yet known; and the bloom to draw.

use super::Known;
use crate::draw::Bloom;
use crate::variety::{FormKnown, FormNote};

/// What may be claimed of a form.
#[derive(Debug, Clone, PartialEq)]
enum Claim {
    /// The row has settled it.
    Settled(usize),
    /// As the list has it.
    Noted(FormNote),
    /// Measured blooms lie on both sides of the limit between two forms, and it is sure to be one.
    Between([usize; 2]),
    /// The grower declared it.
    Novelty,
    /// Looked at, or measured, and not known.
    Open,
}

impl Known<'_> {
    /// The form as far as it is known; `None` where nothing was seen and nothing is noted.
    pub(super) fn form(&self) -> Option<String> {
        let set = &self.grounds.under.keyer.set;
        let name = |form: usize| set.forms[form].name.as_str();
        Some(match self.claim()? {
            Claim::Settled(form) if set.shape_of(form).catch_all => {
                // No named form fits, and the grower has not held that it is one of its own.
                format!("{} (provisional)", name(form))
            }
            Claim::Settled(form) => name(form).to_string(),
            Claim::Noted(note) => noted(&note, note.name(set)),
            Claim::Between([below, above]) => {
                format!("between {} and {}", name(below), name(above))
            }
            Claim::Novelty => self.novelty(),
            Claim::Open => "form not yet known".to_string(),
        })
    }

    /// What holds at the gate's credence, or is the grower's or a supplier's own word.
    fn claim(&self) -> Option<Claim> {
        let seen = &self.evidence.form;
        let keyer = self.grounds.under.keyer;
        let credence = self.grounds.release.least.credence;
        let settled = self.evidence.settled(keyer, credence);
        let set = &keyer.set;
        if settled.is_none()
            && let Some(note) = self.record.and_then(|record| record.form_note_under(set))
        {
            return Some(Claim::Noted(note));
        }
        // What nobody looked at cannot be told from a form that has a name.
        if self.evidence.novelty && seen.days > 0 {
            return Some(Claim::Novelty);
        }
        if let Some(forms) = self.between() {
            return Some(Claim::Between(forms));
        }
        match settled {
            Some(form) => Some(Claim::Settled(form)),
            None => (self.evidence.observations > 0).then_some(Claim::Open),
        }
    }

    /// The two forms on both sides of the one limit that the interval of the mean holds, where looks
    /// and rules leave no other at the gate's credence.
    fn between(&self) -> Option<[usize; 2]> {
        let seen = &self.evidence.form;
        let mut straddles = self.straddles();
        let forms = straddles.next()?;
        let alone = straddles.all(|others| others == forms);
        let share = |form: usize| {
            let likely = seen.likely.iter().find(|one| one.form == form);
            likely.map_or(0.0, |one| one.share)
        };
        let one_of_two = forms.map(share).iter().sum::<f64>();
        let mut possible = seen.verdict.possible.iter();
        let strict = possible.all(|form| forms.contains(form)) && !seen.verdict.possible.is_empty();
        let sure = one_of_two >= self.grounds.release.least.credence;
        (alone && strict && sure).then_some(forms)
    }

    fn straddles(&self) -> impl Iterator<Item = [usize; 2]> {
        let (keyer, seen) = (self.grounds.under.keyer, self.evidence);
        let diameters = seen.diameters.as_ref();
        let straddles = diameters.map(|own| own.straddles(&seen.form.close, keyer));
        straddles.into_iter().flatten().map(|one| one.forms)
    }

    /// The grower's own word, with the nearest named form where that is sure.
    fn novelty(&self) -> String {
        let set = &self.grounds.under.keyer.set;
        let credence = self.grounds.release.least.credence;
        let leading = self.evidence.form.leading();
        let leading = leading.filter(|likely| likely.share >= credence);
        let nearest = leading.map(|likely| set.shape_of(likely.form));
        let nearest = nearest.filter(|form| !form.catch_all);
        let nearest = nearest.map(|form| format!(" (nearest: {})", form.name));
        format!(
            "novelty, declared a form of its own{}",
            nearest.unwrap_or_default()
        )
    }

    /// The bloom to draw: as it was seen, the rest as is typical of the form that is told. `None`
    /// where none is, since a drawing of a form claims it.
    pub(super) fn bloom(&self) -> Option<Bloom> {
        let set = &self.grounds.under.keyer.set;
        let standing = &self.evidence.form.standing;
        let answers = match standing.is_empty() {
            true => self.variety.answers(&set.traits).unwrap_or_default(),
            false => standing.clone(),
        };
        let form = match self.claim()? {
            Claim::Settled(form) => form,
            Claim::Noted(note) => set.find(&note.id)?,
            Claim::Between(_) => self.evidence.form.leading()?.form,
            Claim::Novelty => return Some(Bloom::read(&set.traits, &answers)),
            Claim::Open => return None,
        };
        Some(Bloom::of_form(set, form, &answers))
    }
}

/// As the record has it, and how that is known.
fn noted(note: &FormNote, name: &str) -> String {
    match (note.known, &note.by) {
        (FormKnown::Keyed, _) => name.to_string(),
        (FormKnown::Stated, Some(by)) => format!("{name} (stated by {by})"),
        (FormKnown::Stated, None) => format!("{name} (stated, not keyed)"),
        (FormKnown::Guessed, _) => format!("{name} (provisional: by eye)"),
    }
}
