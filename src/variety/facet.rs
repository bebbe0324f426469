//! Facets: the ways in which a list is split, and which values each variety has.

use super::evidence::Days;
use super::extent::Extent;
use super::fitness::FITS;
use super::in_bloom::{BloomSeason, InBloom};
use super::record::{Foliage, Variety};
use super::uses::Uses;
use crate::colour::Family;
use crate::form::RuleSet;
use crate::measure::{SizeUnits, same_id};

/// A way to split the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Facet {
    /// Uses that it fits.
    Use,
    /// Form, by id.
    Form,
    /// Size word: of what was measured here, else as it is stated.
    Size,
    /// Families of its main and second colours.
    Colour,
    /// Height of the plant, measured or stated, in bands.
    Height,
    /// Colour of the leaves.
    Foliage,
    /// Days in the vase, observed or stated, in bands.
    Vase,
    /// Weeks of the year in which it is in bloom.
    InBloom,
    /// Least price of a tuber, in bands.
    Price,
    /// Whether tubers are in the grower's own store.
    OnHand,
    /// Who sells it.
    Supplier,
    /// Who raised it.
    Raiser,
    /// Whether it is on the shortlist.
    Shortlist,
}

/// The value of a variety for which a facet is unknown.
pub const UNKNOWN: &str = "unknown";

/// Bands: each value with the number that it stays under, the last without one.
type Bands = [(&'static str, f64)];

/// Centimetres.
const HEIGHTS: &Bands = &[
    ("low", 60.0),
    ("middle", 100.0),
    ("tall", 140.0),
    ("very-tall", f64::INFINITY),
];
/// Days: 4 to 5 are typical of the flower (Lopez & Brown, GrowerTalks 2025), 7 to 10 of the good.
const VASE_LIVES: &Bands = &[
    ("short", 4.0),
    ("typical", 6.0),
    ("good", 7.0),
    ("long", f64::INFINITY),
];
/// Hundredths for a tuber. Our own bands.
const PRICES: &Bands = &[
    ("under-3", 300.0),
    ("3-to-5", 500.0),
    ("5-to-8", 800.0),
    ("8-and-over", f64::INFINITY),
];

/// The most weeks that a year has.
const WEEKS: u8 = 53;

const CM_IN_AN_INCH: f64 = 2.54;

impl Facet {
    /// Every facet, in the order shown.
    pub const ALL: [Facet; 13] = [
        Facet::Use,
        Facet::Form,
        Facet::Size,
        Facet::Colour,
        Facet::Height,
        Facet::Foliage,
        Facet::Vase,
        Facet::InBloom,
        Facet::Price,
        Facet::OnHand,
        Facet::Supplier,
        Facet::Raiser,
        Facet::Shortlist,
    ];

    /// The id in commands and JSON.
    pub fn id(self) -> &'static str {
        match self {
            Facet::Use => "use",
            Facet::Form => "form",
            Facet::Size => "size",
            Facet::Colour => "colour",
            Facet::Height => "height",
            Facet::Foliage => "foliage",
            Facet::Vase => "vase",
            Facet::InBloom => "in-bloom",
            Facet::Price => "price",
            Facet::OnHand => "on-hand",
            Facet::Supplier => "supplier",
            Facet::Raiser => "raiser",
            Facet::Shortlist => "shortlist",
        }
    }

    /// The facet with this id.
    pub fn find(id: &str) -> Option<Facet> {
        Facet::ALL.into_iter().find(|facet| same_id(id, facet.id()))
    }

    /// A value as a grower reads it: forms and uses by their names, bands in words.
    pub fn value_in_words(self, value: &str, rules: &RuleSet, uses: &Uses) -> String {
        let name = match self {
            Facet::Form => rules.find(value).map(|at| rules.forms[at].name.clone()),
            Facet::Use => { uses.list().iter() }
                .find(|one| one.id == value)
                .map(|one| one.name.clone()),
            Facet::Height | Facet::Price => Some(value.replace('-', " ")),
            Facet::InBloom if value != UNKNOWN => Some(format!("week {value}")),
            _ => None,
        };
        name.unwrap_or_else(|| value.to_string())
    }

    /// What a value means, where its word alone does not say.
    /// A height is told in the grower's units and to a tenth, as heights of plants are everywhere.
    pub fn means(self, value: &str, units: SizeUnits) -> Option<String> {
        let (bands, unit) = match self {
            Facet::Height if units == SizeUnits::In => (HEIGHTS, "in"),
            Facet::Height => (HEIGHTS, "cm"),
            Facet::Vase => (VASE_LIVES, "days"),
            Facet::Price => (PRICES, "a tuber"),
            _ => return None,
        };
        let at = bands.iter().position(|(word, _)| *word == value)?;
        let shown = |limit: f64| {
            let limit = match (self, units) {
                (Facet::Price, _) => limit / 100.0,
                (Facet::Height, SizeUnits::In) => limit / CM_IN_AN_INCH,
                _ => limit,
            };
            (limit * 10.0).round() / 10.0
        };
        let (low, high) = (at.checked_sub(1).map(|before| bands[before].1), bands[at].1);
        Some(match low {
            None => format!("under {} {unit}", shown(high)),
            Some(low) if high.is_infinite() => format!("{} {unit} and over", shown(low)),
            Some(low) => format!("{} to under {} {unit}", shown(low), shown(high)),
        })
    }

    /// Whether a row has many values of it, and the same ones as many other rows.
    pub(super) fn has_sets(self) -> bool {
        self == Facet::InBloom
    }

    /// The values that are listed even where no variety has them, in the order shown.
    pub(super) fn fixed_values(self, rules: &RuleSet, uses: &Uses) -> Vec<String> {
        let words = |words: &[&str]| words.iter().map(|word| (*word).to_string()).collect();
        let bands = |bands: &Bands| bands.iter().map(|(word, _)| (*word).to_string()).collect();
        match self {
            Facet::Use => uses.list().iter().map(|one| one.id.clone()).collect(),
            Facet::Form => rules.forms.iter().map(|form| form.id.clone()).collect(),
            Facet::Size => rules
                .size_words
                .iter()
                .map(|(word, _)| word.clone())
                .collect(),
            Facet::Colour => words(&Family::ALL.map(Family::word)),
            Facet::Height => bands(HEIGHTS),
            Facet::Foliage => words(&Foliage::ALL.map(Foliage::word)),
            Facet::Vase => bands(VASE_LIVES),
            Facet::InBloom => (1..=WEEKS).map(|week| week.to_string()).collect(),
            Facet::Price => bands(PRICES),
            Facet::OnHand | Facet::Shortlist => words(&["yes", "no"]),
            Facet::Supplier | Facet::Raiser => Vec::new(),
        }
    }
}

/// What the facets need of one row, worked out once.
pub(super) struct Row<'a> {
    pub(super) variety: &'a Variety,
    /// The index of its form.
    pub(super) form: Option<usize>,
    pub(super) fitness: &'a [Option<f64>],
    pub(super) price: Option<f64>,
    pub(super) rules: &'a RuleSet,
    /// When it is expected in bloom.
    pub(super) season: Option<&'a BloomSeason>,
}

/// One value that a row has.
#[derive(Clone, Copy)]
pub(super) enum Value<'a> {
    /// By its place among the fixed values of the facet.
    Fixed(usize),
    /// A word that may not be among them.
    Word(&'a str),
}

/// Of the fitness for each use, the uses that it is said to fit.
pub(super) fn uses_that_fit(
    fitness: impl Iterator<Item = Option<f64>>,
) -> impl Iterator<Item = Value<'static>> {
    let fits = fitness.enumerate();
    let fits = fits.filter(|(_, fitness)| fitness.is_some_and(|fitness| fitness >= FITS));
    fits.map(|(at, _)| Value::Fixed(at))
}

impl Row<'_> {
    /// Gives the row's values of a facet to `take`; none where it is unknown.
    pub(super) fn values(&self, facet: Facet, take: &mut dyn FnMut(Value<'_>)) {
        let variety = self.variety;
        let band = |value: f64, bands: &Bands| bands.iter().position(|(_, limit)| value < *limit);
        let mut banded = |value: Option<f64>, bands: &Bands| {
            let band = value.and_then(|value| band(value, bands));
            band.map(Value::Fixed).into_iter().for_each(&mut *take);
        };
        let yes = |yes: bool| Value::Fixed(usize::from(!yes));
        match facet {
            Facet::Height => {
                // A span counts in every band that it reaches into.
                let reach = variety.height_known().and_then(|height| {
                    let band = |end: Extent| band(end.mm() / 10.0, HEIGHTS);
                    Some(band(height.low())?..=band(height.high())?)
                });
                reach.into_iter().flatten().map(Value::Fixed).for_each(take);
            }
            Facet::Vase => banded(variety.vase_days().map(Days::get), VASE_LIVES),
            Facet::InBloom => {
                let form = self.form.map(|form| self.rules.forms[form].id.as_str());
                let weeks = InBloom::of(variety, form, self.season).weeks();
                let weeks = weeks.iter().map(|week| Value::Fixed(usize::from(week) - 1));
                weeks.for_each(take);
            }
            Facet::Price => banded(self.price, PRICES),
            Facet::Use => uses_that_fit(self.fitness.iter().copied()).for_each(take),
            Facet::Form => self.form.map(Value::Fixed).into_iter().for_each(take),
            Facet::Size => variety
                .size_under(self.rules)
                .map(Value::Word)
                .into_iter()
                .for_each(take),
            // OK because `family_values` gives these.
            Facet::Colour => {}
            Facet::Foliage => variety
                .foliage
                .map(|leaf| Value::Fixed(leaf as usize))
                .into_iter()
                .for_each(take),
            Facet::OnHand => variety
                .on_hand
                .map(|tubers| yes(tubers > 0))
                .into_iter()
                .for_each(take),
            Facet::Supplier => variety
                .offers
                .iter()
                .for_each(|offer| take(Value::Word(&offer.supplier))),
            Facet::Raiser => variety
                .raiser
                .as_deref()
                .map(Value::Word)
                .into_iter()
                .for_each(take),
            Facet::Shortlist => take(yes(variety.shortlist.is_some())),
        }
    }
}
