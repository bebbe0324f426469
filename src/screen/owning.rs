//! Settings and a folder of one's own, filled in on a slip over the page that is open.

use super::filling::{Filled, Filling, FillingMessage};
use super::keeping::Keeping;
use super::kit::cursor::Movement;
use super::kit::line::Edit;
use super::own::{Asked, Own, OwnSlip};
use super::{App, Effect, Message, Page};
use crate::order::season_ahead;
use crate::settings::{Settings, Start};

/// What is said where settings are asked for that nothing keeps.
const NO_SETTINGS: &str =
    "The demo keeps no settings: F makes a folder of your own, with settings in it.";

impl App {
    /// With the grower's settings, and where her folder is or would be.
    pub fn with_own(mut self, own: Own) -> App {
        self.order.set_usual_frosts(own.settings.usual_frosts());
        self.order.set_currency(own.settings.currency.clone());
        self.tags.set_selling(own.settings.selling());
        self.easel.wants(&own.settings);
        self.own = own;
        self
    }

    /// Whether this is the demo.
    pub(super) fn is_demo(&self) -> bool {
        self.own.folder.is_none()
    }

    /// The settings that are to be saved.
    pub fn pending_settings(&self) -> Option<&Settings> {
        match &self.asked {
            Some(Asked::Settings(settings)) => Some(settings),
            Some(Asked::Start(_)) | None => None,
        }
    }

    /// The folder that is to be made.
    pub fn pending_start(&self) -> Option<&Start> {
        match &self.asked {
            Some(Asked::Start(start)) => Some(start),
            Some(Asked::Settings(_)) | None => None,
        }
    }

    /// Opens the slip of the settings.
    pub(super) fn open_settings(&mut self) {
        match &self.own.keeping {
            Keeping::Session => return self.say(NO_SETTINGS),
            Keeping::ReadOnly(why) => {
                let told = format!("Read only, nothing can be changed: {why}.");
                return self.say(&told);
            }
            Keeping::Folder => {}
        }
        let ground = self.own.settings_ground(self.year());
        let slip = Filling::new("Settings", self.own.settings.clone(), ground);
        self.slip = Some(OwnSlip::Settings(slip));
    }

    /// Opens the slip of a folder of the grower's own.
    pub(super) fn open_start(&mut self) {
        let ground = self.own.start_ground(self.year());
        let slip = Filling::of_new("A folder of your own", Start::new(ground.usual), ground);
        self.slip = Some(OwnSlip::Start(slip));
    }

    /// Does what was asked with the slip that is open over the page.
    pub(super) fn fill_own(&mut self, message: FillingMessage) -> Option<Effect> {
        let year = self.year();
        match &mut self.slip {
            None => None,
            Some(OwnSlip::Settings(slip)) => {
                match slip.update(message, self.own.settings_ground(year)) {
                    Filled::Open => None,
                    Filled::Closed => self.close_own(),
                    Filled::Save(settings) => {
                        self.asked = Some(Asked::Settings(settings));
                        Some(Effect::SaveSettings)
                    }
                }
            }
            Some(OwnSlip::Start(slip)) => match slip.update(message, self.own.start_ground(year)) {
                Filled::Open => None,
                Filled::Closed => self.close_own(),
                Filled::Save(start) => {
                    self.asked = Some(Asked::Start(start));
                    Some(Effect::MakeFolder)
                }
            },
        }
    }

    fn close_own(&mut self) -> Option<Effect> {
        self.slip = None;
        None
    }

    pub(super) fn edit_own(&mut self, edit: &Edit) {
        let year = self.year();
        match &mut self.slip {
            None => {}
            Some(OwnSlip::Settings(slip)) => slip.edit(edit, self.own.settings_ground(year)),
            Some(OwnSlip::Start(slip)) => slip.edit(edit, self.own.start_ground(year)),
        }
    }

    pub(super) fn go_own(&mut self, movement: Movement, window: usize) {
        let year = self.year();
        match &mut self.slip {
            None => {}
            Some(OwnSlip::Settings(slip)) => {
                slip.go(movement, window, self.own.settings_ground(year));
            }
            Some(OwnSlip::Start(slip)) => {
                slip.go(movement, window, self.own.start_ground(year));
            }
        }
    }

    /// The settings are on the disk, and the page goes on as it was.
    pub(super) fn settings_saved(&mut self) {
        let Some(Asked::Settings(settings)) = self.asked.take() else {
            return;
        };
        self.order.set_usual_frosts(settings.usual_frosts());
        self.order.set_currency(settings.currency.clone());
        self.tags.set_selling(settings.selling());
        self.easel.wants(&settings);
        self.own.settings = settings;
        self.slip = None;
        if self.page == Page::Tags {
            self.open_tags();
        }
        self.say("The settings are changed (saved).");
    }

    /// What was asked of the edge could not be done, and why: told in the slip, nothing of it lost.
    pub(super) fn not_kept(&mut self, why: String) {
        self.asked = None;
        let year = self.year();
        match &mut self.slip {
            None => self.say(&format!("Not saved: {why}.")),
            Some(OwnSlip::Settings(slip)) => {
                slip.refuse_here(format!("not saved: {why}"), self.own.settings_ground(year));
            }
            Some(OwnSlip::Start(slip)) => {
                slip.refuse(Start::PLACE, why, self.own.start_ground(year));
            }
        }
    }

    /// Goes on in what was opened anew: on the page that was open, with the bloom in hand.
    pub fn go_on_in(&mut self, mut opened: App, told: &str) {
        let (width, height) = self.size;
        opened.key.take_over(&self.key);
        opened.take_over_easel(self);
        opened.update(Message::Resize(width, height));
        opened.go_to(self.page);
        opened.say(told);
        opened.portray();
        *self = opened;
    }

    fn year(&self) -> i16 {
        season_ahead(self.row.today())
    }
}
