use jiff::civil::Date;
use proptest::prelude::*;

use super::*;
use crate::book::MOST_ENTRIES;
use crate::form::RuleSet;
use crate::trial::read::Reader;

pub(super) fn seedlings() -> Vec<Seedling> {
    let sown = |number: &str, sown: &str| {
        let mut seedling = Seedling::numbered(number.parse().expect(number));
        seedling.sown = Some(sown.parse().expect(sown));
        seedling
    };
    vec![sown("24-001", "2024-03-20"), sown("25-001", "2025")]
}

pub(super) fn entry(id: u32, of: &str, line: &str) -> Entry {
    let rules = &RuleSet::embedded()[0];
    let reader = Reader {
        traits: &rules.traits,
        bare: None,
        days: crate::measure::day::Calendar::FILES,
    };
    let draft = reader.read_line(line).expect(line);
    draft.entry(id, of.parse().expect(of), Date::constant(2026, 8, 1))
}

pub(super) fn trial(entries: &[Entry]) -> Trial {
    let (trial, told) = Trial::of(seedlings(), entries.to_vec());
    assert_eq!(told, Vec::<String>::new());
    trial
}

fn subject(of: &str) -> Subject {
    of.parse().expect(of)
}

#[test]
fn the_last_of_a_chain_of_corrections_stands() {
    let trial = trial(&[
        entry(1, "24-001", "cut=4"),
        entry(2, "24-001", "cut=5 corrects=1"),
        entry(3, "24-001", "date=2026-08-03 cut=9"),
        entry(4, "24-001", "cut=6 corrects=1"),
        entry(5, "24-001", "cut=7 corrects=2"),
        entry(6, "24-001", "withdraw=3"),
    ]);
    assert_eq!(standing(&trial, "24-001"), [5]);
    assert_eq!(trial.of_subject(&subject("25-001")), Vec::<&Entry>::new());
    assert_eq!(trial.stands_for(1).map(|entry| entry.id), Some(5));
    assert_eq!(trial.stands_for(3), None);
    assert_eq!(trial.ended_by(3).map(|entry| entry.id), Some(6));
    assert_eq!((trial.entries().len(), trial.next_id()), (6, 7));
    assert_eq!(
        trial.next_number(2025).map(|n| n.to_string()),
        Some("25-002".to_string())
    );
    assert_eq!(
        trial.next_number(2026).map(|n| n.to_string()),
        Some("26-001".to_string())
    );
}

fn standing(trial: &Trial, of: &str) -> Vec<u32> {
    let entries = trial.of_subject(&subject(of)).into_iter();
    entries.map(|entry| entry.id).collect()
}

#[test]
fn a_withdrawal_can_be_withdrawn_and_a_withdrawn_correction_gives_back_what_it_corrected() {
    let mut trial = trial(&[
        entry(1, "24-001", "cut=4"),
        entry(2, "24-001", "cut=5 corrects=1"),
    ]);
    for (id, line, stands) in [
        (3, "withdraw=2", &[1][..]),
        (4, "withdraw=3", &[2]),
        (5, "withdraw=1", &[]),
        (6, "withdraw=5", &[2]),
        (7, "withdraw=6", &[]),
        (8, "cut=6 corrects=2", &[8]),
        (9, "withdraw=8", &[]),
    ] {
        trial.add(entry(id, "24-001", line)).expect(line);
        assert_eq!(standing(&trial, "24-001"), stands, "{line}");
        // What is read again is what was added.
        let (read, told) = Trial::of(seedlings(), trial.entries().to_vec());
        assert_eq!((&read, told), (&trial, Vec::new()));
    }
}

#[test]
fn an_entry_of_one_plant_changes_nothing_of_another() {
    let entries = vec![
        entry(1, "24-001", "diameter=98mm"),
        entry(2, "25-001", "withdraw=1"),
        entry(3, "25-001", "diameter=60mm corrects=1"),
        entry(4, "Ebb Ember", "decide=cull corrects=1"),
    ];
    let (mut trial, told) = Trial::of(seedlings(), entries);
    assert_eq!(
        told,
        [
            "entry 2: found entry 1, which is of 24-001, expected one of 25-001: `trug row 25-001` lists them; it withdraws nothing",
            "entry 3: found entry 1, which is of 24-001, expected one of 25-001: `trug row 25-001` lists them; it counts by itself and corrects nothing",
            "entry 4: found entry 1, which is of 24-001, expected one of Ebb Ember: `trug row Ebb Ember` lists them; it counts by itself and corrects nothing",
        ]
    );
    assert_eq!(standing(&trial, "24-001"), [1]);
    assert_eq!(standing(&trial, "25-001"), [3]);
    let before = trial.clone();
    for line in ["withdraw=1", "cut=3 corrects=1"] {
        let refused = trial.add(entry(5, "25-001", line));
        assert!(
            matches!(refused, Err(AddError::OfAnother { named: 1, .. })),
            "{line}"
        );
        assert_eq!(trial, before);
    }
}

#[test]
fn a_number_that_cannot_be_takes_no_number_from_the_next_note() {
    let entries = vec![
        entry(u32::MAX, "24-001", "cut=9"),
        entry(MOST_ENTRIES + 1, "24-001", "withdraw=7"),
        entry(u32::MAX, "25-001", "cut=1"),
        entry(7, "24-001", "cut=3"),
    ];
    let mut turned = entries.clone();
    turned.reverse();
    let (mut trial, told) = Trial::of(seedlings(), entries);
    assert_eq!(
        told,
        [
            "entry 1000000000: found a number past 999999999, the last that an entry may have; it is left out, and stays in the file",
            "entry 4294967295: found a number past 999999999, the last that an entry may have; it counts, and can be neither corrected nor withdrawn",
            "entry 4294967295: found a number past 999999999, the last that an entry may have; it counts, and can be neither corrected nor withdrawn",
        ]
    );
    assert_eq!(Trial::of(seedlings(), turned).0, trial);
    assert_eq!(trial.next_id(), 8);
    assert_eq!(trial.of_subject(&subject("24-001")).len(), 2);
    assert_eq!(trial.entry(u32::MAX), None);
    assert_eq!(trial.add(entry(8, "24-001", "withdraw=7")), Ok(()));
    assert_eq!(trial.add(entry(9, "24-001", "cut=2")), Ok(()));
    assert_eq!(trial.next_id(), 10);
    let past = entry(MOST_ENTRIES + 1, "24-001", "cut=1");
    assert_eq!(trial.add(past), Err(AddError::IdPast(MOST_ENTRIES + 1)));
    // The last number is taken, and then there is none.
    assert_eq!(trial.add(entry(MOST_ENTRIES, "24-001", "cut=1")), Ok(()));
    let next = entry(trial.next_id(), "24-001", "cut=1");
    assert_eq!(trial.add(next), Err(AddError::IdPast(MOST_ENTRIES + 1)));
}

#[test]
fn what_does_not_fit_together_is_told_and_used_as_far_as_it_can_be() {
    let entries = vec![
        entry(9, "24-001", "cut=1 corrects=4"),
        entry(2, "24-001", "cut=2"),
        entry(2, "24-001", "cut=3"),
        entry(2, "24-001", "cut=3"),
        entry(5, "24-009", "cut=3"),
        entry(6, "24-001", "withdraw=8"),
    ];
    let mut turned = entries.clone();
    turned.reverse();
    let (trial, told) = Trial::of(seedlings(), entries);
    assert_eq!(
        told,
        [
            "entry 2: found a second entry with this number, expected each number once; both count, and corrections of it go to the first",
            "entry 5: found the seedling 24-009, expected one of trial.ron",
            "entry 6: withdraw: found 8, expected the number of an earlier entry; it withdraws nothing",
            "entry 9: corrects: found 4, expected the number of an earlier entry; it counts by itself and corrects nothing",
        ]
    );
    assert_eq!(trial.of_subject(&subject("24-001")).len(), 3);
    assert_eq!(Trial::of(seedlings(), turned), (trial, told));
}

fn any_entries() -> impl Strategy<Value = Vec<Entry>> {
    let changes = prop::option::of((1..20_u32, any::<bool>()));
    let one = (0..2_usize, 0..9_u32, changes, 1..28_i8);
    type Pick = (usize, u32, Option<(u32, bool)>, i8);
    prop::collection::vec(one, 1..20).prop_map(|all: Vec<Pick>| {
        let mut made: Vec<Entry> = Vec::new();
        for (at, (of, cut, changes, day)) in all.into_iter().enumerate() {
            let mut one = entry(
                at as u32 + 1,
                ["24-001", "25-001"][of],
                &format!("cut={cut}"),
            );
            one.date = Date::constant(2026, 8, day);
            let earlier = |id: u32| made.get(id as usize - 1).filter(|other| other.of == one.of);
            if let Some((id, withdraws)) = changes.filter(|(id, _)| earlier(*id).is_some()) {
                one.corrects = Some(id);
                if withdraws {
                    one.what = What::Withdrawn;
                }
            }
            made.push(one);
        }
        made
    })
}

proptest! {
    #[test]
    fn the_order_in_which_entries_come_makes_no_difference(entries in any_entries(), seed in any::<u64>()) {
        let mut turned = entries.clone();
        fastrand::Rng::with_seed(seed).shuffle(&mut turned);
        let whole = Trial::of(seedlings(), entries.clone());
        prop_assert_eq!(&Trial::of(seedlings(), turned), &whole);
        let mut one_by_one = Trial::of(seedlings(), Vec::new()).0;
        for entry in entries {
            prop_assert_eq!(one_by_one.add(entry), Ok(()));
        }
        prop_assert_eq!(one_by_one, whole.0);
    }
}
