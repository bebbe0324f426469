//! Forms of bloom as proved data: traits, rules, the strict verdict, belief, the next question.
//!
//! Knows `measure` and nothing else of the domain: no file, no terminal, no list of varieties.

pub mod answer;
pub mod belief;
pub mod condition;
pub mod proof;
pub mod question;
mod rules;
mod smt;
mod source;
pub mod space;
pub mod traits;
pub mod verdict;
mod weight;
pub mod words;

pub use answer::{Answer, AnswerError, Answers};
pub use belief::{Belief, Keyer, Suspect};
pub use question::Question;
pub use rules::{Form, RuleSet, Shape};
pub use traits::{Effort, Kind, State, Trait, Traits};
pub use verdict::{Conflict, Status, Verdict};
