//! A drawing as SVG 1.1: paths alone, with a title and a description for those who cannot see it.

use std::fmt::Write;

use super::drawing::Drawing;
use super::path::{Outline, Point, Step};
use super::scale::ScaleBar;

/// Units of the picture in a radius: whole numbers are fine enough.
const RADIUS: f64 = 1000.0;
/// The strip for the scale bar beneath the circle.
const STRIP: f64 = 260.0;

/// The drawing as one SVG document.
///
/// `title` and `description` are read out in its place. With a scale bar the picture has a strip
/// beneath the circle. Where the diameter is known the document has its natural size in
/// millimetres, else none, and the place where it is shown decides.
pub fn svg(drawing: &Drawing, title: &str, description: &str, bar: Option<&ScaleBar>) -> String {
    let height = 2.0 * RADIUS + if bar.is_some() { STRIP } else { 0.0 };
    let mut text = String::from("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\"");
    text += " aria-labelledby=\"title description\"";
    if let Some(unit) = drawing.millimetres {
        let (wide, high) = (2.0 * unit, height / RADIUS * unit);
        let _ = write!(text, " width=\"{wide:.2}mm\" height=\"{high:.2}mm\"");
    }
    let _ = writeln!(text, " viewBox=\"-1000 -1000 2000 {height}\">");
    let _ = writeln!(text, "<title id=\"title\">{}</title>", escaped(title));
    let _ = writeln!(
        text,
        "<desc id=\"description\">{}</desc>",
        escaped(description)
    );
    text += &svg_paths(drawing);
    if let Some(bar) = bar {
        let half = bar.units * RADIUS / 2.0;
        let _ = writeln!(
            text,
            "<path stroke=\"#000000\" stroke-width=\"16\" fill=\"none\" d=\"M{0:.0} 1040V1080H{1:.0}V1040\"/>",
            -half, half
        );
        let _ = writeln!(
            text,
            "<text x=\"0\" y=\"1210\" font-family=\"sans-serif\" font-size=\"120\" text-anchor=\"middle\">{}</text>",
            escaped(&bar.label)
        );
    }
    text + "</svg>\n"
}

/// The drawing's paths as one `<g>`, a radius of 1000 about (0, 0), to stand in another document.
pub fn svg_paths(drawing: &Drawing) -> String {
    let mut text = String::from("<g stroke-linejoin=\"round\">\n");
    for patch in &drawing.patches {
        let fill = patch
            .fill
            .map_or("none".to_string(), |fill| fill.to_string());
        let _ = write!(text, "<path fill=\"{fill}\"");
        if let Some((colour, width)) = patch.line {
            let width = (width * RADIUS).round();
            let _ = write!(text, " stroke=\"{colour}\" stroke-width=\"{width}\"");
        }
        let _ = writeln!(text, " d=\"{}\"/>", data(&patch.outline));
    }
    text + "</g>\n"
}

/// A path's `d`: whole numbers, each from the end of the step before, so that they are short.
fn data(outline: &Outline) -> String {
    let mut text = String::new();
    let mut here = (0, 0);
    for step in &outline.steps {
        let (letter, points): (char, &[Point]) = match step {
            Step::Move(p) => ('M', &[*p]),
            Step::Line(p) => ('l', &[*p]),
            Step::Cubic(a, b, c) => ('c', &[*a, *b, *c]),
            Step::Close => ('z', &[]),
        };
        text.push(letter);
        // A path starts at (0, 0), so its first step may be told in full.
        let from = if letter == 'M' { (0, 0) } else { here };
        for (index, point) in points.iter().enumerate() {
            here = (number(point.x), number(point.y));
            for (part, value) in [here.0 - from.0, here.1 - from.1].into_iter().enumerate() {
                // A minus sign parts two numbers as well as a space does.
                if value >= 0 && index + part > 0 {
                    text.push(' ');
                }
                let _ = write!(text, "{value}");
            }
        }
    }
    text
}

fn number(value: f64) -> i64 {
    (value * RADIUS).round() as i64
}

/// With what XML reads as its own replaced, and what it cannot hold left out.
fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => safe += "&amp;",
            '<' => safe += "&lt;",
            '>' => safe += "&gt;",
            '"' => safe += "&quot;",
            '\t' | '\n' | '\r' => safe.push(' '),
            // XML 1.0 section 2.2: no other control characters, and not the last two of a plane.
            c if c < ' ' || matches!(c, '\u{fffe}' | '\u{ffff}') => {}
            c => safe.push(c),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_told_from_where_the_last_one_ended() {
        let at = Point::new;
        let steps = vec![
            Step::Move(at(0.1, -0.2)),
            Step::Line(at(0.2, 0.0)),
            Step::Cubic(at(0.2, 0.1), at(0.1, 0.1), at(0.0, 0.0)),
            Step::Close,
        ];
        assert_eq!(
            data(&Outline { steps }),
            "M100-200l100 200c0 100-100 100-200 0z"
        );
    }
}
