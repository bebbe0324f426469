//! An index that took other records in is the index of the list with those records.

use crate::common::shipped::Shipped;
use crate::common::varieties;

use fastrand::Rng;
use trug::colour::{Lab, Part, Pattern, Vocabulary};
use trug::form::{Answer, Answers, RuleSet};
use trug::variety::{
    Ask, By, ColourNote, Facet, Index, KnownBloom, KnownColour, Narrowing, Query, QueryCache,
    Ranking, Text, Varieties, Variety,
};

const ROWS: usize = 150;
/// Records that rows are given; those of the list are the first of them.
const RECORDS: usize = 400;

/// What the trial row might have seen: answers and measured colours, as values.
fn seen(mut one: Variety, rules: &RuleSet, dice: &mut Rng) -> Variety {
    let lab = Lab::new(
        dice.f64() * 100.0,
        dice.f64() * 80.0 - 40.0,
        dice.f64() * 80.0,
    );
    let note = |part, colour| ColourNote {
        colour,
        part,
        pattern: Pattern::SelfColoured,
    };
    one.colours = vec![note(Part::Main, KnownColour::Measured(lab))];
    if dice.bool() {
        let word = Text::new("peach").expect("a word");
        one.colours.push(note(Part::Second, word.into()));
    }
    let centre = rules.traits.find("centre").expect("a trait");
    let mut answers = Answers::default();
    answers.set(centre, Answer::States(1));
    one.bloom = Some(KnownBloom::Answered(Box::new(answers)));
    one.form = one.form.filter(|_| dice.bool());
    one
}

fn asks(words: &Vocabulary) -> Vec<Ask> {
    let peach = words.target("peach").expect("a word");
    let near = Narrowing::Colour {
        asked: "peach".into(),
        targets: vec![peach.clone()],
        within: 25.0,
    };
    let narrowings = [
        vec![near],
        vec![Narrowing::Words("skerry".into())],
        vec![Narrowing::facet(Facet::Form, "ball")],
        vec![
            Narrowing::facet(Facet::Raiser, "Ebb 3"),
            Narrowing::Words("peach".into()),
        ],
        vec![Narrowing::facet(Facet::Shortlist, "yes")],
    ];
    let ask = |(narrowings, by)| Ask {
        narrowings,
        ranking: Ranking {
            by,
            use_at: Some(1),
            targets: vec![peach.clone()],
            words: Some(Query::new("sk")),
        },
        top: 40,
    };
    let orders = [By::Both, By::Name, By::Price, By::Colour, By::Fitness];
    narrowings.into_iter().zip(orders).map(ask).collect()
}

/// One of the questions, its colour nearer or farther.
fn another(asks: &[Ask], dice: &mut Rng) -> Ask {
    let mut ask = asks[dice.usize(..asks.len())].clone();
    for one in &mut ask.narrowings {
        if let Narrowing::Colour { within, .. } = one {
            *within = dice.f64() * 40.0;
        }
    }
    ask
}

#[test]
fn after_any_changes_the_index_is_the_one_built_anew_and_answers_as_it() {
    let shipped = Shipped::new();
    let context = shipped.context(8.0);
    let records = varieties::varieties(RECORDS);
    let asks = asks(context.words);
    for seed in 0..6 {
        let mut dice = Rng::with_seed(seed);
        let first = records.list()[..ROWS].to_vec();
        let mut list = Varieties::of(first).expect("each name once");
        let mut index = Index::new(&list, context);
        let mut held: Vec<QueryCache> = vec![QueryCache::default(); asks.len()];
        let mut turned = QueryCache::default();
        for _ in 0..25 {
            let row = dice.usize(..ROWS);
            let mut record = records.list()[dice.usize(ROWS..RECORDS)].clone();
            if dice.u8(..4) > 0 || list.find(&record.name).is_some() {
                record.name = list.list()[row].name.clone();
            }
            if dice.bool() {
                record = seen(record, context.rules, &mut dice);
            }
            if dice.u8(..5) == 0 {
                record.raiser = None;
                record.offers.clear();
            }
            for (ask, held) in asks.iter().zip(&mut held) {
                index.ask_next(ask, held);
            }
            for _ in 0..3 {
                let ask = another(&asks, &mut dice);
                let told = index.ask_next(&ask, &mut turned);
                assert_eq!(told, index.ask(&ask), "{seed}: {ask:?}");
            }
            list.replace(row, record.clone())
                .expect("a name of its own");
            let replaced = index.put(row, &record, context);
            let anew = Index::new(&list, context);
            assert!(index == anew, "{seed}: {record:?}");
            turned.look_again(&index, &replaced);
            for (ask, held) in asks.iter().zip(&mut held) {
                held.look_again(&index, &replaced);
                assert_eq!(
                    index.ask_next(ask, held),
                    anew.ask(ask),
                    "{seed}: {record:?}"
                );
            }
        }
    }
}

/// To put a record back leaves nothing behind.
#[test]
fn a_note_that_is_taken_back_leaves_the_index_as_it_was() {
    let shipped = Shipped::new();
    let context = shipped.context(8.0);
    let list = varieties::varieties(ROWS);
    let before = Index::new(&list, context);
    let mut index = before.clone();
    let mut dice = Rng::with_seed(3);
    for row in 0..ROWS {
        let record = &list.list()[row];
        let noted = seen(record.clone(), context.rules, &mut dice);
        index.put(row, &noted, context);
        assert!(index != before, "{noted:?}");
        index.put(row, record, context);
        assert!(index == before, "{noted:?}");
    }
}
