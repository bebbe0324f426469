//! Whether kinds and sheets can be printed as the file has them.

use super::{Kind, LabelSheet, Small, Stock};
use crate::paper::Paper;
use crate::problem::{Path, Wrong};

/// The largest label or sheet, in mm: more is a slip of the keyboard.
const LARGEST: f64 = 2000.0;
/// The least and the most points of letters: below, nobody reads them; above, one is as high as a
/// page, and a slip of the keyboard.
const LETTERS: (f64, f64) = (4.0, 400.0);
/// The most lines of a title: more fit on no label.
const MOST_LINES: usize = 20;

impl Stock {
    /// What is wrong with it, the first of all.
    pub(super) fn checked(&self) -> Result<(), Wrong> {
        self.checked_shares()?;
        let planting = self.practice.planting.checked();
        planting.map_err(|wrong| of("planting", wrong).within(Path::field("planting")))?;
        for (at, kind) in self.kinds.iter().enumerate() {
            let again = self.kinds[..at].iter().any(|other| other.id == kind.id);
            let own = match again {
                true => wrong("id", "found the kind twice, expected it once"),
                false => kind.checked(),
            };
            own.map_err(|wrong| of(&kind.id, wrong).within(Path::field("kinds").nth(at)))?;
        }
        for (at, sheet) in self.sheets.iter().enumerate() {
            let again = self.sheets[..at].iter().any(|other| other.id == sheet.id);
            let own = if again {
                wrong("id", "found the sheet twice, expected it once")
            } else if self.kind(&sheet.kind).is_none() {
                let told = format!("found the kind {:?}, expected one of `kinds`", sheet.kind);
                wrong("kind", told)
            } else {
                sheet.checked()
            };
            own.map_err(|wrong| of(&sheet.id, wrong).within(Path::field("sheets").nth(at)))?;
        }
        Ok(())
    }

    fn checked_shares(&self) -> Result<(), Wrong> {
        let shares = [
            ("floor", self.practice.floor),
            ("observed", self.practice.observed),
        ];
        if let Some((field, _)) = shares.iter().find(|one| !(0.0..=1.0).contains(&one.1)) {
            let told = format!("{field}: found a share outside 0 to 1, expected 0 to 1");
            return wrong(field, told);
        }
        if !(self.module > 0.0 && self.module <= self.comfort && self.comfort < 5.0) {
            return wrong(
                "module",
                format!(
                    "module: found {} mm and a comfort of {} mm, expected them over 0 and under 5 mm, \
                     and comfort no less",
                    self.module, self.comfort
                ),
            );
        }
        Ok(())
    }
}

/// Something wrong at a field.
fn wrong<T>(field: &'static str, told: impl Into<String>) -> Result<T, Wrong> {
    Err(Wrong::new(Path::field(field), told))
}

/// The same, told with the id of what it is in.
fn of(id: &str, mut wrong: Wrong) -> Wrong {
    wrong.message = format!("{id}: {}", wrong.message);
    wrong
}

impl Kind {
    fn checked(&self) -> Result<(), Wrong> {
        let title = ("title", self.title.least, self.title.points);
        let body = ("body", self.body.least, self.body.points);
        // Without facts there are no letters of theirs.
        let small = (!self.small.tells.is_empty() || self.small != Small::default()).then_some((
            "small",
            self.small.least,
            self.small.points,
        ));
        let over = ("title", LETTERS.0, self.title.over);
        let sizes: Vec<_> = [title, over, body].into_iter().chain(small).collect();
        let rise =
            |least: f64, points: f64| least >= LETTERS.0 && least <= points && points <= LETTERS.1;
        if let Some((field, ..)) = sizes.iter().find(|one| !rise(one.1, one.2)) {
            return wrong(
                field,
                format!(
                    "found sizes of letters that do not rise from `least` to `points`, expected {} to \
                     {} points",
                    LETTERS.0, LETTERS.1
                ),
            );
        }
        let lengths = [
            ("drawing", self.drawing),
            ("code", self.code),
            ("margin", self.margin),
        ];
        let amiss = lengths.iter().find(|one| !(0.0..LARGEST).contains(&one.1));
        if let Some((field, mm)) = amiss {
            return wrong(
                field,
                format!("found a length below 0 or of {LARGEST} mm or more: {mm} mm"),
            );
        }
        let beside = self.title.beside.unwrap_or(0.0);
        if !(1..=MOST_LINES).contains(&self.title.lines) || !(0.0..LARGEST).contains(&beside) {
            return wrong(
                "title",
                format!(
                    "found a title of {} lines, {beside} mm wide, expected 1 to {MOST_LINES} lines \
                     and under {LARGEST} mm",
                    self.title.lines
                ),
            );
        }
        Ok(())
    }
}

impl LabelSheet {
    fn checked(&self) -> Result<(), Wrong> {
        let (width, height) = self.label;
        let length = |mm: f64| (10.0..=LARGEST).contains(&mm);
        if !length(width) || !length(height) {
            return wrong(
                "label",
                format!(
                    "found a label of {width} by {height} mm, expected sides of 10 to {LARGEST} mm"
                ),
            );
        }
        let labels = self.across.checked_mul(self.down);
        if !labels.is_some_and(|labels| (1..=1000).contains(&labels)) {
            return wrong(
                if self.across == 0 { "across" } else { "down" },
                format!(
                    "found {} by {} labels, expected 1 to 1,000 of them",
                    self.across, self.down
                ),
            );
        }
        if let Some(dots) = self.dots.filter(|dots| !(50.0..=5000.0).contains(dots)) {
            return wrong(
                "dots",
                format!(
                    "found {dots} dots to the inch, expected 50 to 5,000 as the printer has them"
                ),
            );
        }
        let step = self.step.unwrap_or(self.label);
        let apart = (self.across == 1 || step.0 >= width) && (self.down == 1 || step.1 >= height);
        if !apart {
            return wrong(
                "step",
                "found labels that lie on each other, expected a step of a label's size or more",
            );
        }
        let unknown = |id: &&str| Paper::named(id).is_none();
        if let Some(id) = self.paper.as_deref().filter(unknown) {
            return wrong(
                "paper",
                format!("found the paper {id:?}, expected one of papers.ron"),
            );
        }
        self.checked_on_paper()
    }

    fn checked_on_paper(&self) -> Result<(), Wrong> {
        let paper = self.sheet_of_paper();
        let (right, bottom) = self.end();
        let inside = self.first.0 >= 0.0
            && self.first.1 >= 0.0
            && right <= paper.width + 1e-9
            && bottom <= paper.height + 1e-9;
        if inside {
            return Ok(());
        }
        wrong(
            "first",
            format!(
                "found labels from {} by {} to {right} by {bottom} mm, expected them on a page of \
                 {} by {} mm",
                self.first.0, self.first.1, paper.width, paper.height
            ),
        )
    }
}
