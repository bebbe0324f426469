//! How long it takes to read a rule set from text and prove it, for the sets that ship and the
//! broken ones; written beside the claims in SMT-LIB 2, so that `tests/outside/z3_agrees.py` can
//! time z3 on the same claims and print the ratio.
#![allow(clippy::print_stdout)]

#[path = "../tests/all/common/rules_as_written.rs"]
mod common;

use std::path::PathBuf;
use std::time::Instant;

const RUNS: usize = 51;

/// The median time, in microseconds, to read a set and prove it.
fn median_time(name: &str, text: &str) -> u128 {
    let mut times: Vec<u128> = (0..RUNS)
        .map(|_| {
            let start = Instant::now();
            std::hint::black_box(common::read(name, text).prove());
            start.elapsed().as_micros()
        })
        .collect();
    times.sort_unstable();
    times[RUNS / 2]
}

fn main() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("smt-timed");
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut expected = String::from("file\tgap\toverlap\tour_microseconds\n");
    let answer = |claim: bool| if claim { "unsat" } else { "sat" };
    for (name, text) in common::all_files() {
        let set = common::read(&name, &text);
        let proof = set.prove();
        let time = median_time(&name, &text);
        std::fs::write(folder.join(format!("{name}.smt2")), set.to_smt()).expect("written");
        let (gap, overlap) = (answer(proof.total), answer(proof.disjoint));
        expected += &format!("{name}.smt2\t{gap}\t{overlap}\t{time}\n");
        println!(
            "{name:32} {} cells in {} blocks: read and proved in {time} us",
            proof.cells, proof.blocks
        );
    }
    std::fs::write(folder.join("expected.tsv"), expected).expect("written");
    println!(
        "written for tests/outside/z3_agrees.py: {}",
        folder.display()
    );
}
