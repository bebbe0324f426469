//! The season: the days on which a bloom was seen, and nothing beyond them.

use jiff::civil::Date;

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// `seen in bloom 3 August to 28 September (2 years)`; of the days of several years the earliest
/// and the latest in the year.
pub(super) fn told(days: &[Date]) -> Option<String> {
    let in_year = |date: &&Date| (date.month(), date.day());
    let (first, last) = (
        days.iter().min_by_key(in_year)?,
        days.iter().max_by_key(in_year)?,
    );
    let mut years: Vec<i16> = days.iter().map(|date| date.year()).collect();
    years.sort_unstable();
    years.dedup();
    let when = match years[..] {
        [year] => format!("{year}"),
        _ => format!("{} years", years.len()),
    };
    Some(match in_year(&first) == in_year(&last) {
        true => format!("seen in bloom on {} ({when})", day(first)),
        false => format!("seen in bloom {} to {} ({when})", day(first), day(last)),
    })
}

fn day(date: &Date) -> String {
    // OK because a month is 1 to 12.
    let month = MONTHS.get(usize::from(date.month().unsigned_abs()) - 1);
    format!("{} {}", date.day(), month.unwrap_or(&""))
}
