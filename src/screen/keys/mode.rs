//! What the keys mean at a time: at a list, on a line, on each page.

/// What the keys mean at a time. A key is looked for in the mode that is open, then in those that
/// hold beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// Everywhere.
    Anywhere,
    /// A page with nothing typed: letters are commands.
    Page,
    /// A page, where there is more than one.
    Pages,
    /// A list with a cursor, or a text that is scrolled.
    List,
    /// A line that is typed.
    Line,
    /// The Key page, at a question.
    Asking,
    /// The Key page, with a line begun.
    Typing,
    /// The Key page, looking for a trait.
    Finding,
    /// The Key page, looking through the forms.
    Browsing,
    /// The Choose page, at the list.
    Choosing,
    /// The Choose page, with a line begun.
    Writing,
    /// The Choose page, picking from a list of values or uses.
    Picking,
    /// While a file is read in: choosing it.
    ImportingFile,
    /// While a file is read in: what a heading or a word means.
    ImportingWords,
    /// The same, with a line begun.
    ImportingAnswer,
    /// While a file is read in: what it would change.
    ImportingPreview,
    /// The Row page, at the table.
    Rowing,
    /// The Row page, with a line begun.
    Noting,
    /// The Order page.
    Ordering,
    /// The Order page where there is no order yet.
    Beginning,
    /// The Order page, with a line begun.
    Reckoning,
    /// The Stock page, at the table.
    Stocking,
    /// The Stock page, with a line begun.
    Counting,
    /// The Tags page, at the table.
    Tagging,
    /// The Tags page, with a line begun.
    Naming,
    /// A slip: a record filled in field by field.
    Filling,
    /// The jump line over a page.
    Jumping,
    /// A sheet of text over the page.
    Sheet,
    /// The sheet of keys, in which one is looked for.
    Helping,
    /// A window in which the page is not drawn, and another would be.
    Narrow,
    /// A window in which no page is drawn.
    Small,
}

impl Mode {
    /// Every mode that can be open by itself.
    #[cfg(test)]
    pub(in crate::screen) const ALL: &'static [Mode] = &[
        Mode::Asking,
        Mode::Typing,
        Mode::Finding,
        Mode::Browsing,
        Mode::Choosing,
        Mode::Writing,
        Mode::Picking,
        Mode::Rowing,
        Mode::Noting,
        Mode::Ordering,
        Mode::Reckoning,
        Mode::Stocking,
        Mode::Counting,
        Mode::Tagging,
        Mode::Naming,
        Mode::Sheet,
        Mode::Helping,
        Mode::Narrow,
        Mode::Small,
    ];

    /// The modes that hold beside this one, the nearest first.
    pub fn with(self) -> &'static [Mode] {
        use Mode::*;
        match self {
            Asking | Beginning => &[Page, Pages, Anywhere],
            Choosing | Rowing | Ordering | Stocking | Tagging => &[List, Page, Pages, Anywhere],
            Browsing | Picking => &[List, Pages, Anywhere],
            ImportingFile | ImportingAnswer => &[Line, List, Anywhere],
            ImportingWords | ImportingPreview => &[List, Anywhere],
            Finding => &[Line, List, Pages, Anywhere],
            Filling => &[Line, List, Anywhere],
            Jumping => &[Line, List, Anywhere],
            Typing | Writing | Noting | Reckoning | Counting | Naming => &[Line, Pages, Anywhere],
            Sheet => &[List, Anywhere],
            Helping => &[Line, List, Anywhere],
            Anywhere | Page | Pages | List | Line | Narrow | Small => &[],
        }
    }

    /// This mode and those beside it, the nearest first.
    pub(super) fn open(self) -> impl Iterator<Item = Mode> {
        std::iter::once(self).chain(self.with().iter().copied())
    }
}
