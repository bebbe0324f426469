//! Seedlings as a person fills them in: one, or several of one cross.

use super::{Number, Numbers, Parent, Seedling, Sown, Subject, Trial};
use crate::measure::bounds::MOST_COUNTED;
use crate::measure::day::Calendar;
use crate::measure::{bounds, brief};
use crate::record::{Field, Fields, Figure, Key, beginning_with};
use crate::variety::{Text, Varieties};

/// One seedling, or several that follow each other by number and share all else; their places are
/// counted on.
#[derive(Debug, Clone, PartialEq)]
pub struct Sowing {
    numbers: Option<Numbers>,
    /// All but the number, with the place of the first.
    all: Seedling,
}

/// What seedlings are filled in against.
#[derive(Debug, Clone, Copy)]
pub struct SowingGround<'a> {
    /// The row that they stand in.
    pub trial: &'a Trial,
    /// The list, for its names of parents.
    pub list: &'a Varieties,
    /// The one that is changed; `None` of new ones.
    pub changed: Option<Number>,
    /// What a day that is typed is read by.
    pub days: Calendar,
}

/// A field: its word, name and meaning.
type Row = (&'static str, &'static str, &'static str, Figure);

#[rustfmt::skip] // A table reads by rows.
const TABLE: [Row; 7] = [
    ("number", "number", "The last two digits of the year of sowing, and its own number in that year.", Figure::Chosen),
    ("seed", "seed parent", "The plant that bore the seed.", Figure::Stated),
    ("pollen", "pollen parent", "The plant that gave the pollen.", Figure::Stated),
    ("sown", "sown", "When it was sown.", Figure::Assumed),
    ("row", "row", "The bed or row that it stands in.", Figure::Chosen),
    ("place", "place", "Its place in the row, counted from the gate.", Figure::Measured),
    ("plants", "plants", "Plants of it: one at first, more from cuttings and tubers.", Figure::Measured),
];

impl Sowing {
    /// The words of all fields.
    pub fn words() -> Vec<&'static str> {
        TABLE.iter().map(|row| row.0).collect()
    }

    /// Every field, for help: what stands in them is not said.
    pub fn described() -> Vec<Field> {
        let (trial, list) = (Trial::default(), Varieties::default());
        Sowing::new(None).fields(SowingGround {
            trial: &trial,
            list: &list,
            changed: None,
            days: Calendar::FILES,
        })
    }

    /// New seedlings of these numbers; `None` where the number is still to be said.
    pub fn new(numbers: Option<Numbers>) -> Sowing {
        // OK because the number is told by its own field.
        let any = Number::new(2000, 1).unwrap_or_else(|| unreachable!("a number"));
        let all = Seedling::numbered(any);
        Sowing { numbers, all }
    }

    /// A seedling to be changed.
    pub fn of(seedling: &Seedling) -> Sowing {
        Sowing {
            numbers: Some(seedling.number.into()),
            all: Seedling {
                number: Sowing::new(None).all.number,
                ..seedling.clone()
            },
        }
    }

    /// The same with other numbers.
    pub fn with_numbers(self, numbers: Option<Numbers>) -> Sowing {
        Sowing { numbers, ..self }
    }

    /// The numbers so far.
    pub fn numbers(&self) -> Option<Numbers> {
        self.numbers
    }

    /// The seedlings, in the order of their numbers; none without a number.
    pub fn seedlings(&self) -> Vec<Seedling> {
        let numbers = self.numbers.into_iter().flat_map(Numbers::each);
        let seedling = |(on, number): (u32, Number)| Seedling {
            number,
            place: self.all.place.map(|first| first.saturating_add(on)),
            ..self.all.clone()
        };
        (0..).zip(numbers).map(seedling).collect()
    }

    fn text(&self, word: &str) -> String {
        let parent = |parent: &Parent| match parent {
            Parent::Unknown => String::new(),
            parent => parent.to_string(),
        };
        let all = &self.all;
        match word {
            "number" => self.numbers.map_or(String::new(), |one| one.to_string()),
            "seed" => parent(&all.seed_parent),
            "pollen" => parent(&all.pollen_parent),
            "sown" => all.sown.map_or(String::new(), |sown| sown.to_string()),
            "row" => all.row.as_ref().map_or(String::new(), Text::to_string),
            "place" => all.place.map_or(String::new(), |place| place.to_string()),
            _ => all
                .plants
                .map_or(String::new(), |plants| plants.to_string()),
        }
    }

    fn takes(&self, word: &str, changed: Option<Number>) -> String {
        match word {
            "number" if changed.is_some() => "Such as 26-014.".to_string(),
            "number" => "Such as 26-014, or several at once as 26-003..26-010.".to_string(),
            "seed" | "pollen" => "A variety's name, a seedling's number, open-pollinated, or empty where nobody noted it.".to_string(),
            "sown" => {
                let first = self.numbers.map(Numbers::first);
                let year = first.map_or("the year of the number".to_string(), |one| one.year().to_string());
                format!("A year such as 2026 or a day such as 2026-03-14; where nothing stands, {year}.")
            }
            "row" => "One line, such as sea wall.".to_string(),
            "place" => "A whole number; of several that of the first, and the others count on.".to_string(),
            _ => "A whole number over 0.".to_string(),
        }
    }
}

fn parent(text: &str) -> Result<Parent, String> {
    match text {
        "" => Ok(Parent::Unknown),
        text => text.parse().map_err(|error| format!("{error}")),
    }
}

fn some<T>(text: &str, read: impl FnOnce(&str) -> Result<T, String>) -> Result<Option<T>, String> {
    match text {
        "" => Ok(None),
        text => read(text).map(Some),
    }
}

impl Fields for Sowing {
    type Ground<'a> = SowingGround<'a>;

    fn fields(&self, ground: SowingGround<'_>) -> Vec<Field> {
        let field = |(word, name, means, figure): Row| {
            let text = self.text(word);
            Field {
                key: Key::of(word),
                group: "",
                name,
                takes: self.takes(word, ground.changed),
                means,
                figure: match figure {
                    Figure::Assumed if !text.is_empty() => Figure::Chosen,
                    figure => figure,
                },
                text,
            }
        };
        TABLE.into_iter().map(field).collect()
    }

    fn set(&mut self, key: Key, text: &str, ground: SowingGround<'_>) -> Result<(), String> {
        let text = text.trim();
        let error = |error: &dyn std::fmt::Display| error.to_string();
        let one = |text: &str| text.parse::<Number>().map(Numbers::from);
        match (key.word, key.place) {
            ("number", 0) => {
                self.numbers = some(text, |text| match ground.changed {
                    Some(_) => one(text).map_err(|told| error(&told)),
                    None => text.parse(),
                })?;
            }
            ("seed", 0) => self.all.seed_parent = parent(text)?,
            ("pollen", 0) => self.all.pollen_parent = parent(text)?,
            ("sown", 0) => {
                let sown = |text: &str| Sown::typed(text, &ground.days);
                self.all.sown = some(text, sown)?;
            }
            ("row", 0) => {
                let row = |text: &str| Text::new(text).map_err(|told| error(&told));
                self.all.row = some(text, row)?;
            }
            ("place", 0) => {
                self.all.place = some(text, |text| counted(text, bounds::read::<u32>(text)))?
            }
            ("plants", 0) => {
                let plants = |text: &str| match bounds::read::<std::num::NonZeroU32>(text) {
                    Ok(plants) if plants.get() > 9999 => {
                        Err(format!("found {plants} plants, expected at most 9999"))
                    }
                    read => counted(text, read),
                };
                self.all.plants = some(text, plants)?;
            }
            _ => {
                let words = TABLE.map(|row| row.0).join(", ");
                return Err(format!(
                    "found {key}, expected a field of a seedling: {words}"
                ));
            }
        }
        Ok(())
    }

    fn offered(&self, key: Key, typed: &str, ground: SowingGround<'_>) -> Vec<String> {
        match key.word {
            "seed" | "pollen" => {
                let numbers = ground.trial.seedlings().iter();
                let numbers: Vec<String> = numbers.map(|one| one.number.to_string()).collect();
                let names = ground.list.list().iter().map(|one| one.name.as_str());
                let open = std::iter::once("open-pollinated");
                let all = open.chain(names).chain(numbers.iter().map(String::as_str));
                beginning_with(typed, all)
            }
            "row" => {
                let rows = ground
                    .trial
                    .seedlings()
                    .iter()
                    .filter_map(|one| one.row.as_deref());
                let rows: std::collections::BTreeSet<&str> = rows.collect();
                beginning_with(typed, rows)
            }
            _ => Vec::new(),
        }
    }

    fn wrong(&self, ground: SowingGround<'_>) -> Option<(Key, String)> {
        let Some(numbers) = self.numbers else {
            let told = "found no number, expected one such as 26-014".to_string();
            return Some((Key::of("number"), told));
        };
        let is_taken = |number: &Number| {
            ground.trial.seedling(*number).is_some() && Some(*number) != ground.changed
        };
        if let Some(taken) = numbers.each().find(is_taken) {
            let told =
                format!("found the number {taken} a second time, expected each seedling once");
            return Some((Key::of("number"), told));
        }
        if let Some(before) = ground.changed.filter(|before| *before != numbers.first())
            && let Some(told) = ground.trial.why_stays(before)
        {
            return Some((
                Key::of("number"),
                format!("found {}: {told}", numbers.first()),
            ));
        }
        let own = |parent: &Parent| match parent {
            Parent::Named(Subject::Seedling(number)) => numbers.each().any(|one| one == *number),
            _ => false,
        };
        let told =
            || "found the seedling itself, expected a plant that was there before it".to_string();
        if own(&self.all.seed_parent) {
            return Some((Key::of("seed"), told()));
        }
        if own(&self.all.pollen_parent) {
            return Some((Key::of("pollen"), told()));
        }
        let last = self
            .all
            .place
            .map(|place| u64::from(place) + numbers.count() as u64 - 1);
        let past = last.filter(|last| *last > u64::from(MOST_COUNTED));
        past.map(|last| {
            (
                Key::of("place"),
                format!("found places up to {last}, expected at most {MOST_COUNTED}"),
            )
        })
    }
}

/// What a number that is out of its range, or none, is told as.
fn counted<T, E: std::fmt::Display>(text: &str, read: Result<T, E>) -> Result<T, String> {
    read.map_err(|_| {
        let found = brief(text);
        format!("found {found:?}, expected a whole number such as 4, at most {MOST_COUNTED}")
    })
}

#[cfg(test)]
mod tests;
