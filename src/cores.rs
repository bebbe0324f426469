//! The same work on many things, on every core of the machine.

use std::num::NonZeroUsize;
use std::ops::Range;
use std::panic::resume_unwind;
use std::sync::LazyLock;
use std::thread::{self, ScopedJoinHandle};

/// How many cores there are, asked once: to ask takes the reading of several files.
fn cores() -> usize {
    static CORES: LazyLock<usize> =
        LazyLock::new(|| thread::available_parallelism().map_or(1, NonZeroUsize::get));
    *CORES
}

/// What `work` makes of each span of so many things, in their order: a span a core, none of fewer than
/// `least` where there are more, for those are done before a thread has started. The first is worked on by
/// the thread that asks.
pub fn in_spans<T: Send>(
    count: usize,
    least: usize,
    work: impl Fn(Range<usize>) -> T + Sync,
) -> Vec<T> {
    let cores = cores();
    let each = count.div_ceil(cores).max(least).max(1);
    thread::scope(|scope| {
        let work = &work;
        let span = move |from: usize| from..count.min(from + each);
        let others = (each..count).step_by(each);
        let others: Vec<_> = others
            .map(|from| scope.spawn(move || work(span(from))))
            .collect();
        let mut done = vec![work(span(0))];
        let others = others.into_iter().map(ScopedJoinHandle::join);
        done.extend(others.map(|part| part.unwrap_or_else(|panic| resume_unwind(panic))));
        done
    })
}

/// The same of lists: one after the other as one.
pub fn all_in_spans<T: Send>(
    count: usize,
    least: usize,
    work: impl Fn(Range<usize>) -> Vec<T> + Sync,
) -> Vec<T> {
    let mut parts = in_spans(count, least, work).into_iter();
    let mut all = parts.next().unwrap_or_default();
    parts.for_each(|part| all.extend(part));
    all
}

/// Two things, each on a core where there are two.
pub fn at_once<A, B: Send>(one: impl FnOnce() -> A, other: impl FnOnce() -> B + Send) -> (A, B) {
    thread::scope(|scope| {
        let other = scope.spawn(other);
        let one = one();
        let other = other.join().unwrap_or_else(|panic| resume_unwind(panic));
        (one, other)
    })
}

/// From now on the thread that asks gives way to all others, where the system knows of threads that do: what
/// it makes may come later, and what is waited for may not.
pub fn give_way() {
    #[cfg(target_os = "linux")]
    {
        // OK where it is refused: then it takes its turn as the others do.
        let _ = rustix::process::nice(GIVES_WAY);
    }
}

/// By a step the share of a core that is shared falls by about a fifth: one in ten is left of it.
#[cfg(target_os = "linux")]
const GIVES_WAY: i32 = 10;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_thing_is_worked_on_once_and_in_order() {
        for count in [0, 1, 7, 16, 17, 1_000] {
            for least in [0, 1, 16, 5_000] {
                let all = all_in_spans(count, least, |span| span.collect());
                assert_eq!(all, (0..count).collect::<Vec<_>>(), "{count}, {least}");
                let spans = in_spans(count, least, |span| span.len());
                assert_eq!(spans.iter().sum::<usize>(), count);
                let full = spans.iter().rev().skip(1).all(|span| *span >= least);
                assert!(full, "{spans:?} of at least {least}");
            }
        }
    }
}
