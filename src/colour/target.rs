//! What a colour is measured against, and how far a whole flower is from it.

use serde::{Deserialize, Serialize};

use super::difference::{ciede2000, lower_bound};
use super::lab::Lab;

/// A colour that is wanted: a region about a centre.
#[derive(Debug, Clone, PartialEq)]
pub struct Target {
    /// The word that it was asked by, where it was a word.
    pub name: Option<String>,
    /// The middle of the region.
    pub centre: Lab,
    /// How far the region reaches, CIEDE2000; 0 of a measured colour.
    pub radius: f64,
}

/// Which part of the flower has the colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Part {
    /// The colour that the flower reads as.
    Main,
    /// Tips, edges, stripes or the inner blend.
    Second,
    /// The back of the florets.
    Reverse,
    /// The disc, pincushion or heart.
    Centre,
}

/// How the colours lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Pattern {
    /// One colour throughout.
    #[serde(rename = "self")]
    SelfColoured,
    /// One colour passes into another.
    Blend,
    /// Two colours with a clear line.
    Bicolour,
    /// Tips of another colour.
    Tipped,
    /// Streaks or spots of another colour.
    Flecked,
}

impl Part {
    /// Every part, most telling first.
    pub const ALL: [Part; 4] = [Part::Main, Part::Second, Part::Reverse, Part::Centre];

    /// The word in data files and on screen.
    pub fn word(self) -> &'static str {
        match self {
            Part::Main => "main",
            Part::Second => "second",
            Part::Reverse => "reverse",
            Part::Centre => "centre",
        }
    }

    /// How much of the flower's look the part carries, 0 to 1. Our own values.
    pub fn weight(self) -> f64 {
        match self {
            Part::Main => 1.0,
            Part::Second => 0.65,
            Part::Reverse => 0.35,
            Part::Centre => 0.2,
        }
    }
}

impl Pattern {
    /// Every pattern.
    pub const ALL: [Pattern; 5] = [
        Pattern::SelfColoured,
        Pattern::Blend,
        Pattern::Bicolour,
        Pattern::Tipped,
        Pattern::Flecked,
    ];

    /// The word in data files and on screen.
    pub fn word(self) -> &'static str {
        match self {
            Pattern::SelfColoured => "self",
            Pattern::Blend => "blend",
            Pattern::Bicolour => "bicolour",
            Pattern::Tipped => "tipped",
            Pattern::Flecked => "flecked",
        }
    }
}

impl Target {
    /// A measured colour: a point.
    pub fn point(centre: Lab) -> Self {
        Target {
            name: None,
            centre,
            radius: 0.0,
        }
    }

    /// CIEDE2000 from the rim of the region; 0 inside.
    pub fn distance(&self, colour: Lab) -> f64 {
        (ciede2000(self.centre, colour) - self.radius).max(0.0)
    }

    /// Never above [`distance`](Target::distance), and cheap.
    pub fn lower_bound(&self, colour: Lab) -> f64 {
        (lower_bound(self.centre, colour) - self.radius).max(0.0)
    }
}

/// How far a flower with these colours is from `target`: the least, over its colours, of
/// `w d + (1 - w) m`, where d is the colour's [distance](Target::distance), w the
/// [weight](Part::weight) of its part and m the distance of the nearest main colour.
///
/// So a main colour counts in full, and a second colour that hits the target brings the flower
/// nearer without making it that colour: red with white tips is not white. Where no colour is
/// marked main, the first stands for it. Of no colours at all the distance is infinite.
pub fn distance_to_target(parts: &[(Lab, Part)], target: &Target) -> f64 {
    weigh(parts, |colour| target.distance(colour))
}

/// Never above [`distance_to_target`], without trigonometry: for ranking long lists.
pub fn lower_bound_to_target(parts: &[(Lab, Part)], target: &Target) -> f64 {
    weigh(parts, |colour| target.lower_bound(colour))
}

/// The formula of [`distance_to_target`] over colours of any kind, each with its distance: for those
/// who have the distances at hand. It is monotone in every distance, so bounds in give a bound out.
pub fn weigh<C: Copy>(parts: &[(C, Part)], distance: impl Fn(C) -> f64) -> f64 {
    let Some(&(first, _)) = parts.first() else {
        return f64::INFINITY;
    };
    let main = parts
        .iter()
        .filter(|(_, part)| *part == Part::Main)
        .map(|(colour, _)| distance(*colour))
        .reduce(f64::min)
        .unwrap_or_else(|| distance(first));
    parts
        .iter()
        .filter(|(_, part)| *part != Part::Main)
        .map(|(colour, part)| part.weight() * distance(*colour) + (1.0 - part.weight()) * main)
        .fold(main, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const RED: Lab = Lab::new(41.0, 63.0, 43.0);
    const WHITE: Lab = Lab::new(97.0, -1.0, 3.0);
    const IVORY: Lab = Lab::new(95.0, 0.0, 9.0);

    #[test]
    fn distance_counts_from_the_rim() {
        let mut target = Target::point(WHITE);
        let full = target.distance(IVORY);
        assert_eq!(full, ciede2000(WHITE, IVORY));
        target.radius = 2.0;
        assert!((target.distance(IVORY) - (full - 2.0)).abs() < 1e-12);
        target.radius = 50.0;
        assert_eq!(target.distance(IVORY), 0.0);
    }

    #[test]
    fn a_main_colour_counts_in_full_and_the_others_less() {
        let white = Target::point(WHITE);
        let with = |part| distance_to_target(&[(RED, Part::Main), (WHITE, part)], &white);
        let red = ciede2000(RED, WHITE);
        assert_eq!(with(Part::Main), 0.0);
        assert!((with(Part::Second) - 0.35 * red).abs() < 1e-9);
        let falling = [Part::Main, Part::Second, Part::Reverse, Part::Centre].map(with);
        assert!(falling.is_sorted() && falling[3] < red, "{falling:?}");
        // An ivory flower is nearer to white than a red one tipped with it.
        assert!(distance_to_target(&[(IVORY, Part::Main)], &white) < with(Part::Second));
        assert_eq!(distance_to_target(&[], &white), f64::INFINITY);
    }

    #[test]
    fn words_are_those_of_the_data_files() {
        for part in Part::ALL {
            assert_eq!(ron::to_string(&part).ok().as_deref(), Some(part.word()));
        }
        for pattern in Pattern::ALL {
            let written = ron::to_string(&pattern).expect("a word");
            assert_eq!(written.trim_start_matches("r#"), pattern.word());
            assert_eq!(ron::from_str::<Pattern>(pattern.word()), Ok(pattern));
        }
    }

    proptest! {
        #[test]
        fn the_bound_is_never_above_the_distance(
            colours in prop::collection::vec((0.0..100.0, -100.0..100.0, -100.0..100.0, 0..4_usize), 0..4),
            centre in (0.0..100.0, -100.0..100.0, -100.0..100.0),
            radius in 0.0..15.0,
        ) {
            let parts: Vec<_> = colours
                .into_iter()
                .map(|(l, a, b, part)| (Lab { l, a, b }, Part::ALL[part]))
                .collect();
            let target = Target { radius, ..Target::point(Lab::new(centre.0, centre.1, centre.2)) };
            prop_assert!(lower_bound_to_target(&parts, &target) <= distance_to_target(&parts, &target));
        }
    }
}
