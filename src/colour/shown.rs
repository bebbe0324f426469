//! How much of a bloom shows each of its colours, and how far a whole bloom is from a colour that is
//! wanted.

use serde::{Deserialize, Serialize};

use super::lab::Lab;
use super::target::{Part, Pattern, Target};

/// How one of a bloom's colours lies on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Shown {
    /// On which part.
    pub part: Part,
    /// In which pattern.
    pub pattern: Pattern,
}

/// Which of a bloom's colours are held against a colour that is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Judged {
    /// What it mostly shows: the main colour in full, the others by their share of what is seen.
    #[default]
    Mostly,
    /// The main colour alone.
    Main,
    /// Any of its colours, however little of it shows.
    Any,
    /// Its main and its second colours, every one of them: none that would clash.
    Every,
}

impl Shown {
    /// How much of what is seen of the bloom has the colour, 0 to 1; of the main colour 1, which counts
    /// in full. Only of a bicolour a second colour is about half; no other is as much as the main one.
    /// Our own values.
    pub fn share(self) -> f64 {
        match (self.part, self.pattern) {
            (Part::Main, _) => 1.0,
            (Part::Second, Pattern::Bicolour) => 0.5,
            // The heart of a blend, which fades into the main colour.
            (Part::Second, Pattern::Blend | Pattern::SelfColoured) => 0.25,
            (Part::Second, Pattern::Tipped) => 0.25,
            (Part::Second, Pattern::Flecked) => 0.15,
            (Part::Reverse, _) => 0.2,
            (Part::Centre, _) => 0.1,
        }
    }
}

impl Judged {
    /// Every way, the one that holds where nothing is said first.
    pub const ALL: [Judged; 4] = [Judged::Mostly, Judged::Main, Judged::Any, Judged::Every];

    /// The word in files and commands.
    pub fn word(self) -> &'static str {
        match self {
            Judged::Mostly => "mostly",
            Judged::Main => "main",
            Judged::Any => "any",
            Judged::Every => "every",
        }
    }

    /// What is held against the colour, as a person says it.
    pub fn told(self) -> &'static str {
        match self {
            Judged::Mostly => "by what the bloom mostly shows",
            Judged::Main => "by its main colour alone",
            Judged::Any => "by any of its colours",
            Judged::Every => "by every colour of its petals",
        }
    }

    /// How far a bloom is from the nearest of some colours, of whose colours these are how they lie;
    /// `distance` tells that of one of its colours from the target at a place. Infinite of no colours or
    /// no targets.
    pub fn distance<C: Copy>(
        self,
        colours: &[(C, Shown)],
        targets: usize,
        distance: impl Fn(C, usize) -> f64,
    ) -> f64 {
        let nearest = |colour: C| {
            let each = (0..targets).map(|target| distance(colour, target));
            each.fold(f64::INFINITY, f64::min)
        };
        let of = |part: Part| {
            let own = colours.iter().filter(move |(_, shown)| shown.part == part);
            own.map(|(colour, _)| nearest(*colour))
        };
        let main = || of(Part::Main).reduce(f64::min);
        // Where no colour is marked main the first stands for it.
        let first = || colours.first().map_or(f64::INFINITY, |one| nearest(one.0));
        match self {
            Judged::Mostly => (0..targets)
                .map(|target| weigh(colours, |colour| distance(colour, target)))
                .fold(f64::INFINITY, f64::min),
            Judged::Main => main().unwrap_or_else(first),
            Judged::Any => {
                let all = colours.iter().map(|(colour, _)| nearest(*colour));
                all.fold(f64::INFINITY, f64::min)
            }
            Judged::Every => {
                let farthest = of(Part::Main).chain(of(Part::Second)).reduce(f64::max);
                farthest.unwrap_or_else(first)
            }
        }
    }
}

/// How far a bloom with these colours is from `target` by what it mostly shows: the least, over its
/// colours, of `s d + (1 - s) m`, where d is the colour's [distance](Target::distance), s the
/// [share](Shown::share) of what is seen that has it, and m the distance of the nearest main colour.
///
/// So a main colour counts in full, and a second colour that hits the target brings the bloom nearer by
/// as much as it shows, without making it that colour: red with white tips is not white. Where no colour
/// is marked main, the first stands for it. Of no colours at all the distance is infinite.
pub fn distance_to_target(colours: &[(Lab, Shown)], target: &Target) -> f64 {
    weigh(colours, |colour| target.distance(colour))
}

/// Never above [`distance_to_target`], without trigonometry: for ranking long lists.
pub fn lower_bound_to_target(colours: &[(Lab, Shown)], target: &Target) -> f64 {
    weigh(colours, |colour| target.lower_bound(colour))
}

/// The formula of [`distance_to_target`] over colours of any kind, each with its distance: for those
/// who have the distances at hand. It is monotone in every distance, so bounds in give a bound out.
pub fn weigh<C: Copy>(colours: &[(C, Shown)], distance: impl Fn(C) -> f64) -> f64 {
    let main = main_of(colours, &distance);
    colours
        .iter()
        .filter(|(_, shown)| shown.part != Part::Main)
        .map(|(colour, shown)| shown.share() * distance(*colour) + (1.0 - shown.share()) * main)
        .fold(main, f64::min)
}

/// The part of that that the main colours have, which is never below it: the distance of the nearest, and
/// of the first where none is marked main.
pub fn main_of<C: Copy>(colours: &[(C, Shown)], distance: impl Fn(C) -> f64) -> f64 {
    let Some(&(first, _)) = colours.first() else {
        return f64::INFINITY;
    };
    let main = colours.iter().filter(|(_, shown)| shown.part == Part::Main);
    main.map(|(colour, _)| distance(*colour))
        .reduce(f64::min)
        .unwrap_or_else(|| distance(first))
}

#[cfg(test)]
mod tests;
