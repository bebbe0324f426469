//! What may come next on a line that is typed: forms, uses, colours and traits, and the names and numbers
//! of the folder. The scripts of `trug completions` ask for it.

use clap::{Arg, Command, CommandFactory};

use super::Arguments;
use crate::folder::contents::{self, Contents};
use crate::folder::place::Said;
use crate::folder::{order, row, stock};
use crate::form::{RuleSet, Traits};
use crate::order::Item;
use crate::stock::read::WORDS as STOCK_WORDS;
use crate::trial::Fate;
use crate::trial::read::{WORDS, split};
use crate::variety::Facet;

/// The most that is offered at once: a longer list helps nobody.
const MOST_OFFERED: usize = 1000;

/// What a place on the line wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Wanted {
    /// Plants of the row.
    Plants,
    /// Plants of the stock book.
    Stocked,
    /// The words of an entry of the stock book.
    Happened,
    /// Names of the list, with what stands behind each.
    Names(&'static str),
    Forms,
    Uses,
    Colours,
    RuleSets,
    /// Events of the plan, or its rounds.
    Work(bool),
    /// Figures of the plan, each before an equals sign.
    Figures,
    Needs,
    Facets,
    Kinds,
    Sheets,
    Fates,
    /// Traits of a bloom, with their values behind an equals sign.
    Traits,
    /// The words of an entry, and the traits.
    Entry,
    /// What the shell itself knows, such as a file.
    Nothing,
}

/// A line up to the cursor.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Typed {
    /// What is known of the place.
    wanted: Wanted,
    /// What stands before the value in the last word: `--form=`.
    before: String,
    /// The value as far as it is typed.
    begun: String,
    at: Option<String>,
}

/// What may stand in the place of the line's last word; nothing where the folder cannot be read.
pub(super) fn offered(line: &str) -> Vec<String> {
    let typed = typed(line);
    let all = all(&typed).unwrap_or_default();
    let begun = typed.begun.to_lowercase();
    let fits = |one: &String| one.to_lowercase().starts_with(&begun);
    let mut offered: Vec<String> = all.into_iter().filter(fits).collect();
    offered.sort();
    offered.dedup();
    offered.truncate(MOST_OFFERED);
    let whole = |one: String| format!("{}{one}", typed.before);
    offered.into_iter().map(whole).collect()
}

fn typed(line: &str) -> Typed {
    let words = words(line);
    let (last, before) = words.split_last().map_or(("", &[][..]), |(last, before)| {
        (last.as_str(), before.get(1..).unwrap_or_default())
    });
    let parser = Arguments::command();
    let (mut path, mut command) = (Vec::new(), &parser);
    let (mut places, mut option, mut at) = (0, None, None);
    for word in before {
        match option.take() {
            Some("at") => at = Some(word.clone()),
            Some(_) => {}
            None => match (named(word, &parser, command), command.find_subcommand(word)) {
                (Some((name, None)), _) => option = Some(name),
                (Some(("at", Some(value))), _) => at = Some(value.to_string()),
                (None, Some(below)) if places == 0 && !word.starts_with('-') => {
                    path.push(below.get_name());
                    command = below;
                }
                _ if word.starts_with('-') => {}
                _ => places += 1,
            },
        }
    }
    let (wanted, begun) = match (option, named(last, &parser, command)) {
        (Some(option), _) => (of_option(option), last),
        (None, Some((option, Some(value)))) => (of_option(option), value),
        _ if last.starts_with('-') => (Wanted::Nothing, last),
        _ => (of_place(&path.join(" "), places), last),
    };
    Typed {
        wanted,
        before: last[..last.len() - begun.len()].to_string(),
        begun: begun.to_string(),
        at,
    }
}

/// The words of a line; one that ends in a blank has an empty last one, and a quotation mark may be open.
fn words(line: &str) -> Vec<String> {
    let ended = line.ends_with([' ', '\t']);
    if let Ok(mut words) = split(line) {
        if ended {
            words.push(String::new());
        }
        return words;
    }
    let closed = ["'", "\""]
        .iter()
        .find_map(|mark| split(&format!("{line}{mark}")).ok());
    closed.unwrap_or_default()
}

/// The option of a word that takes a value, and the value where it stands in the word.
fn named<'a, 'w>(
    word: &'w str,
    parser: &'a Command,
    command: &'a Command,
) -> Option<(&'a str, Option<&'w str>)> {
    let word = word.strip_prefix("--")?;
    let (name, value) = match word.split_once('=') {
        Some((name, value)) => (name, Some(value)),
        None => (word, None),
    };
    let mut all = command.get_arguments().chain(parser.get_arguments());
    let takes = |one: &&Arg| one.get_long() == Some(name) && one.get_action().takes_values();
    Some((all.find(takes)?.get_long()?, value))
}

fn of_option(option: &str) -> Wanted {
    match option {
        "form" => Wanted::Forms,
        "use" => Wanted::Uses,
        "rules" => Wanted::RuleSets,
        "colour" | "palette" => Wanted::Colours,
        "where" => Wanted::Facets,
        "why" | "compare" | "seed" | "pollen" => Wanted::Names(""),
        "fix" => Wanted::Names("="),
        "set" => Wanted::Figures,
        "drop" => Wanted::Needs,
        "drop-event" => Wanted::Work(true),
        "drop-round" => Wanted::Work(false),
        "kind" => Wanted::Kinds,
        "sheet" => Wanted::Sheets,
        _ => Wanted::Nothing,
    }
}

/// What the next word of a command is, so many standing there already.
fn of_place(command: &str, places: usize) -> Wanted {
    match (command, places) {
        ("row" | "row compare" | "row sheet" | "tag", _) | ("row note" | "row decide", 0) => {
            Wanted::Plants
        }
        ("stock" | "stock sheet", _) => Wanted::Stocked,
        ("stock note", 0) => Wanted::Plants,
        ("stock note", _) => Wanted::Happened,
        ("row note", _) => Wanted::Entry,
        ("row decide", 1) => Wanted::Fates,
        ("key", _) => Wanted::Traits,
        ("colour", _) => Wanted::Colours,
        ("rules show", 0) => Wanted::Forms,
        _ => Wanted::Nothing,
    }
}

/// All that a place may hold; `None` where the folder cannot be read.
fn all(typed: &Typed) -> Option<Vec<String>> {
    if typed.wanted == Wanted::Nothing {
        return None;
    }
    let at = typed.at.as_ref().map(std::path::Path::new);
    let folder = Said::of(at).find().ok()?;
    let folder = folder.as_deref();
    let contents = Contents::load(folder).ok()?;
    let set = used(&contents)?;
    let plan = || order::plan(folder).ok().flatten();
    Some(match typed.wanted {
        Wanted::Plants => {
            let subjects = row::row(folder).ok()?.trial.subjects();
            subjects.iter().map(ToString::to_string).collect()
        }
        Wanted::Stocked => {
            let trial = row::row(folder).ok()?.trial;
            let subjects = stock::stock(folder, &trial).ok()?.stock.subjects();
            subjects.iter().map(ToString::to_string).collect()
        }
        Wanted::Happened => {
            let words = STOCK_WORDS.iter();
            words.map(|word| format!("{}=", word.id)).collect()
        }
        Wanted::Names(behind) => {
            let list = contents::varieties(folder).ok()?;
            let names = list.list().iter();
            names.map(|one| format!("{}{behind}", one.name)).collect()
        }
        Wanted::Forms => set.forms.iter().map(|form| form.id.clone()).collect(),
        Wanted::Uses => contents
            .uses
            .list()
            .iter()
            .map(|one| one.id.clone())
            .collect(),
        Wanted::Colours => {
            let words = contents.words.words().iter();
            let spellings = words.flat_map(|word| word.spellings());
            spellings.map(str::to_string).collect()
        }
        Wanted::RuleSets => contents.sets.iter().map(|set| set.id.clone()).collect(),
        Wanted::Figures => {
            let plan = plan()?;
            let items = Item::all(&plan);
            items
                .iter()
                .map(|item| format!("{}=", item.name(&plan)))
                .collect()
        }
        Wanted::Needs => plan()?
            .needs
            .iter()
            .map(|need| need.name.to_string())
            .collect(),
        Wanted::Work(events) => {
            let plan = plan()?;
            let own = plan.work.iter().filter(|work| work.is_event() == events);
            own.map(|work| work.name.to_string()).collect()
        }
        Wanted::Facets => Facet::ALL
            .iter()
            .map(|facet| format!("{}=", facet.id()))
            .collect(),
        Wanted::Kinds => contents
            .tags
            .kinds
            .iter()
            .map(|kind| kind.id.clone())
            .collect(),
        Wanted::Sheets => contents
            .tags
            .sheets
            .iter()
            .map(|sheet| sheet.id.clone())
            .collect(),
        Wanted::Fates => Fate::ALL
            .iter()
            .map(|fate| fate.word().to_string())
            .collect(),
        Wanted::Traits => traits(&set.traits),
        Wanted::Entry => {
            let own = WORDS.iter().map(|word| format!("{}=", word.id));
            own.chain(traits(&set.traits)).collect()
        }
        Wanted::Nothing => Vec::new(),
    })
}

/// The rule set that the folder goes by.
fn used(contents: &Contents) -> Option<&RuleSet> {
    let id = contents.settings.rules.as_ref();
    let named = id.and_then(|id| contents.sets.iter().find(|set| set.id == *id));
    named.or(contents.sets.first())
}

/// Each trait before an equals sign, and with each of its states behind it.
fn traits(traits: &Traits) -> Vec<String> {
    let pairs = traits.list().iter().flat_map(|one| {
        let states = one.states().iter();
        let with = states.map(|state| format!("{}={}", one.id, state.id));
        with.chain([format!("{}=", one.id)]).collect::<Vec<_>>()
    });
    pairs.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_place_on_the_line_says_what_may_stand_there() {
        for (line, wanted, begun) in [
            ("trug row note 24-", Wanted::Plants, "24-"),
            ("trug --at my/garden row note 24-", Wanted::Plants, "24-"),
            ("trug row 24-", Wanted::Plants, "24-"),
            ("trug row note 24-001 cen", Wanted::Entry, "cen"),
            ("trug row decide 24-001 ", Wanted::Fates, ""),
            ("trug stock 24-", Wanted::Stocked, "24-"),
            ("trug stock note 24-", Wanted::Plants, "24-"),
            ("trug stock note 24-001 so", Wanted::Happened, "so"),
            ("trug key centre=cl", Wanted::Traits, "centre=cl"),
            ("trug choose --form bal", Wanted::Forms, "bal"),
            ("trug choose --form=bal", Wanted::Forms, "bal"),
            ("trug choose --use ", Wanted::Uses, ""),
            (
                "trug --rules register-mm rules show mini",
                Wanted::Forms,
                "mini",
            ),
            ("trug order --why 'Haaf K", Wanted::Names(""), "Haaf K"),
            ("trug order --set mon", Wanted::Figures, "mon"),
            ("trug order --save --drop ", Wanted::Needs, ""),
            ("trug import li", Wanted::Nothing, "li"),
            ("trug row note --even", Wanted::Nothing, "--even"),
            ("trug", Wanted::Nothing, "trug"),
            ("", Wanted::Nothing, ""),
        ] {
            let typed = typed(line);
            assert_eq!(
                (typed.wanted, typed.begun.as_str()),
                (wanted, begun),
                "{line}"
            );
        }
        assert_eq!(typed("trug --at=my row ").at.as_deref(), Some("my"));
        assert_eq!(
            typed("trug --at 'my garden' row ").at.as_deref(),
            Some("my garden")
        );
    }
}
