//! What the grower has settled once, and a new folder before it is made: values, and as forms to be
//! filled in. The folder keeps them.

mod fields;
mod pictures;
mod start;

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

use crate::colour::Ground;
use crate::measure::bounds::Bounds;
use crate::measure::day::DayOrder;
use crate::measure::{Money, SizeUnits, YearDay};
use crate::order::{SURE, USUALLY_SURE, UsualFrosts};
use crate::tag::{PerPlant, Selling};
use crate::variety::Text;

pub use fields::SettingsGround;
pub use pictures::Pictures;
pub use start::{Start, StartGround};

/// Stems a plant where nothing is set: within the published range of 5 to 12 saleable stems a
/// plant and season (Larkin, Flower Farming for Profit, 2024). Assumed.
const STEMS_A_PLANT: f64 = 8.0;

/// What the grower has settled once; everything may be left out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Settings {
    /// The rule set to key by.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rules: Option<String>,
    /// The units to show lengths in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub units: Option<SizeUnits>,
    /// Which of day and month comes first where both are typed as numbers: `"day-first"` or
    /// `"month-first"`. Without it a day that may be two is asked after.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub days: Option<DayOrder>,
    /// Saleable stems that a plant gives in a season, where a variety's own figure is unknown.
    #[serde(deserialize_with = "stems")]
    pub stems_a_plant: f64,
    /// The chance at which a need is to have all its stems, where it does not say. Assumed where not settled.
    #[serde(deserialize_with = "sure", skip_serializing_if = "is_usually_sure")]
    pub sure: f64,
    /// What money is counted in, as a word: `kroner`. It is written on order sheets.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub currency: Option<Text>,
    /// Who grows: the name on order sheets and on tags for a buyer.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub grower: Option<Text>,
    /// Where: on tags for a buyer.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub place: Option<Text>,
    /// What one costs on a tag for a buyer, where that tag has no price of its own.
    #[serde(deserialize_with = "price", skip_serializing_if = "Option::is_none")]
    pub price: Option<Money>,
    /// What tags for a buyer say beside: the number of a registration, a passport or a permit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<Text>,
    /// The last frost of spring in most years: what a new order begins with.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub last_frost: Option<YearDay>,
    /// The first frost of autumn in most years.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub first_frost: Option<YearDay>,
    /// What the terminal's letters stand on: `light` or `dark`. Without it the terminal is asked.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ground: Option<Ground>,
    /// Of what the drawings on the screen are made: `pixels`, `cells` or `halves`.
    #[serde(skip_serializing_if = "Pictures::is_usual")]
    pub pictures: Pictures,
}

/// As many as no plant gives.
const STEMS: Bounds<f64> = Bounds::new("stems a plant", 0.1, 9999.0);

fn stems<'de, D: Deserializer<'de>>(reader: D) -> Result<f64, D::Error> {
    let stems = f64::deserialize(reader)?;
    match STEMS.wrong(stems) {
        Some(message) => Err(D::Error::custom(message)),
        None => Ok(stems),
    }
}

fn sure<'de, D: Deserializer<'de>>(reader: D) -> Result<f64, D::Error> {
    let sure = f64::deserialize(reader)?;
    match SURE.wrong(sure) {
        Some(message) => Err(D::Error::custom(message)),
        None => Ok(sure),
    }
}

fn price<'de, D: Deserializer<'de>>(reader: D) -> Result<Option<Money>, D::Error> {
    let money: Option<Money> = Option::deserialize(reader)?;
    let priced = money.map(Money::as_price).transpose();
    priced.map_err(D::Error::custom)
}

fn is_usually_sure(sure: &f64) -> bool {
    *sure == USUALLY_SURE
}

impl Settings {
    /// The frosts that a new order begins with.
    pub fn usual_frosts(&self) -> UsualFrosts {
        UsualFrosts {
            last: self.last_frost,
            first: self.first_frost,
        }
    }

    /// What tags for a buyer say of the seller.
    pub fn selling(&self) -> Selling {
        Selling {
            grower: self.grower.clone(),
            place: self.place.clone(),
            line: self.line.clone(),
            currency: self.currency.clone(),
            price: PerPlant::all(self.price),
        }
    }
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            rules: None,
            units: None,
            days: None,
            stems_a_plant: STEMS_A_PLANT,
            sure: USUALLY_SURE,
            currency: None,
            grower: None,
            place: None,
            price: None,
            line: None,
            last_frost: None,
            first_frost: None,
            ground: None,
            pictures: Pictures::default(),
        }
    }
}

#[cfg(test)]
mod tests;
