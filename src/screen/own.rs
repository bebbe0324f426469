//! What is the grower's own and belongs to no page: the settings, and the folder.

use super::filling::Filling;
use super::keeping::Keeping;
use crate::settings::{Settings, SettingsGround, Start, StartGround};

/// What is known of the grower's own.
#[derive(Debug, Clone)]
pub struct Own {
    /// The settings as they are kept.
    pub settings: Settings,
    /// The ids of the rule sets, the one first that is used where none is set.
    pub rules: Vec<String>,
    /// Where `trug` looks for a folder by itself; empty where the system does not say.
    pub usual: String,
    /// Where the folder is; `None` where this is the demo.
    pub folder: Option<String>,
    /// Where changes go.
    pub keeping: Keeping,
}

/// The slip that is open over the page.
#[derive(Debug, Clone)]
pub(super) enum OwnSlip {
    Settings(Filling<Settings>),
    Start(Filling<Start>),
}

impl OwnSlip {
    /// Says that leaving the program would lose what is typed; `false` where nothing is.
    pub(super) fn warn(&mut self) -> bool {
        match self {
            OwnSlip::Settings(slip) => slip.warn(),
            OwnSlip::Start(slip) => slip.warn(),
        }
    }
}

/// What the edge was asked for.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Asked {
    Settings(Settings),
    Start(Start),
}

impl Own {
    /// Nothing known: as a screen opens that is told no more.
    pub(super) fn unknown() -> Own {
        Own {
            settings: Settings::default(),
            rules: Vec::new(),
            usual: String::new(),
            folder: Some(String::new()),
            keeping: Keeping::Session,
        }
    }

    pub(super) fn settings_ground(&self, year: i16) -> SettingsGround<'_> {
        let rules = &self.rules;
        SettingsGround { rules, year }
    }

    pub(super) fn start_ground(&self, year: i16) -> StartGround<'_> {
        StartGround {
            usual: &self.usual,
            settings: self.settings_ground(year),
        }
    }
}
