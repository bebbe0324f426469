//! Forms and traits for the jump line, and arriving at one.

use super::{At, Entry, KeyPage};
use crate::form::Form;
use crate::screen::jump::place::{Goal, Kind, Place};
use crate::screen::kit::cursor::Cursor;

impl KeyPage {
    /// What can be jumped to on this page.
    pub(in crate::screen) fn places(&self) -> Vec<Place> {
        let set = &self.keyer().set;
        let form = |(at, form): (usize, &Form)| {
            let means = &set.shape_of(at).means;
            Place::new(Kind::Form, form.name.as_str(), Goal::Form(at)).with(means.as_str())
        };
        let one = |(at, one): (usize, &crate::form::Trait)| {
            let states: Vec<&str> = one.states().iter().map(|state| state.id.as_str()).collect();
            let told = match states[..] {
                [] => one.ask.clone(),
                _ => format!("{} {}", one.ask, states.join(", ")),
            };
            Place::new(Kind::Trait, one.id.as_str(), Goal::Trait(at)).with(told)
        };
        let forms = set.forms.iter().enumerate().map(form);
        let traits = set.traits.list().iter().enumerate().map(one);
        forms.chain(traits).collect()
    }

    /// Looks through the forms, at this one.
    pub(in crate::screen) fn show_form(&mut self, form: usize) {
        self.note = None;
        self.entry = Entry::Browse(Cursor::on(form));
    }

    /// Asks this trait.
    pub(in crate::screen) fn ask_trait(&mut self, index: usize) {
        self.note = None;
        self.go_to(At::Chosen {
            index,
            again: false,
        });
    }
}
