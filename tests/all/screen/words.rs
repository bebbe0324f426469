//! What a grower reads is words: no page, sheet or answer shows the signs that rule files, commands and
//! books are written in.

use trug::form::RuleSet;
use trug::variety::Uses;

use super::sizes::{OPEN, Picture, at_the_key_page};
use crate::common::shell::trug_anywhere;

/// So high that every sheet is seen whole.
const WHOLE: (u16, u16) = (100, 600);
/// While these are open a line is typed, whose words are told.
const TYPED: [&str; 5] = [
    "order figure",
    "order need",
    "order need refused",
    "order event",
    "order round",
];

/// Words of a need and of an entry as they are typed, beside the traits.
const TYPED_WORDS: [&str; 14] = [
    "use",
    "fitness",
    "colours",
    "forms",
    "varieties",
    "each",
    "different",
    "most",
    "postage",
    "free",
    "vase",
    "weather",
    "decide",
    "stem",
];

/// What stands in files and commands alone: an id with the sign behind it, and ids and names of limits
/// whose words are joined.
fn signs() -> Vec<String> {
    let mut signs: Vec<String> = TYPED_WORDS.iter().map(|word| format!(" {word}=")).collect();
    for set in RuleSet::embedded() {
        for one in set.traits.list() {
            signs.push(format!("{}=", one.id));
            signs.extend(one.states().iter().map(|state| format!("{}|", state.id)));
        }
        signs.extend(set.limits.iter().map(|(name, _)| name.clone()));
        let ids = set.forms.iter().map(|form| (&form.id, &form.name));
        let joined = ids
            .filter(|(id, name)| id != name)
            .map(|(id, _)| id.clone());
        signs.extend(joined);
    }
    let uses = Uses::embedded();
    let ids = uses.list().iter().map(|one| (&one.id, &one.name));
    signs.extend(
        ids.filter(|(id, name)| id != name)
            .map(|(id, _)| id.clone()),
    );
    signs
}

#[track_caller]
fn shows_none(told: &str, what: &str) {
    for sign in signs() {
        let line = told.lines().find(|line| line.contains(&sign));
        assert_eq!(line, None, "{what}: {sign:?} is no word of a grower's");
    }
}

#[test]
fn no_page_and_no_sheet_shows_how_rules_needs_or_entries_are_typed() {
    let start = at_the_key_page();
    for open in OPEN.iter().filter(|(name, _)| !TYPED.contains(name)) {
        for size in [(80, 24), WHOLE] {
            let picture = Picture::of(&start, *open, size);
            shows_none(&picture.told(), picture.name);
        }
    }
}

#[test]
fn no_answer_of_a_command_shows_how_rules_or_entries_are_written() {
    let set = RuleSet::embedded().remove(0);
    let shown = set
        .shapes
        .iter()
        .map(|shape| format!("rules show {}", shape.id));
    let others = [
        "rules",
        "rules words",
        "rules card",
        "rules compare trade-inch register-mm",
        "row",
        "row 24-002",
        "row 24-002 --units mm",
        "choose --use market-bunch --top 4",
        "colour peach",
        "key centre=closed tip=pointed roll=back line=straight set=wavy outline=globe heart=round rolled=10 diameter=5in",
    ];
    for words in shown.chain(others.map(str::to_string)) {
        let typed: Vec<&str> = words.split(' ').collect();
        let told = trug_anywhere(&typed).done();
        // What to type next, and what a rule set is called in a command, are for the command.
        let told = told.split("\nNext: ").next().unwrap_or_default();
        shows_none(told, &words);
    }
}
