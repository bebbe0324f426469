//! A picture that is to be made.

use std::sync::Arc;

use image::{Rgba, RgbaImage};

use crate::colour::{Ground, Srgb, legible_on};
use crate::draw::{Drawing, Picture};
use crate::screen::abilities::{Pixels, Protocol};
use crate::screen::theme::marked_on;

/// No line of a picture is thinner, in pixels: it would not be seen.
const LEAST_LINE: f64 = 1.0;
/// The width of an arrow's line by the side of the picture, and with the edge that it has on both sides,
/// or it would be lost on petals of its colour.
const MARK_LINE: f64 = 0.014;
const EDGED: f64 = 0.03;

/// What is to be shown in pixels, and how.
#[derive(Debug, Clone, PartialEq)]
pub struct Request {
    /// What is drawn.
    pub drawing: Arc<Drawing>,
    /// The trait whose feature is marked.
    pub asked: Option<String>,
    /// Columns and rows.
    pub size: (u16, u16),
    /// In what form.
    pub pixels: Pixels,
    /// The ground that it stands on, where that is known.
    pub ground: Option<Srgb>,
}

/// A request and the number by which it is known.
#[derive(Debug, Clone)]
pub struct Job {
    /// Its number; pictures in the terminal have the same.
    pub id: u32,
    /// What is to be made.
    pub request: Request,
}

impl Request {
    /// Its pixels, as they are to be seen: as many as its cells have, the drawing in the middle as large as
    /// it fits. Beside the drawing they are clear.
    pub fn raster(&self) -> RgbaImage {
        let pixels = |cells: u16, cell: u16| u32::from(cells) * u32::from(cell);
        let (wide, high) = (
            pixels(self.size.0, self.pixels.cell.0),
            pixels(self.size.1, self.pixels.cell.1),
        );
        let side = wide.min(high);
        let drawn = Picture::of(&self.drawing, side, LEAST_LINE);
        let marks = |share: f64| {
            let asked = self.asked.as_deref()?;
            Some(Picture::of_marks(
                &self.drawing,
                asked,
                side,
                f64::from(side) * share,
            ))
        };
        let (lines, edges) = (marks(MARK_LINE), marks(EDGED));
        let ink = marked_on(self.ground.map(Ground::of));
        let edge = legible_on(ink);
        let (left, top) = ((wide - side) / 2, (high - side) / 2);
        let mut raster = RgbaImage::new(wide, high);
        for (at, pixel) in drawn.pixels.iter().enumerate() {
            let runs = |marks: &Option<Picture>| {
                let mark = marks.as_ref().and_then(|marks| marks.pixels.get(at));
                mark.is_some_and(|mark| mark[3] > 127)
            };
            let over = match (runs(&lines), runs(&edges)) {
                (true, _) => Some(ink),
                (false, true) => Some(edge),
                (false, false) => None,
            };
            // OK because a picture has fewer than 2^32 pixels.
            let at = at as u32;
            let seen = match over {
                Some(colour) => [colour.r, colour.g, colour.b, 255],
                None => self.on_its_ground(*pixel),
            };
            raster.put_pixel(left + at % side, top + at / side, Rgba(seen));
        }
        raster
    }

    /// A pixel as the form can have it: sixels are there or not, so that an edge is mixed with the ground
    /// here, and is whole or nothing where that is not known.
    fn on_its_ground(&self, pixel: [u8; 4]) -> [u8; 4] {
        let [r, g, b, opacity] = pixel;
        match (self.pixels.protocol, self.ground) {
            (Protocol::Kitty | Protocol::Iterm2, _) => pixel,
            (Protocol::Sixel, _) if opacity == 0 => [0; 4],
            (Protocol::Sixel, None) if opacity < 128 => [0; 4],
            (Protocol::Sixel, None) => [r, g, b, 255],
            (Protocol::Sixel, Some(ground)) => {
                let Srgb { r, g, b } =
                    ground.toward(Srgb::new(r, g, b), f64::from(opacity) / 255.0);
                [r, g, b, 255]
            }
        }
    }
}
