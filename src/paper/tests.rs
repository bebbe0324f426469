//! Pages as a whole: what is written, and what never leaves its place.

use std::f64::consts::{FRAC_PI_2, PI};

use kurbo::{Affine, BezPath, Point, Rect, Shape as _};
use proptest::prelude::*;
use quick_xml::Reader;
use quick_xml::events::Event;

use super::*;
use crate::colour::Srgb;
use crate::geometry::{Outline, Stroke};

fn printable(text: &str) -> Printable {
    Printable::new(text).expect("a text that can be printed")
}

fn a4() -> Paper {
    Paper::named("a4").expect("A4")
}

/// A page with one of everything.
fn page() -> Page {
    let turned = TextLine::new(printable("26-014"), Style::bold(40.0), (0.0, 0.0));
    let turned = TextLine {
        place: Affine::translate((30.0, 120.0)) * Affine::rotate(-FRAC_PI_2),
        ..turned
    };
    let mut curve = BezPath::new();
    curve.move_to((60.0, 60.0));
    curve.curve_to((80.0, 40.0), (90.0, 80.0), (60.0, 90.0));
    curve.close_path();
    let curve = Outline::of(curve)
        .filled(Srgb::new(230, 120, 90))
        .stroked(Stroke::new(Srgb::BLACK, 0.3));
    let code = [vec![true, false, true], vec![false, true, true]];
    let name = TextLine::new(
        printable("\u{2018}Ebb <Ångström> & Søn\u{2019}"),
        Style::regular(12.0),
        Point::new(105.0, 20.0),
    );
    Page {
        width: 210.0,
        height: 297.0,
        shows: "A tag & its <code>".to_string(),
        items: vec![
            curve.into(),
            Squares {
                rows: code.to_vec().into(),
                place: Affine::translate((100.0, 100.0)) * Affine::scale(0.5),
                ink: Srgb::BLACK,
            }
            .into(),
            name.aligned(Align::Centre).into(),
            turned.into(),
        ],
    }
}

fn table(columns: &[(&str, &str, f64)], rows: Vec<Vec<String>>) -> Table {
    Table {
        title: "Trial row".to_string(),
        note: String::new(),
        columns: columns
            .iter()
            .map(|(heading, hint, width)| Column {
                heading: heading.to_string(),
                hint: hint.to_string(),
                width: *width,
                figures: false,
            })
            .collect(),
        rows,
        ..Table::default()
    }
}

fn numbered(count: usize) -> Vec<Vec<String>> {
    (1..=count)
        .map(|number| vec![format!("26-{number:03}")])
        .collect()
}

fn pages(table: &Table) -> Vec<Page> {
    table
        .pages(&a4(), Margins::even(12.0), (0.0, 0.0))
        .expect("a table that can be laid out")
}

/// Whether the document is well formed, and the texts in it.
fn texts(svg: &str) -> Vec<String> {
    let mut reader = Reader::from_str(svg);
    let (mut open, mut found, mut text) = (0, Vec::new(), String::new());
    loop {
        match reader.read_event().expect("well-formed XML") {
            Event::Start(_) => {
                open += 1;
                text.clear();
            }
            Event::End(end) => {
                open -= 1;
                if end.name().as_ref() == "text" {
                    found.push(std::mem::take(&mut text));
                }
            }
            Event::Text(part) => text += &part,
            Event::GeneralRef(entity) => {
                text += quick_xml::escape::resolve_predefined_entity(&entity).expect("predefined");
            }
            Event::Eof => break,
            _ => {}
        }
    }
    assert_eq!(open, 0, "every element is closed");
    found
}

#[test]
fn the_page_box_is_the_size_asked_for() {
    let bytes = pdf("Tags", &[page()]).expect("a PDF");
    let text = String::from_utf8_lossy(&bytes);
    let found = text.split("/MediaBox").nth(1).expect("a media box");
    let numbers: Vec<f64> = found
        .trim_start_matches([' ', '['])
        .split([' ', ']'])
        .take(4)
        .map(|number| number.parse().expect("a number"))
        .collect();
    for (found, expected) in numbers.iter().zip([0.0, 0.0, 210.0, 297.0]) {
        // A point is 1/72 inch (ISO 32000-1, 8.3.2.3).
        assert!((found * 25.4 / 72.0 - expected).abs() < 0.01, "{numbers:?}");
    }
}

#[test]
fn the_same_pages_give_the_same_bytes() {
    let once = pdf("Tags", &[page(), page()]).expect("a PDF");
    assert_eq!(once, pdf("Tags", &[page(), page()]).expect("a PDF"));
    let other = pdf("Others", &[page(), page()]).expect("a PDF");
    assert_ne!(once, other, "the title is in it");
}

/// The chart, and a tag printed many times over, must not carry each bloom again.
#[test]
fn a_drawing_that_stands_in_many_places_is_written_once() {
    let petal = |at: f64| {
        let mut path = BezPath::new();
        path.move_to((at, 0.0));
        for step in 1..40 {
            path.line_to((at.sin() * f64::from(step), f64::from(step % 7)));
        }
        Outline::of(path).filled(Srgb::new(230, 120, 90))
    };
    let outlines: Vec<Outline> = (0..60).map(|at| petal(f64::from(at))).collect();
    let size = |count: u32| {
        let drawing = |at| Drawing {
            outlines: outlines.clone().into(),
            place: Affine::translate((30.0, f64::from(at) + 10.0)) * Affine::rotate(PI),
        };
        let page = Page {
            items: (0..count).map(|at| drawing(at).into()).collect(),
            ..page()
        };
        pdf("Tags", &[page]).expect("a PDF").len()
    };
    let (once, often) = (size(1), size(50));
    assert!(once > 5_000, "{once}");
    assert!(often < once + 3_000, "{once} and {often}");
}

#[test]
fn svg_is_well_formed_and_says_what_the_page_says() {
    let page = page();
    let words = svg("Tags & <more>", &page, Lettering::Words).expect("an SVG");
    let said: Vec<&str> = page.lines().map(|line| line.text.as_str()).collect();
    assert_eq!(texts(&words), said);
    assert!(words.contains("viewBox=\"0 0 210 297\""));
    assert!(words.contains("width=\"210mm\""));
    assert!(words.contains("<desc>A tag &amp; its &lt;code&gt;</desc>"));
    let outlines = svg("Tags", &page, Lettering::Outlines).expect("an SVG");
    assert!(texts(&outlines).is_empty());
    assert_eq!(outlines.matches("<path").count(), page.items.len());
}

#[test]
fn what_cannot_be_written_is_refused_with_a_sentence() {
    assert_eq!(pdf("Tags", &[]), Err(Unwritable::NoPages));
    let flat = Page {
        height: 0.0,
        ..page()
    };
    let refused = pdf("Tags", &[page(), flat]).expect_err("no height");
    assert!(
        refused.to_string().contains("page 2: found 210 by 0 mm"),
        "{refused}"
    );
    let mut nowhere = page();
    let lost = Point::new(f64::NAN, 10.0);
    nowhere
        .items
        .push(Outline::line(lost, (5.0, 5.0), Stroke::new(Srgb::BLACK, 0.2)).into());
    let refused = svg("Tags", &nowhere, Lettering::Words).expect_err("no number");
    assert_eq!(refused, Unwritable::Number { page: 1 });
}

#[test]
fn a_narrow_table_stands_upright_and_repeats_its_head() {
    let table = table(
        &[("seedling", "", 24.0), ("note", "in few words", 60.0)],
        numbered(60),
    );
    let pages = pages(&table);
    assert!(pages.len() > 1);
    for (at, page) in pages.iter().enumerate() {
        assert_eq!((page.width, page.height), (210.0, 297.0));
        let said: Vec<&str> = page.lines().map(|line| line.text.as_str()).collect();
        let number = format!("page {} of {}", at + 1, pages.len());
        for expected in ["Trial row", "seedling", "note", "in few words", &number] {
            assert!(said.contains(&expected), "{expected} in {said:?}");
        }
    }
    let printed = pages.iter().flat_map(Page::lines);
    let first = printed.filter(|line| line.text.as_str().starts_with("26-"));
    assert_eq!(first.count(), 60);
}

#[test]
fn a_wide_table_lies_across_and_a_wider_one_is_split_with_its_first_column() {
    let wide = [("seedling", "", 24.0), ("a", "", 100.0), ("b", "", 100.0)];
    let across = pages(&table(&wide, numbered(3)));
    assert_eq!(across.len(), 1);
    assert_eq!((across[0].width, across[0].height), (297.0, 210.0));

    let wider = [wide.as_slice(), &[("c", "", 100.0), ("d", "", 90.0)]].concat();
    let split = pages(&table(&wider, numbered(3)));
    assert_eq!(split.len(), 2);
    let says = |page: &Page, text: &str| page.lines().any(|line| line.text.as_str() == text);
    for page in &split {
        assert!(says(page, "seedling") && says(page, "26-003"));
    }
    assert!(says(&split[0], "b") && !says(&split[0], "c"));
    assert!(says(&split[1], "c") && !says(&split[1], "b"));
    assert!(says(&split[0], "More columns of these rows are on page 2."));
}

#[test]
fn a_table_without_rows_or_columns_is_a_page_all_the_same() {
    assert_eq!(
        pages(&table(&[("seedling", "", 24.0)], Vec::new())).len(),
        1
    );
    assert_eq!(pages(&table(&[], numbered(2))).len(), 1);
}

#[test]
fn a_table_that_cannot_be_printed_is_refused_with_a_sentence() {
    let long = "w".repeat(120);
    for (cell, paper, told) in [
        ("\u{5d0}", "a4", "runs from right to left"),
        (long.as_str(), "a4", "fits on 2 lines of"),
    ] {
        let table = table(&[("seedling", "", 24.0)], vec![vec![cell.to_string()]]);
        let paper = Paper::named(paper).expect("known");
        let refused = table.pages(&paper, Margins::even(10.0), (0.0, 0.0));
        let refused = refused.expect_err("refused").to_string();
        assert!(refused.contains(told), "{refused}");
    }
    let hints = "hint ".repeat(600);
    let tall = table(&[("seedling", hints.trim(), 24.0)], numbered(1));
    let refused = tall.pages(&a4(), Margins::even(10.0), (0.0, 0.0));
    let refused = refused.expect_err("no row").to_string();
    assert!(refused.contains("the head and one row"), "{refused}");
}

/// The rectangle in which a line has ink for certain: lines may come closer than their accents.
fn core(line: &TextLine) -> Rect {
    let bounds = line.bounds();
    let spare = 0.2 * line.style.points * POINT;
    let (top, bottom) = (bounds.y0 + spare, bounds.y1 - 0.5 * spare);
    Rect::new(bounds.x0, top, bounds.x1, bottom)
}

/// Whether two share more than an edge.
fn overlap(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Whatever a table says, in up to 60 letters a text: it is refused, or no text leaves the page
    /// and none is printed over another.
    #[test]
    fn no_text_of_a_table_leaves_its_page_or_meets_another(
        title in "[A-Za-z\u{c0}-\u{17f} ]{0,60}",
        heads in prop::collection::vec(
            ("[a-z\u{e0}-\u{17f} ()]{0,60}", "[a-z0-9:/,. ]{0,60}", -5.0f64..150.0), 0..9),
        cells in prop::collection::vec("[A-Za-z\u{c0}-\u{17f}\u{410}-\u{44f} '\u{2019}-]{0,60}", 0..40),
        paper in prop::sample::select(vec!["a4", "a5", "letter"]),
    ) {
        let columns: Vec<(&str, &str, f64)> = heads
            .iter()
            .map(|(heading, hint, width)| (heading.as_str(), hint.as_str(), *width))
            .collect();
        let rows: Vec<Vec<String>> = cells.chunks(2).map(<[String]>::to_vec).collect();
        let mut table = table(&columns, rows);
        table.title = title;
        let paper = Paper::named(paper).expect("known");
        if let Ok(pages) = table.pages(&paper, Margins::even(10.0), (2.0, -3.0)) {
            for page in pages {
                prop_assert_eq!(page.strays().count(), 0);
                let lines: Vec<Rect> = page.lines().map(core).collect();
                for (at, one) in lines.iter().enumerate() {
                    for other in &lines[at + 1..] {
                        prop_assert!(!overlap(*one, *other), "{:?} {:?}", one, other);
                    }
                }
            }
        }
    }

    /// SVG is well formed whatever the texts are, and each is in it.
    #[test]
    fn svg_is_well_formed_whatever_it_says(title in any::<String>(), text in any::<String>()) {
        let mut page = page();
        if let Ok(text) = Printable::new(&text) {
            page.items.push(TextLine::new(text, Style::regular(9.0), (9.0, 9.0)).into());
        }
        let said = texts(&svg(&title, &page, Lettering::Words).expect("an SVG"));
        let expected = page.lines().map(|line| line.text.as_str()).filter(|text| !text.is_empty());
        prop_assert_eq!(said, expected.collect::<Vec<_>>());
    }
}

/// A page that is dark behind an SVG would swallow black lines, and no reader would find a code.
#[test]
fn an_svg_has_a_white_ground_over_all_of_its_page_before_anything_is_drawn() {
    let text = svg("Tag", &page(), Lettering::Words).expect("an SVG");
    let document = roxmltree::Document::parse(&text).expect("XML");
    let drawn = |node: &roxmltree::Node<'_, '_>| {
        node.is_element() && !["title", "desc"].contains(&node.tag_name().name())
    };
    let ground = document.root_element().children().find(drawn);
    let ground = ground.expect("something drawn");
    assert_eq!(ground.tag_name().name(), "rect");
    let told = ["width", "height", "fill", "x", "y"].map(|name| ground.attribute(name));
    assert_eq!(
        told,
        [Some("210"), Some("297"), Some("#ffffff"), None, None]
    );
}

#[test]
fn figures_end_under_each_other_and_what_they_come_to_stands_apart_under_the_table() {
    let column = |heading: &str, figures| Column {
        heading: heading.to_string(),
        width: 30.0,
        figures,
        ..Column::default()
    };
    let words = |words: [&str; 2]| words.map(String::from);
    let order = Table {
        title: "Order".to_string(),
        blanks: vec![
            words(["From", ""]).into(),
            words(["To", "Oar Bulbs"]).into(),
        ],
        columns: vec![column("variety", false), column("cost", true)],
        rows: [["Haaf Bell", "3.00"], ["Noust Ebb", "123.50"]]
            .map(|row| words(row).to_vec())
            .into(),
        sums: vec![
            words(["goods", "126.50"]).into(),
            words(["to pay", "131.50"]).into(),
        ],
        ..Table::default()
    };
    let pages = pages(&order);
    let [page] = &pages[..] else {
        panic!("one page")
    };
    assert_eq!(page.strays().count(), 0);
    let line = |text: &str| {
        let line = page.lines().find(|line| line.text.as_str() == text);
        line.unwrap_or_else(|| panic!("no {text}"))
    };
    let figures = ["cost", "3.00", "123.50", "126.50", "131.50"].map(line);
    assert!(figures.iter().all(|one| one.align == Align::Right));
    assert!(
        figures
            .iter()
            .all(|one| (one.at().x - figures[0].at().x).abs() < 1e-9)
    );
    // Nine millimetres from row to row, and the sums below the frame.
    let frame = line("123.50").at().y + 5.0;
    assert!(line("goods").at().y > frame && line("to pay").at().y > line("goods").at().y);
    assert!(line("goods").align == Align::Right && line("goods").at().x < line("126.50").at().x);
    assert!(
        line("From").at().y < line("variety").at().y
            && line("Oar Bulbs").at().y < line("variety").at().y
    );
    // The rule over the total is under the figures' column and under no word.
    let total = line("to pay");
    let rule = page.items.iter().filter_map(Item::bounds).find(|bounds| {
        bounds.height() < 1.0
            && bounds.y0 > frame
            && bounds.y1 < total.at().y - 1.0
            && bounds.width() > 10.0
    });
    assert!(rule.expect("a rule").x0 > line("goods").at().x);
}

/// A heavy rule above the last of a few rows reads as one above a total.
#[test]
fn few_rows_have_no_heavy_rule_between_them() {
    let heavy = |rows: usize| {
        let table = Table {
            title: "Order".to_string(),
            columns: vec![Column {
                heading: "variety".to_string(),
                width: 30.0,
                ..Column::default()
            }],
            rows: vec![vec!["Haaf Bell".to_string()]; rows],
            ..Table::default()
        };
        let strokes = pages(&table).into_iter().flat_map(|page| page.items);
        let strokes = strokes.filter(|item| match item {
            Item::Outline(outline) => {
                let rect = outline.path.bounding_box();
                rect.height() < 0.01 && outline.stroke.is_some_and(|stroke| stroke.width > 0.2)
            }
            _ => false,
        });
        strokes.count()
    };
    // Under the head there always is one.
    assert_eq!([6, 7, 8, 11, 12].map(heavy), [1, 1, 2, 2, 3]);
}
