//! Uses as data: what each wants of a variety, and what a form leads one to expect.

mod formerly;
mod source;
mod want;

use std::collections::BTreeMap;

use crate::measure::same_id;
use crate::problem::{Path, Problem, Wrong, offset_in, read_ron};
pub use formerly::use_id;
use source::{MOST_FIGURE, MOST_WEIGHT, Source};
pub use want::Quantity;
pub(super) use want::{Expected, Want, Wanted};

/// The table as it ships.
const EMBEDDED: &str = include_str!("../../assets/uses.ron");

/// Every use, and what a form leads one to expect.
#[derive(Debug, Clone, PartialEq)]
pub struct Uses {
    list: Vec<Use>,
    expected: BTreeMap<String, Expected>,
    weighs: [f64; 5],
    stated: f64,
    lasting: Option<f64>,
}

/// One use.
#[derive(Debug, Clone, PartialEq)]
pub struct Use {
    /// The id used in files, commands and JSON.
    pub id: String,
    /// The name in plain words.
    pub name: String,
    /// What it is, in one phrase.
    pub means: String,
    /// The usual caution for work of this kind; `None` where there is none.
    pub caution: Option<String>,
    /// What it is to a buyer, in a phrase that claims no more than fitting it does; the name where
    /// there is none.
    pub sells: Option<String>,
    /// The same where bees and other visitors were counted on the plant.
    pub visited: Option<String>,
    pub(super) wants: Vec<Want>,
}

impl Use {
    /// What it is to a buyer of a plant; on that plant visitors were counted or not.
    pub fn to_a_buyer(&self, visited: bool) -> &str {
        let seen = self.visited.as_deref().filter(|_| visited);
        seen.or(self.sells.as_deref()).unwrap_or(&self.name)
    }
}

impl Uses {
    /// The table that ships in the binary.
    ///
    /// # Panics
    /// Never: a test reads the embedded table.
    pub fn embedded() -> Uses {
        Uses::read("uses.ron", EMBEDDED).expect("the embedded uses are read by a test")
    }

    /// Reads the table from RON, or says everything that is wrong with it.
    pub fn read(file: &str, text: &str) -> Result<Uses, Vec<Problem>> {
        let source: Source<'_> = read_ron(file, text).map_err(|problem| vec![problem])?;
        let mut problems = Vec::new();
        let mut wrong = |part: &str, message: String| {
            let offset = offset_in(text, part);
            problems.push(Problem::at(file, text, offset, message));
        };
        let weighs = &source.weighs;
        let weights = [
            weighs.diameter,
            weighs.stem,
            weighs.vase,
            weighs.stands,
            weighs.height,
        ];
        let named = ["diameter", "stem", "vase", "stands", "height", "stated"];
        let figures = weights.iter().chain([&weighs.stated]);
        let sound = |weight: &f64| *weight > 0.0 && *weight <= MOST_WEIGHT;
        let unsound = named.into_iter().zip(figures).find(|one| !sound(one.1));
        let unsound = unsound.map(|(field, _)| {
            Wrong::new(
                Path::field("weighs").then(field),
                "found a weight in `weighs` that is not over 0 and up to 1000, expected every one so",
            )
        });
        let lasts = |days: &f64| *days > 0.0 && *days <= MOST_FIGURE;
        let short = source.lasting.filter(|days| !lasts(days)).map(|days| {
            let told = format!("found {days} days, expected days over 0 and up to {MOST_FIGURE}");
            Wrong::new(Path::field("lasting"), told)
        });
        let mut expected = BTreeMap::new();
        for form in source.forms {
            for id in &form.of {
                if expected
                    .insert((*id).to_string(), form.expected())
                    .is_some()
                {
                    wrong(
                        id,
                        format!("found the form {id:?} a second time, expected each form once"),
                    );
                }
            }
            let numbers = form.expected().numbers;
            if !numbers
                .into_iter()
                .flatten()
                .all(|n| n > 0.0 && n <= MOST_FIGURE)
                || form.stands.is_some_and(|share| share > 1.0)
            {
                let id = form.of.first().copied().unwrap_or(text);
                wrong(id, "found an expected figure out of range, expected all over 0 and up to 10000, and stands at most 1".into());
            }
        }
        let mut list: Vec<Use> = Vec::new();
        for one in source.uses {
            let id = use_id(one.id);
            if list.iter().any(|before| before.id == id) {
                wrong(
                    one.id,
                    format!("found the use {id:?} a second time, expected each id once"),
                );
            }
            if one.wants.is_empty() {
                wrong(
                    one.id,
                    format!("found no wants for {:?}, expected at least one", one.id),
                );
            }
            let wants = one.wants.into_iter().filter_map(|want| match want.want() {
                Ok(want) => Some(want),
                Err(message) => {
                    wrong(one.id, format!("{}: {message}", one.id));
                    None
                }
            });
            list.push(Use {
                wants: wants.collect(),
                id: id.to_string(),
                name: one.name,
                means: one.means,
                caution: one.caution,
                sells: one.sells,
                visited: one.visited,
            });
        }
        let many = (list.len() > 64).then(|| {
            let message = format!("found {} uses, expected at most 64", list.len());
            Wrong::new(Path::field("uses"), message)
        });
        problems.extend(Problem::all(
            file,
            text,
            unsound.into_iter().chain(short).chain(many).collect(),
        ));
        if !problems.is_empty() {
            return Err(problems);
        }
        Ok(Uses {
            list,
            expected,
            weighs: weights,
            stated: weighs.stated,
            lasting: source.lasting,
        })
    }

    /// Every use, in the order of the table.
    pub fn list(&self) -> &[Use] {
        &self.list
    }

    /// The index of the use with this id, or with the id in the place of this old one.
    pub fn find(&self, id: &str) -> Option<usize> {
        let id = use_id(id);
        let own = self.list.iter().position(|one| one.id == id);
        own.or_else(|| self.list.iter().position(|one| same_id(id, &one.id)))
    }

    /// From how many days in the vase on a tag says that it is good; `None` where none does.
    pub fn lasting(&self) -> Option<f64> {
        self.lasting
    }

    /// What the form leads one to expect; `None` where the table does not know it.
    pub(super) fn expected(&self, form: &str) -> Option<&Expected> {
        self.expected.get(form)
    }

    /// How many observations an expectation of this quantity is worth.
    pub(super) fn weighs(&self, quantity: Quantity) -> f64 {
        self.weighs[quantity as usize]
    }

    /// How many observations a figure without a count is worth.
    pub(super) fn stated(&self) -> f64 {
        self.stated
    }
}

#[cfg(test)]
mod tests {
    use super::want::Curve;
    use super::*;

    #[test]
    fn the_embedded_table_has_every_use_and_every_form() {
        let uses = Uses::embedded();
        let ids: Vec<&str> = uses.list().iter().map(|one| one.id.as_str()).collect();
        assert_eq!(
            ids.join(" "),
            "event-focal market-bunch worn low-bowl floating filler accent pollinators border exposed"
        );
        for set in crate::form::RuleSet::embedded() {
            let catch_all = "miscellaneous";
            for form in set.forms.iter().filter(|form| form.id != catch_all) {
                assert!(
                    uses.expected(&form.id).is_some(),
                    "{} of {}",
                    form.id,
                    set.id
                );
            }
        }
    }

    #[test]
    fn a_curve_is_straight_between_points_and_level_outside() {
        let curve = Curve(vec![(10.0, 0.0), (20.0, 1.0), (40.0, 0.5)]);
        let at = [5.0, 10.0, 15.0, 20.0, 30.0, 40.0, 99.0].map(|x| curve.at(x));
        assert_eq!(at, [0.0, 0.0, 0.5, 1.0, 0.75, 0.5, 0.5]);
    }

    #[test]
    fn a_weight_that_cannot_be_is_told_at_its_own_field() {
        let text = EMBEDDED.replacen("stated: ", "stated: -", 1);
        let line = text.lines().position(|line| line.contains("stated: -"));
        let problems = Uses::read("uses.ron", &text).expect_err("a weight below 0");
        assert_eq!(Some(problems[0].line - 1), line, "{}", problems[0]);
        assert!(problems[0].message.contains("found a weight"));
    }

    #[test]
    fn every_problem_is_told_with_its_place() {
        let text = r#"(
  weighs: (diameter: 2, stem: 2, vase: 6, stands: 20, height: 2, stated: 3),
  forms: [(of: ["ball"]), (of: ["ball"])],
  uses: [
    (id: "a", name: "", means: "", wants: []),
    (id: "a", name: "", means: "", wants: [(of: vase, weight: 1, curve: [(2, 0), (1, 1)])]),
    (id: "b", name: "", means: "", wants: [(of: form, weight: 1, others: 2)]),
  ],
)"#;
        let problems = Uses::read("uses.ron", text).expect_err("five problems");
        let told: Vec<String> = problems.iter().map(Problem::to_string).collect();
        assert_eq!(
            told,
            [
                "uses.ron, line 3, column 34: found the form \"ball\" a second time, expected each form once",
                "uses.ron, line 5, column 11: found no wants for \"a\", expected at least one",
                "uses.ron, line 6, column 11: found the use \"a\" a second time, expected each id once",
                "uses.ron, line 6, column 11: a: expected a `curve` of points with rising numbers, and no `likes`",
                "uses.ron, line 7, column 11: b: found 2, expected a share from 0 to 1",
            ]
        );
    }
}
