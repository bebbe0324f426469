//! The row as a table, a row for each plant.

use super::{Plant, Wording};
use crate::account::{Cell, Column, Table};
use crate::measure::{Length, SizeUnits};
use crate::trial::{Next, Urgency};

/// What stands where nothing was looked at.
const UNKNOWN: &str = "?";

/// The columns of the row's table, which has no row yet. Units stand in the heads.
pub fn row_table(units: SizeUnits) -> Table {
    let columns = [
        Column::words("plant", "plant"),
        Column::words("form", "form so far"),
        Column::figures("mean", format!("mean {}", units.of_blooms())),
        Column::figures("vase", "vase d"),
        Column::figures("damage", "damage %"),
        Column::words("decision", "decision"),
        Column::words("advice", "advice"),
        Column::words("next", "what next"),
    ];
    Table::of("", columns)
}

impl Plant<'_> {
    /// The plant's row in [`row_table`].
    pub fn cells(&self, next: &Next, by: &Wording<'_>) -> Vec<Cell> {
        let evidence = self.evidence;
        let taken = self.taken(by);
        let form = taken.map(|taken| format!("{} {}", taken.name(&by.keyer.set), taken.ground()));
        let mean = evidence.diameters.as_ref();
        let mean = mean.map(|seen| figure(seen.mean(), by.units));
        // The median days, or that over half outlasted the test.
        let vase = evidence.vase.as_ref().map(|curve| match curve.median {
            Some(median) => format!("{median:.1}"),
            None => format!(">{:.1}", curve.watched),
        });
        let damage = evidence.damage.iter().filter_map(|one| one.share.value());
        let worst = damage.max_by(f64::total_cmp);
        let known = |cell: Cell| match cell {
            Cell::Nothing => UNKNOWN.into(),
            cell => cell,
        };
        vec![
            evidence.subject.to_string().into(),
            known(form.into()),
            known(mean.into()),
            known(vase.into()),
            known(worst.map(hundredths).into()),
            self.decided().into(),
            self.advice.fate.word().into(),
            self.next(next).into(),
        ]
    }

    /// What is to be done next; where nothing is, why it was decided so.
    fn next(&self, next: &Next) -> String {
        let done = matches!(next.urgency, Urgency::Kept | Urgency::Culled);
        let decided = self.evidence.decision.as_ref().filter(|_| done);
        let why = decided.and_then(|(_, decision)| decision.reason.as_ref());
        why.map_or_else(|| next.told.clone(), ToString::to_string)
    }
}

/// A mean as finely as it is told elsewhere, each with as many decimals, so that they stand under each
/// other.
fn figure(mean: Length, units: SizeUnits) -> String {
    match units {
        SizeUnits::Mm => format!("{:.1}", mean.mm().to_f64()),
        SizeUnits::In => format!("{:.2}", mean.inches().to_f64()),
    }
}

/// A share in hundredths, whose sign stands in the head.
fn hundredths(share: f64) -> Cell {
    let shown = Cell::Share(share).shown();
    let bare = shown.strip_suffix(" %").unwrap_or(&shown);
    Cell::worded(bare, Cell::Share(share))
}
