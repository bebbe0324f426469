//! The season: the days on which a bloom was seen, and nothing beyond them.

use jiff::civil::Date;

use crate::form::traits::list_and;
use crate::measure::day::month_name;

/// `seen in bloom 3 August to 28 September (2 years)`; of the days of several years the earliest
/// and the latest in the year. From fewer years than `least` no more than the months: what one
/// summer shows of a season hangs on when somebody looked.
pub(super) fn season_in_words(days: &[Date], least: usize) -> Option<String> {
    let in_year = |date: &&Date| (date.month(), date.day());
    let (first, last) = (
        days.iter().min_by_key(in_year)?,
        days.iter().max_by_key(in_year)?,
    );
    let mut years: Vec<i16> = days.iter().map(|date| date.year()).collect();
    years.sort_unstable();
    years.dedup();
    if years.len() < least {
        return Some(format!("seen in bloom so far in {}", months(days, &years)));
    }
    let when = match years[..] {
        [year] => format!("{year}"),
        _ => format!("{} years", years.len()),
    };
    Some(match in_year(&first) == in_year(&last) {
        true => format!("seen in bloom on {} ({when})", day(first)),
        false => format!("seen in bloom {} to {} ({when})", day(first), day(last)),
    })
}

/// `August and September 2026`, in the order of the year.
fn months(days: &[Date], years: &[i16]) -> String {
    let mut seen: Vec<i8> = days.iter().map(|date| date.month()).collect();
    seen.sort_unstable();
    seen.dedup();
    let seen: Vec<&str> = seen.into_iter().map(month_name).collect();
    let years: Vec<String> = years.iter().map(i16::to_string).collect();
    let years: Vec<&str> = years.iter().map(String::as_str).collect();
    format!("{} {}", list_and(&seen), list_and(&years))
}

fn day(date: &Date) -> String {
    format!("{} {}", date.day(), month_name(date.month()))
}
