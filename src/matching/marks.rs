//! Which characters of a name a query found, to be marked where it is shown.

use super::Query;
use super::folded::{Name, folded, starts};
use super::rank::Rank;
use super::word::{InOrder, Word};

impl Query {
    /// Whether each character of a name is one that a word of the query found: as it was typed, by first
    /// letters or letters in order; of a slip the beginning that it shares.
    pub fn marks(&self, name: &str) -> Vec<bool> {
        // A character may fold to several or to none.
        let pieces: Vec<String> = name.chars().map(|c| folded(&c.to_string())).collect();
        let text = pieces.concat();
        let mut owner: Vec<usize> = Vec::new();
        for (at, piece) in pieces.iter().enumerate() {
            owner.extend(piece.chars().map(|_| at));
        }
        let in_order = InOrder::default();
        let mut marks = vec![false; pieces.len()];
        for word in self.words() {
            for place in word.places(&text, &in_order) {
                if let Some(own) = owner.get(place) {
                    marks[*own] = true;
                }
            }
        }
        marks
    }
}

impl Word {
    /// The places of its characters in a folded text.
    fn places(&self, text: &str, in_order: &InOrder) -> Vec<usize> {
        let before = |at: usize| text[..at].chars().count();
        let count = self.text().chars().count();
        match self.in_name(Name::of(text), in_order) {
            None => Vec::new(),
            Some(Rank::WHOLE | Rank::BEGINS) => {
                let mut begins = starts(text).filter(|at| text[*at..].starts_with(self.text()));
                let at = begins.next().or_else(|| text.find(self.text()));
                at.map_or_else(Vec::new, |at| (before(at)..before(at) + count).collect())
            }
            Some(Rank::WITHIN) => {
                let at = text.find(self.text());
                at.map_or_else(Vec::new, |at| (before(at)..before(at) + count).collect())
            }
            Some(Rank::INITIALS) => {
                let mut firsts = starts(text).map(|at| (before(at), &text[at..]));
                let place = |c| {
                    firsts
                        .find(|(_, rest)| rest.starts_with(c))
                        .map(|one| one.0)
                };
                self.text().chars().filter_map(place).collect()
            }
            Some(Rank::SLIP) => {
                let shared = |at: &usize| {
                    let pairs = self.text().chars().zip(text[*at..].chars());
                    pairs.take_while(|(a, b)| a == b).count()
                };
                let best = starts(text).max_by_key(shared);
                best.map_or_else(Vec::new, |at| {
                    (before(at)..before(at) + shared(&at)).collect()
                })
            }
            Some(_) => in_order.places(self, text),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_letters_that_were_found_are_marked() {
        let marked = |query: &str, name: &str| -> String {
            let marks = Query::new(query).marks(name);
            let shown = name.chars().zip(marks);
            let one = |(c, mark): (char, bool)| if mark { c } else { '.' };
            shown.map(one).collect()
        };
        for (query, shown) in [
            ("lchn", "......L.ch.n"),
            ("nl", "N.....L....."),
            ("loch no", "No....Loch.."),
            ("ust", "..ust......."),
            ("lcohan", "......L....."),
            ("zz", "............"),
        ] {
            assert_eq!(marked(query, "Noust Lochan"), shown, "{query}");
        }
        assert_eq!(marked("eclat", "Skerry ÉCLAT"), ".......ÉCLAT");
    }
}
