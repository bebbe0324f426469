//! A new seedling from a line: its number, its parents, where it stands.

use super::{Of, Pending, RowPage};
use crate::measure::bounds::MOST_COUNTED;
use crate::screen::Effect;
use crate::screen::kit::line::Line;
use crate::trial::{Number, Parent, Seedling};
use crate::variety::Text;

/// What may be typed.
pub(super) const HINT: &str =
    "NUMBER SEED PARENT x POLLEN PARENT, ROW PLACE; all but the number may be left out.";

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

    pub(super) fn add(&mut self, text: &str) -> Option<Effect> {
        let seedling = match read(text) {
            Ok(seedling) => seedling,
            Err(problem) => {
                self.refuse(problem);
                return None;
            }
        };
        if self.plot.trial.seedling(seedling.number).is_some() {
            self.refuse(format!(
                "found the number {} a second time, expected a new one",
                seedling.number
            ));
            return None;
        }
        self.save_or_keep(Pending::Seedling(seedling))
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
        self.save_or_keep(Pending::Seedling(Seedling::numbered(number)))
    }
}

/// `26-014 Haaf Lantern x open-pollinated, sea wall 4`.
fn read(text: &str) -> Result<Seedling, String> {
    let (number, rest) = text.split_once(' ').unwrap_or((text, ""));
    let number: Number = number.parse().map_err(|error| format!("{error}"))?;
    let mut seedling = Seedling::numbered(number);
    let (parents, place) = rest.split_once(',').unwrap_or((rest, ""));
    let parent = |text: &str| match text.trim() {
        "" => Ok(Parent::Unknown),
        text => parent_of(number, text),
    };
    let (seed, pollen) = parents.split_once(" x ").unwrap_or((parents, ""));
    seedling.seed_parent = parent(seed)?;
    seedling.pollen_parent = parent(pollen)?;
    let place = place.trim();
    let (row, number) = match place.rsplit_once(' ') {
        Some((row, number)) if number.parse::<u32>().is_ok() => (row, number.parse().ok()),
        _ => match place.parse::<u32>() {
            Ok(number) => ("", Some(number)),
            Err(_) => (place, None),
        },
    };
    let most = MOST_COUNTED;
    if number.is_some_and(|number| number > most) {
        return Err(format!(
            "found {place:?}, expected a place of at most {most}"
        ));
    }
    seedling.place = number;
    if !row.trim().is_empty() {
        seedling.row = Some(Text::new(row.trim()).map_err(|error| error.to_string())?);
    }
    Ok(seedling)
}

/// A parent as it is typed. A second number where the line offered one already is no parent.
fn parent_of(number: Number, text: &str) -> Result<Parent, String> {
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
        let told =
            |text: &str| read(text).map(|one| format!("{}: {}", one.number, one.description()));
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
