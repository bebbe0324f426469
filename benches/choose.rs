//! One keystroke on a long list: narrowed, every facet counted, ranked by a use and a colour.
//!
//! `cargo bench --bench choose [COUNT]`

#[path = "../tests/common/varieties.rs"]
mod varieties;

use std::hint::black_box;
use std::time::{Duration, Instant};

use trug::colour::Vocabulary;
use trug::form::RuleSet;
use trug::variety::{Ask, By, Facet, Grounds, Index, Narrowing, Query, Ranking, Uses, Varieties};

fn main() {
    let count = std::env::args()
        .find_map(|word| word.parse().ok())
        .unwrap_or(100_000);
    let (rules, uses, words) = (
        &RuleSet::embedded()[0],
        &Uses::embedded(),
        &Vocabulary::embedded(),
    );
    let list = varieties::varieties(count);
    let text = list.write().expect("writes");
    let (read, _) = timed(|| Varieties::read("varieties.ron", &text).expect("reads"));
    let grounds = Grounds {
        rules,
        uses,
        words,
        stems_a_plant: 8.0,
    };
    let (indexed, index) = timed(|| Index::new(&list, grounds));
    show("read", read);
    show("index", indexed);

    let target = words.target("peach").expect("a word");
    let near = Narrowing::Colour {
        asked: "peach".into(),
        targets: vec![target.clone()],
        within: 12.0,
    };
    let form = Narrowing::facet(Facet::Form, "ball");
    let ask = |typed: &str, more: &[&Narrowing]| Ask {
        narrowings: std::iter::once(Narrowing::Words(typed.to_string()))
            .chain(more.iter().map(|one| (*one).clone()))
            .collect(),
        ranking: Ranking {
            by: By::Both,
            use_at: uses.find("market-bunch"),
            targets: vec![target.clone()],
            words: Some(Query::new(typed)),
        },
        top: 200,
    };
    let (mut all, mut quiet) = (Vec::new(), Vec::new());
    for query in [
        "skerry am",
        "norlane",
        "torsadro",
        "quarff mi",
        "e",
        "haaf kelmotide",
    ] {
        for more in [&[][..], &[&near], &[&form], &[&near, &form]] {
            for end in 0..=query.len() {
                let ask = ask(&query[..end], more);
                let mut took: Vec<Duration> = (0..5)
                    .map(|_| timed(|| drop(black_box(index.ask(&ask)))).0)
                    .collect();
                took.sort();
                quiet.push(took[0]);
                all.append(&mut took);
            }
        }
    }
    // The best of five is what the work takes where other programs share the machine.
    for (name, mut took) in [("keystroke", all), ("keystroke, best of 5", quiet)] {
        took.sort();
        show(&format!("{name}, median"), took[took.len() / 2]);
        show(&format!("{name}, 99th"), took[took.len() * 99 / 100]);
    }

    let everything = index.narrowed(&[]);
    let parts: [(&str, &dyn Fn()); 5] = [
        ("words 'torsadro'", &|| {
            drop(index.narrowed(&[Narrowing::Words("torsadro".into())]))
        }),
        ("words 'e'", &|| {
            drop(index.narrowed(&[Narrowing::Words("e".into())]))
        }),
        ("colour within 12", &|| {
            drop(index.narrowed(std::slice::from_ref(&near)))
        }),
        ("all facets counted", &|| {
            drop(black_box(index.left(&everything)))
        }),
        ("first 200 by use and colour", &|| {
            drop(index.ranked(&everything, &ask("", &[]).ranking, 200))
        }),
    ];
    for (name, part) in parts {
        let mut took: Vec<Duration> = (0..21).map(|_| timed(part).0).collect();
        took.sort();
        show(name, took[10]);
    }
}

#[allow(clippy::print_stderr)] // A bench's answer is what it prints.
fn show_line(line: &str) {
    eprintln!("{line}");
}

fn timed<T>(work: impl FnOnce() -> T) -> (Duration, T) {
    let start = Instant::now();
    let done = work();
    (start.elapsed(), done)
}

fn show(name: &str, took: Duration) {
    show_line(&format!("{name:32} {:8.2} ms", took.as_secs_f64() * 1e3));
}
