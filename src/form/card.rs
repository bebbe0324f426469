//! The field key on paper: numbered steps in plain words, a small table of sizes, its length, and one
//! bloom gone through.

use super::belief::Keyer;
use super::field_key::FieldKey;
use super::fold::{Steps, Target};
use super::rules::RuleSet;
use super::words::{mask_words, span_words};
use super::worked::Worked;
use crate::account::text::hanging;
use crate::measure::SizeUnits;

mod length;

use length::{length, means};

/// The width of the card in columns.
const WIDTH: usize = 80;
/// The lines of a page: six to the inch on eleven inches.
const PAGE: usize = 66;
/// The most lines that the card's length takes.
const LENGTH_LINES: usize = 6;
/// What the bloom that is gone through is headed by.
pub const WORKED: &str = "One bloom gone through";
/// What stands for a shape's own name in the table of sizes.
const OWN_NAME: &str = "(its name)";

/// The key as it is printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// What it is.
    pub title: String,
    /// The questions; the first is asked first.
    pub steps: Vec<CardStep>,
    /// The question that splits shapes by size, and the sizes of shapes that are split alike;
    /// `None` where the steps ask for it.
    pub sizes: Option<CardSizes>,
    /// How long the key is, in questions and in yes/no tests, against the least that is possible.
    pub length: String,
    /// How many questions a bloom takes, for who stands in the field with it.
    pub takes: String,
    /// One bloom gone through, step by step.
    pub worked: Option<Worked>,
}

/// One question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CardStep {
    /// The question.
    pub ask: String,
    /// The index of the trait that it asks.
    pub index: usize,
    /// Its answers.
    pub answers: Vec<CardAnswer>,
}

/// One answer to a question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CardAnswer {
    /// In words.
    pub words: String,
    /// The atoms of the trait that it covers.
    pub atoms: u64,
    /// Where it leads.
    pub leads: Leads,
}

/// Where an answer leads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leads {
    /// To a step by its number, from 1.
    Step(usize),
    /// To a shape by its index.
    Shape(usize),
    /// To a form by its index.
    Form(usize),
}

/// How size splits shapes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CardSizes {
    /// The question.
    pub ask: String,
    /// Shapes so called, and their forms with the sizes of each.
    pub shapes: Vec<(String, Vec<String>)>,
}

/// The key on one page: one numbered step for each question, steps that are told alike printed
/// once, as few as fit the page as text; the sizes that split a shape; and the key's length.
pub fn card(keyer: &Keyer, key: &FieldKey, units: SizeUnits) -> Card {
    let shortest = Steps::of(keyer, key);
    let whole = shortest.printed.len();
    let lines = |steps: &Steps<'_>| {
        let text = laid_out(steps, key, units).text(&keyer.set);
        text.lines().count() + LENGTH_LINES
    };
    let folded = shortest.folded(|steps| lines(steps) <= PAGE);
    let (questions, _) = means(keyer, key, &folded);
    Card {
        length: length(keyer, key, &folded, whole),
        takes: format!("A bloom takes about {questions:.0} questions."),
        ..laid_out(&folded, key, units)
    }
}

/// All but how long it is.
fn laid_out(steps: &Steps<'_>, key: &FieldKey, units: SizeUnits) -> Card {
    let step = |at: &usize| steps.card_step(key, units, *at);
    Card {
        title: format!("Field key: {}", steps.keyer.set.name),
        steps: steps.order.iter().map(step).collect(),
        sizes: match key.by_size {
            true => None,
            false => sizes(steps.keyer, units),
        },
        length: String::new(),
        takes: String::new(),
        worked: steps.worked(key.by_size, units),
    }
}

impl Card {
    /// As text of at most 80 columns.
    pub fn text(&self, set: &RuleSet) -> String {
        let mut text = format!("{}\n\n", self.title);
        for (number, step) in self.steps.iter().enumerate() {
            let answers = step.answers.iter();
            let answers: Vec<String> = answers
                .map(|answer| format!("{}: {}", answer.words, answer.leads.in_words(set)))
                .collect();
            let head = format!("{:>2}  {}", number + 1, step.ask);
            text += &listed(&head, &answers, 4);
        }
        if let Some(sizes) = &self.sizes {
            text += &format!("\nThen by size. {}\n", sizes.ask);
            for (shapes, forms) in &sizes.shapes {
                text += &listed(&format!("    {shapes}:"), forms, 6);
            }
        }
        text += &self.length;
        if let Some(worked) = &self.worked {
            text += &format!("\n{}", listed(&format!("{WORKED}:"), &worked.told(set), 4));
        }
        text
    }
}

impl Worked {
    /// What is done at each step, and what the bloom is: `at 1: closed`, `this leads to ball`.
    pub fn told(&self, set: &RuleSet) -> Vec<String> {
        let steps = self.steps.iter();
        let mut told: Vec<String> = steps
            .map(|step| format!("at {}: {}", step.number, step.answer))
            .collect();
        told.push(format!("this leads to {}", self.reached));
        if let Some(across) = &self.across {
            told.push(format!("{across} across, so {}", set.forms[self.form].name));
        }
        told
    }
}

impl Leads {
    /// `go to 4`, or the name of the shape or form.
    pub fn in_words(self, set: &RuleSet) -> String {
        match self {
            Leads::Step(number) => format!("go to {number}"),
            Leads::Shape(at) => set.shapes[at].name.clone(),
            Leads::Form(at) => set.forms[at].name.clone(),
        }
    }
}

impl Keyer {
    /// How often each form of a shape is met, before any answer.
    fn form_weights(&self, shape: usize) -> Vec<f64> {
        let weight = |form: usize| {
            let own = self.blocks.iter().filter(|block| block.form == form);
            own.map(|block| block.scale * block.traits.iter().product::<f64>())
                .sum()
        };
        let forms = (0..self.set.forms.len()).filter(|form| self.set.forms[*form].shape == shape);
        forms.map(weight).collect()
    }
}

impl Steps<'_> {
    fn card_step(&self, key: &FieldKey, units: SizeUnits, at: usize) -> CardStep {
        let step = &self.printed[at];
        let (one, scale) = (
            self.keyer.set.traits.get(step.index),
            &self.keyer.set.scales()[step.index],
        );
        let answer = |(atoms, target): &(u64, Target)| {
            let words = mask_words(one, scale, *atoms, units);
            let leads = match target {
                Target::Goal(at) if key.by_size => Leads::Form(*at),
                Target::Goal(at) => Leads::Shape(*at),
                Target::Step(at) => {
                    let place = self.order.iter().position(|other| other == at);
                    Leads::Step(place.map_or(0, |place| place + 1))
                }
            };
            CardAnswer {
                words,
                atoms: *atoms,
                leads,
            }
        };
        CardStep {
            ask: one.ask.clone(),
            index: step.index,
            answers: step.branches.iter().map(answer).collect(),
        }
    }
}

/// A head, then parts with semicolons between, broken between parts where the line is full.
fn listed(head: &str, parts: &[String], indent: usize) -> String {
    let last = parts.len().saturating_sub(1);
    let part = |(at, part): (usize, &String)| format!("{part}{}", if at < last { ";" } else { "" });
    let parts: Vec<String> = parts.iter().enumerate().map(part).collect();
    let lines = hanging(head, parts.iter().map(String::as_str), indent, WIDTH);
    lines.join("\n") + "\n"
}

/// The forms that size makes of shapes, told once for shapes that are split alike; `None` where
/// it splits none.
fn sizes(keyer: &Keyer, units: SizeUnits) -> Option<CardSizes> {
    let size = keyer.set.traits.find("diameter")?;
    let one = keyer.set.traits.get(size);
    let mut alike: Vec<(Vec<String>, Vec<&str>)> = Vec::new();
    for (index, shape) in keyer.set.shapes.iter().enumerate() {
        let forms: Vec<_> = keyer
            .set
            .forms
            .iter()
            .filter(|form| form.shape == index)
            .collect();
        if forms.len() < 2 {
            continue;
        }
        let told = |own_name: &str| -> Vec<String> {
            let part = |name: &str, span| {
                format!(
                    "{}: {}",
                    span_words(one, span, units),
                    name.replace(&shape.name, own_name)
                )
            };
            forms
                .iter()
                .map(|form| part(&form.name, form.diameter))
                .collect()
        };
        let parts = told(OWN_NAME);
        match alike.iter_mut().find(|(known, _)| *known == parts) {
            Some((_, shapes)) => shapes.push(&shape.name),
            None => alike.push((parts, vec![&shape.name])),
        }
    }
    if alike.is_empty() {
        return None;
    }
    alike.sort_by_key(|(_, shapes)| shapes.len());
    let told = |(parts, shapes): (Vec<String>, Vec<&str>)| match shapes[..] {
        [shape] => {
            let own = parts.iter().map(|part| part.replace(OWN_NAME, shape));
            (shape.to_string(), own.collect())
        }
        _ => ("any other".to_string(), parts),
    };
    Some(CardSizes {
        ask: one.ask.clone(),
        shapes: alike.into_iter().map(told).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::RuleSet;
    use crate::form::verdict::Status;

    fn cards() -> Vec<String> {
        let card = |set: RuleSet| {
            let units = set.units;
            let keyer = Keyer::even(set);
            card(&keyer, &keyer.shortest_key(false).expect("a key"), units).text(&keyer.set)
        };
        RuleSet::embedded().into_iter().map(card).collect()
    }

    #[test]
    fn a_card_is_one_page_and_every_step_is_told_and_led_to() {
        for card in cards() {
            assert!(card.lines().count() <= PAGE, "{card}");
            assert!(
                card.lines().all(|line| line.chars().count() <= WIDTH),
                "{card}"
            );
            let number = |line: &str| line.get(..2)?.trim().parse::<usize>().ok();
            let told: Vec<usize> = card.lines().filter_map(number).collect();
            assert_eq!(told, (1..=told.len()).collect::<Vec<_>>());
            let led = card.split("go to ").skip(1).filter_map(|rest| {
                rest.split(|c: char| !c.is_ascii_digit())
                    .next()?
                    .parse::<usize>()
                    .ok()
            });
            let mut led: Vec<usize> = led.collect();
            led.sort_unstable();
            led.dedup();
            assert_eq!(led, (2..=told.len()).collect::<Vec<_>>(), "{card}");
        }
    }

    /// The bloom at the card's end comes to its form by the rules themselves, and every step that it is
    /// told to take is one that the card has, with that answer.
    #[test]
    fn a_card_ends_with_one_bloom_that_the_rules_bring_to_the_same_form() {
        for set in RuleSet::embedded() {
            let units = set.units;
            let keyer = Keyer::even(set);
            for by_size in [false, true] {
                let key = keyer.shortest_key(by_size).expect("a key");
                let card = card(&keyer, &key, units);
                let worked = card.worked.as_ref().expect("a bloom");
                let verdict = keyer.set.verdict(&worked.answers);
                assert_eq!(verdict.status, Status::Settled(worked.form), "{worked:?}");
                let mut leads = Leads::Step(1);
                for step in &worked.steps {
                    assert_eq!(leads, Leads::Step(step.number));
                    let own = &card.steps[step.number - 1].answers;
                    let answer = own.iter().find(|one| one.words == step.answer);
                    leads = answer.expect("an answer of the card").leads;
                }
                assert_eq!(leads.in_words(&keyer.set), worked.reached);
                let text = card.text(&keyer.set);
                let last = text.lines().last().expect("lines");
                let told = worked.told(&keyer.set).join(" ");
                assert!(
                    told.ends_with(last.rsplit("; ").next().expect("words").trim()),
                    "{text}"
                );
            }
        }
    }

    #[test]
    fn the_trades_card_names_every_shape_and_splits_it_by_size() {
        let [card, _] = &cards()[..] else {
            panic!("two cards")
        };
        for shape in &RuleSet::embedded()[0].shapes {
            assert!(
                card.contains(&format!(": {}", shape.name)),
                "{}",
                shape.name
            );
        }
        assert!(
            card.contains(
                "ball: at least 3.5 in: ball; over 2 in and under 3.5 in: miniature ball;"
            ),
            "{card}"
        );
        assert!(card.contains("No key asks fewer than 5.39."), "{card}");
    }

    /// A folded key still brings every bloom to its form: walked over all that the rules define.
    #[test]
    fn folding_loses_no_bloom_and_adds_few_questions() {
        for set in RuleSet::embedded() {
            let keyer = Keyer::even(set);
            let key = keyer.shortest_key(false).expect("a key");
            let whole = Steps::of(&keyer, &key);
            assert!((whole.means().0 - key.mean).abs() < 1e-9);
            let few = whole.folded(|_| false);
            assert!(
                few.serves() && few.means().0 < key.mean * 1.1,
                "{:?}",
                few.means()
            );
        }
    }
}
