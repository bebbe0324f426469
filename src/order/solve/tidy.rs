//! A cut made ready for the program: scaled, rid of coefficients next to nothing, and given way against rounding.

use super::simplex::Row;

/// The largest coefficient over the smallest.
const MOST_SPREAD: f64 = 1e6;
/// How much a cut's side is given way, against rounding.
const GIVE: f64 = 1e-7;

/// The bounds of the columns and which are whole.
pub(super) struct Columns<'a> {
    pub(super) least: &'a [f64],
    pub(super) most: &'a [f64],
    pub(super) whole: &'a [bool],
}

/// The cut with its largest coefficient 1 and without those that are next to nothing.
pub(super) fn tidy(
    cells: Vec<f64>,
    mut least: f64,
    columns: &Columns<'_>,
    point: &[f64],
) -> Option<(f64, Row)> {
    let largest = cells.iter().map(|cell| cell.abs()).fold(0.0, f64::max);
    if largest < 1e-9 {
        return None;
    }
    let mut kept = Vec::new();
    for (column, cell) in cells.into_iter().enumerate().filter(|cell| cell.1 != 0.0) {
        if cell.abs() * MOST_SPREAD < largest {
            // The cut without it must hold wherever the column is.
            least -= (cell * columns.least[column]).max(cell * columns.most[column]);
        } else {
            kept.push((column, cell / largest));
        }
    }
    least /= largest;
    least -= GIVE * (1.0 + least.abs());
    let activity: f64 = kept
        .iter()
        .map(|(column, cell)| cell * point[*column])
        .sum();
    let length = kept.iter().map(|(_, cell)| cell * cell).sum::<f64>().sqrt();
    let row = Row {
        cells: kept,
        least,
        most: f64::INFINITY,
    };
    (length > 0.0).then(|| ((least - activity) / length, row))
}
