//! An input changed as nobody would write it, by dice.

use fastrand::Rng;

/// Words that a reader may trip over: numbers at ends of types, marks of scripts, what steers a terminal.
const WORDS: [&str; 58] = [
    "0",
    "-0",
    "-1",
    "1",
    "255",
    "256",
    "32768",
    "65536",
    "2147483648",
    "4294967295",
    "4294967296",
    "9223372036854775807",
    "18446744073709551615",
    "99999999999999999999999999999999999999999999",
    "1e308",
    "1e-308",
    "1e999",
    "inf",
    "-inf",
    "NaN",
    "0.0000001",
    "1/0",
    "1/3",
    "½",
    "٣",
    "0x7f",
    "1_000",
    "\u{1b}[31m",
    "\u{9b}2J",
    "\u{202e}",
    "\u{2066}",
    "\u{200b}",
    "\u{feff}",
    "\u{0}",
    "\r",
    "\n",
    "\t",
    "é",
    "e\u{301}",
    "花",
    "👩\u{200d}🌾",
    "\u{10ffff}",
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    "\"",
    "\\",
    "'",
    "//",
    "/*",
    "*/",
    "r#\"",
    "Some(",
    "9999-12-31",
    "-009999-01-01",
];
/// Longer ones are cut: what is to be shown is shown by short ones, and faster.
const LONGEST: usize = 24 * 1024;
/// Brackets within brackets: RON's reader takes 128.
const DEPTHS: [usize; 4] = [3, 127, 200, 9000];

/// One of the inputs, changed one to eight times.
pub(super) fn changed(inputs: &[Vec<u8>], dice: &mut Rng) -> Vec<u8> {
    let mut input = inputs[dice.usize(..inputs.len())].clone();
    // Some go in as they are: a corpus that is read by nobody tests nothing.
    if dice.u8(..) < 4 {
        return input;
    }
    for _ in 0..1 + dice.usize(..8).min(dice.usize(..8)) {
        change(&mut input, inputs, dice);
        input.truncate(LONGEST);
    }
    input
}

fn change(input: &mut Vec<u8>, inputs: &[Vec<u8>], dice: &mut Rng) {
    let at = dice.usize(..=input.len());
    let most = 1 + dice.usize(..64);
    let end = at + dice.usize(..=(input.len() - at).min(most));
    match dice.u8(..12) {
        // One bit, or one byte.
        0 if at < input.len() => input[at] ^= 1 << dice.u8(..8),
        1 if at < input.len() => input[at] = dice.u8(..),
        // Left out, said again, or many times.
        2 => drop(input.drain(at..end)),
        3 => {
            let again = input[at..end].to_vec();
            put(input, end, &again);
        }
        4 => {
            let times = 1 + dice.usize(..200);
            put(input, end, &input[at..end].repeat(times));
        }
        // A piece of another.
        5 => {
            let other = &inputs[dice.usize(..inputs.len())];
            let from = dice.usize(..=other.len());
            let length = dice.usize(..=(other.len() - from).min(200));
            put(input, at, &other[from..from + length]);
        }
        6 | 7 => put(input, at, word(dice)),
        // Another number in the place of one.
        8 | 9 => another_number(input, at, dice),
        // A line of it said a second time, somewhere else: a key twice.
        10 => {
            let text = input.clone();
            let mut lines = text.split(|byte| matches!(byte, b'\n' | b','));
            let skipped = dice.usize(..40);
            if let Some(line) = lines.nth(skipped) {
                put(input, at, &[line, &b",\n"[..]].concat());
            }
        }
        _ => {
            let depth = DEPTHS[dice.usize(..DEPTHS.len())];
            let bracket = ["(", "[", "{", "a:(", "/*", "((", "Some(", "not("][dice.usize(..8)];
            put(input, at, bracket.repeat(depth).as_bytes());
        }
    }
}

fn word(dice: &mut Rng) -> &'static [u8] {
    WORDS[dice.usize(..WORDS.len())].as_bytes()
}

fn put(input: &mut Vec<u8>, at: usize, what: &[u8]) {
    input.splice(at..at, what.iter().copied());
}

fn another_number(input: &mut Vec<u8>, near: usize, dice: &mut Rng) {
    let digit = |byte: &u8| byte.is_ascii_digit() || *byte == b'.';
    let Some(begin) = input[near..].iter().position(digit).map(|at| near + at) else {
        return;
    };
    let length = input[begin..].iter().take_while(|byte| digit(byte)).count();
    let word = word(dice).to_vec();
    input.splice(begin..begin + length, word);
}
