//! Laws of narrowing and ranking, over a generated list.

use crate::common::shipped::Shipped;
use crate::common::varieties;

use std::sync::LazyLock;

use proptest::prelude::*;
use trug::colour::{Vocabulary, distance_to_target};
use trug::variety::{By, Facet, Index, Narrowing, Query, Ranking, Varieties};

static LIST: LazyLock<Varieties> = LazyLock::new(|| varieties::varieties(1_500));
static SHIPPED: LazyLock<Shipped> = LazyLock::new(Shipped::new);
static WORDS: LazyLock<&Vocabulary> = LazyLock::new(|| SHIPPED.context(8.0).words);
static INDEX: LazyLock<Index> = LazyLock::new(|| Index::new(&LIST, SHIPPED.context(8.0)));

fn narrowing() -> impl Strategy<Value = Narrowing> {
    let facet = (0..Facet::ALL.len(), any::<prop::sample::Index>()).prop_map(|(at, value)| {
        let facet = Facet::ALL[at];
        let values: &[String] = INDEX.values(facet);
        Narrowing::facet(facet, value.get(values).as_str())
    });
    let colour = (any::<prop::sample::Index>(), 0.0..40.0).prop_map(|(word, within)| {
        let word = word.get(WORDS.words());
        Narrowing::Colour {
            asked: word.word.clone(),
            targets: vec![word.target()],
            within,
        }
    });
    let words = "[a-z]{1,5}( [a-z]{1,2})?".prop_map(Narrowing::Words);
    prop_oneof![4 => facet, 1 => colour, 1 => words]
}

fn narrowings() -> impl Strategy<Value = Vec<Narrowing>> {
    prop::collection::vec(narrowing(), 0..4)
}

fn ranking() -> impl Strategy<Value = Ranking> {
    let by = prop::sample::select(vec![By::Name, By::Fitness, By::Colour, By::Both, By::Price]);
    let use_at = prop::option::of(0..10_usize);
    let words = prop::collection::vec(any::<prop::sample::Index>(), 0..3);
    (by, use_at, words).prop_map(|(by, use_at, words)| Ranking {
        by,
        use_at,
        targets: words
            .iter()
            .map(|word| word.get(WORDS.words()).target())
            .collect(),
        words: Some(Query::new("mora")),
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn narrowing_by_more_never_finds_more(some in narrowings(), more in narrowing()) {
        let before = INDEX.narrowed(&some);
        let after = INDEX.narrowed(&[some, vec![more]].concat());
        prop_assert!(after.iter().all(|row| before.has(row)));
    }

    #[test]
    fn the_order_of_narrowings_does_not_matter(some in narrowings(), turn in 0..4_usize) {
        let mut turned = some.clone();
        turned.rotate_left(turn.min(some.len()));
        prop_assert_eq!(INDEX.narrowed(&some), INDEX.narrowed(&turned));
    }

    #[test]
    fn a_facet_counts_what_picking_its_value_leaves(some in narrowings()) {
        let rows = INDEX.narrowed(&some);
        for left in INDEX.left(&rows) {
            for (value, count) in left.values {
                let picked = Narrowing::facet(left.facet, value);
                let after = INDEX.narrowed(&[some.clone(), vec![picked]].concat());
                prop_assert_eq!(after.count(), count, "{} {}", left.facet.id(), value);
            }
        }
    }

    #[test]
    fn the_one_to_drop_brings_what_it_says_and_no_other_more(some in narrowings()) {
        let without = |at: usize| {
            let mut kept = some.clone();
            kept.remove(at);
            INDEX.narrowed(&kept).count()
        };
        let most = (0..some.len()).map(without).max().unwrap_or(0);
        match INDEX.mend(&some) {
            Some(mend) => {
                prop_assert_eq!(INDEX.narrowed(&some).count(), 0);
                prop_assert_eq!((without(mend.drop), mend.brings), (most, most));
            }
            None => prop_assert!(most == 0 || INDEX.narrowed(&some).count() > 0),
        }
    }

    /// The first few are the beginning of the whole order, however few they are.
    #[test]
    fn the_first_few_are_the_beginning_of_the_whole_order(some in narrowings(), ranking in ranking(), top in 0..60_usize) {
        let rows = INDEX.narrowed(&some);
        let whole = INDEX.ranked(&rows, &ranking, usize::MAX);
        let first = INDEX.ranked(&rows, &ranking, top);
        prop_assert_eq!(&whole[..top.min(whole.len())], &first[..]);
        prop_assert_eq!(whole.len(), rows.count());
    }

    /// Stable: what was dropped leaves the order of the rest as it was, and a list in another order
    /// ranks the same.
    #[test]
    fn narrowing_keeps_the_order_of_what_is_left(some in narrowings(), ranking in ranking()) {
        let rows = INDEX.narrowed(&some);
        let whole = INDEX.ranked(&INDEX.narrowed(&[]), &ranking, usize::MAX);
        let kept: Vec<_> = whole.into_iter().filter(|ranked| rows.has(ranked.row)).collect();
        prop_assert_eq!(kept, INDEX.ranked(&rows, &ranking, usize::MAX));
    }

    #[test]
    fn colour_ranking_is_by_distance(word in any::<prop::sample::Index>()) {
        let target = word.get(WORDS.words()).target();
        let ranking = Ranking { by: By::Colour, targets: vec![target], ..Ranking::default() };
        let ranked = INDEX.ranked(&INDEX.narrowed(&[]), &ranking, 200);
        let distances: Vec<f64> = ranked.iter().filter_map(|one| one.distance).collect();
        prop_assert!(distances.len() == 200 && distances.is_sorted());
        for one in ranked {
            let colours: Vec<_> = INDEX.colours(one.row).collect();
            prop_assert_eq!(one.distance, Some(distance_to_target(&colours, &ranking.targets[0])));
        }
    }
}

#[test]
fn a_list_in_another_order_ranks_the_same() {
    let mut turned = Varieties::default();
    for variety in LIST.list().iter().rev() {
        turned
            .insert(turned.len(), variety.clone())
            .expect("each name once");
    }
    let other = Index::new(&turned, SHIPPED.context(8.0));
    for by in [By::Name, By::Fitness, By::Colour, By::Both, By::Price] {
        let targets = WORDS.target("peach").into_iter().collect();
        let ranking = Ranking {
            by,
            use_at: Some(1),
            targets,
            words: None,
        };
        let names = |index: &Index, list: &Varieties| -> Vec<String> {
            let ranked = index.ranked(&index.narrowed(&[]), &ranking, 100);
            ranked
                .iter()
                .map(|one| list.list()[one.row].name.to_string())
                .collect()
        };
        assert_eq!(names(&INDEX, &LIST), names(&other, &turned), "{by:?}");
    }
}
