//! A variety said once: what is known of it field by field, how well it fits each use, and at what it
//! is offered. Lists, pages and comparisons are drawn from this.

mod measures;

use super::evidence::Weather;
use super::fitness::Known;
use super::in_bloom::InBloom;
use super::index::price_a_stem;
use super::index_context::IndexContext;
use super::middles::Middles;
use super::rank::Ranked;
use super::record::{ColourNote, Offer, Variety};
use super::uses::Use;
use crate::account::{Cell, Column, Pair, Part, Section, Table};
use crate::colour::Vocabulary;
use crate::form::RuleSet;
use crate::form::traits::list_and;
use crate::measure::{SizeUnits, percent};

/// The account of a variety: its fields, of which what is unknown is [`Cell::Nothing`]; the table
/// `uses` with a row for each use, in which what is unknown counts as the middle of its list; the sentences `offers`.
pub fn account(
    variety: &Variety,
    context: IndexContext<'_>,
    middles: &Middles,
    units: SizeUnits,
) -> Section {
    Section::under(variety.name.as_str())
        .with(Part::Pairs(fields(variety, context, units)))
        .with(Part::Table(uses(variety, context, middles)))
        .with(Part::sentences("offers", variety.offers.iter().map(offer)))
}

/// A variety among others that were found, for a line of a list: what it is, and how near it comes to
/// what was asked. What is unknown says so, and what was not asked is [`Cell::Nothing`]. A program is told
/// besides what of its measures was `measured` here and what is `stated`.
pub fn in_brief(
    variety: &Variety,
    found: &Ranked,
    context: IndexContext<'_>,
    units: SizeUnits,
) -> Vec<Pair> {
    let rules = context.rules;
    let at = variety.form_under(rules);
    let form = at.map(|at| Cell::worded(&rules.forms[at].name, rules.forms[at].id.as_str()));
    let mut colours: Vec<String> = variety
        .colours
        .iter()
        .map(|note| note.colour.to_string())
        .collect();
    colours.dedup();
    let colours = (!colours.is_empty()).then(|| {
        let words: Vec<&str> = colours.iter().map(String::as_str).collect();
        Cell::worded(list_and(&words), Cell::list(words))
    });
    let or_unknown = |cell: Option<Cell>, words: &str| {
        cell.unwrap_or_else(|| Cell::worded(words, Cell::Nothing))
    };
    let fitness = |share: f64| {
        let words = format!("fitness {}", percent(share));
        Cell::worded(words, Cell::Share(share))
    };
    let distance = |far: f64| {
        let words = format!("{far:.1} from the colour");
        Cell::worded(words, Cell::Number(far, 1))
    };
    vec![
        Pair::new("form", "form", or_unknown(form, "form unknown")),
        Pair::new(
            "size",
            "size",
            or_unknown(measures::size_word(variety, rules, units), "size unknown"),
        ),
        Pair::new("colours", "colours", or_unknown(colours, "colour unknown")),
        Pair::new("fitness", "fitness", found.fitness.map(fitness)),
        Pair::new("distance", "distance", found.distance.map(distance)),
        Pair::data("in_bloom", in_bloom(variety, context)),
        Pair::data("size_known", measures::size_known(variety, rules)),
        Pair::data("measured", measures::measured(variety, units)),
        Pair::data("stated", measures::stated(variety)),
    ]
}

/// In which weeks it is in bloom, and what of that was seen.
pub fn in_bloom(variety: &Variety, context: IndexContext<'_>) -> Option<Cell> {
    let IndexContext { rules, season, .. } = context;
    let form = variety.form_under(rules);
    let form = form.map(|form| rules.forms[form].id.as_str());
    InBloom::of(variety, form, season).cell()
}

/// Always the same fields in the same order, so that several varieties can stand side by side.
fn fields(variety: &Variety, context: IndexContext<'_>, units: SizeUnits) -> Vec<Pair> {
    let IndexContext { rules, words, .. } = context;
    let money = |hundredths: f64| Cell::Number(hundredths / 100.0, 2);
    let price = price_a_stem(variety, context.stems_a_plant);
    vec![
        Pair::new("raiser", "raiser", variety.raiser.as_deref()),
        Pair::new("form", "form", form(variety, rules)),
        Pair::new("size", "size", measures::size(variety, rules, units)),
        Pair::new("diameter", "diameter", measures::diameter(variety, units)),
        Pair::new("colours", "colours", colours(variety, words)),
        Pair::new("height", "height", measures::height(variety, units)),
        Pair::new("stem", "stem", measures::stem(variety, units)),
        Pair::new(
            "foliage",
            "foliage",
            variety.foliage.map(|leaf| leaf.word()),
        ),
        Pair::new("vase_life", "vase life", measures::vase_life(variety)),
        Pair::new("in_bloom", "in bloom", in_bloom(variety, context)),
        Pair::new("weather", "weather", weather(&variety.weather)),
        Pair::new(
            "price_a_tuber",
            "price a tuber",
            variety.price_a_tuber().map(money),
        ),
        Pair::new("price_a_stem", "price a stem", price.map(money)),
        Pair::new("on_hand", "on hand", on_hand(variety)),
        Pair::data(
            "on_hand_counted",
            variety.store.and_then(|store| store.counted),
        ),
        Pair::new("protected", "protected", protected(variety)),
        Pair::new("notes", "notes", variety.notes.as_deref()),
        Pair::new("shortlist", "shortlist", shortlist(variety)),
    ]
}

/// The tubers on hand; with the day where the stock book counted them.
fn on_hand(variety: &Variety) -> Option<Cell> {
    let tubers = variety.on_hand?;
    let day = variety.store.and_then(|store| store.counted);
    Some(match day {
        Some(day) => Cell::worded(format!("{tubers} (the stock book's, of {day})"), tubers),
        None => tubers.into(),
    })
}

fn form(variety: &Variety, rules: &RuleSet) -> Option<Cell> {
    let form = &rules.forms[variety.form_under(rules)?];
    let noted = variety.form.as_ref();
    let known = noted.map_or("keyed", |form| form.known.word());
    let by = noted.and_then(|form| form.by.as_ref());
    let by = by.map_or(String::new(), |by| format!(" by {by}"));
    let words = format!("{} ({known}{by})", form.name);
    Some(Cell::worded(words, form.id.as_str()))
}

fn colours(variety: &Variety, words: &Vocabulary) -> Option<Cell> {
    let one = |note: &ColourNote| {
        let (part, pattern) = (note.part.word(), note.pattern.word());
        // A measured colour is a word too, the nearest one.
        let shown = match note.colour.target(words) {
            Ok(target) if target.name.is_none() => {
                let word = &words.word_for(target.centre).word;
                format!("{part} {word} {} ({pattern})", note.colour)
            }
            _ => format!("{part} {} ({pattern})", note.colour),
        };
        let figures = vec![
            ("colour", note.colour.to_string().into()),
            ("part", part.into()),
            ("pattern", pattern.into()),
        ];
        Cell::worded(shown, Cell::Record(figures))
    };
    let all = variety.colours.iter().map(one);
    (!variety.colours.is_empty()).then(|| Cell::list(all))
}

fn weather(all: &[Weather]) -> Option<Cell> {
    let one = |one: &Weather| {
        let kind = one.kind.word();
        let words = format!("{} of {} damaged by {kind}", one.damaged, one.open);
        let figures = vec![
            ("weather", kind.into()),
            ("damaged", one.damaged.into()),
            ("open", one.open.into()),
        ];
        Cell::worded(words, Cell::Record(figures))
    };
    (!all.is_empty()).then(|| Cell::list(all.iter().map(one)))
}

fn protected(variety: &Variety) -> Option<Cell> {
    let protected = variety.protected?;
    let word = Cell::Truth(protected).shown();
    Some(match &variety.licence {
        Some(licence) => Cell::worded(format!("{word}, licence {licence}"), protected),
        None => protected.into(),
    })
}

fn shortlist(variety: &Variety) -> Option<Cell> {
    let mark = variety.shortlist.as_ref()?;
    Some(match &mark.note {
        Some(note) => Cell::worded(note.as_str(), true),
        None => true.into(),
    })
}

/// How well it fits each use, by what is known and what its form leads one to expect.
fn uses(variety: &Variety, context: IndexContext<'_>, middles: &Middles) -> Table {
    let IndexContext { rules, uses, .. } = context;
    let known = Known::of(variety, rules, uses);
    let row = |(at, one): (usize, &Use)| {
        let fitness = known.fitness_among(one, middles.of(at)).map(Cell::Share);
        vec![one.name.as_str().into(), fitness.into()]
    };
    let columns = [
        Column::words("use", "use"),
        Column::figures("fitness", "fitness"),
    ];
    Table::of("uses", columns).with(uses.list().iter().enumerate().map(row))
}

fn offer(offer: &Offer) -> String {
    let pack = match offer.pack.get() {
        1 => "a tuber".to_string(),
        tubers => format!("for {tubers}"),
    };
    let left = match offer.available {
        None => String::new(),
        Some(0) => ", sold out".to_string(),
        Some(packs) => format!(", {packs} left"),
    };
    let closes = offer
        .closes
        .map_or(String::new(), |day| format!(", until {day}"));
    format!("{}: {} {pack}{left}{closes}", offer.supplier, offer.price)
}
