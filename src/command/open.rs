//! What the screen opens with: the grower's folder, held to write in, or the demo.

use anyhow::Result;

use super::Context;
use crate::folder::contents::{open_varieties, varieties};
use crate::folder::lock::Access;
use crate::folder::row::{RowFiles, open_row, row};
use crate::folder::{FileGuard, Folder};
use crate::screen::App;
use crate::screen::choose_page::{Keeping, Stock};
use crate::screen::row_page::Plot;
use crate::screen::terminal::Change;
use crate::screen::theme::Theme;

/// The folder as long as the screen is open; other programs may only read it meanwhile.
#[derive(Debug)]
pub struct Desk {
    /// `None` for the demo.
    folder: Option<Drawer>,
}

/// The folder and the right to save its files.
#[derive(Debug)]
struct Drawer {
    folder: Folder,
    varieties: FileGuard,
    row: RowFiles,
}

/// Opens the folder and lays its list on the screen. Where another program writes the folder the
/// list can be looked at and not changed.
///
/// # Errors
/// Where the list cannot be read, with the place of what is wrong.
pub fn screen(context: &Context, theme: Theme) -> Result<(App, Desk)> {
    let (list, row, folder) = match &context.folder {
        None => (varieties(None)?, row(None)?, None),
        Some(dir) => {
            let folder = Folder::open(dir, &super::now())?;
            let (list, varieties) = open_varieties(&folder)?;
            let (read, row) = open_row(&folder)?;
            let drawer = Drawer {
                folder,
                varieties,
                row,
            };
            (list, read, Some(drawer))
        }
    };
    let keeping = match folder.as_ref().map(|drawer| drawer.folder.access()) {
        None => Keeping::Session,
        Some(Access::Write(_)) => Keeping::Folder,
        Some(Access::ReadOnly(reason)) => Keeping::ReadOnly(reason.to_string()),
    };
    let mut keyers = context.keyers_of(&list);
    let first = keyers.remove(0);
    let contents = &context.contents;
    let stock = Stock {
        list,
        rules: context.set().clone(),
        uses: contents.uses.clone(),
        words: contents.words.clone(),
        stems_a_plant: contents.settings.stems_a_plant,
        units: context.units,
    };
    let plot = Plot {
        least_id: folder
            .as_ref()
            .map_or(1, |drawer| drawer.row.next_id(&row.trial)),
        trial: row.trial,
        keyer: first.clone(),
        words: contents.words.clone(),
        release: contents.release.clone(),
        units: context.units,
        today: super::today(),
    };
    let app = App::new(first, keyers, context.units, theme)
        .with_list(stock, keeping.clone())
        .with_row(plot, keeping, row.problems);
    Ok((app, Desk { folder }))
}

impl Desk {
    /// Puts a change on the disk.
    ///
    /// # Errors
    /// In a sentence: why it could not be saved, and what became of the file.
    pub fn save(&mut self, change: Change<'_>) -> Result<(), String> {
        let Some(drawer) = &mut self.folder else {
            return Err("there is no folder: `trug start DIR` lays one out".to_string());
        };
        let Drawer {
            folder,
            varieties,
            row,
        } = drawer;
        let saved = match change {
            Change::Varieties(list) => {
                let text = list.write().map_err(|error| error.to_string())?;
                folder.save(varieties, &text)
            }
            Change::Entry(entry) => row.enter(folder, entry),
            Change::Seedlings(seedlings) => row.save_seedlings(folder, seedlings),
        };
        saved.map_err(|error| error.to_string())
    }
}
