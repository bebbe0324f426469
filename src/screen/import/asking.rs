//! The second step: what headings and words mean, one question at a time.

use super::reading::Reading;
use crate::screen::kit::cursor::Cursor;
use crate::screen::kit::line::{Edit, Line};
use crate::variety::exchange::{About, Answer, Offered, Over, Question, UNKNOWN};
use crate::variety::folded;

impl Reading {
    pub(super) fn is_typed(&self) -> bool {
        self.line.is_some()
    }

    /// The question that is asked.
    pub(super) fn question(&self) -> Option<&Question> {
        self.questions.first()
    }

    /// The answers that are offered, and last, where it can be, to leave out what is asked about. While a
    /// line is typed those with its words in them.
    pub(super) fn answers(&self) -> Vec<Offered> {
        let Some(question) = self.question() else {
            return Vec::new();
        };
        let Some(line) = &self.line else {
            let left_out = question.may_be_left_out().then(|| Offered {
                term: UNKNOWN.to_string(),
                means: String::new(),
            });
            return question.offered.iter().cloned().chain(left_out).collect();
        };
        let typed = folded(line.text().trim());
        let has = |one: &&Offered| folded(&one.term).contains(&typed);
        // What begins so comes before what has it within.
        let mut found: Vec<Offered> = self.all.iter().filter(has).cloned().collect();
        found.sort_by_key(|one| !folded(&one.term).starts_with(&typed));
        found
    }

    /// Begins the question: the cursor on what was answered before it was taken back, a line open where
    /// nothing is offered.
    pub(super) fn begin_question(&mut self, over: Over<'_>) {
        (self.cursor, self.line) = (Cursor::default(), None);
        let Some(question) = self.questions.first() else {
            return;
        };
        if question.offered.is_empty() && !question.may_be_left_out() {
            return self.begin_line(over);
        }
        let before = self
            .taken_back
            .last()
            .and_then(|answer| term_of(answer, question));
        if let Some(before) = before {
            let at = self.answers().iter().position(|one| one.term == before);
            self.cursor = Cursor::on(at.unwrap_or(0));
        }
    }

    /// Gives the answer under the cursor; on a line with which none goes, what is typed.
    pub(super) fn give(&mut self, over: Over<'_>) {
        let answers = self.answers();
        let chosen = answers.get(self.cursor.row(answers.len()));
        let typed = self
            .line
            .as_ref()
            .map(|line| line.text().trim().to_string());
        let term = match (chosen, typed) {
            (Some(one), Some(typed)) if !typed.is_empty() => one.term.clone(),
            (_, Some(typed)) => typed,
            (Some(one), None) => one.term.clone(),
            (None, None) => return,
        };
        self.give_term(&term, over);
    }

    pub(super) fn give_by_digit(&mut self, digit: char, over: Over<'_>) {
        let Some(question) = self.question() else {
            return;
        };
        let place = digit.to_digit(10).map_or(0, |digit| digit as usize);
        match place.checked_sub(1) {
            None if question.may_be_left_out() => self.give_term(UNKNOWN, over),
            None => self.note = Some("This is needed: it cannot be left out.".to_string()),
            Some(at) => {
                if let Some(one) = question.offered.get(at) {
                    let term = one.term.clone();
                    self.give_term(&term, over);
                }
            }
        }
    }

    fn give_term(&mut self, term: &str, over: Over<'_>) {
        self.note = None;
        let Some(question) = self.questions.first() else {
            return;
        };
        let answer = match (term, self.intake.left_out(question)) {
            (UNKNOWN, Some(answer)) => Ok(answer),
            _ => self.intake.meant(question, term, over),
        };
        match answer {
            Ok(answer) => {
                self.intake.answer(answer);
                self.taken_back.pop();
                self.next_question(over);
            }
            Err(told) => match &mut self.line {
                Some(line) => line.refuse(told),
                None => self.note = Some(told),
            },
        }
    }

    /// The next question. Words are asked about one by one as they were found, so that a long file is not
    /// read anew after each.
    fn next_question(&mut self, over: Over<'_>) {
        let is_word = |one: &Question| matches!(one.about, About::Word { .. });
        if self.questions.first().is_some_and(is_word) && self.questions.len() > 1 {
            self.questions.remove(0);
            return self.begin_question(over);
        }
        if let Err(told) = self.look_up(over) {
            self.note = Some(told);
        }
    }

    /// Takes the last answer back; `false` where there is none.
    pub(super) fn back(&mut self, over: Over<'_>) -> bool {
        self.note = None;
        let Some(answer) = self.intake.take_back() else {
            return false;
        };
        self.taken_back.push(answer);
        if let Err(told) = self.look_up(over) {
            self.note = Some(told);
        }
        true
    }

    /// Opens a line for another answer than those offered.
    pub(super) fn begin_line(&mut self, over: Over<'_>) {
        let Some(question) = self.questions.first() else {
            return;
        };
        self.all = self.intake.terms_of(question, over);
        (self.cursor, self.line) = (Cursor::default(), Some(Line::new((), "")));
    }

    pub(super) fn drop_line(&mut self) {
        (self.cursor, self.line) = (Cursor::default(), None);
    }

    pub(super) fn edit(&mut self, edit: &Edit) {
        if let Some(line) = &mut self.line {
            line.edit(edit);
            self.cursor = Cursor::default();
        }
    }
}

/// The term of an answer that was given to this question.
fn term_of(answer: &Answer, question: &Question) -> Option<String> {
    match (answer, &question.about) {
        (Answer::Mapped(map), About::Name) => Some(map.word.to_string()),
        (
            Answer::Mapped(map),
            About::Heading { heading: asked, .. } | About::Word { word: asked, .. },
        ) => (folded(&map.word) == folded(asked)).then(|| map.term.to_string()),
        (Answer::Supplier(name), About::Supplier) => Some(name.to_string()),
        (Answer::Pack(tubers), About::Pack) => Some(tubers.to_string()),
        _ => None,
    }
}
