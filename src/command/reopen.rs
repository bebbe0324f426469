//! What the screen asks of the edge: a change put on the disk, and a folder made or settled anew, in
//! which the screen goes on.

use std::path::{Path, PathBuf};

use anyhow::Result;

use super::look::look;
use super::open::{Saver, screen};
use super::start::{Holds, lay_out};
use super::{Common, Context};
use crate::folder::place;
use crate::screen::App;
use crate::screen::import::{Asked, Found};
use crate::screen::terminal::{Change, Edge};
use crate::screen::theme::Theme;
use crate::settings::{Settings, Start};

/// What the screen that is open asks.
#[derive(Debug)]
pub struct Screen {
    saver: Saver,
    /// What was typed when the program was started: it holds in a folder that is opened later, too.
    typed: Common,
    theme: Theme,
}

impl Screen {
    /// Opens the folder, or the demo, and lays it on the screen.
    ///
    /// # Errors
    /// As [`screen`].
    pub fn open(context: &Context, typed: &Common, theme: Theme) -> Result<(App, Screen)> {
        let (app, saver) = screen(context, theme)?;
        let typed = typed.clone();
        let edge = Screen {
            saver,
            typed,
            theme,
        };
        Ok((app, edge))
    }

    /// Opens the folder there, whoever had it before.
    fn open_anew(&mut self, dir: PathBuf) -> Result<App> {
        self.saver.let_go();
        let common = Common {
            at: Some(dir),
            ..self.typed.clone()
        };
        let context = Context::new(&common, &mut std::io::sink())?;
        let (app, saver) = screen(&context, self.theme)?;
        (self.saver, self.typed) = (saver, common);
        Ok(app)
    }
}

impl Edge for Screen {
    fn save(&mut self, change: Change<'_>) -> Result<(), String> {
        self.saver.save(change)
    }

    fn look(&mut self, asked: Asked<'_>) -> Found {
        look(asked)
    }

    fn make(&mut self, start: &Start) -> Result<(App, String), String> {
        let told = |error: anyhow::Error| format!("{error:#}");
        let dir = place::typed(&start.place);
        let holds = match start.demo {
            true => Holds::Demo,
            false => Holds::Nothing,
        };
        lay_out(&dir, holds, &start.settings).map_err(told)?;
        // OK to go on by the name as typed where the system cannot say the whole.
        let dir = dir.canonicalize().unwrap_or(dir);
        let app = self.open_anew(dir.clone()).map_err(told)?;
        Ok((app, made(&dir, start.demo)))
    }

    fn settle(&mut self, settings: &Settings) -> Result<Option<App>, String> {
        let before = self.saver.save_settings(settings)?;
        let shown = |one: &Settings| (one.rules.clone(), one.units, one.stems_a_plant);
        if shown(&before) == shown(settings) {
            return Ok(None);
        }
        let dir = self.saver.dir().map(Path::to_path_buf);
        let dir = dir.ok_or("there is no folder")?;
        let app = self.open_anew(dir);
        app.map(Some).map_err(|error| format!("{error:#}"))
    }
}

/// What is said in a folder that was just made: where it is, how it is found, and what to do next.
fn made(dir: &Path, demo: bool) -> String {
    let usual = place::by_default().is_ok_and(|usual| usual == *dir);
    let found = match usual {
        true => "",
        false => ", found by starting trug in it or with --at",
    };
    let next = match demo {
        true => "Everything in it may be changed",
        false => "Next, on Choose: i reads a spreadsheet in, a adds a variety",
    };
    format!("Your folder: {}{found}. {next}.", dir.display())
}
