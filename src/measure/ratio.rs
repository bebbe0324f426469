//! Ratios of whole numbers, reckoned in 64 bits where that is enough, many times sooner than in 128.

use std::cmp::Ordering;

use num_rational::Ratio;

/// The ratio in lowest terms; the denominator is over 0.
pub(super) fn lowest(numerator: i128, denominator: i128) -> Ratio<i128> {
    match (
        u64::try_from(numerator.unsigned_abs()),
        u64::try_from(denominator),
    ) {
        (_, Ok(1)) => Ratio::from_integer(numerator),
        (Ok(above), Ok(below)) => {
            let divisor = i128::from(greatest_divisor(above, below));
            Ratio::new_raw(numerator / divisor, denominator / divisor)
        }
        _ => Ratio::new(numerator, denominator),
    }
}

/// Which of two is the greater.
pub(super) fn compared(one: &Ratio<i128>, other: &Ratio<i128>) -> Ordering {
    if one.denom() == other.denom() {
        one.numer().cmp(other.numer())
    } else if is_small(one) && is_small(other) {
        (one.numer() * other.denom()).cmp(&(other.numer() * one.denom()))
    } else {
        one.cmp(other)
    }
}

/// One times the other.
pub(super) fn product(one: Ratio<i128>, other: Ratio<i128>) -> Ratio<i128> {
    match is_small(&one) && is_small(&other) {
        true => lowest(one.numer() * other.numer(), one.denom() * other.denom()),
        false => one * other,
    }
}

/// One by the other, which is not 0.
pub(super) fn quotient(one: Ratio<i128>, other: Ratio<i128>) -> Ratio<i128> {
    match is_small(&one) && is_small(&other) && *other.numer() > 0 {
        true => lowest(one.numer() * other.denom(), one.denom() * other.numer()),
        false => one / other,
    }
}

/// Both together.
pub(super) fn sum(one: Ratio<i128>, other: Ratio<i128>) -> Ratio<i128> {
    match is_small(&one) && is_small(&other) {
        true => {
            let above = one.numer() * other.denom() + other.numer() * one.denom();
            lowest(above, one.denom() * other.denom())
        }
        false => one + other,
    }
}

/// So many times the ratio, `scale` being at most a thousand millions, to the nearest whole number;
/// halves away from zero.
pub(super) fn scaled(one: Ratio<i128>, scale: i128) -> i128 {
    let (above, below) = (*one.numer(), *one.denom());
    match is_small(&one) {
        _ if below == 1 => above * scale,
        true => above.signum() * ((2 * above.abs() * scale + below) / (2 * below)),
        false => (one * Ratio::from_integer(scale)).round().to_integer(),
    }
}

/// The greatest divisor of both; the second is over 0.
fn greatest_divisor(mut one: u64, mut other: u64) -> u64 {
    while one != 0 {
        (one, other) = (other % one, one);
    }
    other
}

/// Whether products of the number's parts with those of another such stay far from the end of what
/// 128 bits hold.
fn is_small(of: &Ratio<i128>) -> bool {
    let small = 1 << 60;
    of.numer().abs() < small && *of.denom() < small
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// The short way of reckoning gives what ratios give, whatever the size of the numbers.
        #[test]
        fn reckoned_as_ratios_are(parts in prop::array::uniform4(any::<i64>()), shift in prop::array::uniform4(0..63_u32)) {
            let [a, b, c, d] = std::array::from_fn(|at| i128::from(parts[at] >> shift[at]));
            let (b, d) = (b.abs().max(1), d.abs().max(1));
            let (one, other) = (Ratio::new(a, b), Ratio::new(c, d));
            prop_assert_eq!(lowest(a, b), one);
            prop_assert_eq!(compared(&one, &other), one.cmp(&other));
            prop_assert_eq!(product(one, other), one * other);
            // Sums of the largest would overflow either way.
            if shift.iter().all(|shift| *shift > 1) {
                prop_assert_eq!(sum(one, other), one + other);
            }
            if c != 0 {
                prop_assert_eq!(quotient(one, other), one / other);
            }
            if shift[0] > 4 {
                let scale = Ratio::from_integer(1_000_000);
                let rounded = (one * scale).round().to_integer();
                prop_assert_eq!(scaled(one, 1_000_000), rounded);
            }
        }
    }
}
