//! Pages as PDF: real text in the embedded fonts, drawings as lines and curves.

use krilla::color::{luma, rgb};
use krilla::geom::{Path, PathBuilder, Point as PdfPoint, Transform};
use krilla::graphic::Graphic;
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::paint::{Fill, LineJoin, Paint, Stroke as PdfStroke};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Data, Document};

use super::font::{Face, POINT, Weight};
use super::outline::{Ink, Outline, Point, Step};
use super::page::{Drawing, Item, Line, Page};
use super::place::{Place, Turn};
use super::write::{Unwritable, check};

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
                Item::Outline(outline) => draw(&mut surface, outline),
                Item::Drawing(drawing) => stamp(&mut surface, drawing),
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

fn set(surface: &mut Surface<'_>, fonts: &Fonts, line: &Line) {
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
    let start = Place {
        at: Point::new(line.start(), 0.0),
        turn: Turn::None,
    };
    let place = start.then(Place {
        at: line.at,
        turn: line.turn,
    });
    if place.turn == Turn::None {
        let start = PdfPoint::from_xy(points(place.at.x), points(place.at.y));
        surface.draw_glyphs(start, &glyphs, font.clone(), text, size, false);
        return;
    }
    surface.push_transform(&transform(place));
    let origin = PdfPoint::from_xy(0.0, 0.0);
    surface.draw_glyphs(origin, &glyphs, font.clone(), text, size, false);
    surface.pop();
}

/// A drawing as a form of its own: the same one is written once, however often it is printed.
fn stamp(surface: &mut Surface<'_>, drawing: &Drawing) {
    let mut stream = surface.stream_builder();
    let mut form = stream.surface();
    for outline in &drawing.outlines {
        draw(&mut form, outline);
    }
    form.finish();
    let graphic = Graphic::new(stream.finish(), false);
    surface.push_transform(&transform(drawing.place));
    surface.draw_graphic(graphic);
    surface.pop();
}

fn transform(place: Place) -> Transform {
    let (cos, sin) = place.turn.of(1.0, 0.0);
    let (cos, sin) = (cos as f32, sin as f32);
    Transform::from_row(cos, sin, -sin, cos, points(place.at.x), points(place.at.y))
}

fn draw(surface: &mut Surface<'_>, outline: &Outline) {
    if outline.fill.is_none() && outline.stroke.is_none() {
        return;
    }
    // An outline without a line or a curve draws nothing.
    let Some(path) = path(&outline.steps) else {
        return;
    };
    surface.set_fill(outline.fill.map(fill));
    surface.set_stroke(outline.stroke.map(|stroke| PdfStroke {
        paint: paint(stroke.ink),
        width: (stroke.width / POINT) as f32,
        line_join: LineJoin::Round,
        ..PdfStroke::default()
    }));
    surface.draw_path(&path);
}

fn path(steps: &[Step]) -> Option<Path> {
    let mut path = PathBuilder::new();
    for step in steps {
        match *step {
            Step::Move(a) => path.move_to(points(a.x), points(a.y)),
            Step::Line(a) => path.line_to(points(a.x), points(a.y)),
            Step::Cubic(a, b, c) => path.cubic_to(
                points(a.x),
                points(a.y),
                points(b.x),
                points(b.y),
                points(c.x),
                points(c.y),
            ),
            Step::Close => path.close(),
        }
    }
    path.finish()
}

fn fill(ink: Ink) -> Fill {
    Fill {
        paint: paint(ink),
        ..Fill::default()
    }
}

/// Grey is printed with black alone, never mixed from the colours.
fn paint(ink: Ink) -> Paint {
    match ink {
        Ink { r, g, b } if r == g && g == b => luma::Color::new(r).into(),
        Ink { r, g, b } => rgb::Color::new(r, g, b).into(),
    }
}

/// A place in mm as points, to a hundredth (1/7200 inch): finer digits print no better and make a
/// file twice as large.
fn points(length: f64) -> f32 {
    ((length / POINT * 100.0).round() / 100.0) as f32
}
