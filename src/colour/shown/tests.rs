use super::*;
use crate::colour::ciede2000;
use proptest::prelude::*;

const RED: Lab = Lab::new(41.0, 63.0, 43.0);
const WHITE: Lab = Lab::new(97.0, -1.0, 3.0);
const IVORY: Lab = Lab::new(95.0, 0.0, 9.0);

fn shown(part: Part, pattern: Pattern) -> Shown {
    Shown { part, pattern }
}

fn blend(part: Part) -> Shown {
    shown(part, Pattern::Blend)
}

#[test]
fn a_main_colour_counts_in_full_and_the_others_by_what_shows_of_them() {
    let white = Target::point(WHITE);
    let main = (RED, blend(Part::Main));
    let with = |shown| distance_to_target(&[main, (WHITE, shown)], &white);
    let red = ciede2000(RED, WHITE);
    assert_eq!(with(blend(Part::Main)), 0.0);
    assert!((with(blend(Part::Second)) - 0.75 * red).abs() < 1e-9);
    let falling = [
        shown(Part::Second, Pattern::Bicolour),
        blend(Part::Second),
        shown(Part::Second, Pattern::Tipped),
        shown(Part::Second, Pattern::Flecked),
        blend(Part::Centre),
    ]
    .map(with);
    assert!(
        falling.is_sorted() && falling[4] < red,
        "{falling:?} and {red}"
    );
    // An ivory bloom is nearer to white than a red one of which half is white.
    let ivory = distance_to_target(&[(IVORY, blend(Part::Main))], &white);
    assert!(ivory < with(shown(Part::Second, Pattern::Bicolour)));
    assert_eq!(distance_to_target(&[], &white), f64::INFINITY);
}

/// What an arranger was sold: a bloom of raspberry with a heart of plum passed for plum.
#[test]
fn a_second_colour_never_counts_more_than_the_main_one() {
    for pattern in Pattern::ALL {
        for part in [Part::Second, Part::Reverse, Part::Centre] {
            let share = shown(part, pattern).share();
            assert!(share > 0.0 && share <= 0.5, "{part:?} {pattern:?} {share}");
        }
    }
}

#[test]
fn a_bloom_is_judged_by_the_parts_that_were_asked_for() {
    let targets = [Target::point(WHITE), Target::point(IVORY)];
    let colours = [
        (RED, shown(Part::Main, Pattern::Tipped)),
        (WHITE, shown(Part::Second, Pattern::Tipped)),
        (IVORY, shown(Part::Centre, Pattern::SelfColoured)),
    ];
    let by = |judged: Judged| {
        judged.distance(&colours, targets.len(), |colour, at| {
            targets[at].distance(colour)
        })
    };
    let red = ciede2000(RED, WHITE).min(ciede2000(RED, IVORY));
    assert_eq!((by(Judged::Main), by(Judged::Any)), (red, 0.0));
    // The white tips are near, the red petals are not; the heart is no petal.
    assert_eq!(by(Judged::Every), red);
    assert!(by(Judged::Mostly) < red && by(Judged::Mostly) > red / 2.0);
    for judged in Judged::ALL {
        assert_eq!(ron::to_string(&judged).ok().as_deref(), Some(judged.word()));
        let none: &[(Lab, Shown)] = &[];
        assert_eq!(judged.distance(none, 2, |_, _| 0.0), f64::INFINITY);
        assert_eq!(judged.distance(&colours, 0, |_, _| 0.0), f64::INFINITY);
    }
}

proptest! {
    #[test]
    fn the_bound_is_never_above_the_distance_and_the_ways_are_in_order(
        colours in prop::collection::vec((0.0..100.0, -100.0..100.0, -100.0..100.0, 0..4_usize, 0..5_usize), 0..4),
        centre in (0.0..100.0, -100.0..100.0, -100.0..100.0),
        radius in 0.0..15.0,
    ) {
        let colours: Vec<_> = colours
            .into_iter()
            .map(|(l, a, b, part, pattern)| (Lab { l, a, b }, shown(Part::ALL[part], Pattern::ALL[pattern])))
            .collect();
        let target = Target { radius, ..Target::point(Lab::new(centre.0, centre.1, centre.2)) };
        prop_assert!(lower_bound_to_target(&colours, &target) <= distance_to_target(&colours, &target));
        let by = |judged: Judged| judged.distance(&colours, 1, |colour, _| target.distance(colour));
        prop_assert_eq!(by(Judged::Mostly), distance_to_target(&colours, &target));
        // Any is the easiest, the main colour alone is harder than what is mostly shown.
        let least = by(Judged::Any) - 1e-9;
        prop_assert!(least <= by(Judged::Mostly) && by(Judged::Mostly) <= by(Judged::Main));
        let has_main = colours.iter().any(|(_, shown)| shown.part == Part::Main);
        prop_assert!(!has_main || by(Judged::Main) <= by(Judged::Every));
    }
}
