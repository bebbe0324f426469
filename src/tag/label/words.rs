//! The words of a label: the name as large as it may be, and the facts in the room that it leaves.

use crate::account::text::capitalised;
use kurbo::Rect;

use super::{Printer, Zones};
use crate::colour::Srgb;
use crate::geometry::{Outline, Stroke};
use crate::paper::{Item, Printable, Style, TextLine, Unprintable};
use crate::tag::about::About;
use crate::tag::flow::together;
use crate::tag::says::{Fact, Says};
use crate::tag::stock::Title;

/// Between two facts, as a share of a line.
const BREAK: f64 = 0.3;
/// Between the foot of a name and the facts under it, in mm.
const UNDER_TITLE: f64 = 1.0;
/// Between the small print, the rule over it and the facts, in mm.
const SMALL_GAP: f64 = 1.2;
const RULE: Stroke = Stroke::new(Srgb::grey(130), 0.15);
/// A form is set so much larger than the other facts.
const FORM: f64 = 1.1;
/// A name stands on one line where its letters are at least this share of what more lines would give.
const ONE_LINE: f64 = 0.7;
/// Names and facts are tried in steps of this, in points.
const TITLE_STEP: f64 = 1.0;
const BODY_STEP: f64 = 0.25;

/// The facts to be set: those in ordinary letters, and the small print.
struct Facts {
    body: Vec<(Printable, bool)>,
    small: Vec<(Printable, bool)>,
}

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
            let (style, lines) = fitted(&name, style, &title, zones.title.width()).map_err(told)?;
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

    /// The facts as they are printed, and whether one is the form, which stands out.
    fn facts(&self, says: &Says) -> Result<Facts, Unprintable> {
        let small = |fact: &&Fact| self.kind.small.tells.contains(&fact.about);
        let set = |text: &str, form| Ok((Printable::new(&together(text))?, form));
        let (small, body): (Vec<&Fact>, Vec<&Fact>) = says.about(&self.kind.tells).partition(small);
        // Small print runs on: sentence after sentence.
        let small: Vec<&str> = small.iter().map(|fact| fact.text.as_str()).collect();
        let body = body.into_iter().flat_map(|fact| {
            let text = capitalised(&fact.text);
            // The form stands out; what it is worth does not.
            match (fact.about, text.split_once(" (")) {
                (About::Form, Some((form, ground))) => {
                    let ground = capitalised(ground.trim_end_matches(')'));
                    vec![set(form, true), set(&ground, false)]
                }
                (about, _) => vec![set(&text, about == About::Form)],
            }
        });
        Ok(Facts {
            body: body.collect::<Result<_, _>>()?,
            small: match small.is_empty() {
                true => Vec::new(),
                false => vec![set(&small.join(" "), false)?],
            },
        })
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

    /// The small print at the foot, and the facts from above it, or in the middle of the height: at
    /// the largest sizes that fit, the small print's shrinking last.
    fn set_facts(&self, zone: Rect, centred: bool, facts: &Facts) -> Result<Vec<Item>, String> {
        let small = &self.kind.small;
        // What does not fit at the least sizes fits at none.
        self.set_over(zone, centred, facts, small.least, self.kind.body.least)?;
        let mut points = small.points;
        loop {
            match self.set_over(zone, centred, facts, points, self.kind.body.points) {
                Err(_) if points > small.least => points = (points - BODY_STEP).max(small.least),
                set => return set,
            }
        }
    }

    /// The same with small print of this size, and facts of `body` points at most.
    fn set_over(
        &self,
        zone: Rect,
        centred: bool,
        facts: &Facts,
        small: f64,
        body: f64,
    ) -> Result<Vec<Item>, String> {
        let set =
            paragraphs(&facts.small, small, zone.width()).map_err(|error| error.to_string())?;
        let foot = height_of(&set);
        let (mut items, mut room) = (Vec::new(), zone);
        if foot > 0.0 {
            let top = zone.y1 - foot;
            items = self.lines_of(&set, zone.x0, top);
            let rule = top - SMALL_GAP;
            let ends = [zone.x0, zone.x1].map(|x| (x, rule));
            items.push(Outline::line(ends[0], ends[1], RULE).into());
            room.y1 = (rule - SMALL_GAP).max(zone.y0);
        }
        items.extend(self.set_body(room, centred, &facts.body, body)?);
        Ok(items)
    }

    /// The facts alone, at the largest size that fits, from so many points down.
    fn set_body(
        &self,
        zone: Rect,
        centred: bool,
        facts: &[(Printable, bool)],
        mut points: f64,
    ) -> Result<Vec<Item>, String> {
        let body = self.kind.body;
        loop {
            let found = paragraphs(facts, points, zone.width());
            let height = match &found {
                Ok(set) => height_of(set),
                Err(_) => f64::INFINITY,
            };
            match found {
                Ok(set) if height <= zone.height() => {
                    let top = match centred {
                        true => zone.center().y - height / 2.0,
                        false => zone.y0,
                    };
                    return Ok(self.lines_of(&set, zone.x0, top));
                }
                _ if points > body.least => points = (points - BODY_STEP).max(body.least),
                Err(error) => return Err(error.to_string()),
                Ok(_) => {
                    return Err(format!(
                        "found facts of {height:.0} mm at the least size of {} points, expected \
                         {:.0} mm at most",
                        body.least,
                        zone.height()
                    ));
                }
            }
        }
    }

    fn lines_of(&self, set: &[(Style, Vec<Printable>)], x: f64, top: f64) -> Vec<Item> {
        let mut items = Vec::new();
        let Some((first, _)) = set.first() else {
            return items;
        };
        let mut y = self.first_base(*first, top);
        let mut above = first.points;
        for (at, (style, lines)) in set.iter().enumerate() {
            if at > 0 {
                y += gap(above, style.points);
            }
            for (at, text) in lines.iter().enumerate() {
                if at > 0 {
                    y += style.line();
                }
                items.push(TextLine::new(text.clone(), *style, (x, y)).into());
            }
            above = style.points;
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
    let wrapped = |(text, form): &(Printable, bool)| {
        let style = match form {
            true => Style::bold(points * FORM),
            false => Style::regular(points),
        };
        Ok((style, text.wrapped(style, width)?))
    };
    facts.iter().map(wrapped).collect()
}

/// From the top of the first capitals to the foot of the last line.
fn height_of(set: &[(Style, Vec<Printable>)]) -> f64 {
    let (Some((first, _)), Some((last, _))) = (set.first(), set.last()) else {
        return 0.0;
    };
    let lines = set
        .iter()
        .map(|(style, lines)| style.line() * lines.len().saturating_sub(1) as f64);
    let gaps = set
        .windows(2)
        .map(|two| gap(two[0].0.points, two[1].0.points));
    first.capital() + lines.sum::<f64>() + gaps.sum::<f64>() + last.below()
}

/// From the last line of a fact to the first of the next.
fn gap(above: f64, below: f64) -> f64 {
    Style::regular((above + below) / 2.0).line() * (1.0 + BREAK)
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
