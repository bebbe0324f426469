//! Which bed each variety stands in: in one stretch a bed, and split over beds as seldom as can be.
//!
//! Beds that share varieties are a group, filled one after the other: a group of so many beds splits
//! at most one time less than it has beds. So the fewest splits are those of the most groups into which
//! the varieties can be packed whole. Of up to [`MOST_BEDS`] beds every grouping is tried, the most groups
//! first; of more, all of them apart and each two together, and else what does not fit whole fills
//! what is left. The packing is a search of first fits, the largest first, which gives up after
//! [`MOST_TRIES`] steps; a grouping that it gave up is taken as one that does not do.

mod packing;

use packing::packed;

/// Beds of which every grouping is tried: there are 203 of 6.
const MOST_BEDS: usize = 6;
/// Steps of one packing.
const MOST_TRIES: usize = 20_000;

/// Plants of a variety in a bed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Share {
    /// The variety's place among those that are planted.
    pub(super) variety: usize,
    /// The bed's place.
    pub(super) bed: usize,
    /// Plants.
    pub(super) plants: u64,
}

/// The plants of varieties shared out over beds of so many places, each bed's shares one after the
/// other in the order of the varieties. What has no place is left out.
pub(super) fn planting(plants: &[u64], places: &[u64]) -> Vec<Share> {
    let beds: Vec<usize> = (0..places.len()).filter(|bed| places[*bed] > 0).collect();
    let all: u64 = plants.iter().sum();
    let room: u64 = places.iter().sum();
    let grouped = if all > room {
        None
    } else {
        let groupings = groupings(&beds);
        groupings.into_iter().find_map(|groups| {
            let rooms: Vec<u64> = { groups.iter() }
                .map(|group| group.iter().map(|bed| places[*bed]).sum())
                .collect();
            let of = packed(plants, &rooms, MOST_TRIES)?;
            Some((groups, of))
        })
    };
    let mut shares = match grouped {
        Some((groups, of)) => { groups.iter().enumerate() }
            .flat_map(|(at, group)| {
                let own: Vec<usize> = (0..plants.len()).filter(|one| of[*one] == at).collect();
                filled(plants, &own, places, group)
            })
            .collect(),
        None => fitted(plants, places, &beds),
    };
    shares.retain(|share| share.plants > 0);
    shares.sort_by_key(|share| (share.bed, share.variety));
    shares
}

/// Ways to group beds, those of more groups first.
fn groupings(beds: &[usize]) -> Vec<Vec<Vec<usize>>> {
    let apart: Vec<Vec<usize>> = beds.iter().map(|bed| vec![*bed]).collect();
    if beds.len() <= MOST_BEDS {
        let mut all = vec![Vec::new()];
        for bed in beds {
            all = all.iter().flat_map(|groups| with(groups, *bed)).collect();
        }
        all.sort_by_key(|groups| std::cmp::Reverse(groups.len()));
        return all;
    }
    let together = |one: usize, other: usize| {
        let mut groups = apart.clone();
        let joined = groups.remove(other);
        groups[one].extend(joined);
        groups
    };
    let pairs =
        (0..beds.len()).flat_map(|one| (one + 1..beds.len()).map(move |other| (one, other)));
    let pairs: Vec<_> = pairs.map(|(one, other)| together(one, other)).collect();
    std::iter::once(apart).chain(pairs).collect()
}

/// A grouping with one bed more: alone, or in any of its groups.
fn with(groups: &[Vec<usize>], bed: usize) -> Vec<Vec<Vec<usize>>> {
    let mut all: Vec<Vec<Vec<usize>>> = (0..groups.len())
        .map(|at| {
            let mut groups = groups.to_vec();
            groups[at].push(bed);
            groups
        })
        .collect();
    all.push([groups, &[vec![bed]]].concat());
    all
}

/// Varieties one after the other through the beds of a group.
fn filled(plants: &[u64], varieties: &[usize], places: &[u64], group: &[usize]) -> Vec<Share> {
    let mut shares = Vec::new();
    let mut beds = group.iter().map(|bed| (*bed, places[*bed]));
    let mut open = beds.next();
    for variety in varieties {
        let mut left = plants[*variety];
        while let Some((bed, room)) = open.as_mut().filter(|_| left > 0) {
            let plants = left.min(*room);
            let (variety, bed) = (*variety, *bed);
            shares.push(Share {
                variety,
                bed,
                plants,
            });
            (left, *room) = (left - plants, *room - plants);
            if *room == 0 {
                open = beds.next();
            }
        }
    }
    shares
}

/// The largest first into the first bed that has room for all of it; what has none fills what is left,
/// the largest room first.
fn fitted(plants: &[u64], places: &[u64], beds: &[usize]) -> Vec<Share> {
    let mut rooms = places.to_vec();
    let mut shares = Vec::new();
    let mut split = Vec::new();
    let mut varieties: Vec<usize> = (0..plants.len()).collect();
    varieties.sort_by_key(|one| std::cmp::Reverse(plants[*one]));
    for variety in varieties {
        let plants = plants[variety];
        match beds.iter().find(|bed| rooms[**bed] >= plants) {
            None => split.push(variety),
            Some(bed) => {
                rooms[*bed] -= plants;
                let bed = *bed;
                shares.push(Share {
                    variety,
                    bed,
                    plants,
                });
            }
        }
    }
    for variety in split {
        let mut left = plants[variety];
        while let Some(bed) = { beds.iter().copied() }
            .filter(|bed| left > 0 && rooms[*bed] > 0)
            .max_by_key(|bed| (rooms[*bed], std::cmp::Reverse(*bed)))
        {
            let plants = left.min(rooms[bed]);
            shares.push(Share {
                variety,
                bed,
                plants,
            });
            (left, rooms[bed]) = (left - plants, rooms[bed] - plants);
        }
    }
    shares
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The fewest shares of all ways to plant so many varieties in so many beds, one by one.
    fn fewest(plants: &[u64], rooms: &mut Vec<u64>) -> Option<usize> {
        let Some((first, others)) = plants.split_first() else {
            return Some(0);
        };
        spread(*first, 0, rooms, others)
    }

    fn spread(left: u64, bed: usize, rooms: &mut Vec<u64>, others: &[u64]) -> Option<usize> {
        if left == 0 {
            return fewest(others, rooms);
        }
        let room = *rooms.get(bed)?;
        let ways = (0..=left.min(room)).filter_map(|plants| {
            rooms[bed] -= plants;
            let found = spread(left - plants, bed + 1, rooms, others);
            rooms[bed] += plants;
            Some(found? + usize::from(plants > 0))
        });
        ways.collect::<Vec<_>>().into_iter().min()
    }

    fn all_planted(plants: &[u64], places: &[u64], shares: &[Share]) {
        for (variety, plants) in plants.iter().enumerate() {
            let own = shares.iter().filter(|share| share.variety == variety);
            assert_eq!(own.map(|share| share.plants).sum::<u64>(), *plants);
        }
        for (bed, room) in places.iter().enumerate() {
            let own: Vec<&Share> = shares.iter().filter(|share| share.bed == bed).collect();
            assert!(own.iter().map(|share| share.plants).sum::<u64>() <= *room);
            assert!(own.windows(2).all(|pair| pair[0].variety < pair[1].variety));
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        #[test]
        fn varieties_are_split_over_beds_as_seldom_as_can_be(
            plants in prop::collection::vec(1_u64..7, 1..5),
            places in prop::collection::vec(0_u64..11, 1..4),
        ) {
            prop_assume!(plants.iter().sum::<u64>() <= places.iter().sum());
            let shares = planting(&plants, &places);
            all_planted(&plants, &places, &shares);
            let fewest = fewest(&plants, &mut places.clone());
            prop_assert_eq!(Some(shares.len()), fewest, "{:?}", shares);
        }

        #[test]
        fn every_plant_of_many_varieties_has_a_place_in_many_beds(
            plants in prop::collection::vec(1_u64..60, 1..80),
            shares in prop::collection::vec(1_u64..40, 1..13),
            spare in 0_u64..30,
        ) {
            // Beds that hold all of them, and some spare.
            let all: u64 = plants.iter().sum::<u64>() + spare;
            let parts: u64 = shares.iter().sum();
            let mut places: Vec<u64> = shares.iter().map(|share| all * share / parts).collect();
            places[0] += all - places.iter().sum::<u64>();
            let planted = planting(&plants, &places);
            all_planted(&plants, &places, &planted);
            prop_assert!(planted.len() < plants.len() + places.len() * 2);
        }
    }

    #[test]
    fn what_has_no_place_is_left_out() {
        let shares = planting(&[5, 4], &[3, 4]);
        let planted: u64 = shares.iter().map(|share| share.plants).sum();
        assert_eq!(planted, 7);
        assert_eq!(planting(&[5], &[]), []);
    }
}
