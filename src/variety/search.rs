//! What words find in the list: names and raisers, and what a variety's form and colours are called.

use super::bits::{ROWS_A_THREAD, Rows};
use super::facet::Facet;
use super::index::Index;
use super::words::WordInNames;
use crate::cores::all_in_spans;
use crate::matching::{Query, Rank, Word};

/// The rows in whose name, raiser, form or colours every word of a query is.
#[derive(Debug, Clone)]
pub(super) struct Found {
    pub(super) rows: Rows,
    /// By row: how well it is found, where it is.
    pub(super) ranks: Vec<Rank>,
}

/// One word of a query looked up. The words of names, forms and colour words are few and shared by
/// many rows, so each is compared with it once, and a row only looks its own up.
struct LookedUp<'a> {
    index: &'a Index,
    names: WordInNames<'a>,
    /// By the place of the form among the facet's values.
    forms: Vec<Option<Rank>>,
    /// By place in the palette.
    colours: Vec<Option<Rank>>,
    /// Whether it is in no form and no colour: most names typed, and rows need not look theirs up.
    name_only: bool,
}

impl Index {
    /// Those of `rows` that a query finds.
    pub(super) fn search(&self, query: &Query, rows: &Rows) -> Found {
        let mut found = Found {
            rows: rows.clone(),
            ranks: vec![Rank::default(); self.len()],
        };
        let ranks = &mut found.ranks;
        for word in query.words() {
            let word = LookedUp::of(self, word);
            let ranked = word.ranks(&found.rows);
            found.rows.retain(|row| {
                let rank = ranked
                    .as_ref()
                    .map_or_else(|| word.rank(row), |all| all[row]);
                rank.inspect(|rank| ranks[row] = ranks[row] + *rank)
                    .is_some()
            });
        }
        found
    }
}

impl LookedUp<'_> {
    fn of<'a>(index: &'a Index, word: &'a Word) -> LookedUp<'a> {
        let forms = index.form_names.iter();
        let forms: Vec<Option<Rank>> = forms.map(|name| word.begins(name)).collect();
        let colours = index.shades.words();
        let colours: Vec<Option<Rank>> = colours
            .map(|name| name.and_then(|name| word.begins(name)))
            .collect();
        let mut others = forms.iter().chain(&colours);
        LookedUp {
            index,
            names: index.names.look_up(word),
            name_only: others.all(Option::is_none),
            forms,
            colours,
        }
    }

    /// How the word is in what each row is called, by row, where many are asked for.
    fn ranks(&self, rows: &Rows) -> Option<Vec<Option<Rank>>> {
        let rank = |row| rows.has(row).then(|| self.rank(row)).flatten();
        let many = rows.count() > ROWS_A_THREAD;
        let all = || {
            all_in_spans(self.index.len(), ROWS_A_THREAD, |span| {
                span.map(rank).collect()
            })
        };
        many.then(all)
    }

    /// How the word is in what a row is called.
    fn rank(&self, row: usize) -> Option<Rank> {
        let in_name = self.names.rank(row);
        match self.name_only || in_name == Some(Rank::WHOLE) {
            true => in_name,
            false => {
                let in_others = self.in_form_or_colours(row);
                in_name.into_iter().chain(in_others).min()
            }
        }
    }

    fn in_form_or_colours(&self, row: usize) -> Option<Rank> {
        let forms = self.index.columns[Facet::Form as usize].of(row).iter();
        // OK to look no further for `unknown`: it has no name.
        let forms = forms.filter_map(|form| self.forms.get(*form as usize));
        let colours = self.index.shades.placed(row).iter();
        let colours = colours.map(|(colour, _)| &self.colours[*colour as usize]);
        forms.chain(colours).flatten().min().copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::Vocabulary;
    use crate::form::RuleSet;
    use crate::variety::{IndexContext, Narrowing, Uses, Varieties};

    fn index(text: &str) -> Index {
        let list = Varieties::read("varieties.ron", text).expect("a list");
        let grounds = IndexContext {
            rules: &RuleSet::embedded()[0],
            uses: &Uses::embedded(),
            words: &Vocabulary::embedded(),
            stems_a_plant: 8.0,
            season: None,
        };
        Index::new(&list, grounds)
    }

    #[track_caller]
    fn check(words: &str, expected: &[usize]) {
        let text = r##"[
  (name: "Haaf Lamp", raiser: "Ebb Nursery", form: (id: "pompon", known: stated), colours: [(colour: "peach", part: main, pattern: self)]),
  (name: "Peachtree Lane", form: (id: "semi-cactus", known: stated), colours: [(colour: "#aa0000", part: main, pattern: self)]),
  (name: "Noust Pompon", colours: [(colour: "dark red", part: main, pattern: self)]),
]"##;
        let index = index(text);
        let rows = index.narrowed(&[Narrowing::Words(words.to_string())]);
        assert_eq!(rows.iter().collect::<Vec<_>>(), expected, "{words}");
    }

    /// Of a long list, worked on by every core, each row is found as by itself.
    #[test]
    fn a_long_list_is_searched_as_a_short_one() {
        let names = ["Lamp", "Lampkin", "Haaf", "Palm", "L amp"];
        let row = |at: usize| format!("(name: \"{} {at}\")", names[at % names.len()]);
        let rows: Vec<String> = (0..2 * ROWS_A_THREAD + 7).map(row).collect();
        let text = format!("[{}]", rows.join(",\n"));
        let index = index(&text);
        for words in ["lamp", "lamp 7", "palm 1", "l", "nowhere"] {
            let query = Query::new(words);
            let whole = index.search(&query, &Rows::all(index.len()));
            for row in 0..index.len() {
                let alone = index.search(&query, &Rows::only(index.len(), row));
                assert_eq!(whole.rows.has(row), alone.rows.has(row), "{words}: {row}");
                if alone.rows.has(row) {
                    assert_eq!(whole.ranks[row], alone.ranks[row], "{words}: {row}");
                }
            }
        }
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
