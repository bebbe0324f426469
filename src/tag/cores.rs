//! The same work on many things, on every core.

use std::num::NonZeroUsize;
use std::panic::resume_unwind;
use std::thread::{self, ScopedJoinHandle};

/// Fewer things than this are done before a thread has started.
const LEAST_A_THREAD: usize = 16;

/// The answers to all of `things`, in their order. `worker` makes what works on one thread alone.
pub(super) fn on_every_core<Thing, Answer, Work>(
    things: &[Thing],
    worker: impl Fn() -> Work + Sync,
) -> Vec<Answer>
where
    Thing: Sync,
    Answer: Send,
    Work: FnMut(&Thing) -> Answer,
{
    let cores = thread::available_parallelism().map_or(1, NonZeroUsize::get);
    let each = things.len().div_ceil(cores).max(LEAST_A_THREAD);
    if things.len() <= each {
        return things.iter().map(worker()).collect();
    }
    thread::scope(|scope| {
        let worker = &worker;
        let parts: Vec<_> = things
            .chunks(each)
            .map(|part| scope.spawn(move || part.iter().map(worker()).collect::<Vec<Answer>>()))
            .collect();
        let done = parts.into_iter().map(ScopedJoinHandle::join);
        done.flat_map(|part| part.unwrap_or_else(|panic| resume_unwind(panic)))
            .collect()
    })
}
