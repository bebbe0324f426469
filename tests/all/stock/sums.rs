//! Writes what `tests/outside/stock_agrees.py` works out again from the lines of the journal alone: random
//! books with corrections and withdrawals, and the demo's.

use std::fs;
use std::path::PathBuf;

use jiff::ToSpan;
use jiff::civil::date;
use serde_json::{Value, json};
use trug::folder::text::{read_line, write_line};
use trug::measure::day::Calendar;
use trug::stock::read::Draft;
use trug::stock::{Entry, Stock, What};
use trug::trial::statistics::LEVEL;
use trug::trial::{Seedling, Trial};

const BOOKS: usize = 60;
const PLANTS: [&str; 3] = ["24-001", "Haaf Bell", "Ebb Kist"];
const DEMO: &str = include_str!("../../../catalogue/stock.journal");

fn trial() -> Trial {
    let seedling = Seedling::numbered("24-001".parse().expect("a number"));
    Trial::of(vec![seedling], Vec::new()).0
}

#[test]
fn books_are_written_for_outside_programs() {
    let mut random = fastrand::Rng::with_seed(20261130);
    let mut books: Vec<Vec<Entry>> = (0..BOOKS).map(|_| book(&mut random)).collect();
    let lines = DEMO.lines().map(|line| line.split_once(' ').expect(line).1);
    let demo = lines.map(|line| read_line("stock.journal", line).expect(line));
    books.push(demo.collect());
    let books: Vec<Value> = books.into_iter().map(figures).collect();
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"));
    let all = json!({ "level": LEVEL, "books": books });
    fs::write(folder.join("stock.json"), format!("{all:#}")).expect("written");
}

/// Some forty entries over two winters. What takes more than there is, and what corrects nothing, is part of
/// it: a file may hold it.
fn book(random: &mut fastrand::Rng) -> Vec<Entry> {
    let mut entries: Vec<Entry> = Vec::new();
    for id in 1..=random.u32(5..60) {
        let of = PLANTS[random.usize(0..PLANTS.len())];
        let day = date(2024, 10, 1) + random.i64(0..620).days();
        let mut words = vec![format!("date={day}")];
        for _ in 0..random.usize(1..4) {
            let word = [
                "divided", "stored", "lost", "sold", "given", "potted", "planted", "cuttings",
                "sound", "promised", "lifted", "keep",
            ][random.usize(0..12)];
            let most = if ["divided", "stored"].contains(&word) {
                40
            } else {
                15
            };
            let pair = format!("{word}={}", random.u32(0..most));
            if !words.iter().any(|own| own.starts_with(&format!("{word}="))) {
                words.push(pair);
            }
        }
        let has = |words: &[String], word: &str| words.iter().any(|own| own.starts_with(word));
        let somebody = ["sold=", "given=", "promised="];
        let somebody = somebody.iter().filter(|word| has(&words, word)).count();
        if somebody == 1 && random.bool() {
            words.push(format!(
                "to={}",
                ["Jessie", "market", "JESSIE"][random.usize(0..3)]
            ));
        }
        if random.bool() {
            words.push(format!("price={}.{}0", random.u32(1..9), random.u32(0..9)));
        }
        if random.u8(0..3) > 0 {
            words.push(format!("place={}", ["byre", "loft"][random.usize(0..2)]));
        }
        let draft = Draft::read(&words, &Calendar::FILES).expect("words");
        let mut entry = draft.entry(id, of.parse().expect(of), day);
        if id > 1 && random.u8(0..5) == 0 {
            let named = random.u32(1..id);
            entry.corrects = Some(named);
            // Mostly one of its own plant.
            if random.u8(0..5) > 0 {
                entry.of = entries[named as usize - 1].of.clone();
            }
            if random.bool() {
                entry.what = What::Withdrawn;
                entry.year = None;
                entry.place = None;
            }
        }
        entries.push(entry);
    }
    entries
}

fn figures(entries: Vec<Entry>) -> Value {
    let lines: Vec<String> = entries
        .iter()
        .map(|entry| write_line(entry).expect("a line"))
        .collect();
    let (stock, told) = Stock::read(entries, &trial());
    let losses = stock.losses();
    let plants: Vec<Value> = stock
        .subjects()
        .iter()
        .map(|subject| {
            let loss = losses.of_plant(subject);
            let exact = loss.own.limits();
            json!({
                "plant": subject.to_string(),
                "liftings": stock.liftings(subject).iter().map(lifting).collect::<Vec<_>>(),
                "lost": loss.own.hit(),
                "of": loss.own.of(),
                "exact": [exact.low, exact.high],
                "expected": loss.share,
                "limits": [loss.limits.low, loss.limits.high],
            })
        })
        .collect();
    json!({ "journal": lines, "plants": plants, "told": told.len(), "new": losses.of_new().share })
}

fn lifting(one: &trug::stock::Lifting) -> Value {
    let places = one.places.iter().map(|(place, own)| {
        json!({
            "place": place.as_ref().map(ToString::to_string),
            "bench": own.bench,
            "store": own.store,
            "pots": own.pots,
            "lost": own.lost,
            "sold": own.sold,
            "takings": own.takings.in_hundredths(),
            "given": own.given,
            "planted": own.planted,
        })
    });
    json!({
        "year": one.year,
        "places": places.collect::<Vec<_>>(),
        "promised": one.promised(),
        "keep": one.keep,
        "free": one.free(),
        "winter": one.wintered().map(|share| [share.hit(), share.of()]),
        "price": one.price.map(|price| price.in_hundredths()),
    })
}
