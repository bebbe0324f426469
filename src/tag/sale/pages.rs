//! The price list on paper: a drawing, a name, what was seen of it, how many are left and what one costs.

use super::{Offer, Sale, SaleOrder};
use crate::account::text::capitalised;
use crate::colour::Family;
use crate::draw::{Paint, View};
use crate::measure::day;
use crate::paper::{Align, Item, Page, Paper, Printable, Style, TextLine};
use crate::tag::about::About;
use crate::tag::bloom::Blooms;
use crate::tag::flow::Flow;
use crate::tag::poster::{Poster, PosterError};
use crate::tag::selling::Selling;
use crate::tag::stock::Practice;

/// The side of a drawing, and what stays blank beside it, in mm.
const SIDE: f64 = 16.0;
const GAP: f64 = 4.0;
/// What price and number take at the right, in mm.
const FIGURES: f64 = 24.0;
const FAMILY: Style = Style::bold(10.0);
/// What is told of a plant, line by line.
const LINES: [&[About]; 6] = [
    &[About::Status],
    &[About::Form, About::Colour],
    &[About::Size],
    &[About::Uses],
    &[About::Vase, About::Season],
    &[About::Licence],
];
const NAME: Style = Style::bold(11.0);
const WORDS: Style = Style::regular(8.5);

impl Sale {
    /// The list on this paper; behind the plants what is said of all of them.
    ///
    /// # Errors
    /// [`PosterError`] where a name cannot be set or what is told does not fit.
    pub fn pages(
        &self,
        title: &str,
        selling: &Selling,
        practice: &Practice,
        paper: &Paper,
    ) -> Result<Vec<Page>, PosterError> {
        let poster = Poster {
            title: title.to_string(),
            note: self.note(selling),
            once: true,
        };
        let mut blooms = Blooms::default();
        let cells = self.offers.len() + 1;
        poster.run(paper, cells, |at, is_first, width| {
            match self.offers.get(at) {
                Some(offer) => {
                    let heading = self.heading(at, is_first);
                    cell(offer, heading.as_deref(), width, &mut blooms)
                }
                None => last(selling, practice, width),
            }
        })
    }

    /// Who sells, what prices are in, and when all was counted.
    fn note(&self, selling: &Selling) -> String {
        let who = selling.who_and_where().map(|who| format!("{who}."));
        let priced = self.offers.iter().any(|one| one.price.is_some());
        let prices = priced.then(|| match &self.currency {
            Some(currency) => format!("Prices are for one, in {currency}."),
            None => "Prices are for one.".to_string(),
        });
        let days = self.offers.iter().filter_map(|one| one.counted);
        let days = days
            .max()
            .map(|last| format!("Numbers as of {}.", day::in_words(last)));
        let told = [who, prices, days].into_iter().flatten();
        let printer = "A printer shows a colour only nearly.".to_string();
        told.chain([printer]).collect::<Vec<String>>().join(" ")
    }

    /// The family, where it begins, and on every page anew; nothing in a list by name.
    fn heading(&self, at: usize, is_first: bool) -> Option<String> {
        let family = self.offers[at].family;
        let begins = is_first || at == 0 || self.offers[at - 1].family != family;
        let by_colour = self.order == SaleOrder::Colour;
        let named = || capitalised(family.map_or("colour unknown", Family::word));
        (by_colour && begins).then(named)
    }
}

fn cell(
    offer: &Offer,
    heading: Option<&str>,
    width: f64,
    blooms: &mut Blooms,
) -> Result<(Vec<Item>, f64), PosterError> {
    let says = &offer.says;
    let mut head = Flow::new(0.0, 0.0, width);
    if let Some(heading) = heading {
        head.gap(GAP / 2.0);
        head.say(heading, FAMILY)?;
        head.gap(GAP / 2.0);
    }
    let (mut items, top) = (head.items, head.y);
    let mut words = Flow::new(SIDE + GAP, top, width - SIDE - GAP - FIGURES);
    words.say(&says.trade_name(), NAME)?;
    for abouts in LINES {
        let told: Vec<&str> = says.about(abouts).map(|fact| fact.text.as_str()).collect();
        if !told.is_empty() {
            words.say(&capitalised(&told.join("; ")), WORDS)?;
        }
    }
    items.extend(words.items);
    let drawing = says.bloom.as_ref().map(|bloom| {
        let paint = Paint::of(&says.colours);
        blooms.drawing(bloom, &paint, View::Face, SIDE, (0.0, top))
    });
    items.extend(drawing.map(Item::from));
    let price = offer.price.map(|price| price.to_string());
    let left = format!("{} left", offer.left);
    let mut base = top + NAME.line() * 0.8;
    for (text, style) in [(price, NAME), (Some(left), WORDS)] {
        let Some(text) = text else { continue };
        let text = Printable::new(&text)?;
        let line = TextLine::new(text, style, (width, base)).aligned(Align::Right);
        items.push(line.into());
        base += NAME.line();
    }
    Ok((items, words.y.max(top + SIDE)))
}

/// What holds for all: how to handle them, and the seller's own line.
fn last(
    selling: &Selling,
    practice: &Practice,
    width: f64,
) -> Result<(Vec<Item>, f64), PosterError> {
    let mut words = Flow::new(0.0, 0.0, width);
    words.say(&practice.handling, WORDS)?;
    if let Some(line) = &selling.line {
        words.say(line.as_str(), WORDS)?;
    }
    Ok((words.items, words.y))
}
