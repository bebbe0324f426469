//! The packs of one supplier whose tubers are of no use, as one column: only what they come to
//! together counts, so the sums that they can come to stand for them all.

use crate::order::model::{Model, Pack};

/// Packs that only fill an order up.
#[derive(Debug, Clone)]
pub(in crate::order::solve) struct Fill {
    supplier: usize,
    /// What every price is a multiple of, in hundredths.
    unit: u64,
    /// The sums that they can come to, in units, rising from 0.
    pub(in crate::order::solve) sums: Vec<u64>,
    /// Those of the larger model, those to be bought first before the others.
    packs: Vec<Packs>,
}

/// An offer: its place, price in units, how many there are.
type Packs = (usize, u64, u64);

/// More sums than these are not worth a list: the packs then stay as they are.
const MOST_SUMS: u64 = 100_000;

impl Fill {
    /// These offers of one supplier as one; `None` where all are free, or have too many sums.
    pub(super) fn of(model: &Model, supplier: usize, offers: &[usize]) -> Option<Fill> {
        let offer = |at: &usize| &model.offers[*at];
        let prices: Vec<(u64, u64)> = { offers.iter().map(offer) }
            .map(|one| (one.price, one.most))
            .collect();
        let unit = prices
            .iter()
            .fold(0, |unit, (price, _)| common(unit, *price));
        let most = model.suppliers[supplier]
            .most_padding(&prices)
            .checked_div(unit)?;
        if most > MOST_SUMS {
            return None;
        }
        let mut offers = offers.to_vec();
        // What is wished for first, then what gives the most tubers for the money.
        offers.sort_by(|one, other| {
            let (one_of, other_of) = (offer(one), offer(other));
            let merit = |pack: &Pack| model.varieties[pack.variety].merit;
            let more = u128::from(other_of.tubers) * u128::from(one_of.price);
            let tubers = more.cmp(&(u128::from(one_of.tubers) * u128::from(other_of.price)));
            (merit(other_of).cmp(&merit(one_of)))
                .then(tubers)
                .then(one.cmp(other))
        });
        let packs = offers
            .iter()
            .map(|at| (*at, offer(at).price / unit, offer(at).most));
        let packs: Vec<Packs> = packs.collect();
        let reached = packs
            .iter()
            .fold(nothing(most), |reached, pack| with(&reached, pack));
        let sums = (0..=most).zip(reached).filter(|(_, reached)| *reached);
        Some(Fill {
            supplier,
            unit,
            sums: sums.map(|(sum, _)| sum).collect(),
            packs,
        })
    }

    /// A pack of one unit, of which there are as many as one of the sums.
    pub(super) fn pack(&self, variety: usize) -> Pack {
        Pack {
            variety,
            supplier: self.supplier,
            price: self.unit,
            tubers: 1,
            least: 0,
            most: self.sums.last().copied().unwrap_or(0),
        }
    }

    /// Packs by place that come to a sum, in units: of each as many as leave a sum that those after it
    /// can come to.
    pub(super) fn split(&self, sum: u64) -> Vec<(usize, u64)> {
        let mut after = vec![nothing(sum)];
        for pack in self.packs.iter().skip(1).rev() {
            let reached = after.last().map(|reached| with(reached, pack));
            after.extend(reached);
        }
        let mut left = sum;
        let take = |(pack, reached): (&Packs, Vec<bool>)| {
            let (place, price, most) = *pack;
            let leaves = |packs: &u64| reached[(left - packs * price) as usize];
            let most = left.checked_div(price).unwrap_or(0).min(most);
            let packs = (0..=most).rev().find(leaves)?;
            left -= packs * price;
            Some((place, packs))
        };
        self.packs
            .iter()
            .zip(after.into_iter().rev())
            .filter_map(take)
            .collect()
    }
}

/// Which sums up to a most no packs at all come to.
fn nothing(most: u64) -> Vec<bool> {
    // OK because it is at most MOST_SUMS.
    let mut reached = vec![false; most as usize + 1];
    reached[0] = true;
    reached
}

/// Which sums are reached with these packs beside those that reached some.
fn with(before: &[bool], (_, price, packs): &Packs) -> Vec<bool> {
    let mut reached = before.to_vec();
    let price = usize::try_from(*price).unwrap_or(usize::MAX).max(1);
    // The fewest packs that each sum needs.
    let mut needed = vec![0; reached.len()];
    for sum in price..reached.len() {
        if !reached[sum] && reached[sum - price] && needed[sum - price] < *packs {
            reached[sum] = true;
            needed[sum] = needed[sum - price] + 1;
        }
    }
    reached
}

/// The greatest common divisor.
pub(in crate::order::solve) fn common(mut a: u64, mut b: u64) -> u64 {
    while b > 0 {
        (a, b) = (b, a % b);
    }
    a
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::model::{Candidate, Supplier};

    fn fill(least: u64, offers: &[(u64, u64)]) -> Fill {
        let pack = |(variety, (price, most)): (usize, &(u64, u64))| Pack {
            variety,
            price: *price,
            tubers: 1,
            most: *most,
            ..Pack::default()
        };
        let model = Model {
            suppliers: vec![Supplier {
                least,
                ..Supplier::default()
            }],
            varieties: vec![Candidate::default(); offers.len()],
            offers: offers.iter().enumerate().map(pack).collect(),
            ..Model::default()
        };
        let all: Vec<usize> = (0..offers.len()).collect();
        Fill::of(&model, 0, &all).expect("some packs")
    }

    /// By hand, in whole hundreds: of two packs at 3 and one at 5, up to 11, where the cheapest first
    /// reach 7.
    #[test]
    fn the_sums_are_those_that_the_packs_come_to() {
        let fill = fill(700, &[(300, 2), (500, 1)]);
        assert_eq!((fill.unit, &fill.sums[..]), (100, &[0, 3, 5, 6, 8, 11][..]));
        assert_eq!(fill.split(8), [(0, 1), (1, 1)]);
        assert_eq!(fill.split(6), [(0, 2), (1, 0)]);
        assert_eq!(fill.split(0), [(0, 0), (1, 0)]);
    }
}
