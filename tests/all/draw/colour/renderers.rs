//! What other programs see in our colours: pages for renderers that are not ours.

use std::fs;
use std::path::PathBuf;

use serde_json::json;
use trug::colour::{Lab, Vocabulary, ciede2000};
use trug::form::RuleSet;
use trug::paper::{Lettering, pdf, svg};

use super::super::alone;
use super::{blooms, of_one_colour};

/// A colour nearer than this to white paper is not told from it.
const FROM_PAPER: f64 = 6.0;
/// How far apart the colours are that are tried, one after the other: a step that meets every family.
const STEP: usize = 7;

/// One bloom of every shape, each in another colour, alone on its page, as PDF and as SVG: what
/// `tests/outside/colours_agree.py` has drawn by others.
#[test]
fn blooms_are_written_for_other_renderers() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("colours");
    // A file of an earlier run must not be checked in this one's place.
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    let words = Vocabulary::embedded();
    let far = |lab: Lab| ciede2000(lab, Lab::new(100.0, 0.0, 0.0)) > FROM_PAPER;
    let words: Vec<_> = { words.words().iter() }
        .filter(|word| far(word.centre))
        .collect();
    let colours = (0..).map(|at| words[at * STEP % words.len()]);
    let (mut pages, mut expected) = (Vec::new(), Vec::new());
    let first = format!(" of {}", RuleSet::embedded()[0].id);
    let blooms = blooms();
    let blooms = blooms.iter().filter(|(name, _)| name.ends_with(&first));
    for ((name, bloom), word) in blooms.zip(colours) {
        let page = alone(&of_one_colour(bloom, word.centre), name);
        let file = format!("{}.svg", pages.len() + 1);
        let text = svg(name, &page, Lettering::Outlines).expect("an SVG");
        fs::write(folder.join(&file), text).expect("written");
        let stated = word.centre.to_srgb().to_string();
        expected.push(json!({"name": name, "svg": file, "word": word.word, "stated": stated}));
        pages.push(page);
    }
    assert!(pages.len() >= 15, "{}", pages.len());
    let written = pdf("Blooms", &pages).expect("a PDF");
    fs::write(folder.join("blooms.pdf"), written).expect("written");
    let text = serde_json::to_string_pretty(&expected).expect("JSON");
    fs::write(folder.join("expected.json"), text).expect("written");
}
