//! Pages as files, for programs that know nothing of us: `tests/outside/paper_prints.py` holds them
//! against `expected.json`, both written here.

use std::fs;
use std::path::PathBuf;

use jiff::ToSpan;
use jiff::civil::date;
use kurbo::{Affine, BezPath, Rect};
use trug::chart::{Limit, Piece, Points, Stack, Stacks, Step, Steps};
use trug::colour::Srgb;
use trug::geometry::{Outline, Stroke};
use trug::order::report::{Chart, ChartWeek};
use trug::paper::{
    Align, Column, Drawing, Item, Margins, Orientation, Page, Paper, Printable, Setup, Squares,
    Style, Table, TextLine,
};

use crate::common::printed::write;

fn paper(id: &str) -> Paper {
    Paper::named(id).expect("a size of the program")
}

fn line(text: &str, style: Style, x: f64, y: f64) -> TextLine {
    let text = Printable::new(text).expect("a text that can be printed");
    TextLine::new(text, style, (x, y))
}

/// A place so many degrees clockwise.
fn at(x: f64, y: f64, turn: f64) -> Affine {
    Affine::translate((x, y)) * Affine::rotate(turn.to_radians())
}

/// Every alphabet and sign, every weight, alignment and turn, and drawings in colour.
fn everything() -> Page {
    let setup = Setup::new(
        &paper("a4"),
        Orientation::Portrait,
        Margins::even(10.0),
        (1.5, -0.5),
    );
    let setup = setup.expect("a page");
    let frame = Outline::of(setup.room()).stroked(Stroke::new(Srgb::grey(120), 0.2));
    let mut items = vec![frame.into()];
    for (at, text) in [
        "\u{2018}Skerry Lantern\u{2019}, formal decorative, 98 mm",
        "Åse Örjansdotter, Łódź, Şükrü, Reykjavík, Đặng, Žižka, Ħal Għargħur",
        "Ντάλια του νησιού, Георгина острова, Жоржина Єви",
        "½ in × 25.4 mm = 12.7 mm; −3 °C ≤ t ≤ 20 °C → keep; ±4 mm; £3.50, €4…",
        "<angle> & \"ampersand\" 'quote' \\ back ( slash ) % # $ { } [ ]",
    ]
    .into_iter()
    .enumerate()
    {
        let y = 25.0 + at as f64 * 12.0;
        items.push(line(text, Style::regular(11.0), 15.0, y).into());
        items.push(line(text, Style::bold(8.0), 15.0, y + 5.0).into());
    }
    for (at, align) in [Align::Left, Align::Centre, Align::Right]
        .into_iter()
        .enumerate()
    {
        let y = 95.0 + at as f64 * 8.0;
        let words = ["starts here", "middle here", "ends here"][at];
        items.push(
            line(words, Style::bold(14.0), 105.0, y)
                .aligned(align)
                .into(),
        );
    }
    let upright = Stroke::new(Srgb::BLACK, 0.1);
    items.push(Outline::line((105.0, 88.0), (105.0, 114.0), upright).into());
    for (turn, word) in [
        (0.0, "upright"),
        (90.0, "down"),
        (180.0, "upside"),
        (270.0, "rising"),
    ] {
        let turned = line(word, Style::bold(20.0), 0.0, 0.0);
        items.push(Item::from(turned).placed(at(60.0, 160.0, turn)));
    }
    let petal = |at: u8| {
        let (sin, cos) = (f64::from(at) * std::f64::consts::TAU / 12.0).sin_cos();
        let to = |along: f64, across: f64| (along * cos - across * sin, along * sin + across * cos);
        let mut path = BezPath::new();
        path.move_to(to(4.0, 0.0));
        path.curve_to(to(10.0, 7.0), to(22.0, 6.0), to(26.0, 0.0));
        path.curve_to(to(22.0, -6.0), to(10.0, -7.0), to(4.0, 0.0));
        path.close_path();
        Outline::of(path)
            .filled(Srgb::new(240, 150 + 5 * at, 120))
            .stroked(Stroke::new(Srgb::new(120, 40, 30), 0.25))
    };
    let bloom = |place| Drawing {
        outlines: (0..12).map(petal).collect(),
        place,
    };
    items.push(bloom(at(150.0, 145.0, 0.0)).into());
    items.push(bloom(at(80.0, 225.0, 90.0) * Affine::scale(0.8)).into());
    let rows: Vec<Vec<bool>> = (0..25_u32)
        .map(|y| {
            (0..25_u32)
                .map(|x| (x * y + x / 3 + y / 2) % 3 != 0)
                .collect()
        })
        .collect();
    let code = Squares {
        rows: rows.into(),
        place: at(20.0, 210.0, 0.0) * Affine::scale(0.8),
        ink: Srgb::BLACK,
    };
    items.push(code.into());
    let frame = Outline::of(Rect::new(120.0, 210.0, 180.0, 240.0));
    let frame = frame.filled(Srgb::new(210, 225, 240));
    items.push(frame.stroked(Stroke::new(Srgb::BLACK, 1.0)).into());
    setup.page(&items)
}

/// Every letter of Unicode's blocks of Latin with accents that the fonts have, both weights.
fn latin() -> Page {
    let setup = Setup::new(
        &paper("a4"),
        Orientation::Portrait,
        Margins::even(10.0),
        (0.0, 0.0),
    );
    let letters = ('\u{c0}'..='\u{24f}').chain('\u{1e00}'..='\u{1eff}');
    let letters: Vec<char> = letters
        .filter(|letter| letter.is_alphabetic())
        .filter(|letter| Printable::new(&letter.to_string()).is_ok())
        .collect();
    let mut items = Vec::new();
    for (at, row) in letters.chunks(40).enumerate() {
        let row: String = row.iter().collect();
        let y = 18.0 + at as f64 * 12.0;
        items.push(line(&row, Style::regular(10.0), 12.0, y).into());
        items.push(line(&row, Style::bold(10.0), 12.0, y + 5.5).into());
    }
    setup.expect("a page").page(&items)
}

/// A sheet of counts for 23 seedlings, or one of traits, which is wider than any page.
fn sheet(title: &str, columns: &[(&str, &str, f64)]) -> Table {
    let rows = (1..=23).map(|number| {
        let name = match number {
            7 => "Skerry Lantern".to_string(),
            number => format!("26-{number:03}"),
        };
        vec![name, format!("C {number}")]
    });
    let column = |(heading, hint, width): &(&str, &str, f64)| Column {
        heading: heading.to_string(),
        hint: hint.to_string(),
        width: *width,
        figures: false,
    };
    Table {
        title: title.to_string(),
        note:
            "Leave a cell blank where you did not look; ? is \u{2018}I can\u{2019}t tell\u{2019}."
                .to_string(),
        columns: columns.iter().map(column).collect(),
        rows: rows.collect(),
        ..Table::default()
    }
}

const COUNTS: [(&str, &str, f64); 14] = [
    ("seedling", "", 24.0),
    ("place", "", 22.0),
    ("date", "2026-08-20", 22.0),
    ("by", "", 14.0),
    ("cut", "stems", 12.0),
    ("stem (cm)", "lengths", 26.0),
    ("open", "blooms", 12.0),
    ("weather", "wind:3/12", 26.0),
    ("vase", "7,8,6,6+", 36.0),
    ("visits", "7/10min", 18.0),
    ("plants", "stand", 13.0),
    ("tubers", "lifted", 13.0),
    ("sound", "in spring", 20.0),
    ("note", "", 40.0),
];

const BLOOMS: [(&str, &str, f64); 19] = [
    ("seedling", "", 24.0),
    ("place", "", 22.0),
    ("date", "2026-08-20", 22.0),
    ("by", "", 14.0),
    ("diameter (mm)", "98,104", 30.0),
    ("colour", "peach", 26.0),
    ("centre", "closed open pincushion", 14.0),
    ("rows", "1 to 40", 10.0),
    ("collar", "none petaloid", 14.0),
    ("roll", "flat forward back", 14.0),
    ("rolled", "%", 10.0),
    ("line", "incurved straight reflexed", 14.0),
    ("tip", "rounded pointed split", 14.0),
    ("set", "regular wavy", 14.0),
    ("outline", "globe deep saucer", 14.0),
    ("gradient", "even graded", 14.0),
    ("width", "broad narrow", 14.0),
    ("heart", "round triangular", 14.0),
    ("note", "", 30.0),
];

/// A season's chart of 18 weeks, some of them short, its ranges drawn.
fn season(id: &str) -> Page {
    let week = |at: u8| {
        let expected = 300.0 * (f64::from(at) / 17.0 * std::f64::consts::PI).sin();
        let needed = if at < 3 { 0.0 } else { 220.0 };
        ChartWeek {
            week: 26 + at,
            monday: date(2027, 6, 28).checked_add(i64::from(at).weeks()).ok(),
            needed,
            short: f64::max(needed - expected, 0.0),
            expected,
            range: Some((expected * 0.6, expected * 1.3)),
        }
    };
    let chart = Chart {
        weeks: (0..18).map(week).collect(),
        seasons: Some(200),
        frost_before: Some(42),
        promised: Vec::new(),
    };
    chart.page(&paper(id)).expect("a page")
}

/// A curve that falls in steps, with limits and stems that outlast the test.
fn curve() -> (String, Page) {
    let step = |(at, share): (f64, f64)| Step {
        at,
        share,
        limits: Some((share * 0.6, 1.0 - (1.0 - share) * 0.5)),
    };
    let chart = Steps {
        title: "26-001: stems still fresh in the vase".to_string(),
        notes: vec!["Median 7 days; 9 stems, 3 of them still fresh at the end.".to_string()],
        across: "days".to_string(),
        up: "share still fresh".to_string(),
        steps: [(4.0, 0.9), (6.0, 0.6), (7.0, 0.4)].map(step).to_vec(),
        watched: vec![4.0, 6.0, 6.0, 6.0, 7.0, 7.0, 8.0, 8.0, 8.0],
        unended: vec![8.0, 8.0, 8.0],
        half: Some(7.0),
        things: "stems watched",
        unended_words: "still fresh when its test ended",
        limits_words: "95 % limits",
        wanted: Some(Limit {
            at: 5.0,
            label: "kept from 5 days".to_string(),
        }),
        shows: "Median 7 days".to_string(),
    };
    let page = chart.page(&paper("a4")).expect("a page");
    (chart.title, page)
}

/// Diameters of 40 days, more than have a row each.
fn diameters() -> (String, Page) {
    let day = |day: u8| {
        let mean = 90.0 + f64::from(day % 7);
        (format!("day {day}"), vec![mean, mean, mean + 2.5])
    };
    let chart = Points {
        title: "26-001: diameters by day".to_string(),
        notes: vec!["Mean 94 mm.".to_string()],
        across: "diameter, mm".to_string(),
        days: (1..=40).map(day).collect(),
        mean: Some([92.5, 94.0, 95.5]),
        places: 1,
        mean_words: "mean, 95 %",
        dot_words: "a bloom",
        limits: [
            (89.0, "ball from 89 mm"),
            (90.0, "small from 90 mm"),
            (101.6, "small from 101.6 mm"),
        ]
        .map(|(at, label)| Limit {
            at,
            label: label.to_string(),
        })
        .to_vec(),
        limit_words: "where a size begins",
        partings: vec![Limit {
            at: 88.9,
            label: "miniature ball | ball: 88.9 mm".to_string(),
        }],
        parting_words: "where one form ends",
        shows: "Mean 94 mm".to_string(),
    };
    let page = chart.page(&paper("a4")).expect("a page");
    (chart.title, page)
}

/// Ten families of colours of up to a dozen words.
fn colours() -> (String, Page) {
    let piece = |at: u8| Piece {
        name: format!("word {at}"),
        colour: Srgb::new(20 * at, 255 - 20 * at, 128),
        count: usize::from(at),
    };
    let stack = |at: u8| Stack {
        name: format!("family {at}"),
        pieces: (0..at + 2).map(piece).collect(),
        of: at.is_multiple_of(2).then_some(90),
    };
    let chart = Stacks {
        title: "Varieties by colour".to_string(),
        notes: vec!["All 240 varieties, each by its main colour.".to_string()],
        across: "varieties".to_string(),
        stacks: (1..=10).map(stack).collect(),
        shows: "By family".to_string(),
    };
    let page = chart.page(&paper("a4")).expect("a page");
    (chart.title, page)
}

#[test]
fn no_chart_leaves_its_page() {
    for (title, page) in [curve(), diameters(), colours()] {
        assert_eq!(page.strays().count(), 0, "{title}");
    }
}

#[test]
fn pages_are_written_for_the_outside_programs() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("paper");
    // A file of an earlier run must not be checked in this one's place.
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    let pages = |table: &Table, id: &str| {
        let pages = table.pages(&paper(id), Margins::even(10.0), (0.0, 0.0));
        pages.expect("a table that can be laid out")
    };
    let counts = sheet("Trial row: counts", &COUNTS);
    let blooms = sheet("Trial row: blooms", &BLOOMS);
    let short = sheet("Plants that stand", &COUNTS[..6]);
    let [curve, diameters, colours] = [curve(), diameters(), colours()];
    let expected = [
        write(&folder, "curve-a4", &curve.0, &[curve.1]),
        write(&folder, "diameters-a4", &diameters.0, &[diameters.1]),
        write(&folder, "colours-a4", &colours.0, &[colours.1]),
        write(
            &folder,
            "everything",
            "Every <sign> & letter: Åse",
            &[everything()],
        ),
        write(&folder, "latin", "Latin letters", &[latin()]),
        write(&folder, "counts-a4", &counts.title, &pages(&counts, "a4")),
        write(
            &folder,
            "counts-letter",
            &counts.title,
            &pages(&counts, "letter"),
        ),
        write(&folder, "blooms-a4", &blooms.title, &pages(&blooms, "a4")),
        write(&folder, "season-a4", Chart::TITLE, &[season("a4")]),
        write(&folder, "season-letter", Chart::TITLE, &[season("letter")]),
        write(
            &folder,
            "short-letter",
            &short.title,
            &pages(&short, "letter"),
        ),
    ];
    let text = serde_json::to_string_pretty(&expected).expect("JSON");
    fs::write(folder.join("expected.json"), text).expect("written");
}
