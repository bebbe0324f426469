//! The accounts of the stock book: everybody's tubers as a table, and one plant's in full. The same in the
//! command, on the screen, in files and for programs.

mod plan;

pub use plan::plan_account;

use super::hoard::Hoard;
use super::lifting::{Lifting, Promise};
use super::losses::{LEAST_WINTERED, Losses, StoreLoss};
use super::sums::Stock;
use crate::account::text::counted;
use crate::account::{Cell, Column, Pair, Part, Section, Table};
use crate::book::Entry as _;
use crate::measure::percent;
use crate::measure::sample::Interval;
use crate::trial::account::share;
use crate::trial::{Subject, share_in_words};
use crate::variety::Text;

impl Stock {
    /// Everybody's tubers, a row for each plant and year of lifting: of each plant the last, or those of one
    /// year; what they come to, and what the winters took.
    pub fn account(&self, year: Option<i16>) -> Vec<Section> {
        let rows = self.subjects().into_iter().flat_map(|subject| {
            let liftings = self.liftings(&subject).into_iter();
            let wanted = liftings.filter(|one| year.is_none_or(|year| one.year == year));
            let most = if year.is_none() { 1 } else { usize::MAX };
            let wanted: Vec<Lifting> = wanted.take(most).collect();
            wanted.into_iter().map(move |one| (subject.clone(), one))
        });
        let rows: Vec<(Subject, Lifting)> = rows.collect();
        let mut all = Hoard::default();
        rows.iter().for_each(|(_, one)| all.add(&one.all()));
        let free: u64 = rows.iter().map(|(_, one)| one.free()).sum();
        let sums = vec![
            Pair::new("in_store", "in store", all.tubers()),
            Pair::new("in_pots", "in pots", all.pots),
            Pair::new("free", "free to sell", free),
            Pair::new("sold", "sold", all.sold),
            Pair::new("takings", "for", all.takings),
            Pair::new("lost", "lost", all.lost),
        ];
        let cells = rows.iter().map(|(subject, one)| row(subject, one));
        let table = Table::of("plants", columns()).with(cells);
        let sums = match rows.is_empty() {
            true => Vec::new(),
            false => sums,
        };
        let whole = Section::under("The stock book")
            .with(Part::Table(table))
            .with(Part::Sums("all", sums));
        let losses = self.losses();
        vec![whole, self.winters(&losses)]
    }

    /// What the winters took: each plant as counted, and as it would be of many.
    fn winters(&self, losses: &Losses) -> Section {
        let columns = [
            Column::words("plant", "plant"),
            Column::figures("lost", "lost"),
            Column::figures("of", "of"),
            Column::figures("share", "share"),
            Column::words("counted", "95 %"),
            Column::figures("expected", "expected"),
            Column::words("expected_limits", "95 %"),
        ];
        let own = self.subjects().into_iter().filter_map(|subject| {
            let loss = losses.of_plant(&subject);
            (loss.own.of() > 0).then(|| (subject.to_string(), loss))
        });
        let mut rows: Vec<Vec<Cell>> = own.map(|(name, loss)| winter_row(&name, &loss)).collect();
        if !rows.is_empty() {
            rows.push(winter_row("any other", &losses.of_new()));
        }
        let all = losses.all();
        let mut told = Vec::new();
        if all.of() > 0 {
            told.push(format!("Lost in all: {}.", share_in_words(all)));
            told.push(EXPECTED.to_string());
        }
        if all.of() > 0 && !losses.is_telling() {
            told.push(format!(
                "The order does not go by it yet: {} came through a winter, and {LEAST_WINTERED} are wanted.",
                counted(all.of() as usize, "tuber")
            ));
        }
        Section::under("Lost in store over the winter")
            .with(Part::Table(Table::of("winters", columns).with(rows)))
            .with(Part::sentences("", told))
            .with(Part::Pairs(vec![Pair::data("all_winters", share(all))]))
    }

    /// One plant: each lifting by place, what is promised and may be sold, its losses by what the winters took of
    /// [everybody's](Stock::losses), and its entries.
    pub fn account_of(&self, subject: &Subject, losses: &Losses) -> Vec<Section> {
        let liftings = self.liftings(subject);
        let mut sections = vec![Section::default().with(Part::Pairs(vec![Pair::new(
            "id",
            "",
            subject.to_string(),
        )]))];
        let rows = liftings.iter().map(|one| row(subject, one));
        sections.push(Section::default().with(Part::Pairs(vec![Pair::data(
            "liftings",
            Cell::list(rows.map(|row| as_record(&row))),
        )])));
        sections.extend(liftings.iter().map(lifting_section));
        let loss = losses.of_plant(subject);
        sections.push(loss_section(&loss));
        sections.push(self.entries_of(subject));
        sections
    }

    fn entries_of(&self, subject: &Subject) -> Section {
        let columns = [
            Column::figures("entry", "entry"),
            Column::words("date", "day"),
            Column::words("told", "what"),
            Column::words("words", "words").seen(crate::account::Seen::AsData),
            Column::figures("lifting", "lifting").seen(crate::account::Seen::AsData),
            Column::words("counts", "").seen(crate::account::Seen::AsData),
        ];
        let book = self.book().book_of(subject);
        let rows = book.iter().map(|(entry, ended)| {
            let why = ended.map(|by| match by.withdraws() {
                true => format!(" (withdrawn by entry {})", by.id),
                false => format!(" (corrected by entry {})", by.id),
            });
            let beside = [entry.by.as_ref(), entry.place.as_ref()];
            let beside: Vec<&str> = beside.iter().flatten().map(|one| one.as_str()).collect();
            let lead = match beside.is_empty() {
                true => String::new(),
                false => format!("{}: ", beside.join(", ")),
            };
            let told = format!("{lead}{}{}", entry.what_told(), why.unwrap_or_default());
            vec![
                entry.id.into(),
                entry.date.into(),
                told.into(),
                entry.print().into(),
                Cell::Count(u64::from(entry.lifting().unsigned_abs())),
                ended.is_none().into(),
            ]
        });
        Section::under("Entries").with(Part::Table(Table::of("entries", columns).with(rows)))
    }
}

/// What the figure of a winter means.
const EXPECTED: &str = "'expected' is the share of many such tubers that would be lost: a plant of which few were \
     stored is taken to be much like the others. Losses are counted of tubers that were lost, or were there or left \
     the store in the new year.";

fn columns() -> [Column; 15] {
    [
        Column::words("plant", "plant"),
        Column::figures("lifting", "lifted"),
        Column::figures("clumps", "clumps"),
        Column::figures("divided", "divided").seen(crate::account::Seen::AsData),
        Column::figures("in_store", "store"),
        Column::figures("in_pots", "pots"),
        Column::figures("promised", "promised"),
        Column::figures("kept_back", "kept"),
        Column::figures("free", "free"),
        Column::figures("price", "price"),
        Column::figures("sold", "sold"),
        Column::figures("takings", "for"),
        Column::figures("lost", "lost"),
        Column::figures("given", "given").seen(crate::account::Seen::AsData),
        Column::words("counted", "counted"),
    ]
}

fn row(subject: &Subject, lifting: &Lifting) -> Vec<Cell> {
    let all = lifting.all();
    vec![
        subject.to_string().into(),
        Cell::Count(u64::from(lifting.year.unsigned_abs())),
        all.clumps.into(),
        all.divided.into(),
        all.tubers().into(),
        all.pots.into(),
        lifting.promised().into(),
        lifting.keep.into(),
        lifting.free().into(),
        lifting.price.into(),
        all.sold.into(),
        all.takings.into(),
        all.lost.into(),
        all.given.into(),
        lifting.counted.into(),
    ]
}

fn as_record(row: &[Cell]) -> Cell {
    let ids = [
        "plant",
        "lifting",
        "clumps",
        "divided",
        "in_store",
        "in_pots",
        "promised",
        "kept_back",
        "free",
        "price",
        "sold",
        "takings",
        "lost",
        "given",
        "counted",
    ];
    // The plant's own name stands over all.
    Cell::Record(ids.into_iter().zip(row.iter().cloned()).skip(1).collect())
}

fn lifting_section(lifting: &Lifting) -> Section {
    let places = lifting.places.iter();
    let columns = [
        Column::words("place", "place"),
        Column::figures("clumps", "clumps"),
        Column::figures("divided", "divided"),
        Column::figures("store", "in store"),
        Column::figures("pots", "in pots"),
        Column::figures("lost", "lost"),
        Column::figures("sold", "sold"),
        Column::figures("takings", "for"),
        Column::figures("given", "given"),
        Column::figures("planted", "planted"),
    ];
    let cells = |(place, own): (&Option<Text>, &Hoard)| {
        let place: Cell = match place {
            Some(place) => place.as_str().into(),
            None => Cell::worded("no place noted", Cell::Nothing),
        };
        vec![
            place,
            own.clumps.into(),
            own.divided.into(),
            own.tubers().into(),
            own.pots.into(),
            own.lost.into(),
            own.sold.into(),
            own.takings.into(),
            own.given.into(),
            own.planted.into(),
        ]
    };
    let head = match lifting.counted {
        Some(day) if lifting.is_count => format!("Lifted in {}, counted on {day}", lifting.year),
        Some(day) => format!("Lifted in {}, last noted on {day}", lifting.year),
        None => format!("Lifted in {}", lifting.year),
    };
    Section::under(head)
        .with(Part::Table(Table::of("", columns).with(places.map(cells))))
        .with(Part::sentences("", told_of(lifting)))
}

fn told_of(lifting: &Lifting) -> Vec<String> {
    let (here, free) = (lifting.here(), lifting.free());
    let price = lifting
        .price
        .map_or(String::new(), |price| format!(" at {price} each"));
    let mut told = Vec::new();
    let promised: Vec<String> = lifting.promises.iter().map(promise).collect();
    if !promised.is_empty() {
        told.push(format!("Promised: {}.", promised.join(", ")));
    }
    if let Some(keep) = lifting.keep {
        told.push(format!("Kept back: {keep}."));
    }
    let bound = lifting.promised() + lifting.kept();
    told.push(match (bound > here, here) {
        (true, _) => {
            format!("{bound} are promised or kept back, and {here} are here: none is free to sell.")
        }
        (false, 0) => "None is left.".to_string(),
        (false, _) => format!("Free to sell: {free} of {here}{price}."),
    });
    if !lifting.reasons.is_empty() {
        let reasons = lifting.reasons.iter();
        let reasons: Vec<String> = reasons
            .map(|(why, count)| format!("{count} {why}"))
            .collect();
        told.push(format!("Lost: {}.", reasons.join(", ")));
    }
    told
}

fn promise(one: &Promise) -> String {
    let to = one
        .to
        .as_ref()
        .map_or(String::new(), |to| format!(" to {to}"));
    format!("{}{to}", one.count)
}

fn loss_section(loss: &StoreLoss) -> Section {
    let told = match loss.own.of() {
        0 => vec![
            "Nothing of it has come through a winter that was counted yet.".to_string(),
            format!(
                "With what the whole store shows {} would be lost.",
                expected(loss)
            ),
        ],
        _ => vec![
            format!("Lost: {}.", share_in_words(loss.own)),
            format!(
                "Of many such tubers, with what the whole store shows, {} would be lost.",
                expected(loss)
            ),
        ],
    };
    Section::under("Over the winter")
        .with(Part::sentences("", told))
        .with(Part::Pairs(vec![
            Pair::data("winter", share(loss.own)),
            Pair::data("expected", estimate(loss)),
        ]))
}

fn winter_row(name: &str, loss: &StoreLoss) -> Vec<Cell> {
    let counted = loss.own.limits();
    let none = loss.own.of() == 0;
    let limits = |limits: Interval| {
        let data = Cell::list([Cell::Share(limits.low), Cell::Share(limits.high)]);
        Cell::worded(between(limits), data)
    };
    vec![
        name.into(),
        if none {
            Cell::Nothing
        } else {
            loss.own.hit().into()
        },
        if none {
            Cell::Nothing
        } else {
            loss.own.of().into()
        },
        loss.own.value().map(Cell::Share).into(),
        if none { Cell::Nothing } else { limits(counted) },
        Cell::Share(loss.share),
        limits(loss.limits),
    ]
}

fn estimate(loss: &StoreLoss) -> Cell {
    Cell::Record(vec![
        ("share", Cell::Share(loss.share)),
        ("low", Cell::Share(loss.limits.low)),
        ("high", Cell::Share(loss.limits.high)),
    ])
}

fn expected(loss: &StoreLoss) -> String {
    format!("{} (95 %: {})", percent(loss.share), between(loss.limits))
}

/// `1 to 19 %`.
fn between(limits: Interval) -> String {
    format!("{:.0} to {:.0} %", limits.low * 100.0, limits.high * 100.0)
}
