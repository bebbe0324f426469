//! How long what fits a use lasts in the vase, by the grower's list.

use super::candidates::ListContext;
use crate::variety::FITS;
use crate::variety::{Known, Quantity};

/// By use: its id, and the days that half of what fits it lasts at least.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Lasting(Vec<(String, f64)>);

impl Lasting {
    /// Looks through the list. What is measured counts before what is stated, and that before what the form
    /// leads one to expect.
    pub fn of(against: ListContext<'_>) -> Lasting {
        let ListContext {
            list,
            index,
            grounds,
            ..
        } = against;
        let uses = grounds.uses.list();
        let mut days: Vec<Vec<f64>> = vec![Vec::new(); uses.len()];
        for (row, variety) in list.list().iter().enumerate() {
            let known = Known::of(variety, grounds.rules, grounds.uses);
            let Some(vase) = known.number(Quantity::Vase) else {
                continue;
            };
            for (at, days) in days.iter_mut().enumerate() {
                if index
                    .fitness(row, at)
                    .is_some_and(|fitness| fitness >= FITS)
                {
                    days.push(vase.value);
                }
            }
        }
        let of_use =
            |(one, days): (&crate::variety::Use, Vec<f64>)| Some((one.id.clone(), middle(days)?));
        Lasting(uses.iter().zip(days).filter_map(of_use).collect())
    }

    /// The days that half of what fits a use lasts at least; `None` where nothing is known.
    pub fn days(&self, id: &str) -> Option<f64> {
        let own = self.0.iter().find(|(own, _)| own == id);
        own.map(|(_, days)| *days)
    }
}

/// The greatest number that half of them reach.
fn middle(mut numbers: Vec<f64>) -> Option<f64> {
    numbers.sort_by(|one, other| other.total_cmp(one));
    let last = numbers.len().checked_sub(1)?;
    numbers.get(last / 2).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_of_them_last_as_long() {
        assert_eq!(middle(vec![3.0, 8.0, 5.0]), Some(5.0));
        assert_eq!(middle(vec![3.0, 8.0]), Some(8.0));
        assert_eq!(middle(Vec::new()), None);
    }
}
