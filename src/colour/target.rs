//! What a colour is measured against, and the parts and patterns of a bloom.

use std::ops::Range;

use serde::{Deserialize, Serialize};

use super::difference::{ciede2000, lower_bound};
use super::lab::Lab;
use super::planes::{Between, Planes};

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

    /// How much a difference in the part counts where two blooms are told apart, beside the main colour's
    /// 1. Our own values. How much of a bloom it shows is [`Shown::share`](super::Shown::share).
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

    /// Between what it lies of each of many colours: several times cheaper.
    ///
    /// # Panics
    /// Where there are not so many.
    pub fn between(&self, colours: &Planes, places: Range<usize>) -> Between {
        let from_the_centre = colours.between(self.centre, places);
        from_the_centre.less_radius(self.radius)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
}
