//! A key: what to ask, and where each answer leads.

/// A key from a state on.
#[derive(Debug, Clone, PartialEq)]
pub enum Step {
    /// One form, or one shape where the key is not by size, is left.
    Form(usize),
    /// Ask of a trait, and go on by the answer.
    Ask {
        /// The trait.
        index: usize,
        /// Where each answer leads.
        branches: Vec<Branch>,
    },
}

/// An answer in a key.
#[derive(Debug, Clone, PartialEq)]
pub struct Branch {
    /// The answer as atoms of the trait.
    pub atoms: u64,
    /// How often it is met, of all blooms that are keyed.
    pub share: f64,
    /// Where it leads.
    pub next: Step,
}
