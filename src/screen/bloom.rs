//! A bloom on the screen: drawn once for what it shows, and kept until that changes.

use std::sync::Arc;

use super::easel::Easel;
use super::kit::text::Row;
use super::theme::Role;
use crate::colour::{Srgb, Vocabulary};
use crate::cores::at_once;
use crate::draw::{Bloom, Cell, Characters, Drawing, Grid, Paint, View, points_to, view_for};
use crate::form::sentences::percent;
use crate::form::{Answers, Likely, RuleSet};
use crate::variety::Variety;

/// The room of a drawing in a small window, columns and rows: the least in which every shape is
/// told from the others.
pub(super) const SMALL: (u16, u16) = (24, 12);
/// Columns between a text and the drawing beside it.
const GAP: usize = 2;

/// What is drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sitter {
    /// The form that it is drawn as, in words.
    pub(super) named: String,
    /// The bloom.
    pub(super) bloom: Bloom,
    /// Its colours.
    pub(super) paint: Paint,
    /// The trait to whose feature an arrow points.
    pub(super) asked: Option<String>,
}

impl Sitter {
    /// A variety as it was keyed and in its colours, where any are known; the rest as is typical of
    /// its form, else of the likeliest by `looks` and what most of them say. `None` where nothing is
    /// known of its form.
    pub(super) fn of(
        variety: &Variety,
        looks: Option<(Likely, &Answers)>,
        rules: &RuleSet,
        words: &Vocabulary,
    ) -> Option<Sitter> {
        let answers = variety.answers(&rules.traits).unwrap_or_default();
        let name = |form: usize| rules.forms[form].name.clone();
        let (named, bloom) = match (variety.form_under(rules), looks) {
            (Some(form), _) => (name(form), Bloom::of_form(rules, form, &answers)),
            (None, Some((Likely { form, share, .. }, standing))) => (
                format!("{}, {} likely", name(form), percent(share)),
                Bloom::of_form(rules, form, standing),
            ),
            (None, None) if variety.bloom.is_some() => (
                "form not known".to_string(),
                Bloom::read(&rules.traits, &answers),
            ),
            (None, None) => return None,
        };
        let colours = variety.colours.iter().filter_map(|note| {
            let target = note.colour.target(words).ok()?;
            Some((target.centre, note.part, note.pattern))
        });
        let colours: Vec<_> = colours.collect();
        Some(Sitter {
            named,
            bloom,
            paint: match colours.is_empty() {
                true => Paint::unknown(),
                false => Paint::of(&colours),
            },
            asked: None,
        })
    }

    /// Whether its colours are known.
    fn is_coloured(&self) -> bool {
        self.paint != Paint::unknown()
    }
}

/// How it is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Frame {
    /// From where.
    pub(super) view: View,
    /// Columns and rows.
    pub(super) size: (u16, u16),
}

/// One drawing; empty where there is nothing to show or no room.
#[derive(Debug, Clone, Default)]
pub(super) struct Portrait {
    drawn: Option<Drawn>,
}

/// What was drawn, and how.
#[derive(Debug, Clone)]
struct Drawn {
    sitter: Sitter,
    frame: Frame,
    characters: Characters,
    drawing: Arc<Drawing>,
    grid: Grid,
    /// The number of the same in pixels, which is seen in its place once it is made.
    picture: Option<u32>,
}

/// Face and side of one bloom.
#[derive(Debug, Clone, Default)]
pub(super) struct Portraits {
    /// The face.
    pub(super) face: Portrait,
    /// The side.
    pub(super) side: Portrait,
}

impl Portrait {
    /// Shows this from now on. A drawing takes milliseconds: it is made only where something of
    /// it changed. Answers whether it was.
    pub(super) fn show(&mut self, wanted: Option<(Sitter, Frame)>, easel: &mut Easel) -> bool {
        let next = self.next(wanted, easel);
        let changed = matches!(next, Some(Next::New(..)));
        self.hang(next.map(Next::drawn), easel);
        changed
    }

    /// What is to be shown in place of what is.
    fn next(&mut self, wanted: Option<(Sitter, Frame)>, easel: &Easel) -> Option<Next> {
        let own = self.drawn.take();
        let wanted = wanted.filter(|(_, frame)| frame.size.0 > 1 && frame.size.1 > 0);
        let (mut sitter, frame) = wanted?;
        // A feature that this view does not show is not marked in it.
        sitter.asked = sitter.asked.filter(|id| view_for(id) == frame.view);
        let characters = easel.characters(sitter.is_coloured());
        let same = own.filter(|own| {
            own.sitter == sitter && own.frame == frame && own.characters == characters
        });
        Some(match same {
            Some(same) => Next::Same(same),
            None => Next::New(sitter, frame, characters),
        })
    }

    fn hang(&mut self, drawn: Option<Drawn>, easel: &mut Easel) {
        self.drawn = drawn.map(|drawn| Drawn {
            picture: easel.show(
                &drawn.drawing,
                drawn.sitter.asked.as_deref(),
                drawn.frame.size,
            ),
            ..drawn
        });
    }

    /// The drawing alone.
    pub(super) fn cells(&self) -> Vec<Row> {
        let Some(drawn) = &self.drawn else {
            return Vec::new();
        };
        let told = drawn.sitter.is_coloured() || drawn.characters.have_colours();
        let row = |at: u16| {
            let row = in_cells(drawn.grid.row(at), told);
            match drawn.picture {
                Some(picture) => row.in_picture(picture, at),
                None => row,
            }
        };
        (0..drawn.grid.rows).map(row).collect()
    }

    /// The drawing, and under it from where it is seen and what its arrow points to.
    pub(super) fn rows(&self) -> Vec<Row> {
        let Some(Drawn { sitter, frame, .. }) = &self.drawn else {
            return Vec::new();
        };
        let mut rows = self.cells();
        let view = match frame.view {
            View::Face => "face",
            View::Side => "side",
        };
        let pointed = sitter.asked.as_deref().and_then(points_to);
        rows.push(match pointed {
            None => Row::of(view, Role::Quiet),
            Some(shows) => Row::of(format!("{view}; "), Role::Quiet).with(shows, Role::Marked),
        });
        rows
    }
}

impl Portraits {
    /// Shows both views of a bloom in as much room each.
    pub(super) fn show(&mut self, sitter: Option<Sitter>, size: (u16, u16), easel: &mut Easel) {
        let wanted = |view| Some((sitter.clone()?, Frame { view, size }));
        let face = self.face.next(wanted(View::Face), easel);
        let side = self.side.next(wanted(View::Side), easel);
        let (face, side) = drawn_at_once(face, side);
        self.face.hang(face, easel);
        self.side.hang(side, easel);
    }

    /// Shows one view alone.
    pub(super) fn show_one(
        &mut self,
        sitter: Option<Sitter>,
        view: View,
        size: (u16, u16),
        easel: &mut Easel,
    ) {
        let (shown, other) = match view {
            View::Face => (&mut self.face, &mut self.side),
            View::Side => (&mut self.side, &mut self.face),
        };
        shown.show(sitter.map(|sitter| (sitter, Frame { view, size })), easel);
        other.show(None, easel);
    }

    /// The head over them: what form is drawn.
    pub(super) fn head(&self, lead: &str) -> Row {
        let drawn = self.face.drawn.as_ref().or(self.side.drawn.as_ref());
        let named = drawn.map_or("nothing known of its form", |drawn| &drawn.sitter.named);
        Row::of(format!("{lead}: "), Role::Heading).with(named, Role::Plain)
    }

    /// Shows nothing.
    pub(super) fn clear(&mut self) {
        *self = Portraits::default();
    }

    /// The face, and right of it the side; where one is shown alone, that one.
    pub(super) fn across(&self, gap: usize) -> Vec<Row> {
        match self.face.columns() {
            0 => self.side.rows(),
            columns => beside(self.face.rows(), &self.side.rows(), columns + gap),
        }
    }

    /// A text of so many columns made by `text`, beside it face over side where there are any and
    /// there is room for both.
    pub(super) fn beside_text(&self, columns: usize, text: impl Fn(usize) -> Vec<Row>) -> Vec<Row> {
        let own = self.face.columns();
        if own == 0 || columns < own * 3 {
            return text(columns);
        }
        let words = columns - own - GAP;
        // The head has the full width.
        let mut drawn = vec![Row::default()];
        drawn.extend(self.face.rows());
        drawn.extend(self.side.rows());
        beside(text(words), &drawn, words + GAP)
    }
}

/// What a portrait shows next.
enum Next {
    /// What hangs there already.
    Same(Drawn),
    /// Another, still to be drawn.
    New(Sitter, Frame, Characters),
}

impl Next {
    fn drawn(self) -> Drawn {
        match self {
            Next::Same(same) => same,
            Next::New(sitter, frame, characters) => Drawn::of(sitter, frame, characters),
        }
    }
}

/// Two portraits; where both are still to be drawn on a thread each, for a key waits for them.
fn drawn_at_once(one: Option<Next>, other: Option<Next>) -> (Option<Drawn>, Option<Drawn>) {
    match (one, other) {
        (Some(one @ Next::New(..)), Some(other @ Next::New(..))) => {
            at_once(|| Some(one.drawn()), || Some(other.drawn()))
        }
        (one, other) => (one.map(Next::drawn), other.map(Next::drawn)),
    }
}

impl Drawn {
    fn of(sitter: Sitter, frame: Frame, characters: Characters) -> Drawn {
        let drawn = match sitter.asked {
            Some(_) => Drawing::of,
            None => Drawing::unmarked,
        };
        let drawing = drawn(&sitter.bloom, &sitter.paint, frame.view);
        let (columns, rows) = frame.size;
        let grid = Grid::of(&drawing, columns, rows, characters, sitter.asked.as_deref());
        Drawn {
            sitter,
            frame,
            characters,
            drawing: Arc::new(drawing),
            grid,
            picture: None,
        }
    }
}

impl Portrait {
    /// How wide it is; 0 where there is none.
    pub(super) fn columns(&self) -> usize {
        let drawn = self.drawn.as_ref();
        drawn.map_or(0, |drawn| drawn.frame.size.0.into())
    }
}

/// Rows with others to the right of them, from a column on.
fn beside(left: Vec<Row>, right: &[Row], from: usize) -> Vec<Row> {
    let count = left.len().max(right.len());
    let mut left = left.into_iter();
    let row = |at: usize| {
        let row = left.next().unwrap_or_default();
        match right.get(at).filter(|more| more.width() > 0) {
            Some(more) => {
                let row = row.cut(from.saturating_sub(1));
                let gap = from.saturating_sub(row.width());
                row.with(" ".repeat(gap), Role::Plain).and(more.clone())
            }
            None => row,
        }
    };
    (0..count).map(row).collect()
}

/// Cells as a row: those that look alike in one piece. Where the bloom's colours are not `told`,
/// its grey is the terminal's own colour, which is seen on any ground.
fn in_cells(cells: &[Cell], told: bool) -> Row {
    let seen = |colour: Option<Srgb>| colour.filter(|colour| told || !is_grey(*colour));
    let role = |cell: &Cell| {
        let (front, back) = (seen(cell.front), seen(cell.back));
        match cell.marked {
            true => Role::MarkedPetal(back),
            false => Role::Petal(front, back),
        }
    };
    let mut row = Row::default();
    for run in cells.chunk_by(|a, b| role(a) == role(b)) {
        let text: String = run.iter().map(|cell| cell.symbol).collect();
        row = row.with(text, role(&run[0]));
    }
    row
}

/// A line drawing as rows: lines in the terminal's own ink, arrows and dimension lines in theirs.
pub(super) fn in_ink(grid: &Grid) -> Vec<Row> {
    let role = |cell: &Cell| {
        if cell.marked {
            Role::Marked
        } else {
            Role::Plain
        }
    };
    let row = |row: u16| {
        let runs = grid.row(row).chunk_by(|a, b| a.marked == b.marked);
        runs.fold(Row::default(), |row, run| {
            let text: String = run.iter().map(|cell| cell.symbol).collect();
            row.with(text, role(&run[0]))
        })
    };
    (0..grid.rows).map(row).collect()
}

fn is_grey(Srgb { r, g, b }: Srgb) -> bool {
    r.max(g).max(b) - r.min(g).min(b) < 32
}
