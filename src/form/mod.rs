//! Forms of bloom as proved data: traits, rules, the strict verdict, belief, the next question.
//!
//! Knows `measure`, `account` and nothing of the rest: no file, no terminal, no list of varieties.

mod account;
pub mod answer;
pub mod belief;
pub mod card;
pub mod compare;
pub mod condition;
pub mod field_key;
mod fold;
pub mod glossary;
pub mod limits;
mod met;
pub mod near;
pub mod part;
pub mod phrase;
mod piece;
pub mod proof;
pub mod question;
pub mod reading;
mod rules;
pub mod sentences;
mod simulate;
pub mod size;
mod smt;
mod source;
pub mod space;
mod telling;
pub mod traits;
mod traits_source;
mod typical;
pub mod verdict;
mod weight;
pub mod words;
pub mod worked;

pub use answer::{Answer, AnswerError, Answers};
pub use belief::{Belief, Keyer, Prior, Suspect};
pub use question::Question;
pub use reading::{Likely, Reading};
pub use rules::{Form, Named, RuleSet, Shape};
pub use telling::telling_numbers;
pub use traits::{Effort, Kind, State, Trait, Traits};
pub use verdict::{Conflict, Status, Verdict};
