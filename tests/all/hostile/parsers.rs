//! Every parser of text, what real inputs it has, and what it says of one.

use std::path::Path;
use std::sync::LazyLock;
use std::{fs, iter};

use fastrand::Rng;
use jiff::civil::date;
use serde::de::DeserializeOwned;
use trug::colour::{Spec, Vocabulary};
use trug::folder::text::read_records;
use trug::folder::{row, settings::Settings, stock};
use trug::form::{Answers, RuleSet, Traits, part};
use trug::measure::day::{self, Calendar};
use trug::measure::{Exact, Length, Money};
use trug::order::{Item, Need, Pieces, Plan, Work};
use trug::paper::Paper;
use trug::problem::{self, Problem, read_ron};
use trug::tag::{Stock, read_offset};
use trug::trial::read::Reader;
use trug::trial::{
    Fate, Number, Parent, Release, Seedling, Shade, Sown, Subject, VaseStem, Visits,
};
use trug::variety::exchange::OwnWords;
use trug::variety::{Extent, NamingRules, Reach, Text, Uses, Varieties, Weather};

use super::{kept, shapes, tables};

/// A parser.
pub(super) struct Parser {
    pub(super) name: &'static str,
    /// Real inputs.
    pub(super) inputs: fn() -> Vec<Vec<u8>>,
    /// What is made of an input once it was changed: a workbook of its part.
    pub(super) pack: fn(Vec<u8>, &mut Rng) -> Vec<u8>,
    /// What is said of an input: each thing that is wrong, as the grower reads it.
    pub(super) read: Reads,
}

/// What a parser takes.
pub(super) enum Reads {
    /// Text; what is no text in an input is replaced, as an argument would have it.
    Text(fn(&str) -> Vec<String>),
    /// The bytes of a file.
    Bytes(fn(&[u8]) -> Vec<String>),
}

impl Parser {
    /// What it says of an input.
    pub(super) fn says(&self, input: &[u8]) -> Vec<String> {
        match self.read {
            Reads::Text(read) => read(&String::from_utf8_lossy(input)),
            Reads::Bytes(read) => read(input),
        }
    }
}

const TRAITS: &str = include_str!("../../../assets/traits.ron");
const ORDER: &str = include_str!("../../../catalogue/order.ron");
const ROW: &str = include_str!("../../../catalogue/trial.ron");
const JOURNAL: &str = include_str!("../../../catalogue/trial.journal");
const STOCK: &str = include_str!("../../../catalogue/stock.journal");
const LIST: &str = include_str!("../../../catalogue/varieties.ron");

pub(super) fn all() -> Vec<Parser> {
    vec![
        of(
            "answers",
            || lines(ANSWERS),
            |text| {
                let words: Vec<&str> = text.split_whitespace().collect();
                told(Answers::read(&words, &TABLE))
            },
        ),
        of(
            "colours",
            || lines(COLOURS),
            |text| {
                let words = &COLOUR_WORDS;
                let spec = told(text.parse::<Spec>());
                let asked = [told(words.asked(text)), told(words.one(text))].concat();
                let target = told(words.target(text));
                spec.into_iter().chain(target).chain(asked).collect()
            },
        ),
        of(
            "days",
            || lines(TYPED_DAYS),
            |text| {
                [
                    told(day::read(text)),
                    told(text.parse::<Sown>()),
                    told(day::typed(text, &DAYS)),
                    told(day::leading(text, &DAYS)),
                    told(day::weeks(text, &DAYS)),
                ]
                .concat()
            },
        ),
        of(
            "notes",
            || lines(NOTES),
            |text| {
                let traits = &*TABLE;
                let bare = [None, Some(trug::measure::SizeUnits::In)];
                let read = |bare| {
                    told(
                        Reader {
                            traits,
                            bare,
                            days: *DAYS,
                        }
                        .read_line(text),
                    )
                };
                bare.map(read).concat()
            },
        ),
        of(
            "stock_notes",
            || lines(STOCK_NOTES),
            |text| told(trug::stock::read::Draft::read_line(text, &DAYS)),
        ),
        of(
            "needs",
            || lines(NEEDS),
            |text| {
                let plan = &*PLAN;
                let changed = told(plan.needs[0].with(text, &DAYS));
                let Ok(need) = Need::read(text, &DAYS) else {
                    return [changed, told(Need::read(text, &DAYS))].concat();
                };
                let mut plan = plan.clone();
                plan.needs.push(need);
                [changed, plan.problems()].concat()
            },
        ),
        of(
            "work",
            || lines(WORK),
            |text| {
                let both = [Work::read_event(text, &DAYS), Work::read_round(text, &DAYS)];
                let mut plan = PLAN.clone();
                let mut all = Vec::new();
                for read in both {
                    match read {
                        Ok(work) => {
                            all.extend(told(work.with(text, &DAYS)));
                            plan.work.push(work);
                        }
                        Err(error) => all.push(error),
                    }
                }
                let whole = plan.whole(&PIECES, &|_| Some(5.0));
                let wrong = whole.err().unwrap_or_default().into_iter();
                all.extend(plan.problems());
                all.extend(wrong.map(|one| problem::told(&one.message)));
                all
            },
        ),
        of(
            "figures",
            || lines(FIGURES),
            |text| {
                let _ = part::read(text);
                [
                    told(text.parse::<Exact>()),
                    told(text.parse::<Length>()),
                    told(text.parse::<Money>()),
                    told(text.parse::<Extent>()),
                    told(text.parse::<Reach>()),
                    told(text.parse::<Weather>()),
                    told(text.parse::<VaseStem>()),
                    told(text.parse::<Visits>()),
                    told(text.parse::<Shade>()),
                    told(text.parse::<Number>()),
                    told(text.parse::<Subject>()),
                    told(text.parse::<Parent>()),
                    told(text.parse::<Fate>()),
                    told(read_offset(text)),
                    told(Text::new(text)),
                ]
                .concat()
            },
        ),
        of(
            "plan_figures",
            || lines(PLAN_FIGURES),
            |text| {
                let plan = &*PLAN;
                let (at, text) = text.split_once('|').unwrap_or(("0", text));
                let items = Item::all(plan);
                let item = items[at.parse::<usize>().unwrap_or(0) % items.len()];
                match item.set(plan, text.trim(), &DAYS) {
                    Err(wrong) => vec![wrong],
                    Ok(changed) => {
                        let units = trug::measure::SizeUnits::In;
                        for item in Item::all(&changed) {
                            let _ = (item.value(&changed, units), item.step(&changed, 1, units));
                        }
                        changed.problems()
                    }
                }
            },
        ),
        of(
            "the_list",
            || pieces(LIST, 8),
            |text| {
                let records = read_records::<trug::variety::Variety>("varieties.ron", text);
                [
                    told(records),
                    all_told(Varieties::read("varieties.ron", text)),
                ]
                .concat()
            },
        ),
        of(
            "the_order",
            || vec![ORDER.into()],
            |text| all_told(Plan::read("order.ron", text)),
        ),
        of(
            "the_settled",
            || vec![include_str!("../../../catalogue/order.settled.ron").into()],
            ron::<Vec<trug::order::Kept>>,
        ),
        of(
            "the_row",
            || pieces(ROW, 6),
            |text| told(read_records::<Seedling>("trial.ron", text)),
        ),
        of("settings", || lines(SETTINGS), ron::<Settings>),
        of("own_words", || lines(OWN_WORDS), ron::<OwnWords>),
        of(
            "kept",
            || [vec![ORDER.into()], pieces(LIST, 8)].concat(),
            kept::saved,
        ),
        of(
            "traits",
            || vec![TRAITS.into()],
            |text| all_told(Traits::read("traits.ron", text)),
        ),
        of("rules", rule_sets, |text| {
            all_told(RuleSet::read("rules/own.ron", text, &TABLE))
        }),
        of(
            "uses",
            || vec![include_str!("../../../assets/uses.ron").into()],
            |text| all_told(Uses::read("uses.ron", text)),
        ),
        of(
            "pieces",
            || vec![include_str!("../../../assets/pieces.ron").into()],
            |text| all_told(Pieces::embedded().with_own("pieces.ron", text)),
        ),
        of(
            "colour_words",
            || pieces(include_str!("../../../assets/colours.ron"), 12),
            |text| told(Vocabulary::from_ron(text)),
        ),
        of(
            "tags",
            || vec![include_str!("../../../assets/tags.ron").into()],
            |text| told(Stock::read("tags.ron", text)),
        ),
        of(
            "papers",
            || vec![include_str!("../../../assets/papers.ron").into()],
            |text| told(Paper::read("papers.ron", text)),
        ),
        of(
            "release",
            || vec![include_str!("../../../assets/release.ron").into()],
            |text| all_told(Release::read("release.ron", text)),
        ),
        of(
            "naming",
            || vec![include_str!("../../../assets/naming.ron").into()],
            |text| told(NamingRules::read("naming.ron", text)),
        ),
        Parser {
            name: "journal",
            inputs: || pieces(JOURNAL, 6),
            pack: as_it_is,
            read: Reads::Bytes(|bytes| journal(JOURNALS.path(), bytes)),
        },
        Parser {
            name: "stock_journal",
            inputs: || pieces(STOCK, 6),
            pack: as_it_is,
            read: Reads::Bytes(|bytes| stock_journal(JOURNALS.path(), bytes)),
        },
        Parser {
            name: "cells",
            inputs: tables::lists,
            pack: as_it_is,
            read: Reads::Bytes(tables::cells),
        },
        Parser {
            name: "lists_in_cells",
            inputs: tables::lists,
            pack: as_it_is,
            read: Reads::Bytes(tables::lists_in_cells),
        },
        Parser {
            name: "field_sheets",
            inputs: tables::filled_sheets,
            pack: as_it_is,
            read: Reads::Bytes(tables::field_sheets),
        },
        Parser {
            name: "stock_sheets",
            inputs: tables::filled_stock_sheets,
            pack: as_it_is,
            read: Reads::Bytes(tables::stock_sheets),
        },
        Parser {
            name: "xlsx",
            inputs: || {
                let parts = shapes::parts(&shapes::xlsx()).into_iter();
                parts
                    .map(|(_, part)| part)
                    .chain([shapes::xlsx()])
                    .collect()
            },
            pack: shapes::xlsx_with,
            read: Reads::Bytes(tables::workbook),
        },
        Parser {
            name: "ods",
            inputs: || vec![shapes::ods_content(ODS_ROWS).into()],
            pack: |content, _| shapes::ods(&content),
            read: Reads::Bytes(tables::workbook),
        },
    ]
}

const ANSWERS: &str = "centre=closed tip=flat florets=double\ncentre=disc rows=1 diameter=98mm\nroll=half breadth=62.5 diameter=98mm,104mm,3 1/2 in\ncentre=? tip=?\ntip=pointed,notched depth=60-80 diameter=90-120mm\nroll=over 3/4 breadth=under half";
const COLOURS: &str = "plum with a white tip\nred (main, tipped); white (second, tipped)\nwhite-tipped plum, reverse:lab(60, 20, 30)\npink and cream blend\nplum\n#ff00aa\n#fc0\nlab(60 20 -3.5)\nlab(83, 14, 24)\nwarm\npinks\nlight peach\nlch(50 30 270)";
const TYPED_DAYS: &str = "2027-04-29\n2026\n 1999-02-28 \n20 Aug 2026 Ann\nFriday, 20th of August 26\n20.8.\n03/04/2027\nyesterday\nweek 33\n2026-W33-5\nfrom 20 Aug to 5 Sep\nweek 30 to 42\nAug 20-25";
const NOTES: &str = "diameter=98mm,104mm vase=7,8,6,6+ weather=wind:3/12 note=\"good stems\"\ndate=2026-08-20 by=Ann centre=closed tip=? colour=peach,second:#ffcc99\ndecide=keep reason=\"holds in rain\" date=2026-09-30\ncorrects=4 stem=60cm,24in height=1.2m open=12 visits=7/10min\nwithdraw=12\ndate=20.8.2026 cut=3\ncut=1 date=\"Thu, 20 Aug\"\ntubers=9 sound=7 plants=3 cut=24 novelty=yes\ncolour=lab(60, 20, 30),reverse:lab(1 2 3)";
const STOCK_NOTES: &str = "lifted=12 divided=43 stored=43 place=byre\ndate=2026-01-11 lost=3 why=\"dried out\" by=Ann\nsold=31 price=4.50 to='quay stall' corrects=4\npromised=5 to=Jessie year=2025\nsound=40 keep=9 note=\"good ones\"\npotted=4 planted=3 cuttings=2 given=1\nwithdraw=12";
const NEEDS: &str = "harvest supper: 20 36-38 colours=warm,lab(83 14 24) within=8 use=low-bowl\nquay: 80 33-41 varieties=4 most=40 each=3\nx: 1 30-30 forms=ball,pompon different=2 fitness=0.5 name=other\n60 30-42 within=8 colours=plum,wine\nuse=tuck-in fitness=0.7";
const WORK: &str = "Berry wedding: 2027-09-12 12 table bowl, 3 large vase, 1 bride's bunch, 8 buttonhole colours=plum,lab(83 14 24) within=8\nquay stall: fridays 10 market bunch 2027-08-13 to 2027-10-01 colours=warm cut=1 sure=0.9\nx: every sat 13 Aug 2027 - 1 Oct 3 jars and 2 arches\n14 table bowls, 0 jar 19 Sep\npieces=1 jar,2 arch on=Sunday 12 September name=other every=fri from=2027-08-13 to=1 Oct";
const FIGURES: &str = "7\n62.5\n2 1/2\n3½\n98mm\n3-1/2\"\n90-120cm\n3 to 4 ft\n4.50\nwind:3/12\n6+\n7/10min\nsecond:#ffcc99\n26-014\nHaaf Light\nopen-pollinated\nkeep\n1.5,-2\nhalf\nover 3/4";
const PLAN_FIGURES: &str = "0|60 30-42 within=8\n7|480.50\n8|24m width=1.2m spacing=40cm rows=2\n11|2027-05-20\n12|potted\n13|10\n14|0.9\n15|0.4, 0.7, 1\n16|6\n11|29 Apr\n0|60 from 20 Aug to 5 Sep use=low bowl\n22|closes=28 Feb 2027 free=250\n17|12\n18|80\n19|2027-05-14\n20|2027-10-20\n21|2027-01-20\n22|7.50 free=250 least=20 closes=2027-02-28\n24|stellar, orchid\n25|yes\n13|2000000";
const SETTINGS: &str =
    "(rules: \"trade-inch\", units: mm, stems_a_plant: 8.0)\n()\n(stems_a_plant: 12)";
const OWN_WORDS: &str = "(headings: {\"Cultivar\": \"name\"}, forms: {\"formal\": \"formal-decorative\"}, colours: {\"lav\": \"lavender\"})\n()";
const ODS_ROWS: &str = r#"<table:table-row table:number-rows-repeated="2"><table:table-cell office:value-type="string"><text:p>Variety<text:s text:c="2"/>of &amp; &#233;</text:p></table:table-cell><table:table-cell table:number-columns-repeated="3" office:value-type="float" office:value="4.5"><text:p>4.50</text:p></table:table-cell></table:table-row><table:table-row><table:table-cell office:value-type="date" office:date-value="2027-02-28"><office:annotation><text:p>no</text:p></office:annotation><text:p>28/02</text:p></table:table-cell><table:table-cell office:value-type="boolean" office:boolean-value="true"/><table:table-cell table:number-columns-repeated="1000"/></table:table-row>"#;

static TABLE: LazyLock<Traits> = LazyLock::new(Traits::embedded);
static COLOUR_WORDS: LazyLock<Vocabulary> = LazyLock::new(Vocabulary::embedded);
static DAYS: LazyLock<Calendar> =
    LazyLock::new(|| Calendar::noting(date(2027, 2, 3), None).planning(2027));
static PIECES: LazyLock<Pieces> = LazyLock::new(Pieces::embedded);
static PLAN: LazyLock<Plan> =
    LazyLock::new(|| Plan::read("order.ron", ORDER).expect("the demo's order"));
static JOURNALS: LazyLock<tempfile::TempDir> =
    LazyLock::new(|| tempfile::tempdir().expect("a place"));

/// A parser of text.
fn of(name: &'static str, inputs: fn() -> Vec<Vec<u8>>, read: fn(&str) -> Vec<String>) -> Parser {
    Parser {
        name,
        inputs,
        pack: as_it_is,
        read: Reads::Text(read),
    }
}

fn as_it_is(input: Vec<u8>, _: &mut Rng) -> Vec<u8> {
    input
}

fn lines(text: &str) -> Vec<Vec<u8>> {
    text.lines().map(Into::into).collect()
}

/// A list of records, one a line, cut into lists of so many.
fn pieces(text: &str, records: usize) -> Vec<Vec<u8>> {
    let (head, rest): (Vec<&str>, Vec<&str>) =
        text.lines().partition(|line| !line.starts_with("  ("));
    let of_list = !head.is_empty() && !rest.is_empty();
    let lines: Vec<&str> = if of_list {
        rest
    } else {
        text.lines().collect()
    };
    let piece = |lines: &[&str]| match of_list {
        true => format!("[\n{}\n]\n", lines.join("\n")),
        false => lines.join("\n") + "\n",
    };
    lines
        .chunks(records)
        .take(40)
        .map(|lines| piece(lines).into())
        .collect()
}

fn rule_sets() -> Vec<Vec<u8>> {
    vec![
        include_str!("../../../assets/rules/trade-inch.ron").into(),
        include_str!("../../../assets/rules/register-mm.ron").into(),
    ]
}

fn ron<T: DeserializeOwned>(text: &str) -> Vec<String> {
    told(read_ron::<T>("settings.ron", text))
}

fn told<T>(read: Result<T, impl std::fmt::Display>) -> Vec<String> {
    read.err()
        .map(|wrong| wrong.to_string())
        .into_iter()
        .collect()
}

fn all_told<T>(read: Result<T, Vec<Problem>>) -> Vec<String> {
    let problems = read.err().into_iter().flatten();
    problems.map(|problem| problem.to_string()).collect()
}

/// The stock book of a folder with such a journal.
fn stock_journal(folder: &Path, bytes: &[u8]) -> Vec<String> {
    fs::write(folder.join(stock::STOCK), bytes).expect("writes");
    match stock::stock(Some(folder), &trug::trial::Trial::default()) {
        Ok(read) => read.problems,
        Err(wrong) => iter::once(wrong.to_string()).collect(),
    }
}

/// The row of a folder with such a journal.
fn journal(folder: &Path, bytes: &[u8]) -> Vec<String> {
    fs::write(folder.join("trial.journal"), bytes).expect("writes");
    match row::row(Some(folder)) {
        Ok(read) => read.problems.iter().map(ToString::to_string).collect(),
        Err(wrong) => iter::once(wrong.to_string()).collect(),
    }
}
