//! What words find in the list: names and raisers, and what a variety's form and colours are called.

use super::bits::Rows;
use super::facet::Facet;
use super::index::Index;
use super::words::{Query, Word};

/// A query made ready. Forms and colour words are few and shared by many rows, so each is compared
/// with the query once, and a row only looks its own up.
pub(super) struct Search<'a> {
    index: &'a Index,
    words: Vec<Looked<'a>>,
    forgiving: bool,
}

/// One word of the query, and what it finds.
struct Looked<'a> {
    word: &'a Word,
    /// Whether it finds no form and no colour: most names typed, and rows need not look theirs up.
    name_only: bool,
    /// By the place of the form among the facet's values.
    forms: Vec<bool>,
    /// By place in the palette.
    colours: Vec<bool>,
}

impl Index {
    /// Looks for a query; one slip a word is forgiven where `forgiving`.
    pub(super) fn search<'a>(&'a self, query: &'a Query, forgiving: bool) -> Search<'a> {
        let looked = |word: &'a Word| {
            let forms = self.form_names.iter();
            let forms: Vec<bool> = forms.map(|name| word.begins_in(name, forgiving)).collect();
            let colours = self.shades.words();
            let colours: Vec<bool> = colours
                .map(|name| name.is_some_and(|name| word.begins_in(name, forgiving)))
                .collect();
            Looked {
                word,
                name_only: !forms.contains(&true) && !colours.contains(&true),
                forms,
                colours,
            }
        };
        Search {
            index: self,
            words: query.words().iter().map(looked).collect(),
            forgiving,
        }
    }
}

impl Search<'_> {
    /// Keeps those of `rows` in whose name, raiser, form or colours every word is found.
    pub(super) fn keep(&self, rows: &mut Rows) {
        for looked in &self.words {
            let mut found = (self.index.names).holding(rows, looked.word, self.forgiving);
            if !looked.name_only {
                let mut others = found.others();
                others.keep(rows);
                others.retain(|row| looked.form_or_colour_of(self.index, row));
                found.add(&others);
            }
            *rows = found;
        }
    }
}

impl Looked<'_> {
    fn form_or_colour_of(&self, index: &Index, row: usize) -> bool {
        let mut forms = index.columns[Facet::Form as usize].of(row).iter();
        // OK to look no further for `unknown`: it has no name.
        forms.any(|form| self.forms.get(*form as usize) == Some(&true))
            || index
                .shades
                .placed(row)
                .iter()
                .any(|(colour, _)| self.colours[*colour as usize])
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
