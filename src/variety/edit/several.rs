//! Many records changed at once, as by reading a file: kept as what changed, and undone as one.

use crate::variety::list::Varieties;
use crate::variety::record::Variety;

/// Many records to be put in place at once.
#[derive(Debug, Clone, PartialEq)]
pub struct Several {
    /// What was done, for people: `38 varieties read from list.xlsx`.
    pub told: String,
    /// Records that take the place of those of the same name, each with its place.
    pub replaced: Vec<(usize, Variety)>,
    /// How many records stay at the head of the list, replaced ones among them.
    pub kept: usize,
    /// What stands behind those.
    pub added: Vec<Variety>,
}

impl Several {
    /// Makes the change and gives back the one that undoes it; `None`, and no change, where a name would
    /// stand twice or a place is none.
    pub(super) fn apply(self, list: &mut Varieties) -> Option<Several> {
        let Several {
            told,
            replaced,
            kept,
            added,
        } = self;
        let (replaced, added) = list.swap(replaced, kept, added)?;
        Some(Several {
            told,
            replaced,
            kept,
            added,
        })
    }

    /// Whether all would be as it is.
    pub(super) fn changes_nothing(&self, list: &Varieties) -> bool {
        let same = |(at, record): &(usize, Variety)| list.list().get(*at) == Some(record);
        self.kept == list.len() && self.added.is_empty() && self.replaced.iter().all(same)
    }

    /// The place of the first record that it is about.
    pub fn first(&self) -> usize {
        let replaced = self.replaced.first().map(|(at, _)| *at);
        replaced.unwrap_or(self.kept)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::history::History;
    use crate::variety::{Edit, Text};
    use proptest::prelude::*;

    fn named(name: &str, tubers: Option<u32>) -> Variety {
        let mut variety = Variety::named(Text::new(name).expect("a name"));
        variety.on_hand = tubers;
        variety
    }

    fn list(names: &[&str]) -> Varieties {
        let all = names.iter().map(|name| named(name, None)).collect();
        Varieties::of(all).expect("different names")
    }

    #[test]
    fn what_would_put_a_name_there_twice_changes_nothing() {
        let before = list(&["Haaf", "Ebb"]);
        for (replaced, added) in [
            (vec![], vec![named("ébb", None)]),
            (vec![], vec![named("Oar", None), named("oar", None)]),
            (vec![(1, named("Oar", None))], vec![]),
            (vec![(2, named("Oar", None))], vec![]),
        ] {
            let mut after = before.clone();
            let several = Several {
                told: String::new(),
                replaced,
                kept: 2,
                added,
            };
            assert_eq!(several.apply(&mut after), None);
            assert_eq!(after, before);
        }
    }

    proptest! {
        #[test]
        fn many_records_at_once_are_undone_and_done_again_as_one(
            tubers in prop::collection::vec(prop::option::of(0_u32..9), 3),
            more in 0_usize..4,
        ) {
            let mut list = list(&["Haaf", "Ebb", "Oar"]);
            let start = list.clone();
            let names = ["Haaf", "Ebb", "Oar"];
            let replaced = tubers.iter().enumerate().filter_map(|(at, tubers)| {
                tubers.map(|tubers| (at, named(names[at], Some(tubers))))
            });
            let added = ["Foam", "Wrack", "Noust", "Tangle"][..more].iter();
            let several = Several {
                told: "read".to_string(),
                replaced: replaced.collect(),
                kept: 3,
                added: added.map(|name| named(name, None)).collect(),
            };
            let mut history = History::default();
            let made = Edit::Several(Box::new(several)).make(&mut list, &mut history).is_some();
            let end = list.clone();
            prop_assert_eq!(made, start != end);
            if made {
                history.undo(|step| step.apply(&mut list));
                prop_assert_eq!(&list, &start);
                history.redo(|step| step.apply(&mut list));
                prop_assert_eq!(&list, &end);
                prop_assert_eq!(list.find("WRACK").is_some(), more > 1);
            }
        }
    }
}
