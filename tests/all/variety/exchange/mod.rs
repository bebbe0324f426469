//! Import and export: what goes out comes back, what comes in is read as written or refused whole.

mod grower;
mod outside;
mod own_words;
mod part;
mod refused;
mod round_trip;
mod several;
mod sheets;
mod too_large;
mod workbooks;
mod worth;

use trug::colour::Vocabulary;
use trug::form::RuleSet;
use trug::table;
use trug::variety::Varieties;
use trug::variety::exchange::{Columns, Import, OwnWords, Terms, export};

/// What an import of `csv` over `list` would do, and the list afterwards.
fn imported(csv: &[u8], list: &Varieties) -> (Import, Varieties) {
    let (text, _) = table::decode(csv).expect("text");
    let (table, _) = table::parse(&text).expect("a table");
    let rules = &RuleSet::embedded()[0];
    let (colours, own) = (Vocabulary::embedded(), OwnWords::default());
    let terms = Terms {
        rules,
        colours: &colours,
        own: &own,
        supplier: None,
        pack: None,
    };
    let columns = Columns::of(&table, &own).expect("columns");
    let mut import = Import::of(&table, &columns, list, &terms);
    let mut after = list.clone();
    let edit = import.edit(list, "read".to_string());
    import.apply(&mut after).expect("the same list");
    // As one edit it makes the same list, and is taken back.
    let mut edited = list.clone();
    let back = edit.apply(&mut edited).expect("the same list");
    assert_eq!(edited.list(), after.list());
    back.apply(&mut edited).expect("the edited list");
    assert_eq!(edited.list(), list.list());
    (import, after)
}

fn exported(list: &Varieties) -> Vec<u8> {
    table::write(export(list.list()).iter().map(Vec::as_slice))
}
