//! A long book of the trial row: opening it, summing it up, entering one more, and a note as a
//! command makes it, which opens the folder first.
//!
//! Peers in the same run: for opening, reading the same observations as CSV and taking each
//! plant's mean diameter, which is less than any of this has to do; for entering, adding as many
//! bytes to a file and syncing it, which is the disk's own share; for a note, the same note in the
//! shorter book.
//!
//!     cargo bench --bench row                 # 100,000 and 1,000,000 entries
//!     cargo bench --bench row -- 100000       # the shorter alone

#![allow(clippy::print_stdout)] // A bench's answer is what it prints.

use std::collections::HashMap;
use std::fmt::Write as _;
use std::fs::{self, File, OpenOptions};
use std::io::Write as _;
use std::path::Path;
use std::time::{Duration, Instant};

use trug::colour::Vocabulary;
use trug::folder::Folder;
use trug::folder::row::{ENTRIES, SEEDLINGS, open_row, open_row_of};
use trug::folder::text::{write_line, write_records};
use trug::form::{Keyer, RuleSet};
use trug::trial::read::Reader;
use trug::trial::{EvidenceContext, Neighbours, Number, Release, Seedling, Subject};
use trug::variety::Varieties;

/// Entries of the books, each an observation.
const OBSERVATIONS: [u32; 2] = [100_000, 1_000_000];
/// Seedlings that they are of, twenty years of a large row.
const SEEDLINGS_SOWN: u16 = 2_000;
/// Times that each is measured; the median counts.
const RUNS: usize = 7;

fn main() {
    let asked = std::env::args().find_map(|word| word.parse::<u32>().ok());
    let mut notes = Vec::new();
    for observations in OBSERVATIONS {
        if asked.is_none_or(|asked| asked == observations) {
            notes.push(measure(observations));
        }
    }
    if let [short, long] = notes[..] {
        let ratio = long.as_secs_f64() / short.as_secs_f64();
        println!("a note, ten times as long a book / the shorter: {ratio:.2}");
    }
}

/// Measures a book of so many entries; how long one note took.
fn measure(observations: u32) -> Duration {
    let dir = tempfile::tempdir().expect("a folder");
    let rules = RuleSet::embedded().remove(0);
    let keyer = Keyer::even(rules);
    lay_out(dir.path(), &keyer, observations);
    let list = include_str!("../catalogue/varieties.ron");
    let list = Varieties::read("varieties.ron", list).expect("the demo's list");
    let words = Vocabulary::embedded();
    let neighbours = Neighbours::of(&list, &keyer.set, &words);
    let under = EvidenceContext {
        keyer: &keyer,
        words: &words,
        neighbours: &neighbours,
    };
    let release = Release::embedded();
    let size = fs::metadata(dir.path().join(ENTRIES))
        .expect("is there")
        .len();
    println!(
        "{observations} observations of {SEEDLINGS_SOWN} seedlings, {} KB",
        size / 1024
    );

    let open = median(|| {
        let folder = Folder::open_to_read(dir.path()).expect("opens");
        let (row, _) = open_row(&folder).expect("opens");
        assert_eq!(row.trial.entries().len(), observations as usize);
        assert_eq!(row.problems, Vec::<String>::new());
    });
    let folder = Folder::open(dir.path(), "now").expect("opens");
    let (row, mut files) = open_row(&folder).expect("opens");
    let sum = median(|| {
        let subjects = row.trial.subjects();
        let all = row.trial.evidence_of(&subjects, &under);
        let advised = all
            .iter()
            .map(|evidence| release.advise(evidence, &under, trug::measure::SizeUnits::Mm));
        assert_eq!(advised.count(), usize::from(SEEDLINGS_SOWN));
    });
    let memory = most_memory();
    let csv = csv_of(dir.path());
    let peer = median(|| assert_eq!(means(&csv).len(), usize::from(SEEDLINGS_SOWN)));
    let ratio = |own: Duration, peer: Duration| own.as_secs_f64() / peer.as_secs_f64();
    println!("open                      {open:>10.1?}");
    println!("sum up, every seedling    {sum:>10.1?}");
    println!("peer, CSV to mean         {peer:>10.1?}");
    println!(
        "open and sum up / peer    {:>10.1}",
        ratio(open + sum, peer)
    );

    let mut entry = row.trial.entries()[0].clone();
    let first = files.next_id(&row.trial);
    let bytes = write_line(&entry).expect("writes").len() + 10;
    let mut number = first;
    let enter = median(|| {
        entry.id = number;
        number += 1;
        files.enter(&folder, &entry).expect("saves");
    });
    let mut bare = OpenOptions::new()
        .create(true)
        .append(true)
        .open(dir.path().join("bare"))
        .expect("opens");
    let disk = median(|| {
        bare.write_all(&vec![b'x'; bytes]).expect("writes");
        bare.sync_data().expect("syncs");
    });
    let mut trial = row.trial.clone();
    let mut number = first;
    let take_in = median(|| {
        let mut next = entry.clone();
        next.id = number;
        number += 1;
        trial.add(next).expect("fits");
        let evidence = trial.evidence(&entry.of, &under);
        release.advise(&evidence, &under, trug::measure::SizeUnits::Mm);
    });
    println!("enter one, on the disk    {enter:>10.1?}");
    println!("peer, append and sync     {disk:>10.1?}");
    println!("enter / peer              {:>10.2}", ratio(enter, disk));
    println!("take it in and sum up     {take_in:>10.1?}");
    println!("most memory, opened and summed up {memory:>4} MB");
    drop((row, trial, files, folder));
    let of = entry.of.clone();
    let note = || {
        let folder = Folder::open(dir.path(), "now").expect("opens");
        let (row, mut files) = open_row_of(&folder, &of, None).expect("opens");
        let mut next = entry.clone();
        next.id = files.next_id(&row.trial);
        files.enter(&folder, &next).expect("saves");
    };
    let first = Instant::now();
    note();
    println!("a note, no index yet      {:>10.1?}", first.elapsed());
    let note = median(note);
    println!("a note                    {note:>10.1?}");
    note
}

/// The most memory that this program has had, in megabytes; 0 where the system does not say.
fn most_memory() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kilobytes = line.and_then(|line| line.trim().trim_end_matches(" kB").parse::<u64>().ok());
    kilobytes.unwrap_or(0) / 1024
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

/// A folder with the row: every fifth entry answers traits, the others measure, test and count.
fn lay_out(dir: &Path, keyer: &Keyer, observations: u32) {
    let reader = Reader {
        traits: &keyer.set.traits,
        bare: None,
        days: trug::measure::day::Calendar::FILES,
    };
    let numbers: Vec<Number> = (0..SEEDLINGS_SOWN)
        .map(|at| Number::new(2006 + (at / 100) as i16, at % 100 + 1).expect("a number"))
        .collect();
    let seedlings: Vec<Seedling> = numbers.iter().copied().map(Seedling::numbered).collect();
    fs::write(
        dir.join(SEEDLINGS),
        write_records(&seedlings).expect("writes"),
    )
    .expect("writes");
    let mut random = fastrand::Rng::with_seed(26);
    let mut book = File::create(dir.join(ENTRIES)).expect("a file");
    let mut text = String::new();
    for id in 1..=observations {
        let number = numbers[random.usize(..numbers.len())];
        let mut of = |low: u32, high: u32| random.u32(low..=high);
        let words = match id % 5 {
            0 => format!(
                "centre=closed rows={} roll=forward rolled={} tip=rounded set=regular outline=globe colour=peach",
                of(8, 16),
                of(51, 95)
            ),
            1 => format!(
                "diameter={}mm,{}mm,{}mm",
                of(80, 110),
                of(80, 110),
                of(80, 110)
            ),
            2 => format!("vase={},{},{}+", of(4, 10), of(4, 10), of(4, 10)),
            3 => format!("weather=wind:{}/12 open={}", of(0, 6), of(3, 20)),
            _ => format!("cut={} note='steady'", of(1, 9)),
        };
        let day = format!(
            "{}-0{}-{:02}",
            number.year() + (id % 2) as i16,
            of(7, 9),
            of(1, 28)
        );
        let draft = reader.read_line(&words).expect(&words);
        let entry = draft.entry(id, Subject::Seedling(number), day.parse().expect("a day"));
        let line = write_line(&entry).expect("writes");
        writeln!(text, "{:08x} {line}", crc32fast::hash(line.as_bytes())).expect("writes");
        if text.len() > 1 << 20 {
            book.write_all(text.as_bytes()).expect("writes");
            text.clear();
        }
    }
    book.write_all(text.as_bytes()).expect("writes");
}

/// The same observations as a table.
fn csv_of(dir: &Path) -> String {
    let folder = Folder::open_to_read(dir).expect("opens");
    let (row, _) = open_row(&folder).expect("opens");
    let mut text = String::from("id,of,date,words\n");
    for entry in row.trial.entries() {
        writeln!(
            text,
            "{},{},{},\"{}\"",
            entry.id,
            entry.of,
            entry.date,
            entry.print()
        )
        .expect("writes");
    }
    text
}

/// Each plant's mean diameter.
fn means(text: &str) -> HashMap<String, f64> {
    let mut sums: HashMap<String, (f64, f64)> = HashMap::new();
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    for row in reader.records() {
        let row = row.expect("a row");
        let words = &row[3];
        let (sum, count) = sums.entry(row[1].to_string()).or_default();
        let Some(list) = words
            .split(' ')
            .find_map(|word| word.strip_prefix("diameter="))
        else {
            continue;
        };
        for one in list
            .split(',')
            .filter_map(|one| one.trim_end_matches("mm").parse::<f64>().ok())
        {
            *sum += one;
            *count += 1.0;
        }
    }
    sums.into_iter()
        .map(|(plant, (sum, count))| (plant, sum / count))
        .collect()
}
