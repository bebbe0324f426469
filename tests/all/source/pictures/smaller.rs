//! A page that is printed, written in fewer bytes to be looked at on a screen: its outlines by lines that
//! are nowhere farther from it than is seen there, in hundredths of a millimetre from point to point.

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
                let _ = writeln!(text, "<g{own}>");
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
            let way = if place == 0 { "m" } else { "l" };
            let _ = write!(text, "{way}{} {}", number(x), number(y));
            at = *point;
        }
        if closed {
            text.push('z');
            at = points[0];
        }
    }
    text
}

/// Steps in millimetres, in few letters.
fn number(steps: i64) -> String {
    let text = (steps as f64 / STEPS).to_string();
    match text.strip_prefix("0.").or(text.strip_prefix("-0.")) {
        Some(rest) if steps < 0 => format!("-.{rest}"),
        Some(rest) => format!(".{rest}"),
        None => text,
    }
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
    let page = "<svg>\n<path d=\"M0,0 C0,5 5,10 10,10 L20,10 L30,10.01 L30,0 Z\" fill=\"none\" stroke=\"#000000\"/>\n<text>a</text>\n</svg>\n";
    let made = smaller(page);
    assert!(
        made.contains("<g stroke=\"#000000\">\n<path d=\"m0 0l"),
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
        (before_area - after_area).abs() < 30.0 * NEAR,
        "{before_area} {after_area}"
    );
    assert!(after.elements().len() < 12, "{data}");
}
