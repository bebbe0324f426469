//! Lengths as a grower types them: `98 104 101`, `3 1/2 4 in`.

use crate::measure::SizeUnits;

/// Diameters of several blooms, with commas between and a unit behind each.
pub(super) fn bloom_list(text: &str, units: SizeUnits) -> String {
    with_units(&split(text), units).join(",")
}

/// Splits at commas, semicolons and spaces, but keeps `3 1/2` and `98 mm` whole.
pub(super) fn split(text: &str) -> Vec<String> {
    let mut found: Vec<String> = Vec::new();
    for piece in text.split([',', ';']) {
        let mut fresh = true;
        for word in piece.split_whitespace() {
            let is_unit = word.starts_with(|c: char| c.is_alphabetic() || c == '"');
            let after_whole = found
                .last()
                .is_some_and(|last| last.chars().all(|c| c.is_ascii_digit()));
            match found.last_mut() {
                Some(last) if !fresh && (is_unit || word.contains('/') && after_whole) => {
                    last.push(' ');
                    last.push_str(word);
                }
                _ => found.push(word.to_string()),
            }
            fresh = false;
        }
        // A comma with nothing before it is a slip that the reader should name.
        if fresh && text.contains([',', ';']) {
            found.push(String::new());
        }
    }
    found
}

/// Gives each number without a unit that of its line, else the grower's own for blooms.
pub(super) fn with_units(numbers: &[String], units: SizeUnits) -> Vec<String> {
    let unit = match units {
        SizeUnits::In => "in",
        SizeUnits::Mm => "mm",
    };
    let mut whole = with_units_of_the_line(numbers);
    for number in &mut whole {
        if !number.is_empty() && unit_of(number).is_none() {
            number.push_str(unit);
        }
    }
    whole
}

/// Gives each number without a unit the one that follows it on the line, else the last before it;
/// where the line has none they stay as they are.
pub(super) fn with_units_of_the_line(numbers: &[String]) -> Vec<String> {
    let last = numbers.iter().rev().find_map(|number| unit_of(number));
    let mut unit = last.unwrap_or_default();
    let mut whole = Vec::new();
    for number in numbers.iter().rev() {
        match unit_of(number) {
            Some(own) => {
                unit = own;
                whole.push(number.clone());
            }
            None if number.is_empty() => whole.push(number.clone()),
            None => whole.push(format!("{number}{unit}")),
        }
    }
    whole.reverse();
    whole
}

fn unit_of(number: &str) -> Option<&str> {
    let at = number.find(|c: char| c.is_alphabetic() || c == '"')?;
    Some(&number[at..])
}
