//! Lengths as grown lists write them: `10cm`, `9,5 cm`, `4"`, `3 1/2 in`, `3'6"`, `90-120` under
//! `height (cm)`. An error is one clause, found and expected.

use super::cell::{items, with_point};
use crate::form::space::Span;
use crate::measure::brief;
use crate::measure::{Exact, Length, LengthUnit};
use crate::variety::extent::{Extent, Reach, ends};

/// A length as written, or a bare number of `unit`.
pub(super) fn length(cell: &str, unit: Option<LengthUnit>) -> Result<Extent, String> {
    Extent::try_from(any_length(cell, unit)?)
}

/// Lengths, with semicolons or commas between.
pub(super) fn lengths(cell: &str, unit: Option<LengthUnit>) -> Result<Vec<Extent>, String> {
    let mut found = Vec::new();
    for item in items(cell) {
        match length(&item, unit) {
            Ok(one) => found.push(one),
            Err(error) => {
                let each = item.split(',').map(|one| length(one.trim(), unit));
                let each: Result<Vec<Extent>, String> = each.collect();
                found.extend(each.map_err(|_| error)?);
            }
        }
    }
    Ok(found)
}

/// A length, or a span of lengths, of the plant.
pub(super) fn reach(cell: &str, unit: Option<LengthUnit>) -> Result<Reach, String> {
    let (low, high) = length_or_span(cell, unit)?;
    Reach::between(low.try_into()?, high.try_into()?).ok_or_else(|| {
        format!(
            "found {cell:?}, expected the lower end first",
            cell = brief(cell)
        )
    })
}

/// A length or a span of lengths in millimetres.
pub(super) fn span(cell: &str, unit: Option<LengthUnit>) -> Result<Span, String> {
    let (low, high) = length_or_span(cell, unit)?;
    Ok(Span::closed(low.mm(), high.mm()))
}

fn length_or_span(cell: &str, unit: Option<LengthUnit>) -> Result<(Length, Length), String> {
    match any_length(cell, unit) {
        Ok(length) => Ok((length, length)),
        Err(error) => {
            let span = ends(cell, |end| any_length(end, unit).ok());
            span.ok_or_else(|| format!("{error}, or a span such as 90-120cm"))
        }
    }
}

fn any_length(cell: &str, unit: Option<LengthUnit>) -> Result<Length, String> {
    let written = cell
        .trim()
        .replace(['”', '″', '“'], "\"")
        .replace("''", "\"")
        .replace(['′', '’'], "'");
    if let Some(whole) = feet_and_inches(&written) {
        return Ok(whole);
    }
    let written = match written.strip_suffix('\'') {
        Some(feet) => format!("{feet}ft"),
        None => written,
    };
    let written = with_point(&written);
    match (written.parse::<Exact>(), unit) {
        (Ok(number), Some(unit)) => Ok(Length::new(number, unit)),
        (Ok(_), None) => Err(format!(
            "found {cell:?} without a unit, expected one in the cell, such as 90cm or 4in, or in the heading, such as height (cm)",
            cell = brief(cell)
        )),
        (Err(_), _) => written.parse::<Length>().map_err(|_| {
            format!(
                "found {cell:?}, expected a length such as 98mm, 9.8cm, 3.5in or 3 1/2 in",
                cell = brief(cell)
            )
        }),
    }
}

/// `3'6"`, `3' 6 1/2"`, `3 ft 6 in`, `3'6`: whole feet, then inches under a foot.
fn feet_and_inches(written: &str) -> Option<Length> {
    let (feet, inches) = ["'", "feet", "foot", "ft"]
        .iter()
        .find_map(|mark| written.split_once(mark))?;
    let feet: u32 = feet.trim().parse().ok()?;
    let inches = inches.trim();
    let bare = ["\"", "inches", "inch", "in"]
        .iter()
        .find_map(|mark| inches.strip_suffix(mark));
    let inches: Exact = bare.unwrap_or(inches).trim().parse().ok()?;
    let whole = Exact::whole(i64::from(feet) * 12) + inches;
    let under_a_foot = inches >= Exact::zero() && inches < Exact::whole(12);
    under_a_foot.then(|| Length::new(whole, LengthUnit::Inch))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_read_as_written() {
        let cm = Some(LengthUnit::Centimetre);
        for (cell, unit, mm) in [
            ("4\"", None, 101.6),
            ("4”", None, 101.6),
            ("4''", None, 101.6),
            ("4 in", None, 101.6),
            ("10cm", None, 100.0),
            ("100mm", None, 100.0),
            ("10", cm, 100.0),
            ("4 in", cm, 101.6),
            ("9,5 cm", None, 95.0),
            ("3'", None, 914.4),
            ("3 1/2\"", None, 88.9),
            ("3'6\"", None, 1066.8),
            ("3’ 6½”", None, 1079.5),
            ("3' 6 1/2\"", None, 1079.5),
            ("3 ft 6 in", None, 1066.8),
            ("3'6", cm, 1066.8),
        ] {
            let read = length(cell, unit).map(Extent::mm).expect(cell);
            assert!((read - mm).abs() < 1e-9, "{cell}: {read}");
        }
        assert!(
            length("90", None)
                .expect_err("bare")
                .contains("without a unit")
        );
        for cell in [
            "1,200 mm", "tall", "-4cm", "4 in 6", "0cm", "3'14\"", "3'-6\"",
        ] {
            assert!(length(cell, None).is_err(), "{cell}");
        }
    }

    #[test]
    fn spans_are_read_as_written_and_kept() {
        let cm = Some(LengthUnit::Centimetre);
        for (cell, unit, low, high) in [
            ("90-120cm", None, 900.0, 1200.0),
            ("90-120", cm, 900.0, 1200.0),
            ("90–120", cm, 900.0, 1200.0),
            ("0,9-1,2 m", None, 900.0, 1200.0),
            ("3-4ft", None, 914.4, 1219.2),
            // The cell's own unit counts for both ends, whatever the heading says.
            ("3-4ft", cm, 914.4, 1219.2),
            ("3'-4'", None, 914.4, 1219.2),
            ("3-4’", None, 914.4, 1219.2),
            ("3'6\"-4'", None, 1066.8, 1219.2),
            ("36\"-48\"", None, 914.4, 1219.2),
            ("36”–48”", None, 914.4, 1219.2),
            ("1.1m", None, 1100.0, 1100.0),
        ] {
            let read = reach(cell, unit).expect(cell);
            let off = (read.low().mm() - low).abs() + (read.high().mm() - high).abs();
            assert!(off < 1e-9, "{cell}: {read}");
            assert_eq!(reach(&read.to_string(), None), Ok(read), "{cell}");
        }
        for (cell, unit) in [
            ("90-120", None),
            ("120-90", cm),
            ("90-", cm),
            ("90-tall", cm),
            ("3-40m", None),
        ] {
            assert!(reach(cell, unit).is_err(), "{cell}");
        }
    }
}
