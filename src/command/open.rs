//! What the screen opens with: the grower's folder, held to write in, or the demo.

use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};

use super::bloom_days::bloom_days;
use super::output::Output;
use super::{Context, printed};
use crate::folder::contents::{open_varieties, save_varieties, varieties};
use crate::folder::lock::Access;
use crate::folder::names::WORDS;
use crate::folder::order::{OrderFile, open_plan, plan};
use crate::folder::place::by_default;
use crate::folder::row::{RowFiles, open_row, row};
use crate::folder::settings::{Settings, open_settings, save_settings};
use crate::folder::stock::{StockFile, open_stock, stock as stock_book};
use crate::folder::text::kept::Holds;
use crate::folder::{FileGuard, Folder, aside, settled, text};
use crate::problem::read_ron;
use crate::screen::choose_page::Stock;
use crate::screen::half_keyed::{self, HalfKeyed};
use crate::screen::row_page::Plot;
use crate::screen::stock_page::Shelf;
use crate::screen::tags_page::{Content, Printing, Supply};
use crate::screen::terminal::Change;
use crate::screen::theme::Theme;
use crate::screen::{App, Keeping, Own};
use crate::table;
use crate::variety::exchange::OwnWords;

/// The folder as long as the screen is open; other programs may only read it meanwhile.
#[derive(Debug)]
pub struct Saver {
    /// `None` for the demo.
    folder: Option<OpenFolder>,
}

/// The folder and the right to save its files.
#[derive(Debug)]
struct OpenFolder {
    folder: Folder,
    varieties: FileGuard,
    /// The settings as they are there, and the right to save them.
    settings: (Settings, FileGuard),
    /// `None` where they could not be read: they are then never written.
    words: Option<FileGuard>,
    row: RowFiles,
    stock: StockFile,
    /// `None` where it could not be read: it is then never written.
    order: Option<OrderFile>,
}

/// Opens the folder and lays its list on the screen. Where another program writes the folder the
/// list can be looked at and not changed.
///
/// # Errors
/// Where the list cannot be read, with the place of what is wrong.
pub fn screen(context: &Context, theme: Theme) -> Result<(App, Saver)> {
    let (list, words, row, book, order, folder) = match &context.folder {
        None => {
            let row = row(None)?;
            let book = stock_book(None, &row.trial)?;
            (
                varieties(None)?,
                Ok(OwnWords::default()),
                row,
                book,
                plan(None)?.ok_or(NoPlan::NoneYet),
                None,
            )
        }
        Some(dir) => {
            let folder = Folder::open(dir, &super::now())?;
            let (list, varieties) = open_varieties(&folder)?;
            let (read, row) = open_row(&folder)?;
            let (book, stock) = open_stock(&folder, &read.trial)?;
            // An order that cannot be read keeps nobody from keying a bloom.
            let (plan, order) = match open_plan(&folder) {
                Ok((plan, file)) => (plan.ok_or(NoPlan::NoneYet), Some(file)),
                Err(error) => (Err(NoPlan::Unread(error.to_string())), None),
            };
            let settings = open_settings(&folder)?;
            let read_words = |file: &str, text: &str| read_ron::<OwnWords>(file, text);
            let (words, words_guard) = match folder.read(WORDS, read_words) {
                Ok((words, guard)) => (Ok(words.unwrap_or_default()), Some(guard)),
                Err(error) => (Err(error.to_string()), None),
            };
            let open = OpenFolder {
                folder,
                varieties,
                settings,
                words: words_guard,
                row,
                stock,
                order,
            };
            (list, words, read, book, plan, Some(open))
        }
    };
    let keeping = match folder.as_ref().map(|open| open.folder.access()) {
        None => Keeping::Session,
        Some(Access::Write(_)) => Keeping::Folder,
        Some(Access::ReadOnly(reason)) => Keeping::ReadOnly(reason.to_string()),
    };
    let mut keyers = context.keyers();
    let first = keyers.remove(0);
    let contents = &context.contents;
    let stock = Stock {
        list,
        rules: context.set().clone(),
        uses: contents.uses.clone(),
        words: contents.words.clone(),
        pieces: contents.pieces.clone(),
        stems_a_plant: contents.settings.stems_a_plant,
        sure: contents.settings.sure,
        units: context.units,
        season: { order.as_ref().ok() }.map(|plan| plan.season.in_bloom()),
    };
    let season = order.as_ref().ok().map(|plan| &plan.season);
    let plot = Plot {
        bloom_days: season.map(bloom_days),
        least_id: folder
            .as_ref()
            .map_or(1, |open| open.row.next_id(&row.trial)),
        trial: row.trial,
        keyer: first.clone(),
        words: contents.words.clone(),
        release: contents.release.clone(),
        units: context.units,
        today: super::today(),
        days: contents.settings.days,
    };
    let own = Own {
        settings: contents.settings.clone(),
        rules: contents.sets.iter().map(|set| set.id.clone()).collect(),
        usual: by_default().map_or(String::new(), |dir| dir.display().to_string()),
        folder: { folder.as_ref() }.map(|open| open.folder.dir().display().to_string()),
        keeping: keeping.clone(),
    };
    let shelf = Shelf {
        least_id: folder
            .as_ref()
            .map_or(1, |open| open.stock.next_id(&book.stock)),
        stock: book.stock,
        today: plot.today,
        days: plot.days,
        planted: contents.planted,
    };
    let problems = [row.problems, book.problems].concat();
    let app = App::new(first, keyers, context.units, theme)
        .with_list(stock, keeping.clone())
        .with_stock(shelf, keeping.clone())
        .with_own_words(words)
        .with_row(plot, keeping.clone(), problems);
    let app = match order {
        Ok(plan) => app
            .with_order(Ok(plan), keeping, context.calendar())
            .with_settled(settled::all(context.folder.as_deref())),
        Err(NoPlan::NoneYet) => app.without_order(keeping, context.calendar()),
        Err(NoPlan::Unread(why)) => app.with_order(Err(why), keeping, context.calendar()),
    };
    let app = app
        .with_own(own)
        .with_supply(Supply {
            stock: contents.tags.clone(),
            naming: contents.naming.clone(),
            paper: printed::usual(context.units).to_string(),
            folder: here(),
        })
        .with_half_keyed(half_keyed());
    Ok((app, Saver { folder }))
}

/// The blooms that were half keyed when the screen last ended.
fn half_keyed() -> Vec<HalfKeyed> {
    let text = aside::load().unwrap_or_default();
    half_keyed::read(&text).unwrap_or_default()
}

/// Puts the bloom in hand aside, to be offered when the screen next begins. Another screen may have put
/// one aside meanwhile: it stays.
///
/// # Errors
/// In a sentence: why it could not be kept.
pub fn put_aside(app: &App) -> Result<(), String> {
    let told = |why: String| format!("the bloom in hand could not be kept: {why}");
    let in_hand = app.key.half_keyed(&super::today().to_string());
    let settled = app.key.settled();
    if in_hand.is_none() && settled.is_empty() {
        return Ok(());
    }
    let before = half_keyed::read(&aside::load().unwrap_or_default()).map_err(told)?;
    let text = half_keyed::write(in_hand, before, settled).map_err(told)?;
    aside::save(text.as_deref()).map_err(|error| told(error.to_string()))
}

/// Why there is no plan.
enum NoPlan {
    /// The folder has none yet.
    NoneYet,
    /// It cannot be read, and why.
    Unread(String),
}

impl Saver {
    /// Where the folder is.
    pub(super) fn dir(&self) -> Option<&Path> {
        self.folder.as_ref().map(|open| open.folder.dir())
    }

    /// Lets other programs write the folder.
    pub(super) fn let_go(&mut self) {
        self.folder = None;
    }

    /// Saves the settings; those that were there before.
    ///
    /// # Errors
    /// In a sentence: why they could not be saved.
    pub(super) fn save_settings(&mut self, settings: &Settings) -> Result<Settings, String> {
        let open = self.folder.as_mut().ok_or("there is no folder")?;
        let (before, guard) = &mut open.settings;
        let saved = save_settings(&open.folder, guard, settings);
        saved.map_err(|error| error.to_string())?;
        Ok(std::mem::replace(before, settings.clone()))
    }

    /// Puts a change on the disk.
    ///
    /// # Errors
    /// In a sentence: why it could not be saved, and what became of the file.
    pub fn save(&mut self, change: Change<'_>) -> Result<(), String> {
        if let Change::Tags(printing) = change {
            let folder = self.folder.as_ref().map(|open| open.folder.dir());
            return print(printing, folder).map_err(|error| format!("{error:#}"));
        }
        let Some(open) = &mut self.folder else {
            return Err("there is no folder: F makes one".to_string());
        };
        let OpenFolder {
            folder,
            varieties,
            words,
            row,
            stock,
            order,
            settings: _,
        } = open;
        let saved = match change {
            Change::Varieties(list) => save_varieties(folder, varieties, list),
            Change::Words(own) => match words {
                Some(guard) => {
                    let text = text::write_value(own).map_err(|error| error.to_string())?;
                    let holds = Holds::Value(text::value_again::<OwnWords>);
                    folder.save_value(guard, &text, holds)
                }
                None => return Err("your own words could not be read".to_string()),
            },
            Change::Entry(entry) => row.enter(folder, entry),
            Change::Stock(entry) => stock.enter(folder, entry),
            Change::Seedlings(seedlings) => row.save_seedlings(folder, seedlings),
            Change::Order(plan) => match order {
                Some(file) => file.save(folder, plan),
                None => return Err("the order could not be read".to_string()),
            },
            Change::Settled(kept) => {
                settled::keep(folder, kept);
                Ok(())
            }
            // OK because it was written above.
            Change::Tags(_) => Ok(()),
        };
        saved.map_err(|error| error.to_string())
    }
}

/// Writes a file to be printed. One that is there is replaced only where the grower insists.
fn print(printing: &Printing, folder: Option<&Path>) -> Result<()> {
    let path = Path::new(&printing.name);
    let output = Output::new(folder, printing.replace);
    match &printing.content {
        Content::Pages(pages) => {
            let ending = printed::ending(path, &["pdf", "svg"])?;
            ask(&printed::files(path, ending, pages.len()), printing.replace)?;
            printed::write(path, ending, &printing.title, pages, output)?;
        }
        Content::Table(rows) => {
            ask(&[path.to_path_buf()], printing.replace)?;
            output.write(path, &table::write(rows.iter().map(Vec::as_slice)))?;
        }
        Content::Text(text) => {
            ask(&[path.to_path_buf()], printing.replace)?;
            output.write(path, text.as_bytes())?;
        }
    }
    Ok(())
}

/// Asks where one of the files is there: an error that the same key answers.
fn ask(files: &[PathBuf], replace: bool) -> Result<()> {
    match files.iter().find(|file| !replace && file.exists()) {
        None => Ok(()),
        Some(file) => Err(anyhow!(
            "{} is there already: Enter again replaces it",
            file.display()
        )),
    }
}

/// The folder that the program was started in, as it is told.
fn here() -> String {
    let here = std::env::current_dir();
    here.map_or_else(|_| ".".to_string(), |dir| dir.display().to_string())
}

#[cfg(test)]
mod tests {
    use clap::Parser;

    use super::*;
    use crate::command::{Arguments, run};
    use crate::folder::contents::Contents;
    use crate::measure::SizeUnits;
    use crate::screen::tests::{play, screen as drawn};
    use crate::screen::{Message, Page};

    /// Room for every plant of the demo, and for the whole of each cell.
    const ROOM: (u16, u16) = (240, 250);

    #[test]
    fn the_screen_and_the_command_say_the_same_of_every_plant() {
        let context = Context {
            folder: None,
            contents: Contents::load(None).expect("the demo"),
            used: 0,
            units: SizeUnits::Mm,
            replace: false,
            json: false,
            plain: true,
        };
        let typed = Arguments::try_parse_from(["trug", "row"]).expect("a command");
        let command = typed.command.expect("a command");
        let (mut out, mut errors) = (Vec::new(), Vec::new());
        run(&command, &context, &mut out, &mut errors).expect("the row");
        let told = String::from_utf8(out).expect("text");
        let (_, table) = told.split_once("\n\n").expect("the demo's head");
        let (head, rows) = table.split_once('\n').expect("a table");
        let form = head.find("form so far").expect("a column");

        let (mut app, _) = super::screen(&context, Theme::Plain).expect("the demo");
        app.update(Message::Resize(ROOM.0, ROOM.1));
        while app.page != Page::Row {
            app.update(Message::NextPage);
        }
        play(&mut app, "<down>");
        let shown = drawn(&app, ROOM);
        let mut compared = 0;
        for row in rows.lines().take_while(|line| !line.is_empty()) {
            let (plant, rest) = (row[..form].trim(), &row[form..]);
            // Numbers stand at the right of their column, farther out than its head.
            let form = rest.split("  ").next().unwrap_or(rest).trim();
            let same = |line: &str| {
                let own = line.trim_start_matches('>').trim_start();
                own.strip_prefix(plant).is_some_and(|rest| {
                    let rest = rest.trim_start();
                    // A long name is given room by a sign.
                    rest.starts_with(form) || rest.starts_with(&form.replace("over ", ">"))
                })
            };
            assert!(shown.lines().any(same), "{plant} {form} is not in\n{shown}");
            compared += usize::from(form.ends_with('%'));
        }
        assert!(compared > 50, "{compared} plants with a share");
    }
}
