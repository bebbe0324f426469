//! The chart of forms: every form drawn to one scale, with what tells it from its neighbours.

use crate::account::text::capitalised;
use kurbo::Affine;

use super::bloom::Blooms;
use super::flow::Flow;
use super::poster::{self, Poster, PosterError};
use super::scale::round_length;
use crate::colour::Srgb;
use crate::draw::{Bloom, Paint, View};
use crate::form::near::Neighbour;
use crate::form::words::span_words;
use crate::form::{Answers, Form, Keyer};
use crate::geometry::{Outline, Stroke};
use crate::measure::SizeUnits;
use crate::paper::{Align, Item, Page, Paper, Printable, Style, TextLine};

/// Cells side by side and one below the other on a page.
const ACROSS: usize = 3;
const DOWN: usize = 3;
/// The widest bloom is so wide on paper where all are drawn to one scale, in mm.
const WIDEST: f64 = 18.0;
/// The bar that tells the scale is at most so much of that.
const BAR: f64 = 0.6;
/// The side of the large drawings of a shape, in mm.
const LARGE: f64 = 25.0;
/// A form whose size is not told by its rule is drawn this wide, in mm.
const UNKNOWN: f64 = 100.0;
/// The most neighbours that are told of one shape.
const NEIGHBOURS: usize = 4;
/// Sizes of letters that are tried, in points.
const SIZES: [f64; 5] = [8.0, 7.5, 7.0, 6.5, 6.0];
const GAP: f64 = 1.5;

/// The chart on this paper: a cell for each shape, with its forms from the largest down.
///
/// # Errors
/// [`PosterError`] where a text of the rule set cannot be printed or does not fit.
pub fn chart(keyer: &Keyer, units: SizeUnits, paper: &Paper) -> Result<Vec<Page>, PosterError> {
    let shapes = Shapes::of(keyer, units);
    let poster = Poster {
        title: format!("Forms: {}", keyer.set.name),
        note: format!(
            "Face and side of each shape; under it its forms, all drawn \
             1\u{a0}:\u{a0}{:.0}, and what would make it another form.",
            1.0 / shapes.scale
        ),
        once: false,
    };
    let mut blooms = Blooms::default();
    let pages = poster.grid(
        paper,
        (ACROSS, DOWN),
        shapes.list.len(),
        &SIZES,
        |at, width, points| shapes.cell(at, width, points, &mut blooms),
    )?;
    let bar = shapes.bar(poster::bar_place(paper))?;
    Ok(pages
        .into_iter()
        .map(|mut page| {
            page.items.extend(bar.iter().cloned());
            page.shows = shapes.described();
            page
        })
        .collect())
}

/// Every shape with its typical blooms.
struct Shapes<'a> {
    keyer: &'a Keyer,
    units: SizeUnits,
    /// For each shape its forms, the largest first, each with its bloom.
    list: Vec<Vec<(usize, Bloom)>>,
    /// Millimetres of paper in a millimetre of bloom.
    scale: f64,
}

impl Shapes<'_> {
    fn of(keyer: &Keyer, units: SizeUnits) -> Shapes<'_> {
        let set = &keyer.set;
        let forms = |shape: usize| {
            let own = (0..set.forms.len()).filter(|form| set.forms[*form].shape == shape);
            let mut own: Vec<(usize, Bloom)> = own
                .map(|form| (form, Bloom::of_form(set, form, &Answers::default())))
                .collect();
            own.sort_by(|a, b| across(&b.1).total_cmp(&across(&a.1)));
            own
        };
        let list: Vec<_> = (0..set.shapes.len()).map(forms).collect();
        let widest = list.iter().flatten().map(|(_, bloom)| across(bloom));
        Shapes {
            keyer,
            units,
            scale: WIDEST / widest.fold(1.0, f64::max),
            list,
        }
    }

    /// All that is drawn, in a sentence for who cannot see it.
    fn described(&self) -> String {
        let names = self.keyer.set.shapes.iter();
        let names: Vec<&str> = names.map(|shape| shape.name.as_str()).collect();
        format!(
            "Drawings of each shape from the face and from the side, with its forms: {}.",
            names.join(", ")
        )
    }

    /// The cell of a shape, and how far down it goes.
    fn cell(
        &self,
        at: usize,
        width: f64,
        points: f64,
        blooms: &mut Blooms,
    ) -> Result<(Vec<Item>, f64), PosterError> {
        let set = &self.keyer.set;
        let (shape, forms) = (&set.shapes[at], &self.list[at]);
        let mut flow = Flow::new(0.0, 0.0, width);
        flow.say(&capitalised(&shape.name), Style::bold(points + 3.0))?;
        flow.say(&capitalised(&shape.means), Style::regular(points))?;
        flow.gap(GAP);
        let paint = Paint::plain();
        let mut drawn: Vec<Item> = Vec::new();
        let mut draw = |bloom: &Bloom, view, side, place| {
            drawn.push(blooms.drawing(bloom, &paint, view, side, place).into());
        };
        if let Some((_, bloom)) = forms.first() {
            draw(bloom, View::Face, LARGE, (0.0, flow.y));
            draw(bloom, View::Side, LARGE, (LARGE + 2.0 * GAP, flow.y));
            flow.gap(LARGE + GAP);
        }
        for (form, bloom) in forms {
            let form = &set.forms[*form];
            let told = match self.size(form) {
                Some(size) => format!("{}: {size}", capitalised(&form.name)),
                None => capitalised(&form.name),
            };
            let side = across(bloom) * self.scale;
            draw(bloom, View::Face, side, ((WIDEST - side) / 2.0, flow.y));
            // Beside the middle of the drawing, or beside all of it where the words are taller.
            let mut words = Flow::new(WIDEST + GAP, 0.0, width - WIDEST - GAP);
            words.say(&told, Style::regular(points))?;
            let (tall, top) = (words.y, flow.y);
            let y = top + (side - tall).max(0.0) / 2.0;
            let down = Affine::translate((0.0, y));
            let words = words.items.iter();
            flow.items.extend(words.map(|item| item.placed(down)));
            flow.gap(side.max(tall) + GAP / 2.0);
        }
        let near = self.neighbours(forms);
        if !near.is_empty() {
            flow.gap(GAP / 2.0);
            flow.say("But with", Style::bold(points))?;
        }
        for told in near {
            flow.indented(&told, Style::regular(points), 2.0)?;
        }
        let mut items = flow.items;
        items.extend::<Vec<Item>>(drawn);
        Ok((items, flow.y))
    }

    /// The sizes that make a shape this form; `None` where size does not split it.
    fn size(&self, form: &Form) -> Option<String> {
        let traits = &self.keyer.set.traits;
        let one = traits.find("diameter").map(|at| traits.get(at));
        let words = one.map(|one| span_words(one, form.diameter, self.units));
        words.filter(|words| words != "any")
    }

    /// `a saucer from the side and 4 to 7 rows of florets: waterlily`, the nearest first.
    fn neighbours(&self, forms: &[(usize, Bloom)]) -> Vec<String> {
        let Some((form, _)) = forms.first() else {
            return Vec::new();
        };
        let near = self.keyer.neighbours(*form, self.units);
        let line = |near: Neighbour| {
            let name = &self.keyer.set.shapes[near.shape].name;
            format!("{}: {name}", near.wants)
        };
        near.into_iter().take(NEIGHBOURS).map(line).collect()
    }

    /// A bar of a round length beneath the head of a page, a little over half as long as the widest form at
    /// most.
    fn bar(&self, (right, y): (f64, f64)) -> Result<Vec<Item>, PosterError> {
        let most = BAR * WIDEST / self.scale;
        let Some(length) = round_length(most, self.units) else {
            return Ok(Vec::new());
        };
        let left = right - length.mm().to_f64() * self.scale;
        let stroke = Stroke::new(Srgb::BLACK, 0.3);
        let upright = |x| Outline::line((x, y - 1.0), (x, y + 1.0), stroke);
        let bar = Outline::line((left, y), (right, y), stroke);
        let words = Printable::new(&length.shown(self.units))?;
        let words = TextLine::new(words, Style::regular(8.0), (left - 2.0, y + 1.0));
        let bar = [bar, upright(left), upright(right)].map(Item::from);
        let words = Item::from(words.aligned(Align::Right));
        Ok(bar.into_iter().chain([words]).collect())
    }
}

fn across(bloom: &Bloom) -> f64 {
    bloom.diameter.unwrap_or(UNKNOWN)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::RuleSet;

    #[test]
    fn every_form_of_every_rule_set_is_on_the_chart_and_on_its_page() {
        for set in RuleSet::embedded() {
            for (paper, units) in [("a4", SizeUnits::Mm), ("letter", SizeUnits::In)] {
                let keyer = Keyer::even(set.clone());
                let paper = Paper::named(paper).expect("a paper");
                let pages = chart(&keyer, units, &paper).expect("a chart");
                assert!(pages.iter().all(|page| page.strays().count() == 0));
                let words: Vec<&str> = pages
                    .iter()
                    .flat_map(|page| page.lines().map(|line| line.text.as_str()))
                    .collect();
                // A bar beside the title of each page.
                let bars = |told: &&&str| ["100 mm", "3 in", "5 in"].contains(*told);
                assert_eq!(words.iter().filter(bars).count(), pages.len());
                let words = words.join(" ").to_lowercase();
                for form in &set.forms {
                    assert!(words.contains(&form.name.to_lowercase()), "{}", form.id);
                }
                let drawings = pages.iter().flat_map(|page| &page.items);
                let drawings = drawings.filter(|item| matches!(item, Item::Drawing(_)));
                assert_eq!(drawings.count(), set.forms.len() + 2 * set.shapes.len());
            }
        }
    }
}
