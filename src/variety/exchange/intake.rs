//! A file on its way into the list: what it holds, and what the grower answered so far. The command and the
//! screen go by this alone, so that the same answers make the same list.

use std::num::NonZeroU32;
use std::sync::Arc;

use super::Terms;
use super::columns::Columns;
use super::import::Import;
use super::kind::Kind;
use super::own_words::{Mapping, OwnWords, UNKNOWN};
use super::question::{About, Question, of_headings, of_offers, of_words};
use crate::colour::Vocabulary;
use crate::form::RuleSet;
use crate::table::Table;
use crate::variety::list::Varieties;
use crate::variety::text::Text;

/// A file on its way into the list.
#[derive(Debug, Clone, PartialEq)]
pub struct Intake {
    table: Arc<Table>,
    /// In the order in which they were given.
    answers: Vec<Answer>,
}

/// What the grower says of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answer {
    /// What a word or a heading stands for: remembered.
    Mapped(Mapping),
    /// Who sells where no row says.
    Supplier(Text),
    /// Tubers in a pack where no row says.
    Pack(NonZeroU32),
}

/// What a file is read over and by.
#[derive(Debug, Clone, Copy)]
pub struct Over<'a> {
    /// The list.
    pub list: &'a Varieties,
    /// The rule set whose forms and sizes are meant.
    pub rules: &'a RuleSet,
    /// The colour words.
    pub colours: &'a Vocabulary,
    /// The grower's own words, as they are remembered.
    pub own: &'a OwnWords,
}

impl Intake {
    /// A file of which nothing was answered yet.
    pub fn new(table: Table) -> Intake {
        Intake {
            table: Arc::new(table),
            answers: Vec::new(),
        }
    }

    /// The file read again, with the answers that were given of it before.
    pub fn read_again(self, before: &Intake) -> Intake {
        Intake {
            answers: before.answers.clone(),
            ..self
        }
    }

    /// Takes one more answer.
    pub fn answer(&mut self, answer: Answer) {
        self.answers.push(answer);
    }

    /// Takes the last answer back and gives it.
    pub fn take_back(&mut self) -> Option<Answer> {
        self.answers.pop()
    }

    /// How many were given.
    pub fn answered(&self) -> usize {
        self.answers.len()
    }

    /// Whether every answer is one that the list knows.
    ///
    /// # Errors
    /// One sentence on the first that is not.
    pub fn check(&self, over: Over<'_>) -> Result<(), String> {
        self.with(over, |terms| {
            let mut all = self.mappings();
            all.try_for_each(|mapping| mapping.check(terms))
        })
    }

    /// What is still to be asked, the next first: headings, then who sells, then words. None where the file
    /// can be read.
    ///
    /// # Errors
    /// Where there is nothing in it.
    pub fn questions(&self, over: Over<'_>) -> Result<Vec<Question>, String> {
        self.with(over, |terms| {
            let laid_out = Columns::laid_out(&self.table, terms.own)?;
            let mut questions = of_headings(&laid_out, &self.table, terms);
            if questions.is_empty() {
                questions = of_offers(&laid_out.columns, terms, over.list);
            }
            if questions.is_empty() {
                let import = Import::of(&self.table, &laid_out.columns, over.list, terms);
                questions = of_words(&import.unknown);
            }
            Ok(questions)
        })
    }

    /// What the file does to the list, by what was answered.
    ///
    /// # Errors
    /// As [`Columns::of`].
    pub fn import(&self, over: Over<'_>) -> Result<(Columns, Import), String> {
        self.with(over, |terms| {
            let columns = Columns::of(&self.table, terms.own)?;
            let import = Import::of(&self.table, &columns, over.list, terms);
            Ok((columns, import))
        })
    }

    /// The grower's own words with what was answered, and those answers that are new among them.
    pub fn learnt(&self, own: &OwnWords) -> (OwnWords, Vec<&Mapping>) {
        let mut words = own.clone();
        let new = self.mappings().filter(|map| words.add(map)).collect();
        (words, new)
    }

    /// What an answer to a question is, from the term that was picked or typed.
    ///
    /// # Errors
    /// One clause: what was found, what was expected.
    pub fn meant(&self, question: &Question, term: &str, over: Over<'_>) -> Result<Answer, String> {
        let term = term.trim();
        let text = |text: &str| Text::new(text).map_err(|error| error.to_string());
        let mapping = |kind: Kind, word: &str, term: &str| {
            let (word, term) = (kept(word)?, text(term)?);
            let mapping = Mapping { kind, word, term };
            self.with(over, |terms| mapping.check(terms))?;
            Ok(Answer::Mapped(mapping))
        };
        match &question.about {
            About::Name => mapping(Kind::Heading, term, "name"),
            About::Heading { heading, .. } => mapping(Kind::Heading, heading, term),
            About::Word { kind, word, .. } => mapping(*kind, word, term),
            About::Supplier => text(term).map(Answer::Supplier),
            About::Pack => super::cell::count(term).map(Answer::Pack),
        }
    }

    /// The answer that leaves out what is asked about; `None` where that cannot be left out.
    pub fn left_out(&self, question: &Question) -> Option<Answer> {
        let (kind, word) = match &question.about {
            About::Heading { heading, .. } => (Kind::Heading, heading),
            About::Word { kind, word, .. } => (*kind, word),
            About::Name | About::Supplier | About::Pack => return None,
        };
        let (word, term) = (kept(word).ok()?, Text::new(UNKNOWN).ok()?);
        Some(Answer::Mapped(Mapping { kind, word, term }))
    }

    /// Every term that could answer a question, those offered first.
    pub fn terms_of(&self, question: &Question, over: Over<'_>) -> Vec<super::question::Offered> {
        self.with(over, |terms| question.all_terms(terms))
    }

    fn mappings(&self) -> impl Iterator<Item = &Mapping> {
        self.answers.iter().filter_map(|answer| match answer {
            Answer::Mapped(mapping) => Some(mapping),
            Answer::Supplier(_) | Answer::Pack(_) => None,
        })
    }

    /// Does something by the terms that hold with what was answered.
    fn with<T>(&self, over: Over<'_>, act: impl FnOnce(&Terms<'_>) -> T) -> T {
        let (own, _) = self.learnt(over.own);
        let mut terms = Terms {
            rules: over.rules,
            colours: over.colours,
            own: &own,
            supplier: None,
            pack: None,
        };
        for answer in &self.answers {
            match answer {
                Answer::Supplier(name) => terms.supplier = Some(name),
                Answer::Pack(tubers) => terms.pack = Some(*tubers),
                Answer::Mapped(_) => {}
            }
        }
        act(&terms)
    }
}

/// A word of a file as it is remembered.
fn kept(word: &str) -> Result<Text, String> {
    Text::cleaned(word).ok_or_else(|| "found nothing, expected a word of the file".to_string())
}
