//! How long a key on paper is, in questions and in yes/no tests, against the least that is possible.

use crate::form::belief::Keyer;
use crate::form::field_key::FieldKey;
use crate::form::fold::{Steps, huffman};

/// How long the key is, how it was folded from `whole` steps, and the least that is possible.
pub(super) fn length(keyer: &Keyer, key: &FieldKey, steps: &Steps<'_>, whole: usize) -> String {
    let (questions, tests) = means(keyer, key, steps);
    let least = match key.proved {
        true => "No key asks fewer than",
        false => "The shortest key found, not proved the shortest, asks",
    };
    let shortest = key.mean + sized(keyer, key).0;
    let mut text =
        format!("\nOn average {questions:.2} questions to the form. {least} {shortest:.2}.\n");
    if steps.printed.len() < whole {
        text += &format!(
            "Folded to a page, from {whole} steps to {}, by one step in several places.\n",
            steps.printed.len()
        );
    }
    let kinds = keyer.set.forms.len();
    text + &format!(
        "Counted as yes/no tests: {tests:.2}. For {kinds} equally likely kinds the least possible\n\
         is {:.2}, and {:.2} where each test takes out one kind.\n",
        least_mean_of_yes_no(kinds),
        one_sided_mean(kinds)
    )
}

/// The mean number of questions to the form, and of yes/no tests.
pub(super) fn means(keyer: &Keyer, key: &FieldKey, steps: &Steps<'_>) -> (f64, f64) {
    let ((questions, tests), (sized, size_tests)) = (steps.means(), sized(keyer, key));
    (questions + sized, tests + size_tests)
}

/// The mean number of questions, and of yes/no tests, that the table of sizes adds, where there is one.
fn sized(keyer: &Keyer, key: &FieldKey) -> (f64, f64) {
    if key.by_size {
        return (0.0, 0.0);
    }
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
fn least_mean_of_yes_no(kinds: usize) -> f64 {
    let Some(deep) = kinds.checked_ilog2() else {
        return 0.0;
    };
    let (n, deep, below) = (kinds as f64, f64::from(deep), 2_f64.powi(deep as i32 + 1));
    (deep * (below - n) + (deep + 1.0) * (2.0 * n - below)) / n
}

/// The mean number of yes/no tests of a key that takes one of `kinds` equally likely kinds out at
/// each step.
fn one_sided_mean(kinds: usize) -> f64 {
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
