//! Labels on pages, and a page to see whether they fall where the sheet has them.

use kurbo::{Affine, Point, Rect};

use super::label::Label;
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
/// The most mm that all is moved: more leaves any page.
const FARTHEST: f64 = 100.0;

/// The pages of a sheet with these labels, moved by `offset` mm to the right and down.
///
/// # Errors
/// [`SetupError`] where the offset moves what is printed off the page.
pub fn pages(
    sheet: &LabelSheet,
    kind: &Kind,
    labels: Vec<Label>,
    offset: (f64, f64),
) -> Result<Vec<Page>, SetupError> {
    let blank = blank(sheet, kind, offset)?;
    let mut pages: Vec<Page> = Vec::new();
    for (number, label) in labels.into_iter().enumerate() {
        let at = number % sheet.labels();
        if at == 0 {
            pages.push(blank.clone());
        }
        let Some(page) = pages.last_mut() else {
            continue;
        };
        let place = place(sheet, at, offset);
        if sheet.cut {
            let (width, height) = sheet.label;
            let frame = Outline::of(Rect::new(0.0, 0.0, width, height)).stroked(CUT);
            page.items.push(frame.placed(place).into());
        }
        let items = label.items.iter();
        page.items.extend(items.map(|item| item.placed(place)));
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
        items.extend(words(
            &number,
            Style::bold(9.0),
            Point::new(middle.x, middle.y - ARM - 1.0),
        ));
        if at == 0 {
            items.extend(ruler(width));
            // In the unit of the offset, which is typed in millimetres.
            let told = [
                format!("{}: {}", sheet.id, sheet.described(SizeUnits::Mm)),
                format!("printed with an offset of {},{}", offset.0, offset.1),
                "1 mm too far right and 2 too low? --offset -1,-2".to_string(),
            ];
            for (line, text) in told.iter().enumerate() {
                let y = middle.y + ARM + 3.5 + 3.4 * line as f64;
                if y < height - 1.5 {
                    items.extend(words(text, Style::regular(7.0), Point::new(middle.x, y)));
                }
            }
        }
        page.items
            .extend(items.iter().map(|item| item.placed(place)));
    }
    Ok(page)
}

/// Marks every millimetre along the upper edge, from the left: a scale of 100 % shows by it.
fn ruler(width: f64) -> Vec<Item> {
    let marks = (0..=width.floor() as u32).map(|mm| {
        let length = match mm {
            mm if mm % 10 == 0 => 3.0,
            mm if mm % 5 == 0 => 2.0,
            _ => 1.2,
        };
        let x = f64::from(mm).clamp(THIN.width / 2.0, width - THIN.width / 2.0);
        Outline::line((x, 0.1), (x, length), THIN).into()
    });
    marks.collect()
}

fn words(text: &str, style: Style, at: Point) -> Option<Item> {
    // OK to leave out: the ids of sheets are words of a file that may hold any letter.
    let text = Printable::new(text).ok()?;
    let style = text.shrunk(style, 3.0, at.x * 2.0 - 2.0).ok()?;
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
