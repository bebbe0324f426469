//! The orders that the row can stand in.

/// An order of the row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Order {
    /// By what needs doing next: the grower's work list.
    Next,
    /// By number.
    Number,
    /// As they stand in the garden.
    Place,
    /// By form, and by size within it.
    Form,
    /// By days in the vase.
    Vase,
}

impl Order {
    pub(super) const ALL: [Order; 5] = [
        Order::Next,
        Order::Number,
        Order::Place,
        Order::Form,
        Order::Vase,
    ];

    /// How the row is then said to stand.
    pub(super) fn in_words(self) -> &'static str {
        match self {
            Order::Next => "by what is next",
            Order::Number => "by number",
            Order::Place => "by place in the garden",
            Order::Form => "by form",
            Order::Vase => "the longest vase life first",
        }
    }
}
