//! A drawing as pixels, by the tiny-skia rasteriser.

use kurbo::{Affine, BezPath, PathEl, Point, Shape};
use tiny_skia::{Color, FillRule, LineJoin, Paint, Path, PathBuilder, Pixmap, Stroke, Transform};

use super::drawing::Drawing;
use super::patch::{Patch, Role};
use super::pointer;
use crate::colour::Srgb;

/// The largest picture, in pixels along a side.
pub const MOST_PIXELS: u32 = 8192;

/// Pixels, row by row from the top left.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// Pixels along a side: the picture is square.
    pub side: u32,
    /// Red, green, blue and opacity of each pixel, 0 to 255, not premultiplied.
    pub pixels: Vec<[u8; 4]>,
}

impl Picture {
    /// Draws the circle of radius 1 as large as it fits; lines are never thinner than
    /// `least_line` pixels. A side of 0 is taken as 1, one over [`MOST_PIXELS`] as that.
    pub fn of(drawing: &Drawing, side: u32, least_line: f64) -> Picture {
        let side = side.clamp(1, MOST_PIXELS);
        let mut canvas = Canvas::new(side);
        for patch in &drawing.patches {
            canvas.patch(patch, 1.0, least_line);
        }
        canvas.picture()
    }

    /// The same with lines of a share of their width; those in the disc are never wider than they
    /// are, or they would take all of it.
    pub(super) fn thin(drawing: &Drawing, side: u32, share: f64) -> Picture {
        let mut canvas = Canvas::to_average(side);
        for patch in &drawing.patches {
            let share = match patch.role {
                Role::Disc | Role::DiscFloret => share.min(1.0),
                _ => share,
            };
            canvas.patch(patch, share, 0.0);
        }
        canvas.picture()
    }

    /// Petals white, what lies behind a petal black for `gap` pixels around it, hollows grey,
    /// nothing elsewhere: a slender petal keeps its width and still stands off the next.
    pub(super) fn of_petals(drawing: &Drawing, side: u32, gap: f64) -> Picture {
        // A hollow leaves a gap only where it fills a dot.
        const HOLLOW: Srgb = Srgb::grey(110);
        let mut canvas = Canvas::to_average(side);
        for patch in &drawing.patches {
            let hollow = matches!(patch.role, Role::RayInside | Role::DiscFloret);
            let path = &patch.outline.path;
            if !patch.on_last && !hollow {
                canvas.stroke(path, Srgb::BLACK, gap * 2.0);
            }
            canvas.fill(path, if hollow { HOLLOW } else { Srgb::WHITE });
        }
        canvas.picture()
    }

    /// All lines as wide as this, in pixels, whatever they are in the drawing; none around what is
    /// less than `least` pixels wide or high, which is seen by its fill alone.
    pub(super) fn of_lines(drawing: &Drawing, side: u32, line: f64, least: f64) -> Picture {
        let mut canvas = Canvas::to_average(side);
        let least = least * 2.0 / f64::from(side.max(1));
        for patch in &drawing.patches {
            let room = patch.outline.path.bounding_box();
            let large = room.width() >= least || room.height() >= least;
            let bare = patch.outline.fill.is_none();
            let lined = patch.outline.stroke.is_some() && (large || bare);
            canvas.patch(patch, 0.0, if lined { line } else { 0.0 });
        }
        canvas.picture()
    }

    /// The arrows and dimension lines alone, black: none of them is thinner than this, in pixels.
    pub(super) fn of_pointers(drawing: &Drawing, side: u32, line: f64) -> Picture {
        Picture::pointing(drawing.marks.iter().map(|mark| &mark.path), side, line)
    }

    /// The same of one trait alone.
    pub fn of_marks(drawing: &Drawing, trait_id: &str, side: u32, line: f64) -> Picture {
        Picture::pointing(drawing.marked(trait_id), side, line)
    }

    fn pointing<'a>(paths: impl Iterator<Item = &'a BezPath>, side: u32, line: f64) -> Picture {
        let mut canvas = Canvas::to_average(side);
        paths.for_each(|path| canvas.pointer(path, line));
        canvas.picture()
    }
}

struct Canvas {
    side: u32,
    /// Whether edges are smoothed: not where several pixels are averaged anyway, which halves the
    /// time of a drawing.
    smooth: bool,
    /// `None` never happens: the side is between 1 and [`MOST_PIXELS`].
    pixmap: Option<Pixmap>,
}

impl Canvas {
    fn new(side: u32) -> Canvas {
        let side = side.clamp(1, MOST_PIXELS);
        Canvas {
            side,
            smooth: true,
            pixmap: Pixmap::new(side, side),
        }
    }

    /// For pixels that are averaged.
    fn to_average(side: u32) -> Canvas {
        Canvas {
            smooth: false,
            ..Canvas::new(side)
        }
    }

    fn patch(&mut self, patch: &Patch, share: f64, least_line: f64) {
        let outline = &patch.outline;
        if let Some(fill) = outline.fill {
            self.fill(&outline.path, fill);
        }
        let line = outline.stroke.map(|stroke| {
            let pixels = share * stroke.width * f64::from(self.side) / 2.0;
            (stroke.colour, pixels.max(least_line))
        });
        // The rasteriser draws a line of no width as a hair.
        if let Some((colour, pixels)) = line.filter(|line| line.1 > 0.0) {
            self.stroke(&outline.path, colour, pixels);
        }
    }

    fn fill(&mut self, path: &BezPath, colour: Srgb) {
        let path = self.path(path);
        if let (Some(pixmap), Some(path)) = (&mut self.pixmap, path) {
            let paint = paint(colour, self.smooth);
            pixmap.fill_path(
                &path,
                &paint,
                FillRule::Winding,
                Transform::identity(),
                None,
            );
        }
    }

    fn stroke(&mut self, path: &BezPath, colour: Srgb, pixels: f64) {
        let path = self.path(path);
        if let (Some(pixmap), Some(path)) = (&mut self.pixmap, path) {
            let stroke = Stroke {
                width: pixels as f32,
                line_join: LineJoin::Round,
                ..Stroke::default()
            };
            let paint = paint(colour, self.smooth);
            pixmap.stroke_path(&path, &paint, &stroke, Transform::identity(), None);
        }
    }

    /// A pointer is filled; a line around it makes up for what it lacks of its width.
    fn pointer(&mut self, path: &BezPath, line: f64) {
        let own = pointer::WIDTH * f64::from(self.side) / 2.0;
        self.fill(path, Srgb::BLACK);
        if line > own {
            self.stroke(path, Srgb::BLACK, line - own);
        }
    }

    /// A path of the circle of radius 1 in pixels.
    fn path(&self, path: &BezPath) -> Option<Path> {
        let half = f64::from(self.side) / 2.0;
        let pixels = Affine::translate((half, half)) * Affine::scale(half);
        let at = |point: Point| {
            let at = pixels * point;
            (at.x as f32, at.y as f32)
        };
        let mut builder = PathBuilder::new();
        for element in path {
            match element {
                PathEl::MoveTo(p) => builder.move_to(at(p).0, at(p).1),
                PathEl::LineTo(p) => builder.line_to(at(p).0, at(p).1),
                PathEl::QuadTo(a, b) => {
                    let (a, b) = (at(a), at(b));
                    builder.quad_to(a.0, a.1, b.0, b.1);
                }
                PathEl::CurveTo(a, b, c) => {
                    let (a, b, c) = (at(a), at(b), at(c));
                    builder.cubic_to(a.0, a.1, b.0, b.1, c.0, c.1);
                }
                PathEl::ClosePath => builder.close(),
            }
        }
        builder.finish()
    }

    fn picture(self) -> Picture {
        let pixels = self.pixmap.iter().flat_map(|pixmap| pixmap.pixels());
        let plain = |pixel: &tiny_skia::PremultipliedColorU8| {
            let colour = pixel.demultiply();
            [colour.red(), colour.green(), colour.blue(), colour.alpha()]
        };
        Picture {
            side: self.side,
            pixels: pixels.map(plain).collect(),
        }
    }
}

fn paint(colour: Srgb, smooth: bool) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color(Color::from_rgba8(colour.r, colour.g, colour.b, 255));
    paint.anti_alias = smooth;
    paint
}
