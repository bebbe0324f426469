//! Sums over rows of figures.

/// `to += from * by`.
pub(super) fn add_scaled(to: &mut [f64], from: &[f64], by: f64) {
    for (to, from) in to.iter_mut().zip(from) {
        *to += from * by;
    }
}

/// The sum of products, four sums side by side.
pub(super) fn product(one: &[f64], other: &[f64]) -> f64 {
    let (ones, others) = (one.chunks_exact(4), other.chunks_exact(4));
    let rest = ones.remainder().iter().zip(others.remainder());
    let mut sums = [0.0; 4];
    for (one, other) in ones.clone().zip(others.clone()) {
        for lane in 0..4 {
            sums[lane] += one[lane] * other[lane];
        }
    }
    sums.iter().sum::<f64>() + rest.map(|(a, b)| a * b).sum::<f64>()
}

/// The squared length of a row, and one for the variable itself.
pub(super) fn length(row: &[f64]) -> f64 {
    1.0 + product(row, row)
}

/// `to += from * by` at these places; gives by how much the sum of squares grows.
pub(super) fn add_filled(to: &mut [f64], from: &[f64], filled: &[usize], by: f64) -> f64 {
    let mut longer = 0.0;
    for at in filled {
        let (before, after) = (to[*at], to[*at] + from[*at] * by);
        to[*at] = after;
        longer += after * after - before * before;
    }
    longer
}

/// `to += from * by`; gives the sum of squares then, four sums side by side.
pub(super) fn add_measured(to: &mut [f64], from: &[f64], by: f64) -> f64 {
    let mut sums = [0.0; 4];
    let (mut ones, froms) = (to.chunks_exact_mut(4), from.chunks_exact(4));
    let rest = froms.remainder();
    for (one, from) in ones.by_ref().zip(froms) {
        for lane in 0..4 {
            one[lane] += from[lane] * by;
            sums[lane] += one[lane] * one[lane];
        }
    }
    for (one, from) in ones.into_remainder().iter_mut().zip(rest) {
        *one += from * by;
        sums[0] += *one * *one;
    }
    sums.iter().sum()
}
