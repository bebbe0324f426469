use super::*;
use crate::trial::evidence::tests::Bench;
use crate::trial::{Number, Parent};

#[test]
fn the_row_counts_by_sowing_by_season_and_by_parent() {
    let bench = Bench::new();
    let number = |text: &str| text.parse::<Number>().expect(text);
    let seedlings = [
        ("24-001", "Haaf Light", "Ebb Ember"),
        ("24-002", "Haaf Light", "open-pollinated"),
        ("24-003", "Ebb Ember", "Ebb Ember"),
        ("25-001", "Haaf Light", "24-001"),
        ("25-002", "unknown", "unknown"),
    ];
    let seedlings = seedlings.map(|(own, seed, pollen)| {
        let mut seedling = Seedling::numbered(number(own));
        seedling.seed_parent = seed.parse().expect(seed);
        seedling.pollen_parent = pollen.parse::<Parent>().expect(pollen);
        seedling
    });
    let lines = [
        ("24-001", "date=2024-10-01 decide=hold"),
        ("24-002", "date=2024-10-01 decide=cull"),
        ("24-001", "date=2025-10-01 decide=keep"),
        ("24-003", "date=2025-10-01 decide=cull reason=Mildew"),
        ("24-003", "date=2025-10-01 decide=hold corrects=4"),
        ("Haaf Light", "date=2025-10-01 decide=cull"),
    ];
    let entries = lines
        .iter()
        .zip(1..)
        .map(|((of, line), id)| bench.entry(id, of, line));
    let (trial, told) = Trial::of(seedlings.to_vec(), entries.collect());
    assert_eq!(told, Vec::<String>::new());
    let whole = trial.whole();
    let counts = |sown, keep, hold, cull| Counts {
        sown,
        keep,
        hold,
        cull,
    };
    assert_eq!(whole.all, counts(5, 1, 1, 1));
    assert_eq!(
        (whole.all.undecided(), whole.all.kept(), whole.all.stays()),
        (
            2,
            Share::new(1, 5).expect("1 of 5"),
            Share::new(2, 3).expect("2 of 3")
        )
    );
    assert_eq!(
        whole.sown,
        [(2024, counts(3, 1, 1, 1)), (2025, counts(2, 0, 0, 0))]
    );
    assert_eq!(
        whole.seasons,
        [(2024, counts(3, 0, 1, 1)), (2025, counts(5, 1, 1, 1))]
    );
    let parents: Vec<(String, u32, Share)> = whole
        .parents
        .iter()
        .map(|one| (one.parent.to_string(), one.counts.sown, one.offspring.own))
        .collect();
    let share = |hit, of| Share::new(hit, of).expect("a share");
    assert_eq!(
        parents,
        [
            ("24-001".to_string(), 1, share(0, 0)),
            ("Ebb Ember".to_string(), 2, share(2, 2)),
            ("Haaf Light".to_string(), 3, share(1, 2)),
        ]
    );
    // Of so few nothing is told but their count.
    let told = whole.parents.iter().map(|one| one.offspring.estimate);
    assert!(told.flatten().next().is_none());
    assert_eq!(Trial::default().whole().new_parent, None);
}
