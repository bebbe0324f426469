//! Key dates as iCalendar, RFC 5545: lines end in CRLF and are folded at 75 octets, text is escaped.

use jiff::civil::DateTime;

use super::dates::KeyDate;
use crate::measure::day;

/// The longest line, in octets, its end not counted (RFC 5545, 3.1).
const LINE: usize = 75;

/// One calendar of whole-day events. `stamp` is the time at which it is made, in UTC. An event keeps
/// its identity within a season, so that a calendar that is read again moves it and adds no second.
pub fn calendar(dates: &[KeyDate], season: i16, stamp: DateTime) -> String {
    let mut text = String::new();
    let mut line = |content: &str| text.push_str(&folded(content));
    line("BEGIN:VCALENDAR");
    line("VERSION:2.0");
    line("PRODID:-//trug//order//EN");
    line("CALSCALE:GREGORIAN");
    for date in dates {
        let until = day::later(date.day, 1);
        line("BEGIN:VEVENT");
        line(&format!("UID:{season}-{}@order.trug", date.id));
        line(&format!("DTSTAMP:{}", stamp.strftime("%Y%m%dT%H%M%SZ")));
        line(&format!(
            "DTSTART;VALUE=DATE:{}",
            date.day.strftime("%Y%m%d")
        ));
        line(&format!("DTEND;VALUE=DATE:{}", until.strftime("%Y%m%d")));
        line(&format!("SUMMARY:{}", escaped(&date.what)));
        line(&format!("DESCRIPTION:{}", escaped(&date.more)));
        line("TRANSP:TRANSPARENT");
        line("END:VEVENT");
    }
    line("END:VCALENDAR");
    text
}

/// Text as RFC 5545, 3.3.11 has it.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' | ';' | ',' => escaped.extend(['\\', c]),
            '\n' => escaped.push_str("\\n"),
            c if c.is_control() => escaped.push(' '),
            c => escaped.push(c),
        }
    }
    escaped
}

/// The line in pieces of at most [`LINE`] octets, no character cut in two; each piece but the first
/// begins with a space.
fn folded(content: &str) -> String {
    let mut folded = String::with_capacity(content.len() + 2);
    let mut octets = 0;
    for c in content.chars() {
        if octets + c.len_utf8() > LINE {
            folded.push_str("\r\n ");
            octets = 1;
        }
        folded.push(c);
        octets += c.len_utf8();
    }
    folded + "\r\n"
}

#[cfg(test)]
mod tests {
    use super::*;
    use icalendar::{Calendar, CalendarComponent, Component};
    use jiff::civil::date;
    use proptest::prelude::*;

    fn read_back(dates: &[KeyDate]) -> Vec<(String, String, String)> {
        let text = calendar(dates, 2027, date(2026, 11, 25).at(8, 0, 0, 0));
        for line in text.split_terminator("\r\n") {
            assert!(
                line.len() <= LINE && !line.contains(['\r', '\n']),
                "{line:?}"
            );
        }
        let parsed: Calendar = text.parse().expect("a calendar");
        let event = |one: &CalendarComponent| {
            let event = one.as_event().expect("an event");
            let text = |one: Option<&str>| one.unwrap_or_default().to_string();
            let start = event.get_start().map(|start| format!("{start:?}"));
            (
                text(event.get_summary()),
                text(event.get_description()),
                start.unwrap_or_default(),
            )
        };
        parsed.components.iter().map(event).collect()
    }

    /// Parsed back by the `icalendar` crate.
    #[test]
    fn a_library_reads_the_same_events() {
        let day = KeyDate {
            id: "plant".to_string(),
            day: date(2027, 4, 29),
            what: "Plant, then water; C:\\beds".to_string(),
            more: format!("{}é", "Ærøy Stack, ".repeat(20)),
        };
        let read = read_back(std::slice::from_ref(&day));
        assert_eq!(read.len(), 1);
        assert_eq!((&read[0].0, &read[0].1), (&day.what, &day.more));
        assert!(read[0].2.contains("2027-04-29"), "{read:?}");
    }

    proptest! {
        #[test]
        fn any_text_comes_back(what in "[ -~éß花]{1,90}") {
            let day = KeyDate { id: "x".to_string(), day: date(2027, 4, 29), what: what.trim().to_string(), more: String::new() };
            let read = read_back(std::slice::from_ref(&day));
            prop_assert_eq!(read.len(), 1);
            prop_assert_eq!(&read[0].0, &day.what);
        }
    }
}
