//! Every parser of text under hostile inputs: real ones changed at random from a seed.
//!
//! Each parser runs in a process of its own. It must not panic, overflow or stand still, nor hold more
//! memory than its inputs are worth, and what it says of an input must not steer a terminal and be
//! short enough to read.
//!
//! `cargo test --test all hostile::` runs each on [`INPUTS`] inputs, and `TRUG_FUZZ=1000000` before it
//! on as many. `TRUG_FUZZ_SEED` draws other inputs; `TRUG_FUZZ_ONLY` runs the one of that number.

#![expect(
    clippy::print_stdout,
    reason = "a process of its own tells its parent, and that one whoever runs it"
)]

mod child;
mod kept;
mod mutate;
mod parsers;
pub(crate) mod shapes;
mod tables;

use std::process::{Command, Stdio};

/// Inputs a parser where nothing else is asked for.
const INPUTS: u64 = 6_000;

/// Runs a parser in a process of its own, and fails with what that one says.
fn hold(parser: &str) {
    let inputs = std::env::var("TRUG_FUZZ").unwrap_or_else(|_| INPUTS.to_string());
    let program = std::env::current_exe().expect("this program");
    let output = Command::new(program)
        .args([
            "--exact",
            "hostile::child::runs_a_parser",
            "--nocapture",
            "--ignored",
        ])
        .env(child::PARSER, parser)
        .env("TRUG_FUZZ", inputs)
        .stdin(Stdio::null())
        .output()
        .expect("a process of its own");
    let said = String::from_utf8_lossy(&output.stdout);
    let wrong = String::from_utf8_lossy(&output.stderr);
    assert!(
        output.status.success(),
        "{parser}: {}\n{said}\n{wrong}",
        output.status
    );
    let last = said.lines().find(|line| line.starts_with("held: "));
    println!("{parser}: {}", last.expect("what was held"));
}

macro_rules! each_parser {
    ($($name:ident)+) => {
        $(#[test] fn $name() { hold(stringify!($name)); })+

        #[test]
        fn every_parser_has_its_test() {
            let names: Vec<&str> = parsers::all().iter().map(|one| one.name).collect();
            assert_eq!(names, [$(stringify!($name)),+]);
        }
    };
}

each_parser! {
    answers colours days notes stock_notes needs work figures plan_figures
    the_list the_order the_settled the_row settings own_words kept traits rules uses pieces colour_words tags papers release
    naming journal stock_journal cells lists_in_cells field_sheets stock_sheets xlsx ods
}
