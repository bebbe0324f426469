//! A mend: edits of the plan in the words that a grower types, and what they come to.

use crate::measure::day::Calendar;
use crate::order::item::Item;
use crate::order::plan::Plan;
use crate::variety::Money;

/// One change, or two together, that let every need be met, with all else as it is. It has been found to do;
/// that nothing less would is proved only where [`Mend::is_least`] says so, as each search has an end.
#[derive(Debug, Clone, PartialEq)]
pub struct Mend {
    /// What is changed, and by how much.
    pub by: By,
    /// What is changed with it, where that alone does not do.
    pub and: Option<By>,
    /// The edits of the plan that make it.
    pub edits: Vec<Edit>,
    /// An order of the edited plan that meets every need costs at most this.
    pub cost: Money,
}

/// A figure of the plan and what is typed for it: what [`Item::set`] takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// The figure.
    pub item: Item,
    /// Its value in words.
    pub value: String,
}

/// What a mend changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum By {
    /// More places in the beds.
    Bed {
        /// Places more that do.
        places: u64,
        /// Proved: with fewer places more than these it cannot be done.
        at_least: u64,
    },
    /// More money.
    Money {
        /// Money more that does.
        more: Money,
        /// Proved: with less more than this it cannot be done.
        at_least: Money,
    },
    /// Colours wider by this, to the nearest whole step.
    Colour {
        /// CIEDE2000 more for each need that asks for a colour.
        wider: u32,
        /// Whether it is proved that a step less does not do.
        least: bool,
    },
    /// Planted earlier.
    Earlier {
        /// Weeks earlier.
        weeks: u32,
        /// The chance, 0 to 1, that the last frost comes after that planting.
        frost: f64,
        /// Whether it is proved that a week less does not do.
        least: bool,
    },
    /// Needs asked for only in the weeks in which they can be met.
    Weeks {
        /// Weeks of all of them that are given up.
        fewer: u32,
        /// Whether it is proved that none of the weeks given up can be met.
        least: bool,
    },
    /// A lesser fitness, to the nearest hundredth.
    Fitness {
        /// Hundredths less for each need that falls short and asks for a use.
        lower: u32,
        /// Whether it is proved that a hundredth less given up does not do.
        least: bool,
    },
    /// Fewer stems a week.
    Stems {
        /// Stems a week that are given up, of all needs that fall short.
        fewer: u32,
    },
}

impl Mend {
    /// A mend of one change.
    pub(super) fn alone(by: By, edits: Vec<Edit>, cost: Money) -> Mend {
        Mend {
            by,
            and: None,
            edits,
            cost,
        }
    }

    /// Whether it is proved that nothing less would do.
    pub fn is_least(&self) -> bool {
        self.and.is_none() && self.by.is_least()
    }

    /// The plan with the mend made.
    ///
    /// # Errors
    /// A sentence where the edits are of another plan.
    pub fn made(&self, plan: &Plan) -> Result<Plan, String> {
        edited(plan, &self.edits)
    }
}

impl By {
    /// Whether it is proved that less of it would not do.
    pub fn is_least(&self) -> bool {
        match *self {
            By::Bed { places, at_least } => places == at_least,
            By::Money { more, at_least } => more == at_least,
            By::Colour { least, .. } | By::Earlier { least, .. } => least,
            By::Weeks { least, .. } | By::Fitness { least, .. } => least,
            By::Stems { .. } => false,
        }
    }
}

impl Edit {
    /// The edit as `trug order --set` takes it: `planted=2027-04-15`.
    pub fn words(&self, plan: &Plan) -> String {
        format!("{}={}", self.name(plan), self.value)
    }

    /// The edit for people: `planted: 2027-04-15`.
    pub fn described(&self, plan: &Plan) -> String {
        format!("{}: {}", self.name(plan), self.value)
    }

    fn name(&self, plan: &Plan) -> String {
        let name = self.item.name(plan);
        name.strip_prefix("bed, ").unwrap_or(&name).to_string()
    }
}

/// The plan with edits made, one after the other.
pub(super) fn edited(plan: &Plan, edits: &[Edit]) -> Result<Plan, String> {
    { edits.iter() }.try_fold(plan.clone(), |plan, edit| {
        edit.item.set(&plan, &edit.value, &Calendar::FILES)
    })
}
