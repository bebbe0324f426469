//! What the screen opens with: the grower's folder, held to write in, or the demo.

use anyhow::Result;

use super::Context;
use crate::folder::contents::{open_varieties, varieties};
use crate::folder::lock::Access;
use crate::folder::{FileGuard, Folder};
use crate::screen::App;
use crate::screen::choose_page::{Keeping, Stock};
use crate::screen::theme::Theme;
use crate::variety::Varieties;

/// The folder as long as the screen is open; other programs may only read it meanwhile.
#[derive(Debug)]
pub struct Desk {
    /// `None` for the demo.
    folder: Option<(Folder, FileGuard)>,
}

/// Opens the folder and lays its list on the screen. Where another program writes the folder the
/// list can be looked at and not changed.
///
/// # Errors
/// Where the list cannot be read, with the place of what is wrong.
pub fn screen(context: &Context, theme: Theme) -> Result<(App, Desk)> {
    let (list, folder) = match &context.folder {
        None => (varieties(None)?, None),
        Some(dir) => {
            let folder = Folder::open(dir, &super::now())?;
            let (list, guard) = open_varieties(&folder)?;
            (list, Some((folder, guard)))
        }
    };
    let keeping = match folder.as_ref().map(|(folder, _)| folder.access()) {
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
    let app = App::new(first, keyers, context.units, theme).with_list(stock, keeping);
    Ok((app, Desk { folder }))
}

impl Desk {
    /// Puts the list on the disk.
    ///
    /// # Errors
    /// In a sentence: why it could not be saved, and what became of the file.
    pub fn save(&mut self, list: &Varieties) -> Result<(), String> {
        let Some((folder, guard)) = &mut self.folder else {
            return Err("there is no folder: `trug start DIR` lays one out".to_string());
        };
        let text = list.write().map_err(|error| error.to_string())?;
        folder.save(guard, &text).map_err(|error| error.to_string())
    }
}
