//! Weeks in words.

/// Weeks, rising, as spans: `30 to 33, 36`.
pub fn weeks_in_words(weeks: &[u8]) -> String {
    let mut spans: Vec<(u8, u8)> = Vec::new();
    for week in weeks {
        match spans.last_mut() {
            Some((_, last)) if *last + 1 == *week => *last = *week,
            _ => spans.push((*week, *week)),
        }
    }
    let told = spans.iter().map(|(first, last)| {
        if first == last {
            first.to_string()
        } else {
            format!("{first} to {last}")
        }
    });
    told.collect::<Vec<_>>().join(", ")
}

/// The same with its noun: `week 36`, `weeks 30 to 33`.
pub fn in_weeks(weeks: &[u8]) -> String {
    let noun = if weeks.len() == 1 { "week" } else { "weeks" };
    format!("{noun} {}", weeks_in_words(weeks))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weeks_are_told_in_spans() {
        assert_eq!(weeks_in_words(&[30, 31, 32, 36]), "30 to 32, 36");
        assert_eq!(weeks_in_words(&[]), "");
    }
}
