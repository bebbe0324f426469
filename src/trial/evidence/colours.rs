//! Colour: mean and spread by part, and the varieties of the list that are near.

use std::collections::HashMap;

use jiff::civil::Date;

use crate::colour::{
    Lab, Part, Target, Vocabulary, ciede2000, lightness_bound, lower_bound, name_of,
};
use crate::form::RuleSet;
use crate::trial::entry::Observation;
use crate::trial::seedling::Subject;
use crate::variety::{Text, Varieties, folded};

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

/// A variety of the list beside a subject.
#[derive(Debug, Clone, PartialEq)]
pub struct Near {
    /// Its name.
    pub name: Text,
    /// How far, CIEDE2000: the mean over the parts that both have, weighted by what each part
    /// carries of the flower's look. A part that only one of them has says nothing.
    pub distance: f64,
    /// Whether it has the subject's form, as far as that is known; `None` where either is unknown.
    pub same_form: Option<bool>,
}

/// The colours and forms of the list, looked up once for many subjects.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Neighbours {
    rows: Vec<Neighbour>,
    /// The main colour of each, by itself: most rows are too far by that alone.
    mains: Vec<Lab>,
    /// The place of each by its name, as names are compared.
    places: HashMap<String, usize>,
}

#[derive(Debug, Clone, PartialEq)]
struct Neighbour {
    name: Text,
    form: Option<usize>,
    /// The main colour first.
    colours: Vec<(Part, Lab)>,
}

/// How many near varieties are kept; of the same form as many again.
const MOST_NEAR: usize = 3;

impl Neighbours {
    /// Of a list under a rule set. A variety without a colour that reads is left out.
    pub fn of(list: &Varieties, rules: &RuleSet, words: &Vocabulary) -> Neighbours {
        let mut rows = Vec::new();
        for variety in list.list() {
            let mut colours = Vec::new();
            for note in &variety.colours {
                if let Ok(target) = note.colour.target(words)
                    && !colours.iter().any(|(part, _)| *part == note.part)
                {
                    colours.push((note.part, target.centre));
                }
            }
            colours.sort_by_key(|(part, _)| *part);
            if colours.first().is_some_and(|(part, _)| *part == Part::Main) {
                let (name, form) = (variety.name.clone(), variety.form_under(rules));
                rows.push(Neighbour {
                    name,
                    form,
                    colours,
                });
            }
        }
        let place = |(at, row): (usize, &Neighbour)| (folded(&row.name), at);
        Neighbours {
            mains: rows.iter().map(|row| row.colours[0].1).collect(),
            places: rows.iter().enumerate().map(place).collect(),
            rows,
        }
    }

    /// The nearest varieties, and the nearest of the same form where those are others; the subject
    /// itself apart.
    pub(super) fn near(
        &self,
        subject: &Subject,
        colours: &[PartColour],
        form: Option<usize>,
    ) -> Vec<Near> {
        let Some(main) = colours.first().filter(|one| one.part == Part::Main) else {
            return Vec::new();
        };
        let own = match subject {
            Subject::Variety(name) => self.places.get(&folded(name)).copied(),
            Subject::Seedling(_) => None,
        };
        // What the list says of a variety's form stands where nobody has looked at its bloom.
        let form = form.or_else(|| self.rows[own?].form);
        // A distance is at least this share of that between the main colours.
        let weights = colours.iter().map(|one| one.part.weight());
        let share = Part::Main.weight() / weights.sum::<f64>();
        // For each of all and those of the same form, the nearest so far.
        let mut best: [Vec<(f64, usize)>; 2] = [Vec::new(), Vec::new()];
        let farthest = |list: &Vec<(f64, usize)>| match list.len() {
            MOST_NEAR.. => list[MOST_NEAR - 1].0,
            _ => f64::INFINITY,
        };
        for (at, own_main) in self.mains.iter().enumerate() {
            let reach =
                |lists: &[Vec<(f64, usize)>]| lists.iter().map(farthest).fold(0.0, f64::max);
            if lightness_bound(main.mean, *own_main) * share >= reach(&best) {
                continue;
            }
            let row = &self.rows[at];
            let same = row.form.is_some() && row.form == form;
            let lists = if same { &mut best[..] } else { &mut best[..1] };
            if lower_bound(main.mean, *own_main) * share >= reach(lists) || own == Some(at) {
                continue;
            }
            let distance = apart(colours, &row.colours);
            for list in lists {
                let place = list.partition_point(|(other, _)| *other <= distance);
                list.insert(place, (distance, at));
                list.truncate(MOST_NEAR);
            }
        }
        let mut found: Vec<(f64, usize)> = best.concat();
        found.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        found.dedup();
        let near = |(distance, at): (f64, usize)| Near {
            name: self.rows[at].name.clone(),
            distance,
            same_form: self.rows[at].form.zip(form).map(|(own, form)| own == form),
        };
        found.into_iter().map(near).collect()
    }
}

/// The weighted mean distance over the parts that both have; the main part is one.
fn apart(own: &[PartColour], other: &[(Part, Lab)]) -> f64 {
    let (mut sum, mut weight) = (0.0, 0.0);
    for one in own {
        if let Some((part, lab)) = other.iter().find(|(part, _)| *part == one.part) {
            sum += part.weight() * ciede2000(one.mean, *lab);
            weight += part.weight();
        }
    }
    sum / weight
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
