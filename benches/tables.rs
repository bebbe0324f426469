//! Long tables: `key --from` of a million blooms and `import` of 100,000 varieties.
//!
//! Peer in the same run: reading the same file as CSV, cell by cell, and for `key --from` writing it
//! again, which either command has to do besides its work.
//!
//!     cargo bench --bench tables

#![allow(clippy::print_stdout)] // A bench's answer is what it prints.

use std::fmt::Write as _;
use std::fs;
use std::io;
use std::path::Path;
use std::time::{Duration, Instant};

use clap::Parser;
use trug::command::{self, Arguments, Context};

const BLOOMS: usize = 1_000_000;
const VARIETIES: usize = 100_000;
/// Times that each is measured; the median counts.
const RUNS: usize = 3;

fn main() {
    let dir = tempfile::tempdir().expect("a folder");
    let blooms = dir.path().join("blooms.csv");
    fs::write(&blooms, a_million_blooms()).expect("writes");
    let at = dir.path().join("demo");
    trug(dir.path(), &["start", &at.display().to_string()]);
    let from = blooms.display().to_string();
    let keyed = median(|| trug(&at, &["key", "--from", &from]));
    let peer = median(|| read_and_write(&blooms));
    show("key --from, a million blooms", keyed, peer);

    let list = dir.path().join("list.csv");
    fs::write(&list, a_long_list()).expect("writes");
    let from = list.display().to_string();
    let varieties = at.join("varieties.ron");
    let imported = median(|| {
        fs::write(&varieties, "[]\n").expect("writes");
        trug(&at, &["import", &from]);
    });
    let peer = median(|| read_and_write(&list));
    show("import, 100,000 varieties", imported, peer);
}

/// Runs a command as the binary does, its answer thrown away.
fn trug(at: &Path, words: &[&str]) {
    let at = at.display().to_string();
    let given = ["trug", "--at", &at]
        .into_iter()
        .chain(words.iter().copied());
    let arguments = Arguments::parse_from(given);
    let context = Context::new(&arguments.common, &mut io::sink()).expect("a folder");
    let wanted = arguments.command.expect("a command");
    let mut told = Vec::new();
    let done = command::run(&wanted, &context, &mut io::sink(), &mut told);
    assert!(
        done.expect("is done") && told.is_empty(),
        "{}",
        String::from_utf8_lossy(&told)
    );
}

/// The peer: every cell read and written.
fn read_and_write(path: &Path) {
    let mut reader = csv::Reader::from_path(path).expect("opens");
    let mut writer = csv::Writer::from_writer(io::sink());
    let mut record = csv::StringRecord::new();
    while reader.read_record(&mut record).expect("reads") {
        writer.write_record(&record).expect("writes");
    }
}

fn median(mut run: impl FnMut()) -> Duration {
    let mut times: Vec<Duration> = (0..RUNS)
        .map(|_| {
            let start = Instant::now();
            run();
            start.elapsed()
        })
        .collect();
    times.sort();
    times[RUNS / 2]
}

fn show(name: &str, own: Duration, peer: Duration) {
    let ratio = own.as_secs_f64() / peer.as_secs_f64();
    println!("{name:30} {own:>8.1?}, CSV alone {peer:>8.1?}, {ratio:.1} times");
}

fn a_million_blooms() -> String {
    let mut random = fastrand::Rng::with_seed(1);
    let mut text = String::from("plant,centre,rows,roll,rolled,tip,set,outline,heart,diameter\n");
    let mut one = |words: &[&'static str]| words[random.usize(..words.len())];
    let mut more = fastrand::Rng::with_seed(2);
    for at in 0..BLOOMS {
        let centre = one(&["closed", "closed", "open", "pincushion"]);
        let roll = one(&["forward", "back", "flat"]);
        let (tip, set) = (one(&["rounded", "pointed", "split"]), one(&["regular", ""]));
        let (outline, heart) = (one(&["globe", ""]), one(&["round", ""]));
        let (rows, rolled, wide) = (more.u8(1..=18), more.u8(0..=100), more.u16(30..=260));
        writeln!(
            text,
            "p{at},{centre},{rows},{roll},{rolled},{tip},{set},{outline},{heart},{wide}mm"
        )
        .expect("writes");
    }
    text
}

fn a_long_list() -> String {
    let mut random = fastrand::Rng::with_seed(3);
    let mut text = String::from(
        "name,form,colour,diameters,height,stem,vase,vase stems,supplier,price,pack,available,notes\n",
    );
    const COLOURS: [&str; 6] = ["peach", "plum", "white", "coral", "red", "yellow"];
    const FORMS: [&str; 5] = ["ball", "pompon", "waterlily", "anemone", "single"];
    for at in 0..VARIETIES {
        let (form, colour) = (FORMS[random.usize(..5)], COLOURS[random.usize(..6)]);
        let mut of = |low: u32, high: u32| random.u32(low..=high);
        let (one, two, stem) = (of(80, 120), of(80, 120), of(40, 70));
        let (days, stems, price) = (of(4, 9), of(3, 9), of(3, 9));
        let (pack, left) = (of(1, 5), of(0, 50));
        writeln!(
            text,
            "Noust {at} Kelp,{form},{colour},{one}mm;{two}mm,90-120cm,{stem}cm,{days},{stems},Quay Roots,{price}.50,{pack},{left},steady {at}"
        )
        .expect("writes");
    }
    text
}
