//! The field key on one page that is folded in four, with a drawing of every shape.

use crate::account::text::capitalised;
use kurbo::{Affine, Rect};

use super::bloom::Blooms;
use super::flow::Flow;
use super::pictured::AnswerPictures;
use super::poster::PosterError;
use super::question::{Beside, draw_question};
use super::worked::draw_worked;
use crate::colour::Srgb;
use crate::draw::{Bloom, Paint, View};
use crate::form::card::Card;
use crate::form::{Answers, Keyer, RuleSet};
use crate::geometry::{Outline, Stroke};
use crate::paper::{Item, Margins, Orientation, Page, Paper, Setup, Style, Unprintable};

/// Panels of the page, side by side.
const PANELS: usize = 4;
/// What stays blank at the page's edge, where many printers do not print, in mm.
const EDGE: f64 = 10.0;
/// What stays blank on either side of a fold, in mm.
const GUTTER: f64 = 5.0;
const FOLD: Stroke = Stroke::new(Srgb::grey(170), 0.1);
/// Sizes of letters that are tried, in points.
const SIZES: [f64; 11] = [9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.5, 6.0, 5.5, 5.0, 4.5];
/// Sides of the pictures beside answers that are tried, in mm, the largest first: at 6 mm each is
/// still told from the others at arm's length.
const SIDES: [f64; 7] = [12.0, 11.0, 10.0, 9.0, 8.0, 7.0, 6.0];
/// Smaller letters than these, in points, are not set to make room for pictures.
const LEAST_WITH_PICTURES: f64 = 6.0;
/// Drawings side by side on their panel.
const ACROSS: usize = 3;

/// The card on this paper, across: three panels of questions and one of drawings, with what is left below them.
///
/// # Errors
/// [`PosterError`] where a text of the rule set cannot be set, and where the key is too long for a
/// page.
pub fn folded(keyer: &Keyer, card: &Card, paper: &Paper) -> Result<Page, PosterError> {
    let setup = Setup::new(
        paper,
        Orientation::Landscape,
        Margins::even(EDGE),
        (0.0, 0.0),
    )?;
    let blank = setup.page(&[]);
    let panels = Panels {
        width: blank.width / PANELS as f64,
        height: blank.height,
    };
    let mut items: Vec<Item> = (1..PANELS)
        .map(|at| {
            let x = panels.width * at as f64;
            let foot = blank.height - GUTTER;
            Outline::line((x, GUTTER), (x, foot), FOLD).into()
        })
        .collect();
    let (drawings, below) = panels.drawings(&keyer.set)?;
    items.extend(drawings);
    let pictures = AnswerPictures::of(&keyer.set, card);
    // Larger pictures come before larger letters.
    let pictured = SIDES
        .into_iter()
        .flat_map(|side| SIZES.map(|points| (points, side)));
    let pictured = pictured.filter(|(points, _)| *points >= LEAST_WITH_PICTURES);
    let words_alone = SIZES.map(|points| (points, 0.0));
    let mut last = None;
    for (points, side) in pictured.chain(words_alone) {
        let beside = Beside {
            pictures: &pictures,
            side,
        };
        match panels.words(&keyer.set, card, points, &beside, below) {
            Ok(words) => {
                items.extend(words);
                return Ok(setup.page(&items));
            }
            Err(error) => last = Some(error),
        }
    }
    Err(last.unwrap_or(PosterError::Full {
        needed: 0.0,
        room: 0.0,
    }))
}

struct Panels {
    width: f64,
    height: f64,
}

impl Panels {
    /// What of a panel may be printed on.
    /// All are as wide as the outer ones, each in the middle of what it has.
    fn room(&self, at: usize) -> Rect {
        let (first, last) = (at == 0, at + 1 == PANELS);
        let blank = |outer: bool| if outer { EDGE } else { GUTTER };
        let from = self.width * at as f64 + blank(first);
        let to = self.width * (at + 1) as f64 - blank(last);
        let idle = (to - from) - (self.width - EDGE - GUTTER);
        Rect::new(from + idle / 2.0, EDGE, to - idle / 2.0, self.height - EDGE)
    }

    /// Title, questions, sizes and what a bloom takes; on the last panel from so far down.
    fn words(
        &self,
        set: &RuleSet,
        card: &Card,
        points: f64,
        beside: &Beside<'_>,
        below: f64,
    ) -> Result<Vec<Item>, PosterError> {
        let first = self.room(0);
        let mut blocks = vec![self.block(|flow| {
            flow.say(&card.title, Style::bold(points + 4.0))?;
            flow.gap(1.5);
            Ok(())
        })?];
        for (number, step) in card.steps.iter().enumerate() {
            blocks.push(
                self.block(|flow| draw_question(flow, (number + 1, step), set, points, beside))?,
            );
        }
        if let Some(sizes) = &card.sizes {
            blocks.push(self.block(|flow| {
                flow.gap(1.0);
                flow.say("Then by size", Style::bold(points + 1.0))?;
                flow.say(&sizes.ask, Style::regular(points))
            })?);
            for (shapes, forms) in &sizes.shapes {
                blocks.push(self.block(|flow| {
                    flow.say(&capitalised(shapes), Style::bold(points))?;
                    for form in forms {
                        flow.indented(form, Style::regular(points), 3.0)?;
                    }
                    Ok(())
                })?);
            }
        }
        blocks.push(self.block(|flow| {
            flow.gap(1.5);
            flow.say(&card.takes, Style::regular(points))
        })?);
        if let Some(worked) = &card.worked {
            blocks.push(self.block(|flow| draw_worked(flow, worked, set, points))?);
        }

        let (mut panel, mut y) = (0, first.y0);
        let mut items = Vec::new();
        for block in blocks {
            let room = self.room(panel);
            if y + block.y > room.y1 && y > room.y0 && panel + 1 < PANELS {
                panel += 1;
                y = if panel + 1 == PANELS { below } else { room.y0 };
            }
            let room = self.room(panel);
            if y + block.y > room.y1 {
                return Err(PosterError::Full {
                    needed: first.height() * PANELS as f64,
                    room: first.height() * (PANELS - 1) as f64 + room.y1 - below,
                });
            }
            let place = Affine::translate((room.x0, y));
            items.extend(block.items.iter().map(|item| item.placed(place)));
            y += block.y;
        }
        Ok(items)
    }

    /// What stands together, about its own upper left corner.
    fn block(
        &self,
        say: impl FnOnce(&mut Flow) -> Result<(), Unprintable>,
    ) -> Result<Flow, PosterError> {
        let mut flow = Flow::new(0.0, 0.0, self.room(0).width());
        say(&mut flow)?;
        flow.gap(0.8);
        Ok(flow)
    }

    /// Every shape with its name, on the last panel, and how far down they reach.
    fn drawings(&self, set: &RuleSet) -> Result<(Vec<Item>, f64), PosterError> {
        let room = self.room(PANELS - 1);
        let rows = set.shapes.len().div_ceil(ACROSS).max(1);
        let width = room.width() / ACROSS as f64;
        let name = Style::bold(6.5);
        let side = (width - 1.5).min(room.height() / rows as f64 - 2.6 * name.line());
        let height = side + 2.6 * name.line();
        if side < 8.0 {
            return Err(PosterError::Full {
                needed: rows as f64 * (8.0 + 2.6 * name.line()),
                room: room.height(),
            });
        }
        let mut blooms = Blooms::default();
        let mut items = Vec::new();
        for (at, shape) in set.shapes.iter().enumerate() {
            let x = room.x0 + width * (at % ACROSS) as f64;
            let y = room.y0 + height * (at / ACROSS) as f64;
            // The largest of its forms, which the file names first.
            let form = set.forms.iter().position(|form| form.shape == at);
            if let Some(form) = form {
                let bloom = Bloom::of_form(set, form, &Answers::default());
                let place = (x, y);
                let drawn = blooms.drawing(&bloom, &Paint::plain(), View::Face, side, place);
                items.push(drawn.into());
            }
            let mut words = Flow::new(x, y + side + 0.5, width - 1.5);
            words.say(&capitalised(&shape.name), name)?;
            items.extend(words.items);
        }
        Ok((items, room.y0 + height * rows as f64))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::card::card;
    use crate::tag::flow::curly;

    #[test]
    fn every_rule_set_folds_to_one_page_of_either_paper() {
        for set in RuleSet::embedded() {
            let units = set.units;
            let keyer = Keyer::even(set);
            let key = keyer.shortest_key(false).expect("a key");
            let card = card(&keyer, &key, units);
            for paper in ["a4", "letter"] {
                let paper = Paper::named(paper).expect("a paper");
                let page = folded(&keyer, &card, &paper).expect("a page");
                assert_eq!(page.strays().count(), 0);
                // It is read standing in the field.
                let least = page.lines().map(|line| line.style.points);
                assert!(least.fold(f64::INFINITY, f64::min) >= LEAST_WITH_PICTURES);
                // Of every question that asks what something looks like, pictures.
                let pictures = AnswerPictures::of(&keyer.set, &card);
                let shown = card.steps.iter().flat_map(|step| {
                    let answers = step.answers.iter();
                    answers.map(|answer| (step.index, answer.atoms))
                });
                let shown: f64 = shown
                    .map(|(index, atoms)| pictures.width(index, atoms, 1.0).floor())
                    .sum();
                let drawn = page
                    .items
                    .iter()
                    .filter(|item| matches!(item, Item::Drawing(_)));
                assert!(shown > 10.0);
                // And the bloom that is gone through.
                let worked = usize::from(card.worked.is_some());
                assert_eq!(
                    drawn.count(),
                    keyer.set.shapes.len() + shown as usize + worked
                );
                let lines: Vec<&str> = page.lines().map(|line| line.text.as_str()).collect();
                let told = lines.join(" ");
                for step in &card.steps {
                    assert!(told.contains(&curly(&step.ask)), "{}", step.ask);
                }
                // No text runs over a fold.
                let width = page.width / PANELS as f64;
                for bounds in page.items.iter().filter_map(Item::bounds) {
                    let panel = |x: f64| (x / width).floor();
                    let crosses = panel(bounds.x0) != panel(bounds.x1 - 0.2);
                    assert!(!crosses || bounds.width() < 1.0, "{bounds:?}");
                }
            }
        }
    }
}
