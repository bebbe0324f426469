//! A page that is printed, written in fewer bytes to be looked at on a screen: its outlines by lines that
//! are nowhere farther from it than is seen there, in whole hundredths of a millimetre from point to point.

use std::fmt::Write;

use kurbo::{BezPath, Line, ParamCurveNearest, PathEl, Point};

/// How far lines may be from the outline, in millimetres: a quarter of a pixel where a page of 216 mm is
/// 600 pixels wide.
const NEAR: f64 = 0.08;
/// Steps to a millimetre.
const STEPS: f64 = 100.0;

/// The same page. Everything but the outlines of paths stays to the letter.
pub(super) fn smaller(svg: &str) -> String {
    let mut text = String::new();
    let mut stroke = None;
    for line in svg.lines() {
        let path = line.strip_prefix("<path d=\"");
        let path = path.and_then(|rest| rest.split_once("\" fill=\""));
        let path = path.and_then(|(data, rest)| Some((data, rest.split_once('"')?)));
        let own = path.map(|(_, (_, rest))| rest.trim_end_matches("/>"));
        if own != stroke {
            text.push_str(if stroke.is_some() { "</g>\n" } else { "" });
            if let Some(own) = own {
                let _ = writeln!(text, "<g transform=\"scale(.01)\"{}>", in_group(own));
            }
            stroke = own;
        }
        match path {
            None => text.push_str(line),
            Some((data, (fill, _))) => {
                let _ = write!(text, "<path d=\"{}\" fill=\"{fill}\"/>", in_steps(data));
            }
        }
        text.push('\n');
    }
    text
}

/// The path as lines from point to point.
fn in_steps(data: &str) -> String {
    let path = BezPath::from_svg(data).expect("a path");
    let mut parts: Vec<(Vec<Point>, bool)> = Vec::new();
    kurbo::flatten(
        path.elements().iter().copied(),
        NEAR / 2.0,
        |element| match (element, parts.last_mut()) {
            (PathEl::MoveTo(point), _) => parts.push((vec![point], false)),
            (PathEl::LineTo(point), Some((points, _))) => points.push(point),
            (PathEl::ClosePath, Some((_, closed))) => *closed = true,
            _ => {}
        },
    );
    let mut text = String::new();
    let mut at = (0, 0);
    for (points, closed) in parts {
        let whole = |point: &Point| {
            let step = |length: f64| (length * STEPS).round() as i64;
            (step(point.x), step(point.y))
        };
        let points: Vec<(i64, i64)> = few(&points).iter().map(whole).collect();
        for (place, point) in points.iter().enumerate() {
            let (x, y) = (point.0 - at.0, point.1 - at.1);
            // What follows a move without a letter of its own is lines.
            text.push_str(if place == 0 { "m" } else { "" });
            for length in [x, y].map(|steps| steps.to_string()) {
                let stands_apart = text.ends_with(['m', 'z']) || length.starts_with('-');
                text.push_str(if stands_apart { "" } else { " " });
                text.push_str(&length);
            }
            at = *point;
        }
        if closed {
            text.push('z');
            at = points[0];
        }
    }
    text
}

/// What holds for a run of paths, with the width of their line in steps.
fn in_group(attributes: &str) -> String {
    const WIDTH: &str = "stroke-width=\"";
    let parts = attributes.split_once(WIDTH);
    let parts = parts.and_then(|(before, rest)| Some((before, rest.split_once('"')?)));
    let own = parts.map(|(before, (width, after))| {
        let width: f64 = width.parse().expect("a width");
        let width = (width * STEPS * 100.0).round() / 100.0;
        format!("{before}{WIDTH}{width}\"{after}")
    });
    own.unwrap_or_else(|| attributes.to_string())
}

/// The fewest of the points whose lines stay near to all of them, found by halving at the farthest.
fn few(points: &[Point]) -> Vec<Point> {
    let [first, between @ .., last] = points else {
        return points.to_vec();
    };
    let line = Line::new(*first, *last);
    let away = |point: &Point| line.nearest(*point, 1e-6).distance_sq;
    let farthest =
        (0..between.len()).max_by(|a, b| away(&between[*a]).total_cmp(&away(&between[*b])));
    match farthest {
        Some(at) if away(&between[at]) > NEAR * NEAR / 4.0 => {
            let mut left = few(&points[..=at + 1]);
            left.pop();
            left.extend(few(&points[at + 1..]));
            left
        }
        _ => vec![*first, *last],
    }
}

#[test]
fn a_page_keeps_its_words_and_its_shape_in_fewer_bytes() {
    let page = "<svg>\n<path d=\"M0,0 C0,5 5,10 10,10 L20,10 L30,10.01 L30,0 Z\" fill=\"none\" stroke=\"#000000\" stroke-width=\"0.2\"/>\n<text>a</text>\n</svg>\n";
    let made = smaller(page);
    assert!(
        made.contains(
            "<g transform=\"scale(.01)\" stroke=\"#000000\" stroke-width=\"20\">\n<path d=\"m0 0"
        ),
        "{made}"
    );
    assert!(
        made.contains("z\" fill=\"none\"/>\n</g>\n<text>a</text>"),
        "{made}"
    );
    let data = made
        .split('"')
        .find(|part| part.starts_with("m0 0"))
        .expect("a path");
    let (before, after) = (
        BezPath::from_svg("M0,0 C0,5 5,10 10,10 L20,10 L30,10.01 L30,0 Z").expect("a path"),
        BezPath::from_svg(data).expect("a path"),
    );
    let (before_area, after_area) = (kurbo::Shape::area(&before), kurbo::Shape::area(&after));
    assert!(
        (before_area - after_area / (STEPS * STEPS)).abs() < 30.0 * NEAR,
        "{before_area} {after_area}"
    );
    assert!(after.elements().len() < 16, "{data}");
}
