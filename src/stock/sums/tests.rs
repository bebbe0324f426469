use std::collections::BTreeMap;

use jiff::civil::Date;
use proptest::prelude::*;

use super::*;
use crate::measure::day::Calendar;
use crate::stock::read::Draft;
use crate::stock::{What, lifting_of};
use crate::trial::Seedling;

pub(in crate::stock) fn entry(id: u32, of: &str, line: &str) -> Entry {
    let draft = Draft::read_line(line, &Calendar::FILES).expect(line);
    draft.entry(id, of.parse().expect(of), Date::constant(2026, 3, 1))
}

pub(in crate::stock) fn trial() -> Trial {
    let seedling = |number: &str| Seedling::numbered(number.parse().expect(number));
    Trial::of(vec![seedling("24-001"), seedling("25-001")], Vec::new()).0
}

/// A book of lines, each of a plant.
pub(in crate::stock) fn stock(lines: &[(&str, &str)]) -> Stock {
    let entries = (1..).zip(lines).map(|(id, (of, line))| entry(id, of, line));
    let (stock, told) = Stock::read(entries.collect(), &trial());
    assert_eq!(told, Vec::new());
    stock
}

fn last(stock: &Stock, of: &str) -> Lifting {
    let subject = of.parse().expect(of);
    stock.last_lifting(&subject).expect("a lifting")
}

/// The play of a grower's year: 12 plants of 24-001 lifted, 31 tubers sold, 9 kept, 3 rotten.
#[test]
fn from_twelve_plants_lifted_to_thirty_one_sold_and_nine_kept() {
    let stock = stock(&[
        ("24-001", "date=2025-10-25 lifted=12 divided=43"),
        ("24-001", "date=2025-10-28 stored=43 place=byre"),
        ("24-001", "date=2026-01-11 lost=3 why=rotten place=byre"),
        ("24-001", "date=2026-02-01 promised=5 to=Jessie"),
        ("24-001", "date=2026-03-25 sound=40 keep=9"),
        ("24-001", "date=2026-04-18 sold=26 price=4.50 to=market"),
        ("24-001", "date=2026-04-25 sold=5 price=4 to=jessie"),
    ]);
    let lifting = last(&stock, "24-001");
    let all = lifting.all();
    assert_eq!(
        (all.clumps, all.divided, all.tubers(), all.pots),
        (12, 43, 9, 0)
    );
    assert_eq!((all.lost, all.sold, all.planted), (3, 31, 0));
    assert_eq!(all.takings, Money::hundredths(26 * 450 + 5 * 400));
    assert_eq!(lifting.promises, Vec::new());
    assert_eq!((lifting.kept(), lifting.free()), (9, 0));
    assert_eq!(lifting.counted, Some(Date::constant(2026, 3, 25)));
    let winter = lifting.wintered().expect("counted in the new year");
    assert_eq!((winter.hit(), winter.of()), (3, 43));
    let sale = stock.for_sale(&"24-001".parse().expect("a number"));
    let sale = sale.expect("is in the book");
    assert_eq!((sale.count, sale.price), (0, Some(Money::hundredths(400))));
    assert_eq!(lifting.reasons[0].1, 3);
}

#[test]
fn what_is_divided_and_then_stored_counts_once_and_what_is_bought_is_new() {
    let stock = stock(&[
        ("Haaf Bell", "date=2025-10-20 divided=43"),
        ("Haaf Bell", "date=2025-10-21 stored=20 place=cellar"),
        ("Haaf Bell", "date=2025-10-22 stored=25 place=loft"),
        ("Haaf Bell", "date=2026-02-10 stored=6"),
    ]);
    let lifting = last(&stock, "Haaf Bell");
    let here: Vec<(Option<String>, u64)> = lifting
        .places
        .iter()
        .map(|(place, own)| (place.as_ref().map(ToString::to_string), own.here()))
        .collect();
    let at = |place: &str| Some(place.to_string());
    // Two of the loft's were not divided here.
    assert_eq!(here, [(None, 6), (at("cellar"), 20), (at("loft"), 25)]);
}

#[test]
fn what_is_told_without_a_place_comes_from_no_place_first_then_by_name() {
    let stock = stock(&[
        ("Haaf Bell", "date=2025-10-20 divided=4 "),
        ("Haaf Bell", "date=2025-10-20 divided=5 place=loft"),
        ("Haaf Bell", "date=2025-10-20 divided=5 place=cellar"),
        ("Haaf Bell", "date=2026-03-20 lost=7"),
        ("Haaf Bell", "date=2026-03-21 potted=4"),
        ("Haaf Bell", "date=2026-03-22 cuttings=3"),
        ("Haaf Bell", "date=2026-05-22 planted=6"),
        ("Haaf Bell", "date=2026-05-23 sold=2"),
    ]);
    let lifting = last(&stock, "Haaf Bell");
    let of = |place: Option<&str>| {
        let place = place.map(|place| Text::new(place).expect("a place"));
        lifting.places[&place].clone()
    };
    let (none, cellar, loft) = (of(None), of(Some("cellar")), of(Some("loft")));
    assert_eq!((none.lost, cellar.lost, loft.lost), (4, 3, 0));
    // Two of the cellar's and two of the loft's were potted, three cuttings at no place: six planted.
    assert_eq!((none.planted, cellar.planted, loft.planted), (3, 2, 1));
    assert_eq!((loft.tubers(), loft.pots, loft.sold), (1, 1, 2));
}

#[test]
fn a_promise_is_kept_by_what_its_own_name_gets() {
    let stock = stock(&[
        ("Haaf Bell", "date=2025-10-20 divided=20"),
        ("Haaf Bell", "date=2025-11-01 promised=5 to=Jessie"),
        ("Haaf Bell", "date=2025-11-02 promised=2"),
        ("Haaf Bell", "date=2025-11-03 promised=1 to=jessie"),
        ("Haaf Bell", "date=2025-11-05 sold=3 to=market price=4"),
        ("Haaf Bell", "date=2025-11-06 given=2 to='JESSIE'"),
        ("Haaf Bell", "date=2025-11-07 price=5.50"),
        ("Haaf Bell", "date=2025-11-08 sold=1 price=3"),
    ]);
    let lifting = last(&stock, "Haaf Bell");
    let open: Vec<(Option<&str>, u64)> = lifting
        .promises
        .iter()
        .map(|one| (one.to.as_deref(), one.count))
        .collect();
    assert_eq!(open, [(Some("Jessie"), 4), (None, 2)]);
    assert_eq!((lifting.here(), lifting.free()), (14, 8));
    // What is asked is not what one was sold for.
    assert_eq!(lifting.price, Some(Money::hundredths(550)));
}

#[test]
fn a_file_that_takes_more_than_there_is_is_told_and_takes_what_there_is() {
    let entries = vec![
        entry(1, "Haaf Bell", "date=2025-10-20 divided=10"),
        entry(2, "Haaf Bell", "date=2025-12-20 sold=12 price=2"),
        entry(3, "26-009", "date=2026-01-02 stored=3"),
        entry(4, "Haaf Bell", "date=2026-01-02 sound=1"),
        entry(5, "Haaf Bell", "date=2026-01-02 promised=1"),
        entry(6, "24-001", "withdraw=1"),
    ];
    let (stock, told) = Stock::read(entries, &trial());
    let told: Vec<String> = told.into_iter().map(|one| one.told).collect();
    assert_eq!(
        told,
        [
            "entry 2: sold: found 12 of Haaf Bell, lifted in 2025, expected at most the 10 tubers that are here; it takes those",
            "entry 3: found the seedling 26-009, expected one of trial.ron",
            "entry 4: sound: found 1 of Haaf Bell, lifted in 2025, expected at most the 0 tubers that are in store; it takes those",
            "entry 5: promised: found 1 of Haaf Bell, lifted in 2025, expected at most the 0 tubers that are here and not promised; it takes those",
            "entry 6: found entry 1, which is of Haaf Bell, expected one of 24-001: `trug stock 24-001` lists them; it withdraws nothing",
        ]
    );
    let all = last(&stock, "Haaf Bell").all();
    assert_eq!((all.sold, all.here()), (10, 0));
    assert_eq!(all.takings, Money::hundredths(2000));
}

#[test]
fn the_winter_is_told_of_what_came_through_it() {
    let of = |lines: &[&str]| {
        let lines: Vec<(&str, &str)> = lines.iter().map(|line| ("Haaf Bell", *line)).collect();
        let winter = last(&stock(&lines), "Haaf Bell").wintered();
        winter.map(|share| (share.hit(), share.of()))
    };
    let stored = "date=2025-10-20 divided=20";
    // It is not over while they lie there uncounted.
    assert_eq!(of(&[stored, "date=2026-02-01 lost=2"]), None);
    assert_eq!(of(&[stored, "date=2025-12-01 sound=19"]), None);
    assert_eq!(of(&[stored, "date=2026-03-01 sound=17"]), Some((3, 20)));
    // All that were sold before the new year say nothing of the winter.
    assert_eq!(of(&[stored, "date=2025-12-01 sold=20"]), None);
    assert_eq!(
        of(&[
            stored,
            "date=2025-12-01 sold=8 lost=1",
            "date=2026-03-01 sound=9"
        ]),
        Some((3, 12))
    );
    // What is taken until nothing is left was sound; what is lost in pots was not lost in store.
    let all = [
        stored,
        "date=2026-03-01 potted=15",
        "date=2026-03-02 lost=5",
        "date=2026-04-02 lost=4",
    ];
    assert_eq!(of(&all), Some((5, 20)));
}

#[test]
fn the_list_is_told_what_the_book_has_of_the_lifting_to_plant_from() {
    let list = r#"[(name: "Haaf Bell", on_hand: 3), (name: "Ebb Kist", on_hand: 5), (name: "Oar Kist", on_hand: 7)]"#;
    let list = Varieties::read("varieties.ron", list).expect("a list");
    let stock = stock(&[
        ("Haaf Bell", "date=2025-10-20 divided=40"),
        ("Haaf Bell", "date=2026-01-10 lost=4"),
        ("Haaf Bell", "date=2026-01-11 promised=6 to=Jessie"),
        ("Ebb Kist", "date=2024-10-20 divided=40"),
        ("Ebb Kist", "date=2025-03-20 sound=30"),
        ("Ebb Kist", "date=2025-05-20 planted=30"),
    ]);
    let informed = stock.informed(&list, Some(2026));
    let [bell, ebb, oar] = informed.list() else {
        panic!("three");
    };
    let of_bell = bell.store.expect("is in the book");
    assert_eq!(bell.on_hand, Some(30));
    assert_eq!(of_bell.counted, Some(Date::constant(2026, 1, 11)));
    // What was lost already is not lost again.
    let share = 1.0 - stock.losses().share(&"Haaf Bell".parse().expect("a name"));
    let keeps = of_bell.keeps.expect("thirty tubers came through a winter");
    assert!(
        (keeps - share * 40.0 / 36.0).abs() < 1e-12,
        "{keeps} {share}"
    );
    // Planted out long ago: what is on hand is the list's, what keeps is the book's.
    assert_eq!(
        (ebb.on_hand, ebb.store.expect("is in the book").counted),
        (Some(5), None)
    );
    assert_eq!((oar.on_hand, oar.store), (Some(7), None));
    let late = stock.informed(&list, Some(2025));
    assert_eq!(late.list()[1].on_hand, Some(0));
}

/// One tuber or cutting by itself, as a child would lay them out on a bench.
#[derive(Debug, Clone, PartialEq, Eq)]
struct One {
    place: String,
    pile: &'static str,
}

/// How many lie at a place in a pile.
type There = BTreeMap<(String, &'static str), u64>;
/// How many went which way.
type Gone = BTreeMap<&'static str, u64>;

/// The rules once more, over single tubers: what lies where, and how many went which way.
fn laid_out(entries: &[&Entry]) -> (There, Gone) {
    let mut all: Vec<One> = Vec::new();
    let mut gone = Gone::new();
    // The place without a name comes first; at each place the store comes before the bench.
    let take = |all: &mut Vec<One>, place: &str, piles: &[&str]| {
        piles.iter().find_map(|pile| {
            let of_pile = |one: &One| (one.pile == "pots") == (*pile == "pots");
            let own = |one: &&One| of_pile(one) && (place.is_empty() || one.place == place);
            let order = |one: &&One| (one.place.clone(), one.pile != "store");
            let first = all.iter().filter(own).min_by_key(order)?.clone();
            let at = all.iter().position(|one| *one == first)?;
            Some(all.remove(at))
        })
    };
    for entry in entries {
        let place = entry.place.as_ref().map_or("", |place| place.as_str());
        let Some(event) = entry.event() else { continue };
        let new = |all: &mut Vec<One>, pile, count: Option<u32>| {
            all.extend((0..count.unwrap_or(0)).map(|_| One {
                place: place.to_string(),
                pile,
            }));
        };
        new(&mut all, "bench", event.divided);
        new(&mut all, "pots", event.cuttings);
        for _ in 0..event.stored.unwrap_or(0) {
            let bench = |at: &str| {
                all.iter()
                    .position(|one| one.pile == "bench" && one.place == at)
            };
            if let Some(at) = bench(place).or(bench("")) {
                all.remove(at);
            }
            new(&mut all, "store", Some(1));
        }
        for (word, count, piles) in [
            ("lost", event.lost, &["tubers", "pots"][..]),
            ("potted", event.potted, &["tubers"]),
            ("given", event.given, &["tubers", "pots"]),
            ("sold", event.sold, &["tubers", "pots"]),
            ("planted", event.planted, &["pots", "tubers"]),
        ] {
            for _ in 0..count.unwrap_or(0) {
                let Some(one) = take(&mut all, place, piles) else {
                    break;
                };
                if word == "potted" {
                    all.push(One {
                        pile: "pots",
                        ..one
                    });
                } else {
                    *gone.entry(word).or_default() += 1;
                }
            }
        }
        if let Some(sound) = event.sound {
            let own = |one: &&One| one.pile != "pots" && (place.is_empty() || one.place == place);
            while all.iter().filter(own).count() > sound as usize {
                take(&mut all, place, &["tubers"]);
                *gone.entry("lost").or_default() += 1;
            }
        }
    }
    let mut there = There::new();
    for one in all {
        *there.entry((one.place, one.pile)).or_default() += 1;
    }
    (there, gone)
}

fn any_line() -> impl Strategy<Value = String> {
    let word = prop::sample::select(vec![
        "divided", "stored", "lost", "potted", "cuttings", "given", "sold", "planted", "sound",
    ]);
    let place = prop::sample::select(vec!["", " place=byre", " place=loft"]);
    let day = (0..200_i32).prop_map(|days| {
        let first = Date::constant(2025, 10, 1);
        first.saturating_add(jiff::Span::new().days(days))
    });
    (word, 0..25_u32, prop::option::of(0..9_u32), place, day).prop_map(
        |(word, count, lost, place, day)| {
            let more = lost.filter(|_| word != "lost");
            let more = more.map_or(String::new(), |lost| format!(" lost={lost}"));
            format!("date={day} {word}={count}{more}{place}")
        },
    )
}

proptest! {
    #[test]
    fn the_sums_are_those_of_single_tubers(lines in prop::collection::vec(any_line(), 1..14)) {
        let entries: Vec<Entry> = (1..).zip(&lines).map(|(id, line)| entry(id, "Haaf Bell", line)).collect();
        let (stock, _) = Stock::read(entries, &trial());
        let of: Subject = "Haaf Bell".parse().expect("a name");
        let standing: Vec<&Entry> = stock.book().standing_of(&of).collect();
        for lifting in stock.liftings(&of) {
            let own: Vec<&Entry> = standing.iter().copied().filter(|one| one.lifting() == lifting.year).collect();
            let (there, gone) = laid_out(&own);
            for (place, found) in &lifting.places {
                let place = place.as_ref().map_or("", |place| place.as_str());
                let count = |pile| there.get(&(place.to_string(), pile)).copied().unwrap_or(0);
                prop_assert_eq!((found.bench, found.store, found.pots), (count("bench"), count("store"), count("pots")), "{}", place);
            }
            let all = lifting.all();
            for (word, found) in [("lost", all.lost), ("given", all.given), ("sold", all.sold), ("planted", all.planted)] {
                prop_assert_eq!(found, gone.get(word).copied().unwrap_or(0), "{}", word);
            }
            let came: u32 = own.iter().filter_map(|one| one.event()).map(|one| one.divided.unwrap_or(0) + one.cuttings.unwrap_or(0)).sum();
            prop_assert!(all.here() + all.lost + all.given + all.sold + all.planted >= u64::from(came));
        }
    }

    #[test]
    fn what_is_saved_by_the_check_has_no_fault(lines in prop::collection::vec((any_line(), prop::option::of((1..12_u32, any::<bool>()))), 1..14)) {
        let list = Varieties::read("varieties.ron", r#"[(name: "Haaf Bell")]"#).expect("a list");
        let trial = trial();
        let grounds = crate::stock::StockContext { trial: &trial, list: &list, today: Date::constant(2026, 11, 30) };
        let mut stock = Stock::default();
        for (line, changes) in lines {
            let mut one = entry(stock.book().next_id(), "Haaf Bell", &line);
            if let Some((named, withdraws)) = changes {
                one.corrects = Some(named);
                if withdraws {
                    one.what = What::Withdrawn;
                    one.year = None;
                }
            }
            let refused = stock.check(&one, &grounds).iter().any(|doubt| doubt.refuses);
            let before = stock.clone();
            let added = stock.add(one.clone());
            let of = one.of.clone();
            let named = one.corrects.filter(|_| one.what == What::Withdrawn);
            let again = named.and_then(|named| before.book().ended_by(named));
            // What is withdrawn already is not withdrawn again, though the book could bear it.
            let again = again.is_some_and(|by| by.what == What::Withdrawn);
            prop_assert_eq!(refused, again || added.is_err() || !stock.faults(&of).is_empty(), "{:?}", one);
            if refused {
                stock = before;
            }
        }
        let (read, told) = Stock::read(stock.book().entries().to_vec(), &trial);
        prop_assert_eq!((&read, told), (&stock, Vec::new()));
        prop_assert_eq!(lifting_of(Date::constant(2026, 3, 1)), 2025);
    }
}
