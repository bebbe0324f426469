//! A strip of a bed: its plants as marks, over them the names that have room, under them the ruler.

use std::ops::Range;

use kurbo::{Circle, Point, Rect};

use super::flow::Block;
use super::key::Numbers;
use super::letters::{LEAST, SMALL};
use super::scale::PaperScale;
use super::undrawable::Undrawable;
use crate::account::text::counted;
use crate::chart::Scale;
use crate::colour::{Srgb, legible_on};
use crate::geometry::{Outline, Stroke};
use crate::order::Bed;
use crate::order::report::Stretch;
use crate::paper::{Align, Item, Printable, Style, TextLine};

/// The numbers in the marks.
const NUMBER: Style = Style::regular(LEAST);
/// What a name over a stretch needs beside it, in mm.
const BESIDE: f64 = 1.0;
/// From the line under a name to the bed, how long its ends are, and from the bed to the ruler, in mm.
const OVER: f64 = 1.2;
const END: f64 = 0.7;
const UNDER: f64 = 1.0;
/// The ticks of the ruler, and what lies under the strip, in mm.
const TICK: f64 = 1.2;
const GAP: f64 = 3.0;
/// The least room of a figure of the ruler, in mm.
const FIGURE: f64 = 14.0;

const EDGE: Stroke = Stroke::new(Srgb::grey(90), 0.25);
const MARK: Stroke = Stroke::new(Srgb::grey(60), 0.15);
const FREE: Stroke = Stroke::new(Srgb::grey(170), 0.15);
const RULER: Stroke = Stroke::new(Srgb::grey(60), 0.2);

/// A part of a bed from one row across to another.
pub(super) struct Strip<'a> {
    pub(super) bed: &'a Bed,
    /// Its rows across, counted from the head.
    pub(super) steps: Range<u64>,
    /// Where it ends, in mm from the head of the bed.
    pub(super) end: f64,
    pub(super) stretches: &'a [&'a Stretch],
    pub(super) numbers: &'a Numbers<'a>,
}

/// The strips of a bed, none wider than the paper, all but the last of as many rows across.
pub(super) fn strips<'a>(
    bed: &'a Bed,
    width: f64,
    scale: &PaperScale,
    stretches: &'a [&'a Stretch],
    numbers: &'a Numbers<'a>,
) -> Vec<Strip<'a>> {
    let (length, spacing) = (bed.length.mm().to_f64(), bed.spacing.mm().to_f64());
    let steps = (length / spacing + 1e-9).floor().max(1.0) as u64;
    let whole = scale.on_paper(length) <= width;
    // Room for what is left at the end of the bed, and for a staggered row at the end of a strip.
    let fit = ((width * scale.ratio - spacing) / spacing).floor().max(1.0) as u64;
    let count = if whole { 1 } else { steps.div_ceil(fit) };
    let each = steps.div_ceil(count);
    let strip = |at: u64| {
        let steps = at * each..((at + 1) * each).min(steps);
        let half = if bed.staggered { 0.5 } else { 0.0 };
        let last = at + 1 == count;
        let end = if last {
            length
        } else {
            (steps.end as f64 + half) * spacing
        };
        Strip {
            bed,
            steps,
            end,
            stretches,
            numbers,
        }
    };
    (0..count)
        .map(strip)
        .filter(|strip| !strip.steps.is_empty())
        .collect()
}

impl Strip<'_> {
    /// The strip, with names over it and the ruler under it.
    pub(super) fn block(&self, scale: &PaperScale) -> Result<Block, Undrawable> {
        let mut items = Vec::new();
        let top = SMALL.line() + OVER + END;
        let begin = self.steps.start as f64 * self.bed.spacing.mm().to_f64();
        let [right, bottom] = [self.end - begin, self.bed.width.mm().to_f64()];
        let (right, bottom) = (scale.on_paper(right), top + scale.on_paper(bottom));
        let ground = Rect::new(0.0, top, right, bottom);
        items.push(Outline::of(ground).stroked(EDGE).into());
        let at = |number: u64| {
            let place = self.bed.place(number);
            let x = scale.on_paper(place.along - begin);
            Point::new(x, top + scale.on_paper(place.across))
        };
        let across = self.bed.across().max(1);
        let places = self.bed.places().unwrap_or(0);
        let own = self.steps.start * across..(self.steps.end * across).min(places);
        let mut taken = own.start;
        for stretch in self.stretches {
            let plants = stretch.first..stretch.first + stretch.plants;
            let plants = plants.start.max(own.start)..plants.end.min(own.end);
            if plants.is_empty() {
                continue;
            }
            let (number, colour) = self.numbers.number(&stretch.variety);
            for plant in plants.clone() {
                items.extend(mark(at(plant), number, colour, scale)?);
            }
            let reach = [plants.start, plants.end].map(|plants| self.bed.reach(plants));
            let reach = reach.map(|along| along.mm().to_f64() - begin);
            let [from, to] = reach.map(|along| scale.on_paper(along));
            items.extend(named(stretch, number, from..to.min(right), SMALL.line())?);
            taken = plants.end;
        }
        let free = (taken..own.end).map(|place| {
            let circle = Circle::new(at(place), scale.mark / 2.0);
            Item::from(Outline::of(circle).stroked(FREE))
        });
        items.extend(free);
        items.extend(ruler(begin, self.end, bottom + UNDER, scale)?);
        Ok(Block {
            height: bottom + UNDER + TICK + SMALL.line() + GAP,
            items,
            shows: String::new(),
        })
    }
}

/// A plant: a mark in the colour of its variety, with its number.
fn mark(
    at: Point,
    number: usize,
    colour: Option<Srgb>,
    scale: &PaperScale,
) -> Result<[Item; 2], Undrawable> {
    let fill = colour.unwrap_or(Srgb::WHITE);
    let circle = Outline::of(Circle::new(at, scale.mark / 2.0));
    let base = (at.x, at.y + NUMBER.capital() / 2.0);
    let number = TextLine::new(Printable::new(&number.to_string())?, NUMBER, base);
    let number = number.aligned(Align::Centre).inked(legible_on(fill));
    Ok([circle.filled(fill).stroked(MARK).into(), number.into()])
}

/// The name and the plants of a stretch over it, with a line as long as it is; nothing where the name
/// has no room, for the numbers in the marks and the key tell it.
fn named(
    stretch: &Stretch,
    number: usize,
    reach: Range<f64>,
    base: f64,
) -> Result<Vec<Item>, Undrawable> {
    // OK because a bed has at most a million places.
    let plants = stretch.plants as usize;
    let name = &stretch.variety;
    let wordings = [
        format!("{number} {name}, {}", counted(plants, "plant")),
        format!("{name}, {plants}"),
    ];
    for wording in wordings {
        let told = Printable::new(&wording)?;
        if told.fits(SMALL, reach.end - reach.start - BESIDE) {
            let middle = ((reach.start + reach.end) / 2.0, base - SMALL.below());
            let told = TextLine::new(told, SMALL, middle).aligned(Align::Centre);
            let (from, to, y) = (reach.start + 0.3, reach.end - 0.3, base + END);
            let lines = [
                Outline::line((from, y), (to, y), RULER),
                Outline::line((from, y), (from, y + END), RULER),
                Outline::line((to, y), (to, y + END), RULER),
            ];
            let lines = lines.into_iter().map(Item::from);
            return Ok(std::iter::once(told.into()).chain(lines).collect());
        }
    }
    Ok(Vec::new())
}

/// The ruler from one place of the bed to another, in mm from its head.
fn ruler(begin: f64, end: f64, y: f64, scale: &PaperScale) -> Result<Vec<Item>, Undrawable> {
    let (unit, sign) = scale.unit();
    let wide = scale.on_paper(end - begin);
    let along = Scale::between(begin / unit, end / unit, (wide / FIGURE).max(1.0));
    let mut items: Vec<Item> = vec![Outline::line((0.0, y), (wide, y), RULER).into()];
    for tick in along.ticks() {
        let x = scale.on_paper(tick * unit - begin);
        items.push(Outline::line((x, y), (x, y + TICK), RULER).into());
        let told = Printable::new(&format!("{} {sign}", along.told(tick)))?;
        // A figure at an end of the ruler stays over it.
        let half = told.width(SMALL) / 2.0;
        let x = x.min(wide - half).max(half);
        let line = TextLine::new(told, SMALL, (x, y + TICK + SMALL.capital() + 0.6));
        items.push(line.aligned(Align::Centre).into());
    }
    Ok(items)
}
