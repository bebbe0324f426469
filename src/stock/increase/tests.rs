use super::*;
use crate::stock::sums::tests::stock;

fn subject(of: &str) -> Subject {
    of.parse().expect(of)
}

#[test]
fn as_many_are_kept_as_are_sure_to_be_sound() {
    let stock = stock(&[
        ("Haaf Bell", "date=2024-10-20 divided=100"),
        ("Haaf Bell", "date=2025-03-20 sound=80"),
        ("Haaf Bell", "date=2025-10-20 lifted=6 divided=43"),
        ("Haaf Bell", "date=2025-11-20 promised=3"),
        ("Ebb Kist", "date=2025-10-20 divided=20"),
        ("Ebb Kist", "date=2026-03-20 sound=18"),
    ]);
    let losses = stock.losses();
    let bell = subject("Haaf Bell");
    let sell = |planted, sure| stock.to_keep(&bell, planted, sure, &losses);
    let nine = sell(9, 0.8);
    assert_eq!((nine.own, nine.planted), (40, 9));
    assert!(
        nine.spares >= 2 && nine.sell() == 40 - nine.keep,
        "{nine:?}"
    );
    let enough = |keep: u64| losses.chance_of_at_most(&bell, keep - 9, keep);
    assert!(
        enough(nine.keep) >= 0.8 && enough(nine.keep - 1) < 0.8,
        "{nine:?}"
    );
    assert!(sell(9, 0.99).keep > nine.keep);
    assert_eq!(
        (
            sell(60, 0.8).keep,
            sell(60, 0.8).sell(),
            sell(60, 0.8).lacking()
        ),
        (40, 0, 20)
    );
    assert_eq!(sell(0, 0.8).sell(), 40);
    // What the grower keeps back is kept, whatever the order plants.
    let mut book = stock.clone();
    let keep = crate::stock::sums::tests::entry(7, "Haaf Bell", "date=2025-11-21 keep=30");
    assert_eq!(book.add(keep), Ok(()));
    assert_eq!(book.to_keep(&bell, 9, 0.8, &losses).sell(), 10);
    // After the winter no spares are wanted.
    let kist = stock.to_keep(&subject("Ebb Kist"), 9, 0.99, &losses);
    assert_eq!((kist.keep, kist.sell(), kist.wintered), (9, 9, true));
}

#[test]
fn a_seedling_grows_on_by_what_its_clumps_gave() {
    let stock = stock(&[
        ("24-001", "date=2024-10-20 lifted=2 divided=8"),
        ("24-001", "date=2025-03-20 sound=6"),
        ("24-001", "date=2025-05-20 planted=6"),
        ("24-001", "date=2025-10-20 lifted=4 divided=16"),
        ("25-001", "date=2025-10-20 lifted=1 divided=9"),
    ]);
    let losses = stock.losses();
    assert!(!losses.is_telling());
    let of = |number: &str| stock.increase(&subject(number), 0.9, 0.8, &losses);
    let own = of("24-001");
    assert_eq!((own.from, own.a_clump), (16, Divisions::Own(24, 6)));
    // Worked by hand: 16 x 0.8 x 0.9 x 4 = 46.08; 46 x 2.88 = 132.48.
    assert_eq!(own.years_to(100), Some(vec![46, 132]));
    assert_eq!(own.years_to(16), Some(vec![]));
    // One clump says too little: all clumps of the book gave 33 of 7.
    let new = of("25-001");
    assert_eq!((new.from, new.a_clump), (9, Divisions::Book(33, 7)));
    let poor = Increase { keeps: 0.2, ..own };
    assert_eq!(poor.years_to(100), None);
    assert_eq!(
        Stock::default().divisions(&subject("24-001")),
        Divisions::Assumed
    );
}
