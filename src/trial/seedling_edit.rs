//! Changes of the seedlings of a row, each of which gives back what undoes it.

use super::{Number, Seedling, Subject, Trial};

/// One change of the row's seedlings.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SeedlingEdit {
    /// These come, each to its place in the file, the lowest place first; the end where it is past it.
    Add(Vec<(usize, Seedling)>),
    /// Another record in the place of this one's.
    Put {
        /// Whose record it is.
        number: Number,
        /// The record from then on.
        seedling: Seedling,
    },
    /// These go.
    Remove(Vec<Number>),
}

impl SeedlingEdit {
    /// These come behind all others.
    pub fn add(seedlings: Vec<Seedling>) -> SeedlingEdit {
        let end = |seedling| (usize::MAX, seedling);
        SeedlingEdit::Add(seedlings.into_iter().map(end).collect())
    }

    /// Makes the change and gives back the one that undoes it; `None`, and no change, where a number
    /// is there already or is not there.
    pub fn apply(self, all: &mut Vec<Seedling>) -> Option<SeedlingEdit> {
        let place =
            |all: &[Seedling], number: Number| all.iter().position(|one| one.number == number);
        match self {
            SeedlingEdit::Add(new) => {
                let numbers: Vec<Number> = new.iter().map(|(_, one)| one.number).collect();
                let free = |(at, number): (usize, &Number)| {
                    place(all, *number).is_none() && !numbers[..at].contains(number)
                };
                if !numbers.iter().enumerate().all(free) {
                    return None;
                }
                for (at, seedling) in new {
                    all.insert(at.min(all.len()), seedling);
                }
                Some(SeedlingEdit::Remove(numbers))
            }
            SeedlingEdit::Put { number, seedling } => {
                let at = place(all, number)?;
                if seedling.number != number && place(all, seedling.number).is_some() {
                    return None;
                }
                let number = seedling.number;
                let seedling = std::mem::replace(&mut all[at], seedling);
                Some(SeedlingEdit::Put { number, seedling })
            }
            SeedlingEdit::Remove(numbers) => {
                let mut places: Vec<usize> = numbers
                    .iter()
                    .map(|number| place(all, *number))
                    .collect::<Option<_>>()?;
                places.sort_unstable();
                places.dedup();
                let mut gone: Vec<(usize, Seedling)> = places
                    .into_iter()
                    .rev()
                    .map(|at| (at, all.remove(at)))
                    .collect();
                gone.reverse();
                Some(SeedlingEdit::Add(gone))
            }
        }
    }

    /// The numbers whose records it changes, before it and after.
    pub fn numbers(&self) -> Vec<Number> {
        match self {
            SeedlingEdit::Add(new) => new.iter().map(|(_, one)| one.number).collect(),
            SeedlingEdit::Put { number, seedling } if *number == seedling.number => vec![*number],
            SeedlingEdit::Put { number, seedling } => vec![*number, seedling.number],
            SeedlingEdit::Remove(numbers) => numbers.clone(),
        }
    }

    /// What it does, as a clause: `26-004 changed`, `26-003 to 26-010 added`.
    pub fn told(&self) -> String {
        let all = |numbers: &[Number]| match numbers {
            [] => "nothing".to_string(),
            [one] => one.to_string(),
            [first, .., last] => format!("{first} to {last}"),
        };
        match self {
            SeedlingEdit::Put { number, seedling } if *number != seedling.number => {
                format!("{number} is {} from now on", seedling.number)
            }
            SeedlingEdit::Put { number, .. } => format!("{number} changed"),
            SeedlingEdit::Add(_) => format!("{} added", all(&self.numbers())),
            SeedlingEdit::Remove(numbers) => format!("{} dropped", all(numbers)),
        }
    }
}

impl Trial {
    /// Changes the seedlings, and gives back what undoes that; `None`, and no change, where a number
    /// is there already or is not there.
    pub fn edit(&mut self, edit: SeedlingEdit) -> Option<SeedlingEdit> {
        self.change_seedlings(|all| edit.apply(all))
    }

    /// Why a seedling cannot go or be called otherwise, as a clause: what was noted of it would be of
    /// no plant. What is withdrawn does not keep it.
    pub fn why_stays(&self, number: Number) -> Option<String> {
        let subject = Subject::Seedling(number);
        match self.of_subject(&subject).len() {
            0 => {}
            1 => {
                return Some(format!(
                    "{number} has an entry in the book, which would be of no plant"
                ));
            }
            entries => {
                return Some(format!(
                    "{number} has {entries} entries in the book, which would be of no plant"
                ));
            }
        }
        let of = self.parents_naming(|parent| *parent == subject)?;
        Some(format!("{number} is named as {of}"))
    }
}
