//! The names that a query finds best, of a list of any length.

use super::names::Names;
use super::word_in_names::WordInNames;
use crate::matching::{Query, Rank, without_needless_slips};

impl Names {
    /// The rows whose name or raiser a query finds best, at most so many, the best first and of equals
    /// those that come first; and how many are found in all. A slip is forgiven where nothing is found
    /// without one. Nothing where the query has no word.
    pub fn best(&self, query: &Query, most: usize) -> (Vec<(Rank, usize)>, usize) {
        let words = query.words().iter().map(|word| self.look_up(word));
        let words: Vec<WordInNames<'_>> = words.collect();
        if words.is_empty() {
            return (Vec::new(), 0);
        }
        let rank = |row: usize| {
            let mut ranks = words.iter().map(|word| word.rank(row));
            ranks.try_fold(Rank::default(), |all, rank| Some(all + rank?))
        };
        let rows = (0..self.len()).filter_map(|row| Some((rank(row)?, row)));
        let mut found = without_needless_slips(rows.collect());
        let count = found.len();
        if most < count {
            found.select_nth_unstable(most);
            found.truncate(most);
        }
        found.sort_unstable();
        (found, count)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// The first so many are those of all that are found, put in order.
        #[test]
        fn the_best_are_the_first_of_all(named in prop::collection::vec("[ab]{0,4} [ab]{1,5}", 0..60), typed in "[ab]{0,3}( [ab]{1,2})?", most in 0_usize..20) {
            let mut names = Names::default();
            named.iter().for_each(|name| names.push(name, ""));
            let query = Query::new(&typed);
            let (all, count) = names.best(&query, usize::MAX);
            prop_assert_eq!(all.len(), count);
            prop_assert!(all.is_sorted());
            prop_assert_eq!(names.best(&query, most), (all[..most.min(count)].to_vec(), count));
        }
    }
}
