//! A page as SVG 1.1, in millimetres.

use std::fmt::Write;

use super::font::{POINT, Weight};
use super::outline::{Ink, Outline, Point, Step};
use super::page::{Align, Item, Line, Page};
use super::place::Turn;
use super::write::{Unwritable, check};

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

/// The page as one SVG document: its own size in millimetres, and a user unit is a millimetre.
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

fn words(text: &mut String, line: &Line) {
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
    let (x, y) = (Number(line.at.x), Number(line.at.y));
    let turn = match line.turn {
        Turn::None => String::new(),
        turn => format!(" transform=\"rotate({} {x} {y})\"", turn.degrees()),
    };
    // OK because writing to a text cannot fail, here and below.
    let _ = writeln!(
        text,
        "<text x=\"{x}\" y=\"{y}\"{turn}{anchor} font-family=\"'Noto Sans', sans-serif\" \
         font-size=\"{}\"{weight} fill=\"{}\" textLength=\"{}\" \
         lengthAdjust=\"spacingAndGlyphs\" xml:space=\"preserve\">{}</text>",
        Number(line.style.points * POINT),
        Hex(line.ink),
        Number(line.text.width(line.style)),
        escaped(line.text.as_str())
    );
}

fn path(text: &mut String, outline: &Outline) {
    if outline.steps.is_empty() || outline.fill.is_none() && outline.stroke.is_none() {
        return;
    }
    text.push_str("<path d=\"");
    for step in &outline.steps {
        let (letter, points): (char, &[Point]) = match step {
            Step::Move(a) => ('M', &[*a]),
            Step::Line(a) => ('L', &[*a]),
            Step::Cubic(a, b, c) => ('C', &[*a, *b, *c]),
            Step::Close => ('Z', &[]),
        };
        text.push(letter);
        for (at, point) in points.iter().enumerate() {
            let gap = if at == 0 { "" } else { " " };
            let _ = write!(text, "{gap}{} {}", Number(point.x), Number(point.y));
        }
    }
    match outline.fill {
        Some(ink) => {
            let _ = write!(text, "\" fill=\"{}\"", Hex(ink));
        }
        None => text.push_str("\" fill=\"none\""),
    }
    if let Some(stroke) = outline.stroke {
        let _ = write!(
            text,
            " stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
            Hex(stroke.ink),
            Number(stroke.width)
        );
    }
    text.push_str("/>\n");
}

/// A length in mm to a ten-thousandth, without idle zeros.
struct Number(f64);

impl std::fmt::Display for Number {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let rounded = (self.0 * 1e4).round() / 1e4;
        // Zero has no sign.
        write!(f, "{}", rounded + 0.0)
    }
}

struct Hex(Ink);

impl std::fmt::Display for Hex {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Ink { r, g, b } = self.0;
        write!(f, "#{r:02x}{g:02x}{b:02x}")
    }
}

/// With what XML reads as its own replaced, and without what it cannot hold (XML 1.0, section 2.2).
fn escaped(text: &str) -> String {
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
    use super::*;

    #[test]
    fn lengths_are_short_and_colours_hex() {
        assert_eq!(Number(12.0).to_string(), "12");
        assert_eq!(Number(-0.00001).to_string(), "0");
        assert_eq!(Number(0.123_456).to_string(), "0.1235");
        assert_eq!(Hex(Ink::new(1, 2, 255)).to_string(), "#0102ff");
    }

    #[test]
    fn what_xml_reads_as_its_own_is_written_out() {
        assert_eq!(
            escaped("a<b>&\"c\"\u{7}\n"),
            "a&lt;b&gt;&amp;&quot;c&quot; "
        );
    }
}
