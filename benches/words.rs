//! How our matcher serves a grower who types: on Choose, on the jump line, and beside them
//! `fuzzy-matcher` alone, which wants the letters typed to be in the name in their order; and the time
//! of one key beside that of `fzf --filter` in the same run.
//!
//! `cargo bench --bench words [QUERIES]`

#[path = "../tests/all/common/shipped.rs"]
mod shipped;
#[path = "../tests/all/common/varieties.rs"]
mod varieties;

use std::fs::{self, File};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use fuzzy_matcher::FuzzyMatcher;
use fuzzy_matcher::skim::SkimMatcherV2;
use shipped::Shipped;
use trug::variety::{Ask, By, Index, Narrowing, Query, Ranking};

const VARIETIES: usize = 100_000;
/// What a first look at the screen shows.
const FIRST: usize = 10;
const KINDS: [&str; 7] = [
    "missing",
    "doubled",
    "swapped",
    "wrong",
    "beginning",
    "initials",
    "consonants",
];
const MATCHERS: [&str; 3] = ["ours", "ours, jump line", "fuzzy-matcher"];
/// So many queries of a kind are asked of `fzf` too.
const FOR_FZF: usize = 15;

/// How one matcher did on one kind of query.
#[derive(Default)]
struct Score {
    asked: usize,
    found: usize,
    first: usize,
    left: usize,
    took: Vec<Duration>,
}

fn main() {
    let queries = std::env::args()
        .find_map(|word| word.parse().ok())
        .unwrap_or(2_000);
    let list = varieties::varieties(VARIETIES);
    let shipped = Shipped::new();
    let index = Index::new(&list, shipped.context(8.0));
    let names: Vec<&str> = list.list().iter().map(|one| one.name.as_str()).collect();
    let matcher = SkimMatcherV2::default().ignore_case();

    let mut random = fastrand::Rng::with_seed(20);
    let mut scores: [[Score; 3]; 7] = Default::default();
    let mut of_fzf: [Vec<Duration>; 7] = Default::default();
    let dir = tempfile::tempdir().expect("a folder");
    let file = dir.path().join("names.txt");
    fs::write(&file, names.join("\n")).expect("writes");
    for number in 0..queries {
        let row = random.usize(..names.len());
        let kind = number % KINDS.len();
        let typed = typed(names[row], kind, &mut random);

        let start = Instant::now();
        let ask = Ask {
            narrowings: vec![Narrowing::Words(typed.clone())],
            ranking: Ranking {
                by: By::Name,
                words: Some(Query::new(&typed)),
                ..Ranking::default()
            },
            top: FIRST,
        };
        let rows = index.narrowed(&ask.narrowings);
        let ranked = index.ranked(&rows, &ask.ranking, FIRST);
        let took = start.elapsed();
        let first = ranked.iter().any(|one| one.row == row);
        scores[kind][0].note(rows.has(row), first, rows.count(), took);

        let start = Instant::now();
        let (best, count) = index.names().best(&Query::new(&typed), FIRST);
        let took = start.elapsed();
        let first = best.iter().any(|(_, other)| *other == row);
        scores[kind][1].note(rows.has(row), first, count, took);

        let start = Instant::now();
        let scored = |(row, name): (usize, &&str)| Some((matcher.fuzzy_match(name, &typed)?, row));
        let mut scored: Vec<(i64, usize)> = names.iter().enumerate().filter_map(scored).collect();
        scored.sort_by_key(|(score, _)| std::cmp::Reverse(*score));
        let took = start.elapsed();
        let found = scored.iter().any(|(_, other)| *other == row);
        let first = scored.iter().take(FIRST).any(|(_, other)| *other == row);
        scores[kind][2].note(found, first, scored.len(), took);
        if of_fzf[kind].len() < FOR_FZF {
            of_fzf[kind].extend(fzf(&file, &typed));
        }
    }
    say("of each kind of query: the right name found, among the first ten, names left, time");
    for ((kind, all), fzf) in KINDS.iter().zip(&mut scores).zip(&mut of_fzf) {
        for (matcher, score) in MATCHERS.iter().zip(all) {
            score.tell(kind, matcher);
        }
        fzf.sort();
        let told = match fzf.get(fzf.len() / 2) {
            Some(median) => format!("median {:6.2} ms", median.as_secs_f64() * 1e3),
            None => "not installed".to_string(),
        };
        say(&format!(
            "{kind:10} fzf --filter, its start with it: {told}"
        ));
    }
}

/// What `fzf --filter` takes for one query, its start and the reading of the names with it: it has no
/// other way to be asked. `None` where it is not installed.
fn fzf(names: &Path, typed: &str) -> Option<Duration> {
    let start = Instant::now();
    let mut fzf = Command::new("fzf");
    fzf.arg(format!("--filter={typed}"))
        .stdin(File::open(names).expect("opens"))
        .stdout(Stdio::null());
    fzf.status().ok().map(|_| start.elapsed())
}

/// A word without its vowels, but for its first letter.
fn without_vowels(word: &str) -> String {
    let kept = word.char_indices();
    let kept = kept.filter(|(at, c)| *at == 0 || !"aeiouy".contains(*c));
    kept.map(|(_, c)| c).collect()
}

/// What a grower types who wants this name: all of it with one slip in a word of four letters or
/// more, a little more than half of it, the first letters of its words, or its consonants.
fn typed(name: &str, kind: usize, random: &mut fastrand::Rng) -> String {
    let mut letters: Vec<char> = name.to_lowercase().chars().collect();
    if KINDS[kind] == "beginning" {
        letters.truncate(letters.len() * 6 / 10);
        return String::from_iter(letters).trim_end().to_string();
    }
    let words = name.to_lowercase();
    let words = words.split(' ');
    match KINDS[kind] {
        "initials" => return words.filter_map(|word| word.chars().next()).collect(),
        "consonants" => {
            let words: Vec<String> = words.map(without_vowels).collect();
            return words.join(" ");
        }
        _ => {}
    }
    let long = name.split(' ').filter(|word| word.len() >= 5);
    let words: Vec<&str> = long.collect();
    let word = if words.is_empty() {
        name
    } else {
        words[random.usize(..words.len())]
    };
    let start = name.find(word).unwrap_or(0);
    let at = start + random.usize(..word.len() - 1);
    match KINDS[kind] {
        "missing" => drop(letters.remove(at)),
        "doubled" => letters.insert(at, letters[at]),
        "swapped" => letters.swap(at, at + 1),
        _ => letters[at] = random.lowercase(),
    }
    letters.into_iter().collect()
}

impl Score {
    fn note(&mut self, found: bool, first: bool, left: usize, took: Duration) {
        self.asked += 1;
        self.found += usize::from(found);
        self.first += usize::from(first);
        self.left += left;
        self.took.push(took);
    }

    fn tell(&mut self, kind: &str, matcher: &str) {
        self.took.sort();
        let percent = |part: usize| 100.0 * part as f64 / self.asked as f64;
        let ms = |of: usize| self.took[self.took.len() * of / 100].as_secs_f64() * 1e3;
        say(&format!(
            "{kind:10} {matcher:15} {:5.1} % {:5.1} % {:8.0} left, median {:6.2} ms, 99th {:6.2} ms",
            percent(self.found),
            percent(self.first),
            self.left as f64 / self.asked as f64,
            ms(50),
            ms(99),
        ));
    }
}

#[allow(clippy::print_stderr)] // A bench's answer is what it prints.
fn say(line: &str) {
    eprintln!("{line}");
}
