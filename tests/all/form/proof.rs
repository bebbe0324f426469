//! What the proof says of the rule sets that ship and of deliberately broken ones, held against the
//! rules read one by one; and the claims as files for an outside solver.

use std::path::PathBuf;

use crate::common::rules_as_written::{all_files, bloom_in, broken_files, can_be, forms_of, read};
use trug::form::RuleSet;

/// What each broken set must be found guilty of: no form for some bloom, two forms for some bloom.
const BROKEN: [(&str, bool, Option<[&str; 2]>); 12] = [
    (
        "any-collar-is-an-anemone",
        false,
        Some(["anemone", "single"]),
    ),
    ("asked-where-it-does-not-apply", true, None),
    ("ball-size-open", true, None),
    ("gap-and-overlap", true, Some(["cactus", "semi-cactus"])),
    (
        "half-rolled-is-both",
        false,
        Some(["straight-cactus", "semi-cactus"]),
    ),
    (
        "limit-moved",
        false,
        Some(["straight-cactus", "semi-cactus"]),
    ),
    ("no-catch-all", true, None),
    ("nothing-is-exactly-fifty", true, None),
    ("pompon-is-a-ball-too", false, Some(["pompon", "ball"])),
    (
        "precedence-forgotten",
        false,
        Some(["laciniated", "informal-decorative"]),
    ),
    ("two-sizes-take-fifty", false, Some(["ball", "small-ball"])),
    (
        "two-sizes-take-two-inches",
        false,
        Some(["miniature-ball", "pompon"]),
    ),
];

fn ids(set: &RuleSet, forms: &[usize]) -> Vec<String> {
    forms.iter().map(|at| set.forms[*at].id.clone()).collect()
}

#[test]
fn every_broken_set_is_found_out_with_a_bloom_that_shows_it() {
    let files = broken_files();
    let names: Vec<&str> = files.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, BROKEN.map(|(name, ..)| name));
    for ((name, text), (_, gap, overlap)) in files.iter().zip(BROKEN) {
        let set = read(name, text);
        let proof = set.prove();
        assert_eq!(proof.total, !gap, "{name}: {proof:?}");
        assert_eq!(proof.disjoint, overlap.is_none(), "{name}: {proof:?}");
        assert_eq!(
            (proof.gap.is_some(), proof.overlap.is_some()),
            (gap, overlap.is_some())
        );
        if let Some(block) = proof.gap {
            let bloom = bloom_in(&set, &block);
            assert!(can_be(&set.traits, &bloom), "{name}: {bloom:?}");
            assert_eq!(
                ids(&set, &forms_of(&set, &bloom)),
                [""; 0],
                "{name}: {bloom:?}"
            );
        }
        if let Some((block, first, second)) = proof.overlap {
            let bloom = bloom_in(&set, &block);
            assert!(can_be(&set.traits, &bloom), "{name}: {bloom:?}");
            let forms = forms_of(&set, &bloom);
            assert!(
                forms.contains(&first) && forms.contains(&second),
                "{name}: {bloom:?}"
            );
            let expected = overlap.expect(name).map(str::to_string);
            assert_eq!(ids(&set, &[first, second]), expected, "{name}");
        }
    }
}

/// Every block's first bloom of the sets that ship has its form and no other.
#[test]
fn a_bloom_of_every_block_has_that_one_form() {
    for set in RuleSet::embedded() {
        for (at, form) in set.forms.iter().enumerate() {
            for block in &form.blocks {
                let bloom = bloom_in(&set, block);
                assert!(can_be(&set.traits, &bloom), "{}: {bloom:?}", form.id);
                assert_eq!(forms_of(&set, &bloom), [at], "{}: {bloom:?}", form.id);
            }
        }
    }
}

/// Writes what `tests/outside/z3_agrees.py` gives to z3: every set's claims, and what is expected
/// of them by hand for the broken ones and by our proof for those that ship.
#[test]
fn the_claims_are_written_for_an_outside_solver() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("smt");
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut expected = String::from("file\tgap\toverlap\tour_microseconds\n");
    let answer = |found: bool| if found { "sat" } else { "unsat" };
    for (name, text) in all_files() {
        let set = read(&name, &text);
        let proof = set.prove();
        std::fs::write(folder.join(format!("{name}.smt2")), set.to_smt()).expect("written");
        let by_hand = BROKEN.iter().find(|(broken, ..)| *broken == name);
        let (gap, overlap) = by_hand.map_or((!proof.total, !proof.disjoint), |(_, gap, two)| {
            (*gap, two.is_some())
        });
        expected += &format!("{name}.smt2\t{}\t{}\t\n", answer(gap), answer(overlap));
    }
    std::fs::write(folder.join("expected.tsv"), expected).expect("written");
}
