//! The words of a label: the name as large as it may be, and the facts in the room that it leaves.

use kurbo::Rect;

use super::facts::{Facts, Paragraph, gap, height, paragraphs};
use super::{Printer, Zones};
use crate::colour::Srgb;
use crate::geometry::{Outline, Stroke};
use crate::paper::{Item, Printable, Style, TextLine, Unprintable};
use crate::tag::about::About;
use crate::tag::says::Says;
use crate::tag::stock::Title;

/// Between the foot of a name and the facts under it, in mm.
const UNDER_TITLE: f64 = 1.0;
/// Between the small print, the rule over it and the facts, in mm.
const SMALL_GAP: f64 = 1.2;
const RULE: Stroke = Stroke::new(Srgb::grey(130), 0.15);
/// A name stands on one line where its letters are at least this share of what more lines would give.
const ONE_LINE: f64 = 0.7;
/// Names and facts are tried in steps of this, in points.
const TITLE_STEP: f64 = 1.0;
const BODY_STEP: f64 = 0.25;

impl Printer<'_> {
    /// Name and facts at the largest sizes at which both fit; without those that may be spared where
    /// they do not.
    pub(super) fn words(&self, says: &Says, zones: &Zones) -> Result<Vec<Item>, String> {
        let spare = &self.kind.spare;
        match self.words_without(&[], says, zones) {
            Err(_) if !spare.is_empty() => self.words_without(spare, says, zones),
            set => set,
        }
    }

    fn words_without(
        &self,
        spared: &[About],
        says: &Says,
        zones: &Zones,
    ) -> Result<Vec<Item>, String> {
        let told = |error: Unprintable| error.to_string();
        let name = Printable::new(&says.title).map_err(told)?;
        let facts = Facts::of(says, self.kind, spared).map_err(told)?;
        let title = self.kind.title;
        let mut points = title.points;
        loop {
            let style = Style::bold(points);
            let (style, lines) = fitted(&name, style, &title, zones.title.width()).map_err(told)?;
            match self.set_title(zones, style, &lines, &facts) {
                Ok(items) => return Ok(items),
                Err(_) if style.points > title.least => {
                    points = (style.points - TITLE_STEP).max(title.least);
                }
                Err(why) => return Err(why),
            }
        }
    }

    /// The name in these lines, and the facts in the room that it leaves.
    fn set_title(
        &self,
        zones: &Zones,
        style: Style,
        lines: &[Printable],
        facts: &Facts,
    ) -> Result<Vec<Item>, String> {
        let zone = zones.title;
        let height = style.line() * lines.len().saturating_sub(1) as f64 + style.capital();
        let top = match zones.body {
            // Beside the facts the name stands in the middle of the height.
            Some(_) => zone.center().y - height / 2.0,
            None => zone.y0,
        };
        let first = self.first_base(style, top);
        let last = first + style.line() * lines.len().saturating_sub(1) as f64;
        if last + style.below() > self.height || height > zone.height() {
            return Err(format!(
                "found a name of {height:.0} mm, expected one that fits {:.0} mm at {} points",
                zone.height(),
                self.kind.title.least
            ));
        }
        let mut items: Vec<Item> = Vec::new();
        for (at, line) in lines.iter().enumerate() {
            let y = first + style.line() * at as f64;
            items.push(TextLine::new(line.clone(), style, (zone.x0, y)).into());
        }
        let body = zones.body.unwrap_or_else(|| {
            let y = last + style.below() + UNDER_TITLE;
            Rect { y0: y, ..zone }
        });
        items.extend(self.set_facts(body, zones.body.is_some(), facts)?);
        Ok(items)
    }

    /// The facts at the largest sizes that fit: the small print at the foot, the others from above it, or
    /// in the middle of the height.
    fn set_facts(&self, zone: Rect, centred: bool, facts: &Facts) -> Result<Vec<Item>, String> {
        let width = zone.width();
        let (small, points) = self.sizes(zone, facts)?;
        let set = |facts, points| {
            paragraphs(facts, points, width).map_err(|error: Unprintable| error.to_string())
        };
        let (body, foot) = (set(&facts.body, points)?, set(&facts.small, small)?);
        let (room, rule) = self.room(zone, facts, small).unwrap_or((zone, None));
        let top = match (centred, height(&facts.body, points, width)) {
            (true, Some(height)) => room.center().y - height / 2.0,
            _ => room.y0,
        };
        let mut items = self.lines_of(&body, zone.x0, top);
        if let Some(rule) = rule {
            let ends = [zone.x0, zone.x1].map(|x| (x, rule));
            items.push(Outline::line(ends[0], ends[1], RULE).into());
            items.extend(self.lines_of(&foot, zone.x0, rule + SMALL_GAP));
        }
        Ok(items)
    }

    /// The points of the small print and of the other facts: the largest that fit, the small print's
    /// shrinking last.
    fn sizes(&self, zone: Rect, facts: &Facts) -> Result<(f64, f64), String> {
        let (small, body) = (&self.kind.small, self.kind.body);
        // What does not fit at the least sizes fits at none.
        self.fit(zone, facts, small.least, body.least)?;
        let down = |from: f64, least: f64| {
            let steps = (0..).map(move |step| from - BODY_STEP * f64::from(step));
            let steps = steps.take_while(move |points| *points > least);
            steps.chain([least])
        };
        let sizes = down(small.points, small.least)
            .flat_map(|small| down(body.points, body.least).map(move |body| (small, body)));
        let mut sizes = sizes.filter(|(small, body)| self.fit(zone, facts, *small, *body).is_ok());
        Ok(sizes.next().unwrap_or((small.least, body.least)))
    }

    /// Whether the facts have room at these sizes.
    fn fit(&self, zone: Rect, facts: &Facts, small: f64, body: f64) -> Result<(), String> {
        let width = zone.width();
        let wide = || {
            let wide = paragraphs(&facts.small, small, width);
            let wide = wide.and_then(|_| paragraphs(&facts.body, body, width));
            wide.err().map_or(String::new(), |error| error.to_string())
        };
        let (room, _) = self.room(zone, facts, small).ok_or_else(wide)?;
        let height = height(&facts.body, body, width).ok_or_else(wide)?;
        match height <= room.height() {
            true => Ok(()),
            false => Err(format!(
                "found facts of {height:.1} mm at the least size of {body} points, expected {:.1} mm \
                 at most",
                room.height()
            )),
        }
    }

    /// The room above small print of this size, and where the rule between them is; `None` where a word
    /// of it is wider than a line.
    fn room(&self, zone: Rect, facts: &Facts, small: f64) -> Option<(Rect, Option<f64>)> {
        let foot = height(&facts.small, small, zone.width())?;
        if foot == 0.0 {
            return Some((zone, None));
        }
        let rule = zone.y1 - foot - SMALL_GAP;
        let y1 = (rule - SMALL_GAP).max(zone.y0);
        Some((Rect { y1, ..zone }, Some(rule)))
    }

    fn lines_of(&self, set: &[Paragraph], x: f64, top: f64) -> Vec<Item> {
        let mut items = Vec::new();
        let Some((first, _)) = set.first() else {
            return items;
        };
        let mut y = self.first_base(*first, top);
        let mut above = *first;
        for (at, (style, lines)) in set.iter().enumerate() {
            if at > 0 {
                y += gap(above, *style);
            }
            for (at, text) in lines.iter().enumerate() {
                if at > 0 {
                    y += style.line();
                }
                items.push(TextLine::new(text.clone(), *style, (x, y)).into());
            }
            above = *style;
        }
        items
    }

    /// The base line of a line whose capitals begin at `top`; lower where an accent on one would
    /// leave the label.
    pub(super) fn first_base(&self, style: Style, top: f64) -> f64 {
        (top + style.capital()).max(style.above())
    }
}

/// The lines of a name, as few as do not make its letters much smaller.
fn fitted(
    name: &Printable,
    style: Style,
    title: &Title,
    width: f64,
) -> Result<(Style, Vec<Printable>), Unprintable> {
    let (wrapped, lines) = name.fitted(style, title.least, width, title.lines)?;
    match name.fitted(style, title.least, width, 1) {
        Ok((one, line)) if one.points >= wrapped.points * ONE_LINE => Ok((one, line)),
        _ => Ok((wrapped, lines)),
    }
}
