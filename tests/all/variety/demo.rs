//! The demo's list is whole: every form and size, valid records whose numbers hang together.

use std::collections::BTreeSet;

use trug::colour::Vocabulary;
use trug::form::RuleSet;
use trug::measure::Exact;
use trug::variety::{FormKnown, Known, Uses, Varieties};

const TEXT: &str = include_str!("../../../catalogue/varieties.ron");

fn catalogue() -> Varieties {
    Varieties::read("varieties.ron", TEXT).unwrap_or_else(|problems| panic!("{problems:?}"))
}

fn trade() -> RuleSet {
    RuleSet::embedded().swap_remove(0)
}

#[test]
fn it_is_written_as_the_program_writes_it() {
    let written = catalogue().write().expect("writes");
    for (written, line) in written.lines().zip(TEXT.lines()) {
        assert_eq!(written, line);
    }
    assert_eq!(written.len(), TEXT.len());
}

#[test]
fn everything_in_it_means_something() {
    assert_eq!(
        catalogue().doubts(&trade(), &Vocabulary::embedded()),
        [""; 0]
    );
}

#[test]
fn every_form_every_size_word_and_every_colour_family_is_there() {
    let (list, rules, words) = (catalogue(), trade(), Vocabulary::embedded());
    assert!((230..=250).contains(&list.len()), "{}", list.len());
    let forms: BTreeSet<_> = list
        .list()
        .iter()
        .filter_map(|one| one.form_under(&rules))
        .collect();
    assert_eq!(forms.len(), rules.forms.len());
    let sizes: BTreeSet<_> = list
        .list()
        .iter()
        .filter_map(|one| one.size_under(&rules))
        .collect();
    assert_eq!(sizes.len(), rules.size_words.len());
    let families: BTreeSet<_> = list
        .list()
        .iter()
        .flat_map(|one| &one.colours)
        .filter_map(|note| Some(words.find(&note.colour.to_string())?.family))
        .collect();
    assert_eq!(families.len(), trug::colour::Family::ALL.len());
}

#[test]
fn what_was_keyed_keys_to_the_form_that_is_noted() {
    let (list, rules) = (catalogue(), trade());
    let mut keyed = 0;
    for one in list.list() {
        let noted = one.form.as_ref().and_then(|form| rules.find(&form.id));
        let was_keyed = one
            .form
            .as_ref()
            .is_some_and(|form| form.known == FormKnown::Keyed);
        assert_eq!(was_keyed, one.bloom.is_some(), "{}", one.name);
        if was_keyed {
            keyed += 1;
            assert_eq!(one.keyed_under(&rules), noted, "{}", one.name);
        }
    }
    assert!(keyed >= 30, "{keyed} keyed");
}

#[test]
fn diameters_lie_within_the_form_and_the_size_that_is_noted() {
    let (list, rules) = (catalogue(), trade());
    for one in list.list() {
        let values: Vec<Exact> = one.diameters.iter().map(|d| d.length().mm()).collect();
        let Some(mean) = Exact::mean(&values) else {
            continue;
        };
        let form = &rules.forms[one.form_under(&rules).expect("a form")];
        assert!(form.diameter.holds(mean), "{} as {}", one.name, form.id);
        if let Some(size) = &one.size {
            let measured = one.size_under(&rules);
            assert_eq!(Some(size.as_str()), measured, "{}", one.name);
        }
    }
}

#[test]
fn names_are_short_and_no_two_varieties_are_alike() {
    let list = catalogue();
    let mut looks = BTreeSet::new();
    for one in list.list() {
        assert!(one.name.chars().count() <= 30, "{}", one.name);
        let look = format!(
            "{:?} {:?}",
            one.form.as_ref().map(|form| &form.id),
            one.colours
        );
        assert!(looks.insert(look), "{}", one.name);
    }
}

#[test]
fn the_gaps_and_the_rare_cases_are_there() {
    let list = catalogue();
    let count = |holds: &dyn Fn(&trug::variety::Variety) -> bool| {
        list.list().iter().filter(|one| holds(one)).count()
    };
    assert!(count(&|one| one.vase.is_none()) > 40);
    assert!(count(&|one| one.offers.is_empty()) > 10);
    assert!(count(&|one| one.shortlist.is_some()) > 5);
    assert_eq!(count(&|one| one.protected == Some(true)), 3);
    assert_eq!(count(&|one| one.licence.is_some()), 1);
    let suppliers: BTreeSet<_> = list
        .list()
        .iter()
        .flat_map(|one| &one.offers)
        .map(|offer| &offer.supplier)
        .collect();
    assert_eq!(suppliers.len(), 2);
}

/// Numbers that hang together: common practice, no source.
#[test]
fn a_giant_is_no_flower_for_the_bunch_and_a_pompon_is_worn() {
    let (list, rules, uses) = (catalogue(), trade(), Uses::embedded());
    let fitness = |one, id: &str| {
        let use_at = uses.find(id).expect(id);
        Known::of(one, &rules, &uses)
            .fitness(&uses.list()[use_at])
            .expect("a form")
    };
    for one in list.list() {
        if one.size_under(&rules) == Some("giant") {
            assert!(fitness(one, "market-bunch") < 0.4, "{}", one.name);
        }
        if one
            .form
            .as_ref()
            .is_some_and(|form| form.id.as_str() == "pompon")
        {
            assert!(fitness(one, "worn") > 0.7, "{}", one.name);
        }
    }
}

/// What cut stems and plants are like where the wind is felt: common practice, no source. A stem is
/// cut above the lower leaves and side shoots, so it is never most of the plant.
#[test]
fn a_cut_stem_is_no_longer_than_its_plant_can_give() {
    let mut both = 0;
    for one in catalogue().list() {
        let height = one.height.map(|reach| reach.low().mm());
        let stem = one.stem.map(|reach| reach.high().mm());
        if let Some(height) = height {
            assert!((400.0..=1500.0).contains(&height), "{}: {height}", one.name);
        }
        if let Some(stem) = stem {
            assert!((200.0..=650.0).contains(&stem), "{}: {stem}", one.name);
        }
        if let (Some(height), Some(stem)) = (height, stem) {
            both += 1;
            let share = stem / height;
            assert!(share <= 0.6, "{}: {stem} of {height} mm", one.name);
        }
    }
    assert!(both > 100, "{both} with both");
}
