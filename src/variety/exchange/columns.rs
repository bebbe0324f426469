//! Which column is which field, told by its heading.

use super::own_words::{Kind, OwnWords, UNKNOWN, looked_up};
use crate::measure::LengthUnit;
use crate::table::{Row, Table};
use crate::variety::text::plain;

/// A field of a variety as a column has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)] // The table below says what each is.
pub enum Field {
    Name,
    Raiser,
    Form,
    FormKnown,
    FormBy,
    Bloom,
    Size,
    Diameters,
    Colours,
    Colour,
    SecondColour,
    ReverseColour,
    CentreColour,
    Pattern,
    Height,
    Stem,
    Foliage,
    Vase,
    VaseStems,
    Weather,
    StemsAPlant,
    OnHand,
    Offers,
    Supplier,
    Price,
    Pack,
    Available,
    Closes,
    Protected,
    Licence,
    Notes,
    Shortlist,
    ShortlistNote,
}

/// Every field with its heading in an export and the other headings that it is known by.
const HEADINGS: [(Field, &str, &[&str]); 33] = [
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
        &["size class", "bloom size", "flower size"],
    ),
    (
        Field::Diameters,
        "diameters",
        &[
            "diameter",
            "bloom diameter",
            "flower diameter",
            "measured diameter",
            "measured diameters",
        ],
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
    (Field::Height, "height", &["plant height"]),
    (Field::Stem, "stem", &["stem length", "cut stem"]),
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
    (Field::Weather, "weather", &["weather damage"]),
    (
        Field::StemsAPlant,
        "stems a plant",
        &["stems per plant", "stems plant", "yield"],
    ),
    (
        Field::OnHand,
        "on hand",
        &[
            "stock",
            "in stock",
            "tubers",
            "tubers on hand",
            "quantity",
            "qty",
            "have",
        ],
    ),
    (Field::Offers, "offers", &[]),
    (
        Field::Supplier,
        "supplier",
        &["vendor", "seller", "source", "nursery"],
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
        &["packs available", "availability"],
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

/// One column of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its heading as written.
    pub heading: String,
    /// What it is read as; `None` where it is not read.
    pub field: Option<Field>,
    /// The unit of its bare numbers, where the heading names one.
    pub unit: Option<LengthUnit>,
}

/// The columns of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Columns {
    /// In the file's order.
    pub columns: Vec<Column>,
    /// Index of the heading row in the table.
    pub heading_row: usize,
}

/// Rows that may stand above the heading: a title, a date.
const MOST_TITLE_ROWS: usize = 10;

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

    /// The field that a heading names; case, accents, spaces, hyphens and points do not matter.
    pub fn of_heading(heading: &str) -> Option<Field> {
        let wanted = bare(heading);
        let row = HEADINGS
            .iter()
            .find(|(_, own, others)| *own == wanted || others.contains(&wanted.as_str()));
        row.map(|(field, _, _)| *field)
    }

    /// Whether its cells are lengths.
    pub fn is_length(self) -> bool {
        matches!(
            self,
            Field::Size | Field::Diameters | Field::Height | Field::Stem
        )
    }
}

impl Columns {
    /// Finds the heading row and reads it.
    ///
    /// # Errors
    /// One clause with what was found and what was expected: no heading for the name, or two
    /// headings for one field.
    pub fn of(table: &Table, own: &OwnWords) -> Result<Columns, String> {
        let Some(first) = table.rows.first() else {
            return Err("found no rows, expected a heading and a row a variety".to_string());
        };
        let named = |row: &Row| {
            read(row, own)
                .iter()
                .any(|one| one.field == Some(Field::Name))
        };
        let heading_row = table.rows.iter().take(MOST_TITLE_ROWS).position(named);
        let Some(heading_row) = heading_row else {
            let found: Vec<String> = first
                .cells
                .iter()
                .map(|cell| format!("{:?}", plain(cell)))
                .collect();
            return Err(format!(
                "line {}: found the headings {}, expected one for the name such as name, variety or cultivar; say which by --map heading:\"your heading\"=name",
                first.line,
                found.join(", ")
            ));
        };
        let columns = read(&table.rows[heading_row], own);
        for (at, column) in columns.iter().enumerate() {
            let same = |other: &&Column| column.field.is_some() && other.field == column.field;
            if let Some(other) = columns[..at].iter().find(same) {
                return Err(format!(
                    "line {}: found the headings {:?} and {:?} for the same thing, expected one; leave one out by --map heading:{:?}=unknown",
                    table.rows[heading_row].line, other.heading, column.heading, column.heading
                ));
            }
        }
        Ok(Columns {
            columns,
            heading_row,
        })
    }

    /// The rows below the heading.
    pub fn rows<'a>(&self, table: &'a Table) -> &'a [Row] {
        table.rows.get(self.heading_row + 1..).unwrap_or_default()
    }

    /// Whether the file has a field.
    pub fn has(&self, field: Field) -> bool {
        self.columns
            .iter()
            .any(|column| column.field == Some(field))
    }
}

fn read(row: &Row, own: &OwnWords) -> Vec<Column> {
    let column = |at: usize| {
        let heading = plain(row.cell(at));
        let (words, unit) = split_unit(&heading);
        let mapped = own.find(Kind::Heading, &heading);
        let field = match mapped {
            Some(UNKNOWN) => None,
            Some(term) => Field::of_heading(term),
            None => Field::of_heading(&heading).or_else(|| Field::of_heading(&words)),
        };
        Column {
            unit: unit.filter(|_| field.is_some_and(Field::is_length)),
            heading,
            field,
        }
    };
    (0..row.cells.len()).map(column).collect()
}

/// `height (cm)`, `height [cm]`, `height, cm`, `height in cm`: the words, and the unit.
fn split_unit(heading: &str) -> (String, Option<LengthUnit>) {
    let text = heading.trim().trim_end_matches([')', ']']);
    let Some((words, last)) = text.rsplit_once([' ', '(', '[', ',', '/', '_']) else {
        return (heading.to_string(), None);
    };
    let Some(unit) = LengthUnit::named(&last.to_lowercase()) else {
        return (heading.to_string(), None);
    };
    let words = words.trim_end_matches([' ', '(', '[', ',', '/', '_']);
    (
        words.strip_suffix(" in").unwrap_or(words).to_string(),
        Some(unit),
    )
}

/// A heading as it is compared: folded, and whatever is no letter or digit a space.
fn bare(heading: &str) -> String {
    let spaced: String = looked_up(heading)
        .chars()
        .map(|c| {
            if c.is_alphanumeric() || c == '\'' {
                c
            } else {
                ' '
            }
        })
        .collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
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

    #[test]
    fn a_heading_gives_its_column_a_unit() {
        for (heading, field, unit) in [
            (
                "Height (cm)",
                Some(Field::Height),
                Some(LengthUnit::Centimetre),
            ),
            (
                "stem length in inches",
                Some(Field::Stem),
                Some(LengthUnit::Inch),
            ),
            (
                "BLOOM_SIZE [mm]",
                Some(Field::Size),
                Some(LengthUnit::Millimetre),
            ),
            (
                "Diameter, in",
                Some(Field::Diameters),
                Some(LengthUnit::Inch),
            ),
            ("Type", Some(Field::Form), None),
            ("Photo", None, None),
        ] {
            let row = Row {
                line: 1,
                cells: vec![heading.to_string()],
            };
            let column = &read(&row, &OwnWords::default())[0];
            assert_eq!((column.field, column.unit), (field, unit), "{heading}");
        }
    }
}
