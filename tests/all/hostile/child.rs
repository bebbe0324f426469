//! One parser in a process of its own, watched.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};
use std::{env, fs, process, thread};

use trug::problem::steers;

use super::mutate::changed;
use super::parsers::{Parser, all};

/// Names the parser to the process that is to run it.
pub(super) const PARSER: &str = "TRUG_FUZZ_PARSER";
/// How often it is looked whether another input is read.
const LOOK: Duration = Duration::from_millis(200);
/// No input may be there at so many looks one after the other, 20 s: thousands of times what they take. Looks
/// are counted, for a clock goes on while a machine sleeps.
const MOST_LOOKS: u32 = 100;
/// The most that a parser may hold, beside what the program takes that the tests are in: a sheet with as many
/// cells as one may have, and most hold a twentieth of it. The inputs are some kilobytes.
const MOST_KIBIBYTES: u64 = 512 * 1024;
/// So often it is looked how much that is.
const OFTEN: u64 = 16;
/// The longest sentence on one thing that is wrong.
const LONGEST_SENTENCE: usize = 900;

#[test]
#[ignore = "hold() runs it, with the parser's name"]
fn runs_a_parser() {
    let Ok(name) = env::var(PARSER) else {
        return;
    };
    let number = |name: &str| {
        env::var(name)
            .ok()
            .and_then(|text| text.parse::<u64>().ok())
    };
    let parsers = all();
    let parser = { parsers.iter() }
        .find(|one| one.name == name)
        .expect("a parser");
    let inputs = (parser.inputs)();
    let (seed, wanted) = (
        number("TRUG_FUZZ_SEED").unwrap_or(1),
        number("TRUG_FUZZ").unwrap_or(0),
    );
    let numbers = match number("TRUG_FUZZ_ONLY") {
        Some(only) => only..only + 1,
        None => 0..wanted,
    };
    watch();
    let begun = Instant::now();
    for number in numbers {
        AT.store(number, Ordering::Relaxed);
        let mut dice = fastrand::Rng::with_seed(seed.wrapping_mul(1 << 40) ^ number);
        let input = (parser.pack)(changed(&inputs, &mut dice), &mut dice);
        holds(parser, &input, number);
        if number.is_multiple_of(OFTEN) {
            let held = most_held();
            assert!(
                held <= MOST_KIBIBYTES,
                "{name} held {held} KiB, at TRUG_FUZZ_ONLY={number} or up to {OFTEN} before"
            );
        }
    }
    AT.store(u64::MAX, Ordering::Relaxed);
    let held = most_held();
    println!(
        "held: {wanted} inputs, {:.1} s, at most {} MiB",
        begun.elapsed().as_secs_f64(),
        held / 1024
    );
    assert!(held <= MOST_KIBIBYTES, "{name} held {held} KiB");
}

/// The input that is read now.
static AT: AtomicU64 = AtomicU64::new(u64::MAX);

/// Ends the process where one input takes too long.
fn watch() {
    thread::spawn(|| {
        let (mut last, mut looks) = (u64::MAX, 0);
        loop {
            thread::sleep(LOOK);
            let at = AT.load(Ordering::Relaxed);
            looks = if at == last && at != u64::MAX {
                looks + 1
            } else {
                0
            };
            last = at;
            if looks > MOST_LOOKS {
                println!(
                    "TRUG_FUZZ_ONLY={at}: still at it after {:?}",
                    LOOK * MOST_LOOKS
                );
                process::exit(3);
            }
        }
    });
}

fn holds(parser: &Parser, input: &[u8], number: u64) {
    let only = format!("TRUG_FUZZ_ONLY={number}");
    let shown = || {
        String::from_utf8_lossy(&input[..input.len().min(4000)])
            .escape_debug()
            .to_string()
    };
    let told = catch_unwind(AssertUnwindSafe(|| parser.says(input)));
    let Ok(told) = told else {
        panic!("{}, {only}: it panics at {}", parser.name, shown());
    };
    for sentence in told {
        let long = sentence.chars().count() > LONGEST_SENTENCE;
        assert!(
            !long && !sentence.chars().any(steers),
            "{}, {only}: {sentence:?} of {}",
            parser.name,
            shown()
        );
    }
}

/// The most memory that this process ever held, in KiB; 0 where the system does not tell.
fn most_held() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let number = line.and_then(|line| line.trim().trim_end_matches("kB").trim().parse().ok());
    number.unwrap_or(0)
}
