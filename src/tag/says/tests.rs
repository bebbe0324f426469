use crate::colour::Vocabulary;
use crate::form::{Keyer, RuleSet};
use crate::problem::read_ron;
use crate::trial::{Entry, Neighbours, Seedling};

use super::*;
use crate::tag::{Stock, text};

/// A list and a row of plants for tests of tags; all invented.
const LIST: &str = r#"[
  (name: "Haaf Bobbin", form: (id: "ball", known: keyed), bloom: "centre=closed outline=globe tip=rounded set=regular roll=forward rolled=80", diameters: ["97mm", "99mm", "98mm"], colours: [(colour: "coral", part: main, pattern: tipped), (colour: "white", part: second, pattern: tipped)], stem: "550mm", vase: (days: 8, stems: 12)),
  (name: "Noust Stated", form: (id: "pompon", known: stated, by: "Tidegrass Tubers"), size: "miniature", vase: (days: 9)),
  (name: "Ebb Guess", form: (id: "laciniated", known: guessed), diameters: ["150mm"], colours: [(colour: "lab(50 60 30)", part: main, pattern: self)]),
  (name: "Skerry Held", form: (id: "ball", known: keyed), protected: true),
  (name: "Skerry Leave", form: (id: "ball", known: keyed), protected: true, licence: "Licence 7 of 2026"),
  (name: "Foam Bare"),
]"#;

const ROW: &str =
    r#"[(number: "26-001"), (number: "26-002"), (number: "26-003"), (number: "26-004")]"#;

const BOOK: &str = r##"[
  (id: 1, date: "2026-08-03", of: "26-001", what: observed((bloom: "centre=closed outline=globe tip=rounded set=regular roll=forward rolled=90 rows=14", diameters: ["87mm", "89mm", "91mm"], colours: ["#cc4433"], vase: ["6+", "6+", "5"]))),
  (id: 2, date: "2026-09-28", of: "26-001", what: observed((bloom: "centre=closed outline=globe tip=rounded set=regular roll=forward rolled=90", diameters: ["86mm", "90mm"]))),
  (id: 3, date: "2026-09-30", of: "26-002", what: observed((novelty: true, bloom: "centre=closed tip=split"))),
  (id: 4, date: "2026-10-02", of: "26-003", what: decided((fate: cull))),
  (id: 5, date: "2026-10-02", of: "26-001", what: decided((fate: keep))),
]"##;

pub(in crate::tag) fn with_grounds<Answer>(
    check: impl FnOnce(&ClaimSources<'_>) -> Answer,
) -> Answer {
    grounds_of(LIST, ROW, BOOK, check)
}

/// Of a list, a row and a book as the grower's files have them.
pub(in crate::tag) fn grounds_of<Answer>(
    list: &str,
    row: &str,
    book: &str,
    check: impl FnOnce(&ClaimSources<'_>) -> Answer,
) -> Answer {
    let list = Varieties::read("varieties.ron", list).expect("a list");
    let seedlings: Vec<Seedling> = read_ron("trial.ron", row).expect("seedlings");
    let entries: Vec<Entry> = read_ron("trial.journal", book).expect("entries");
    let (trial, told) = Trial::of(seedlings, entries);
    assert_eq!(told, Vec::<String>::new());
    let keyer = Keyer::even(RuleSet::embedded().remove(0));
    let (words, release) = (Vocabulary::embedded(), Release::embedded());
    let neighbours = Neighbours::of(&list, &keyer.set, &words);
    let selling = Selling::default();
    check(&ClaimSources {
        list: &list,
        trial: &trial,
        under: EvidenceContext {
            keyer: &keyer,
            words: &words,
            neighbours: &neighbours,
        },
        release: &release,
        uses: &Uses::embedded(),
        practice: &Stock::embedded().practice,
        naming: &NamingRules::embedded(),
        selling: &selling,
        units: SizeUnits::Mm,
    })
}

/// What is said of one where this seller sells it.
pub(in crate::tag) fn said_by(selling: &Selling, id: &str) -> Says {
    with_grounds(|grounds| {
        let grounds = ClaimSources {
            selling,
            ..*grounds
        };
        grounds.of(&id.parse().expect("a name or a number"))
    })
}

pub(in crate::tag) fn said(id: &str) -> Says {
    with_grounds(|grounds| grounds.of(&id.parse().expect("a name or a number")))
}

fn claim(id: &str, about: About) -> Option<String> {
    let says = said(id);
    let fact = says.facts.into_iter().find(|fact| fact.about == about);
    fact.map(|fact| fact.text)
}

#[test]
fn a_claim_has_its_ground_beside_it() {
    for (id, about, told) in [
        ("Haaf Bobbin", About::Form, "ball"),
        (
            "Haaf Bobbin",
            About::Size,
            "3 blooms measured so far: 9.7 to 9.9 cm, 3.8 to 3.9 in",
        ),
        ("Haaf Bobbin", About::Colour, "coral tipped white"),
        (
            "Haaf Bobbin",
            About::Vase,
            "good in the vase: 8 days (12 stems tested)",
        ),
        (
            "Haaf Bobbin",
            About::Uses,
            "a cut flower for bunches; expected of its form: stands wind and rain, for the garden border",
        ),
        (
            "Noust Stated",
            About::Form,
            "pompon (stated by Tidegrass Tubers)",
        ),
        (
            "Noust Stated",
            About::Size,
            "up to 5.1 cm, up to 2 in across (size miniature), as stated",
        ),
        (
            "Noust Stated",
            About::Uses,
            "expected of its form: small enough to wear, goes between larger flowers, stands wind and rain",
        ),
        (
            "Haaf Bobbin",
            About::Planting,
            "Plant after the last frost, in sun, 10 cm deep and 45 cm apart. Stake all but low \
             plants. Lift before hard frost.",
        ),
        (
            "Foam Bare",
            About::Planting,
            "Plant after the last frost, in sun. Stake all but low plants. Lift before hard frost.",
        ),
        ("Ebb Guess", About::Form, "laciniated (provisional: by eye)"),
        (
            "Ebb Guess",
            About::Size,
            "1 bloom measured so far: 15 cm, 5.9 in",
        ),
        ("Ebb Guess", About::Colour, "strong red"),
        (
            "Skerry Leave",
            About::Licence,
            "Protected variety. Licence 7 of 2026",
        ),
        ("26-001", About::Form, "between miniature ball and ball"),
        (
            "26-001",
            About::Size,
            "5 blooms measured so far: 8.6 to 9.1 cm, 3.3 to 3.6 in",
        ),
        (
            "26-001",
            About::Season,
            "seen in bloom so far in August and September 2026",
        ),
        (
            "26-001",
            About::Status,
            "Provisional: a seedling still on trial",
        ),
        ("26-002", About::Form, "novelty, declared a form of its own"),
    ] {
        assert_eq!(claim(id, about).as_deref(), Some(told), "{id} {about:?}");
    }
}

#[test]
fn a_claim_without_evidence_is_not_made() {
    let bare = said("Foam Bare");
    let about: Vec<About> = bare.facts.iter().map(|fact| fact.about).collect();
    assert_eq!(about, [About::Planting, About::Handling]);
    assert_eq!(bare.bloom, None);
    // Three stems are no median.
    assert_eq!(claim("26-001", About::Vase), None);
    // A figure that somebody states is no test.
    assert_eq!(claim("Noust Stated", About::Vase), None);
    // A day on which only a decision was noted shows no bloom.
    assert_eq!(claim("26-003", About::Season), None);
    let empty = said("26-004");
    assert!(empty.facts.iter().all(|fact| fact.about != About::Form));
}

#[test]
fn the_cautions_are_those_of_the_uses_that_are_named_each_once() {
    let worn = claim("Noust Stated", About::Cautions).expect("it is worn");
    assert!(worn.contains("Not next to the skin of anyone with a known daisy-family allergy."));
    assert_eq!(claim("Haaf Bobbin", About::Cautions), None);
    with_grounds(|grounds| {
        let bowl = "Decoration only, not for eating: keep blooms and their water off food.";
        let pets = "Keep them from dogs, cats and horses.";
        let uses = grounds.uses.list().iter();
        let both = uses
            .filter_map(|one| one.caution.as_deref())
            .filter(|told| told.contains(pets));
        let told = uses::sentences(both, &grounds.practice.handling);
        assert_eq!(told, [bowl]);
    });
}

#[test]
fn what_nobody_noted_of_protection_is_said_as_not_known() {
    let warned = |id: &str| said(id).warned;
    let told = warned("Haaf Bobbin").expect("nobody noted it");
    assert!(
        told.starts_with("whether it is protected is not known"),
        "{told}"
    );
    // A tag prints all the same.
    assert_eq!(said("Haaf Bobbin").unsold, None);
    // Protected, under licence, or raised here: that is known.
    assert_eq!(
        (
            warned("Skerry Held"),
            warned("Skerry Leave"),
            warned("26-001")
        ),
        (None, None, None)
    );
}

#[test]
fn what_may_not_be_sold_says_why() {
    let held = said("Skerry Held").unsold.expect("protected");
    assert!(held.contains("no licence is recorded"), "{held}");
    assert_eq!(said("Skerry Leave").unsold, None);
    let culled = said("26-003").unsold.expect("culled");
    assert!(culled.contains("trug row decide 26-003 keep"), "{culled}");
}

#[test]
fn names_stand_in_single_quotation_marks_and_kept_seedlings_are_found() {
    assert_eq!(said("Haaf Bobbin").title, "\u{2018}Haaf Bobbin\u{2019}");
    assert_eq!(said("26-001").title, "26-001");
    let stock = Stock::embedded();
    let named = |id: &str, kind: &str| said(id).name_on(stock.kind(kind).expect("a kind"));
    for (id, sale, stake) in [
        (
            "Haaf Bobbin",
            "Dahlia \u{2018}Haaf Bobbin\u{2019}",
            "\u{2018}Haaf Bobbin\u{2019}",
        ),
        ("26-001", "Dahlia seedling 26-001", "26-001"),
        // No name of a variety, by the Code: it is not told as one.
        ("17", "Dahlia 17", "17"),
        ("Gate Mixture", "Dahlia Gate Mixture", "Gate Mixture"),
    ] {
        assert_eq!(
            (named(id, "sale"), named(id, "stake")),
            (sale.into(), stake.into())
        );
        assert_eq!(named(id, "tuber"), sale);
    }
    with_grounds(|grounds| {
        let kept: Vec<String> = grounds.kept().iter().map(Subject::to_string).collect();
        assert_eq!(kept, ["26-001"]);
        let find = |id: &str| {
            grounds
                .find(&id.parse().expect("an id"))
                .map(|one| one.to_string())
        };
        assert_eq!(find("haaf bobbin").as_deref(), Some("Haaf Bobbin"));
        assert_eq!((find("26-009"), find("Nobody")), (None, None));
    });
}

#[test]
fn a_list_of_tags_is_plain_text() {
    let stock = Stock::embedded();
    let kind = stock.kind("stake").expect("a kind");
    let told = text([(&said("Ebb Guess"), 1), (&said("26-002"), 12)], kind);
    assert_eq!(
        told,
        "\u{2018}Ebb Guess\u{2019}\n  form: laciniated (provisional: by eye)\n  size: 1 bloom measured so \
         far: 15 cm, 5.9 in\n  colour: strong red\n\n26-002\n  copies: 12\n  form: novelty, declared a form of its \
         own\n  season: seen in bloom so far in September 2026\n"
    );
}
