//! What goes out comes back.

use proptest::prelude::*;
use trug::colour::{Part, Pattern};
use trug::measure::{Exact, Length};
use trug::table;
use trug::variety::exchange::{Columns, OwnWords};
use trug::variety::{
    ColourNote, Days, Extent, FormKnown, FormNote, Money, Offer, Reach, Shortlisted, StatedValue,
    Statement, Text, Varieties, Variety,
};

use super::{exported, imported};
use crate::common::varieties as generated;

fn comes_back(list: &Varieties) {
    let csv = exported(list);
    let (import, back) = imported(&csv, &Varieties::default());
    assert_eq!((&import.bad, &import.unknown), (&Vec::new(), &Vec::new()));
    assert_eq!(back.list(), list.list());
    let (again, same) = imported(&csv, list);
    assert_eq!(
        (again.new.len(), again.changed.len(), again.same),
        (0, 0, list.len())
    );
    assert_eq!(same.list(), list.list());
    let written = list.write().expect("writes");
    let read = Varieties::read("varieties.ron", &written).expect("reads");
    assert_eq!(read.list(), list.list());
}

#[test]
fn an_export_of_generated_varieties_comes_back_as_the_same_list() {
    comes_back(&generated::varieties(500));
}

#[test]
fn an_export_of_the_demo_comes_back_as_the_same_list() {
    let text = include_str!("../../../../catalogue/varieties.ron");
    comes_back(&Varieties::read("varieties.ron", text).expect("the demo"));
}

#[test]
fn what_more_lists_state_than_a_line_of_text_holds_comes_back() {
    let mut one = Variety::named(Text::new("Haaf Bell").expect("a text"));
    one.stated = (0..40)
        .map(|list| Statement {
            value: StatedValue::Height("90-120cm".parse().expect("a span")),
            by: Text::new(format!("The list of Skerry Lane {list}")).ok(),
        })
        .collect();
    let mut list = Varieties::default();
    list.insert(0, one).expect("the first");
    comes_back(&list);
}

/// A line of text as a person or a prankster might type it.
fn line() -> impl Strategy<Value = Text> {
    let odd = "[=+@'‘’\"“”;:,|\\\\#() a-zé花🌼-]{1,12}";
    prop_oneof![
        odd,
        "[-=+@]{1,3}[a-z]",
        "'{1,3}[=a-z]{1,3}'?",
        "[^\\p{C}]{1,10}"
    ]
    .prop_filter_map("no text", |text| Text::new(text).ok())
    .prop_filter("a spreadsheet's error is refused", |text| {
        !text.starts_with('#')
    })
}

/// What anybody states, and what was measured here, each a few times or not at all.
fn measures() -> impl Strategy<Value = (Vec<Statement>, [Vec<Extent>; 3])> {
    let value = prop_oneof![
        Just(StatedValue::Size(Text::new("small").expect("a text"))),
        reach().prop_map(StatedValue::Diameter),
        reach().prop_map(StatedValue::Height),
        reach().prop_map(StatedValue::Stem),
        (1_u32..600).prop_map(|tenths| {
            let days = Days::try_from(f64::from(tenths) / 10.0);
            StatedValue::Vase(days.expect("at most 60"))
        }),
    ];
    let statement = (value, prop::option::of(line()));
    let statement = statement.prop_map(|(value, by)| Statement { value, by });
    let measured = || prop::collection::vec(reach().prop_map(Reach::low), 0..4);
    let measured = (measured(), measured(), measured());
    let statements = prop::collection::vec(statement, 0..5);
    (statements, measured).prop_map(|(stated, (a, b, c))| (stated, [a, b, c]))
}

fn reach() -> impl Strategy<Value = Reach> {
    (1_i64..4_000, 0_i64..900).prop_map(|(low, more)| {
        let length = |mm: i64| Extent::try_from(Length::from_mm(Exact::whole(mm)));
        let ends = (length(low), length(low + more));
        Reach::between(ends.0.expect("a length"), ends.1.expect("a length")).expect("low first")
    })
}

fn variety() -> impl Strategy<Value = Variety> {
    let texts = (
        line(),
        prop::option::of(line()),
        prop::option::of(line()),
        prop::option::of(line()),
    );
    let offers = prop::collection::vec(
        (
            line(),
            0_u64..100_000,
            1_u32..20,
            prop::option::of(0_u32..50),
        ),
        0..3,
    );
    let colours = prop::collection::vec((0_usize..3, 0_usize..4, 0_usize..5), 0..3);
    (
        texts,
        offers,
        colours,
        prop::option::of(prop::option::of(line())),
        prop::option::of(line()),
        measures(),
    )
        .prop_map(
            |((name, raiser, notes, licence), offers, colours, shortlist, by, measures)| {
                let mut one = Variety::named(name);
                let (stated, [diameters, heights, stems]) = measures;
                (one.stated, one.diameters) = (stated, diameters);
                (one.plant_heights, one.stem_lengths) = (heights, stems);
                (one.raiser, one.notes, one.licence) = (raiser, notes, licence);
                one.form = by.map(|by| FormNote {
                    id: Text::new("ball").expect("a text"),
                    known: FormKnown::Keyed,
                    by: Some(by),
                });
                one.shortlist = shortlist.map(|note| Shortlisted { note });
                one.offers = offers
                    .into_iter()
                    .map(|(supplier, price, pack, available)| Offer {
                        supplier,
                        price: Money::hundredths(price),
                        pack: pack.try_into().expect("over 0"),
                        available,
                        closes: None,
                    })
                    .collect();
                one.colours = colours
                    .into_iter()
                    .map(|(colour, part, pattern)| ColourNote {
                        colour: Text::new(["peach", "#a1b2c3", "lab(83 14 24)"][colour])
                            .expect("a text")
                            .into(),
                        part: Part::ALL[part],
                        pattern: Pattern::ALL[pattern],
                    })
                    .collect();
                one
            },
        )
}

proptest! {
    #[test]
    fn an_import_of_an_export_is_the_same_list(all in prop::collection::vec(variety(), 1..8)) {
        let mut list = Varieties::default();
        for variety in all {
            // A name that is there already is left out: the list has each once.
            let _ = list.insert(list.len(), variety);
        }
        comes_back(&list);
        let text = String::from_utf8(exported(&list)).expect("UTF-8");
        let (table, _) = table::parse(&text).expect("a table");
        for cell in table.rows.iter().flat_map(|row| &row.cells) {
            prop_assert!(!cell.starts_with(['=', '+', '-', '@', '\t', '\r']), "{}", cell);
        }
    }

    #[test]
    fn any_bytes_are_read_or_refused_without_panic(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        if let Ok((text, _)) = table::decode(&bytes) && let Ok((table, _)) = table::parse(&text) {
            let _ = Columns::of(&table, &OwnWords::default());
        }
    }

    #[test]
    fn any_cells_are_read_or_refused_without_panic(cell in ".{0,20}", other in "[0-9a-z'\",;:./ -]{0,20}") {
        let heading = "name,form,size,measured diameter,stated diameter,stated,colour,colours,height,vase,weather,offers,price,closes,bloom";
        let quoted = format!("\"{}\"", cell.replace('"', "\"\""));
        let row = ["Haaf Test"].into_iter().map(String::from)
            .chain((0..14).map(|at| if at % 2 == 0 { quoted.clone() } else { format!("\"{}\"", other.replace('"', "\"\"")) }));
        let csv = format!("{heading}\n{}\n", row.collect::<Vec<_>>().join(","));
        if !csv.contains('\0') {
            let _ = imported(csv.as_bytes(), &Varieties::default());
        }
    }
}
