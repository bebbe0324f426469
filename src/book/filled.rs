//! A filled sheet taken back over its book: every row becomes an entry, or none does.

use super::sheet::BadRow;
use super::{AddError, Book, Doubt, Entry};

/// What a filled sheet holds that the book does not have yet.
#[derive(Debug, Clone, PartialEq)]
pub struct Filled<E> {
    /// The new entries, numbered from the book's next number on.
    pub entries: Vec<E>,
    /// Rows that the book has already, as an earlier import of the same sheet leaves them.
    pub same: usize,
    /// Rows in which nothing was written.
    pub blank: usize,
    /// What is strange and was taken all the same, with its line.
    pub strange: Vec<BadRow>,
}

/// How a book is looked into, and how an entry is added to it.
type Ways<B, E> = (
    fn(&B) -> &Book<E>,
    fn(&mut B, E) -> Result<(), AddError<<E as Entry>::Of>>,
);

impl<E: Entry> Filled<E> {
    /// Takes rows, each with its line, over a book. `read` makes an entry of a row, or `None` where nothing was
    /// written, and `check` says what speaks against one.
    ///
    /// # Errors
    /// Every row that is wrong, with its line; nothing is then to be taken.
    pub(crate) fn over<B: Clone, R>(
        before: &B,
        (book_of, add): Ways<B, E>,
        rows: impl IntoIterator<Item = (usize, R)>,
        read: impl Fn(R, &B) -> Result<Option<E>, String>,
        check: impl Fn(&B, &E) -> Vec<Doubt>,
    ) -> Result<Filled<E>, Vec<BadRow>> {
        let mut filled = Filled {
            entries: Vec::new(),
            same: 0,
            blank: 0,
            strange: Vec::new(),
        };
        let mut bad = Vec::new();
        // Later rows are checked beside earlier ones.
        let mut book = before.clone();
        // A sheet may hold one entry twice; each is looked for in the book once.
        let mut known: Vec<&E> = book_of(before).entries().iter().collect();
        for (line, row) in rows {
            let entry = match read(row, &book) {
                Err(told) => {
                    bad.push(BadRow { line, told });
                    continue;
                }
                Ok(None) => {
                    filled.blank += 1;
                    continue;
                }
                Ok(Some(entry)) => entry,
            };
            if let Some(at) = known.iter().position(|one| one.says_the_same(&entry)) {
                known.swap_remove(at);
                filled.same += 1;
                continue;
            }
            let doubts = check(&book, &entry);
            let refused = doubts.iter().any(|doubt| doubt.refuses);
            for Doubt { refuses, told } in doubts {
                let list = match refuses {
                    true => &mut bad,
                    false => &mut filled.strange,
                };
                list.push(BadRow { line, told });
            }
            if refused {
                continue;
            }
            match add(&mut book, entry.clone()) {
                Ok(()) => filled.entries.push(entry),
                Err(error) => bad.push(BadRow {
                    line,
                    told: error.to_string(),
                }),
            }
        }
        if bad.is_empty() { Ok(filled) } else { Err(bad) }
    }
}
