//! Whether kinds and sheets can be printed as the file has them.

use super::{Sheet, Stock};
use crate::paper::Paper;

/// The largest label or sheet, in mm: more is a slip of the keyboard.
const LARGEST: f64 = 2000.0;

impl Stock {
    /// What is wrong with it: the id and a sentence.
    pub(super) fn checked(&self) -> Result<(), (String, String)> {
        let wrong = |id: &str, told: String| Err((id.to_string(), format!("{id}: {told}")));
        let share = |value: f64| (0.0..=1.0).contains(&value);
        if !share(self.practice.floor) || !share(self.practice.observed) {
            return wrong(
                "floor",
                "found a share outside 0 to 1, expected 0 to 1".into(),
            );
        }
        if !(self.module > 0.0 && self.module <= self.comfort && self.comfort < 5.0) {
            return wrong(
                "module",
                format!(
                    "found {} mm and a comfort of {} mm, expected them over 0 and under 5 mm, and \
                     comfort no less",
                    self.module, self.comfort
                ),
            );
        }
        let planting = self.practice.planting.checked();
        planting.or_else(|told| wrong("planting", told))?;
        for (at, kind) in self.kinds.iter().enumerate() {
            if self.kinds[..at].iter().any(|other| other.id == kind.id) {
                return wrong(&kind.id, "found the kind twice, expected it once".into());
            }
            let sizes = [
                (kind.title.least, kind.title.points),
                (kind.body.least, kind.body.points),
            ];
            if !sizes
                .iter()
                .all(|(least, points)| *least >= 4.0 && least <= points && *points <= 400.0)
            {
                return wrong(
                    &kind.id,
                    "found sizes of letters that do not rise from `least` to `points`, expected \
                     4 to 400 points"
                        .into(),
                );
            }
            let lengths = [kind.drawing, kind.code, kind.pad];
            if !lengths.iter().all(|mm| (0.0..LARGEST).contains(mm)) || kind.title.lines == 0 {
                return wrong(
                    &kind.id,
                    "found a length below 0 or a title of no line, expected 0 mm or more and one \
                     line or more"
                        .into(),
                );
            }
        }
        for (at, sheet) in self.sheets.iter().enumerate() {
            if self.sheets[..at].iter().any(|other| other.id == sheet.id) {
                return wrong(&sheet.id, "found the sheet twice, expected it once".into());
            }
            if self.kind(&sheet.kind).is_none() {
                let told = format!("found the kind {:?}, expected one of `kinds`", sheet.kind);
                return wrong(&sheet.id, told);
            }
            sheet.checked().or_else(|told| wrong(&sheet.id, told))?;
        }
        Ok(())
    }
}

impl Sheet {
    fn checked(&self) -> Result<(), String> {
        let (width, height) = self.label;
        let length = |mm: f64| (10.0..=LARGEST).contains(&mm);
        if !length(width) || !length(height) {
            return Err(format!(
                "found a label of {width} by {height} mm, expected sides of 10 to {LARGEST} mm"
            ));
        }
        if self.labels() == 0 || self.labels() > 1000 {
            return Err(format!(
                "found {} by {} labels, expected 1 to 1,000 of them",
                self.across, self.down
            ));
        }
        if let Some(dots) = self.dots.filter(|dots| !(50.0..=5000.0).contains(dots)) {
            return Err(format!(
                "found {dots} dots to the inch, expected 50 to 5,000 as the printer has them"
            ));
        }
        let step = self.step.unwrap_or(self.label);
        let apart = (self.across == 1 || step.0 >= width) && (self.down == 1 || step.1 >= height);
        if !apart {
            return Err(
                "found labels that lie on each other, expected a step of a label's size or \
                        more"
                    .to_string(),
            );
        }
        if let Some(id) = self
            .paper
            .as_deref()
            .filter(|id| Paper::named(id).is_none())
        {
            return Err(format!(
                "found the paper {id:?}, expected one of papers.ron"
            ));
        }
        let paper = self.sheet_of_paper();
        let (right, bottom) = self.end();
        let inside = self.first.0 >= 0.0
            && self.first.1 >= 0.0
            && right <= paper.width + 1e-9
            && bottom <= paper.height + 1e-9;
        match inside {
            true => Ok(()),
            false => Err(format!(
                "found labels from {} by {} to {right} by {bottom} mm, expected them on a page of \
                 {} by {} mm",
                self.first.0, self.first.1, paper.width, paper.height
            )),
        }
    }
}
