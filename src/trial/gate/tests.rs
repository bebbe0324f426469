use jiff::civil::Date;

use super::*;
use crate::trial::evidence::tests::{BALL, Bench};
use crate::trial::next::{Next, Urgency};

/// A ball with all that the gate wants.
pub(super) fn ready() -> Vec<String> {
    let mut lines: Vec<String> = (1..4)
        .map(|day| {
            let size = 100 + day;
            format!("date=2025-08-{day:02} {BALL} diameter={size}mm,103mm,102mm,101mm colour='lab(60 10 70)' plants=3")
        })
        .collect();
    lines.push("date=2026-08-02 vase=7,8,8,9,6,7,9+,9+,8,7,7 weather=wind:2/20".to_string());
    lines.push("date=2025-10-20 tubers=10".to_string());
    lines.push("date=2026-03-20 sound=9".to_string());
    lines
}

pub(super) fn judged(lines: &[String]) -> (Advice, Next) {
    let bench = Bench::new();
    let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
    let (evidence, release) = (bench.evidence(&lines), Release::embedded());
    let advice = release.advise(&evidence, &bench.under(), SizeUnits::Mm);
    let next = Next::of(&evidence, &advice, &release, Date::constant(2026, 9, 30));
    (advice, next)
}

pub(super) fn without(word: &str, with: &str) -> Vec<String> {
    let lines = ready().into_iter();
    lines.map(|line| line.replace(word, with)).collect()
}

#[test]
fn all_that_is_wanted_advises_to_keep_with_the_reasons() {
    let (advice, next) = judged(&ready());
    assert_eq!(
        (advice.fate, advice.missing.as_slice()),
        (Fate::Keep, &[][..]),
        "{advice:?}"
    );
    assert_eq!(
        advice.reasons,
        [
            "its form is ball (over 99 %)",
            "12 blooms measured",
            "its colour is new for its form: 24.9 from 'Haaf Light', the nearest",
            "11 stems tested in the vase, median 8 days",
            "wind damaged 2 of 20 open blooms, surely under your limit of 50 %",
            "seen in 2 seasons",
            "3 plants",
            "9 of 10 tubers kept",
        ]
    );
    assert_eq!(next.urgency, Urgency::Decide);
    let mut decided = ready();
    decided.push("date=2026-09-20 decide=keep reason='Lasts.'".to_string());
    assert_eq!(judged(&decided).1.urgency, Urgency::Kept);
}

#[test]
fn what_is_missing_is_an_instruction() {
    for (word, with, told) in [
        ("plants=3", "plants=1", "raise 2 more plants: 1 of 3"),
        (
            "8,8,9,6,7,9+,9+,",
            "",
            "test 6 more stems in the vase: 4 of 10",
        ),
        (
            "sound=9",
            "plants=3",
            "count the sound ones of 10 stored tubers in spring",
        ),
        (
            "sound=9",
            "sound=5",
            "store its tubers another winter: 5 of 10 tubers kept, and 80 % is wanted",
        ),
        (
            "tubers=10",
            "plants=3",
            "lift and count its tubers, and count the sound ones in spring",
        ),
        ("2025-08", "2026-08", "see it through 1 more season: 1 of 2"),
        (",103mm,102mm,101mm", "", "measure 7 more blooms: 3 of 10"),
        (
            "lab(60 10 70)",
            "#f0a080",
            "grow it beside 'Haaf Light': the same form, and its colour lies 0.0 away where 5 counts as new",
        ),
        (
            "lab(60 10 70)",
            "gold",
            "measure its colour, by hex or lab(L a b): a word is too wide to tell new from known",
        ),
        ("colour=", "by=", "note its main colour: none is known"),
        (
            "outline=globe ",
            "",
            "answer outline: 2 forms are possible, ball the likeliest (99 %)",
        ),
    ] {
        let lines = match with {
            // The count in spring would have nothing to go by.
            "plants=3" if word == "tubers=10" => without(word, with)
                .into_iter()
                .filter(|line| !line.contains("sound"))
                .collect(),
            _ => without(word, with),
        };
        let (advice, _) = judged(&lines);
        assert_eq!(
            (advice.fate, advice.missing.as_slice()),
            (Fate::Hold, &[told.to_string()][..]),
            "{word} to {with}"
        );
    }
    let (advice, _) = judged(&[]);
    assert_eq!(advice.missing.len(), 7, "{:?}", advice.missing);
}

#[test]
fn a_form_without_a_name_is_declared_or_looked_at_again() {
    let odd = BALL
        .replace("tip=rounded", "tip=pointed")
        .replace("line=straight", "line=incurved");
    let lines: Vec<String> = ready()
        .into_iter()
        .map(|line| line.replace(BALL, &odd))
        .collect();
    let (advice, _) = judged(&lines);
    assert!(
        advice.missing[0]
            .starts_with("declare it a novelty, or look again: it has no named form (Would be "),
        "{:?}",
        advice.missing
    );
    let mut declared = lines;
    declared.push("date=2026-08-09 novelty=yes".to_string());
    assert_eq!(judged(&declared).0.fate, Fate::Keep);
}

#[test]
fn only_what_is_surely_beyond_a_limit_advises_to_cull() {
    for (word, with, told) in [
        (
            "vase=7,8,8,9,6,7,9+,9+,8,7,7",
            "vase=2,2,3,2,3,2,2,3,2,2",
            "0 of 10 stems lasted over 3.5 days in the vase: half of them surely do not",
        ),
        (
            "wind:2/20",
            "wind:17/20",
            "wind damaged 17 of 20 open blooms, surely over your limit of 50 %",
        ),
        (
            "sound=9",
            "sound=0",
            "0 of 10 tubers kept, surely under your limit of 40 %",
        ),
    ] {
        let (advice, next) = judged(&without(word, with));
        assert_eq!(
            (advice.fate, advice.reasons.as_slice()),
            (Fate::Cull, &[told.to_string()][..])
        );
        assert_eq!(next.told, format!("Decide on culling: {told}."));
    }
    for (word, with) in [("wind:2/20", "wind:3/4"), ("sound=9", "sound=3")] {
        assert_ne!(judged(&without(word, with)).0.fate, Fate::Cull, "{with}");
    }
    // Heard and answered: the grower holds it all the same.
    let mut held = without("sound=9", "sound=0");
    held.push("date=2026-09-01 decide=hold".to_string());
    assert_ne!(judged(&held).1.urgency, Urgency::Decide);
    held.push("date=2026-09-02 decide=cull".to_string());
    assert_eq!(judged(&held).1.urgency, Urgency::Culled);
}

#[test]
fn problems_of_the_gate_have_their_place() {
    let text = Release::embedded_file();
    for (word, with, told) in [
        (
            "credence: 0.95",
            "credence: 95",
            "release.ron, line 32, column 67: found 95 for credence, expected 0.5 to 1",
        ),
        (
            "damage: 0.5",
            "damage: 2",
            "release.ron, line 33, column 29: found 2 for damage, expected 0 to 1",
        ),
        (
            "damage: 0.5, kept: 0.4",
            "damage: 0.5, kept: -1",
            "release.ron, line 33, column 40: found -1 for kept, expected 0 to 1",
        ),
        (
            "lift: 10",
            "lift: 13",
            "release.ron, line 34, column 18: found 13 for lift, expected a month from 1 to 12",
        ),
        (
            "stems: 10",
            "stem: 10",
            "found the field \"stem\", expected",
        ),
        (
            "seasons: 2, ",
            "",
            "found no field seasons, expected it before the closing )",
        ),
    ] {
        let problems = Release::read("release.ron", &text.replace(word, with)).expect_err(told);
        assert!(problems[0].to_string().contains(told), "{}", problems[0]);
    }
}
