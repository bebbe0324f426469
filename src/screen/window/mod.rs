//! A window of the screen as a picture: drawn as SVG from its cells.
//!
//! Grounds, blocks, dots and lines are shapes and not letters, so that they are whole in every viewer;
//! words are text, each run of them at its own cells, so that any font of even widths keeps the
//! columns. A unit is a tenth of the width of a cell, y down.

mod cell;
mod layers;
mod paint;
mod symbol;
#[cfg(test)]
mod tests;
mod words;

use std::fmt::Write;

use ratatui::buffer::Buffer;

use crate::colour::Ground;
use crate::paper::escaped;
use cell::Shown;
use layers::Layers;
use paint::{CELL, Paint};

/// What is left free about the cells.
const MARGIN: f64 = 14.0;
/// How high the bar with the title is.
const BAR: f64 = 30.0;

/// A window to be drawn.
#[derive(Debug, Clone, Copy)]
pub struct Window<'a> {
    /// What its bar says.
    pub title: &'a str,
    /// What it shows, in a sentence for who cannot see it.
    pub shows: &'a str,
    /// What its letters stand on.
    pub ground: Ground,
}

/// The cells of a screen in their window, as one SVG document. The same cells give the same text.
pub fn svg(buffer: &Buffer, window: &Window<'_>) -> String {
    let paint = Paint::of(window.ground);
    let (columns, rows) = (buffer.area.width, buffer.area.height);
    let width = f64::from(columns) * CELL.0 + 2.0 * MARGIN;
    let height = f64::from(rows) * CELL.1 + 2.0 * MARGIN + BAR;
    let mut layers = Layers::default();
    let mut words = String::new();
    for row in 0..rows {
        let cells = (0..columns).map(|column| &buffer[(column, row)]);
        let cells: Vec<Shown<'_>> = cells.map(|cell| Shown::of(cell, paint)).collect();
        let y = f64::from(row) * CELL.1;
        for (column, cell) in cells.iter().enumerate() {
            layers.take(cell, (column as f64 * CELL.0, y), paint);
        }
        words::write(&mut words, &cells, y);
    }
    let (title, shows) = (escaped(window.title), escaped(window.shows));
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\">\n\
         <title>{title}</title>\n<desc>{shows}</desc>\n"
    );
    frame(&mut text, (width, height), &title, paint);
    // OK because writing to a text cannot fail, here and below.
    let _ = writeln!(
        text,
        "<g transform=\"translate({MARGIN} {})\">",
        BAR + MARGIN
    );
    layers.write(&mut text);
    words::group(&mut text, &words);
    text.push_str("</g>\n</svg>\n");
    text
}

/// The window about the cells: an edge, and a bar with what it is.
fn frame(text: &mut String, (width, height): (f64, f64), title: &str, paint: Paint) {
    let (right, low) = (width - 1.0, height - 1.0);
    let _ = writeln!(
        text,
        "<rect x=\"0.5\" y=\"0.5\" width=\"{right}\" height=\"{low}\" rx=\"7\" fill=\"{}\"/>",
        paint.ground
    );
    let _ = writeln!(
        text,
        "<path d=\"M0.5 {BAR}v-{}a7 7 0 0 1 7-7h{}a7 7 0 0 1 7 7v{}z\" fill=\"{}\"/>",
        BAR - 7.5,
        width - 15.0,
        BAR - 7.5,
        paint.bar
    );
    let _ = writeln!(
        text,
        "<rect x=\"0.5\" y=\"0.5\" width=\"{right}\" height=\"{low}\" rx=\"7\" fill=\"none\" stroke=\"{}\"/>",
        paint.edge
    );
    let _ = writeln!(
        text,
        "<text x=\"{}\" y=\"20\" text-anchor=\"middle\" font-family=\"sans-serif\" font-size=\"14\" fill=\"{}\">{title}</text>",
        width / 2.0,
        paint.letters
    );
}
