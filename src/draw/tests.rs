//! Laws of every drawing, whatever the traits.

use proptest::prelude::*;

use kurbo::{BezPath, PathEl, Point};

use super::bloom::{Centre, Depth, FloretLine, Roll, Tip};
use super::*;
use crate::colour::{Lab, Part, Pattern};
use crate::form::{Answers, Kind, RuleSet, Traits};
use crate::geometry;

fn blooms() -> impl Strategy<Value = Bloom> {
    let centre = prop_oneof![
        Just(Centre::Closed),
        Just(Centre::Open),
        Just(Centre::Pincushion)
    ];
    let roll = prop_oneof![Just(Roll::Flat), Just(Roll::Forward), Just(Roll::Back)];
    let line = prop_oneof![
        Just(FloretLine::Incurved),
        Just(FloretLine::Straight),
        Just(FloretLine::Reflexed)
    ];
    let tip = prop_oneof![Just(Tip::Rounded), Just(Tip::Pointed), Just(Tip::Split)];
    let outline = prop_oneof![Just(Depth::Globe), Just(Depth::Deep), Just(Depth::Saucer)];
    let rows = prop_oneof![0..12_u32, any::<u32>()];
    let rolled = prop_oneof![0.0..=1.0, any::<f64>()];
    let size = prop_oneof![
        Just(None),
        (1.0..500.0).prop_map(Some),
        any::<f64>().prop_map(Some)
    ];
    let flags = prop::array::uniform5(any::<bool>());
    let states = (centre, roll, line, tip, outline);
    (states, rows, rolled, size, flags).prop_map(|(states, rows, rolled, diameter, flags)| {
        let (centre, roll, line, tip, outline) = states;
        let [collar, wavy, graded, narrow, three_cornered] = flags;
        Bloom {
            centre,
            rows,
            collar,
            roll,
            rolled,
            line,
            tip,
            wavy,
            outline,
            graded,
            narrow,
            three_cornered,
            diameter,
        }
    })
}

fn paints() -> impl Strategy<Value = Paint> {
    let colour = (0.0..100.0, -90.0..90.0, -90.0..90.0, 0..4_usize, 0..5_usize);
    prop::collection::vec(colour, 0..4).prop_map(|colours| {
        let one = |(l, a, b, part, pattern): &(f64, f64, f64, usize, usize)| {
            (
                Lab::new(*l, *a, *b),
                Part::ALL[*part],
                Pattern::ALL[*pattern],
            )
        };
        Paint::of(&colours.iter().map(one).collect::<Vec<_>>())
    })
}

/// Any answers that can be given, together possible or not.
fn answers() -> impl Strategy<Value = Answers> {
    let traits = Traits::embedded();
    let words = traits.list().iter().map(|one| match &one.kind {
        Kind::OneOf(states) => {
            let ids: Vec<String> = states.iter().map(|state| state.id.clone()).collect();
            let any = ids.join("|");
            ids.into_iter().chain([any]).collect::<Vec<_>>()
        }
        Kind::Count(..) => ["1", "2", "7", "40", "2..9"].map(String::from).to_vec(),
        Kind::Share => ["0", "25", "100", "30..60"].map(String::from).to_vec(),
        Kind::Length(_) => ["1mm", "500mm", "80mm..90mm", "3in,4in"]
            .map(String::from)
            .to_vec(),
    });
    let ids: Vec<String> = traits.list().iter().map(|one| one.id.clone()).collect();
    let picks: Vec<_> = words
        .map(|words| prop::option::of(prop::sample::select(words)))
        .collect();
    picks.prop_map(move |picked| {
        let given = ids.iter().zip(picked);
        let pairs: Vec<String> = given
            .filter_map(|(id, word)| Some(format!("{id}={}", word?)))
            .collect();
        Answers::read(&pairs, &Traits::embedded()).expect("answers that can be given")
    })
}

fn holds(drawing: &Drawing) -> Result<(), TestCaseError> {
    prop_assert!(!drawing.patches.is_empty());
    let patches = drawing.patches.iter().map(|patch| &patch.outline.path);
    for path in patches {
        is_closed_and(path, |point| point.distance(Point::ORIGIN) <= 1.0)?;
    }
    // An arrow comes from a corner, outside of the circle.
    for mark in &drawing.marks {
        is_closed_and(&mark.path, |point| {
            point.x.abs() <= 1.0 && point.y.abs() <= 1.0
        })?;
    }
    Ok(())
}

fn is_closed_and(path: &BezPath, holds: impl Fn(Point) -> bool) -> Result<(), TestCaseError> {
    let elements = path.elements();
    prop_assert!(matches!(elements.first(), Some(PathEl::MoveTo(_))));
    prop_assert!(matches!(elements.last(), Some(PathEl::ClosePath)));
    for point in geometry::points(path) {
        prop_assert!(point.is_finite() && holds(point), "{point:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn every_outline_is_closed_finite_and_in_the_circle(bloom in blooms(), paint in paints()) {
        for view in [View::Face, View::Side] {
            let drawing = Drawing::of(&bloom, &paint, view);
            holds(&drawing)?;
            prop_assert_eq!(&drawing, &Drawing::of(&bloom, &paint, view));
        }
    }

    #[test]
    fn any_answers_can_be_drawn_alone_and_under_any_form(answers in answers(), form in 0..35_usize) {
        let set = &RuleSet::embedded()[0];
        for bloom in [Bloom::read(&set.traits, &answers), Bloom::of_form(set, form, &answers)] {
            holds(&Drawing::of(&bloom, &Paint::plain(), View::Face))?;
        }
    }

}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn cells_fill_any_grid(bloom in blooms(), columns in 0..40_u16, rows in 0..20_u16) {
        let drawing = Drawing::of(&bloom, &Paint::plain(), View::Face);
        for characters in [
            Characters::HalfBlocks,
            Characters::Quadrants,
            Characters::Sextants,
            Characters::Octants,
            Characters::Braille,
            Characters::Ascii,
        ] {
            let grid = Grid::of(&drawing, columns, rows, characters, Some("tip"));
            prop_assert_eq!(grid.cells.len(), usize::from(columns) * usize::from(rows));
            if characters == Characters::Ascii {
                prop_assert!(grid.text().is_ascii());
            }
        }
    }
}

#[test]
fn what_was_answered_is_drawn_over_what_is_typical() {
    let set = &RuleSet::embedded()[0];
    let form = set.find("formal-decorative").expect("a form");
    let read = |pairs: &[&str]| Answers::read(pairs, &set.traits).expect("answers");
    let bloom = Bloom::of_form(set, form, &read(&["tip=pointed", "diameter=98mm,102mm"]));
    assert_eq!(
        (bloom.tip, bloom.line),
        (Tip::Pointed, FloretLine::Reflexed)
    );
    assert_eq!(bloom.diameter, Some(100.0));
    // An answer that rules the form out: it is drawn, and the form tells the rest.
    let odd = Bloom::of_form(set, form, &read(&["centre=open"]));
    assert_eq!((odd.centre, odd.line), (Centre::Open, FloretLine::Reflexed));
}

#[test]
fn the_golden_angle_is_the_smaller_part_of_a_turn_cut_in_the_golden_ratio() {
    let exact = 180.0 * (3.0 - 5_f64.sqrt());
    assert!((GOLDEN_ANGLE - exact).abs() < 1e-6, "{exact}");
}

#[test]
fn every_trait_that_ships_has_a_mark_in_the_view_that_shows_it() {
    let set = &RuleSet::embedded()[0];
    for id in ["single", "collarette", "ball", "incurved-cactus"] {
        let form = set.find(id).expect("a form");
        let bloom = Bloom::of_form(set, form, &Answers::default());
        for one in set.traits.list() {
            let drawing = Drawing::of(&bloom, &Paint::plain(), view_for(&one.id));
            let marks = drawing.marked(&one.id).count();
            assert!(marks > 0, "{} of {id}", one.id);
            let grid = Grid::of(&drawing, 24, 12, Characters::Braille, Some(&one.id));
            let marked = grid.cells.iter().filter(|cell| cell.marked).count();
            assert!((1..200).contains(&marked), "{marked} cells for {}", one.id);
        }
    }
}

#[test]
fn a_second_colour_is_seen_where_its_pattern_puts_it() {
    let (red, white) = (Lab::new(45.0, 60.0, 35.0), Lab::new(98.0, 0.0, 0.0));
    let single = Bloom {
        centre: Centre::Open,
        rows: 1,
        ..Bloom::default()
    };
    let shown = |pattern| {
        let paint = Paint::of(&[(red, Part::Main, pattern), (white, Part::Second, pattern)]);
        let picture = Picture::of(&Drawing::of(&single, &paint, View::Face), 200, 0.0);
        // Along the middle of the first ray, at this share of the radius.
        move |share: f64| {
            let turn = (-78.75_f64).to_radians();
            let at = |part: f64| (100.0 + 100.0 * share * part).round() as usize;
            picture.pixels[at(turn.sin()) * 200 + at(turn.cos())][1]
        }
    };
    let (tipped, bicolour) = (shown(Pattern::Tipped), shown(Pattern::Bicolour));
    assert!(
        tipped(0.9) > 200 && tipped(0.6) < 120,
        "{} {}",
        tipped(0.9),
        tipped(0.6)
    );
    assert!(bicolour(0.7) > 200 && bicolour(0.4) < 120);
    let blend = shown(Pattern::Blend);
    assert!(blend(0.3) > blend(0.55) && blend(0.55) > blend(0.9));
}
