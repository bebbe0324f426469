//! The colours by name: the grower's word, with the ISCC-NBS name of what was measured, or that name
//! alone. A word alone stays one: it is wider than any name of a measured colour.

use super::Known;
use crate::colour::{Lab, Part, Pattern, Target, name_of};
use crate::variety::ColourNote;

impl Known<'_> {
    /// `flame (vivid reddish orange) tipped gold; reverse ...`.
    pub(super) fn colour(&self) -> Option<String> {
        let named = |part: Part| {
            let note = self.variety.colours.iter().find(|note| note.part == part)?;
            Some((self.name(note)?, note.pattern))
        };
        let (main, own) = named(Part::Main)?;
        let mut told = main;
        if let Some((second, pattern)) = named(Part::Second) {
            // The pattern may be noted with either colour.
            let pattern = match pattern {
                Pattern::SelfColoured => own,
                other => other,
            };
            told += &match pattern {
                Pattern::SelfColoured => format!(" and {second}"),
                Pattern::Blend => format!(" blending into {second}"),
                Pattern::Bicolour => format!(" with {second}, bicolour"),
                Pattern::Tipped => format!(" tipped {second}"),
                Pattern::Flecked => format!(" flecked {second}"),
            };
        }
        for (part, word) in [(Part::Reverse, "reverse"), (Part::Centre, "centre")] {
            if let Some((name, _)) = named(part) {
                told += &format!("; {word} {name}");
            }
        }
        Some(told)
    }

    /// The colours to draw with.
    pub(super) fn colours(&self) -> Vec<(Lab, Part, Pattern)> {
        let notes = self.variety.colours.iter();
        let read = |note: &ColourNote| Some((self.target(note)?.centre, note.part, note.pattern));
        notes.filter_map(read).collect()
    }

    fn target(&self, note: &ColourNote) -> Option<Target> {
        note.colour.target(self.grounds.under.words).ok()
    }

    fn name(&self, note: &ColourNote) -> Option<String> {
        // The row's own, which the record took over, word and measured.
        let mut seen = self.evidence.colours.iter();
        if let Some(seen) = seen.find(|seen| seen.part == note.part) {
            return Some(seen.in_words());
        }
        let target = self.target(note)?;
        Some(
            target
                .name
                .unwrap_or_else(|| name_of(target.centre).to_string()),
        )
    }
}
