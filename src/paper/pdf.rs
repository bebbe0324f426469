//! Pages as PDF: real text in the embedded fonts, drawings as lines and curves.

use std::collections::HashMap;

use krilla::color::{luma, rgb};
use krilla::geom::{Path, PathBuilder, Point as PdfPoint, Transform};
use krilla::graphic::Graphic;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::paint::{Fill, LineJoin, Paint, Stroke as PdfStroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Data, Document};
use kurbo::{Affine, BezPath, PathEl, Point};

use super::drawing::Drawing;
use super::font::{Face, POINT, Weight};
use super::page::{Item, Page, TextLine};
use super::squares::{Squares, dark_runs};
use super::write::{Unwritable, check};
use crate::colour::Srgb;
use crate::geometry::{Outline, scale};

/// The pages as one PDF file. The same pages give the same bytes: no date and no number is in them
/// that was not given.
///
/// # Errors
/// [`Unwritable`] where there are no pages, or one has no size or a length that is no number.
pub fn pdf(title: &str, pages: &[Page]) -> Result<Vec<u8>, Unwritable> {
    check(pages)?;
    let fonts = Fonts {
        regular: font(Weight::Regular)?,
        bold: font(Weight::Bold)?,
    };
    let mut document = Document::new();
    let mut stamps = Stamps::default();
    document.set_metadata(
        Metadata::new()
            .title(title.to_string())
            .creator("trug".to_string())
            .language("en-GB".to_string()),
    );
    for page in pages {
        let settings = PageSettings::from_wh(points(page.width), points(page.height))
            .ok_or_else(|| Unwritable::Pdf("the page has no size".to_string()))?;
        let mut sheet = document.start_page_with(settings);
        let mut surface = sheet.surface();
        for item in &page.items {
            match item {
                Item::Text(line) => set(&mut surface, &fonts, line),
                Item::Outline(outline) => draw(&mut surface, outline, PAGE),
                Item::Drawing(drawing) => stamps.put(&mut surface, drawing),
                Item::Squares(squares) => stamps.rule(&mut surface, squares),
            }
        }
        surface.finish();
        sheet.finish();
    }
    document
        .finish()
        .map_err(|error| Unwritable::Pdf(error.to_string()))
}

struct Fonts {
    regular: Font,
    bold: Font,
}

fn font(weight: Weight) -> Result<Font, Unwritable> {
    Font::new(Data::from(Face::of(weight).data()), 0)
        .ok_or_else(|| Unwritable::Pdf("the font cannot be read".to_string()))
}

fn set(surface: &mut Surface<'_>, fonts: &Fonts, line: &TextLine) {
    let face = Face::of(line.style.weight);
    let font = match line.style.weight {
        Weight::Regular => &fonts.regular,
        Weight::Bold => &fonts.bold,
    };
    let text = line.text.as_str();
    let glyphs: Vec<KrillaGlyph> = text
        .char_indices()
        .filter_map(|(at, character)| {
            let glyph = face.glyph(character)?;
            let range = at..at + character.len_utf8();
            let id = GlyphId::new(glyph.id);
            Some(KrillaGlyph::new(
                id,
                glyph.advance as f32,
                0.0,
                0.0,
                0.0,
                range,
                None,
            ))
        })
        .collect();
    surface.set_fill(Some(fill(line.ink)));
    surface.set_stroke(None);
    let size = line.style.points as f32;
    let place = line.place * Affine::translate((line.start(), 0.0));
    let [a, b, c, d, x, y] = place.as_coeffs();
    if [a, b, c, d] == [1.0, 0.0, 0.0, 1.0] {
        let start = PdfPoint::from_xy(points(x), points(y));
        surface.draw_glyphs(start, &glyphs, font.clone(), text, size, false);
        return;
    }
    surface.push_transform(&transform(place, 1.0));
    let origin = PdfPoint::from_xy(0.0, 0.0);
    surface.draw_glyphs(origin, &glyphs, font.clone(), text, size, false);
    surface.pop();
}

/// Drawings of a document as forms of their own: the same one is written once, however often it is
/// printed. Found again by where its outlines are held, and by how finely they are written.
#[derive(Default)]
struct Stamps {
    drawings: HashMap<(*const Outline, u8), Graphic>,
    squares: HashMap<(*const Vec<bool>, Srgb), Graphic>,
}

impl Stamps {
    fn put(&mut self, surface: &mut Surface<'_>, drawing: &Drawing) {
        let unit = scale(drawing.place) / POINT;
        // As fine as the page's, in digits of the drawing's own unit.
        let digits = (unit * PAGE.grain).log10().ceil().clamp(0.0, 6.0) as u8;
        // OK because the pages, and so their outlines, are held until the document is finished.
        let key = (drawing.outlines.as_ptr(), digits);
        let made = || form(surface, &drawing.outlines, digits);
        let graphic = self.drawings.entry(key).or_insert_with(made).clone();
        surface.push_transform(&transform(drawing.place, 1.0 / POINT));
        surface.draw_graphic(graphic);
        surface.pop();
    }

    fn rule(&mut self, surface: &mut Surface<'_>, squares: &Squares) {
        // OK as above.
        let key = (squares.rows.as_ptr(), squares.ink);
        let made = || ruled(surface, squares);
        let graphic = self.squares.entry(key).or_insert_with(made).clone();
        surface.push_transform(&transform(squares.place, 1.0 / POINT));
        surface.draw_graphic(graphic);
        surface.pop();
    }
}

/// Outlines in their own unit, written with so many digits after the point.
fn form(surface: &mut Surface<'_>, outlines: &[Outline], digits: u8) -> Graphic {
    let measure = Measure {
        scale: 1.0,
        grain: 10f64.powi(i32::from(digits)),
    };
    let mut stream = surface.stream_builder();
    let mut form = stream.surface();
    for outline in outlines {
        draw(&mut form, outline, measure);
    }
    form.finish();
    Graphic::new(stream.finish(), false)
}

/// A row of squares overlaps the next by this share of a side, so that no light seam is seen.
const OVERLAP: f32 = 0.04;

/// Squares as one dashed line a row, in a form of their own: half the bytes of a line for each dark
/// piece, a quarter of its outline's.
fn ruled(surface: &mut Surface<'_>, squares: &Squares) -> Graphic {
    let mut stream = surface.stream_builder();
    let mut form = stream.surface();
    form.set_fill(None);
    for (down, row) in squares.rows.iter().enumerate() {
        let runs: Vec<(usize, usize)> = dark_runs(row).collect();
        let (Some(first), Some(last)) = (runs.first(), runs.last()) else {
            continue;
        };
        let (start, end) = (first.0, last.1);
        let next = runs.iter().skip(1).map(|run| run.0);
        // A dash and a gap by turns; the gap after the last dash is never reached.
        let dashes = runs.iter().zip(next.chain([end + 1]));
        let dashes = dashes.flat_map(|(run, next)| [run.1 - run.0, next - run.1]);
        let dash = StrokeDash {
            array: dashes.map(|length| length as f32).collect(),
            offset: 0.0,
        };
        form.set_stroke(Some(PdfStroke {
            paint: paint(squares.ink),
            width: 1.0 + OVERLAP,
            dash: (runs.len() > 1).then_some(dash),
            ..PdfStroke::default()
        }));
        let y = down as f32 + 0.5;
        let mut path = PathBuilder::new();
        path.move_to(start as f32, y);
        path.line_to(end as f32, y);
        if let Some(path) = path.finish() {
            form.draw_path(&path);
        }
    }
    form.finish();
    Graphic::new(stream.finish(), false)
}

/// A place on the page in mm as one in points, of what is itself in `unit` points.
fn transform(place: Affine, unit: f64) -> Transform {
    let [a, b, c, d, x, y] = place.as_coeffs();
    let [a, b, c, d] = [a, b, c, d].map(|part| (part * unit) as f32);
    Transform::from_row(a, b, c, d, points(x), points(y))
}

fn draw(surface: &mut Surface<'_>, outline: &Outline, measure: Measure) {
    if outline.fill.is_none() && outline.stroke.is_none() {
        return;
    }
    // An outline without a line or a curve draws nothing.
    let Some(path) = path(&outline.path, measure) else {
        return;
    };
    surface.set_fill(outline.fill.map(fill));
    surface.set_stroke(outline.stroke.map(|stroke| PdfStroke {
        paint: paint(stroke.colour),
        width: (stroke.width * measure.scale) as f32,
        line_join: LineJoin::Round,
        ..PdfStroke::default()
    }));
    surface.draw_path(&path);
}

fn path(path: &BezPath, measure: Measure) -> Option<Path> {
    let mut built = PathBuilder::new();
    let at = |point: Point| (measure.place(point.x), measure.place(point.y));
    for element in path {
        match element {
            PathEl::MoveTo(a) => built.move_to(at(a).0, at(a).1),
            PathEl::LineTo(a) => built.line_to(at(a).0, at(a).1),
            PathEl::QuadTo(a, b) => {
                let (a, b) = (at(a), at(b));
                built.quad_to(a.0, a.1, b.0, b.1);
            }
            PathEl::CurveTo(a, b, c) => {
                let (a, b, c) = (at(a), at(b), at(c));
                built.cubic_to(a.0, a.1, b.0, b.1, c.0, c.1);
            }
            PathEl::ClosePath => built.close(),
        }
    }
    built.finish()
}

fn fill(ink: Srgb) -> Fill {
    Fill {
        paint: paint(ink),
        ..Fill::default()
    }
}

/// Grey is printed with black alone, never mixed from the colours.
fn paint(ink: Srgb) -> Paint {
    match ink {
        Srgb { r, g, b } if r == g && g == b => luma::Color::new(r).into(),
        Srgb { r, g, b } => rgb::Color::new(r, g, b).into(),
    }
}

/// How numbers are written: times `scale`, with one part in `grain` of a unit as the finest.
#[derive(Clone, Copy)]
struct Measure {
    scale: f64,
    grain: f64,
}

/// Millimetres as points, to a hundredth (1/7200 inch): finer digits print no better and make a file
/// half as large again.
const PAGE: Measure = Measure {
    scale: 1.0 / POINT,
    grain: 100.0,
};

impl Measure {
    fn place(self, length: f64) -> f32 {
        ((length * self.scale * self.grain).round() / self.grain) as f32
    }
}

fn points(length: f64) -> f32 {
    PAGE.place(length)
}
