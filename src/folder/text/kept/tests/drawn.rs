//! What holds of every text and every change.

use fastrand::Rng;
use proptest::prelude::*;

use super::super::change::Change;
use super::super::{Holds, Past, kept};
use super::garden::{Bed, Garden, edit, garden};
use super::hand::Hand;
use crate::folder::text::{record_again, value_again, write_line, write_records, write_value};

const GARDEN: Holds = Holds::Value(value_again::<Garden>);
const BEDS: Holds = Holds::Records(record_again::<Bed>);

fn read(text: &str) -> Garden {
    let options =
        ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
    options
        .from_str(text)
        .unwrap_or_else(|error| panic!("{error} in\n{text}"))
}

fn change(text: &str, new: &Garden) -> Change {
    let written = write_value(new).expect("writes");
    GARDEN.change(text, &written).unwrap_or_else(|| {
        let old = write_value(&read(text)).expect("writes");
        panic!("not kept:\n{text}\n--- was\n{old}\n--- is\n{written}")
    })
}

/// Whether a value by this way is the same before and after, still there, or gone.
fn at(garden: &Garden, way: &str) -> Option<String> {
    let mut steps = way.split('/').skip(1);
    let Some(field) = steps.next() else {
        return Some(String::new());
    };
    let written = |field: &str| match field {
        "title" => Some(garden.title.clone()),
        "money" => Some(format!("{:?}", garden.money?)),
        "weeks" => Some(format!("{:?}", garden.weeks)),
        "words" | "terms" => (!garden.words.is_empty()).then(|| format!("{:?}", garden.words)),
        "prices" => (!garden.prices.is_empty()).then(|| format!("{:?}", garden.prices)),
        "only" => Some(garden.only.to_string()),
        _ => Some(format!("{:?}", garden.beds)),
    };
    let rest = way.strip_prefix("/beds/");
    // A name may have the mark of a way in it.
    let bed = rest.and_then(|rest| garden.beds.iter().find(|bed| rest.starts_with(&bed.name)));
    match (rest, bed) {
        (None, _) => written(field),
        (Some(_), None) => None,
        (Some(rest), Some(bed)) => match rest[bed.name.len()..].trim_start_matches('/') {
            "" => Some(format!("{bed:?}")),
            "name" => Some(bed.name.clone()),
            "length" => bed.length.clone(),
            "rows" => Some(format!("{:?}", bed.rows?)),
            "colours" => (!bed.colours.is_empty()).then(|| format!("{:?}", bed.colours)),
            _ => Some(format!("{:?}", bed.kind?)),
        },
    }
}

/// The names of the beds that are in both, as one and as the other has them.
fn in_one_order(old: &Garden, new: &Garden) -> bool {
    let names = |one: &Garden, other: &Garden| -> Vec<String> {
        let both = one
            .beds
            .iter()
            .filter(|bed| other.beds.iter().any(|own| own.name == bed.name));
        both.map(|bed| bed.name.clone()).collect()
    };
    names(old, new) == names(new, old)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_text_with_comments_in_every_place_keeps_all_that_is_not_changed(seed in any::<u64>()) {
        let mut dice = Rng::with_seed(seed);
        let old = garden(&mut dice);
        let hand = Hand::write(&old, dice.u64(..));
        prop_assert_eq!(&read(&hand.text), &old);
        let mut new = old.clone();
        for _ in 0..dice.usize(1..4) {
            edit(&mut new, &mut dice);
        }
        let changed = change(&hand.text, &new);
        prop_assert_eq!(&read(&changed.text), &new);

        for (way, own) in &hand.values {
            let same = at(&old, way) == at(&new, way) && at(&new, way).is_some();
            prop_assert!(
                !same || changed.text.contains(own),
                "{way}: {own}\nis other in\n{}\nbefore\n{}", changed.text, hand.text
            );
        }
        let mut from = 0;
        let in_order = in_one_order(&old, &new);
        for remark in &hand.remarks {
            let gone = |way: &String| at(&old, way).is_some() && at(&new, way).is_none();
            let is_there = at(&new, &remark.within).is_some();
            if !is_there || remark.between.iter().flatten().any(gone) {
                continue;
            }
            let found = changed.text[if in_order { from } else { 0 }..].find(&remark.text);
            prop_assert!(
                found.is_some(),
                "{} is not there or not in its place in\n{}\nbefore\n{}", remark.text, changed.text, hand.text
            );
            from += found.unwrap_or(0);
        }
        let back = changed.splices.reversed(&hand.text).expect("a way back");
        prop_assert_eq!(back.applied(&changed.text), Some(hand.text));
    }

    #[test]
    fn the_value_that_is_there_changes_nothing(seed in any::<u64>()) {
        let mut dice = Rng::with_seed(seed);
        let old = garden(&mut dice);
        let hand = Hand::write(&old, dice.u64(..));
        prop_assert_eq!(change(&hand.text, &old).text, hand.text);
    }

    /// Whatever a text was before, what is saved over it is the new value.
    #[test]
    fn any_text_at_all_is_saved_over(
        seed in any::<u64>(),
        slips in prop::collection::vec((any::<prop::sample::Index>(), "[()\\[\\]{}:,\"'\\\\/*#!é\r\n ab0]{0,2}"), 0..4),
    ) {
        let mut dice = Rng::with_seed(seed);
        let mut value = garden(&mut dice);
        let text = Hand::write(&value, dice.u64(..)).text;
        let mut marks: Vec<String> = text.chars().map(String::from).collect();
        for (at, slip) in slips {
            *at.get_mut(&mut marks) = slip;
        }
        let text = marks.concat();
        edit(&mut value, &mut dice);
        prop_assert_eq!(read(&kept(&text, &write_value(&value).expect("writes"), GARDEN)), value.clone());
        let list = text.split_once("beds:").map_or(&*text, |(_, rest)| rest);
        let written = write_records(&value.beds).expect("writes");
        let saved = kept(list, &written, BEDS);
        prop_assert_eq!(beds_again(&saved), Some(written), "{}", saved);
    }

    /// Any edits, any of them undone and done again.
    #[test]
    fn what_is_undone_is_the_start_to_the_letter(seed in any::<u64>()) {
        let mut dice = Rng::with_seed(seed);
        let old = garden(&mut dice);
        let mut past = Past::default();
        let mut texts = vec![Hand::write(&old, dice.u64(..)).text];
        let mut values = vec![old];
        let save = |past: &mut Past, text: &str, value: &Garden| {
            let next = past.next(text, &write_value(value).expect("writes"), GARDEN);
            let text = next.text.clone();
            past.saved(next);
            text
        };
        for _ in 0..6 {
            let mut value = values[values.len() - 1].clone();
            edit(&mut value, &mut dice);
            // One that was there before would be there again.
            if values.contains(&value) {
                continue;
            }
            let text = save(&mut past, &texts[texts.len() - 1], &value);
            texts.push(text);
            values.push(value);
            // Some steps back and on again.
            let last = values.len() - 1;
            let first = dice.usize(..=last);
            let mut now = texts[last].clone();
            for at in (first..last).rev().chain(first + 1..=last) {
                now = save(&mut past, &now, &values[at]);
                prop_assert_eq!(&now, &texts[at]);
            }
        }
        let mut now = texts[texts.len() - 1].clone();
        for at in (0..texts.len()).rev() {
            now = save(&mut past, &now, &values[at]);
        }
        prop_assert_eq!(&now, &texts[0]);
    }

    /// A list is kept record by record, and comes out as it would be as one value.
    #[test]
    fn a_list_of_records_keeps_what_is_not_changed(seed in any::<u64>()) {
        let mut dice = Rng::with_seed(seed);
        let old = garden(&mut dice);
        let text = Hand::write(&old, dice.u64(..)).text;
        // The list of beds alone, with what is about it.
        let whole = crate::problem::Node::of(&text);
        let beds = whole.within.iter().find(|held| held.name(&text) == Some("beds")).expect("beds");
        let list = format!("// Mine.\n{}\n// The end.\n", &text[beds.value.start..beds.value.end]);
        let mut new = old.clone();
        for _ in 0..4 {
            edit(&mut new, &mut dice);
        }
        let written = write_records(&new.beds).expect("writes");
        let changed = BEDS.change(&list, &written);
        let Some(changed) = changed else { panic!("not kept:\n{list}\n--- is\n{written}") };
        let read: Vec<Bed> = crate::problem::read_ron("f.ron", &changed.text).expect("reads");
        prop_assert_eq!(&read, &new.beds, "{}", changed.text);
        prop_assert!(changed.text.starts_with("// Mine.") && changed.text.ends_with("// The end.\n"));
        let as_one = Holds::Value(beds_again).change(&list, &written);
        prop_assert_eq!(as_one.map(|one| one.text), Some(changed.text.clone()));
        let back = changed.splices.reversed(&list).expect("a way back");
        prop_assert_eq!(back.applied(&changed.text), Some(list));
    }
}

fn beds_again(text: &str) -> Option<String> {
    let beds: Vec<Bed> = crate::problem::read_ron("f.ron", text).ok()?;
    write_records(&beds).ok()
}

#[test]
fn a_record_alone_is_written_as_on_its_line_in_a_list() {
    let mut dice = Rng::with_seed(1);
    let bed = super::garden::bed(&mut dice);
    let line = write_line(&bed).expect("writes");
    assert_eq!(
        write_records(&[bed]).expect("writes"),
        format!("[\n  {line},\n]\n")
    );
}
