//! A new seedling from a line: its number, its parents, where it stands.

use super::{Of, Pending, RowPage, Turn};
use crate::measure::bounds::MOST_COUNTED;
use crate::record::{Fields, Key};
use crate::screen::Effect;
use crate::screen::kit::line::Line;
use crate::trial::{Number, Numbers, Parent, Seedling, SeedlingEdit, Sowing, SowingGround};
use crate::variety::Varieties;

/// What may be typed.
pub(super) const HINT: &str = "NUMBER SEED x POLLEN, ROW PLACE; all but the number may be left out; several as 26-003..26-010; an empty line opens a slip.";

impl RowPage {
    pub(super) fn begin_adding(&mut self) {
        if let Some(refusal) = self.refusal() {
            return self.say(refusal);
        }
        let next = self.plot.trial.next_number(self.plot.today.year());
        let next = next.map_or(String::new(), |number| format!("{number} "));
        // The parents are written behind the number.
        self.line = Some(Line::new(Of::Add, next));
    }

    pub(super) fn add(&mut self, text: &str, list: &Varieties) -> Option<Effect> {
        if text.is_empty() {
            self.line = None;
            self.begin_sowing(list);
            return None;
        }
        let ground = SowingGround {
            trial: &self.plot.trial,
            list,
            changed: None,
            days: self.calendar(),
        };
        let read = read(text, ground).and_then(|sowing| match sowing.wrong(ground) {
            Some((_, told)) => Err(told),
            None => Ok(sowing.seedlings()),
        });
        match read {
            Ok(seedlings) => self.save_or_keep(Pending::Seedlings {
                edit: SeedlingEdit::add(seedlings),
                turn: Turn::Made,
            }),
            Err(problem) => {
                self.refuse(problem);
                None
            }
        }
    }

    /// Adds the plant of a keyed bloom where the row has none of that number: asked once, then done.
    /// The bloom follows, at once or when the plant is on the disk.
    pub(super) fn add_for_bloom(&mut self, number: Number) -> Option<Effect> {
        let Some(line) = &mut self.line else {
            return None;
        };
        if !line.is_doubted() {
            line.doubt(format!(
                "Enter again adds {number}, and saves this bloom to it. It is not in the row."
            ));
            return None;
        }
        // What is then strange about the bloom is asked on its own.
        line.set(number.to_string());
        self.save_or_keep(Pending::Seedlings {
            edit: SeedlingEdit::add(vec![Seedling::numbered(number)]),
            turn: Turn::Made,
        })
    }
}

/// `26-014 Haaf Lantern x open-pollinated, sea wall 4`, and `26-003..26-010 Haaf Lantern`.
fn read(text: &str, ground: SowingGround<'_>) -> Result<Sowing, String> {
    let (numbers, rest) = split_numbers(text);
    let numbers: Numbers = numbers.parse()?;
    let mut sowing = Sowing::new(Some(numbers));
    let (parents, place) = rest.split_once(',').unwrap_or((rest, ""));
    let (seed, pollen) = parents.split_once(" x ").unwrap_or((parents, ""));
    let parents = [seed, pollen].map(|one| parent_of(numbers.first(), one.trim()));
    let [seed, pollen] = parents;
    let place = place.trim();
    let (row, number) = match place.rsplit_once(' ') {
        Some((row, number)) if number.parse::<u32>().is_ok() => (row, number),
        _ if place.parse::<u32>().is_ok() => ("", place),
        _ => (place, ""),
    };
    let most = MOST_COUNTED;
    if number.parse::<u32>().is_ok_and(|number| number > most) {
        return Err(format!(
            "found {place:?}, expected a place of at most {most}"
        ));
    }
    let told = |parent: Parent| match parent {
        Parent::Unknown => String::new(),
        parent => parent.to_string(),
    };
    for (word, text) in [
        ("seed", told(seed?).as_str()),
        ("pollen", told(pollen?).as_str()),
        ("row", row),
        ("place", number),
    ] {
        sowing.set(Key::of(word), text, ground)?;
    }
    Ok(sowing)
}

/// The numbers at the start of a line, with what stands behind `..` or `to`, and the rest.
fn split_numbers(text: &str) -> (&str, &str) {
    let word = |from: usize| {
        let rest = &text[from..];
        let blank = rest.len() - rest.trim_start().len();
        let end = rest[blank..]
            .find(' ')
            .map_or(text.len(), |at| from + blank + at);
        (from + blank, end)
    };
    let (_, mut end) = word(0);
    let (start, next) = word(end);
    // The number that the line began with gives way to several that were typed whole behind it.
    let several = text[start..next].split_once("..");
    if several.is_some_and(|(first, _)| first.parse::<Number>().is_ok()) {
        return (&text[start..next], text[next..].trim_start());
    }
    let goes_on = text[..end].ends_with("..") || text[start..next].starts_with("..");
    if goes_on {
        end = next;
        if text[start..next] == *".." {
            end = word(end).1;
        }
    } else if text[start..next] == *"to" {
        end = word(next).1;
    }
    (&text[..end], &text[end..])
}

/// A parent as it is typed. A second number where the line offered one already is no parent.
fn parent_of(number: Number, text: &str) -> Result<Parent, String> {
    if text.is_empty() {
        return Ok(Parent::Unknown);
    }
    let first = text.split_whitespace().next().unwrap_or_default();
    let other = first.parse::<Number>().ok();
    match other {
        Some(other) if first != text || other.year() >= number.year() => Err(format!(
            "found {text:?} behind {number}, expected a parent that was sown before it; Ctrl-U erases the number that was offered"
        )),
        _ => text.parse().map_err(|error| format!("{error}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_a_seedling() {
        let (trial, list) = (crate::trial::Trial::default(), Varieties::default());
        let ground = SowingGround {
            trial: &trial,
            list: &list,
            changed: None,
            days: crate::measure::day::Calendar::FILES,
        };
        let told = |text: &str| {
            let all = read(text, ground)?.seedlings();
            let each = all
                .iter()
                .map(|one| format!("{}: {}", one.number, one.description()));
            Ok::<String, String>(each.collect::<Vec<_>>().join(" | "))
        };
        for (text, meant) in [
            ("26-14", "26-014: unknown x unknown, sown 2026"),
            (
                "26-014 Haaf Lantern x open-pollinated, sea wall 4",
                "26-014: Haaf Lantern x open-pollinated, sown 2026, row sea wall, place 4",
            ),
            (
                "26-014 Haaf Lantern",
                "26-014: Haaf Lantern x unknown, sown 2026",
            ),
            (
                "26-014 25-003 x Ebb Bell, 7",
                "26-014: 25-003 x Ebb Bell, sown 2026, place 7",
            ),
            (
                "26-003..004 25-003 x Ebb Bell, byre 7",
                "26-003: 25-003 x Ebb Bell, sown 2026, row byre, place 7 | 26-004: 25-003 x Ebb Bell, sown 2026, row byre, place 8",
            ),
            (
                "26-003 ..26-004 Haaf Bell",
                "26-003: Haaf Bell x unknown, sown 2026 | 26-004: Haaf Bell x unknown, sown 2026",
            ),
            (
                "26-001 26-003..26-004 Haaf Bell",
                "26-003: Haaf Bell x unknown, sown 2026 | 26-004: Haaf Bell x unknown, sown 2026",
            ),
            (
                "26-003 to 26-004",
                "26-003: unknown x unknown, sown 2026 | 26-004: unknown x unknown, sown 2026",
            ),
        ] {
            assert_eq!(told(text).as_deref(), Ok(meant));
        }
        assert!(told("Haaf").is_err());
        for text in ["26-003 27-001 Haaf Bell", "26-003 27-001", "26-003 26-003"] {
            let refused = told(text).expect_err(text);
            assert!(refused.contains("expected a parent"), "{refused}");
        }
    }
}
