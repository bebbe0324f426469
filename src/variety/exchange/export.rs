//! Varieties as a table: a row a variety, a column a field, nothing lost.

use std::borrow::Cow;

use super::cell;
use super::colours;
use super::field::Field;
use super::statement;
use crate::colour::Part;
use crate::table::guard;
use crate::variety::extent::Extent;
use crate::variety::record::Variety;

/// Varieties as rows of cells, the heading first. Several diameters, colours, offers or counts
/// after weather stand in one cell with semicolons between; a cell that a spreadsheet would take
/// for a formula has an apostrophe in front. An import reads it back as the same varieties.
pub fn export<'a>(varieties: impl IntoIterator<Item = &'a Variety>) -> Vec<Vec<String>> {
    let fields: Vec<Field> = Field::ALL
        .into_iter()
        .filter(|one| one.is_exported())
        .collect();
    let heading = fields
        .iter()
        .map(|field| field.heading().to_string())
        .collect();
    let row = |variety: &Variety| {
        let cells = fields
            .iter()
            .map(|field| written(variety, *field).unwrap_or_default());
        cells
            .map(|cell| guard::neutral(&cell).into_owned())
            .collect()
    };
    std::iter::once(heading)
        .chain(varieties.into_iter().map(row))
        .collect()
}

impl Field {
    /// Whether an export has the field. The others are parts of `colours`, `offers` and `stated`,
    /// which say more than they can.
    pub fn is_exported(self) -> bool {
        !matches!(
            self,
            Field::Colour
                | Field::SecondColour
                | Field::ReverseColour
                | Field::CentreColour
                | Field::Pattern
                | Field::Supplier
                | Field::Price
                | Field::Pack
                | Field::Available
                | Field::AvailableTubers
                | Field::Closes
                | Field::StatedDiameter
                | Field::StatedBy
        )
    }
}

/// A field as an export writes it, or as the part of a field that a plainer file has; `None` where
/// it is unknown.
pub(super) fn written(variety: &Variety, field: Field) -> Option<Cow<'_, str>> {
    let text = |text: &'_ Option<crate::variety::Text>| {
        text.as_ref().map(|one| Cow::Owned(one.to_string()))
    };
    let number = |number: String| Some(Cow::Owned(number));
    let many =
        |all: Vec<String>| (!all.is_empty()).then(|| Cow::Owned(cell::joined(all.into_iter())));
    let lengths = |all: &[Extent]| many(all.iter().map(|one| one.length().to_string()).collect());
    let part = |part: Part| {
        let found = variety.colours.iter().find(|one| one.part == part);
        found.map(|one| Cow::Owned(one.colour.to_string()))
    };
    match field {
        Field::Name => Some(Cow::Owned(cell::name_out(&variety.name))),
        Field::Raiser => text(&variety.raiser),
        Field::Form => variety
            .form
            .as_ref()
            .map(|form| Cow::Borrowed(form.id.as_str())),
        Field::FormKnown => variety
            .form
            .as_ref()
            .map(|form| Cow::Borrowed(form.known.word())),
        Field::FormBy => text(&variety.form.as_ref()?.by),
        Field::Bloom => Some(Cow::Borrowed(variety.bloom.as_ref()?.written()?.as_str())),
        Field::Size => text(&variety.size),
        Field::Diameters => lengths(&variety.diameters),
        Field::StatedDiameter => {
            let (reach, _) = variety.stated_diameters().next()?;
            number(reach.to_string())
        }
        Field::Colours => Some(colours::written(&variety.colours))
            .filter(|out| !out.is_empty())
            .map(Cow::Owned),
        Field::Colour => part(Part::Main),
        Field::SecondColour => part(Part::Second),
        Field::ReverseColour => part(Part::Reverse),
        Field::CentreColour => part(Part::Centre),
        Field::Pattern => variety
            .colours
            .first()
            .map(|one| Cow::Borrowed(one.pattern.word())),
        Field::Height => number(variety.height?.to_string()),
        Field::PlantHeights => lengths(&variety.plant_heights),
        Field::Stem => number(variety.stem?.to_string()),
        Field::StemLengths => lengths(&variety.stem_lengths),
        Field::Foliage => variety.foliage.map(|one| Cow::Borrowed(one.word())),
        Field::Vase => number(variety.vase?.days.get().to_string()),
        Field::VaseStems => number(variety.vase?.stems?.to_string()),
        Field::Stated => Some(statement::written(&variety.stated))
            .filter(|out| !out.is_empty())
            .map(Cow::Owned),
        Field::Weather => many(variety.weather.iter().map(ToString::to_string).collect()),
        Field::StemsAWeek => number(variety.stems_a_week?.get().to_string()),
        Field::StemsAPlant => number(variety.stems_a_plant?.to_string()),
        Field::OnHand => number(variety.on_hand?.to_string()),
        Field::Offers => many(variety.offers.iter().map(cell::offer_out).collect()),
        Field::Protected => variety
            .protected
            .map(|yes| Cow::Borrowed(if yes { "yes" } else { "no" })),
        Field::Licence => text(&variety.licence),
        Field::Notes => text(&variety.notes),
        Field::Shortlist => variety.shortlist.as_ref().map(|_| Cow::Borrowed("yes")),
        Field::ShortlistNote => text(&variety.shortlist.as_ref()?.note),
        Field::Supplier
        | Field::Price
        | Field::Pack
        | Field::Available
        | Field::AvailableTubers
        | Field::Closes
        | Field::StatedBy => None,
    }
}
