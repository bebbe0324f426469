//! One variety as the grower keeps it: what is known, how it is known, and nothing else.

use std::num::NonZeroU32;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::bloom_weeks::BloomWeeks;
use super::evidence::{VaseLife, Weather};
use super::extent::{Extent, Reach};
use super::looks::{KnownBloom, KnownColour};
use super::stated::Statement;
use super::stems::StemsAWeek;
use super::text::Text;
use crate::colour::{Part, Pattern, Shown};
use crate::form::{Answer, AnswerError, Answers, RuleSet, Status, Traits};
use crate::measure::Money;

/// A variety. What is unknown is `None` or empty, never a default that poses as known.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Variety {
    /// Its name, without quotation marks. Unique in a list, case and accents apart.
    pub name: Text,
    /// Who raised it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub raiser: Option<Text>,
    /// Its form and how that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub form: Option<FormNote>,
    /// What was answered of its bloom, diameter apart.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bloom: Option<KnownBloom>,
    /// The size word that it is sold under, where nobody noted by whom.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub size: Option<Text>,
    /// Diameters measured here, one a bloom.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub diameters: Vec<Extent>,
    /// One to three colours by part, main first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub colours: Vec<ColourNote>,
    /// Height of the plant as it is stated, where nobody noted by whom.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<Reach>,
    /// Heights measured here, one a plant.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub plant_heights: Vec<Extent>,
    /// Length of a cut stem as it is stated, where nobody noted by whom.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stem: Option<Reach>,
    /// Lengths measured here, one a cut stem.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stem_lengths: Vec<Extent>,
    /// Weeks of the year in which the trial row saw it in bloom. Never saved in a record, since the row
    /// has a place of its own.
    #[serde(skip)]
    pub seen_in_bloom: BloomWeeks,
    /// Colour of the leaves.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub foliage: Option<Foliage>,
    /// How long a cut stem lasts: tested here, or stated where nobody noted by whom.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub vase: Option<VaseLife>,
    /// What else is stated of its size, diameter, height, stems and vase life, and by whom.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stated: Vec<Statement>,
    /// Blooms counted after weather.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub weather: Vec<Weather>,
    /// Saleable stems cut from one plant in a week at full flower.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stems_a_week: Option<StemsAWeek>,
    /// Saleable stems cut from one plant in a season, as somebody states it.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::at_most::<9999, _, _>"
    )]
    pub stems_a_plant: Option<NonZeroU32>,
    /// Tubers in the grower's own store. What a supplier has stands in its offer.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::counted"
    )]
    pub on_hand: Option<u32>,
    /// What the stock book says of these. Never saved in a record, since the book has a place of its own.
    #[serde(skip)]
    pub store: Option<StoreCount>,
    /// Where it can be bought.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub offers: Vec<Offer>,
    /// Whether a breeder's right protects it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub protected: Option<bool>,
    /// The licence to multiply or sell it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub licence: Option<Text>,
    /// The grower's notes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub notes: Option<Text>,
    /// A place on the shortlist.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shortlist: Option<Shortlisted>,
}

/// A form and how it is known.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FormNote {
    /// The form's id in the rule set that the list is kept under.
    pub id: Text,
    /// How it is known.
    pub known: FormKnown,
    /// By whom: a supplier, a society's list, a person.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<Text>,
}

/// How a form is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum FormKnown {
    /// A supplier or a list says so.
    Stated,
    /// The grower keyed a bloom.
    Keyed,
    /// Guessed, from a picture or by eye.
    Guessed,
}

/// One colour of a bloom.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ColourNote {
    /// The colour.
    pub colour: KnownColour,
    /// Which part of the bloom shows it.
    pub part: Part,
    /// How it lies on that part.
    pub pattern: Pattern,
}

/// The colour of the leaves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Foliage {
    /// Green.
    Green,
    /// Bronze, or green flushed with it.
    Bronze,
    /// Dark, near black.
    Dark,
}

/// What the stock book says of a variety's tubers in store.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StoreCount {
    /// The day on which those on hand were counted; `None` where they are the list's.
    pub counted: Option<Date>,
    /// The part of those on hand that will be sound at planting, 0 to 1, by the losses of the book's
    /// winters; `None` where too few were counted.
    pub keeps: Option<f64>,
}

/// What a supplier offers.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Offer {
    /// The supplier's name.
    pub supplier: Text,
    /// Price of one pack.
    #[serde(deserialize_with = "Money::price")]
    pub price: Money,
    /// Tubers in a pack.
    #[serde(deserialize_with = "crate::measure::bounds::counted")]
    pub pack: NonZeroU32,
    /// Packs that the supplier still has; 0 is sold out.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::bounds::counted"
    )]
    pub available: Option<u32>,
    /// The last day on which an order is taken.
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        deserialize_with = "crate::measure::day::in_file"
    )]
    pub closes: Option<Date>,
}

/// A place on the shortlist.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shortlisted {
    /// Why it is there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<Text>,
}

impl Variety {
    /// A variety of which only the name is known.
    pub fn named(name: Text) -> Variety {
        Variety {
            name,
            raiser: None,
            form: None,
            bloom: None,
            size: None,
            diameters: Vec::new(),
            colours: Vec::new(),
            height: None,
            plant_heights: Vec::new(),
            stem: None,
            stem_lengths: Vec::new(),
            seen_in_bloom: BloomWeeks::default(),
            foliage: None,
            vase: None,
            stated: Vec::new(),
            weather: Vec::new(),
            stems_a_week: None,
            stems_a_plant: None,
            on_hand: None,
            store: None,
            offers: Vec::new(),
            protected: None,
            licence: None,
            notes: None,
            shortlist: None,
        }
    }

    /// What was answered of its bloom, the measured diameters with it: what is only stated keys no bloom.
    ///
    /// # Errors
    /// [`AnswerError`] where it was written in words that the table of traits does not have.
    pub fn answers(&self, traits: &Traits) -> Result<Answers, AnswerError> {
        let answered = self.bloom.as_ref().map(|bloom| bloom.answers(traits));
        let mut answers = answered.transpose()?.unwrap_or_default();
        if let (Some(index), false) = (traits.find("diameter"), self.diameters.is_empty()) {
            let values = self.diameters.iter().map(|one| one.length().mm()).collect();
            answers.set(index, Answer::Values(values));
        }
        Ok(answers)
    }

    /// The index of its form under `rules`: as noted where the set has such a form, else as its
    /// bloom keys. `None` where neither says.
    pub fn form_under(&self, rules: &RuleSet) -> Option<usize> {
        let noted = self.form.as_ref().and_then(|form| rules.find(&form.id));
        noted.or_else(|| self.keyed_under(rules))
    }

    /// The form that it is taken to have under `rules` and how that is known: as noted where the set
    /// has such a form, else as its bloom keys, else the note of another set.
    pub fn form_note_under(&self, rules: &RuleSet) -> Option<FormNote> {
        let form = self
            .form_under(rules)
            .map(|form| rules.forms[form].id.as_str());
        let noted = self.form.as_ref();
        match noted.filter(|note| form.is_none_or(|form| form == note.id.as_str())) {
            Some(note) => Some(note.clone()),
            None => Some(FormNote {
                id: Text::new(form?).ok()?,
                known: FormKnown::Keyed,
                by: None,
            }),
        }
    }

    /// The index of the form that its bloom keys to under `rules`, whatever is noted; `None` where
    /// the answers leave several forms or none.
    pub fn keyed_under(&self, rules: &RuleSet) -> Option<usize> {
        self.bloom.as_ref()?;
        match rules.verdict(&self.answers(&rules.traits).ok()?).status {
            Status::Settled(form) => Some(form),
            Status::Open | Status::None => None,
        }
    }

    /// The least price of one tuber over the offers that are not sold out, in hundredths.
    pub fn price_a_tuber(&self) -> Option<f64> {
        let open = self.offers.iter().filter(|one| one.available != Some(0));
        open.map(Offer::price_a_tuber).min_by(f64::total_cmp)
    }
}

impl ColourNote {
    /// How the colour lies on the bloom.
    pub fn shown(&self) -> Shown {
        Shown {
            part: self.part,
            pattern: self.pattern,
        }
    }
}

impl FormNote {
    /// The name of the form; of one that `rules` do not have as that set's keeper wrote it.
    pub fn name<'a>(&'a self, rules: &'a RuleSet) -> &'a str {
        let form = rules.find(&self.id);
        form.map_or(self.id.as_str(), |form| rules.forms[form].name.as_str())
    }
}

impl Offer {
    /// The price of one tuber, in hundredths.
    pub fn price_a_tuber(&self) -> f64 {
        self.price.in_hundredths() as f64 / f64::from(self.pack.get())
    }
}

impl Foliage {
    /// Every foliage, in the order shown.
    pub const ALL: [Foliage; 3] = [Foliage::Green, Foliage::Bronze, Foliage::Dark];

    /// The word in files, commands and on screen.
    pub fn word(self) -> &'static str {
        match self {
            Foliage::Green => "green",
            Foliage::Bronze => "bronze",
            Foliage::Dark => "dark",
        }
    }
}

impl FormKnown {
    /// The word in files and on screen.
    pub fn word(self) -> &'static str {
        match self {
            FormKnown::Stated => "stated",
            FormKnown::Keyed => "keyed",
            FormKnown::Guessed => "guessed",
        }
    }
}
