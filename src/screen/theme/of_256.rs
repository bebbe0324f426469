//! The colours of a terminal of 256 that are the same in all of them: xterm's table, whose cube of
//! 6 by 6 by 6 has the levels 0, 95, 135 ... 255, and whose 24 greys are 8, 18 ... 238.

use crate::colour::Srgb;

/// The nearest of them, from 16 to 255.
pub(super) fn nearest_of_256(colour: Srgb) -> u8 {
    let own = [colour.r, colour.g, colour.b].map(i32::from);
    let away =
        |other: [i32; 3]| -> i32 { own.iter().zip(other).map(|(a, b)| (a - b).pow(2)).sum() };
    let nearest_step = |value: i32| {
        (0..6)
            .min_by_key(|step| (level(*step) - value).abs())
            .unwrap_or(0)
    };
    let steps = own.map(nearest_step);
    let cube = (
        away(steps.map(level)),
        16 + 36 * steps[0] + 6 * steps[1] + steps[2],
    );
    let grey = (0..24)
        .map(|step| (away([8 + 10 * step; 3]), 232 + step))
        .min();
    // OK because both run from 16 to 255.
    grey.map_or(cube, |grey| cube.min(grey)).1 as u8
}

/// The colour of a number of the table; `None` for the first 16, which are the user's own.
pub(in crate::screen) fn of_index(index: u8) -> Option<Srgb> {
    match index.checked_sub(16)? {
        grey @ 216.. => Some(Srgb::grey(8 + 10 * (grey - 216))),
        cube => {
            // OK because no level is over 255.
            let channel = |step: u8| level(i32::from(step)) as u8;
            Some(Srgb::new(
                channel(cube / 36),
                channel(cube / 6 % 6),
                channel(cube % 6),
            ))
        }
    }
}

/// How strong a channel of the cube is at a step from 0 to 5.
fn level(step: i32) -> i32 {
    if step == 0 { 0 } else { 55 + 40 * step }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_colour_of_the_table_is_its_own_nearest() {
        assert_eq!(of_index(15), None);
        for index in 16..=255 {
            let nearest = of_index(index).map(nearest_of_256);
            // Four greys stand in the cube and among the greys.
            let same = nearest.and_then(of_index) == of_index(index);
            assert!(same, "{index}: {nearest:?}");
        }
    }

    #[test]
    fn swatches_are_the_nearest_of_256() {
        for ((r, g, b), index) in [
            ((0, 0, 0), 16),
            ((255, 255, 255), 231),
            ((255, 0, 0), 196),
            ((90, 96, 135), 60),
            ((128, 128, 128), 244),
        ] {
            assert_eq!(nearest_of_256(Srgb::new(r, g, b)), index, "{r} {g} {b}");
        }
    }
}
