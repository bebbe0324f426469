//! Gomory's mixed-integer cuts: from a row of the dictionary whose variable should be whole and is
//! not (Gomory, An algorithm for the mixed integer problem, RAND RM-2597, 1960; from memory).
//!
//! The dictionary lends only its multipliers: the row is summed again from the program's own rows,
//! so that a cut holds whatever errors the dictionary has gathered.

use super::rounding;
use super::simplex::{Dictionary, Row};
use super::tidy::{Columns, tidy};

/// Cuts from fractions nearer to whole than this are mostly rounding.
const LEAST_FRACTION: f64 = 0.02;
/// A cut must be this deep (its breach over its length).
const LEAST_DEPTH: f64 = 1e-4;
/// The deepest cuts at the present point, deepest first.
pub(super) fn cuts(
    dictionary: &Dictionary,
    columns: &Columns<'_>,
    rows: &[Row],
    most: usize,
) -> Vec<Row> {
    let point = dictionary.point();
    let fractional = (0..point.len()).filter(|at| {
        let part = point[*at] - point[*at].floor();
        columns.whole[*at] && part > LEAST_FRACTION && part < 1.0 - LEAST_FRACTION
    });
    let mut found: Vec<(f64, Row)> = fractional
        .filter_map(|at| cut(dictionary, columns, at, &point))
        .chain(
            rows.iter()
                .filter_map(|row| rounding::cut(row, columns, &point)),
        )
        .filter(|(depth, _)| *depth > LEAST_DEPTH)
        .collect();
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut chosen: Vec<Row> = Vec::new();
    for (_, row) in found {
        if chosen.len() < most && chosen.iter().all(|other| likeness(&row, other) < 0.9) {
            chosen.push(row);
        }
    }
    chosen
}

/// The cut from one basic column's row, and its depth.
fn cut(
    dictionary: &Dictionary,
    columns: &Columns<'_>,
    at: usize,
    point: &[f64],
) -> Option<(f64, Row)> {
    let width = point.len();
    // column = sum(own . columns) + sum(multiplier . activities)
    let mut own = vec![0.0; width];
    own[at] = 1.0;
    let mut activities = Vec::new();
    for (variable, cell) in dictionary.row_of(at)? {
        if variable >= width && cell.abs() > 1e-11 {
            let row = &dictionary.rows[variable - width];
            row.cells
                .iter()
                .for_each(|(column, value)| own[*column] -= cell * value);
            activities.push((variable - width, cell));
        }
    }
    // As column + sum(part . step) = side, each step from a bound into the inside.
    let mut side = 0.0;
    let mut steps: Vec<(usize, bool, f64)> = Vec::new();
    for (column, cell) in own.iter().enumerate() {
        if cell.abs() < 1e-11 {
            continue;
        }
        let (least, most) = (columns.least[column], columns.most[column]);
        let at_most = point[column] - least > most - point[column];
        side += cell * if at_most { most } else { least };
        steps.push((column, at_most, if at_most { *cell } else { -cell }));
    }
    let mut rests: Vec<(usize, bool, f64)> = Vec::new();
    for (row, cell) in activities {
        let Row { least, most, .. } = dictionary.rows[row];
        let at_most = least.is_infinite()
            || (most.is_finite() && dictionary.value(width + row) > 0.5 * (least + most));
        side += cell * if at_most { most } else { least };
        rests.push((row, at_most, if at_most { cell } else { -cell }));
    }
    let fraction = side - side.floor();
    if !(LEAST_FRACTION..=1.0 - LEAST_FRACTION).contains(&fraction) {
        return None;
    }
    let ratio = fraction / (1.0 - fraction);
    let of_any = |part: f64| if part > 0.0 { part } else { -part * ratio };
    let of_whole = |part: f64| {
        let part = part - part.floor();
        if part <= fraction {
            part
        } else {
            ratio * (1.0 - part)
        }
    };
    // sum(weight . step) >= fraction, put back into columns.
    let mut cells = vec![0.0; width];
    let mut least = fraction;
    for (column, at_most, part) in steps {
        let weight = if columns.whole[column] {
            of_whole(part)
        } else {
            of_any(part)
        };
        let (sign, bound) = if at_most {
            (-1.0, columns.most[column])
        } else {
            (1.0, columns.least[column])
        };
        cells[column] += sign * weight;
        least += sign * weight * bound;
    }
    for (row, at_most, part) in rests {
        let weight = of_any(part);
        let row = &dictionary.rows[row];
        let (sign, bound) = if at_most {
            (-1.0, row.most)
        } else {
            (1.0, row.least)
        };
        row.cells
            .iter()
            .for_each(|(column, value)| cells[*column] += sign * weight * value);
        least += sign * weight * bound;
    }
    tidy(cells, least, columns, point)
}

/// The cosine between two rows.
fn likeness(one: &Row, other: &Row) -> f64 {
    let length = |row: &Row| {
        row.cells
            .iter()
            .map(|cell| cell.1 * cell.1)
            .sum::<f64>()
            .sqrt()
    };
    let mut product = 0.0;
    let mut at = 0;
    for (column, cell) in &one.cells {
        while at < other.cells.len() && other.cells[at].0 < *column {
            at += 1;
        }
        if at < other.cells.len() && other.cells[at].0 == *column {
            product += cell * other.cells[at].1;
        }
    }
    product / (length(one) * length(other)).max(1e-12)
}
