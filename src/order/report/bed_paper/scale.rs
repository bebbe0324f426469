//! The one scale of all beds: as small as lets a number be read in the mark of each plant, larger where
//! the longest bed still lies in one strip.

use kurbo::Rect;

use super::letters::LEAST;
use super::undrawable::Undrawable;
use crate::measure::{Exact, Length, LengthUnit, SizeUnits};
use crate::order::Bed;
use crate::paper::POINT;

/// From the bed to the paper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct PaperScale {
    /// So many mm in the bed are one on the paper.
    pub(super) ratio: f64,
    /// Across a mark, in mm on the paper.
    pub(super) mark: f64,
    /// Metres or feet.
    pub(super) units: SizeUnits,
}

/// Scales of rulers in metres, and those in which an inch is whole feet or a whole part of one.
const METRIC: [u32; 18] = [
    1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 125, 150, 200, 250, 400, 500,
];
const IN_FEET: [u32; 16] = [
    1, 2, 3, 4, 6, 12, 24, 36, 48, 60, 72, 96, 120, 180, 240, 480,
];
/// Between two marks, in mm.
const APART: f64 = 0.3;
/// What a mark takes of the room of its plant, where there is more than its number needs.
const SHARE: f64 = 0.7;
/// Marks farther apart than this, in mm, are told apart no better.
const WIDEST: f64 = 8.0;
/// How wide a figure is, in parts of the size of its letters, and how high: those of Noto Sans.
const FIGURE: (f64, f64) = (0.572, 0.714);
/// What a bed needs beside its own width, in mm: its name, its ruler, the head of the page.
pub(super) const BESIDE: f64 = 45.0;

impl PaperScale {
    /// The scale for these beds, with numbers of so many digits, in such a room.
    ///
    /// # Errors
    /// [`Undrawable`] where a bed is then too wide.
    pub(super) fn of(
        beds: &[&Bed],
        digits: usize,
        room: Rect,
        units: SizeUnits,
    ) -> Result<PaperScale, Undrawable> {
        let size = LEAST * POINT;
        let (wide, high) = (FIGURE.0 * size * digits as f64, FIGURE.1 * size);
        let mark = wide.hypot(high) + APART;
        let planted = beds
            .iter()
            .filter(|bed| bed.places().is_some_and(|places| places > 0));
        let closest = planted
            .map(|bed| closest(bed))
            .fold(f64::INFINITY, f64::min);
        let longest = beds.iter().map(|bed| bed.length.mm().to_f64());
        let longest = longest.fold(0.0, f64::max);
        let known: &[u32] = match units {
            SizeUnits::Mm => &METRIC,
            SizeUnits::In => &IN_FEET,
        };
        let legible = |ratio: &&u32| closest / f64::from(**ratio) >= mark + APART;
        let smallest = known.iter().rev().find(legible).unwrap_or(&1);
        let roomy = |ratio: &&u32| {
            let ratio = f64::from(**ratio);
            longest / ratio <= room.width() && closest / ratio <= WIDEST
        };
        let larger = known
            .iter()
            .take_while(|ratio| *ratio <= smallest)
            .find(roomy);
        let ratio = f64::from(*larger.unwrap_or(smallest));
        // Without a place that could be planted there is no least distance.
        let roomy = closest / ratio * SHARE;
        let mark = if roomy.is_finite() {
            mark.max(roomy)
        } else {
            mark
        };
        let scale = PaperScale { ratio, mark, units };
        for bed in beds {
            if scale.on_paper(bed.width.mm().to_f64()) > room.height() - BESIDE {
                let most = (room.height() - BESIDE) * ratio;
                let most = Length::from_mm(Exact::whole(most as i64)).shown_along_a_bed(units);
                return Err(Undrawable(format!(
                    "{}: found a bed {} wide, expected at most {most}, which is what the paper holds at 1 to {ratio}",
                    bed.name,
                    bed.width.shown_along_a_bed(units)
                )));
            }
        }
        Ok(scale)
    }

    /// A length of the bed on the paper, both in mm.
    pub(super) fn on_paper(self, millimetres: f64) -> f64 {
        millimetres / self.ratio
    }

    /// The unit of the ruler in mm, and its sign.
    pub(super) fn unit(self) -> (f64, &'static str) {
        let (unit, sign) = match self.units {
            SizeUnits::Mm => (LengthUnit::Metre, "m"),
            SizeUnits::In => (LengthUnit::Foot, "ft"),
        };
        (unit.in_millimetres().to_f64(), sign)
    }

    /// The scale in words.
    pub(super) fn told(self) -> String {
        let ratio = self.ratio;
        match self.units {
            SizeUnits::Mm => format!("1 to {ratio}: {} cm on paper is 1 m", 100.0 / ratio),
            SizeUnits::In => format!("1 to {ratio}: 1 in on paper is {} ft", ratio / 12.0),
        }
    }
}

/// The least distance between two plants of a bed, in mm.
fn closest(bed: &Bed) -> f64 {
    let (along, across) = (bed.spacing.mm().to_f64(), bed.row_step().to_f64());
    let beside = match (bed.across(), bed.staggered) {
        (..2, _) => along,
        (_, false) => across,
        (2, true) => across.hypot(along / 2.0),
        (_, true) => across.hypot(along / 2.0).min(2.0 * across),
    };
    along.min(beside)
}
