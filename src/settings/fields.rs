//! The settings as a person fills them in.

use super::{Pictures, STEMS, STEMS_A_PLANT, Settings};
use crate::colour::Ground;
use crate::measure::{Money, SizeUnits, brief};
use crate::order::{Plan, SURE, USUALLY_SURE};
use crate::record::{Field, Fields, Figure, Key, beginning_with};
use crate::variety::Text;

/// What settings are read against.
#[derive(Debug, Clone, Copy)]
pub struct SettingsGround<'a> {
    /// The ids of the rule sets that there are, the one first that is used where none is set.
    pub rules: &'a [String],
    /// The year whose season is planned.
    pub year: i16,
}

/// The words of the fields.
pub(super) const UNITS: Key = Key::of("units");
pub(super) const LAST: Key = Key::of("last-frost");
pub(super) const FIRST: Key = Key::of("first-frost");
pub(super) const CURRENCY: Key = Key::of("currency");
pub(super) const GROWER: Key = Key::of("grower");
const PLACE: Key = Key::of("place");
const PRICE: Key = Key::of("price");
const LINE: Key = Key::of("line");
const RULES: Key = Key::of("rules");
const STEMS_OF: Key = Key::of("stems");
const SURE_OF: Key = Key::of("sure");
const DAYS: Key = Key::of("days");
const GROUND: Key = Key::of("ground");
const PICTURES: Key = Key::of("pictures");

/// Which of day and month comes first, as it is typed.
const ORDERS: [&str; 2] = ["day-first", "month-first"];
/// The units as they are typed.
const INCHES: &str = "in";
const MILLIMETRES: &str = "mm";
/// The ground of the terminal is not settled: it is asked.
const ASKED: &str = "ask";

impl Fields for Settings {
    type Ground<'a> = SettingsGround<'a>;

    fn fields(&self, ground: SettingsGround<'_>) -> Vec<Field> {
        let text = |value: Option<String>| value.unwrap_or_default();
        let field = |key, name, text, means, takes: String, figure| Field {
            key,
            group: "",
            name,
            text,
            means,
            takes,
            figure,
        };
        let own = |key, name, text, means, takes: &str| {
            field(key, name, text, means, takes.to_string(), Figure::Chosen)
        };
        let first = ground.rules.first().map_or("", String::as_str);
        let units = self.units.map(|units| match units {
            SizeUnits::In => INCHES.to_string(),
            SizeUnits::Mm => MILLIMETRES.to_string(),
        });
        let stems = match self.stems_a_plant == STEMS_A_PLANT {
            true => String::new(),
            false => self.stems_a_plant.to_string(),
        };
        let sure = match self.sure == USUALLY_SURE {
            true => String::new(),
            false => self.sure.to_string(),
        };
        vec![
            field(
                UNITS,
                "units",
                text(units),
                "The units in which lengths are shown.",
                "in (inches) or mm (millimetres); nothing leaves it to the rule set.".to_string(),
                Figure::Assumed,
            ),
            own(
                DAYS,
                "3/4 is read",
                text(self.days.map(|order| order.to_string())),
                "Which of day and month comes first where a day is typed in numbers alone.",
                "One of day-first (3/4 is 3 April), month-first (it is 4 March), or nothing: then you are asked.",
            ),
            own(
                LAST,
                "last frost",
                text(self.last_frost.map(|day| day.to_string())),
                "The last frost of spring in most years: a new order begins with it.",
                "A day of the year such as 14 May, or nothing.",
            ),
            own(
                FIRST,
                "first frost",
                text(self.first_frost.map(|day| day.to_string())),
                "The first frost of autumn in most years: a new order begins with it.",
                "A day of the year such as 5 October, or nothing.",
            ),
            own(
                CURRENCY,
                "money in",
                text(self.currency.as_ref().map(Text::to_string)),
                "What money is counted in: order sheets say so.",
                "A word such as kroner, or nothing.",
            ),
            own(
                GROWER,
                "your name",
                text(self.grower.as_ref().map(Text::to_string)),
                "Who grows: the name that stands on order sheets and on tags.",
                "Any words such as Skerry Lane, or nothing.",
            ),
            own(
                PLACE,
                "your place",
                text(self.place.as_ref().map(Text::to_string)),
                "Where you are: it stands behind your name on tags for a buyer.",
                "Any words such as Sea Wall Road 3, or nothing.",
            ),
            own(
                PRICE,
                "price",
                text(self.price.map(|price| price.to_string())),
                "What one plant or tuber costs on a tag for a buyer, where that tag has no price of its own.",
                "An amount such as 4.50, or nothing: then tags tell no price.",
            ),
            own(
                LINE,
                "tags also say",
                text(self.line.as_ref().map(Text::to_string)),
                "A line of your own on tags for a buyer, printed as you write it: the number of a registration, a passport or a permit.",
                "Any words, or nothing. Nobody checks it: what it must say your plant health authority knows.",
            ),
            field(
                RULES,
                "rules",
                text(self.rules.clone()),
                "The rule set by which forms are named.",
                format!(
                    "One of {}; where nothing stands {first} holds.",
                    ground.rules.join(", ")
                ),
                Figure::Assumed,
            ),
            field(
                STEMS_OF,
                "stems a plant",
                stems,
                "Saleable stems that a plant gives in a season, where a variety's own figure is unknown.",
                format!(
                    "A number over 0; where nothing stands {STEMS_A_PLANT} holds, within the published range of 5 to 12."
                ),
                Figure::Assumed,
            ),
            field(
                SURE_OF,
                "how sure",
                sure,
                "The chance at which a need of the order is to have all its stems, where it does not say.",
                format!(
                    "A number from 0.5 to 0.99: 0.9 is nine seasons of ten; where nothing stands {USUALLY_SURE} holds, our own choice."
                ),
                Figure::Assumed,
            ),
            own(
                GROUND,
                "ground",
                text(self.ground.map(|ground| ground.to_string())),
                "What letters stand on in your terminal: their colours are chosen to be read on it.",
                "One of light, dark, or ask (the same as nothing): then the terminal is asked.",
            ),
            own(
                PICTURES,
                "drawings in",
                match self.pictures.is_usual() {
                    true => String::new(),
                    false => self.pictures.to_string(),
                },
                "Of what the drawings on the screen are made.",
                "One of pixels (where the terminal shows them, as it is where nothing stands), cells (never pixels), halves (cells that every font has).",
            ),
        ]
    }

    fn set(&mut self, key: Key, text: &str, ground: SettingsGround<'_>) -> Result<(), String> {
        let text = text.trim();
        let words = || match text {
            "" => Ok(None),
            text => Text::new(text).map(Some).map_err(|error| error.to_string()),
        };
        let day = || match text {
            "" => Ok(None),
            text => text.parse().map(Some),
        };
        let found = |expected: String| Err(format!("found {:?}, expected {expected}", brief(text)));
        match key {
            UNITS => {
                self.units = match text.to_lowercase().as_str() {
                    "" => None,
                    INCHES | "inch" | "inches" => Some(SizeUnits::In),
                    MILLIMETRES | "millimetres" | "metric" => Some(SizeUnits::Mm),
                    _ => return found(format!("{INCHES} or {MILLIMETRES}")),
                }
            }
            DAYS if text.is_empty() => self.days = None,
            DAYS => self.days = Some(text.to_lowercase().parse()?),
            LAST => self.last_frost = day()?,
            FIRST => self.first_frost = day()?,
            CURRENCY => self.currency = words()?,
            GROWER => self.grower = words()?,
            PLACE => self.place = words()?,
            PRICE if text.is_empty() => self.price = None,
            PRICE => self.price = Some(priced(text)?),
            LINE => self.line = words()?,
            RULES if text.is_empty() => self.rules = None,
            RULES if ground.rules.iter().any(|id| id == text) => {
                self.rules = Some(text.to_string());
            }
            RULES => return found(format!("one of {}", ground.rules.join(", "))),
            GROUND => {
                self.ground = match text.to_lowercase().as_str() {
                    "" | ASKED => None,
                    word => match word.parse() {
                        Ok(ground) => Some(ground),
                        Err(_) => return found(format!("{}, or {ASKED}", grounds().join(", "))),
                    },
                }
            }
            STEMS_OF if text.is_empty() => self.stems_a_plant = STEMS_A_PLANT,
            STEMS_OF => match text.parse::<f64>() {
                Ok(stems) if STEMS.wrong(stems).is_none() => self.stems_a_plant = stems,
                Ok(stems) => return Err(STEMS.wrong(stems).unwrap_or_default()),
                Err(_) => return found("a number over 0, or nothing".to_string()),
            },
            SURE_OF if text.is_empty() => self.sure = USUALLY_SURE,
            SURE_OF => match text.parse::<f64>() {
                Ok(sure) if SURE.wrong(sure).is_none() => self.sure = sure,
                Ok(sure) => return Err(SURE.wrong(sure).unwrap_or_default()),
                Err(_) => return found("a number from 0.5 to 0.99, or nothing".to_string()),
            },
            PICTURES if text.is_empty() => self.pictures = Pictures::default(),
            PICTURES => self.pictures = text.to_lowercase().parse()?,
            other => {
                return Err(format!(
                    "found the field {other}, expected one of the settings"
                ));
            }
        }
        Ok(())
    }

    fn offered(&self, key: Key, typed: &str, ground: SettingsGround<'_>) -> Vec<String> {
        match key {
            UNITS => beginning_with(typed, [INCHES, MILLIMETRES]),
            DAYS => beginning_with(typed, ORDERS),
            GROUND => beginning_with(typed, grounds().into_iter().chain([ASKED])),
            PICTURES => beginning_with(typed, Pictures::ALL.map(Pictures::word)),
            RULES => beginning_with(typed, ground.rules.iter().map(String::as_str)),
            _ => Vec::new(),
        }
    }

    fn wrong(&self, ground: SettingsGround<'_>) -> Option<(Key, String)> {
        let frosts = self.usual_frosts();
        if frosts.last.is_none() && frosts.first.is_none() {
            return None;
        }
        let key = if frosts.first.is_some() { FIRST } else { LAST };
        let wrong = Plan::blank(ground.year, frosts).err()?;
        Some((key, wrong))
    }
}

fn priced(text: &str) -> Result<Money, String> {
    let money: Money = text.parse().map_err(|error| format!("{error}"))?;
    money.as_price()
}

fn grounds() -> [&'static str; 2] {
    Ground::ALL.map(Ground::word)
}
