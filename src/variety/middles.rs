//! What a want of a use counts where nothing is known of it: the middle of the list's own spread.
//!
//! Left out of the mean, what is unknown would count as the mean of what is known, and a bloom of which
//! nothing speaks but its height would stand before all that were ever seen in the wind. The middle is
//! the lower median of the shares that are known in the list, in whole thousandths rounded down. So one
//! more fact that is as good as the middle never lowers a variety, and never lets another pass it.

/// The shares in the middle of a list: by use, then want.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Middles(pub(super) Vec<Vec<Option<f64>>>);

impl Middles {
    /// Of no list: what is unknown is left out.
    pub const NONE: Middles = Middles(Vec::new());

    /// Those of a use, by want: shares from 0 to 1, `None` of what is known of no variety. Empty where
    /// no list is known.
    pub fn of(&self, use_at: usize) -> &[Option<f64>] {
        self.0.get(use_at).map_or(&[], Vec::as_slice)
    }
}

/// How many shares of one want lie in each thousandth.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Spread {
    counts: Vec<u32>,
    all: u32,
}

/// A share in whole thousandths, rounded down; of what is unknown [`Thousandths::UNKNOWN`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Thousandths(u16);

impl Thousandths {
    pub(super) const UNKNOWN: Thousandths = Thousandths(u16::MAX);
    const MOST: usize = 1000;

    pub(super) fn of(share: f64) -> Thousandths {
        // A share such as 0.7 is a hair less than itself.
        let whole = (share.clamp(0.0, 1.0) * Thousandths::MOST as f64 + 1e-9).floor();
        Thousandths(whole as u16)
    }

    pub(super) fn is_known(self) -> bool {
        self != Thousandths::UNKNOWN
    }
}

impl Spread {
    pub(super) fn none() -> Spread {
        Spread {
            counts: vec![0; Thousandths::MOST + 1],
            all: 0,
        }
    }

    pub(super) fn add(&mut self, share: Thousandths) {
        if share.is_known() {
            self.counts[usize::from(share.0)] += 1;
            self.all += 1;
        }
    }

    pub(super) fn take_away(&mut self, share: Thousandths) {
        if share.is_known() {
            self.counts[usize::from(share.0)] -= 1;
            self.all -= 1;
        }
    }

    /// The lower median; `None` of nothing.
    pub(super) fn middle(&self) -> Option<f64> {
        let mut before = self.all.checked_sub(1)? / 2;
        let at = self.counts.iter().position(|count| {
            let here = before < *count;
            before = before.saturating_sub(*count);
            here
        });
        at.map(|at| at as f64 / Thousandths::MOST as f64)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// The middle of a list sorted, and what is as good as it moves it no farther than to itself.
        #[test]
        fn the_middle_is_the_lower_median_and_a_good_fact_never_passes_itself(
            shares in prop::collection::vec(0_u16..=1000, 1..40),
            more in 0_u16..=1000,
        ) {
            let mut spread = Spread::none();
            for share in &shares {
                spread.add(Thousandths::of(f64::from(*share) / 1000.0));
            }
            let mut sorted = shares.clone();
            sorted.sort_unstable();
            let median = f64::from(sorted[(sorted.len() - 1) / 2]) / 1000.0;
            prop_assert_eq!(spread.middle(), Some(median));
            let more = f64::from(more) / 1000.0;
            spread.add(Thousandths::of(more));
            let moved = spread.middle().expect("a middle");
            prop_assert!(more < median || (median <= moved && moved <= more));
            spread.take_away(Thousandths::of(more));
            prop_assert_eq!(spread.middle(), Some(median));
        }
    }

    #[test]
    fn of_nothing_there_is_no_middle() {
        let mut spread = Spread::none();
        spread.add(Thousandths::UNKNOWN);
        assert_eq!(spread.middle(), None);
        assert!(Middles::default().of(3).is_empty());
    }
}
