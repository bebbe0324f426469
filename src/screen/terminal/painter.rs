//! Pictures are made on a thread of their own, one at a time, and begun only once what is shown rests: no key
//! waits for one, nor for the core that it is made on.

use std::io::{self, Write};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};
use std::thread;
use std::time::{Duration, Instant};

use crate::cores::give_way;
use crate::screen::picture::{Job, Painted, REST, forgotten};
use crate::screen::{App, Message};

/// While a picture is made it is looked for so often: sooner than an eye notices.
const LOOKS: Duration = Duration::from_millis(8);

/// Has pictures made, and takes them in.
pub(super) struct Painter {
    thread: Option<Thread>,
    /// Whether one is under way.
    busy: bool,
    /// The number of the one that is wanted next, and when it first was.
    wanted: Option<(u32, Instant)>,
}

/// Both ends of the thread; it ends when they are dropped.
struct Thread {
    jobs: Sender<Job>,
    made: Receiver<(u32, Option<Painted>)>,
}

impl Painter {
    /// The thread begins with the first picture.
    pub(super) fn new() -> Painter {
        Painter {
            thread: None,
            busy: false,
            wanted: None,
        }
    }

    /// How long to wait for what happens, where it would else be so long.
    pub(super) fn patience(&self, usual: Duration) -> Duration {
        match self.busy || self.wanted.is_some() {
            true => LOOKS.min(usual),
            false => usual,
        }
    }

    /// Takes in the picture that was made, and has the next one made; answers whether there is one to be
    /// seen.
    ///
    /// # Errors
    /// Where the terminal is gone.
    pub(super) fn look(&mut self, app: &mut App) -> io::Result<bool> {
        let made = self.thread.as_ref().map(|thread| thread.made.try_recv());
        let seen = match made {
            Some(Ok((id, painted))) => {
                self.busy = false;
                app.update(Message::Painted(id, painted));
                true
            }
            // What was under way is not made any more; there are cells.
            Some(Err(TryRecvError::Disconnected)) => return Ok(false),
            Some(Err(TryRecvError::Empty)) | None => false,
        };
        if !self.busy {
            self.next(app.next_picture());
        }
        forget(&app.gone_pictures())?;
        Ok(seen)
    }

    /// Begins the picture that is wanted, once it was for so long that nothing else is.
    fn next(&mut self, job: Option<Job>) {
        let since = { self.wanted }.filter(|(id, _)| job.as_ref().is_some_and(|job| job.id == *id));
        match (job, since) {
            (Some(job), Some((_, since))) if since.elapsed() >= REST => {
                self.wanted = None;
                self.busy = self.begin(job);
            }
            (Some(job), since) => self.wanted = since.or(Some((job.id, Instant::now()))),
            (None, _) => self.wanted = None,
        }
    }

    /// Hands a picture over; `false` where the system has no thread for it.
    fn begin(&mut self, job: Job) -> bool {
        if self.thread.is_none() {
            self.thread = Thread::begun().ok();
        }
        let thread = self.thread.as_ref();
        thread.is_some_and(|thread| thread.jobs.send(job).is_ok())
    }
}

impl Thread {
    fn begun() -> io::Result<Thread> {
        let (jobs, to_make) = channel::<Job>();
        let (done, made) = channel();
        let make = move || {
            give_way();
            while let Ok(job) = to_make.recv() {
                if done.send((job.id, Painted::of(&job))).is_err() {
                    break;
                }
            }
        };
        thread::Builder::new().name("pictures".into()).spawn(make)?;
        Ok(Thread { jobs, made })
    }
}

/// Has the terminal forget pictures.
///
/// # Errors
/// Where it is gone.
pub(super) fn forget(pictures: &[u32]) -> io::Result<()> {
    if pictures.is_empty() {
        return Ok(());
    }
    let told: String = pictures.iter().map(|id| forgotten(*id)).collect();
    let mut out = io::stdout();
    out.write_all(told.as_bytes())?;
    out.flush()
}
