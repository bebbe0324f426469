//! One value of an account: how a person reads it, how a file holds it, how a program gets it.

use jiff::civil::Date;
use serde_json::{Value, json};

use crate::measure::{Length, Money, SizeUnits, percent};

/// What a cell of a table or a field holds.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Cell {
    /// Not known, or no question here: blank to a person, empty in a file, null to a program.
    #[default]
    Nothing,
    /// Words.
    Words(String),
    /// A whole number.
    Count(u64),
    /// A number, and how many decimals a person reads.
    Number(f64, usize),
    /// An amount of the grower's currency.
    Money(Money),
    /// A length; a program gets millimetres.
    Length(Length, Scale, SizeUnits),
    /// A day; a program gets it as `2027-01-31`.
    Date(Date),
    /// A part of a whole, 0 to 1.
    Share(f64),
    /// Yes or no.
    Truth(bool),
    /// Several of a kind.
    List(Vec<Cell>),
    /// Named values that belong together: for programs, so that nothing is shown of it.
    Record(Vec<(&'static str, Cell)>),
    /// The account of another thing, as a program gets it: nothing is shown of it.
    Object(Value),
    /// Words for a person and a file, and what a program gets instead.
    Told(String, Box<Cell>),
}

/// What a length is of, and so in which units a grower reads it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// Of a bloom: millimetres or inches.
    Bloom,
    /// Along a bed: metres or feet.
    Bed,
}

impl Cell {
    /// Words for a person, with what a program gets instead.
    pub fn worded(words: impl Into<String>, data: impl Into<Cell>) -> Cell {
        Cell::Told(words.into(), Box::new(data.into()))
    }

    /// Several values as one.
    pub fn list<T: Into<Cell>>(cells: impl IntoIterator<Item = T>) -> Cell {
        Cell::List(cells.into_iter().map(Into::into).collect())
    }

    /// As a person reads it.
    pub fn shown(&self) -> String {
        match self {
            Cell::Nothing | Cell::Record(_) | Cell::Object(_) => String::new(),
            Cell::Words(words) | Cell::Told(words, _) => words.clone(),
            Cell::Count(count) => count.to_string(),
            Cell::Number(number, places) => format!("{number:.places$}"),
            Cell::Money(money) => money.to_string(),
            Cell::Length(length, Scale::Bloom, units) => length.shown(*units),
            Cell::Length(length, Scale::Bed, units) => length.shown_along_a_bed(*units),
            Cell::Date(day) => day.to_string(),
            Cell::Share(share) => percent(*share),
            Cell::Truth(true) => "yes".to_string(),
            Cell::Truth(false) => "no".to_string(),
            Cell::List(cells) => {
                let shown: Vec<String> = cells.iter().map(Cell::shown).collect();
                shown.join(", ")
            }
        }
    }

    /// As a file of cells holds it: a number without its unit, a length that reads back exactly, and
    /// no words that a spreadsheet would take for a formula.
    pub fn in_a_file(&self) -> String {
        match self {
            Cell::Number(number, _) | Cell::Share(number) => number.to_string(),
            // In one unit, whatever each was written in.
            Cell::Length(length, ..) => Length::from_mm(length.mm()).to_string(),
            cell => crate::table::guard::neutral(&cell.shown()).into_owned(),
        }
    }

    /// As a program gets it.
    pub fn data(&self) -> Value {
        match self {
            Cell::Nothing => Value::Null,
            Cell::Words(words) => json!(words),
            Cell::Count(count) => json!(count),
            Cell::Number(number, _) | Cell::Share(number) => json!(number),
            Cell::Money(money) => json!(money.in_hundredths() as f64 / 100.0),
            Cell::Length(length, ..) => json!(length.mm().to_f64()),
            Cell::Date(day) => json!(day.to_string()),
            Cell::Truth(truth) => json!(truth),
            Cell::List(cells) => cells.iter().map(Cell::data).collect(),
            Cell::Record(fields) => {
                let fields = fields.iter();
                let fields = fields.map(|(id, cell)| ((*id).to_string(), cell.data()));
                Value::Object(fields.collect())
            }
            Cell::Object(object) => object.clone(),
            Cell::Told(_, data) => data.data(),
        }
    }
}

/// What a cell is made of, without a word more.
macro_rules! cell_of {
    ($($kind:ty: |$value:ident| $cell:expr;)+) => {
        $(impl From<$kind> for Cell {
            fn from($value: $kind) -> Cell {
                $cell
            }
        })+
    };
}

cell_of! {
    &str: |words| Cell::Words(words.to_string());
    String: |words| Cell::Words(words);
    u64: |count| Cell::Count(count);
    u32: |count| Cell::Count(count.into());
    u16: |count| Cell::Count(count.into());
    u8: |count| Cell::Count(count.into());
    usize: |count| Cell::Count(count as u64);
    bool: |truth| Cell::Truth(truth);
    Money: |money| Cell::Money(money);
    Date: |day| Cell::Date(day);
    Value: |object| Cell::Object(object);
}

impl<T: Into<Cell>> From<Option<T>> for Cell {
    fn from(value: Option<T>) -> Cell {
        value.map_or(Cell::Nothing, Into::into)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Exact, LengthUnit};

    #[test]
    fn every_kind_of_value_is_shown_and_written_in_its_one_way() {
        let row = Length::new(Exact::whole(20), LengthUnit::Metre);
        let bloom = Length::new(Exact::ratio(7, 2), LengthUnit::Inch);
        let day = jiff::civil::date(2027, 1, 31);
        let money = Money::hundredths(450);
        for (cell, shown, in_a_file, data) in [
            (Cell::Nothing, "", "", Value::Null),
            (
                "=Haaf Drift".into(),
                "=Haaf Drift",
                "'=Haaf Drift",
                json!("=Haaf Drift"),
            ),
            (12_u64.into(), "12", "12", json!(12)),
            (
                Cell::Number(2.0 / 3.0, 1),
                "0.7",
                "0.6666666666666666",
                json!(2.0 / 3.0),
            ),
            (Cell::Number(-0.5, 1), "-0.5", "-0.5", json!(-0.5)),
            (money.into(), "4.50", "4.50", json!(4.5)),
            (
                Cell::Length(bloom, Scale::Bloom, SizeUnits::In),
                "3.5 in",
                "88.9mm",
                json!(88.9),
            ),
            (
                Cell::Length(row, Scale::Bed, SizeUnits::Mm),
                "20.0 m",
                "20000mm",
                json!(20000.0),
            ),
            (
                Cell::Length(row, Scale::Bed, SizeUnits::In),
                "65.6 ft",
                "20000mm",
                json!(20000.0),
            ),
            (day.into(), "2027-01-31", "2027-01-31", json!("2027-01-31")),
            (Cell::Share(0.82), "82 %", "0.82", json!(0.82)),
            (true.into(), "yes", "yes", json!(true)),
            (Cell::list([36_u8, 37]), "36, 37", "36, 37", json!([36, 37])),
            (
                Cell::Record(vec![("n", 3_u32.into())]),
                "",
                "",
                json!({ "n": 3 }),
            ),
            (
                json!({ "rules": "mine" }).into(),
                "",
                "",
                json!({ "rules": "mine" }),
            ),
            (Cell::worded("7 days", 7_u8), "7 days", "7 days", json!(7)),
            (None::<Money>.into(), "", "", Value::Null),
        ] {
            assert_eq!(cell.shown(), shown);
            assert_eq!(cell.in_a_file(), in_a_file);
            assert_eq!(cell.data(), data);
        }
    }
}
