//! The same work on many things, on every core, each with what works on it.

use crate::cores::all_in_spans;

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
    all_in_spans(things.len(), LEAST_A_THREAD, |span| {
        things[span].iter().map(worker()).collect()
    })
}
