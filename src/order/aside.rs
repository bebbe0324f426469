//! What no order can meet, whatever the beds and the money: what is set aside of a plan before it is settled, and
//! what of it is ordered for all the same.

use serde::{Deserialize, Serialize};

use super::model::Demand;

/// What is set aside.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct SetAside {
    /// Needs, by their places.
    pub needs: Vec<Aside>,
    /// Groups to be tried of which too few plants can be had.
    pub trials: Vec<usize>,
    /// What is ordered for of needs that can be met in no week.
    pub(super) of_none: OfNone,
}

/// A need that no order can meet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Aside {
    /// Its place.
    pub need: usize,
    /// The weeks of the year in which no order can meet it, rising.
    pub weeks: Vec<u8>,
    /// What of it is ordered for.
    pub kept: Rest,
    /// What it asks for.
    pub(super) asked: Demand,
}

/// What is still ordered for of a need that is set aside.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rest {
    /// Its other weeks.
    OtherWeeks,
    /// The most that there is for it.
    Most,
    /// Nothing.
    Nothing,
}

/// What is ordered for of a need that can be met in none of its weeks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub(super) enum OfNone {
    /// The most that there is.
    #[default]
    Most,
    /// Nothing.
    Nothing,
}

impl SetAside {
    /// Whether nothing is.
    pub fn is_empty(&self) -> bool {
        self.needs.is_empty() && self.trials.is_empty()
    }

    /// What of a need is.
    pub fn of(&self, need: usize) -> Option<&Aside> {
        self.needs.iter().find(|one| one.need == need)
    }

    /// Whether more could be set aside to the others' good.
    pub(super) fn can_give_way(&self) -> bool {
        self.needs.iter().any(|one| one.kept == Rest::Most)
    }
}

impl Rest {
    /// The word for programs.
    pub fn word(self) -> &'static str {
        match self {
            Rest::OtherWeeks => "other_weeks",
            Rest::Most => "most",
            Rest::Nothing => "nothing",
        }
    }
}
