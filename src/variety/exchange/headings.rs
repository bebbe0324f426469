//! The headings that each field is known by. One that may mean either of two fields is in none of these.

use super::field::Field;
use super::looked_up::bare;

/// Every field with its heading in an export and the other headings that it is known by.
const HEADINGS: [(Field, &str, &[&str]); 40] = [
    (
        Field::Name,
        "name",
        &[
            "variety",
            "cultivar",
            "variety name",
            "cultivar name",
            "dahlia",
        ],
    ),
    (
        Field::Raiser,
        "raiser",
        &[
            "breeder",
            "origin",
            "originator",
            "hybridiser",
            "hybridizer",
            "introducer",
            "raised by",
            "bred by",
        ],
    ),
    (
        Field::Form,
        "form",
        &[
            "type",
            "class",
            "flower form",
            "bloom form",
            "flower type",
            "form type",
            "shape",
            "classification",
        ],
    ),
    (Field::FormKnown, "form known", &["how form is known"]),
    (Field::FormBy, "form by", &["form according to"]),
    (Field::Bloom, "bloom", &["traits"]),
    (
        Field::Size,
        "size",
        &[
            "size class",
            "bloom size",
            "flower size",
            "catalogue size",
            "catalog size",
            "stated size",
            "listed size",
        ],
    ),
    (
        Field::Diameters,
        "measured diameters",
        // As exports had it before.
        &["measured diameter", "diameters"],
    ),
    (
        Field::StatedDiameter,
        "stated diameter",
        &["catalogue diameter", "catalog diameter", "listed diameter"],
    ),
    (Field::Colours, "colours", &["colors"]),
    (
        Field::Colour,
        "colour",
        &[
            "color",
            "main colour",
            "main color",
            "flower colour",
            "flower color",
            "bloom colour",
            "bloom color",
        ],
    ),
    (
        Field::SecondColour,
        "second colour",
        &[
            "second color",
            "secondary colour",
            "secondary color",
            "2nd colour",
            "2nd color",
            "colour 2",
            "color 2",
        ],
    ),
    (
        Field::ReverseColour,
        "reverse colour",
        &["reverse color", "reverse"],
    ),
    (
        Field::CentreColour,
        "centre colour",
        &[
            "center color",
            "centre color",
            "center colour",
            "disc colour",
            "disc color",
        ],
    ),
    (
        Field::Pattern,
        "pattern",
        &["colour pattern", "color pattern"],
    ),
    (
        Field::Height,
        "height",
        &["plant height", "stated height", "catalogue height"],
    ),
    (
        Field::PlantHeights,
        "measured heights",
        &["measured height"],
    ),
    (
        Field::Stem,
        "stem",
        &["stem length", "cut stem", "stated stem", "catalogue stem"],
    ),
    (Field::StemLengths, "measured stems", &["measured stem"]),
    (
        Field::Foliage,
        "foliage",
        &[
            "leaf",
            "leaves",
            "leaf colour",
            "leaf color",
            "foliage colour",
            "foliage color",
        ],
    ),
    (
        Field::Vase,
        "vase days",
        &["vase", "vase life", "days in vase", "vase life days"],
    ),
    (Field::VaseStems, "vase stems", &["stems tested"]),
    (Field::Stated, "stated", &["statements"]),
    (Field::StatedBy, "stated by", &["according to"]),
    (Field::Weather, "weather", &["weather damage"]),
    (
        Field::StemsAWeek,
        "stems a week",
        &[
            "stems per week",
            "stems a plant a week",
            "stems per plant per week",
            "weekly stems",
        ],
    ),
    (
        Field::StemsAPlant,
        "stems a plant",
        &["stems per plant", "stems plant", "yield"],
    ),
    (
        Field::OnHand,
        "on hand",
        &[
            "tubers on hand",
            "own stock",
            "own store",
            "my stock",
            "my store",
            "have",
        ],
    ),
    (Field::Offers, "offers", &[]),
    (
        Field::Supplier,
        "supplier",
        &[
            "vendor",
            "seller",
            "source",
            "nursery",
            "from",
            "bought from",
            "sold by",
            "supplied by",
        ],
    ),
    (
        Field::Price,
        "price",
        &["pack price", "price per pack", "price a pack", "cost"],
    ),
    (
        Field::Pack,
        "pack",
        &["pack size", "tubers per pack", "tubers a pack"],
    ),
    (
        Field::Available,
        "available",
        &[
            "packs available",
            "available packs",
            "availability",
            "supplier's stock",
            "supplier stock",
        ],
    ),
    (
        Field::AvailableTubers,
        "tubers available",
        &["available tubers"],
    ),
    (
        Field::Closes,
        "closes",
        &["closing date", "order by", "last order"],
    ),
    (
        Field::Protected,
        "protected",
        &[
            "breeders right",
            "breeder's right",
            "plant breeders rights",
            "pbr",
            "patented",
        ],
    ),
    (Field::Licence, "licence", &["license"]),
    (
        Field::Notes,
        "notes",
        &["note", "comments", "comment", "remarks", "description"],
    ),
    (
        Field::Shortlist,
        "shortlist",
        &["shortlisted", "wish list", "wishlist"],
    ),
    (Field::ShortlistNote, "shortlist note", &[]),
];

impl Field {
    /// Every field, in the order of an export.
    pub const ALL: [Field; HEADINGS.len()] = {
        let mut all = [Field::Name; HEADINGS.len()];
        let mut at = 0;
        while at < HEADINGS.len() {
            all[at] = HEADINGS[at].0;
            at += 1;
        }
        all
    };

    /// Its heading in an export.
    pub fn heading(self) -> &'static str {
        // OK because a test finds every field in its own place.
        HEADINGS[self as usize].1
    }

    /// Every heading that names a field, with the field: those of one field together.
    pub(super) fn spellings() -> impl Iterator<Item = (&'static str, Field)> {
        let rows = HEADINGS.iter();
        rows.flat_map(|(field, own, others)| {
            let all = std::iter::once(own).chain(*others);
            all.map(|heading| (*heading, *field))
        })
    }

    /// The field that a heading names; case, accents, spaces, hyphens and points do not matter.
    pub fn of_heading(heading: &str) -> Option<Field> {
        let wanted = bare(heading);
        let row = HEADINGS
            .iter()
            .find(|(_, own, others)| *own == wanted || others.contains(&wanted.as_str()));
        row.map(|(field, _, _)| *field)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_has_its_row_and_no_heading_names_two() {
        for (at, (field, own, others)) in HEADINGS.iter().enumerate() {
            assert_eq!(*field as usize, at, "{field:?}");
            for heading in others.iter().chain([own]) {
                assert_eq!(Field::of_heading(heading), Some(*field), "{heading}");
            }
        }
    }
}
