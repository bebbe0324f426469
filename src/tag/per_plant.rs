//! A figure that holds for every plant, and for some of them another.

use std::collections::BTreeMap;

use crate::trial::Subject;

/// What holds for all plants, and what for some of them in its place.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PerPlant<T> {
    all: T,
    own: BTreeMap<Subject, T>,
}

impl<T> PerPlant<T> {
    /// This for every plant.
    pub fn all(all: T) -> PerPlant<T> {
        PerPlant {
            all,
            own: BTreeMap::new(),
        }
    }

    /// What holds for this plant.
    pub fn of(&self, subject: &Subject) -> &T {
        self.own.get(subject).unwrap_or(&self.all)
    }

    /// What is set for this plant alone.
    pub fn own(&self, subject: &Subject) -> Option<&T> {
        self.own.get(subject)
    }

    /// What holds for those of which nothing of their own is set.
    pub fn for_all(&self) -> &T {
        &self.all
    }

    /// Sets it for one plant, or for all of which nothing of their own is set.
    pub fn set(&mut self, subject: Option<Subject>, value: T) {
        match subject {
            Some(subject) => {
                self.own.insert(subject, value);
            }
            None => self.all = value,
        }
    }

    /// Takes in what was typed: `6` for all, `24-001=6` for one plant; `plant` finds a plant by its
    /// number or name, `value` reads the figure.
    ///
    /// # Errors
    /// Those of `plant` and `value`.
    pub fn take<E>(
        &mut self,
        typed: &str,
        plant: impl FnOnce(&str) -> Result<Subject, E>,
        value: impl FnOnce(&str) -> Result<T, E>,
    ) -> Result<(), E> {
        let (subject, figure) = match typed.rsplit_once('=') {
            Some((name, figure)) => (Some(plant(name.trim())?), figure),
            None => (None, typed),
        };
        self.set(subject, value(figure.trim())?);
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_set_for_one_plant_stands_whatever_is_set_for_all() {
        let plant = |name: &str| name.parse::<Subject>().map_err(|error| error.to_string());
        let number = |text: &str| text.parse::<u32>().map_err(|error| error.to_string());
        let mut figures = PerPlant::all(1);
        for typed in ["24-001=5", "7", " Haaf Bell = 9"] {
            assert_eq!(figures.take(typed, plant, number), Ok(()), "{typed}");
        }
        let of = |name: &str| *figures.of(&plant(name).expect("a plant"));
        assert_eq!((of("24-001"), of("Haaf Bell"), of("24-002")), (5, 9, 7));
        assert!(figures.clone().take("24-001=some", plant, number).is_err());
        assert!(figures.clone().take("=5", plant, number).is_err());
    }
}
