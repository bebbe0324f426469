//! The field key on paper: numbered steps in plain words, a small table of sizes, and its length.

use super::belief::Keyer;
use super::field_key::FieldKey;
use super::fold::{Steps, Target, huffman};
use super::words::{mask_words, span_words};
use crate::measure::SizeUnits;

/// The width of the card in columns.
const WIDTH: usize = 80;
/// The lines of a page: six to the inch on eleven inches.
const PAGE: usize = 66;
/// The most lines that the card's length takes.
const LENGTH_LINES: usize = 6;
/// What stands for a shape's own name in the table of sizes.
const OWN_NAME: &str = "...";

/// The key as text of at most 80 columns: one numbered step for each question, steps that are told
/// alike printed once; the sizes that split a shape at the end; and the key's length, in questions
/// and in yes/no tests, against the least that is possible.
pub fn card(keyer: &Keyer, key: &FieldKey, units: SizeUnits) -> String {
    let shortest = Steps::of(keyer, key);
    let whole = shortest.printed.len();
    let lines = |steps: &Steps<'_>| told(steps, key, units).lines().count() + LENGTH_LINES;
    let folded = shortest.folded(|steps| lines(steps) <= PAGE);
    told(&folded, key, units) + &length(keyer, key, &folded, whole)
}

/// Everything but the key's length.
fn told(steps: &Steps<'_>, key: &FieldKey, units: SizeUnits) -> String {
    let mut text = format!("Field key: {}\n\n", steps.keyer.set.name);
    for (number, at) in steps.order.iter().enumerate() {
        text += &steps.told(key, units, number + 1, *at);
    }
    if !key.by_size {
        text += &sizes(steps.keyer, units);
    }
    text
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
    fn told(&self, key: &FieldKey, units: SizeUnits, number: usize, at: usize) -> String {
        let step = &self.printed[at];
        let (one, scale) = (
            self.keyer.set.traits.get(step.index),
            &self.keyer.set.scales()[step.index],
        );
        let branch = |(atoms, target): &(u64, Target)| {
            let words = mask_words(one, scale, *atoms, units);
            let goal = |goal: usize| match key.by_size {
                true => self.keyer.set.forms[goal].name.clone(),
                false => self.keyer.set.shapes[goal].name.clone(),
            };
            match target {
                Target::Goal(at) => format!("{words}: {}", goal(*at)),
                Target::Step(at) => {
                    let number = self.order.iter().position(|other| other == at);
                    format!("{words}: go to {}", number.map_or(0, |number| number + 1))
                }
            }
        };
        let branches: Vec<String> = step.branches.iter().map(branch).collect();
        wrapped(&format!("{number:>2}  {}", one.ask), &branches, 4)
    }
}

/// A head, then parts with semicolons between, broken between parts where the line is full.
fn wrapped(head: &str, parts: &[String], indent: usize) -> String {
    let mut text = String::new();
    let mut line = head.to_string();
    for (at, part) in parts.iter().enumerate() {
        let end = if at + 1 < parts.len() { ";" } else { "" };
        if line.chars().count() + 1 + part.chars().count() + end.len() > WIDTH {
            text += line.trim_end();
            text.push('\n');
            line = " ".repeat(indent);
            line += part;
        } else {
            line.push(' ');
            line += part;
        }
        line += end;
    }
    text + &line + "\n"
}

/// The forms that size makes of shapes: one line for shapes that are split alike.
fn sizes(keyer: &Keyer, units: SizeUnits) -> String {
    let Some(size) = keyer.set.traits.find("diameter") else {
        return String::new();
    };
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
        return String::new();
    }
    alike.sort_by_key(|(_, shapes)| shapes.len());
    let mut text = format!("\nThen by size. {}\n", one.ask);
    for (parts, shapes) in &alike {
        match shapes[..] {
            [shape] => {
                let own: Vec<String> = parts
                    .iter()
                    .map(|part| part.replace(OWN_NAME, shape))
                    .collect();
                text += &wrapped(&format!("    {shape}:"), &own, 6);
            }
            _ => text += &wrapped("    any other (...):", parts, 6),
        }
    }
    text
}

/// How long the key is, how it was folded from `whole` steps, and the least that is possible.
fn length(keyer: &Keyer, key: &FieldKey, steps: &Steps<'_>, whole: usize) -> String {
    let (questions, tests) = steps.means();
    let (sized, size_tests) = if key.by_size {
        (0.0, 0.0)
    } else {
        size_step(keyer)
    };
    let least = match key.proved {
        true => "No key asks fewer than",
        false => "The shortest key found, not proved the shortest, asks",
    };
    let shortest = key.mean + sized;
    let mut text = format!(
        "\nOn average {:.2} questions to the form. {least} {shortest:.2}.\n",
        questions + sized
    );
    if steps.printed.len() < whole {
        text += &format!(
            "Folded to a page, from {whole} steps to {}, by one step in several places.\n",
            steps.printed.len()
        );
    }
    let kinds = keyer.set.forms.len();
    text + &format!(
        "Counted as yes/no tests: {:.2}. For {kinds} equally likely kinds the least possible\n\
         is {:.2}, and {:.2} where each test takes out one kind.\n",
        tests + size_tests,
        least_mean_of_yes_no(kinds),
        one_sided_mean(kinds)
    )
}

/// The mean number of questions, and of yes/no tests, that the table of sizes adds.
fn size_step(keyer: &Keyer) -> (f64, f64) {
    let shapes = (0..keyer.set.shapes.len()).map(|shape| keyer.form_weights(shape));
    let split = shapes.filter(|weights| weights.len() > 1);
    split.fold((0.0, 0.0), |(questions, tests), weights| {
        (
            questions + weights.iter().sum::<f64>(),
            tests + huffman(&weights),
        )
    })
}

/// The least possible mean number of yes/no tests to tell `kinds` equally likely kinds apart. For
/// keys and their length: Payne & Preece, JRSS A 143:253-292, 1980 (cited from memory); the formula
/// is the mean depth of a binary tree as flat as it can be.
pub fn least_mean_of_yes_no(kinds: usize) -> f64 {
    let Some(deep) = kinds.checked_ilog2() else {
        return 0.0;
    };
    let (n, deep, below) = (kinds as f64, f64::from(deep), 2_f64.powi(deep as i32 + 1));
    (deep * (below - n) + (deep + 1.0) * (2.0 * n - below)) / n
}

/// The mean number of yes/no tests of a key that takes one of `kinds` equally likely kinds out at
/// each step.
pub fn one_sided_mean(kinds: usize) -> f64 {
    let n = kinds as f64;
    if kinds == 0 {
        0.0
    } else {
        (n - 1.0) * (n + 2.0) / (2.0 * n)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::RuleSet;

    fn cards() -> Vec<String> {
        let card = |set: RuleSet| {
            let units = set.units;
            let keyer = Keyer::even(set);
            card(&keyer, &keyer.shortest_key(false).expect("a key"), units)
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

    /// Kinds told apart by yes/no tests: the figures that reviews of keys print for 13 to 15 kinds,
    /// our own arithmetic from the formula; and Huffman's code reaches them.
    #[test]
    fn the_least_means_are_the_known_ones() {
        let close =
            |found: f64, known: f64| assert!((found - known).abs() < 5e-5, "{found} {known}");
        for (kinds, known) in [(13, 3.7692), (14, 3.8571), (15, 3.9333)] {
            close(least_mean_of_yes_no(kinds), known);
            close(huffman(&vec![1.0 / kinds as f64; kinds]), known);
        }
        close(least_mean_of_yes_no(1), 0.0);
        // 1, 2, 3, 3 tests for four kinds.
        close(one_sided_mean(4), 9.0 / 4.0);
    }
}
