//! What can be jumped to: its name, what is told of it, and where that is.

use crate::matching::{Folded, folded};
use crate::order::Item;
use crate::trial::Subject;

/// What a place is. Of equally good finds those come first of which there are few.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::screen) enum Kind {
    Page,
    Need,
    Bed,
    Supplier,
    Figure,
    Form,
    Trait,
    Seedling,
    Variety,
    Command,
}

impl Kind {
    /// The word for it.
    pub(super) fn word(self) -> &'static str {
        match self {
            Kind::Page => "page",
            Kind::Need => "need",
            Kind::Bed => "bed",
            Kind::Supplier => "supplier",
            Kind::Figure => "figure",
            Kind::Form => "form",
            Kind::Trait => "trait",
            Kind::Seedling => "seedling",
            Kind::Variety => "variety",
            Kind::Command => "command",
        }
    }
}

/// Where Enter goes, or what it does.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::screen) enum Goal {
    /// A page, by its place among all.
    Page(usize),
    /// A variety, by its place in the list.
    Variety(usize),
    /// A plant of the trial row.
    Plant(Subject),
    /// A form, by its place in the rules.
    Form(usize),
    /// A trait, by its place in the table of traits.
    Trait(usize),
    /// A figure of the order.
    Item(Item),
    /// A command, by its row in the table of keys.
    Command(usize),
}

/// One that can be jumped to.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::screen) struct Place {
    pub(in crate::screen) kind: Kind,
    /// What it is called, as it is shown.
    pub(in crate::screen) name: String,
    /// What is said of it beside its name; of a command its keys.
    pub(in crate::screen) aside: String,
    pub(in crate::screen) goal: Goal,
    /// What is looked for: the name, and the words told of it.
    name_folded: Folded,
    told_folded: String,
}

impl Place {
    pub(in crate::screen) fn new(kind: Kind, name: impl Into<String>, goal: Goal) -> Place {
        let name = name.into();
        Place {
            kind,
            name_folded: Folded::of(&name),
            name,
            aside: String::new(),
            goal,
            told_folded: String::new(),
        }
    }

    /// With what is said of it, in which words are looked for too.
    pub(in crate::screen) fn with(self, aside: impl Into<String>) -> Place {
        let aside = aside.into();
        Place {
            told_folded: format!("{} {}", self.told_folded, folded(&aside)),
            aside,
            ..self
        }
    }

    /// Looked for by this short name; the one that is shown is told of it.
    pub(in crate::screen) fn called(self, short: &str) -> Place {
        Place {
            told_folded: format!("{} {}", folded(&self.name), self.told_folded),
            name_folded: Folded::of(short),
            ..self
        }
    }

    /// Its name and what is told of it, to be looked through.
    pub(in crate::screen) fn searched(&self) -> (&Folded, &str) {
        (&self.name_folded, &self.told_folded)
    }
}
