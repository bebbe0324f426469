//! Tags, the chart, the card and the book as files, for programs that know nothing of us:
//! `tests/outside/paper_prints.py` and `tests/outside/tags_read.py` hold them against
//! `expected.json`, both written here. And `trug tag` as a grower uses it.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;
use trug::colour::Vocabulary;
use trug::folder::contents::{Contents, varieties};
use trug::folder::row::row;
use trug::form::card::card;
use trug::form::{Keyer, RuleSet};
use trug::measure::SizeUnits;
use trug::paper::{Page, Paper, pdf};
use trug::tag::{self, ClaimSources, LabelSheet, Placing, Printer, Run, Says, Stock};
use trug::trial::{EvidenceContext, Fate, Neighbours, Number, Subject, Trial};

use crate::common::grower::Grower;
use crate::common::printed::{Coded, write, write_coded};
use crate::common::shell::trug;

/// What the demo holds of some seedlings and of a variety of every form, and plants with awkward
/// names; all invented.
fn plants() -> Vec<Says> {
    let contents = Contents::load(None).expect("the demo");
    let (list, read) = (varieties(None).expect("a list"), row(None).expect("a row"));
    let keyer = Keyer::even(RuleSet::embedded().remove(0));
    let neighbours = Neighbours::of(&list, &keyer.set, &contents.words);
    let grounds = ClaimSources {
        list: &list,
        trial: &read.trial,
        under: EvidenceContext {
            keyer: &keyer,
            words: &contents.words,
            neighbours: &neighbours,
        },
        release: &contents.release,
        uses: &contents.uses,
        practice: &contents.tags.practice,
        naming: &contents.naming,
        selling: &contents.settings.selling(),
        units: SizeUnits::Mm,
    };
    let mut forms = BTreeSet::new();
    let of_each_form = list.list().iter().filter(|one| {
        let form = one.form_under(&keyer.set);
        one.protected != Some(true) && form.is_some_and(|form| forms.insert(form))
    });
    let seedlings = read.trial.seedlings().iter().step_by(3);
    let seedlings = seedlings.filter(|one| may_be_sold(&read.trial, one.number));
    let subjects: Vec<Subject> = seedlings
        .map(|one| Subject::Seedling(one.number))
        .chain(of_each_form.map(|one| Subject::Variety(one.name.clone())))
        .collect();
    let mut all = grounds.of_all(&subjects);
    for (at, name) in [
        "Åse Örjansdotter Łódź",
        "Žižka Şükrü Đặng Ħal Għargħur",
        "Ντάλια του νησιού",
        "Георгина острова",
        "Rock & Rill <5 \"Ha'penny\"",
        "Skerry Lantern over the Long Harbour Wall at Low Water Mark",
    ]
    .into_iter()
    .enumerate()
    {
        let mut says = all[at].clone();
        says.title = format!("\u{2018}{name}\u{2019}");
        all.push(says);
    }
    all
}

/// Whether a seedling is not culled.
fn may_be_sold(trial: &Trial, number: Number) -> bool {
    let decision = trial.decision(&Subject::Seedling(number));
    decision.is_none_or(|(_, decision)| decision.fate != Fate::Cull)
}

/// Labels as they are asked for.
#[derive(Clone, Copy)]
struct Wanted {
    /// How many of each plant.
    copies: u32,
    /// Whether each has its number.
    numbered: bool,
    /// The first label.
    from: usize,
}

/// One of each, on whole sheets.
const ONE: Wanted = Wanted {
    copies: 1,
    numbered: false,
    from: 1,
};

/// The pages of a sheet, and where each code is and what it holds.
fn printed(
    stock: &Stock,
    sheet: &LabelSheet,
    plants: &[Says],
    wanted: Wanted,
) -> (Vec<Page>, Vec<Coded>) {
    let Wanted {
        copies,
        numbered,
        from,
    } = wanted;
    let kind = stock.kind(&sheet.kind).expect("a kind");
    let printer = Printer::new(stock, kind, sheet, false).expect("room");
    let printer = printer.with_numbers(numbered);
    let labels = printer.labels(plants);
    let given = plants.iter().zip(&labels);
    let given = given.filter_map(|(says, label)| Some((says, label.as_ref().ok()?)));
    let given = given.flat_map(|one| (0..copies).map(move |_| one));
    let codes = given.enumerate().map(|(count, (says, label))| {
        let at = from - 1 + count;
        let (x, y) = sheet.corner(at % sheet.labels());
        // All that is told in a table, but for what may be spared.
        let row = tag::table([(says, 1)], kind, false).remove(1);
        let lines = row.last().expect("a code").lines();
        let mut lacking = lines.filter(|line| !label.coded.lines().any(|own| own == *line));
        assert!(
            lacking.all(|line| line.starts_with("Plant after")),
            "{}",
            says.title
        );
        Coded {
            page: at / sheet.labels(),
            area: [x, y, sheet.label.0, sheet.label.1],
            text: label.coded.clone(),
        }
    });
    let codes: Vec<Coded> = codes.collect();
    let labels = labels.into_iter().filter_map(Result::ok);
    let runs: Vec<Run> = labels.map(|label| Run { label, copies }).collect();
    let placing = Placing {
        offset: (0.0, 0.0),
        from,
    };
    let pages = tag::pages(sheet, kind, &runs, placing).expect("pages");
    (pages, codes)
}

#[test]
fn tags_and_charts_are_written_for_the_outside_programs() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("tags");
    // A file of an earlier run must not be checked in this one's place.
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    let (stock, plants) = (Stock::embedded(), plants());
    let mut expected = Vec::new();
    for sheet in &stock.sheets {
        let kind = stock.kind(&sheet.kind).expect("a kind");
        // Every plant on A4, a few on what differs from it only in size.
        let some = match sheet.paper.as_deref() {
            Some("a4") => &plants[..],
            _ => &plants[plants.len() - 10..],
        };
        let (pages, codes) = printed(&stock, sheet, some, ONE);
        // Of a stake nothing is refused; one name is too long for the others.
        assert!(codes.len() + 2 >= some.len(), "{}", sheet.id);
        expected.push(write_coded(&folder, &sheet.id, &kind.says, &pages, &codes));
        let test = tag::test_page(sheet, kind, (0.0, 0.0)).expect("a test page");
        let name = format!("test-{}", sheet.id);
        expected.push(write(&folder, &name, "Test page", &[test]));
    }
    // Copies with their numbers, on a sheet that is half used and on a roll.
    for (id, from) in [("sale-a4", 5), ("tuber-letter", 12), ("sale-roll", 1)] {
        let sheet = stock.sheet(id).expect("a sheet");
        let kind = stock.kind(&sheet.kind).expect("a kind");
        let wanted = Wanted {
            copies: 7,
            numbered: true,
            from,
        };
        let (pages, codes) = printed(&stock, sheet, &plants[..3], wanted);
        assert_eq!(codes.len(), 21, "{id}");
        let name = format!("copies-{id}");
        expected.push(write_coded(&folder, &name, &kind.says, &pages, &codes));
    }
    let set = RuleSet::embedded().remove(0);
    let units = set.units;
    let keyer = Keyer::even(set);
    let key = keyer.shortest_key(false).expect("a key");
    let card = card(&keyer, &key, units);
    for id in ["a4", "letter"] {
        let paper = Paper::named(id).expect("a paper");
        let chart = tag::chart(&keyer, units, &paper).expect("a chart");
        expected.push(write(&folder, &format!("chart-{id}"), "Chart", &chart));
        let page = tag::folded(&keyer, &card, &paper).expect("a card");
        expected.push(write(&folder, &format!("card-{id}"), "Card", &[page]));
        let book = tag::book("Book", &plants, &Vocabulary::embedded(), &paper).expect("a book");
        expected.push(write(&folder, &format!("book-{id}"), "Book", &book));
    }
    let text = serde_json::to_string_pretty(&expected).expect("JSON");
    fs::write(folder.join("expected.json"), text).expect("written");
}

#[test]
fn the_same_plants_give_the_same_bytes() {
    let made = || {
        let stock = Stock::embedded();
        let sheet = stock.sheet("sale-a4").expect("a sheet");
        let (pages, _) = printed(&stock, sheet, &plants(), ONE);
        pdf("Sale tags", &pages).expect("a PDF")
    };
    assert!(made() == made());
}

/// The exit status, what is on standard output and what on standard error.
fn told(words: &[&str], at: &Path) -> (Option<i32>, String, String) {
    let answer = trug(at, words);
    (answer.status, answer.out, answer.error)
}

#[test]
fn a_grower_prints_every_kept_seedling_and_is_told_what_is_refused() {
    let dir = tempfile::tempdir().expect("a folder");
    let out = trug(dir.path(), &["tag", "--out", "kept.pdf"]).of_the_demo();
    assert!(
        out.starts_with("Wrote 1 sale tag to kept.pdf, 8 labels"),
        "{out}"
    );
    assert!(
        fs::read(dir.path().join("kept.pdf"))
            .expect("a file")
            .starts_with(b"%PDF")
    );
    // A protected variety without a licence and a culled seedling; the rest is printed.
    let culled = row(None).expect("a row").trial;
    let mut numbers = culled.seedlings().iter().map(|one| one.number);
    let culled = numbers.find(|number| !may_be_sold(&culled, *number));
    let culled = culled.expect("a culled one").to_string();
    let list = varieties(None).expect("a list");
    let held = list.list().iter();
    let mut held = held.filter(|one| one.protected == Some(true) && one.licence.is_none());
    let held = held.next().expect("a protected one").name.to_string();
    let words = ["tag", "24-002", &culled, &held, "--out", "some.txt"];
    let (status, out, error) = told(&words, dir.path());
    assert_eq!(status, Some(1), "{error}");
    assert!(out.contains("Wrote 1 sale tag to some.txt."), "{out}");
    assert!(error.contains(&format!(
        "no sale tag for {held}: it is protected and no licence"
    )));
    assert!(error.contains(&format!("no sale tag for {culled}: it is culled")));
    let text = fs::read_to_string(dir.path().join("some.txt")).expect("a file");
    assert!(text.starts_with("Dahlia seedling 24-002\n  form: ") && !text.contains(&held));
    // A stake only marks the row.
    let words = ["tag", &culled, &held, "--kind", "stake", "--json"];
    let (status, out, _) = told(&words, dir.path());
    let object: Value = serde_json::from_str(&out).expect("one object");
    assert_eq!(status, Some(0));
    assert_eq!(object["tags"].as_array().map(Vec::len), Some(2));
}

#[test]
fn a_tag_of_a_variety_of_unknown_protection_prints_and_says_what_to_ask() {
    let dir = tempfile::tempdir().expect("a folder");
    let list = varieties(None).expect("a list");
    let of = |known: Option<bool>| {
        let mut list = list.list().iter();
        let found = list.find(|one| one.protected == known && one.licence.is_none());
        found.expect("one of the demo").name.to_string()
    };
    let (unknown, free) = (of(None), of(Some(false)));
    let (status, out, error) = told(&["tag", &unknown, &free], dir.path());
    assert_eq!(status, Some(0), "{error}");
    assert!(
        out.contains(&format!("\u{2018}{unknown}\u{2019}\n")),
        "{out}"
    );
    let asked = format!("trug: before you sell {unknown}: whether it is protected is not known");
    assert!(error.contains(&asked) && !error.contains(&free), "{error}");
    let (_, out, _) = told(&["tag", &unknown, &free, "--json"], dir.path());
    let object: Value = serde_json::from_str(&out).expect("one object");
    assert_eq!(object["tags"].as_array().map(Vec::len), Some(2));
    assert_eq!(object["warned"].as_array().map(Vec::len), Some(1));
    assert_eq!(object["warned"][0]["id"], unknown.as_str());
    // A stake goes to nobody.
    let (_, _, error) = told(&["tag", &unknown, "--kind", "stake"], dir.path());
    assert!(!error.contains("protected"), "{error}");
}

#[test]
fn copies_prices_and_the_first_label_are_as_asked_and_told() {
    let grower = Grower::new();
    grower.does("trug settings set 'grower=Skerry Lane' 'place=Sea Wall Road 3' price=4.50");
    let set = grower.does("trug settings set currency=kroner 'line=Permit 17'");
    assert!(set.contains("Permit 17"), "{set}");
    let words = grower.does("trug tag 24-001 24-002 --copies 3 --copies 24-001=9 --price 24-002=6");
    for told in [
        "Dahlia seedling 24-001\n  copies: 9\n  price: 4.50 kroner\n",
        "Dahlia seedling 24-002\n  copies: 3\n  price: 6.00 kroner\n",
        "  grower: Skerry Lane, Sea Wall Road 3\n  line: Permit 17\n",
    ] {
        assert!(words.contains(told), "{told}: {words}");
    }
    let none = grower.does("trug tag 24-001 --price none");
    assert!(
        !none.contains("price:") && none.contains("Permit 17"),
        "{none}"
    );
    let written = grower.does(
        "trug tag 24-001 --copies 12 --numbered --from 5 --out tags.pdf --sheet sale-a4 --units mm",
    );
    let first = written.lines().next().expect("a line");
    assert_eq!(
        first,
        "Wrote 12 sale tags of 1 plant to tags.pdf, 8 labels of 95 by 70 mm on A4, the first of \
         them label 5."
    );
    assert!(
        written.contains("yours to check with your own authority"),
        "{written}"
    );
    assert!(
        written.contains("Your own line is printed as you wrote it"),
        "{written}"
    );
    let told = grower.does("trug tag 24-001 --copies 12 --numbered --json");
    let object: Value = serde_json::from_str(&told).expect("one object");
    assert_eq!(
        (&object["labels"], &object["tags"][0]["copies"]),
        (&12.into(), &12.into())
    );
    // The demo's folder had no seller: nothing of one is said.
    let bare = Grower::new().does("trug tag 24-001 --out tags.txt && cat tags.txt");
    assert!(
        !bare.contains("price:") && !bare.contains("grower:"),
        "{bare}"
    );
    assert!(!bare.contains("Your own line"), "{bare}");
}

/// As many as the stock book has free to sell, at the price that it asks; after a sale so many fewer.
#[test]
fn tags_are_as_many_as_the_stock_book_has_free_to_sell() {
    let grower = Grower::new();
    let of = |words: &str| {
        let told = grower.does(&format!("trug tag 24-001 --copies stock {words}"));
        let lines: Vec<String> = told.lines().take(3).map(str::to_string).collect();
        lines.join(";")
    };
    let from_book = "Dahlia seedling 24-001;  copies: 10;  price: 4.50";
    assert_eq!(of(""), from_book);
    assert_eq!(of("--price 6"), from_book.replace("4.50", "6.00"));
    assert_eq!(of("--copies 24-001=2"), from_book.replace("10", "2"));
    grower.does("trug stock note 24-001 date=2026-11-20 sold=6 price=5 to=market");
    assert_eq!(of(""), from_book.replace("10", "4"));
    // Of all plants: each that has any, and no other.
    grower.does("trug stock note 24-015 date=2026-10-30 lifted=2 divided=7");
    let object =
        |line: &str| -> Value { serde_json::from_str(&grower.does(line)).expect("one object") };
    let tags = object("trug tag --copies stock --kind tuber --json");
    let book = object("trug stock --json");
    let free = book["plants"].as_array().expect("plants").iter();
    let free = free.filter(|one| one["free"].as_u64() > Some(0));
    let mut free: Vec<(&str, u64)> = free
        .map(|one| {
            (
                one["plant"].as_str().expect("a plant"),
                one["free"].as_u64().expect("a count"),
            )
        })
        .collect();
    let tags = tags["tags"].as_array().expect("tags").iter();
    let mut tags: Vec<(&str, u64)> = tags
        .map(|one| {
            (
                one["id"].as_str().expect("a plant"),
                one["copies"].as_u64().expect("a count"),
            )
        })
        .collect();
    free.sort_unstable();
    tags.sort_unstable();
    let expected = [("24-001", 4), ("24-012", 6), ("24-015", 7), ("25-008", 3)];
    assert_eq!(free, expected);
    assert_eq!(tags, free);
    // One that was named and has none is told.
    let none = grower.types("trug tag 24-001 24-002 --copies stock");
    let error = String::from_utf8_lossy(&none.stderr);
    assert!(
        error.contains("no sale tag for 24-002: the stock book does not have it"),
        "{error}"
    );
}

#[test]
fn what_cannot_be_printed_is_said_in_one_sentence() {
    let dir = tempfile::tempdir().expect("a folder");
    for (words, sentence) in [
        (
            &["tag", "Nobody at all"][..],
            "expected a seedling of the row or the name of a variety of the list",
        ),
        (
            &["tag", "24-002", "--out", "tags.doc"],
            "expected one that ends in .pdf or .svg or .csv or .txt",
        ),
        (
            &["tag", "24-002", "--kind", "sail"],
            "expected one of stake, sale, tuber",
        ),
        (
            &["tag", "24-002", "--sheet", "stake-a4"],
            "expected one of sale-a4, sale-letter, sale-roll",
        ),
        (
            &["tag", "24-002", "--from", "9", "--units", "in"],
            "found label 9 to begin at, expected one from 1 to 8",
        ),
        (
            &["tag", "24-002", "--from", "2", "--sheet", "sale-roll"],
            "expected 1: on a roll each label is a page",
        ),
        (
            &["tag", "24-002", "--copies", "many"],
            "expected how many copies, such as 12",
        ),
        (
            &["tag", "24-002", "24-001", "24-005", "--copies", "9999"],
            "found 29997 labels, expected 20000 at most",
        ),
        (
            &["tag", "24-002", "--copies", "24-999=3"],
            "expected a seedling of the row",
        ),
        (
            &["tag", "24-002", "--price", "dear"],
            "expected an amount such as 4 or 4.50",
        ),
        (
            &["tag", "24-002", "--offset", "left"],
            "expected millimetres to the right and down such as -1,0.5",
        ),
        (
            &["rules", "chart", "--out", "c.pdf", "--paper", "foolscap"],
            "expected one of a4, a5, letter",
        ),
        (
            &["choose", "--book", "b.txt"],
            "expected one that ends in .pdf or .svg",
        ),
    ] {
        let (status, out, error) = told(words, dir.path());
        assert_eq!((status, out.as_str()), (Some(2), ""), "{words:?}: {error}");
        assert!(error.contains(sentence), "{words:?}: {error}");
    }
}

#[test]
fn a_shortlist_a_chart_and_a_card_are_printed_and_so_is_a_test_page() {
    let dir = tempfile::tempdir().expect("a folder");
    for (words, file, told_of) in [
        (
            &["choose", "--shortlist", "--book", "book.pdf"][..],
            "book.pdf",
            "varieties to book.pdf",
        ),
        (
            &["rules", "chart", "--out", "chart.pdf"],
            "chart.pdf",
            "2 pages",
        ),
        (
            &["rules", "card", "--out", "card.svg", "--paper", "a4"],
            "card.svg",
            "1 page",
        ),
        (
            &["tag", "--test-page", "--out", "test.pdf", "--kind", "tuber"],
            "test.pdf",
            "Print it at 100 %",
        ),
        (
            &["tag", "--stock", "tags.ron"],
            "tags.ron",
            "Wrote kinds of tag and sheets to tags.ron",
        ),
        (
            &["tag", "24-002", "--out", "tags.csv", "--kind", "tuber"],
            "tags.csv",
            "Wrote 1 tuber label to tags.csv.",
        ),
    ] {
        let (status, out, error) = told(words, dir.path());
        assert_eq!(status, Some(0), "{words:?}: {error}");
        assert!(out.contains(told_of), "{words:?}: {out}");
        assert!(dir.path().join(file).metadata().expect(file).len() > 100);
    }
}
