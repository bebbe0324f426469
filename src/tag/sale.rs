//! What is for sale by the stock book: of whom any is free, how many, and for how much; and which plants of
//! the book a buyer is not offered, and why.

mod account;
mod pages;

use jiff::civil::Date;

use super::label::Refused;
use super::says::{ClaimSources, Says, by_colour};
use super::selling::Selling;
use crate::account::text::counted;
use crate::colour::Family;
use crate::measure::{Money, brief};
use crate::stock;
use crate::trial::Subject;

/// What is for sale, and what is not.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sale {
    /// What is offered, in the order in which a buyer reads it.
    pub offers: Vec<Offer>,
    /// Plants that are not offered, and why; by number and name.
    pub withheld: Vec<Refused>,
    /// How the offers are ordered.
    pub order: SaleOrder,
    /// What prices are counted in.
    currency: Option<String>,
}

/// One that is offered.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// What may be said of it.
    pub says: Says,
    /// The family of its main colour; `None` where no colour is known.
    pub family: Option<Family>,
    /// How many are free: neither promised nor kept back.
    pub left: u64,
    /// What one costs; `None` where no price was noted.
    pub price: Option<Money>,
    /// The day on which they were counted.
    pub counted: Option<Date>,
}

/// In which order a buyer reads what is for sale.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum SaleOrder {
    /// By the family of the main colour, in each from light to deep; unknown colours last.
    #[default]
    Colour,
    /// By name; seedlings, by their numbers, first.
    Name,
}

impl ClaimSources<'_> {
    /// What of these plants is for sale, or of all in the book where none are named. The book's price goes
    /// before the one that is settled for all.
    pub fn on_sale(
        &self,
        stock: &stock::Stock,
        named: Option<&[Subject]>,
        order: SaleOrder,
    ) -> Sale {
        let in_the_book;
        let subjects = match named {
            Some(named) => named,
            None => {
                in_the_book = stock.subjects();
                &in_the_book
            }
        };
        let mut sale = Sale {
            order,
            currency: self.selling.currency.as_ref().map(ToString::to_string),
            ..Sale::default()
        };
        let mut free = Vec::new();
        for subject in subjects {
            match self.free(stock, subject) {
                Ok(own) => free.push((subject.clone(), own)),
                // Of those of a winter that is over nobody asks.
                Err(_) if named.is_none() && is_over(stock, subject) => {}
                Err(why) => sale.withheld.push(why),
            }
        }
        let offered: Vec<Subject> = free.iter().map(|(subject, _)| subject.clone()).collect();
        let priced = free.iter().map(|(subject, own)| (subject, own));
        let selling = self.selling.priced_by(priced);
        let grounds = ClaimSources {
            selling: &selling,
            ..*self
        };
        for (says, (subject, own)) in grounds.of_all(&offered).into_iter().zip(free) {
            match &says.unsold {
                Some(why) => sale.withheld.push(Refused {
                    subject,
                    why: why.clone(),
                }),
                None => sale.offers.push(Offer {
                    family: says.family(self.under.words),
                    price: *selling.price.of(&subject),
                    left: own.count,
                    counted: own.counted,
                    says,
                }),
            }
        }
        sale.withheld.sort_by(|a, b| a.subject.cmp(&b.subject));
        sale.offers.sort_by(|a, b| match order {
            SaleOrder::Name => a.says.subject.cmp(&b.says.subject),
            SaleOrder::Colour => by_colour((&a.says, a.family), (&b.says, b.family)),
        });
        sale
    }

    /// What the book has free to sell of a plant.
    ///
    /// # Errors
    /// [`Refused`] where that is none, with the reason.
    pub fn free(&self, stock: &stock::Stock, subject: &Subject) -> Result<stock::ForSale, Refused> {
        let why = match (self.find(subject), stock.for_sale(subject)) {
            (_, None) => "the stock book does not have it".to_string(),
            (None, Some(_)) => "neither your list nor your row has it now".to_string(),
            (Some(_), Some(own)) => match own.why_none() {
                None => return Ok(own),
                Some(why) => why,
            },
        };
        let subject = subject.clone();
        Err(Refused { subject, why })
    }
}

impl Sale {
    /// `1 plant`, `12 plants`.
    pub fn counted(&self) -> String {
        counted(self.offers.len(), "plant")
    }

    /// Of what is offered that which wants asking about before it goes to a buyer, and what to ask.
    pub fn warned(&self) -> impl Iterator<Item = (&Subject, &str)> {
        let said = self.offers.iter().map(|one| &one.says);
        said.filter_map(|says| Some((&says.subject, says.warned.as_deref()?)))
    }
}

impl SaleOrder {
    const ALL: [SaleOrder; 2] = [SaleOrder::Colour, SaleOrder::Name];

    /// The word in commands.
    pub const fn word(self) -> &'static str {
        match self {
            SaleOrder::Colour => "colour",
            SaleOrder::Name => "name",
        }
    }

    /// Reads the word.
    ///
    /// # Errors
    /// In a sentence: what was found and what was expected.
    pub fn read(word: &str) -> Result<SaleOrder, String> {
        let found = SaleOrder::ALL.into_iter().find(|one| one.word() == word);
        found.ok_or_else(|| format!("found {:?}, expected colour or name", brief(word)))
    }
}

impl Selling {
    /// The same, at the prices that the stock book asks of these plants; a price that was set for one of them
    /// stays.
    pub fn priced_by<'a>(
        &self,
        book: impl IntoIterator<Item = (&'a Subject, &'a stock::ForSale)>,
    ) -> Selling {
        let mut selling = self.clone();
        for (subject, own) in book {
            if own.price.is_some() && selling.price.own(subject).is_none() {
                selling.price.set(Some(subject.clone()), own.price);
            }
        }
        selling
    }
}

/// Whether nothing of a plant is here and nothing of it is promised.
fn is_over(stock: &stock::Stock, subject: &Subject) -> bool {
    let own = stock.for_sale(subject);
    own.is_none_or(|own| own.here == 0 && own.promised == 0)
}

#[cfg(test)]
mod tests;
