//! Charts that commands draw, their geometry read back out of the SVG and held against the figures
//! that the same commands answer.

use std::fs;

use kurbo::{BezPath, Rect, Shape};
use roxmltree::Document;
use serde_json::Value;

use crate::common::order_lane::{Lane, PLAN};
use crate::common::shell::trug;

/// What fills a bar and a dot.
const BAR: &str = "#b5c9a8";
const CURVE: &str = "#2f4d22";

/// A chart that was read.
struct Chart(String);

impl Chart {
    fn read(lane: &Lane, name: &str) -> Chart {
        Chart(fs::read_to_string(lane.dir().join(name)).expect("a chart"))
    }

    /// Outlines with this attribute, the lowest first.
    fn outlines(&self, attribute: &str, value: &str) -> Vec<BezPath> {
        let picture = Document::parse(&self.0).expect("XML");
        let paths = picture
            .descendants()
            .filter(|node| node.has_tag_name("path"));
        let own = paths.filter(|node| node.attribute(attribute) == Some(value));
        let path = |node: roxmltree::Node<'_, '_>| {
            let data = node.attribute("d").expect("a path");
            BezPath::from_svg(data).expect("a path of SVG")
        };
        own.map(path).collect()
    }

    /// Texts set about their middles, with where those are.
    fn middles(&self) -> Vec<(String, f64, f64)> {
        let picture = Document::parse(&self.0).expect("XML");
        let texts = picture
            .descendants()
            .filter(|node| node.has_tag_name("text"));
        let middle = texts.filter(|node| node.attribute("text-anchor") == Some("middle"));
        let number = |node: &roxmltree::Node<'_, '_>, name| -> f64 {
            node.attribute(name)
                .expect("a place")
                .parse()
                .expect("a number")
        };
        middle
            .map(|node| {
                let text = node.text().unwrap_or_default().to_string();
                (text, number(&node, "x"), number(&node, "y"))
            })
            .collect()
    }

    /// From a place across to the value that the axis with these two figures has there.
    fn across(&self, low: &str, high: &str) -> impl Fn(f64) -> f64 {
        let middles = self.middles();
        let at = |told: &str| {
            let found = middles.iter().find(|(text, ..)| text == told);
            found.unwrap_or_else(|| panic!("{told} in {middles:?}")).1
        };
        let value = |told: &str| told.parse::<f64>().expect("a figure");
        let ((a, b), (one, other)) = ((value(low), value(high)), (at(low), at(high)));
        move |x| a + (x - one) / (other - one) * (b - a)
    }

    /// What it shows, in words.
    fn described(&self) -> String {
        let picture = Document::parse(&self.0).expect("XML");
        let told = picture.descendants().find(|node| node.has_tag_name("desc"));
        told.and_then(|node| node.text())
            .unwrap_or_default()
            .to_string()
    }
}

fn bounds(paths: &[BezPath]) -> Vec<Rect> {
    paths.iter().map(Shape::bounding_box).collect()
}

fn numbers<'a>(list: &'a Value, key: &'a str) -> Vec<f64> {
    let all = list.as_array().expect("a list").iter();
    all.map(|one| one[key].as_f64().unwrap_or_default())
        .collect()
}

/// A folder with the demo in it.
fn demo() -> Lane {
    let lane = Lane::new(PLAN);
    let folder = lane.path("lane");
    trug(lane.dir(), &["start", &folder, "--demo"]).done();
    lane
}

fn run(lane: &Lane, words: &[&str]) -> crate::common::shell::Answer {
    let folder = lane.path("lane");
    trug(lane.dir(), &[words, &["--at", &folder]].concat())
}

#[test]
fn bars_of_the_season_are_as_high_as_their_stems() {
    let lane = Lane::new(PLAN);
    let answer = lane.json(&["--chart", &lane.path("season.svg")]);
    let chart = Chart::read(&lane, "season.svg");
    let expected = numbers(&answer["weeks"], "expected");
    let bars = bounds(&chart.outlines("fill", BAR));
    // The first is the legend's.
    let bars = &bars[1..];
    assert_eq!(bars.len(), expected.len());
    let (foot, most) = (bars[0].y1, expected.iter().copied().fold(0.0, f64::max));
    let highest = bars.iter().map(Rect::height).fold(0.0, f64::max);
    for (bar, stems) in bars.iter().zip(&expected) {
        assert!((bar.y1 - foot).abs() < 1e-3, "{bar:?}");
        let share = bar.height() / highest;
        assert!(
            (share - stems / most).abs() < 2e-3,
            "{share} {stems} of {most}"
        );
    }
    let told = chart.described();
    assert_eq!(told.matches(" expected").count(), expected.len(), "{told}");
}

#[test]
fn the_vase_curve_steps_on_the_days_and_to_the_shares_that_the_row_tells() {
    let lane = demo();
    run(&lane, &["row", "24-002", "--chart", "plant.svg"]).done();
    let answer = run(&lane, &["row", "24-002", "--json"]).object();
    let chart = Chart::read(&lane, "plant-1.svg");
    let day = chart.across("0", "5");
    let curves = chart.outlines("stroke", CURVE);
    let curve = curves.last().expect("a curve");
    let corners: Vec<_> = trug::geometry::points(curve).collect();
    let (top, foot) = (corners[0].y, bounds(&chart.outlines("fill", "#e1e8d8")));
    let lowest = foot.iter().map(|band| band.y1).fold(top, f64::max);
    let falls: Vec<(f64, f64)> = corners
        .windows(2)
        .filter(|pair| pair[1].y > pair[0].y)
        .map(|pair| (day(pair[1].x), pair[1].y))
        .collect();
    let told = answer["vase"]["curve"].as_array().expect("a curve");
    assert_eq!(falls.len(), told.len());
    // The demo's last stem ends: its share is 0, which is the axis.
    let axis = falls.last().expect("a fall").1;
    assert_eq!(told.last().expect("a step")[1], 0.0);
    assert!(lowest <= axis);
    for ((day, y), step) in falls.iter().zip(told) {
        let share = (axis - y) / (axis - top);
        let [expected_day, expected] = [0, 1].map(|at| step[at].as_f64().expect("a number"));
        assert!((day - expected_day).abs() < 0.01, "{day} {step}");
        assert!((share - expected).abs() < 2e-3, "{share} {step}");
    }
    let stems = answer["vase"]["stems"].to_string();
    let fresh = answer["vase"]["censored"].to_string();
    let says = format!("{stems} stems, {fresh} of them still fresh");
    assert!(chart.described().contains(&says), "{}", chart.described());
}

#[test]
fn every_bloom_is_a_dot_at_its_diameter_and_the_mean_stands_among_them() {
    let lane = demo();
    run(
        &lane,
        &["row", "24-002", "--chart", "plant.svg", "--units", "mm"],
    )
    .done();
    let answer = run(&lane, &["row", "24-002", "--json"]).object();
    let chart = Chart::read(&lane, "plant-2.svg");
    let dots = bounds(&chart.outlines("fill", BAR));
    // The first is the legend's.
    let dots = &dots[1..];
    let diameter = &answer["diameter"];
    assert_eq!(dots.len() as u64, diameter["n"].as_u64().expect("a count"));
    let figures: Vec<String> = chart.middles().into_iter().map(|one| one.0).collect();
    let figures: Vec<&String> = figures
        .iter()
        .filter(|one| one.parse::<f64>().is_ok())
        .collect();
    let mm = chart.across(figures[0], figures[figures.len() - 1]);
    let told = chart.described();
    let days = told.split("; ").filter_map(|day| day.split_once(": "));
    let mut blooms: Vec<f64> = days
        .flat_map(|(_, values)| values.split(", "))
        .filter_map(|value| value.parse().ok())
        .collect();
    blooms.sort_by(f64::total_cmp);
    let mut drawn: Vec<f64> = dots.iter().map(|dot| mm(dot.center().x)).collect();
    drawn.sort_by(f64::total_cmp);
    assert_eq!(drawn.len(), blooms.len());
    for (drawn, bloom) in drawn.iter().zip(&blooms) {
        assert!((drawn - bloom).abs() < 0.05, "{drawn} {bloom}");
    }
}

#[test]
fn colours_are_as_long_as_their_counts_and_come_to_what_was_found() {
    let lane = demo();
    let words = [
        "choose",
        "--form",
        "ball",
        "--chart",
        "colours.svg",
        "--json",
    ];
    let answer = run(&lane, &words).object();
    let found = run(&lane, &["choose", "--form", "ball", "--json"]).object();
    let families = answer["families"].as_object().expect("families").values();
    let counts: Vec<u64> = families
        .flat_map(|words| words.as_object().expect("words").values())
        .map(|count| count.as_u64().expect("a count"))
        .collect();
    assert_eq!(found["found"].as_u64(), Some(counts.iter().sum()));
    let chart = Chart::read(&lane, "colours.svg");
    let pieces = bounds(&chart.outlines("stroke", "#5a5a5a"));
    assert_eq!(pieces.len(), counts.len());
    // Of one word both go by the colour's place: the widths of all together.
    let wide: f64 = pieces.iter().map(Rect::width).sum();
    let each = wide / counts.iter().sum::<u64>() as f64;
    let mut widths: Vec<f64> = pieces.iter().map(|piece| piece.width() / each).collect();
    widths.sort_by(f64::total_cmp);
    let mut counts = counts;
    counts.sort_unstable();
    for (width, count) in widths.iter().zip(&counts) {
        assert!((width - *count as f64).abs() < 0.01, "{width} {count}");
    }
}

#[test]
fn charts_of_plain_text_are_ascii_and_say_what_they_are_from() {
    let lane = demo();
    for (words, seen) in [
        (
            &["row", "24-002", "--chart"][..],
            &[
                "21 stems",
                "Half of the stems last",
                "38 blooms",
                "o a bloom",
                "days",
            ][..],
        ),
        (
            &["choose", "--chart"],
            &["varieties, each by its main colour", "pinks", "|###"],
        ),
        (
            &["choose", "--form", "ball", "--chart"],
            &[" of 240 varieties", " of 54"],
        ),
    ] {
        let answer = run(&lane, words).done();
        assert!(answer.is_ascii(), "{answer}");
        for says in seen {
            assert!(answer.contains(says), "{says:?} in {answer}");
        }
    }
}

#[test]
fn a_chart_of_nothing_is_refused_with_what_would_be_drawn() {
    let lane = demo();
    let folder = lane.path("lane");
    run(&lane, &["row", "add", "26-990", "--seed", "Haaf Squill"]).done();
    run(&lane, &["row", "26-990", "--chart", "x.svg"]).refused("expected one or more to draw");
    run(&lane, &["row", "24-002", "--chart", "x.png"]).refused("ends in .pdf or .svg");
    let none = ["choose", "zzzzqqqq", "--chart", "x.svg"];
    run(&lane, &none).refused("found no variety of a known colour");
    assert!(!lane.dir().join("x.svg").exists() && !folder.is_empty());
}
