//! A page as SVG 1.1: the one place that writes SVG.
//!
//! A user unit is a millimetre, from the upper left corner of the page, y down. Every number is
//! written to a ten-thousandth and without idle zeros.

use std::fmt::Write;

use kurbo::Point;

use super::font::{POINT, Weight};
use super::page::{Align, Item, Page, TextLine};
use super::write::{Unwritable, check};
use crate::colour::Srgb;
use crate::geometry::{Outline, moved};

/// How letters are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Lettering {
    /// As text, in Noto Sans or whatever stands in for it. Every line is told how long it is, so
    /// that another font may look different but never runs over its end. It can be searched and
    /// edited.
    #[default]
    Words,
    /// As outlines: everywhere the same as in the PDF, but no text any more. For a label whose
    /// sizes must be exact.
    Outlines,
}

/// So much of what is written on a page describes it.
const DESCRIBED: usize = 400;

/// What a page shows, in words for who cannot see it.
fn described(page: &Page) -> String {
    if !page.shows.is_empty() {
        return page.shows.clone();
    }
    let lines: Vec<&str> = page.lines().map(|line| line.text.as_str()).collect();
    lines.join(" ").chars().take(DESCRIBED).collect()
}

/// The page as one SVG document of its own size in millimetres. The title is read out in its place,
/// and what it shows: as the page says, else what is written on it.
///
/// # Errors
/// [`Unwritable`] where the page has no size or a length that is no number.
pub fn svg(title: &str, page: &Page, lettering: Lettering) -> Result<String, Unwritable> {
    check(std::slice::from_ref(page))?;
    let (width, height) = (Number(page.width), Number(page.height));
    let mut text = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{width}mm\" \
         height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">\n\
         <title>{}</title>\n",
        escaped(title)
    );
    let described = described(page);
    if !described.is_empty() {
        // OK because writing to a text cannot fail, here and below.
        let _ = writeln!(text, "<desc>{}</desc>", escaped(&described));
    }
    // Paper is white, and a screen's page may be dark: black lines and codes would vanish on it.
    let _ = writeln!(
        text,
        "<rect width=\"{width}\" height=\"{height}\" fill=\"{}\"/>",
        Srgb::grey(255)
    );
    for item in &page.items {
        match (item, lettering) {
            (Item::Text(line), Lettering::Words) => words(&mut text, line),
            (Item::Text(line), Lettering::Outlines) => path(&mut text, &line.outline()),
            (Item::Outline(outline), _) => path(&mut text, outline),
            (Item::Drawing(drawing), _) => {
                let outlines = drawing.on_page();
                outlines.for_each(|outline| path(&mut text, &outline));
            }
            (Item::Squares(squares), _) => path(&mut text, &squares.outline()),
        }
    }
    text.push_str("</svg>\n");
    Ok(text)
}

fn words(text: &mut String, line: &TextLine) {
    if line.text.as_str().is_empty() {
        return;
    }
    let weight = match line.style.weight {
        Weight::Regular => "",
        Weight::Bold => " font-weight=\"bold\"",
    };
    let anchor = match line.align {
        Align::Left => "",
        Align::Centre => " text-anchor=\"middle\"",
        Align::Right => " text-anchor=\"end\"",
    };
    let _ = writeln!(
        text,
        "<text{}{anchor} font-family=\"'Noto Sans', sans-serif\" font-size=\"{}\"{weight} \
         fill=\"{}\" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\" \
         xml:space=\"preserve\">{}</text>",
        place(line),
        Number(line.style.points * POINT),
        line.ink,
        Number(line.text.width(line.style)),
        escaped(line.text.as_str())
    );
}

/// Where a line stands, as attributes.
fn place(line: &TextLine) -> String {
    let [a, b, c, d, x, y] = line.place.as_coeffs().map(Number);
    match [&a, &b, &c, &d].map(|number| number.rounded()) {
        [1.0, 0.0, 0.0, 1.0] => format!(" x=\"{x}\" y=\"{y}\""),
        _ => format!(" transform=\"matrix({a} {b} {c} {d} {x} {y})\""),
    }
}

fn path(text: &mut String, outline: &Outline) {
    let (fill, stroke) = (outline.fill, outline.stroke);
    if outline.path.is_empty() || fill.is_none() && stroke.is_none() {
        return;
    }
    let short = |point: Point| Point::new(Number(point.x).rounded(), Number(point.y).rounded());
    let data = moved(&outline.path, short).to_svg();
    let fill = fill.map_or("none".to_string(), |fill| fill.to_string());
    let _ = write!(text, "<path d=\"{data}\" fill=\"{fill}\"");
    if let Some(stroke) = stroke {
        let _ = write!(
            text,
            " stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
            stroke.colour,
            Number(stroke.width)
        );
    }
    text.push_str("/>\n");
}

/// A number as it is written.
struct Number(f64);

impl Number {
    fn rounded(&self) -> f64 {
        // Zero has no sign.
        (self.0 * 1e4).round() / 1e4 + 0.0
    }
}

impl std::fmt::Display for Number {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.rounded().fmt(f)
    }
}

/// A text with what XML reads as its own replaced, and without what it cannot hold (XML 1.0, section 2.2).
pub fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\t' | '\n' | '\r' => safe.push(' '),
            '\u{fffe}' | '\u{ffff}' => {}
            character if character < ' ' => {}
            character => safe.push(character),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use kurbo::BezPath;

    use super::*;
    use crate::colour::Srgb;
    use crate::geometry::Stroke;

    #[test]
    fn numbers_are_short() {
        assert_eq!(Number(12.0).to_string(), "12");
        assert_eq!(Number(-0.00001).to_string(), "0");
        assert_eq!(Number(0.123_456).to_string(), "0.1235");
    }

    #[test]
    fn a_path_is_written_in_short_numbers_with_its_colours() {
        let mut curves = BezPath::new();
        curves.move_to((1.0, -0.00001));
        curves.curve_to((2.5, 0.123_456), (3.0, 4.0), (5.0, 6.0));
        curves.close_path();
        let line = Stroke::new(Srgb::new(1, 2, 255), 0.25);
        let mut text = String::new();
        path(&mut text, &Outline::of(curves).stroked(line));
        assert_eq!(
            text,
            "<path d=\"M1,0 C2.5,0.1235 3,4 5,6 Z\" fill=\"none\" stroke=\"#0102ff\" \
             stroke-width=\"0.25\" stroke-linejoin=\"round\"/>\n"
        );
    }

    #[test]
    fn what_xml_reads_as_its_own_is_written_out() {
        assert_eq!(
            escaped("a<b>&\"c\"\u{7}\n"),
            "a&lt;b&gt;&amp;&quot;c&quot; "
        );
    }
}
