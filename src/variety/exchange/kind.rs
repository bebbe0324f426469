//! What a word of a table is for.

/// What a word is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A form.
    Form,
    /// A size.
    Size,
    /// One colour, or several with their parts.
    Colour,
    /// The colour of the leaves.
    Foliage,
    /// How colours lie.
    Pattern,
    /// A heading.
    Heading,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Kind; 6] = [
        Kind::Form,
        Kind::Size,
        Kind::Colour,
        Kind::Foliage,
        Kind::Pattern,
        Kind::Heading,
    ];

    /// The word on the command line.
    pub fn word(self) -> &'static str {
        match self {
            Kind::Form => "form",
            Kind::Size => "size",
            Kind::Colour => "colour",
            Kind::Foliage => "foliage",
            Kind::Pattern => "pattern",
            Kind::Heading => "heading",
        }
    }
}
