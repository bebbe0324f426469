//! A file read into the list, step by step: choose it, say what its headings and words mean, look at what it
//! would change, take it in whole.
//!
//! Nothing here reads a disk: `Importing::asks` is what is to be looked at, and what was found comes back
//! as a [`Found`].

mod asking;
mod file;
mod preview;
mod reading;
mod steps;
mod view;

use super::keys::Mode;
use super::kit::cursor::Movement;
use super::kit::line::Edit;
use crate::variety::exchange::Over;
use file::FileStep;
use reading::Reading;
pub(super) use steps::Next;
use steps::Step;
pub use steps::{Asked, Found, Listing, Named};

/// What can be done while a file is read in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ImportMessage {
    /// Give what is typed, or what the cursor is on.
    Give,
    /// The answer with this digit; 0 leaves out what is asked about.
    Digit(char),
    /// Type another answer.
    Type,
    /// Complete what is typed.
    Complete,
    /// Leave out the rows that cannot be read, or not.
    LeaveOut,
    /// A step back.
    Back,
}

/// A file on its way into the list, and how far it is.
#[derive(Debug, Clone, Default)]
pub(super) struct Importing {
    step: Step,
    file: FileStep,
    /// The file that was read last.
    reading: Option<Reading>,
}

impl Importing {
    /// What the keys mean now.
    pub(super) fn mode(&self) -> Mode {
        match (self.step, &self.reading) {
            (Step::Asking, Some(reading)) if reading.is_typed() => Mode::ImportingAnswer,
            (Step::Asking, Some(_)) => Mode::ImportingWords,
            (Step::Preview, Some(_)) => Mode::ImportingPreview,
            _ => Mode::ImportingFile,
        }
    }

    /// Opens where it was left: the folder is looked at again.
    pub(super) fn open(&mut self) -> Option<Next> {
        (self.step == Step::File).then(|| self.file.look_again())
    }

    /// What is to be looked at.
    pub(super) fn asks(&self) -> Option<Asked<'_>> {
        self.file.asks()
    }

    /// What is previewed, where that is what is seen.
    pub(super) fn reading(&self) -> Option<&Reading> {
        self.reading.as_ref()
    }

    /// Takes a message in.
    pub(super) fn update(&mut self, message: ImportMessage, over: Over<'_>) -> Option<Next> {
        use ImportMessage as M;
        match (self.mode(), message) {
            (Mode::ImportingFile, M::Give) => self.file.give(),
            (Mode::ImportingFile, M::Complete) => self.file.complete(),
            (Mode::ImportingFile, M::Back) => Some(Next::Close),
            (Mode::ImportingPreview, M::Give) => self.reading.as_mut()?.take_in(),
            (Mode::ImportingPreview, M::LeaveOut) => {
                self.reading.as_mut()?.leave_out();
                None
            }
            (_, message) => {
                self.ask(message, over);
                None
            }
        }
    }

    /// What concerns the questions, and the steps back from them and to them.
    fn ask(&mut self, message: ImportMessage, over: Over<'_>) {
        use ImportMessage as M;
        let Some(reading) = &mut self.reading else {
            return;
        };
        match message {
            M::Give => reading.give(over),
            M::Digit(digit) => reading.give_by_digit(digit, over),
            M::Type => reading.begin_line(over),
            M::Back if reading.is_typed() => reading.drop_line(),
            M::Back => {
                if !reading.back(over) {
                    self.step = Step::File;
                    return;
                }
            }
            M::Complete | M::LeaveOut => {}
        }
        self.step = reading.step();
    }

    /// Takes in what was found where the edge looked.
    pub(super) fn found(&mut self, found: Found, over: Over<'_>) {
        match found {
            Found::Folder(listing) => self.file.listed(listing),
            Found::Table(Err(told)) => self.file.refuse(told),
            Found::Table(Ok(intake)) => {
                let path = self.file.taken();
                // The same file, mended meanwhile perhaps: what was answered of it holds.
                let before = self.reading.take().filter(|reading| reading.path == path);
                match Reading::of(path, intake, before, over) {
                    Ok(reading) => {
                        self.step = reading.step();
                        self.reading = Some(reading);
                    }
                    Err(told) => self.file.refuse(told),
                }
            }
        }
    }

    /// All of it is in the list: the next file is begun.
    pub(super) fn done(&mut self) {
        (self.step, self.reading) = (Step::File, None);
    }

    /// Moves the cursor in a window of so many rows.
    pub(super) fn go(&mut self, movement: Movement, window: usize) {
        match (self.step, &mut self.reading) {
            (Step::File, _) | (_, None) => self.file.go(movement, window),
            (_, Some(reading)) => reading.go(movement, window),
        }
    }

    /// Edits the line that is typed.
    pub(super) fn edit(&mut self, edit: &Edit) -> Option<Next> {
        match (self.step, &mut self.reading) {
            (Step::File, _) | (_, None) => self.file.edit(edit),
            (_, Some(reading)) => {
                reading.edit(edit);
                None
            }
        }
    }
}
