//! What the answers add up to, in words: the verdict below the columns, and everything in full.

use super::KeyPage;
use super::answered::{answer_words, why_words};

use crate::form::sentences::percent;
use crate::form::words::number_words;
use crate::form::{Answer, Kind, Status, Trait};
use crate::measure::SizeUnits;
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;

/// A suspect answer of at least this chance is told below the columns. Assumed.
pub(super) const DOUBTFUL: f64 = 0.1;
/// The most near misses that are told below the columns.
const MOST_NEAR: usize = 3;

/// `a ball`, `an anemone`.
pub(super) fn with_article(name: &str) -> String {
    let vowel = name.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {name}", if vowel { "an" } else { "a" })
}

/// The verdict, what is close, what disagrees and what is near: the sentences below the columns, and
/// where little is said and it is asked for, a tip on keys.
pub(super) fn below(page: &KeyPage, columns: usize, with_tip: bool) -> Vec<Row> {
    let keyer = page.keyer();
    let reading = &page.reading;
    let mut rows = Vec::new();
    if let Some(note) = &page.note {
        rows.extend(paragraph(("* ", Role::Key), note, Role::Strong, columns));
    }
    let mut say = |mark: &str, text: &str, role: Role| {
        rows.extend(paragraph((mark, role), text, role, columns));
    };
    if let Some(offered) = page.offered() {
        say("* ", &offered, Role::Strong);
    }
    match reading.verdict.status {
        Status::Open if page.answers.is_empty() => say(
            "  ",
            "Answer what you can see. Any answer can be changed or taken back, and none has to be given.",
            Role::Plain,
        ),
        Status::Settled(_) => say(
            "= ",
            &keyer.verdict_sentence(reading, page.units),
            Role::Fits,
        ),
        Status::Open => say(
            "  ",
            &keyer.verdict_sentence(reading, page.units),
            Role::Plain,
        ),
        Status::None => say(
            "! ",
            &keyer.verdict_sentence(reading, page.units),
            Role::Wrong,
        ),
    }
    if let Some(conflict) = &reading.conflict {
        say(
            "! ",
            &keyer.conflict_sentence(conflict, page.units),
            Role::Wrong,
        );
    }
    if let Some(warning) = likelier(page) {
        say("! ", &warning, Role::Doubt);
    }
    for close in &reading.close {
        say("~ ", &keyer.close_sentence(close, page.units), Role::Doubt);
    }
    if let Some(suspect) = page.suspect() {
        say("? ", &keyer.suspect_sentence(&suspect), Role::Doubt);
    }
    if let Status::Settled(form) = reading.verdict.status
        && keyer.set.shape_of(form).catch_all
    {
        for near in reading.near.iter().take(MOST_NEAR) {
            say("- ", &keyer.near_sentence(near, page.units), Role::Plain);
        }
    }
    let is_open = reading.verdict.status == Status::Open && !page.answers.is_empty();
    if with_tip && is_open && rows.len() <= 2 {
        let tip =
            "Up goes back to an answer, Backspace takes the last one back, / asks another trait.";
        rows.push(Row::default());
        rows.extend(paragraph(("  ", Role::Quiet), tip, Role::Quiet, columns));
    }
    rows
}

/// Where the rules settle one form and the ranking leans to another, that is said.
fn likelier(page: &KeyPage) -> Option<String> {
    let first = page.reading.likely.first()?;
    let name = &page.keyer().set.forms[first.form].name;
    let settled = matches!(page.reading.verdict.status, Status::Settled(_));
    (settled && !first.allowed).then(|| {
        let share = percent(first.share);
        format!("With a mistake allowed for, {name} is likelier ({share}): look again (a).")
    })
}

/// Everything that can be said of the bloom.
pub(super) fn in_full(page: &KeyPage, columns: usize) -> Vec<Row> {
    let keyer = page.keyer();
    let mut rows = vec![Row::of("What the rules say", Role::Heading)];
    rows.extend(below(page, columns, true));
    let catch_all = match page.reading.verdict.status {
        Status::Settled(form) => keyer.set.shape_of(form).catch_all,
        _ => false,
    };
    if catch_all && page.reading.near.len() > MOST_NEAR {
        rows.push(Row::default());
        rows.push(Row::of(
            "More named forms an answer or two away",
            Role::Heading,
        ));
        for near in page.reading.near.iter().skip(MOST_NEAR) {
            let told = keyer.near_sentence(near, page.units);
            rows.extend(paragraph(("- ", Role::Quiet), &told, Role::Plain, columns));
        }
    }
    rows.push(Row::default());
    rows.push(Row::of("Your answers", Role::Heading));
    if page.answers.is_empty() {
        rows.push(Row::of("none yet", Role::Quiet));
    }
    for (index, _) in page.answers.iter() {
        let one = page.trait_at(index);
        let looks: Vec<String> = page
            .answers
            .looks(index)
            .map(|look| look_words(one, look, page.units))
            .collect();
        let told = looks.join("; looked again: ");
        let lead = format!("{:<9} ", one.id);
        rows.extend(paragraph(
            (&lead, Role::Strong),
            &told,
            Role::Plain,
            columns,
        ));
    }
    if let Some(index) = page.asked() {
        let one = page.trait_at(index);
        rows.push(Row::default());
        rows.push(Row::of(format!("The question: {}", one.id), Role::Heading));
        rows.extend(paragraph(
            ("", Role::Plain),
            &format!("{} {}", one.ask, one.look),
            Role::Plain,
            columns,
        ));
        for (at, state) in one.states().iter().enumerate() {
            let lead = format!("{} ", at + 1);
            let told = format!("{}: {}", state.id, state.means);
            rows.extend(paragraph((&lead, Role::Key), &told, Role::Plain, columns));
        }
    }
    rows.push(Row::default());
    rows.push(Row::of(
        "Every form: how likely with mistakes allowed for, and why not",
        Role::Heading,
    ));
    for likely in &super::forms::ranked(page) {
        let name = &keyer.set.forms[likely.form].name;
        let (mark, role) = super::forms::mark(likely);
        let lead = format!("{mark} {:>10}  ", percent(likely.share));
        let told = format!("{name}: {}", why_words(page, likely));
        rows.extend(paragraph((&lead, role), &told, Role::Plain, columns));
    }
    rows
}

/// One look in full: of several values each one.
fn look_words(one: &Trait, answer: &Answer, units: SizeUnits) -> String {
    let told = answer_words(one, answer, units);
    match answer {
        Answer::Values(values) if values.len() > 1 => {
            let each: Vec<String> = values
                .iter()
                .map(|value| number_words(one, *value, units))
                .collect();
            format!("{told}: {}", each.join(", "))
        }
        Answer::States(mask) if mask.count_ones() == 1 => {
            let state = &one.states()[mask.trailing_zeros() as usize];
            format!("{told}: {}", state.means)
        }
        _ => told,
    }
}

/// What a line may hold for this trait: what to type, and what it means.
pub(super) fn examples(one: &Trait, units: SizeUnits) -> &'static [(&'static str, &'static str)] {
    match (&one.kind, units) {
        (Kind::Count(..), _) => &[("5", "counted"), ("4-7", "between"), ("10+", "ten or more")],
        (Kind::Share, _) => &[
            ("1/4 1/3 1/2", "by eye"),
            ("2/3 3/4", "by eye"),
            ("Enter, half", "in words"),
            ("60", "per cent"),
            ("50-70", "between"),
            ("0", "not rolled"),
        ],
        (Kind::Length(_), SizeUnits::Mm) => &[
            ("98", "in mm"),
            ("3 1/2 in", "or in, cm"),
            ("98 104 101", "several blooms"),
            ("90..95", "between"),
        ],
        (Kind::Length(_), SizeUnits::In) => &[
            ("3 1/2", "in inches"),
            ("98 mm", "or mm, cm"),
            ("3.5 4 3.75", "several blooms"),
            ("3..4", "between"),
        ],
        (Kind::OneOf(_), _) => &[],
    }
}
