//! A query, and looking through names by it.

use super::folded::{Folded, folded};
use super::rank::{Rank, without_needless_slips};
use super::word::{InOrder, Word};

/// What is looked for, split at spaces.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Query {
    words: Vec<Word>,
}

impl Query {
    /// Reads a query; without words it finds everything.
    pub fn new(text: &str) -> Query {
        let text = folded(text);
        Query {
            words: text.split_whitespace().map(Word::new).collect(),
        }
    }

    /// Its words.
    pub fn words(&self) -> &[Word] {
        &self.words
    }
}

/// A query at work on one thread.
#[derive(Debug)]
pub struct Finder<'a> {
    query: &'a Query,
    in_order: InOrder,
}

impl Finder<'_> {
    /// Takes a query to work.
    pub fn of(query: &Query) -> Finder<'_> {
        Finder {
            query,
            in_order: InOrder::default(),
        }
    }

    /// How a name is found; `None` where a word is not. What is `told` of it, folded, is found where one
    /// of its words is the query's or begins so.
    pub fn rank(&self, name: &Folded, told: &str) -> Option<Rank> {
        let mut all = Rank::default();
        for word in &self.query.words {
            let in_name = word.in_name(name.name(), &self.in_order);
            let in_told = match in_name {
                Some(Rank::WHOLE) => None,
                _ => word.begins(told).map(Rank::told),
            };
            all = all + [in_name, in_told].into_iter().flatten().min()?;
        }
        Some(all)
    }

    /// The places of those of a list that are found, the best first; of equals those that come first. A
    /// slip is forgiven where nothing is found without one.
    pub fn ranked<'n>(
        &self,
        list: impl IntoIterator<Item = (&'n Folded, &'n str)>,
    ) -> Vec<(Rank, usize)> {
        let ranked = list.into_iter().enumerate();
        let ranked = ranked.filter_map(|(at, (name, told))| Some((self.rank(name, told)?, at)));
        let mut found = without_needless_slips(ranked.collect());
        found.sort_unstable();
        found
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn rank(query: &str, name: &str) -> Option<Rank> {
        Finder::of(&Query::new(query)).rank(&Folded::of(name), "")
    }

    fn found(query: &str, name: &str) -> bool {
        rank(query, name).is_some()
    }

    #[test]
    fn letters_in_order_and_first_letters_find_a_name() {
        for query in ["lchn", "nl", "nlchn", "nst lchn", "lochan", "NÓUST"] {
            assert!(found(query, "Noust Lochan"), "{query}");
        }
        // Out of order, not at the beginning of a word, or too far apart.
        for query in ["ln", "chn", "oslh", "ntn"] {
            assert!(!found(query, "Noust Lochan"), "{query}");
        }
    }

    #[test]
    fn the_best_way_to_find_a_name_comes_first() {
        let names = [
            "Bella Kettle",
            "Haaf Kettel",
            "Bell Kettle",
            "Kettle Noust",
            "Bogle Emery Lass",
            "Skerry Rebels",
            "Bevel Tarn",
        ];
        let names: Vec<Folded> = names.iter().map(|name| Folded::of(name)).collect();
        let order = |query: &str| -> Vec<usize> {
            let query = Query::new(query);
            let all = names.iter().map(|name| (name, ""));
            Finder::of(&query)
                .ranked(all)
                .iter()
                .map(|(_, at)| *at)
                .collect()
        };
        // A whole word, a beginning, first letters, a part, letters in order.
        assert_eq!(order("bel"), [0, 2, 4, 5, 6]);
        assert_eq!(order("bell"), [2, 0]);
        // A slip where nothing is found without one.
        assert_eq!(order("kettle"), [0, 2, 3]);
        assert_eq!(order("haaf kettle"), [1]);
        assert_eq!(order("noust kettle"), [3]);
    }

    #[test]
    fn parts_of_words_in_any_order_are_found() {
        for query in [
            "",
            "skerry",
            "lant sker",
            "RRY",
            "lántern",
            "s l",
            "lantern skerry",
        ] {
            assert!(found(query, "Skerry Lantern"), "{query}");
        }
        assert!(!found("skerry lamp", "Skerry Lantern"));
    }

    #[test]
    fn one_slip_is_forgiven_and_two_are_not() {
        for query in [
            "pomopn", "ponpon", "pompn", "pommpon", "pmpon", "opmpon", "xompon", "pomponn", "pomx",
        ] {
            assert!(found(query, "Haaf Pompon"), "{query}");
        }
        for query in ["pmx", "oppmon", "pomxxn", "xxmpon", "pnmopo"] {
            assert!(!found(query, "Haaf Pompon"), "{query}");
        }
    }

    #[test]
    fn a_number_with_another_digit_is_not_meant() {
        assert!(found("26-01", "26-014"));
        for query in ["26-015", "26-04", "2614", "26-041", "26-0144"] {
            assert!(!found(query, "26-014"), "{query}");
        }
    }

    proptest! {
        #[test]
        fn another_word_never_finds_more(a in "[a-f]{0,6}", b in "[a-f]{0,6}", name in "[a-f]{1,6} [a-f]{1,6}") {
            if found(&format!("{a} {b}"), &name) {
                prop_assert!(found(&a, &name) && found(&b, &name));
            }
        }

        /// What is compared first tells no name apart that a longer look would find.
        #[test]
        fn the_letters_never_hide_a_match(word in "\\PC{1,8}", name in "\\PC{1,12}") {
            let (query, name) = (Query::new(&word), Folded::of(&name));
            let all = crate::matching::Name { letters: u64::MAX, firsts: u64::MAX, ..name.name() };
            let in_order = InOrder::default();
            for word in query.words() {
                prop_assert_eq!(word.in_name(name.name(), &in_order), word.in_name(all, &in_order));
            }
        }

        /// Each kind of slip, made anywhere in a word of four letters and more, is forgiven.
        #[test]
        fn any_one_slip_is_forgiven(word in "[a-z]{4,9}", at in 0_usize..9, letter in proptest::char::range('a', 'z'), kind in 0..4) {
            let mut typed: Vec<char> = word.chars().collect();
            let at = at % typed.len();
            match kind {
                0 => typed[at] = letter,
                1 => typed.insert(at, letter),
                2 if typed.len() > 4 => { typed.remove(at); }
                _ => { let next = (at + 1).min(typed.len() - 1); typed.swap(at, next) }
            }
            let typed: String = typed.into_iter().collect();
            prop_assert!(found(&typed, &word), "{} for {}", typed, word);
        }
    }
}
