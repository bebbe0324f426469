//! Light and shade of a colour, and the line that parts it from the next.
//!
//! A shaded petal is deeper and not greyer: its colour stays, and yellow goes to ochre and orange to
//! red rather than to olive and brown, as they do when black is mixed in. All numbers are our own, by
//! eye, held to what `tests/all/draw/colour.rs` asks of whole blooms.

use crate::colour::Lab;

/// Under this lightness a line is lighter than what it bounds, or it could not be seen.
const DARK: f64 = 30.0;
/// How much of its lightness a fold or the foot of a petal loses.
const SHADE: f64 = 0.14;
/// The same of a hollow that is looked into.
const HOLLOW: f64 = 0.24;
/// The same of a line.
const LINE: f64 = 0.34;
/// From this lightness on shades grow fainter, up to white, which keeps so much of them: on a pale
/// petal a shade is seen at once, and many of them make white look grey.
const PALE: f64 = 70.0;
const KEPT_ON_WHITE: f64 = 0.4;
/// By how much an edge in the light is lighter, in L*.
const LIGHT: f64 = 9.0;
/// The same of a line around a dark petal.
const GLEAM: f64 = 22.0;

/// The colour in a fold, or where another petal lies over it.
pub(super) fn shaded(colour: Lab) -> Lab {
    deeper(colour, SHADE * strength(colour))
}

/// The colour in a tube that is looked into.
pub(super) fn hollow(colour: Lab) -> Lab {
    deeper(colour, HOLLOW * strength(colour))
}

/// How much of a shade a colour takes.
fn strength(colour: Lab) -> f64 {
    let pale = ((colour.l - PALE) / (100.0 - PALE)).clamp(0.0, 1.0);
    1.0 - (1.0 - KEPT_ON_WHITE) * pale
}

/// The colour of an edge that the light falls on.
pub(super) fn lit(colour: Lab) -> Lab {
    // A gleam shows the shape of a dark petal, on which no shade is seen.
    lighter(colour, if colour.l < DARK { 1.4 * LIGHT } else { LIGHT })
}

/// The line around a fill: deeper than it, or lighter than it where it is dark.
pub(super) fn line(fill: Lab) -> Lab {
    match fill.l < DARK {
        true => lighter(fill, GLEAM),
        false => deeper(fill, LINE),
    }
}

fn deeper(colour: Lab, share: f64) -> Lab {
    // What is left of the colour, as of a pigment that lies thicker.
    let kept = 1.0 - 0.4 * share;
    let toward_red = 0.35 * share * colour.b.max(0.0);
    Lab::new(
        colour.l * (1.0 - share),
        colour.a * kept + toward_red,
        colour.b * kept,
    )
}

fn lighter(colour: Lab, by: f64) -> Lab {
    let by = by.min(100.0 - colour.l).max(0.0);
    let kept = 1.0 - by / (100.0 + by);
    Lab::new(colour.l + by, colour.a * kept, colour.b * kept)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::Vocabulary;

    #[test]
    fn a_line_is_seen_on_every_colour_and_shade_lies_between() {
        for word in Vocabulary::embedded().words() {
            let colour = Lab::from(word.centre.to_srgb());
            let seen = |other: Lab| (Lab::from(other.to_srgb()).l - colour.l).abs();
            assert!(seen(line(colour)) > 9.0, "{}", word.word);
            assert!(
                shaded(colour).l < colour.l && lit(colour).l > colour.l,
                "{}",
                word.word
            );
            assert!(hollow(colour).l < shaded(colour).l, "{}", word.word);
        }
    }

    #[test]
    fn shaded_yellow_is_ochre_and_no_olive() {
        let yellow = Lab::new(84.0, -1.0, 82.0);
        let deep = line(yellow);
        assert!(deep.a > 5.0 && deep.b > 60.0, "{deep}");
    }
}
