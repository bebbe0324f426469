//! Where each name is in a list, case and accents apart: row numbers hashed by name, so that no
//! name is held a second time.

use std::hash::{BuildHasher, Hasher};

use hashbrown::{DefaultHashBuilder, HashTable};

use super::record::Variety;
use super::text::folded;

/// The places of names in a list that is kept elsewhere.
#[derive(Debug, Clone, Default)]
pub(super) struct ByName {
    rows: HashTable<u32>,
    hasher: DefaultHashBuilder,
}

impl ByName {
    pub(super) fn with_room(rows: usize) -> ByName {
        ByName {
            rows: HashTable::with_capacity(rows),
            hasher: DefaultHashBuilder::default(),
        }
    }

    /// Takes in the row's name, or gives back the row that has it already.
    pub(super) fn add(&mut self, row: usize, list: &[Variety]) -> Result<(), usize> {
        let name = &list[row].name;
        if let Some(first) = self.find(name, list) {
            return Err(first);
        }
        let hasher = &self.hasher;
        let hash_of = |row: &u32| hash(hasher, &list[*row as usize].name);
        self.rows
            .insert_unique(hash(hasher, name), row as u32, hash_of);
        Ok(())
    }

    /// The row that has this name.
    pub(super) fn find(&self, name: &str, list: &[Variety]) -> Option<usize> {
        let is_it = |row: &u32| same(&list[*row as usize].name, name);
        let row = self.rows.find(hash(&self.hasher, name), is_it);
        row.map(|row| *row as usize)
    }
}

/// Two of these are equal where their lists are.
impl PartialEq for ByName {
    fn eq(&self, _: &ByName) -> bool {
        true
    }
}

fn hash(builder: &DefaultHashBuilder, name: &str) -> u64 {
    let mut hasher = builder.build_hasher();
    if name.is_ascii() {
        let mut lower = [0; 32];
        for piece in name.as_bytes().chunks(lower.len()) {
            let lower = &mut lower[..piece.len()];
            lower.copy_from_slice(piece);
            lower.make_ascii_lowercase();
            hasher.write(lower);
        }
    } else {
        // In the same pieces, for a name with accents may fold to one without.
        let folded = folded(name);
        folded
            .as_bytes()
            .chunks(32)
            .for_each(|piece| hasher.write(piece));
    }
    hasher.finish()
}

fn same(one: &str, other: &str) -> bool {
    match one.is_ascii() && other.is_ascii() {
        true => one.eq_ignore_ascii_case(other),
        false => folded(one) == folded(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::variety::text::Text;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn a_name_is_found_as_it_folds(names in prop::collection::vec("[a-cA-C\u{e1}\u{c1}\u{301}]{1,40}", 1..12), asked in "[a-c\u{e1}]{1,2}") {
            let names: Vec<Text> = names.iter().filter_map(|name| Text::new(name.as_str()).ok()).collect();
            let list: Vec<Variety> = names.into_iter().map(Variety::named).collect();
            let mut by_name = ByName::default();
            for at in 0..list.len() {
                let first = (0..at).find(|row| folded(&list[*row].name) == folded(&list[at].name));
                prop_assert_eq!(by_name.add(at, &list).err(), first);
            }
            let first = list.iter().position(|one| folded(&one.name) == folded(&asked));
            prop_assert_eq!(by_name.find(&asked, &list), first);
        }
    }
}
