//! Labels on pages, and a page to see whether they fall where the sheet has them.

use kurbo::{Affine, Point, Rect};

use super::copies::{Placing, Run};
use super::stock::{Kind, LabelSheet};
use crate::colour::Srgb;
use crate::geometry::{Outline, Stroke};
use crate::measure::{SizeUnits, brief};
use crate::paper::{
    Align, Item, Margins, Orientation, Page, Printable, Setup, SetupError, Style, TextLine,
};

/// A line to cut along.
const CUT: Stroke = Stroke::new(Srgb::grey(150), 0.1);
/// Lines of the test page.
const THIN: Stroke = Stroke::new(Srgb::BLACK, 0.15);
/// The arms of the cross in the middle of a label of the test page, in mm.
const ARM: f64 = 3.0;
/// What a ruler and its figures take from the label's side, in mm.
const RULER: f64 = 12.0;
/// The most mm that all is moved: more leaves any page.
const FARTHEST: f64 = 100.0;

/// The pages of a sheet with these labels, those of one plant after those of the other.
///
/// # Errors
/// [`SetupError`] where the offset moves what is printed off the page.
pub fn pages(
    sheet: &LabelSheet,
    kind: &Kind,
    runs: &[Run],
    placing: Placing,
) -> Result<Vec<Page>, SetupError> {
    let blank = blank(sheet, kind, placing.offset)?;
    let first = placing.from.saturating_sub(1);
    let mut pages: Vec<Page> = Vec::new();
    let copies = runs
        .iter()
        .flat_map(|run| (1..=run.copies).map(move |number| (run, number)));
    for (count, (run, number)) in copies.enumerate() {
        let at = (first + count) % sheet.labels();
        if at == 0 || pages.is_empty() {
            pages.push(blank.clone());
        }
        let Some(page) = pages.last_mut() else {
            continue;
        };
        let place = place(sheet, at, placing.offset);
        if sheet.cut {
            let (width, height) = sheet.label;
            let frame = Outline::of(Rect::new(0.0, 0.0, width, height)).stroked(CUT);
            page.items.push(frame.placed(place).into());
        }
        let items = run.label.items.iter();
        page.items.extend(items.map(|item| item.placed(place)));
        let told = run.label.number(number, run.copies);
        page.items.extend(told.map(|item| item.placed(place)));
    }
    Ok(pages)
}

/// A page with the frame, the middle and the number of every label, and a ruler: held against the
/// labels in front of a light it shows by how much to move what is printed.
///
/// # Errors
/// As [`pages`].
pub fn test_page(sheet: &LabelSheet, kind: &Kind, offset: (f64, f64)) -> Result<Page, SetupError> {
    let mut page = blank(sheet, kind, offset)?;
    let (width, height) = sheet.label;
    for at in 0..sheet.labels() {
        let place = place(sheet, at, offset);
        let half = THIN.width / 2.0;
        let inner = Rect::new(half, half, width - half, height - half);
        let middle = inner.center();
        let mut items: Vec<Item> = vec![Outline::of(inner).stroked(THIN).into()];
        let arms = [(ARM, 0.0), (0.0, ARM)];
        items.extend(
            arms.map(|(x, y)| Outline::line(middle - (x, y), middle + (x, y), THIN).into()),
        );
        let number = format!("label {}", at + 1);
        // Beside the cross on the first one, whose rulers have the room above it.
        let by = match at {
            0 => Point::new(middle.x + 4.0 * ARM, middle.y + 1.0),
            _ => Point::new(middle.x, middle.y - ARM - 1.0),
        };
        items.extend(words(&number, Style::bold(9.0), by, width - 2.0));
        if at == 0 {
            items.extend(ruler(width, false));
            items.extend(ruler(height, true));
            // In the unit of the offset, which is typed in millimetres.
            let told = [
                "print at 100 %, not fitted to the page".to_string(),
                format!("{}: {}", sheet.id, sheet.described(SizeUnits::Mm)),
                format!("printed with an offset of {},{}", offset.0, offset.1),
                "1 mm too far right and 2 too low? --offset -1,-2".to_string(),
            ];
            for (line, text) in told.iter().enumerate() {
                let y = middle.y + ARM + 3.5 + 3.4 * line as f64;
                if y < height - 1.5 {
                    let at = Point::new(middle.x + RULER / 2.0, y);
                    items.extend(words(text, Style::regular(7.0), at, width - RULER - 4.0));
                }
            }
        }
        page.items
            .extend(items.iter().map(|item| item.placed(place)));
    }
    Ok(page)
}

/// Marks every millimetre along the upper edge from the left, or along the left one from above, with
/// each tenth told: a scale of 100 % shows by them.
fn ruler(length: f64, down: bool) -> Vec<Item> {
    let turned = |(along, off): (f64, f64)| match down {
        true => (off, along),
        false => (along, off),
    };
    let style = Style::regular(6.5);
    let mut items = Vec::new();
    for mm in 0..=length.floor() as u32 {
        let long = match mm {
            mm if mm % 10 == 0 => 3.0,
            mm if mm % 5 == 0 => 2.0,
            _ => 1.2,
        };
        let along = f64::from(mm).clamp(THIN.width / 2.0, length - THIN.width / 2.0);
        items.push(Outline::line(turned((along, 0.1)), turned((along, long)), THIN).into());
        // None where it would leave the label.
        let told = mm > 0 && mm % 10 == 0 && f64::from(mm) + 4.0 <= length;
        // OK to leave out: figures and the unit are in every font.
        if let (true, Ok(text)) = (told, Printable::new(&format!("{mm} mm"))) {
            let (at, align) = match down {
                true => ((long + 0.6, along + style.capital() / 2.0), Align::Left),
                false => ((along, long + 0.6 + style.capital()), Align::Centre),
            };
            items.push(TextLine::new(text, style, at).aligned(align).into());
        }
    }
    items
}

/// A text about this place in at most so many mm.
fn words(text: &str, style: Style, at: Point, room: f64) -> Option<Item> {
    // OK to leave out: the ids of sheets are words of a file that may hold any letter.
    let text = Printable::new(text).ok()?;
    let style = text.shrunk(style, 3.0, room).ok()?;
    Some(TextLine::new(text, style, at).aligned(Align::Centre).into())
}

/// An empty page of the sheet.
fn blank(sheet: &LabelSheet, kind: &Kind, offset: (f64, f64)) -> Result<Page, SetupError> {
    let paper = sheet.sheet_of_paper();
    let (right, bottom) = sheet.end();
    // What is on a label keeps its margin, so that an offset may use it.
    let margin = if sheet.cut { 0.0 } else { kind.margin };
    let margins = Margins {
        top: sheet.first.1 + margin,
        right: (paper.width - right).max(0.0) + margin,
        bottom: (paper.height - bottom).max(0.0) + margin,
        left: sheet.first.0 + margin,
    };
    let lies = match paper.width <= paper.height {
        true => Orientation::Portrait,
        false => Orientation::Landscape,
    };
    Ok(Setup::new(&paper, lies, margins, offset)?.page(&[]))
}

fn place(sheet: &LabelSheet, at: usize, offset: (f64, f64)) -> Affine {
    Affine::translate(sheet.corner(at)).then_translate(offset.into())
}

/// Reads by how much all is moved: `-1,0.5`, in millimetres to the right and down.
///
/// # Errors
/// In a sentence: what was found, and what was expected.
pub fn read_offset(text: &str) -> Result<(f64, f64), String> {
    let read = || {
        let (x, y) = text.split_once(',')?;
        let number = |text: &str| {
            text.trim()
                .trim_end_matches("mm")
                .trim()
                .parse::<f64>()
                .ok()
        };
        number(x).zip(number(y))
    };
    let fits = |(x, y): &(f64, f64)| x.abs() <= FARTHEST && y.abs() <= FARTHEST;
    read().filter(fits).ok_or_else(|| {
        format!(
            "found the offset {text:?}, expected millimetres to the right and down such as -1,0.5",
            text = brief(text)
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tag::stock::Stock;

    #[test]
    fn a_test_page_tells_every_centimetre_both_ways_and_how_it_is_printed() {
        let stock = Stock::embedded();
        for sheet in &stock.sheets {
            let kind = stock.kind(&sheet.kind).expect("a kind");
            let page = test_page(sheet, kind, (0.0, 0.0)).expect("a page");
            let told = |text: &str| {
                let lines = page.lines().filter(|line| line.text.as_str() == text);
                lines.count()
            };
            assert_eq!([told("10 mm"), told("20 mm")], [2, 2], "{}", sheet.id);
            assert_eq!(told("80 mm"), 1, "{}", sheet.id);
            assert_eq!(told("print at 100 %, not fitted to the page"), 1);
        }
    }
}
