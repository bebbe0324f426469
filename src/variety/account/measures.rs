//! What is said of size, diameter, height, stems and vase life: what was measured here with how many,
//! then what is stated and by whom. A program finds the two under `measured` and `stated`.

use crate::account::text::counted;
use crate::account::{Cell, Scale};
use crate::form::RuleSet;
use crate::measure::{Length, SizeUnits, days};
use crate::variety::evidence::Days;
use crate::variety::extent::{Extent, Reach};
use crate::variety::measures::mean;
use crate::variety::record::Variety;
use crate::variety::stated::{Dimension, Named};
use crate::variety::text::Text;

/// The size word with its width.
pub(super) fn size_word(variety: &Variety, rules: &RuleSet, units: SizeUnits) -> Option<Cell> {
    let size = variety.size_under(rules)?;
    let words = rules.size_in_words(variety.form_under(rules), size, units);
    Some(Cell::worded(words, size))
}

/// The same, and who states it where nothing was measured.
pub(super) fn size(variety: &Variety, rules: &RuleSet, units: SizeUnits) -> Option<Cell> {
    let word = size_word(variety, rules, units)?;
    if variety.measured_size_under(rules).is_some() {
        return Some(word);
    }
    let (size, by) = variety.stated_size_under(rules)?;
    let words = format!("{}, {}", word.shown(), ground(by));
    Some(Cell::worded(words, size))
}

/// Whether the size is `measured` or `stated`.
pub(super) fn size_known(variety: &Variety, rules: &RuleSet) -> Option<&'static str> {
    variety.size_under(rules)?;
    Some(match variety.measured_size_under(rules) {
        Some(_) => "measured",
        None => "stated",
    })
}

/// A program gets the mean of the blooms measured here, and how many they were.
pub(super) fn diameter(variety: &Variety, units: SizeUnits) -> Option<Cell> {
    let mean = mean(&variety.diameters);
    let blooms = variety.diameters.len();
    let measured = mean.map(|mean| match blooms {
        1 => format!("{}, one bloom", mean.shown(units)),
        many => format!("{}, mean of {many}", mean.shown(units)),
    });
    let figures = mean.map(|mean| vec![("mean", length(mean, units)), ("blooms", blooms.into())]);
    let stated = variety.stated_diameters();
    let stated = stated.map(|(reach, by)| said(across(reach, units), by));
    told(measured, stated, figures.map(Cell::Record))
}

/// A program gets the ends of what is stated without a name.
pub(super) fn height(variety: &Variety, units: SizeUnits) -> Option<Cell> {
    let measured = measured_words(&variety.plant_heights, "plant", units);
    told(
        measured,
        variety.stated_heights().map(|one| of_plant(one, units)),
        variety.height.map(|reach| ends(reach, units)),
    )
}

/// A program gets the ends of what is stated without a name.
pub(super) fn stem(variety: &Variety, units: SizeUnits) -> Option<Cell> {
    let measured = measured_words(&variety.stem_lengths, "stem", units);
    told(
        measured,
        variety.stated_stems().map(|one| of_plant(one, units)),
        variety.stem.map(|reach| ends(reach, units)),
    )
}

/// A program gets the days and the stems tested, of what is stated without a name no stems.
pub(super) fn vase_life(variety: &Variety) -> Option<Cell> {
    let vase = variety.vase;
    let tested = vase.and_then(|vase| {
        let stems = match vase.stems?.get() {
            1 => "one stem".to_string(),
            stems => format!("{stems} stems"),
        };
        Some(format!("{} ({stems})", days(vase.days.get())))
    });
    let stated = variety.stated_vase();
    let stated = stated.map(|(lasts, by): Named<'_, Days>| said(days(lasts.get()), by));
    let figures = vase.map(|vase| {
        let stems = vase.stems.map(|stems| stems.get());
        Cell::Record(vec![
            ("days", Cell::Number(vase.days.get(), 1)),
            ("stems", stems.into()),
        ])
    });
    told(tested, stated, figures)
}

/// What was measured here: each mean in millimetres or days, and of how many.
pub(super) fn measured(variety: &Variety, units: SizeUnits) -> Option<Cell> {
    let of = |mean: Cell, count: Cell| Cell::Record(vec![("mean", mean), ("count", count)]);
    let lengths = |measured: &[Extent]| {
        let mean = length(mean(measured)?, units);
        Some(of(mean, measured.len().into()))
    };
    let tested = variety.vase.and_then(|vase| {
        let days = Cell::Number(vase.days.get(), 1);
        Some(of(days, vase.stems?.get().into()))
    });
    let each = [
        ("diameter", lengths(&variety.diameters)),
        ("height", lengths(&variety.plant_heights)),
        ("stem", lengths(&variety.stem_lengths)),
        ("vase", tested),
    ];
    let each = each
        .into_iter()
        .filter_map(|(what, cell)| Some((what, cell?)));
    let each: Vec<_> = each.collect();
    (!each.is_empty()).then_some(Cell::Record(each))
}

/// What is stated, each with who states it; nobody where that was not noted.
pub(super) fn stated(variety: &Variety) -> Option<Cell> {
    let one = |what: Dimension, value: String, by: Option<&Text>| {
        Cell::Record(vec![
            ("what", what.word().into()),
            ("value", value.into()),
            ("by", by.map(|by| by.as_str()).into()),
        ])
    };
    let sizes = variety.stated_sizes();
    let sizes = sizes.map(|(word, by)| one(Dimension::Size, word.to_string(), by));
    let across = variety.stated_diameters();
    let across = across.map(|(reach, by)| one(Dimension::Diameter, reach.to_string(), by));
    let heights = variety.stated_heights();
    let heights = heights.map(|(reach, by)| one(Dimension::Height, reach.to_string(), by));
    let stems = variety.stated_stems();
    let stems = stems.map(|(reach, by)| one(Dimension::Stem, reach.to_string(), by));
    let vase = variety.stated_vase();
    let vase = vase.map(|(lasts, by)| one(Dimension::Vase, days(lasts.get()), by));
    let all = sizes.chain(across).chain(heights).chain(stems).chain(vase);
    let all: Vec<Cell> = all.collect();
    (!all.is_empty()).then(|| Cell::list(all))
}

/// What was measured, then what is stated, in one line; `None` where there is neither.
fn told(
    measured: Option<String>,
    stated: impl Iterator<Item = String>,
    value: Option<Cell>,
) -> Option<Cell> {
    let all: Vec<String> = measured.into_iter().chain(stated).collect();
    (!all.is_empty()).then(|| Cell::worded(all.join("; "), value.unwrap_or(Cell::Nothing)))
}

fn measured_words(measured: &[Extent], what: &str, units: SizeUnits) -> Option<String> {
    let mean = Extent::try_from(mean(measured)?).ok()?;
    let mean = Reach::from(mean).shown(units);
    Some(format!(
        "{mean} ({} measured)",
        counted(measured.len(), what)
    ))
}

fn of_plant((reach, by): Named<'_, Reach>, units: SizeUnits) -> String {
    said(reach.shown(units), by)
}

/// `90 cm (stated by Oar Bulbs)`.
fn said(value: String, by: Option<&Text>) -> String {
    format!("{value} ({})", ground(by))
}

fn ground(by: Option<&Text>) -> String {
    match by {
        Some(by) => format!("stated by {by}"),
        None => "stated".to_string(),
    }
}

/// As finely as a bloom is measured.
fn across(reach: Reach, units: SizeUnits) -> String {
    let [low, high] = [reach.low(), reach.high()].map(|end| end.length().shown(units));
    match low == high {
        true => high,
        false => format!("{low} to {high}"),
    }
}

fn ends(reach: Reach, units: SizeUnits) -> Cell {
    Cell::list([reach.low(), reach.high()].map(|end| length(end.length(), units)))
}

/// A program gets millimetres.
fn length(length: Length, units: SizeUnits) -> Cell {
    Cell::Length(length, Scale::Bloom, units)
}
