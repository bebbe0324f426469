//! A thousand sale tags, of as many plants and of a few in a dozen copies: from what the list holds of
//! them to a PDF of 125 sheets.
//!
//! Peer in the same run: ReportLab puts the same words in the same places, and has no more to do: no
//! claim is weighed, no name fitted, no bloom drawn, no code made, no font embedded. It is left out
//! where `python3`, or the interpreter that `PYTHON` names, has no reportlab.
//!
//!     cargo bench --bench tags [COUNT]

#![allow(clippy::print_stdout)] // A bench's answer is what it prints.

#[path = "../tests/all/common/varieties.rs"]
mod varieties;

use std::env;
use std::fs;
use std::process::Command;
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use trug::colour::Vocabulary;
use trug::form::{Keyer, RuleSet};
use trug::measure::{Money, SizeUnits};
use trug::paper::{Item, Weight, pdf};
use trug::tag::{
    self, ClaimSources, Label, PerPlant, Placing, Printer, Refused, Run, Selling, Stock,
};
use trug::trial::{EvidenceContext, Neighbours, Release, Subject, Trial};
use trug::variety::{NamingRules, Text, Uses, Varieties};

/// Times that each is measured; the median counts.
const RUNS: usize = 5;
/// Copies of each plant, where there are more.
const COPIES: usize = 12;
const SHEET: &str = "sale-a4";

fn main() {
    let count = env::args().find_map(|word| word.parse().ok());
    let count: usize = count.unwrap_or(1000);
    let rules = RuleSet::embedded().remove(0);
    // Some get no tag: what is known of them is more than a code holds.
    let list = list(count + count / 4);
    let stock = Stock::embedded();
    let keyer = Keyer::even(rules);
    let (words, release, uses) = (
        Vocabulary::embedded(),
        Release::embedded(),
        Uses::embedded(),
    );
    let (trial, neighbours) = (
        Trial::of(Vec::new(), Vec::new()).0,
        Neighbours::of(&list, &keyer.set, &words),
    );
    let (naming, selling) = (NamingRules::embedded(), selling());
    let grounds = ClaimSources {
        list: &list,
        trial: &trial,
        under: EvidenceContext {
            keyer: &keyer,
            words: &words,
            neighbours: &neighbours,
        },
        release: &release,
        uses: &uses,
        practice: &stock.practice,
        naming: &naming,
        selling: &selling,
        units: SizeUnits::Mm,
    };
    let mut subjects: Vec<Subject> = list
        .list()
        .iter()
        .map(|one| Subject::Variety(one.name.clone()))
        .collect();
    let sheet = stock.sheet(SHEET).expect("a sheet");
    let kind = stock.kind(&sheet.kind).expect("a kind");
    let printer = Printer::new(&stock, kind, sheet, false).expect("room");

    let fits = printer.labels(&grounds.of_all(&subjects));
    let mut fits = fits.iter().map(Result::is_ok);
    subjects.retain(|_| fits.next() == Some(true));
    let refused = list.len() - subjects.len();
    subjects.truncate(count);

    for (plants, copies) in [(count, 1), (count.div_ceil(COPIES), COPIES)] {
        let subjects = &subjects[..plants.min(subjects.len())];
        let mut times: Vec<[Duration; 3]> = Vec::new();
        let mut bytes = 0;
        // OK because a dozen is a small number.
        let each = copies as u32;
        for _ in 0..RUNS {
            let start = Instant::now();
            let says = grounds.of_all(subjects);
            let said = start.elapsed();
            let runs = runs(all(printer.labels(&says)), each);
            let set = start.elapsed();
            let pages = tag::pages(sheet, kind, &runs, Placing::default()).expect("pages");
            bytes = pdf("Sale tags", &pages).expect("a PDF").len();
            times.push([said, set - said, start.elapsed()]);
        }
        times.sort_by_key(|time| time[2]);
        let [said, set, whole] = times[RUNS / 2];
        let labels = all(printer.labels(&grounds.of_all(subjects)));
        println!(
            "{} sale tags, {copies} of each of {} plants: {bytes} bytes ({refused} of {} get none)",
            labels.len() * copies,
            labels.len(),
            list.len()
        );
        println!("  what each may say    {:7.0} ms", ms(said));
        println!("  set on its label     {:7.0} ms", ms(set));
        println!("  all, with the PDF    {:7.0} ms", ms(whole));
        match reportlab(&labels, copies) {
            Some((took, bytes)) => {
                println!("  peer, ReportLab      {took:7.0} ms, {bytes} bytes");
            }
            None => println!("ReportLab is left out: it takes python3 with reportlab."),
        }
    }
}

/// Who sells: invented.
fn selling() -> Selling {
    let text = |text: &str| Text::new(text).ok();
    Selling {
        grower: text("Skerry Lane"),
        place: text("Sea Wall Road 3"),
        price: PerPlant::all(Some(Money::hundredths(450))),
        currency: text("kroner"),
        ..Selling::default()
    }
}

/// Plants that may all be sold, by names that fit a tag.
fn list(count: usize) -> Varieties {
    let mut plants = varieties::varieties(count).list().to_vec();
    for plant in &mut plants {
        plant.protected = None;
    }
    Varieties::of(plants).expect("each name once")
}

fn runs(labels: Vec<Label>, copies: u32) -> Vec<Run> {
    let labels = labels.into_iter();
    labels.map(|label| Run { label, copies }).collect()
}

fn all(labels: Vec<Result<Label, Refused>>) -> Vec<Label> {
    let labels = labels.into_iter();
    labels
        .map(|label| label.unwrap_or_else(|refused| panic!("{refused}")))
        .collect()
}

fn ms(took: Duration) -> f64 {
    took.as_secs_f64() * 1e3
}

/// Milliseconds and bytes; `None` where it is not installed.
fn reportlab(labels: &[Label], copies: usize) -> Option<(f64, u64)> {
    let each = labels
        .iter()
        .flat_map(|label| std::iter::repeat_n(label, copies));
    let labels = each.map(|label| {
        let words = label.items.iter().filter_map(|item| match item {
            Item::Text(line) => Some(json!([
                line.text.as_str(),
                line.style.weight == Weight::Bold,
                line.style.points,
                line.at().x,
                line.at().y,
            ])),
            Item::Outline(_) | Item::Drawing(_) | Item::Squares(_) => None,
        });
        Value::from(words.collect::<Vec<Value>>())
    });
    let dir = tempfile::tempdir().expect("a folder");
    let path = dir.path().join("labels.json");
    let labels = Value::from(labels.collect::<Vec<Value>>());
    fs::write(&path, labels.to_string()).expect("written");
    let python = env::var("PYTHON").unwrap_or_else(|_| "python3".to_string());
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/tags_by_reportlab.py");
    let output = Command::new(python).arg(script).arg(path).output().ok()?;
    let told = String::from_utf8(output.stdout).ok()?;
    let (seconds, bytes) = told.trim().split_once(' ')?;
    Some((seconds.parse::<f64>().ok()? * 1e3, bytes.parse().ok()?))
}
