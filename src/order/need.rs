//! What is needed: so many stems a week, over some weeks, of some colours, forms and uses.

use std::num::{NonZeroU8, NonZeroU32};

use serde::{Deserialize, Deserializer, Serialize};

use super::work::FromWork;
use crate::colour::Judged;
use crate::measure::bounds::{Bounds, MOST_COUNTED};
use crate::problem::{Path, Wrong};
use crate::variety::{FITS, Text, use_id};

/// One line of the needs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Need {
    /// What it is for, each need by another name.
    pub name: Text,
    /// Stems in each of its weeks: cut, or left to flower in the border.
    pub stems: NonZeroU32,
    /// The first and the last week of the year.
    pub weeks: (u8, u8),
    /// The id of a use that the variety must fit.
    #[serde(
        default,
        rename = "use",
        skip_serializing_if = "Option::is_none",
        deserialize_with = "present_use"
    )]
    pub for_use: Option<Text>,
    /// The least fitness for that use, 0 to 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fitness: Option<f64>,
    /// Colours, of which the nearest counts: words, families such as `pinks`, groups such as `warm`,
    /// or measured. Any colour where there are none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub colours: Vec<Text>,
    /// How far (CIEDE2000) a variety may be from them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub within: Option<f64>,
    /// Which of a bloom's colours are held against them: what it mostly shows where it is not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub colour_by: Option<Judged>,
    /// Ids of forms. Any form where there are none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub forms: Vec<Text>,
    /// The least number of varieties that give it stems in each of its weeks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub varieties: Option<NonZeroU8>,
    /// The least number of different forms.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub different_forms: Option<NonZeroU8>,
    /// Stems a week that a variety must give to count as one of them; 1 where it is not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub each: Option<NonZeroU32>,
    /// The most of a week's stems from one variety, in a hundred.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most_from_one: Option<NonZeroU8>,
    /// The chance at which it is to have all its stems in all of its weeks; the grower's usual one where it
    /// is not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sure: Option<f64>,
    /// The event or the round that it was worked out of; such a need is not written.
    #[serde(skip)]
    pub of_work: Option<FromWork>,
}

/// An old id is read as the one in its place, so that a plan is written with ids of today.
fn present_use<'de, D: Deserializer<'de>>(reader: D) -> Result<Option<Text>, D::Error> {
    let written = Option::<Text>::deserialize(reader)?;
    let present = written.map(|id| Text::new(use_id(id.as_str())));
    present.transpose().map_err(serde::de::Error::custom)
}

/// How far a colour may be from those asked for where it is not said: about where it stops passing
/// for the one asked for. Our own choice.
pub(super) const WITHIN: f64 = 8.0;
/// How sure a need may be to be: under a half nobody would promise it, and over 99 in 100 seasons no draw tells.
pub(crate) const SURE: Bounds<f64> = Bounds::new("as a chance", 0.5, 0.99);
/// How sure a need is to be where neither it nor the grower says so. Our own choice.
pub const USUALLY_SURE: f64 = 0.8;
/// The least fitness where it is not said: from where on a variety is said to fit a use wherever one is
/// asked about. Our own choice.
const FITNESS: f64 = FITS;
const STEMS: Bounds<u32> = Bounds::new("stems a week", 1, MOST_COUNTED);

impl Need {
    /// How far (CIEDE2000) a variety may be from the colours.
    pub fn reach(&self) -> f64 {
        self.within.unwrap_or(WITHIN)
    }

    /// The least fitness for its use.
    pub fn least_fitness(&self) -> f64 {
        self.fitness.unwrap_or(FITNESS)
    }

    /// Which of a bloom's colours are held against its own.
    pub fn judged(&self) -> Judged {
        self.colour_by.unwrap_or_default()
    }

    /// Whether it runs in the week.
    pub fn runs(&self, week: u8) -> bool {
        (self.weeks.0..=self.weeks.1).contains(&week)
    }

    /// What is wrong with it in itself.
    pub(super) fn wrong(&self) -> Option<Wrong> {
        let (first, last) = self.weeks;
        let share = |fitness: f64| (0.0..=1.0).contains(&fitness);
        let wrong = |at, message: String| Some(Wrong::new(at, message));
        let weeks = Path::field("weeks");
        let each = self.each.map(|each| each.get());
        if let Some(message) = STEMS.wrong(self.stems.get()) {
            wrong(Path::field("stems"), message)
        } else if let Some(message) = each.and_then(|each| STEMS.wrong(each)) {
            wrong(Path::field("each"), message)
        } else if let Some(message) = self.sure.and_then(|sure| SURE.wrong(sure)) {
            wrong(Path::field("sure"), message)
        } else if let Some(at) = [first, last]
            .iter()
            .position(|week| !(1..=53).contains(week))
        {
            let week = [first, last][at];
            wrong(
                weeks.nth(at),
                format!("found week {week}, expected a week of the year, 1 to 53"),
            )
        } else if first > last {
            wrong(
                weeks,
                format!(
                    "found weeks {first} to {last}, expected two weeks of the year, the earlier first"
                ),
            )
        } else if self.fitness.is_some_and(|fitness| !share(fitness)) {
            wrong(
                Path::field("fitness"),
                "found a fitness that is not from 0 to 1, expected it so".into(),
            )
        } else if self
            .within
            .is_some_and(|within| !(0.0..=200.0).contains(&within))
        {
            wrong(
                Path::field("within"),
                "found a distance in colour that is not from 0 to 200, expected it so".into(),
            )
        } else if self.fitness.is_some() && self.for_use.is_none() {
            wrong(
                Path::field("fitness"),
                "found a fitness without a use, expected the use that it is for".into(),
            )
        } else if self.within.is_some() && self.colours.is_empty() {
            wrong(
                Path::field("within"),
                "found a distance without a colour, expected the colours that it is from".into(),
            )
        } else if self.colour_by.is_some() && self.colours.is_empty() {
            wrong(
                Path::field("colour_by"),
                "found what of a bloom is judged without a colour, expected the colours that it is held against".into(),
            )
        } else if self.most_from_one.is_some_and(|most| most.get() > 100) {
            wrong(
                Path::field("most_from_one"),
                "found more than 100 in a hundred from one variety, expected 1 to 100".into(),
            )
        } else {
            self.wrong_kinds()
        }
    }

    /// What is wrong with how many varieties and forms it asks for.
    fn wrong_kinds(&self) -> Option<Wrong> {
        let stems = u64::from(self.stems.get());
        if self.kept_for_each() > stems {
            Some(Wrong::new(
                Path::field(self.kept_by()),
                format!(
                    "found {} stems a week kept for different varieties or forms, expected at most the {stems} that are needed",
                    self.kept_for_each()
                ),
            ))
        } else if let Some(most) = self.most_from_one.filter(|_| self.asks_for_kinds())
            && stems * u64::from(most.get()) < self.each() * 100
        {
            Some(Wrong::new(
                Path::field("most_from_one"),
                format!(
                    "found {} stems a week from each of several varieties or forms, expected no more than {most} in a hundred of the {stems}, the most from one",
                    self.each()
                ),
            ))
        } else if !self.forms.is_empty() && self.different() > self.forms.len() as u64 {
            Some(Wrong::new(
                Path::field("different_forms"),
                format!(
                    "found {} different forms of the {} that it takes, expected no more than those",
                    self.different(),
                    self.forms.len()
                ),
            ))
        } else {
            None
        }
    }

    /// The field that keeps most stems for varieties or forms that must be different.
    fn kept_by(&self) -> &'static str {
        if self.each.is_some() {
            "each"
        } else if self.different() == self.kinds() {
            "different_forms"
        } else {
            "varieties"
        }
    }

    /// The least number of different forms.
    fn different(&self) -> u64 {
        self.different_forms.map_or(1, |least| least.get().into())
    }

    /// The least number of varieties or forms that must be different.
    fn kinds(&self) -> u64 {
        let varieties = self.varieties.map_or(1, |least| u64::from(least.get()));
        varieties.max(self.different())
    }

    fn asks_for_kinds(&self) -> bool {
        self.kinds() > 1
    }

    /// Stems a week that each of them must give.
    fn each(&self) -> u64 {
        self.each.map_or(1, |each| u64::from(each.get()))
    }

    /// Stems a week that the varieties that must be different give together.
    fn kept_for_each(&self) -> u64 {
        self.kinds() * self.each()
    }
}
