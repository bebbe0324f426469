use std::num::NonZeroU32;

use kurbo::Rect;
use proptest::prelude::*;

use super::letters::LEAST;
use super::*;
use crate::order::model::Choice;
use crate::order::report::bed_plan;
use crate::order::{Bed, Order, Planted};
use crate::variety::{Money, Text};

fn bed(name: &str, length: u32, width: u32, spacing: u32, rows: Option<u32>) -> Bed {
    let mm = |number: u32| format!("{number}mm").parse().expect("a length");
    Bed {
        name: Text::new(name).expect("a name"),
        length: mm(length),
        width: mm(width),
        spacing: mm(spacing),
        row_spacing: None,
        rows: rows.and_then(NonZeroU32::new),
        staggered: false,
    }
}

/// The demo's plan with these beds, and what an order of so many plants of each variety puts there.
fn planted(beds: Vec<Bed>, plants: &[u64]) -> (Plan, Vec<Stretch>) {
    let text = include_str!("../../../../catalogue/order.ron");
    let mut plan = Plan::read("order.ron", text).expect("the demo's order");
    plan.beds = beds;
    let one = |(at, plants): (usize, &u64)| Planted {
        row: at,
        candidate: at,
        variety: format!("Skerry Petrel {}", at + 1),
        plants: *plants,
        on_hand: 0,
        bought: *plants,
        spare: 0,
        gives: Vec::new(),
    };
    let order = Order {
        bills: Vec::new(),
        planted: plants.iter().enumerate().map(one).collect(),
        weekly: Vec::new(),
        cost: Money::default(),
        plants: plants.iter().sum(),
        choice: Choice::default(),
    };
    let stretches = bed_plan(&plan, &order, &[]);
    (plan, stretches)
}

fn pages(plan: &Plan, stretches: &[Stretch], paper: &str, units: SizeUnits) -> Vec<Page> {
    let paper = Paper::named(paper).expect("a paper");
    bed_pages(plan, stretches, &[], &paper, units).expect("pages")
}

fn texts(pages: &[Page]) -> Vec<String> {
    let lines = pages.iter().flat_map(Page::lines);
    lines.map(|line| line.text.as_str().to_string()).collect()
}

/// Every plant has a mark with its number, no mark lies on another, and nothing leaves its page.
fn all_is_drawn(plan: &Plan, stretches: &[Stretch], paper: &str, units: SizeUnits) {
    let pages = pages(plan, stretches, paper, units);
    for page in &pages {
        assert_eq!(page.strays().count(), 0);
        let small = page.lines().find(|line| line.style.points < LEAST);
        assert_eq!(small, None);
    }
    let numbers = Numbers::of(stretches, &[]);
    let texts = texts(&pages);
    let mut plants = std::collections::HashMap::new();
    for one in stretches {
        *plants.entry(one.variety.as_str()).or_insert(0) += one.plants;
        let told = key::told(one, units);
        let line = format!("{} {told}", numbers.number(&one.variety).0);
        assert!(texts.contains(&line), "{line}");
    }
    for (variety, plants) in plants {
        let number = numbers.number(variety).0.to_string();
        let marks = texts.iter().filter(|text| **text == number).count();
        assert_eq!(marks as u64, plants, "{variety}");
    }
    for page in &pages {
        let is_number = |text: &str| text.chars().all(|letter| letter.is_ascii_digit());
        let mut marks: Vec<Rect> = { page.lines() }
            .filter(|line| is_number(line.text.as_str()))
            .map(|line| line.bounds())
            .collect();
        marks.sort_by(|one, other| one.x0.total_cmp(&other.x0));
        for (at, one) in marks.iter().enumerate() {
            let beside = marks[at + 1..].iter().take_while(|other| other.x0 < one.x1);
            for other in beside {
                let apart = (other.y0 - one.y0).abs();
                assert!(apart >= NUMBER_HIGH, "{one:?} {other:?}");
            }
        }
    }
}

/// A figure of 6 points is so high, in mm.
const NUMBER_HIGH: f64 = 0.714 * LEAST * crate::paper::POINT;

#[test]
fn every_plant_of_a_bed_of_one_row_of_many_varieties_or_of_sixty_metres_is_drawn() {
    for (beds, plants) in [
        (
            vec![bed("fence", 12_000, 600, 450, Some(1))],
            vec![9, 1, 4, 7],
        ),
        (vec![bed("court", 4_000, 1_200, 400, None)], vec![2; 12]),
        (vec![bed("long", 60_000, 1_200, 400, None)], vec![3; 140]),
        (vec![bed("bare", 10_000, 800, 300, Some(2))], vec![]),
    ] {
        let (plan, stretches) = planted(beds, &plants);
        for (paper, units) in [
            ("a4", SizeUnits::Mm),
            ("letter", SizeUnits::In),
            ("a5", SizeUnits::Mm),
        ] {
            all_is_drawn(&plan, &stretches, paper, units);
        }
    }
}

/// Worked by hand: marks of two figures are 3.2 mm, so plants 40 cm apart are drawn at 1 to 100, for at 1 to
/// 75 the bed would be longer than the paper; and the fifth plant, 1.8 m from the head, stands 18 mm from the left edge of its bed.
#[test]
fn a_plant_stands_on_paper_where_it_stands_in_the_bed() {
    let (plan, stretches) = planted(vec![bed("fence", 24_000, 800, 400, Some(1))], &[4; 12]);
    let pages = pages(&plan, &stretches, "a4", SizeUnits::Mm);
    assert!(
        texts(&pages)[1].starts_with("Scale 1 to 100: 1 cm on paper is 1 m."),
        "{:?}",
        texts(&pages)
    );
    let first = pages[0].lines().filter(|line| line.text.as_str() == "2");
    let along = first.map(|line| line.at().x).fold(f64::INFINITY, f64::min);
    assert!((along - 12.0 - 18.0).abs() < 1e-9, "{along}");
}

#[test]
fn a_bed_too_wide_or_too_long_for_paper_is_refused_with_a_sentence() {
    for (bed, told) in [
        (
            bed("field", 30_000, 900_000, 1_000, None),
            "field: found a bed 900.0 m wide, expected at most",
        ),
        (
            bed("lane", 9_000_000, 400, 100, None),
            "found beds that take more than 100 pages",
        ),
    ] {
        let (plan, stretches) = planted(vec![bed], &[3]);
        let paper = Paper::named("a4").expect("a paper");
        let refused = bed_pages(&plan, &stretches, &[], &paper, SizeUnits::Mm);
        let refused = refused.expect_err("refused").to_string();
        assert!(refused.contains(told), "{refused}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn whatever_the_beds_every_plant_is_drawn_once(
        shapes in prop::collection::vec(
            (1_000_u32..40_000, 300_u32..2_500, 150_u32..700, prop::option::of(1_u32..4), any::<bool>(), prop::option::of(200_u32..600)),
            1..4,
        ),
        plants in prop::collection::vec(1_u64..20, 1..30),
        feet in any::<bool>(),
    ) {
        let beds: Vec<Bed> = { shapes.into_iter().enumerate() }
            .map(|(at, (length, width, spacing, rows, staggered, apart))| Bed {
                staggered,
                row_spacing: apart.map(|apart| format!("{apart}mm").parse().expect("a length")),
                ..bed(&format!("bed {at}"), length, width, spacing, rows)
            })
            .collect();
        let (plan, stretches) = planted(beds, &plants);
        prop_assume!(plan.beds.iter().all(|bed| bed.out_of_bounds().is_none()));
        let units = if feet { SizeUnits::In } else { SizeUnits::Mm };
        all_is_drawn(&plan, &stretches, "a4", units);
    }
}
