//! The terminal edge: the only place that reads keys, draws and restores the terminal.

use std::io::{self, IsTerminal};
use std::time::Duration;

use ratatui::DefaultTerminal;
use ratatui::crossterm::event::{
    self, DisableBracketedPaste, EnableBracketedPaste, Event, KeyEventKind,
};
use ratatui::crossterm::execute;
use ratatui::crossterm::style::force_color_output;

use super::kit::line::Edit;
use super::tags_page::Printing;
use super::{App, Effect, Message, Page};
use crate::order::Plan;
use crate::screen::order_page::{OrderMessage, Task};
use crate::trial::{Entry, Seedling};
use crate::variety::Varieties;

/// What the grower changed, to be put on the disk.
#[derive(Debug, Clone, Copy)]
pub enum Change<'a> {
    /// The list.
    Varieties(&'a Varieties),
    /// One more entry of the trial row.
    Entry(&'a Entry),
    /// The seedlings of the trial row.
    Seedlings(&'a [Seedling]),
    /// The order.
    Order(&'a Plan),
    /// A file of tags.
    Tags(&'a Printing),
}

/// Runs the screen until the grower quits, and gives the last state back. `save` puts a change
/// on the disk or says in a sentence why not. The terminal is restored however this ends, a panic
/// included.
///
/// # Errors
/// Where standard input or output is no terminal (kind `Unsupported`, one sentence), or the
/// terminal fails.
pub fn run(
    mut app: App,
    mut save: impl FnMut(Change<'_>) -> Result<(), String>,
) -> io::Result<App> {
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
    let mut terminal = ratatui::try_init()?;
    let ended = execute!(io::stdout(), EnableBracketedPaste)
        .and_then(|()| until_quit(&mut app, &mut terminal, &mut save));
    let pasting = execute!(io::stdout(), DisableBracketedPaste);
    ratatui::try_restore()?;
    pasting?;
    ended.map(|()| app)
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
fn until_quit(
    app: &mut App,
    terminal: &mut DefaultTerminal,
    save: &mut dyn FnMut(Change<'_>) -> Result<(), String>,
) -> io::Result<()> {
    // Asking once makes the library listen for a new size: one that comes between the first
    // drawing and the first wait would be lost otherwise.
    event::poll(Duration::ZERO)?;
    let size = terminal.size()?;
    app.update(Message::Resize(size.width, size.height));
    loop {
        terminal.draw(|frame| app.view(frame))?;
        let task = if app.page == Page::Order && app.order.has_work() {
            app.order.begin()
        } else {
            None
        };
        let next = match task {
            Some(task) => work(task, app, terminal, save)?,
            None => happened(app, save)?,
        };
        if next == Next::End {
            return Ok(());
        }
    }
}

/// Whether the screen goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Next {
    GoOn,
    End,
}

/// Does a task of the Order page. Between two steps of the search the keys are looked at as ever:
/// so the screen answers while it solves, and what changes the plan ends the search. No thread.
fn work(
    task: Task,
    app: &mut App,
    terminal: &mut DefaultTerminal,
    save: &mut dyn FnMut(Change<'_>) -> Result<(), String>,
) -> io::Result<Next> {
    let id = task.id;
    let mut ended = Ok(Next::GoOn);
    let outcome = task.run(&mut |progress| {
        // A search asks more than once whether to stop: the end stays the end.
        if matches!(ended, Ok(Next::GoOn)) {
            ended = look(progress.nodes, app, terminal, save);
        }
        !matches!(ended, Ok(Next::GoOn)) || !app.order.goes_on(id)
    });
    app.update(Message::Worked(Box::new(outcome)));
    ended
}

/// Takes in what happened since the last look, and draws where there is anything new to see.
fn look(
    nodes: usize,
    app: &mut App,
    terminal: &mut DefaultTerminal,
    save: &mut dyn FnMut(Change<'_>) -> Result<(), String>,
) -> io::Result<Next> {
    let shown = app.order.looked_at();
    app.update(Message::Order(OrderMessage::Looked(nodes)));
    let mut anew = app.order.looked_at() != shown;
    while event::poll(Duration::ZERO)? {
        anew = true;
        if happened(app, save)? == Next::End {
            return Ok(Next::End);
        }
    }
    if anew {
        terminal.draw(|frame| app.view(frame))?;
    }
    Ok(Next::GoOn)
}

/// Waits for one thing to happen, and does what follows from it.
fn happened(
    app: &mut App,
    save: &mut dyn FnMut(Change<'_>) -> Result<(), String>,
) -> io::Result<Next> {
    let message = match event::read()? {
        Event::Key(key) if key.kind != KeyEventKind::Release => app.message(key),
        Event::Paste(text) => Some(Message::Edit(Edit::Write(text))),
        Event::Resize(width, height) => Some(Message::Resize(width, height)),
        _ => None,
    };
    let outcome = match message.and_then(|message| app.update(message)) {
        None => return Ok(Next::GoOn),
        Some(Effect::Quit) => return Ok(Next::End),
        Some(Effect::SaveVarieties) => {
            let saved = save(Change::Varieties(app.choose.list()));
            saved.map_or_else(Message::NotSaved, |()| Message::Saved)
        }
        Some(Effect::AddEntry) => {
            let entry = app.row.pending_entry().map(Change::Entry);
            let saved = entry.map_or(Ok(()), &mut *save);
            saved.map_or_else(Message::NotEntered, |()| Message::Entered)
        }
        Some(Effect::SaveSeedlings) => {
            let seedlings = app.row.pending_seedlings().unwrap_or_default();
            let saved = save(Change::Seedlings(&seedlings));
            saved.map_or_else(Message::NotEntered, |()| Message::Entered)
        }
        Some(Effect::PrintTags) => {
            let printing = app.tags.pending().map(Change::Tags);
            let printed = printing.map_or(Ok(()), &mut *save);
            printed.map_or_else(Message::NotPrinted, |()| Message::Printed)
        }
        Some(Effect::SaveOrder) => {
            let plan = app.order.plan().map(Change::Order);
            let saved = plan.map_or(Ok(()), &mut *save);
            saved.map_or_else(Message::OrderNotSaved, |()| Message::OrderSaved)
        }
    };
    app.update(outcome);
    Ok(Next::GoOn)
}
