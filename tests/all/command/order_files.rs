//! The files that `trug order` writes, read back by others; and the row's counts, taken in.

use std::fs;

use icalendar::{Calendar, CalendarComponent, Component};

use crate::common::order_lane::{Lane, PLAN, hundredths};
use crate::common::shell::trug;

#[test]
fn files_are_written_and_read_back() {
    let lane = Lane::new(PLAN);
    let names = [
        "dates.ics",
        "order.csv",
        "season.svg",
        "model.mps",
        "sheet.pdf",
    ];
    let [ics, csv, svg, mps, pdf] = names.map(|name| lane.path(name));
    let told = lane.out(&[
        "--calendar",
        &ics,
        "--csv",
        &csv,
        "--chart",
        &svg,
        "--model",
        &mps,
        "--sheet",
        &pdf,
    ]);
    assert_eq!(told.matches("is written").count(), 5, "{told}");
    // Who asks for files is told of the files.
    assert!(!told.contains("All orders:"), "{told}");
    assert!(told.contains("sheet.pdf is written: 2 pages."), "{told}");
    let pdf = fs::read(&pdf).expect("a PDF");
    assert!(pdf.starts_with(b"%PDF-"));

    // Parsed back by the `icalendar` crate.
    let text = fs::read_to_string(&ics).expect("a calendar");
    let calendar: Calendar = text.parse().expect("iCalendar");
    let events: Vec<_> = calendar
        .components
        .iter()
        .filter_map(CalendarComponent::as_event)
        .collect();
    let summaries: Vec<&str> = events
        .iter()
        .filter_map(|event| event.get_summary())
        .collect();
    for what in [
        "Last day to order from Oar Bulbs",
        "Plant the tubers",
        "Pinch",
        "Lift and store",
    ] {
        assert!(summaries.contains(&what), "{what}: {summaries:?}");
    }
    let first_cut =
        |event: &&&icalendar::Event| event.get_summary() == Some("First cut of 3 varieties");
    let cut = events
        .iter()
        .find(first_cut)
        .and_then(|event| event.get_description());
    let cut = cut.is_some_and(|told| told.contains("Haaf Bell"));
    assert!(cut, "no first cut of Haaf Bell in {text}");
    let order = events
        .iter()
        .find(|event| event.get_summary() == Some("Last day to order from Oar Bulbs"));
    assert_eq!(
        order.and_then(|event| event.property_value("DTSTART")),
        Some("20270201")
    );

    // The costs sum to the cost, and a name that begins a formula is made a text.
    let answer = lane.json(&[]);
    let mut reader = csv::Reader::from_path(&csv).expect("CSV");
    let rows: Vec<csv::StringRecord> = reader.records().map(|row| row.expect("a row")).collect();
    let costs: f64 = rows
        .iter()
        .filter_map(|row| row[6].parse::<f64>().ok())
        .sum();
    assert_eq!((costs * 100.0).round() as i64, hundredths(&answer["cost"]));
    assert!(rows.iter().any(|row| &row[1] == "'=Haaf Drift"), "{rows:?}");

    let svg = fs::read_to_string(&svg).expect("an SVG");
    let picture = roxmltree::Document::parse(&svg).expect("XML");
    assert!(
        picture
            .descendants()
            .any(|node| node.text() == Some("stems needed"))
    );
    let printed = lane.path("season.pdf");
    let told = lane.out(&["--chart", &printed, "--paper", "a4"]);
    assert!(told.contains("season.pdf is written: "), "{told}");
    let printed = fs::read(&printed).expect("a PDF");
    assert!(printed.starts_with(b"%PDF-"));
    let model = fs::read_to_string(&mps).expect("a model");
    assert!(
        model.starts_with("NAME") || model.contains("\nROWS"),
        "{model}"
    );
}

/// What the row counted stands against the plan, and is taken into the next one.
#[test]
fn a_season_is_held_against_the_plan_and_feeds_the_next() {
    let lane = Lane::new(PLAN);
    let note = |words: &[&str]| {
        let mut all = vec!["row", "note", "Haaf Bell"];
        all.extend(words);
        let at = lane.dir().display().to_string();
        trug(lane.dir(), &[&all[..], &["--at", &at]].concat()).done();
    };
    note(&["cut=20", "plants=4", "date=2025-08-20"]);
    note(&["cut=16", "date=2025-08-22"]);
    note(&["cut=12", "date=2025-09-03"]);
    let told = lane.out(&["--season", "2025"]);
    // 48 stems of 4 plants are 12.0 a plant. Of the 71 days from 31 July to 10 October 7 are at 0.4, 7
    // at 0.7 and 57 at full flower, 64.7 in all: at 0.9 stems a week 8.3 were planned.
    for text in ["Haaf Bell", "48", "12.0", "8.3", "144 %", "34, 36"] {
        assert!(told.contains(text), "{text:?} is not in\n{told}");
    }
    assert!(
        lane.out(&["--season", "2024"])
            .contains("No stems of a variety were counted in 2024")
    );
    let before = lane.json(&[]);
    let taken = lane.json(&["--season", "2025", "--take-counts"]);
    assert_eq!(taken["taken"], 1, "{taken:#}");
    let saved = fs::read_to_string(lane.path("order.ron")).expect("reads");
    assert!(saved.starts_with("// The order of a test.\n"), "{saved}");
    assert!(saved.contains("counted"), "{saved}");
    // Taken again it stands once; what another year counted stays.
    fs::write(
        lane.path("order.ron"),
        saved.replace("year: 2025", "year: 2024"),
    )
    .expect("writes");
    for _ in 0..2 {
        lane.json(&["--season", "2025", "--take-counts"]);
    }
    let saved = fs::read_to_string(lane.path("order.ron")).expect("reads");
    for year in ["year: 2024", "year: 2025"] {
        assert_eq!(saved.matches(year).count(), 1, "{saved}");
    }
    // It flowered in weeks 34 and 36 alone: the quay stall now goes short of it.
    let after = lane.json(&[]);
    assert_ne!(before["planted"], after["planted"]);
}

/// While the plan's own season goes on, what was cut up to a day says how likely the promises that are
/// left are now, and what is free to sell.
#[test]
fn a_season_under_way_tells_of_the_promises_that_are_left_and_what_is_free_to_sell() {
    let lane = Lane::new(&PLAN.replace("2027", "2025"));
    let at = lane.dir().display().to_string();
    for (stems, day) in [
        ("14", "2025-08-15"),
        ("19", "2025-08-22"),
        ("3", "2025-08-29"),
    ] {
        let (cut, date) = (format!("cut={stems}"), format!("date={day}"));
        trug(
            lane.dir(),
            &["row", "note", "Ebb Kist", &cut, &date, "--at", &at],
        )
        .done();
    }
    let told = lane.out(&["--season", "2025"]);
    for text in [
        "Up to 2025-08-29: 36 stems cut of",
        "Stems by week",
        "The promises that are left",
        "quay stall",
        "36 to 38",
        "Free to sell",
        "Ebb Kist",
    ] {
        assert!(told.contains(text), "{text:?} is not in\n{told}");
    }
    let likely = |words: &[&str]| {
        let answer = lane.json(words);
        assert_eq!(answer["promises"][0]["need"], "quay stall");
        let free = answer["free"].as_array().expect("weeks").iter();
        let weeks: Vec<u64> = free.filter_map(|one| one["week"].as_u64()).collect();
        let likely = answer["counted"][0]["likely"].as_f64();
        (likely.expect("a share"), weeks)
    };
    // Up to the 22nd it went as planned; three stems in a week of flowers are a bad sign.
    let (before, weeks) = likely(&["--season", "2025", "--date", "2025-08-22"]);
    assert_eq!(weeks, [35, 36, 37, 38]);
    let (after, weeks) = likely(&["--season", "2025"]);
    assert_eq!(weeks, [36, 37, 38]);
    assert!(after < before, "{after} {before}");
    lane.refused(&["--season", "2025", "--date", "soon"], "--date: ");
}

#[test]
fn what_grows_where_is_drawn_to_scale_on_paper() {
    let lane = Lane::new(PLAN);
    let [pdf, svg] = ["beds.pdf", "beds.svg"].map(|name| lane.path(name));
    let told = lane.out(&["--beds", &pdf, "--units", "mm"]);
    assert!(told.contains("beds.pdf: written, 1 page."), "{told}");
    assert!(fs::read(&pdf).expect("a PDF").starts_with(b"%PDF-"));
    lane.out(&["--beds", &svg, "--units", "in"]);
    let text = fs::read_to_string(&svg).expect("an SVG");
    let picture = roxmltree::Document::parse(&text).expect("XML");
    let told = picture.descendants().find(|node| node.has_tag_name("desc"));
    let told = told.and_then(|node| node.text()).unwrap_or_default();
    assert!(told.contains("sea wall, 65.6 ft long, 3 rows"), "{told}");
    assert!(told.contains("Haaf Bell, "), "{told}");
    lane.refused(&["--beds", "beds.png"], "ends in .pdf or .svg");
}
