//! Which entries count, of those that name one another.
//!
//! One rule: **what is withdrawn is as if it had never been made.** A withdrawal takes out the entry
//! that it names, and with it every correction of that entry made before the withdrawal; so a
//! correction that is withdrawn gives back what it corrected, and a withdrawal that is withdrawn gives
//! back what it withdrew, and so on. A correction made after a withdrawal is a new word on the matter
//! and counts. Of all that is left, the last made stands, whichever of the others it names.
//!
//! An entry names an earlier one only, so going from the last to the first each is decided before
//! what it names.

/// An entry of a chain, by its place in the book.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Link {
    /// Its place.
    pub(super) at: usize,
    /// The place of the entry that it names, an earlier one of the chain; `None` of the first.
    pub(super) names: Option<usize>,
    /// Whether it withdraws what it names; else it stands in its place.
    pub(super) withdraws: bool,
}

/// What a chain comes to.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Standing {
    /// The place of the entry that counts; `None` where all of them are withdrawn.
    pub(super) stands: Option<usize>,
    /// The places of those that no longer count, each with that of the entry that is why, in order.
    pub(super) ended: Vec<(usize, usize)>,
}

impl Standing {
    /// Of a chain in the order of its places. Time grows with the chain, whatever names what.
    pub(super) fn of(chain: &[Link]) -> Standing {
        // OK because a chain holds what its entries name: a link is found by its place.
        let index = |at: usize| chain.partition_point(|link| link.at < at);
        let names: Vec<Option<usize>> = chain.iter().map(|link| link.names.map(index)).collect();
        let mut corrections: Vec<Vec<usize>> = vec![Vec::new(); chain.len()];
        for (own, link) in chain.iter().enumerate() {
            if let (Some(named), false) = (names[own], link.withdraws) {
                corrections[named].push(own);
            }
        }
        let mut ended: Vec<Option<usize>> = vec![None; chain.len()];
        for own in (0..chain.len()).rev() {
            if let (Some(named), true, None) = (names[own], chain[own].withdraws, ended[own]) {
                take_out(named, own, &corrections, &mut ended);
            }
        }
        let counts = |own: &usize| ended[*own].is_none();
        let tells = |own: &usize| counts(own) && !chain[*own].withdraws;
        let stands = (0..chain.len()).rev().find(tells);
        let replaced_by = |own: usize| {
            let direct = corrections[own].iter().copied().rfind(counts);
            direct.or(stands.filter(|stands| *stands != own && tells(&own)))
        };
        let ended = (0..chain.len()).filter_map(|own| {
            let by = ended[own].or_else(|| replaced_by(own))?;
            Some((chain[own].at, chain[by].at))
        });
        Standing {
            ended: ended.collect(),
            stands: stands.map(|own| chain[own].at),
        }
    }
}

/// Ends `named` and its corrections before `by`. Each entry is ended once: of one that is ended
/// already, the later withdrawal ended all that this one could.
fn take_out(named: usize, by: usize, corrections: &[Vec<usize>], ended: &mut [Option<usize>]) {
    let mut open = vec![named];
    while let Some(own) = open.pop() {
        if own < by && ended[own].is_none() {
            ended[own] = Some(by);
            open.extend(&corrections[own]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// A chain from words: what each names, with a minus sign where it withdraws it; 0 of the first.
    fn chain(names: &[i32]) -> Vec<Link> {
        let link = |(at, names): (usize, &i32)| Link {
            at: at + 1,
            names: (*names != 0).then_some(names.unsigned_abs() as usize),
            withdraws: *names < 0,
        };
        names.iter().enumerate().map(link).collect()
    }

    #[test]
    fn a_withdrawal_that_is_withdrawn_gives_back_what_it_took() {
        for (names, stands) in [
            (&[0][..], Some(1)),
            (&[0, 1], Some(2)),
            (&[0, -1], None),
            // The withdrawal withdrawn, and that again, and again.
            (&[0, -1, -2], Some(1)),
            (&[0, -1, -2, -3], None),
            (&[0, -1, -2, -3, -4], Some(1)),
            // A correction that is withdrawn gives back what it corrected.
            (&[0, 1, -2], Some(1)),
            (&[0, 1, 2, -3], Some(2)),
            (&[0, 1, 2, -2], Some(1)),
            // The first one withdrawn takes its corrections with it; one made after it counts.
            (&[0, 1, -1], None),
            (&[0, 1, -1, -3], Some(2)),
            (&[0, -1, 1], Some(3)),
            (&[0, -1, 2], Some(3)),
            // Of several corrections the last counts, whichever it names.
            (&[0, 1, 1, 2], Some(4)),
            (&[0, 1, 1, -3], Some(2)),
        ] {
            assert_eq!(Standing::of(&chain(names)).stands, stands, "{names:?}");
        }
    }

    #[test]
    fn what_no_longer_counts_says_by_which_entry() {
        let ended = |names: &[i32]| Standing::of(&chain(names)).ended;
        assert_eq!(ended(&[0, 1, 2]), [(1, 2), (2, 3)]);
        assert_eq!(ended(&[0, -1, -2]), [(2, 3)]);
        assert_eq!(ended(&[0, 1, -1]), [(1, 3), (2, 3)]);
        assert_eq!(ended(&[0, 1, -2]), [(2, 3)]);
    }

    /// The rule word by word: an entry is out where a withdrawal that is not out came after it and
    /// names it or something that it goes back to by corrections.
    fn is_out(chain: &[Link], own: usize) -> bool {
        let goes_back = |named: usize| {
            let mut at = own;
            loop {
                match (chain[at].names, chain[at].withdraws) {
                    _ if chain[at].at == named => return true,
                    (Some(names), false) => at = names - 1,
                    _ => return false,
                }
            }
        };
        (own + 1..chain.len()).any(|by| {
            let link = chain[by];
            link.withdraws && link.names.is_some_and(goes_back) && !is_out(chain, by)
        })
    }

    proptest! {
        #[test]
        fn any_chain_is_decided_by_the_rule(picks in prop::collection::vec((any::<u32>(), any::<bool>()), 0..9)) {
            let mut names = vec![0];
            for (pick, withdraws) in picks {
                let named = (pick as usize % names.len()) as i32 + 1;
                names.push(if withdraws { -named } else { named });
            }
            let chain = chain(&names);
            let last = (0..chain.len()).rev().find(|own| !chain[*own].withdraws && !is_out(&chain, *own));
            let standing = Standing::of(&chain);
            prop_assert_eq!(standing.stands, last.map(|own| own + 1));
            for own in 0..chain.len() {
                let ended = standing.ended.iter().any(|(at, _)| *at == own + 1);
                let counts = if chain[own].withdraws { !is_out(&chain, own) } else { Some(own) == last };
                prop_assert!(!(ended && counts && !chain[own].withdraws), "{:?} {}", names, own);
                prop_assert!(ended || counts, "{:?} {}", names, own);
            }
        }
    }
}
