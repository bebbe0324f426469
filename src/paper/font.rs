//! The two fonts of every page, and what they say of a character: its glyph and how wide it is.

use std::collections::HashMap;
use std::sync::LazyLock;

use kurbo::BezPath;
use skrifa::instance::{LocationRef, Size};
use skrifa::outline::{DrawSettings, OutlinePen};
use skrifa::{FontRef, GlyphId, MetadataProvider};

const REGULAR: &[u8] = include_bytes!("../../assets/fonts/NotoSans-Regular.ttf");
const BOLD: &[u8] = include_bytes!("../../assets/fonts/NotoSans-Bold.ttf");

/// Millimetres in a point: 72 points are an inch (the PostScript point).
pub const POINT: f64 = 25.4 / 72.0;

/// How heavy letters are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Weight {
    /// Noto Sans Regular.
    Regular,
    /// Noto Sans Bold.
    Bold,
}

/// How letters are set: their weight and their size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Style {
    /// Regular or bold.
    pub weight: Weight,
    /// The size in points.
    pub points: f64,
}

/// One font, read once.
pub(super) struct Face {
    data: &'static [u8],
    font: FontRef<'static>,
    glyphs: HashMap<char, Glyph>,
    /// The same of the characters of ASCII, by their codes: most of any text.
    ascii: [Option<Glyph>; 128],
    /// Above and below the base line, in parts of the size; below is negative.
    heights: (f64, f64),
    /// The height of a capital letter, in parts of the size.
    capital: f64,
}

/// A character of a font.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Glyph {
    /// Its number in the font.
    pub id: u32,
    /// How far it moves the next one, in parts of the size.
    pub advance: f64,
}

impl Style {
    /// Regular letters of a size in points.
    pub const fn regular(points: f64) -> Style {
        Style {
            weight: Weight::Regular,
            points,
        }
    }

    /// Bold letters of a size in points.
    pub const fn bold(points: f64) -> Style {
        Style {
            weight: Weight::Bold,
            points,
        }
    }

    /// From the base line up to the top of the tallest letter of the font, accents included, in mm.
    pub fn above(self) -> f64 {
        Face::of(self.weight).heights.0 * self.points * POINT
    }

    /// From the base line down to the foot of the deepest letter of the font, in mm.
    pub fn below(self) -> f64 {
        -Face::of(self.weight).heights.1 * self.points * POINT
    }

    /// From one base line to the next, in mm.
    pub fn line(self) -> f64 {
        1.2 * self.points * POINT
    }

    /// The height of a capital letter without an accent, in mm.
    pub fn capital(self) -> f64 {
        Face::of(self.weight).capital * self.points * POINT
    }
}

impl Face {
    /// The font of a weight.
    pub(super) fn of(weight: Weight) -> &'static Face {
        static REGULAR_FACE: LazyLock<Face> = LazyLock::new(|| Face::read(REGULAR));
        static BOLD_FACE: LazyLock<Face> = LazyLock::new(|| Face::read(BOLD));
        match weight {
            Weight::Regular => &REGULAR_FACE,
            Weight::Bold => &BOLD_FACE,
        }
    }

    /// The file of the font.
    pub(super) fn data(&self) -> &'static [u8] {
        self.data
    }

    /// The glyph of a character, if the font has it.
    pub(super) fn glyph(&self, character: char) -> Option<Glyph> {
        match self.ascii.get(character as usize) {
            Some(glyph) => *glyph,
            None => self.glyphs.get(&character).copied(),
        }
    }

    /// How wide a text is, as a share of the size of its letters.
    pub(super) fn advances(&self, text: &str) -> f64 {
        let advance = |c| self.glyph(c).map_or(0.0, |glyph| glyph.advance);
        text.chars().map(advance).sum()
    }

    /// The outline of a glyph where a size is 1, its base line from (0, 0) on; y runs up.
    pub(super) fn outline(&self, glyph: Glyph) -> BezPath {
        let mut pen = Pen(BezPath::new());
        let drawn = self.font.outline_glyphs().get(GlyphId::new(glyph.id));
        if let Some(drawn) = drawn {
            // OK because the fonts are in the program and a test draws every glyph of them.
            let _ = drawn.draw(
                DrawSettings::unhinted(Size::new(1.0), LocationRef::default()),
                &mut pen,
            );
        }
        pen.0
    }

    fn read(data: &'static [u8]) -> Face {
        // OK because the fonts are in the program and a test reads them.
        let font = FontRef::new(data).unwrap_or_else(|error| unreachable!("{error}"));
        let metrics = font.metrics(Size::unscaled(), LocationRef::default());
        // Whole units are exact; a float of the font's own would not be.
        let share = |units: f32| f64::from(units) / f64::from(metrics.units_per_em);
        let widths = font.glyph_metrics(Size::unscaled(), LocationRef::default());
        let glyph = |(code, id): (u32, GlyphId)| {
            let advance = share(widths.advance_width(id)?);
            let id = id.to_u32();
            Some((char::from_u32(code)?, Glyph { id, advance }))
        };
        let glyphs: HashMap<char, Glyph> = font.charmap().mappings().filter_map(glyph).collect();
        let mut ascii = [None; 128];
        for (code, glyph) in (0..=127_u8).zip(&mut ascii) {
            *glyph = glyphs.get(&char::from(code)).copied();
        }
        Face {
            data,
            heights: (share(metrics.ascent), share(metrics.descent)),
            capital: share(metrics.cap_height.unwrap_or(metrics.ascent)),
            font,
            glyphs,
            ascii,
        }
    }
}

/// Takes a glyph's outline from the font.
struct Pen(BezPath);

fn at(x: f32, y: f32) -> (f64, f64) {
    (x.into(), y.into())
}

impl OutlinePen for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to(at(x, y));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to(at(x, y));
    }

    fn quad_to(&mut self, cx: f32, cy: f32, x: f32, y: f32) {
        self.0.quad_to(at(cx, cy), at(x, y));
    }

    fn curve_to(&mut self, ax: f32, ay: f32, bx: f32, by: f32, x: f32, y: f32) {
        self.0.curve_to(at(ax, ay), at(bx, by), at(x, y));
    }

    fn close(&mut self) {
        self.0.close_path();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_fonts_have_the_same_characters_and_every_glyph_can_be_drawn() {
        let (regular, bold) = (Face::of(Weight::Regular), Face::of(Weight::Bold));
        assert!(regular.glyphs.len() > 1250, "{}", regular.glyphs.len());
        for (character, glyph) in &regular.glyphs {
            assert!(bold.glyph(*character).is_some(), "{character:?}");
            for (face, glyph) in [(regular, glyph), (bold, &bold.glyphs[character])] {
                let path = face.outline(*glyph);
                // A dozen spaces of several widths have no ink.
                let blank = character.is_whitespace();
                assert_eq!(path.is_empty(), blank, "{character:?}");
            }
        }
    }

    /// A text of these alone is set without a closer look.
    #[test]
    fn the_fonts_have_every_character_of_ascii_that_is_seen() {
        for weight in [Weight::Regular, Weight::Bold] {
            for code in b' '..=b'~' {
                let character = char::from(code);
                let found = Face::of(weight).glyph(character);
                assert_eq!(found, Face::of(weight).glyphs.get(&character).copied());
                assert!(found.is_some(), "{character}");
            }
        }
    }

    /// Unicode's blocks, by the letters that gardeners' names use, and the signs of print.
    #[test]
    fn the_fonts_cover_accents_greek_cyrillic_and_the_signs_of_print() {
        let wanted = "ÅåÄäÉéÈèÊêÇçÑñØøÞþßŒœŁłŐőŠšŽžĀāĐđĞğİıŃńȘșȚțẞẁŷǿ\
                      ΑΩάώЖжЁёЇїЉљ‘’“”„‹›«»–—…×÷±→←↑↓−≈≤≥½¼¾⅛°µ£€²³№†•";
        for character in wanted.chars() {
            for weight in [Weight::Regular, Weight::Bold] {
                let found = Face::of(weight).glyph(character);
                assert!(found.is_some(), "{character} {weight:?}");
            }
        }
    }
}
