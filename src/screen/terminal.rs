//! The terminal edge: the only place that reads keys, draws and restores the terminal.

mod asked;
mod burst;
mod inquiry;
mod outside;
mod painter;

use std::io::{self, IsTerminal};
use std::time::{Duration, Instant};

use ratatui::DefaultTerminal;
use ratatui::crossterm::event::{self, DisableBracketedPaste, EnableBracketedPaste};
use ratatui::crossterm::execute;
use ratatui::crossterm::style::force_color_output;
use ratatui::crossterm::terminal::{Clear, ClearType};

use burst::Came;
use inquiry::Inquiry;
use outside::Outside;

use super::import::{Asked as Looked, Found};
use super::tags_page::Printing;
use super::{App, Effect, Message, Page};
use crate::order::{Kept, Plan};
use crate::screen::order_page::{OrderMessage, Task};
use crate::settings::{Settings, Start};
use crate::trial::{Entry, Seedling};
use crate::variety::Varieties;
use crate::variety::exchange::OwnWords;

/// What the grower changed, to be put on the disk.
#[derive(Debug, Clone, Copy)]
pub enum Change<'a> {
    /// The list.
    Varieties(&'a Varieties),
    /// The grower's own words for what tables say.
    Words(&'a OwnWords),
    /// One more entry of the trial row.
    Entry(&'a Entry),
    /// One more entry of the stock book.
    Stock(&'a crate::stock::Entry),
    /// The seedlings of the trial row.
    Seedlings(&'a [Seedling]),
    /// The order.
    Order(&'a Plan),
    /// What was settled of it.
    Settled(&'a Kept),
    /// A file of tags.
    Tags(&'a Printing),
}

/// What the screen asks of what is outside it.
pub trait Edge {
    /// Puts a change on the disk.
    ///
    /// # Errors
    /// In a sentence: why it could not be saved.
    fn save(&mut self, change: Change<'_>) -> Result<(), String>;

    /// Looks at a folder, or a table in it.
    fn look(&mut self, asked: Looked<'_>) -> Found;

    /// Makes a folder of the grower's own and opens it: the screen as it is then, and what is said on
    /// it.
    ///
    /// # Errors
    /// In a clause: why it could not be made.
    fn make(&mut self, start: &Start) -> Result<(App, String), String>;

    /// Saves the settings, and opens the screen anew where what is shown hangs on what was changed.
    ///
    /// # Errors
    /// In a clause: why they could not be saved.
    fn settle(&mut self, settings: &Settings) -> Result<Option<App>, String>;
}

/// How the screen ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ended {
    /// The grower quit.
    Quit,
    /// The system asked for it by the signal of this number, or the terminal went away.
    Signal(u8),
}

/// While a search is under way the keys are looked at so often: sooner than a hand notices, and at no
/// cost to the search.
const LOOKS: Duration = Duration::from_millis(15);

/// Runs the screen until the grower quits or the system asks for an end; `app` is then as it was left.
/// `edge` does what only the edge can. The terminal is restored however this ends, a panic included.
///
/// # Errors
/// Where standard input or output is no terminal (kind `Unsupported`, one sentence), or the
/// terminal fails.
pub fn run(app: &mut App, edge: &mut dyn Edge) -> io::Result<Ended> {
    if !(io::stdin().is_terminal() && io::stdout().is_terminal()) {
        return Err(io::Error::new(
            io::ErrorKind::Unsupported,
            "the screen needs a terminal, and standard input or output is not one: try `trug key` or `trug --help`",
        ));
    }
    // With NO_COLOR the terminal library writes resets that cancel reverse video too. The theme
    // alone decides about colour.
    force_color_output(true);
    end_pasting_after_a_panic();
    let mut outside = Outside::new()?;
    let mut terminal = ratatui::try_init()?;
    let ended = outside
        .asked
        .end_of_blocking()
        .and_then(|()| execute!(io::stdout(), EnableBracketedPaste))
        .and_then(|()| until_the_end(app, &mut outside, &mut terminal, edge));
    let forgotten = painter::forget(&app.all_pictures());
    let pasting = execute!(io::stdout(), DisableBracketedPaste);
    let restored = forgotten.and(pasting).and(ratatui::try_restore());
    match (ended, outside.asked.signal()) {
        // A terminal that is gone cannot be restored, and nobody is there to be told.
        (Ok(Ended::Signal(signal)), _) | (Err(_), Some(signal)) => Ok(Ended::Signal(signal)),
        (ended, _) => restored.and(ended),
    }
}

/// What is pasted comes as one event, not as keys that would be commands. A panic ends that too: the
/// terminal's own hook, which runs first, leaves the rest as it was.
fn end_pasting_after_a_panic() {
    let before = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        // OK because the panic is what has to be told.
        let _ = execute!(io::stdout(), DisableBracketedPaste);
        before(info);
    }));
}

/// Draws once, then waits for what happens: nothing moves by itself but a search that was asked for.
fn until_the_end(
    app: &mut App,
    outside: &mut Outside,
    terminal: &mut DefaultTerminal,
    edge: &mut dyn Edge,
) -> io::Result<Ended> {
    // Asking once makes the library listen for a new size: one that comes between the first
    // drawing and the first wait would be lost otherwise.
    event::poll(Duration::ZERO)?;
    let size = terminal.size()?;
    app.update(Message::Resize(size.width, size.height));
    if app.asks_the_terminal() {
        let Inquiry {
            abilities,
            late,
            typed,
        } = inquiry::asked()?;
        app.update(Message::Sees(abilities));
        outside.late = late;
        // Where a question was shown as letters, they are gone before the first page.
        execute!(io::stdout(), Clear(ClearType::All))?;
        if !burst::typed_before(app, &typed, &mut |app, message| follow(app, message, edge)) {
            return Ok(Ended::Quit);
        }
    }
    loop {
        terminal.draw(|frame| app.view(frame))?;
        outside.painter.look(app)?;
        let task = if app.page == Page::Order && app.order.has_work() {
            app.order.begin()
        } else {
            None
        };
        let came = match task {
            Some(task) => work(task, app, outside, terminal, edge)?,
            None => burst::wait(app, outside, &mut |app, message| follow(app, message, edge))?,
        };
        match came {
            Came::Nothing | Came::Something => {}
            Came::Quit => return Ok(Ended::Quit),
            Came::Signal(signal) => return Ok(Ended::Signal(signal)),
        }
    }
}

/// Does a task of the Order page. Between two steps of the search the keys are looked at as ever:
/// so the screen answers while it solves, and what changes the plan ends the search. No thread.
fn work(
    task: Task,
    app: &mut App,
    outside: &mut Outside,
    terminal: &mut DefaultTerminal,
    edge: &mut dyn Edge,
) -> io::Result<Came> {
    let id = task.id;
    let mut came = Ok(Came::Nothing);
    let mut looked = Instant::now();
    let outcome = task.run(&mut |progress| {
        // A search asks more than once whether to stop: the end stays the end.
        let goes_on = matches!(came, Ok(Came::Nothing | Came::Something));
        if goes_on && looked.elapsed() >= LOOKS {
            came = look(progress.nodes, app, outside, terminal, edge);
            looked = Instant::now();
        }
        !matches!(came, Ok(Came::Nothing | Came::Something)) || !app.order.goes_on(id)
    });
    app.update(Message::Worked(Box::new(outcome)));
    if let Some(kept) = app.order.take_unkept() {
        // OK to fail: it is settled again then.
        let _ = edge.save(Change::Settled(&kept));
    }
    came
}

/// Takes in what happened since the last look, and draws where there is anything new to see.
fn look(
    nodes: usize,
    app: &mut App,
    outside: &mut Outside,
    terminal: &mut DefaultTerminal,
    edge: &mut dyn Edge,
) -> io::Result<Came> {
    if let Some(signal) = outside.asked.signal() {
        return Ok(Came::Signal(signal));
    }
    let shown = app.order.looked_at();
    app.update(Message::Order(OrderMessage::Looked(nodes)));
    let came = burst::take(app, outside, &mut |app, message| follow(app, message, edge))?;
    let painted = outside.painter.look(app)?;
    if came == Came::Something || painted || app.order.looked_at() != shown {
        terminal.draw(|frame| app.view(frame))?;
    }
    Ok(came)
}

/// Takes a message in and does what follows from it; answers whether the screen goes on.
fn follow(app: &mut App, message: Message, edge: &mut dyn Edge) -> bool {
    let mut next = Some(message);
    while let Some(effect) = next.take().and_then(|message| app.update(message)) {
        next = done(effect, app, edge);
        if next.is_none() {
            return false;
        }
    }
    true
}

/// Does what only the edge can, and says what came of it; `None` ends the screen.
fn done(effect: Effect, app: &mut App, edge: &mut dyn Edge) -> Option<Message> {
    Some(match effect {
        Effect::Quit => return None,
        Effect::MakeFolder => {
            let made = app.pending_start().cloned().map(|start| edge.make(&start));
            match made? {
                Err(why) => Message::NotKept(why),
                Ok((opened, told)) => {
                    app.go_on_in(opened, &told);
                    Message::GoesOn
                }
            }
        }
        Effect::SaveSettings => {
            let settings = app.pending_settings().cloned();
            match settings.map(|settings| edge.settle(&settings))? {
                Err(why) => Message::NotKept(why),
                Ok(None) => Message::SettingsSaved,
                Ok(Some(opened)) => {
                    app.go_on_in(
                        opened,
                        "The settings are changed (saved), and all is shown by them.",
                    );
                    Message::GoesOn
                }
            }
        }
        Effect::SaveVarieties => {
            let saved = edge.save(Change::Varieties(app.choose.list()));
            saved.map_or_else(Message::NotSaved, |()| Message::Saved)
        }
        Effect::SaveWords => {
            let words = app.choose.own_words().map(Change::Words);
            Message::WordsSaved(words.map_or(Ok(()), |change| edge.save(change)))
        }
        Effect::Look => Message::Looked(Box::new(edge.look(app.choose.asks()?))),
        Effect::AddEntry => {
            let entry = app.row.pending_entry().map(Change::Entry);
            let saved = entry.map_or(Ok(()), |change| edge.save(change));
            saved.map_or_else(Message::NotEntered, |()| Message::Entered)
        }
        Effect::SaveSeedlings => {
            let seedlings = app.row.pending_seedlings().unwrap_or_default();
            let saved = edge.save(Change::Seedlings(&seedlings));
            saved.map_or_else(Message::NotEntered, |()| Message::Entered)
        }
        Effect::AddStock => {
            let entry = app.stock.pending().map(Change::Stock);
            let saved = entry.map_or(Ok(()), |change| edge.save(change));
            saved.map_or_else(Message::NotStocked, |()| Message::Stocked)
        }
        Effect::PrintTags => {
            let printing = app.tags.pending().map(Change::Tags);
            let printed = printing.map_or(Ok(()), |change| edge.save(change));
            printed.map_or_else(Message::NotPrinted, |()| Message::Printed)
        }
        Effect::SaveOrder => {
            let plan = app.order.plan().map(Change::Order);
            let saved = plan.map_or(Ok(()), |change| edge.save(change));
            saved.map_or_else(Message::OrderNotSaved, |()| Message::OrderSaved)
        }
    })
}
