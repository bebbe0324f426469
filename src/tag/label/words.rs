//! The words of a label: the name as large as it may be, and the facts in the room that it leaves.

use super::{Printer, Zones};
use crate::paper::{Item, Line, Point, Printable, Rectangle, Style, Unprintable};
use crate::tag::flow::{capital, together};
use crate::tag::says::{About, Fact, Says};
use crate::tag::stock::Title;

/// Between two facts, as a share of a line.
const BREAK: f64 = 0.3;
/// Between the foot of a name and the facts under it, in mm.
const UNDER_TITLE: f64 = 0.6;
/// A name stands on one line where its letters are at least this share of what more lines would give.
const ONE_LINE: f64 = 0.75;
/// Names and facts are tried in steps of this, in points.
const TITLE_STEP: f64 = 1.0;
const BODY_STEP: f64 = 0.25;

impl Printer<'_> {
    /// Name and facts at the largest sizes at which both fit.
    pub(super) fn words(&self, says: &Says) -> Result<Vec<Item>, String> {
        let told = |error: Unprintable| error.to_string();
        let zones = self.zones();
        let name = Printable::new(&says.title).map_err(told)?;
        let facts = self.facts(says).map_err(told)?;
        let title = self.kind.title;
        let mut points = title.points;
        loop {
            let style = Style::bold(points);
            let (style, lines) = fitted(&name, style, &title, zones.title.width).map_err(told)?;
            let set = self.set_title(&zones, style, &lines, &facts);
            match set {
                Ok(items) => return Ok(items),
                Err(_) if style.points > title.least => {
                    points = (style.points - TITLE_STEP).max(title.least);
                }
                Err(why) => return Err(why),
            }
        }
    }

    /// The facts as they are printed, and whether in bold.
    fn facts(&self, says: &Says) -> Result<Vec<(Printable, bool)>, Unprintable> {
        let facts = says.about(&self.kind.tells);
        let set = |fact: &Fact| {
            let text = Printable::new(&together(&capital(&fact.text)))?;
            Ok((text, fact.about == About::Form))
        };
        facts.map(set).collect()
    }

    /// The name in these lines, and the facts in the room that it leaves.
    fn set_title(
        &self,
        zones: &Zones,
        style: Style,
        lines: &[Printable],
        facts: &[(Printable, bool)],
    ) -> Result<Vec<Item>, String> {
        let zone = zones.title;
        let height = style.line() * lines.len().saturating_sub(1) as f64 + style.capital();
        let top = match zones.body {
            // Beside the facts the name stands in the middle of the height.
            Some(_) => zone.y + (zone.height - height) / 2.0,
            None => zone.y,
        };
        let first = self.first_base(style, top);
        let last = first + style.line() * lines.len().saturating_sub(1) as f64;
        if last + style.below() > self.height || height > zone.height {
            return Err(format!(
                "found a name of {height:.0} mm, expected one that fits {:.0} mm at {} points",
                zone.height, self.kind.title.least
            ));
        }
        let mut items: Vec<Item> = Vec::new();
        for (at, line) in lines.iter().enumerate() {
            let y = first + style.line() * at as f64;
            items.push(Line::new(line.clone(), style, Point::new(zone.x, y)).into());
        }
        let body = zones.body.unwrap_or_else(|| {
            let y = last + style.below() + UNDER_TITLE;
            Rectangle::new(zone.x, y, zone.width, zone.bottom() - y)
        });
        items.extend(self.set_facts(body, zones.body.is_some(), facts)?);
        Ok(items)
    }

    /// The facts from above, or in the middle of the height, at the largest size that fits.
    fn set_facts(
        &self,
        zone: Rectangle,
        centred: bool,
        facts: &[(Printable, bool)],
    ) -> Result<Vec<Item>, String> {
        let body = self.kind.body;
        let mut points = body.points;
        loop {
            let found = paragraphs(facts, points, zone.width);
            let height = match &found {
                Ok(set) => height_of(set, points),
                Err(_) => f64::INFINITY,
            };
            match found {
                Ok(set) if height <= zone.height => {
                    let top = match centred {
                        true => zone.y + (zone.height - height) / 2.0,
                        false => zone.y,
                    };
                    return Ok(self.lines_of(&set, points, zone.x, top));
                }
                _ if points > body.least => points = (points - BODY_STEP).max(body.least),
                Err(error) => return Err(error.to_string()),
                Ok(_) => {
                    return Err(format!(
                        "found facts of {height:.0} mm at the least size of {} points, expected \
                         {:.0} mm at most",
                        body.least, zone.height
                    ));
                }
            }
        }
    }

    fn lines_of(
        &self,
        set: &[(Style, Vec<Printable>)],
        points: f64,
        x: f64,
        top: f64,
    ) -> Vec<Item> {
        let mut items = Vec::new();
        let line = Style::regular(points).line();
        let mut y = self.first_base(Style::regular(points), top);
        for (style, lines) in set {
            for text in lines {
                items.push(Line::new(text.clone(), *style, Point::new(x, y)).into());
                y += line;
            }
            y += line * BREAK;
        }
        items
    }

    /// The base line of a line whose capitals begin at `top`; lower where an accent on one would
    /// leave the label.
    fn first_base(&self, style: Style, top: f64) -> f64 {
        (top + style.capital()).max(style.above())
    }
}

/// The lines of every fact.
fn paragraphs(
    facts: &[(Printable, bool)],
    points: f64,
    width: f64,
) -> Result<Vec<(Style, Vec<Printable>)>, Unprintable> {
    let wrapped = |(text, bold): &(Printable, bool)| {
        let style = match bold {
            true => Style::bold(points),
            false => Style::regular(points),
        };
        Ok((style, text.wrapped(style, width)?))
    };
    facts.iter().map(wrapped).collect()
}

/// From the top of the first capitals to the foot of the last line.
fn height_of(set: &[(Style, Vec<Printable>)], points: f64) -> f64 {
    let style = Style::regular(points);
    let lines: usize = set.iter().map(|(_, lines)| lines.len()).sum();
    if lines == 0 {
        return 0.0;
    }
    let breaks = set.len().saturating_sub(1) as f64 * BREAK;
    style.capital() + style.line() * ((lines - 1) as f64 + breaks) + style.below()
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
