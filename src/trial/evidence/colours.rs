//! Colour: mean and spread by part.

use jiff::civil::Date;

use crate::colour::{Lab, Part, Target, Vocabulary, ciede2000, name_of};
use crate::trial::entry::Observation;

/// What was seen of one part's colour.
#[derive(Debug, Clone, PartialEq)]
pub struct PartColour {
    /// The part.
    pub part: Part,
    /// The mean in CIELAB, D65: of what was measured, as hex or CIELAB; where nothing was, of the
    /// centres of the words.
    pub mean: Lab,
    /// How far the observations lie from the mean, CIEDE2000, on average; `None` from one.
    pub spread: Option<f64>,
    /// How many observations the mean is of.
    pub count: usize,
    /// The words that were noted, each once, the most frequent first.
    pub words: Vec<String>,
    /// The ISCC-NBS name of the mean; `None` where only words were noted, which name no measured
    /// colour.
    pub name: Option<&'static str>,
}

impl PartColour {
    /// What it may be called: `coral`; measured `strong orange`; both `coral (strong orange)`.
    pub fn in_words(&self) -> String {
        let words = self.words.join(" or ");
        match self.name {
            None => words,
            Some(name) if words.is_empty() || words == name => name.to_string(),
            Some(name) => format!("{words} ({name})"),
        }
    }
}

/// Mean and spread of each part that was seen.
pub(super) fn by_part(
    seen: &[(Date, &Observation)],
    words: &Vocabulary,
    doubts: &mut Vec<String>,
) -> Vec<PartColour> {
    let mut noted: [Noted; Part::ALL.len()] = Default::default();
    for (date, observation) in seen {
        for shade in &observation.colours {
            match words.resolve(&shade.colour) {
                Ok(target) => noted[shade.part as usize].take(target),
                Err(error) => doubts.push(format!("{date}: {error}")),
            }
        }
    }
    let parts = Part::ALL.into_iter().zip(noted);
    parts
        .filter_map(|(part, noted)| part_colour(part, noted))
        .collect()
}

/// What was noted of one part.
#[derive(Default)]
struct Noted {
    measured: Vec<Lab>,
    /// The centres of the words.
    centres: Vec<Lab>,
    /// Each word once, and how often it was noted.
    words: Vec<(String, usize)>,
}

impl Noted {
    fn take(&mut self, target: Target) {
        let Some(word) = target.name else {
            return self.measured.push(target.centre);
        };
        self.centres.push(target.centre);
        match self.words.iter_mut().find(|(known, _)| *known == word) {
            Some((_, count)) => *count += 1,
            None => self.words.push((word, 1)),
        }
    }
}

fn part_colour(part: Part, mut noted: Noted) -> Option<PartColour> {
    let is_measured = !noted.measured.is_empty();
    let mut labs = if is_measured {
        noted.measured
    } else {
        noted.centres
    };
    noted
        .words
        .sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    // So that a sum does not hang on the order of the entries.
    labs.sort_by(|x, y| {
        x.l.total_cmp(&y.l)
            .then(x.a.total_cmp(&y.a))
            .then(x.b.total_cmp(&y.b))
    });
    let count = labs.len() as f64;
    let mean = |of: fn(&Lab) -> f64| labs.iter().map(of).sum::<f64>() / count;
    let mean = Lab::new(mean(|lab| lab.l), mean(|lab| lab.a), mean(|lab| lab.b));
    let distances = labs.iter().map(|lab| ciede2000(*lab, mean)).sum::<f64>();
    (!labs.is_empty()).then(|| PartColour {
        part,
        mean,
        spread: (labs.len() > 1).then_some(distances / count),
        count: labs.len(),
        words: noted.words.into_iter().map(|(word, _)| word).collect(),
        name: is_measured.then(|| name_of(mean)),
    })
}
