//! Work on many rows, a half on each of two threads.

use std::ops::Range;
use std::panic::resume_unwind;
use std::thread;

/// Fewer things are worked on sooner than a second thread starts.
pub(super) const WORTH_SPLITTING: usize = 2_000;

/// What `work` makes of so many things, a half on each of two threads where there are many.
pub(super) fn in_halves<T: Send>(
    count: usize,
    work: impl Fn(Range<usize>) -> Vec<T> + Sync,
) -> Vec<T> {
    if count < WORTH_SPLITTING {
        return work(0..count);
    }
    thread::scope(|scope| {
        let first = scope.spawn(|| work(0..count / 2));
        let second = work(count / 2..count);
        let mut all = first.join().unwrap_or_else(|panic| resume_unwind(panic));
        all.extend(second);
        all
    })
}
