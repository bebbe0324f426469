use proptest::prelude::*;

use super::*;

fn bed(length: &str, width: &str, spacing: &str, rows: Option<u32>) -> Bed {
    let read = |text: &str| text.parse().expect("a length");
    Bed {
        name: Text::new("a bed").expect("a name"),
        length: read(length),
        width: read(width),
        spacing: read(spacing),
        row_spacing: None,
        rows: rows.and_then(NonZeroU32::new),
        staggered: false,
    }
}

/// Worked by hand from one farm's practice (Growing for Market, 2017): four beds of 125 feet,
/// two rows, 12 inches apart, take 1,000 tubers.
#[test]
fn a_bed_holds_its_rows_of_plants() {
    assert_eq!(
        bed("125ft", "4ft", "12in", Some(2))
            .places()
            .map(|one| one * 4),
        Some(1000)
    );
    assert_eq!(bed("10m", "1.2m", "400mm", None).places(), Some(75));
    assert_eq!(bed("300mm", "1m", "400mm", None).places(), Some(0));
    assert_eq!(bed("0mm", "1m", "400mm", None).places(), None);
    assert_eq!(bed("9000m", "900m", "1mm", None).places(), None);
}

/// Worked by hand: of 1.2 m rows 30 cm apart are 4, of 25 plants each at 40 cm in 10 m. Staggered, two of
/// the four begin 20 cm later and end with 24 plants in 10 m, with 25 in 10.2 m.
#[test]
fn rows_may_be_closer_than_plants_and_staggered() {
    let mut bed = bed("10m", "1.2m", "40cm", None);
    bed.row_spacing = "30cm".parse().ok();
    assert_eq!((bed.across(), bed.places()), (4, Some(100)));
    bed.staggered = true;
    assert_eq!(bed.places(), Some(98));
    bed.length = "10.2m".parse().expect("a length");
    assert_eq!(bed.places(), Some(100));
    let stands = |number| (bed.place(number).along, bed.place(number).across);
    let four = [0, 1, 2, 3].map(stands);
    assert_eq!(
        four,
        [
            (200.0, 150.0),
            (200.0, 750.0),
            (400.0, 450.0),
            (400.0, 1050.0)
        ]
    );
}

/// Worked by hand: 3 rows of 25 plants in 10 m; 7 more places are 3 steps of 400 mm along.
#[test]
fn a_bed_grows_by_whole_rows_and_its_length_is_exact() {
    for (length, spacing, rows, more, told) in [
        ("10m", "400mm", 3, 7, "11.2m"),
        ("10.3m", "400mm", 3, 7, "11.2m"),
        ("10m", "400mm", 2, 1, "10.4m"),
        ("125ft", "12in", 2, 3, "127ft"),
        ("20in", "7in", 1, 1, "1.75ft"),
    ] {
        let of = |length: &str| bed(length, "1.2m", spacing, Some(rows));
        let longer = of(length).longer(more).expect("a length");
        assert_eq!(longer, told);
        let before = of(length).places().expect("places");
        let after = of(&longer).places().expect("places");
        assert!(after >= before + more && after < before + more + u64::from(rows));
    }
}

#[test]
fn rows_that_have_no_room_beside_each_other_are_refused() {
    let mut bed = bed("10m", "1.2m", "40cm", Some(4));
    bed.row_spacing = "40cm".parse().ok();
    assert_eq!(bed.out_of_bounds(), None);
    bed.rows = NonZeroU32::new(5);
    let told = "found 5 rows 40cm apart, expected at most 4 in a width of 1.2m";
    assert_eq!(bed.out_of_bounds(), Some(("rows", told.to_string())));
}

prop_compose! {
    fn a_bed()(
        (length, width, spacing) in (1_u32..30_000, 1_u32..3_000, 100_u32..900),
        row_spacing in prop::option::of(100_u32..900),
        rows in prop::option::of(1_u32..6),
        staggered in any::<bool>(),
    ) -> Bed {
        let mm = |number: u32| format!("{number}mm");
        Bed {
            row_spacing: row_spacing.and_then(|apart| mm(apart).parse().ok()),
            staggered,
            ..bed(&mm(length), &mm(width), &mm(spacing), rows)
        }
    }
}

proptest! {
    #[test]
    fn no_place_of_a_bed_is_given_twice_and_no_plant_stands_outside_it(bed in a_bed()) {
        prop_assume!(bed.out_of_bounds().is_none());
        let places = bed.places().expect("places");
        let stands: Vec<Place> = (0..places).map(|number| bed.place(number)).collect();
        let (length, width) = (bed.length.mm().to_f64(), bed.width.mm().to_f64());
        let half = bed.spacing.mm().to_f64() / 2.0;
        for one in &stands {
            prop_assert!(one.along >= half - 1e-6 && one.along <= length - half + 1e-6, "{one:?}");
            prop_assert!(one.across >= -1e-6 && one.across <= width + 1e-6, "{one:?}");
        }
        prop_assert!(stands.windows(2).all(|pair| pair[0].along <= pair[1].along + 1e-6));
        let mut rows: Vec<(i64, i64)> = { stands.iter() }
            .map(|one| ((one.across * 1e3).round() as i64, (one.along * 1e3).round() as i64))
            .collect();
        rows.sort_unstable();
        let close = rows.windows(2).find(|pair| {
            pair[0].0 == pair[1].0 && ((pair[1].1 - pair[0].1) as f64) < 2e3 * half - 2.0
        });
        prop_assert_eq!(close, None);
    }

    #[test]
    fn a_longer_bed_has_the_room_that_was_asked_for_and_no_step_more(bed in a_bed(), more in 1_u64..200) {
        prop_assume!(bed.out_of_bounds().is_none() && bed.across() > 0);
        let Some(told) = bed.longer(more) else { return Ok(()); };
        let of = |length: Length| Bed { length, ..bed.clone() }.places().expect("places");
        let length: Length = told.parse().expect("a length");
        let enough = bed.places().expect("places") + more;
        prop_assert!(of(length) >= enough);
        let shorter = length.mm() - bed.spacing.mm();
        prop_assert!(shorter <= Exact::zero() || of(length.with_mm(shorter)) < enough);
    }
}
