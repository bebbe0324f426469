//! Mixed-integer rounding of single rows: the row divided by one of its coefficients and rounded,
//! columns near their upper bound turned about first (Marchand and Wolsey, Aggregation and mixed
//! integer rounding to solve MIPs, Operations Research 49:363-371, 2001; from memory).

use super::simplex::Row;
use super::tidy::{Columns, tidy};

/// One column of a row as a step from one of its bounds.
#[derive(Clone, Copy)]
struct Step {
    column: usize,
    at_most: bool,
    cell: f64,
    value: f64,
    whole: bool,
}

/// The deepest cut from a row `a . x <= most` or `>= least`, and its depth.
pub(super) fn cut(row: &Row, columns: &Columns<'_>, point: &[f64]) -> Option<(f64, Row)> {
    let sign = if row.most.is_finite() { 1.0 } else { -1.0 };
    let mut side = if row.most.is_finite() {
        row.most
    } else {
        -row.least
    };
    let mut steps = Vec::with_capacity(row.cells.len());
    for (column, cell) in &row.cells {
        let (least, most) = (columns.least[*column], columns.most[*column]);
        let at_most = point[*column] - least > most - point[*column];
        let cell = sign * cell;
        side -= cell * if at_most { most } else { least };
        let value = if at_most {
            most - point[*column]
        } else {
            point[*column] - least
        };
        let cell = if at_most { -cell } else { cell };
        steps.push(Step {
            column: *column,
            at_most,
            cell,
            value,
            whole: columns.whole[*column],
        });
    }
    let mut divisors: Vec<f64> = (steps.iter())
        .filter(|step| step.whole && step.value > 1e-6)
        .map(|step| step.cell.abs())
        .collect();
    divisors.sort_by(f64::total_cmp);
    divisors.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    divisors.truncate(12);
    let best = |steps: &[Step], side: f64, divisors: &[f64]| {
        let tried = divisors
            .iter()
            .filter_map(|divisor| Some((depth(steps, side, *divisor)?, *divisor)));
        tried.max_by(|a, b| a.0.total_cmp(&b.0))
    };
    let (_, divisor) = best(&steps, side, &divisors)?;
    let halves = [divisor, divisor / 2.0, divisor / 4.0, divisor / 8.0];
    let (mut deepest, divisor) = best(&steps, side, &halves)?;
    // Turning about one column after another may go deeper.
    for at in 0..steps.len() {
        let Step {
            column,
            value,
            cell,
            whole,
            ..
        } = steps[at];
        let span = columns.most[column] - columns.least[column];
        if !whole || value <= 1e-6 || value >= span - 1e-6 {
            continue;
        }
        let before = steps[at];
        steps[at] = Step {
            at_most: !before.at_most,
            cell: -cell,
            value: span - value,
            ..before
        };
        let other = side - cell * span;
        match depth(&steps, other, divisor) {
            Some(found) if found > deepest + 1e-9 => (deepest, side) = (found, other),
            _ => steps[at] = before,
        }
    }
    (deepest > 1e-6).then_some(())?;
    // Back into columns, as at least so much.
    let (fraction, whole) = parts(side / divisor);
    let mut cells = vec![0.0; point.len()];
    let mut least = -whole;
    for step in &steps {
        let weight = rounded(step, divisor, fraction);
        let (sign, bound) = if step.at_most {
            (1.0, columns.most[step.column])
        } else {
            (-1.0, columns.least[step.column])
        };
        cells[step.column] += sign * weight;
        least += sign * weight * bound;
    }
    tidy(cells, least, columns, point)
}

/// The fraction and the whole part.
fn parts(value: f64) -> (f64, f64) {
    (value - value.floor(), value.floor())
}

/// What a step counts in the rounded row.
fn rounded(step: &Step, divisor: f64, fraction: f64) -> f64 {
    let cell = step.cell / divisor;
    if !step.whole {
        return cell.min(0.0) / (1.0 - fraction);
    }
    // A hair below a whole number is that number.
    let (part, whole) = parts(cell + 1e-12);
    whole + (part - fraction).max(0.0) / (1.0 - fraction)
}

/// By how much the point breaks the rounded row, over the row's length.
fn depth(steps: &[Step], side: f64, divisor: f64) -> Option<f64> {
    let (fraction, whole) = parts(side / divisor);
    if !(0.01..=0.99).contains(&fraction) {
        return None;
    }
    let (mut activity, mut length) = (0.0, 0.0);
    for step in steps {
        let weight = rounded(step, divisor, fraction);
        activity += weight * step.value;
        length += weight * weight;
    }
    Some((activity - whole) / length.sqrt().max(1e-9))
}
