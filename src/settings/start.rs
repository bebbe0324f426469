//! A folder of the grower's own before it is made: where, with what in it, and its first settings.

use super::fields::{CURRENCY, FIRST, GROWER, LAST, UNITS};
use super::{Settings, SettingsGround};
use crate::measure::brief;
use crate::record::{Field, Fields, Figure, Key, beginning_with};

/// A folder to be made.
#[derive(Debug, Clone, PartialEq)]
pub struct Start {
    /// Where: a path as it was typed.
    pub place: String,
    /// Whether it begins with the demo's list, row and order.
    pub demo: bool,
    /// Its settings.
    pub settings: Settings,
}

/// What is offered for it.
#[derive(Debug, Clone, Copy)]
pub struct StartGround<'a> {
    /// The place where `trug` looks for the grower's folder; empty where the system does not say.
    pub usual: &'a str,
    /// What settings are read against.
    pub settings: SettingsGround<'a>,
}

const EMPTY: &str = "empty";
const DEMO: &str = "demo";

impl Start {
    /// The field of the place.
    pub const PLACE: Key = Key::of("where");
    const HOLDS: Key = Key::of("with");
    /// The settings that are asked at once; the others have time.
    const ASKED: [Key; 5] = [UNITS, LAST, FIRST, CURRENCY, GROWER];

    /// An empty folder in the usual place.
    pub fn new(usual: &str) -> Start {
        Start {
            place: usual.to_string(),
            demo: false,
            settings: Settings::default(),
        }
    }
}

impl Fields for Start {
    type Ground<'a> = StartGround<'a>;

    fn fields(&self, ground: StartGround<'_>) -> Vec<Field> {
        let usual = match ground.usual {
            "" => "A folder such as garden.".to_string(),
            usual => format!(
                "A folder such as garden; in {usual} it is found by itself, elsewhere by starting trug within it or with --at."
            ),
        };
        let holds = if self.demo { DEMO } else { EMPTY };
        let own = [
            Field {
                key: Start::PLACE,
                group: "",
                name: "where",
                text: self.place.clone(),
                means: "The folder that is made, or that is there and has no files of trug's.",
                takes: usual,
                figure: Figure::Chosen,
            },
            Field {
                key: Start::HOLDS,
                group: "",
                name: "it begins",
                text: holds.to_string(),
                means: "What is in it from the start.",
                takes: format!(
                    "{EMPTY}: no varieties, no seedlings, an order to be filled in; {DEMO}: the demo's list, row and order, to be changed."
                ),
                figure: Figure::Chosen,
            },
        ];
        let settings = self.settings.fields(ground.settings).into_iter();
        let settings = settings.filter(|field| Start::ASKED.contains(&field.key));
        own.into_iter().chain(settings).collect()
    }

    fn set(&mut self, key: Key, text: &str, ground: StartGround<'_>) -> Result<(), String> {
        let text = text.trim();
        match (key, text) {
            (Start::PLACE, "") => Err("found nothing, expected a folder such as garden".into()),
            (Start::PLACE, text) => {
                self.place = text.to_string();
                Ok(())
            }
            (Start::HOLDS, EMPTY) => {
                self.demo = false;
                Ok(())
            }
            (Start::HOLDS, DEMO) => {
                self.demo = true;
                Ok(())
            }
            (Start::HOLDS, text) => Err(format!(
                "found {:?}, expected {EMPTY} or {DEMO}",
                brief(text)
            )),
            (key, text) => self.settings.set(key, text, ground.settings),
        }
    }

    fn offered(&self, key: Key, typed: &str, ground: StartGround<'_>) -> Vec<String> {
        match key {
            Start::PLACE => {
                let usual = Some(ground.usual).filter(|usual| !usual.is_empty());
                beginning_with(typed, usual)
            }
            Start::HOLDS => beginning_with(typed, [EMPTY, DEMO]),
            key => self.settings.offered(key, typed, ground.settings),
        }
    }

    fn wrong(&self, ground: StartGround<'_>) -> Option<(Key, String)> {
        if self.place.is_empty() {
            let told = "found nothing, expected a folder such as garden";
            return Some((Start::PLACE, told.to_string()));
        }
        self.settings.wrong(ground.settings)
    }
}
