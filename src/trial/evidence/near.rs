//! The varieties of the list whose colours are near.

use std::collections::HashMap;

use super::colours::PartColour;
use crate::colour::{Lab, Part, Vocabulary, ciede2000, lightness_bound, lower_bound};
use crate::form::RuleSet;
use crate::trial::seedling::Subject;
use crate::variety::{Text, Varieties, folded};

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
    all: ByLightness,
    /// Those of each form, by its place in the rule set.
    of_form: Vec<ByLightness>,
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

/// Main colours with the places of their rows, the darkest first: what is near in colour is near in
/// lightness, so that only a stretch of them is looked at.
#[derive(Debug, Clone, PartialEq, Default)]
struct ByLightness(Vec<(Lab, u32)>);

/// How many near varieties are kept; of the same form as many again.
const MOST_NEAR: usize = 3;

impl Neighbours {
    /// Of a list under a rule set. A variety without a colour that reads is left out.
    pub fn of(list: &Varieties, rules: &RuleSet, words: &Vocabulary) -> Neighbours {
        let mut rows: Vec<Neighbour> = Vec::new();
        let mut all = Vec::new();
        let mut of_form = vec![Vec::new(); rules.forms.len()];
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
            let Some((Part::Main, main)) = colours.first().copied() else {
                continue;
            };
            let (name, form) = (variety.name.clone(), variety.form_under(rules));
            let placed = (main, rows.len() as u32);
            all.push(placed);
            if let Some(form) = form {
                of_form[form].push(placed);
            }
            rows.push(Neighbour {
                name,
                form,
                colours,
            });
        }
        let place = |(at, row): (usize, &Neighbour)| (folded(&row.name), at);
        Neighbours {
            places: rows.iter().enumerate().map(place).collect(),
            rows,
            all: ByLightness::of(all),
            of_form: of_form.into_iter().map(ByLightness::of).collect(),
        }
    }

    /// The nearest varieties, and the nearest of the same form where those are others; the subject
    /// itself apart. Of some that are as near, those that the list has first.
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
        let apart = |at: usize| (Some(at) != own).then(|| apart(colours, &self.rows[at].colours));
        let mut found = self.all.nearest(main.mean, share, apart);
        if let Some(of_form) = form.and_then(|form| self.of_form.get(form)) {
            found.extend(of_form.nearest(main.mean, share, apart));
        }
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

impl ByLightness {
    fn of(mut mains: Vec<(Lab, u32)>) -> ByLightness {
        mains.sort_by(|a, b| a.0.l.total_cmp(&b.0.l));
        ByLightness(mains)
    }

    /// The nearest to a main colour with their distances, which `apart` tells; `None` of a row that is
    /// not meant. None is less than `share` of the distance between the main colours.
    fn nearest(
        &self,
        main: Lab,
        share: f64,
        apart: impl Fn(usize) -> Option<f64>,
    ) -> Vec<(f64, usize)> {
        let mut best: Vec<(f64, usize)> = Vec::with_capacity(MOST_NEAR + 1);
        let is_beyond = |best: &[(f64, usize)], bound: f64, at: usize| {
            let last = best.get(MOST_NEAR - 1);
            last.is_some_and(|last| (bound * share, at) > *last)
        };
        let middle = self.0.partition_point(|(lab, _)| lab.l < main.l);
        let (darker, lighter) = self.0.split_at(middle);
        let mut look = |side: &mut dyn Iterator<Item = &(Lab, u32)>| {
            for (lab, at) in side {
                // OK because `lightness_bound` grows on either side: all that follow are beyond too.
                if is_beyond(&best, lightness_bound(main, *lab), 0) {
                    break;
                }
                let at = *at as usize;
                if is_beyond(&best, lower_bound(main, *lab), at) {
                    continue;
                }
                if let Some(distance) = apart(at) {
                    let place = best.partition_point(|one| *one < (distance, at));
                    best.insert(place, (distance, at));
                    best.truncate(MOST_NEAR);
                }
            }
        };
        look(&mut lighter.iter());
        look(&mut darker.iter().rev());
        best
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::variety::{ColourNote, FormKnown, FormNote, KnownColour, Variety};
    use proptest::prelude::*;

    /// Few lightnesses and few words, so that many are equally near.
    fn any_lab() -> impl Strategy<Value = Lab> {
        let lab = |(l, a, b): (u8, u8, u8)| {
            Lab::new(f64::from(l) * 10.0, f64::from(a) * 9.0, f64::from(b) * 9.0)
        };
        (2..9_u8, 0..4_u8, 0..4_u8).prop_map(lab)
    }

    type Look = (Option<Lab>, Option<Lab>, Option<usize>);

    fn any_look() -> impl Strategy<Value = Look> {
        let one = || prop::option::weighted(0.9, any_lab());
        (one(), one(), prop::option::of(0..4_usize))
    }

    fn variety(at: usize, (main, second, form): &Look, rules: &RuleSet) -> Variety {
        let mut one = Variety::named(Text::new(format!("Plant {at}")).expect("a name"));
        one.form = form.map(|form| FormNote {
            id: Text::new(&rules.forms[form].id).expect("an id"),
            known: FormKnown::Keyed,
            by: None,
        });
        for (part, lab) in [(Part::Main, main), (Part::Second, second)] {
            one.colours.extend(lab.map(|lab| ColourNote {
                colour: KnownColour::Measured(lab),
                part,
                pattern: crate::colour::Pattern::Blend,
            }));
        }
        one
    }

    proptest! {
        /// As if every row were measured and put in order.
        #[test]
        fn the_nearest_are_those_of_all(looks in prop::collection::vec(any_look(), 1..40), main in any_lab(), second in prop::option::of(any_lab()), form in prop::option::of(0..4_usize), own in prop::option::of(0..40_usize)) {
            let (rules, words) = (&RuleSet::embedded()[0], Vocabulary::embedded());
            let list: Vec<_> = looks.iter().enumerate().map(|(at, look)| variety(at, look, rules)).collect();
            let neighbours = Neighbours::of(&Varieties::of(list).expect("each name once"), rules, &words);
            let colour = |part, mean| PartColour { part, mean, spread: None, count: 1, words: Vec::new(), name: None };
            let mut colours = vec![colour(Part::Main, main)];
            colours.extend(second.map(|second| colour(Part::Second, second)));
            let subject = match own {
                Some(own) => Subject::Variety(Text::new(format!("plant {own}")).expect("a name")),
                None => "26-001".parse().expect("a number"),
            };
            let found = neighbours.near(&subject, &colours, form);

            let form = form.or_else(|| looks.get(own?).filter(|look| look.0.is_some())?.2);
            let mut all: Vec<(f64, usize)> = Vec::new();
            for (at, (main, second, _)) in looks.iter().enumerate() {
                if let (Some(main), true) = (main, Some(at) != own) {
                    let own = [Some((Part::Main, *main)), second.map(|second| (Part::Second, second))];
                    all.push((apart(&colours, &own.into_iter().flatten().collect::<Vec<_>>()), at));
                }
            }
            all.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
            let of_form = |(_, at): &&(f64, usize)| form.is_some() && looks[*at].2 == form;
            let first = all.iter().take(MOST_NEAR).chain(all.iter().filter(of_form).take(MOST_NEAR));
            let mut expected: Vec<&(f64, usize)> = first.collect();
            expected.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
            expected.dedup();
            let told: Vec<(String, f64)> = found.iter().map(|near| (near.name.to_string(), near.distance)).collect();
            let expected: Vec<(String, f64)> = expected.iter().map(|(distance, at)| (format!("Plant {at}"), *distance)).collect();
            prop_assert_eq!(told, expected);
        }
    }
}
