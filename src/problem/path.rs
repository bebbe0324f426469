//! Where in a value something is wrong: the steps that lead to it from the outermost.

use std::fmt;

/// One step into a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Step {
    /// Into a field of a record.
    Field(&'static str),
    /// Into a field that older files call otherwise.
    Renamed {
        /// The field's name.
        now: &'static str,
        /// Its name in older files.
        once: &'static str,
    },
    /// To a place in a list or among values in brackets, counted from 0.
    At(usize),
}

/// The steps to a value within another; none to that itself.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub struct Path(Vec<Step>);

/// Something wrong in a value that was read: where in it, and a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wrong {
    /// Where.
    pub at: Path,
    /// What was found and what was expected.
    pub message: String,
}

impl Path {
    /// A field of the outermost record.
    pub fn field(name: &'static str) -> Path {
        Path::default().then(name)
    }

    /// A place in the outermost list, from 0.
    pub fn at(place: usize) -> Path {
        Path::default().nth(place)
    }

    /// On into a field.
    pub fn then(self, name: &'static str) -> Path {
        self.on(Step::Field(name))
    }

    /// On to a place in a list, from 0.
    pub fn nth(self, place: usize) -> Path {
        self.on(Step::At(place))
    }

    /// On by one step.
    pub fn on(mut self, step: Step) -> Path {
        self.0.push(step);
        self
    }

    /// The steps, from the outermost.
    pub fn steps(&self) -> &[Step] {
        &self.0
    }
}

impl Wrong {
    /// Something wrong at a place.
    pub fn new(at: Path, message: impl Into<String>) -> Wrong {
        Wrong {
            at,
            message: message.into(),
        }
    }

    /// The same as seen from a value that holds this one at `outer`.
    pub fn within(mut self, outer: Path) -> Wrong {
        let own = std::mem::replace(&mut self.at, outer);
        self.at.0.extend(own.0);
        self
    }
}

/// The sentence, without its place.
impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}
