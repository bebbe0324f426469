//! Pieces of a text that others stand in for.

use std::ops::Range;

/// A piece of a text, by its bytes, and what stands in its place.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Splice {
    range: Range<usize>,
    by: String,
}

/// All that is changed in one text. What is pushed for the same place stands there in the order in
/// which it was pushed, before what is cut out from there on.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Splices(Vec<Splice>);

impl Splices {
    /// One piece more.
    pub(super) fn push(&mut self, range: Range<usize>, by: impl Into<String>) {
        let by = by.into();
        self.0.push(Splice { range, by });
    }

    /// A piece put in.
    pub(super) fn insert(&mut self, at: usize, by: impl Into<String>) {
        self.push(at..at, by);
    }

    /// All of a text replaced.
    pub(super) fn whole(text: &str, by: &str) -> Splices {
        let mut splices = Splices::default();
        splices.push(0..text.len(), by);
        splices
    }

    /// In the order of their places, none into another.
    pub(super) fn in_order(mut self) -> Splices {
        self.0
            .sort_by_key(|one| (one.range.start, !one.range.is_empty()));
        let mut at = 0;
        for one in &mut self.0 {
            one.range.start = one.range.start.max(at);
            one.range.end = one.range.end.max(one.range.start);
            at = one.range.end;
        }
        self
    }

    /// The text with all of them, which are in order; `None` where a place is none of the text's.
    pub(super) fn applied(&self, text: &str) -> Option<String> {
        self.applied_within(text, 0..text.len())
    }

    /// The same of a part of the text, by the places of the whole.
    pub(super) fn applied_within(&self, text: &str, part: Range<usize>) -> Option<String> {
        let more: usize = self.0.iter().map(|one| one.by.len()).sum();
        let mut whole = String::with_capacity(part.len() + more);
        let mut at = part.start;
        for one in &self.0 {
            whole.push_str(text.get(at..one.range.start)?);
            whole.push_str(&one.by);
            at = one.range.end;
        }
        whole.push_str(text.get(at..part.end)?);
        Some(whole)
    }

    /// What leads back from the text with all of them to `text`.
    pub(super) fn reversed(&self, text: &str) -> Option<Splices> {
        let (mut back, mut put_in, mut cut_out) = (Splices::default(), 0, 0);
        for one in &self.0 {
            let start = one.range.start + put_in - cut_out;
            back.push(
                start..start + one.by.len(),
                text.get(one.range.clone())?.to_string(),
            );
            put_in += one.by.len();
            cut_out += one.range.len();
        }
        Some(back)
    }

    /// These too.
    pub(super) fn append(&mut self, mut others: Splices) {
        self.0.append(&mut others.0);
    }

    /// The same of a part of a text, by the places of the whole in which it begins there.
    pub(super) fn moved(mut self, by: usize) -> Splices {
        for one in &mut self.0 {
            one.range = one.range.start + by..one.range.end + by;
        }
        self
    }

    /// Bytes that they take.
    pub(super) fn bytes(&self) -> usize {
        let each = self.0.iter().map(|one| one.by.len() + size_of::<Splice>());
        each.sum()
    }
}
