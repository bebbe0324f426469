//! What only the grower can say of a file, one question at a time.

use super::Terms;
use super::candidates::{candidates, names};
use super::columns::{Columns, LaidOut, Open};
use super::field::Field;
use super::kind::Kind;
use super::taken::UnknownWord;
use super::term;
use crate::table::Table;
use crate::variety::list::Varieties;
use crate::variety::text::{folded, plain};

/// What is asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum About {
    /// Which of the headings stands over the names.
    Name,
    /// What a heading is read as.
    Heading {
        /// As it was written.
        heading: String,
        /// Why it is asked about.
        why: WhyAsked,
    },
    /// Who sells where no row says.
    Supplier,
    /// How many tubers are in a pack where no row says.
    Pack,
    /// What a word stands for.
    Word {
        /// What it is for.
        kind: Kind,
        /// As it was written.
        word: String,
        /// How many rows have it.
        rows: usize,
    },
}

/// Why a heading is asked about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WhyAsked {
    /// It is no heading that is known.
    Unread,
    /// It may mean either of two fields.
    Either,
    /// Another heading, this one, has the same field.
    Same(String),
}

/// One question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// What is asked.
    pub about: About,
    /// A few cells under the heading.
    pub samples: Vec<String>,
    /// The answers that are offered, best first.
    pub offered: Vec<Offered>,
}

/// An answer that is offered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offered {
    /// The term, as a mapping has it.
    pub term: String,
    /// What it would mean, where the term alone does not say.
    pub means: String,
}

/// Cells that are shown under a heading.
const MOST_SAMPLES: usize = 3;

impl Offered {
    fn term(term: impl Into<String>) -> Offered {
        Offered {
            term: term.into(),
            means: String::new(),
        }
    }
}

/// The questions about the headings, in their order; none where all of them are known.
pub(super) fn of_headings(laid_out: &LaidOut, table: &Table, terms: &Terms) -> Vec<Question> {
    let LaidOut { columns, open } = laid_out;
    let samples = |at: usize| samples(columns, table, at);
    if !columns.has(Field::Name) {
        let headings = names(laid_out, table);
        let offered = headings.into_iter().map(|at| Offered {
            term: columns.columns[at].heading.clone(),
            means: samples(at).join(" | "),
        });
        return vec![Question {
            about: About::Name,
            samples: Vec::new(),
            offered: offered.collect(),
        }];
    }
    let question = |(at, open): &(usize, Open)| {
        let heading = columns.columns[*at].heading.clone();
        let (why, offered) = match open {
            Open::Either(either) => {
                let both = either.meanings().map(|(field, means)| Offered {
                    term: field.heading().to_string(),
                    means: means.to_string(),
                });
                (WhyAsked::Either, both.to_vec())
            }
            Open::Same(first) => {
                let first = columns.columns[*first].heading.clone();
                (WhyAsked::Same(first), fields(*at, laid_out, table, terms))
            }
            Open::Unread => (WhyAsked::Unread, fields(*at, laid_out, table, terms)),
        };
        Question {
            about: About::Heading { heading, why },
            samples: samples(*at),
            offered,
        }
    };
    open.iter().map(question).collect()
}

/// Who sells, and how much of it in a pack, where the file has prices and does not say.
pub(super) fn of_offers(columns: &Columns, terms: &Terms, list: &Varieties) -> Vec<Question> {
    let mut questions = Vec::new();
    let mut ask = |about, offered| {
        questions.push(Question {
            about,
            samples: Vec::new(),
            offered,
        });
    };
    let sells = [
        Field::Price,
        Field::Pack,
        Field::Available,
        Field::AvailableTubers,
        Field::Closes,
    ];
    let sold = sells.iter().any(|field| columns.has(*field));
    if sold && !columns.has(Field::Supplier) && terms.supplier.is_none() {
        ask(About::Supplier, suppliers(list));
    }
    if columns.has(Field::Price) && !columns.has(Field::Pack) && terms.pack.is_none() {
        ask(About::Pack, vec![Offered::term("1")]);
    }
    questions
}

/// What the words stand for that are no term.
pub(super) fn of_words(words: &[UnknownWord]) -> Vec<Question> {
    let question = |one: &UnknownWord| Question {
        about: About::Word {
            kind: one.kind,
            word: one.word.clone(),
            rows: one.lines.len(),
        },
        samples: Vec::new(),
        offered: one.near.iter().map(Offered::term).collect(),
    };
    words.iter().map(question).collect()
}

impl Question {
    /// Every term that could be the answer, those that are offered first; only those that are offered where
    /// nothing else can be meant.
    pub fn all_terms(&self, terms: &Terms) -> Vec<Offered> {
        let more = match &self.about {
            About::Heading { .. } => term::all(Kind::Heading, terms),
            About::Word { kind, .. } => term::all(*kind, terms),
            About::Name | About::Supplier | About::Pack => Vec::new(),
        };
        let mut all = self.offered.clone();
        for one in more {
            if !all.iter().any(|offered| offered.term == one) {
                all.push(Offered::term(one));
            }
        }
        all
    }

    /// Whether what is asked about may be left out.
    pub fn may_be_left_out(&self) -> bool {
        matches!(self.about, About::Heading { .. } | About::Word { .. })
    }
}

fn fields(at: usize, laid_out: &LaidOut, table: &Table, terms: &Terms) -> Vec<Offered> {
    let found = candidates(at, laid_out, table, terms).into_iter();
    found.map(|field| Offered::term(field.heading())).collect()
}

/// The names that sell in the list already.
fn suppliers(list: &Varieties) -> Vec<Offered> {
    let mut known: Vec<(String, usize)> = Vec::new();
    for offer in list.list().iter().flat_map(|one| &one.offers) {
        match known
            .iter_mut()
            .find(|(name, _)| folded(name) == folded(&offer.supplier))
        {
            Some((_, count)) => *count += 1,
            None => known.push((offer.supplier.to_string(), 1)),
        }
    }
    known.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    known
        .into_iter()
        .map(|(name, _)| Offered::term(name))
        .collect()
}

/// A few different cells of a column.
pub(super) fn samples(columns: &Columns, table: &Table, at: usize) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for row in columns.rows(table) {
        let cell = plain(row.cell(at));
        if !cell.is_empty() && !found.contains(&cell) {
            found.push(cell);
        }
        if found.len() == MOST_SAMPLES {
            break;
        }
    }
    found
}
