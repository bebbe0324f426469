//! Which field of one text is which of another.

use std::collections::BTreeSet;

use super::three::{In, Three};
use crate::problem::Shape;

/// The names of the fields, or the words before the colons of a table, as they are meant.
pub(super) struct Names {
    /// In the grower's text. One that a field had before is there as the name that it has now.
    pub(super) own: Vec<String>,
    pub(super) old: Vec<String>,
    pub(super) new: Vec<String>,
}

impl Names {
    pub(super) fn of(three: Three<'_>) -> Names {
        let [own, old, new] = [three.own, three.old, three.new].map(|one| {
            let within = one.node.within.iter();
            let names = within.map(|held| meant(held.name(one.text).unwrap_or_default()));
            names.collect::<Vec<String>>()
        });
        let mut names = Names { own, old, new };
        names.take_for_another(three);
        names
    }

    /// A field that the program knows by no such name is the one that it would write and that is not
    /// there, if only one of each is of one kind.
    fn take_for_another(&mut self, three: Three<'_>) {
        let shape = |one: In<'_>, at: usize| one.node.within[at].value.shape;
        let is_none = |at: &usize| three.own.within(*at).written() == "None";
        let strange: Vec<usize> = (0..self.own.len())
            .filter(|at| {
                self.in_old(&self.own[*at]).is_none() && self.in_new(&self.own[*at]).is_none()
            })
            .filter(|at| !is_none(at))
            .collect();
        let known = [(&self.old, three.old), (&self.new, three.new)];
        let known = known.iter().flat_map(|(names, one)| {
            let names = names.iter().enumerate();
            names.map(|(at, name)| (name.clone(), shape(*one, at)))
        });
        let lacking: BTreeSet<(String, Shape)> = known
            .filter(|(name, _)| self.in_own(name).is_none())
            .collect();
        for at in &strange {
            let own = shape(three.own, *at);
            let mut same = lacking.iter().filter(|(_, shape)| *shape == own);
            let only = strange
                .iter()
                .all(|other| other == at || shape(three.own, *other) != own);
            if let (Some((name, _)), None, true) = (same.next(), same.next(), only) {
                self.own[*at] = name.clone();
            }
        }
    }

    pub(super) fn in_own(&self, name: &str) -> Option<usize> {
        self.own.iter().position(|own| own == name)
    }

    pub(super) fn in_old(&self, name: &str) -> Option<usize> {
        self.old.iter().position(|old| old == name)
    }

    pub(super) fn in_new(&self, name: &str) -> Option<usize> {
        self.new.iter().position(|new| new == name)
    }
}

/// A name, or the text that stands for one in a table, however it is written.
fn meant(name: &str) -> String {
    let read = match name.starts_with(['"', 'r']) {
        true => ron::from_str::<String>(name).ok(),
        false => None,
    };
    read.unwrap_or_else(|| name.to_string())
}
