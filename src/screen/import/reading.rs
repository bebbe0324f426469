//! A file that was read: what is still to be asked, and what it would change.

use super::steps::{Next, Step};
use crate::screen::kit::cursor::{Cursor, Movement};
use crate::screen::kit::line::Line;
use crate::variety::exchange::{
    Answer, Import, Intake, Mapping, Offered, Over, OwnWords, Question,
};

/// A file with what was answered of it.
#[derive(Debug, Clone)]
pub(in crate::screen) struct Reading {
    pub(super) path: String,
    pub(super) intake: Intake,
    /// The next first.
    pub(super) questions: Vec<Question>,
    /// What the file does to the list, once nothing is to be asked.
    pub(super) import: Option<Import>,
    /// Where the cursor is: among the answers, or in the preview.
    pub(super) cursor: Cursor,
    /// What is typed in place of the answers that are offered.
    pub(super) line: Option<Line<()>>,
    /// Every term that could be typed.
    pub(super) all: Vec<Offered>,
    /// Answers that were taken back, the last one last: each is offered first where its question comes again.
    pub(super) taken_back: Vec<Answer>,
    /// Whether rows that cannot be read stay out.
    pub(super) leaves_out: bool,
    pub(super) note: Option<String>,
}

impl Reading {
    /// A file as it was read, with what was answered of it before.
    ///
    /// # Errors
    /// Where there is nothing in it.
    pub(super) fn of(
        path: String,
        intake: Intake,
        before: Option<Reading>,
        over: Over<'_>,
    ) -> Result<Reading, String> {
        let (intake, taken_back) = match before {
            Some(before) => (intake.read_again(&before.intake), before.taken_back),
            None => (intake, Vec::new()),
        };
        let mut reading = Reading {
            path,
            intake,
            questions: Vec::new(),
            import: None,
            cursor: Cursor::default(),
            line: None,
            all: Vec::new(),
            taken_back,
            leaves_out: false,
            note: None,
        };
        reading.look_up(over)?;
        Ok(reading)
    }

    /// Works out what is to be asked next, or what the file does.
    pub(super) fn look_up(&mut self, over: Over<'_>) -> Result<(), String> {
        self.questions = self.intake.questions(over)?;
        self.import = match self.questions.is_empty() {
            true => Some(self.intake.import(over)?.1),
            false => None,
        };
        self.begin_question(over);
        Ok(())
    }

    /// The step that it is at.
    pub(super) fn step(&self) -> Step {
        match self.import {
            Some(_) => Step::Preview,
            None => Step::Asking,
        }
    }

    /// The name of the file, without its folder.
    pub(super) fn name(&self) -> &str {
        self.path.rsplit('/').next().unwrap_or(&self.path)
    }

    /// Takes in what is previewed, or says why not.
    pub(super) fn take_in(&mut self) -> Option<Next> {
        let bad = self.import.as_ref()?.bad.len();
        if bad > 0 && !self.leaves_out {
            let rows = counted(bad, "row");
            self.note = Some(format!(
                "{rows} cannot be read: mend them in the file and open it again, or press x to leave them out."
            ));
            return None;
        }
        Some(Next::TakeIn)
    }

    pub(super) fn leave_out(&mut self) {
        let bad = self
            .import
            .as_ref()
            .is_some_and(|import| !import.bad.is_empty());
        self.leaves_out = bad && !self.leaves_out;
        self.note = (!bad).then(|| "Every row can be read: nothing is left out.".to_string());
    }

    /// What the file does, where all is answered.
    pub(in crate::screen) fn import(&self) -> Option<&Import> {
        self.import.as_ref()
    }

    /// The grower's own words with what was answered, and those of the answers that are new.
    pub(in crate::screen) fn learnt(&self, own: &OwnWords) -> (OwnWords, Vec<&Mapping>) {
        self.intake.learnt(own)
    }

    /// What is done to the list, for people: `38 varieties read from list.xlsx`.
    pub(in crate::screen) fn told(&self) -> String {
        let count = self
            .import
            .as_ref()
            .map_or(0, |import| import.new.len() + import.changed.len());
        let varieties = match count {
            1 => "1 variety".to_string(),
            count => format!("{count} varieties"),
        };
        format!("{varieties} read from {}", self.name())
    }

    pub(super) fn go(&mut self, movement: Movement, window: usize) {
        self.note = None;
        let count = match &self.import {
            Some(import) => things(import),
            None => self.answers().len(),
        };
        self.cursor.go(movement, count, window);
    }
}

/// How many things there are to look through in a preview.
pub(super) fn things(import: &Import) -> usize {
    import.bad.len() + import.changed.len() + import.new.len() + import.notes.len()
}

/// `1 row`, `2 rows`.
pub(super) fn counted(count: usize, what: &str) -> String {
    let ending = if count == 1 { "" } else { "s" };
    format!("{count} {what}{ending}")
}
