//! Tables in files, and what is made of their cells.

use jiff::civil::date;
use trug::colour::Vocabulary;
use trug::form::RuleSet;
use trug::measure::SizeUnits;
use trug::measure::day::Calendar;
use trug::stock::sheet::Filled as StockFilled;
use trug::stock::{Stock, StockContext};
use trug::table::workbook::WorkbookError;
use trug::table::{Table, decode, parse, workbook};
use trug::trial::sheet::Filled;
use trug::trial::{EntryContext, Seedling, Trial};
use trug::variety::Varieties;
use trug::variety::exchange::{Columns, Import, OwnWords, Terms, export};

const LIST: &str = include_str!("../../../catalogue/varieties.ron");

/// What the demo's list is read under.
struct Demo {
    list: Varieties,
    rules: RuleSet,
    words: Vocabulary,
    trial: Trial,
    stock: Stock,
}

thread_local! {
    static DEMO: Demo = Demo {
        list: Varieties::read("varieties.ron", LIST).expect("the demo's list"),
        rules: RuleSet::embedded().swap_remove(0),
        words: Vocabulary::embedded(),
        trial: Trial::of(
            ["26-001", "26-002"].map(|number| Seedling::numbered(number.parse().expect("a number"))).into(),
            Vec::new(),
        ).0,
        stock: trug::folder::stock::stock(None, &Trial::default()).expect("the demo's book").stock,
    };
}

/// Lists as spreadsheets write them.
pub(super) fn lists() -> Vec<Vec<u8>> {
    let few = DEMO.with(|demo| export(demo.list.list().iter().step_by(9).take(8)));
    let own = trug::table::write(few.iter().map(Vec::as_slice));
    let other = "Cultivar;Type;Height (cm);Price;Pack;Supplier;Order by\nHaaf Éclat;ball;90-120;4,50;3;Oar Bulbs;2027-02-28\n'=Haaf\" Test';pompon;3 to 4 ft;£4;1;Oar Bulbs;\n";
    let wide: Vec<u8> = other.encode_utf16().flat_map(u16::to_le_bytes).collect();
    vec![own, other.into(), [&b"\xff\xfe"[..], &wide].concat()]
}

/// Field sheets that were filled in.
pub(super) fn filled_sheets() -> Vec<Vec<u8>> {
    let text = "seedling,place,date,diameter (mm),stem (cm),vase,weather,note\n26-001,,2026-08-20,\"98,104\",60,\"7,6+\",wind:3/12,good\n26-002,,2026-08-21,100,,,,\"'=x\"\n";
    vec![text.into()]
}

pub(super) fn filled_stock_sheets() -> Vec<Vec<u8>> {
    let text = "plant,place,date,by,sold,price,given,promised,to,note\n24-001,byre,2026-11-20,Ann,3,4.50,,,quay stall,good\nTaing Stall,,2026-11-20,,,,,,,\n24-001,byre,,,,,,2,\"Jessie, next door\",\n";
    vec![text.into()]
}

fn table(bytes: &[u8]) -> Result<Table, String> {
    let (text, _) = decode(bytes)?;
    let (table, _) = parse(&text).map_err(|error| error.to_string())?;
    Ok(table)
}

pub(super) fn cells(bytes: &[u8]) -> Vec<String> {
    table(bytes).err().into_iter().collect()
}

pub(super) fn lists_in_cells(bytes: &[u8]) -> Vec<String> {
    let table = match table(bytes) {
        Ok(table) => table,
        Err(told) => return vec![told],
    };
    DEMO.with(|demo| {
        let own = OwnWords::default();
        let terms = Terms {
            rules: &demo.rules,
            colours: &demo.words,
            own: &own,
            supplier: None,
            pack: None,
        };
        let columns = match Columns::of(&table, &own) {
            Ok(columns) => columns,
            Err(told) => return vec![told],
        };
        let mut import = Import::of(&table, &columns, &demo.list, &terms);
        let _ = import.apply(&mut demo.list.clone());
        // A row has a sentence for each cell that is wrong.
        let sentences = import.bad.iter().flat_map(|bad| bad.told.split("; "));
        sentences.map(str::to_string).collect()
    })
}

pub(super) fn field_sheets(bytes: &[u8]) -> Vec<String> {
    let table = match table(bytes) {
        Ok(table) => table,
        Err(told) => return vec![told],
    };
    DEMO.with(|demo| {
        let grounds = EntryContext {
            rules: &demo.rules,
            list: &demo.list,
            words: &demo.words,
            units: SizeUnits::In,
            today: date(2026, 11, 29),
            day_is_told: true,
            bloom_days: None,
        };
        let read = Filled::of(
            &table,
            &demo.trial,
            &grounds,
            Some(date(2026, 8, 20)),
            Calendar::noting(date(2026, 9, 1), None),
        );
        let bad = read.err().into_iter().flatten();
        bad.map(|bad| bad.told).collect()
    })
}

pub(super) fn stock_sheets(bytes: &[u8]) -> Vec<String> {
    let table = match table(bytes) {
        Ok(table) => table,
        Err(told) => return vec![told],
    };
    DEMO.with(|demo| {
        let grounds = StockContext {
            trial: &demo.trial,
            list: &demo.list,
            today: date(2026, 11, 29),
        };
        let days = Calendar::noting(date(2026, 11, 29), None);
        let day = Some(date(2026, 11, 20));
        let read = StockFilled::of(&table, &demo.stock, &grounds, day, &days);
        let bad = read.err().into_iter().flatten();
        bad.map(|bad| bad.told).collect()
    })
}

pub(super) fn workbook(bytes: &[u8]) -> Vec<String> {
    match workbook::read(bytes, None) {
        Ok(_) => Vec::new(),
        Err(WorkbookError::Broken(found)) => vec![found.to_string()],
        // The names are quoted where they are told.
        Err(WorkbookError::NoSheet(names)) => {
            names.iter().map(|name| format!("{name:?}")).collect()
        }
        Err(WorkbookError::TooLarge(past)) => vec![past.to_string()],
    }
}
