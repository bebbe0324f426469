//! What words find in the list: names and raisers, and what a variety's form and colours are called.

use super::bits::Rows;
use super::facet::Facet;
use super::index::Index;
use super::words::{Match, Query, Word};

/// The rows in whose name, raiser, form or colours every word of a query is.
#[derive(Debug, Clone)]
pub(super) struct Found {
    /// One slip a word forgiven.
    pub(super) rows: Rows,
    /// Those of them that have every word as it was typed.
    pub(super) as_typed: Rows,
}

/// One word of a query looked up. The words of names, forms and colour words are few and shared by
/// many rows, so each is compared with it once, and a row only looks its own up.
struct LookedUp<'a> {
    index: &'a Index,
    /// By place in the lexicon of names.
    names: Vec<Match>,
    /// By the place of the form among the facet's values.
    forms: Vec<Match>,
    /// By place in the palette.
    colours: Vec<Match>,
    /// Whether it is in no form and no colour: most names typed, and rows need not look theirs up.
    name_only: bool,
}

impl Index {
    /// Those of `rows` that a query finds.
    pub(super) fn search(&self, query: &Query, rows: &Rows) -> Found {
        let mut found = Found {
            rows: rows.clone(),
            as_typed: rows.clone(),
        };
        for word in query.words() {
            let word = LookedUp::of(self, word);
            found.rows.retain(|row| word.is_in(row) != Match::None);
            found.as_typed.keep(&found.rows);
            if word.forgives() {
                let as_typed = &mut found.as_typed;
                as_typed.retain(|row| word.is_in(row) == Match::AsTyped);
            }
        }
        found
    }
}

impl LookedUp<'_> {
    fn of<'a>(index: &'a Index, word: &Word) -> LookedUp<'a> {
        let forms = index.form_names.iter();
        let forms: Vec<Match> = forms.map(|name| word.begins(name)).collect();
        let colours = index.shades.words();
        let colours: Vec<Match> = colours
            .map(|name| name.map_or(Match::None, |name| word.begins(name)))
            .collect();
        let mut others = forms.iter().chain(&colours);
        LookedUp {
            index,
            names: index.names.matches(word),
            name_only: others.all(|one| *one == Match::None),
            forms,
            colours,
        }
    }

    /// Whether a slip was forgiven anywhere.
    fn forgives(&self) -> bool {
        let of = [&self.names, &self.forms, &self.colours];
        of.iter()
            .any(|matches| matches.contains(&Match::ButForASlip))
    }

    /// How the word is in what a row is called.
    fn is_in(&self, row: usize) -> Match {
        let words = self.index.names.words_of(row).iter();
        let in_name = words.map(|word| self.names[*word as usize]).max();
        let in_name = in_name.unwrap_or_default();
        match self.name_only || in_name == Match::AsTyped {
            true => in_name,
            false => in_name.max(self.is_in_form_or_colours(row)),
        }
    }

    fn is_in_form_or_colours(&self, row: usize) -> Match {
        let forms = self.index.columns[Facet::Form as usize].of(row).iter();
        // OK to look no further for `unknown`: it has no name.
        let forms = forms.filter_map(|form| self.forms.get(*form as usize));
        let colours = self.index.shades.placed(row).iter();
        let colours = colours.map(|(colour, _)| &self.colours[*colour as usize]);
        forms.chain(colours).max().copied().unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::Vocabulary;
    use crate::form::RuleSet;
    use crate::variety::{IndexContext, Narrowing, Uses, Varieties};

    #[track_caller]
    fn check(words: &str, expected: &[usize]) {
        let text = r##"[
  (name: "Haaf Lamp", raiser: "Ebb Nursery", form: (id: "pompon", known: stated), colours: [(colour: "peach", part: main, pattern: self)]),
  (name: "Peachtree Lane", form: (id: "semi-cactus", known: stated), colours: [(colour: "#aa0000", part: main, pattern: self)]),
  (name: "Noust Pompon", colours: [(colour: "dark red", part: main, pattern: self)]),
]"##;
        let list = Varieties::read("varieties.ron", text).expect("a list");
        let grounds = IndexContext {
            rules: &RuleSet::embedded()[0],
            uses: &Uses::embedded(),
            words: &Vocabulary::embedded(),
            stems_a_plant: 8.0,
        };
        let index = Index::new(&list, grounds);
        let rows = index.narrowed(&[Narrowing::Words(words.to_string())]);
        assert_eq!(rows.iter().collect::<Vec<_>>(), expected, "{words}");
    }

    #[test]
    fn a_form_or_a_colour_is_found_by_the_beginning_of_its_name() {
        check("pompon", &[0, 2]);
        check("pomopn", &[0, 2]);
        check("peach", &[0, 1]);
        check("peach pompon", &[0]);
        check("lamp pom ebb", &[0]);
        check("cactus", &[1]);
        check("semi-cactus", &[1]);
        check("red", &[2]);
        // Within a name any part is found; of a form or a colour only a beginning.
        check("omp", &[2]);
        check("chtree", &[1]);
        check("unknown", &[]);
        check("aa0000", &[]);
    }
}
