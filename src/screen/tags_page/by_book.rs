//! Tags by the stock book: of what is free to sell, as many as there are, at the price that is asked; and the
//! price list of it.

use super::{Content, TagsPage};
use crate::account::text::counted;
use crate::paper::Paper;
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;
use crate::stock::{ForSale, Stock};
use crate::tag::{ClaimSources, SaleOrder, Selling};
use crate::trial::Subject;

/// What stands over a price list.
pub(super) const FOR_SALE: &str = "Dahlias for sale";

impl TagsPage {
    /// Takes what the book has of everybody that can be tagged.
    pub(in crate::screen) fn take_book(&mut self, stock: &Stock) {
        let own = |subject: Subject| Some((subject.clone(), stock.for_sale(&subject)?));
        self.book = stock.subjects().into_iter().filter_map(own).collect();
    }

    /// Goes by the book, or no longer.
    pub(super) fn toggle_book(&mut self, grounds: &ClaimSources<'_>) {
        if !self.by_book && self.for_sale(grounds).is_empty() {
            return self.say(
                "The stock book has nothing that is free to sell: Stock shows what is there.",
            );
        }
        self.by_book = !self.by_book;
        self.by_hand = false;
        self.pick_usual(grounds);
        self.forget_said();
    }

    /// Picks what is picked as long as the grower does not: what is for sale by the book, else what is kept.
    pub(super) fn pick_usual(&mut self, grounds: &ClaimSources<'_>) {
        self.picked = match self.by_book {
            true => self.for_sale(grounds).into_iter().collect(),
            false => grounds.kept().into_iter().collect(),
        };
    }

    fn for_sale(&self, grounds: &ClaimSources<'_>) -> Vec<Subject> {
        let free = self.book.iter().filter(|(_, own)| own.count > 0);
        free.filter_map(|(subject, _)| grounds.find(subject))
            .collect()
    }

    /// What the book has of a plant.
    pub(super) fn in_the_book(&self, subject: &Subject) -> Option<&ForSale> {
        self.book.get(subject)
    }

    /// How many tags there are of a plant: what was set for it, else what the book has where tags go by it.
    pub(super) fn copies_of(&self, subject: &Subject) -> u32 {
        let own = self.copies.of.own(subject).copied();
        let book = || {
            let own = self.book.get(subject).filter(|_| self.by_book)?;
            Some(own.copies())
        };
        own.or_else(book).unwrap_or(*self.copies.of.for_all())
    }

    /// Who sells, and for how much: at the book's prices where tags go by it, and none was set for the plant.
    pub(super) fn selling_now(&self) -> Selling {
        match self.by_book {
            true => self.selling.priced_by(&self.book),
            false => self.selling.clone(),
        }
    }

    /// What the book has of the one under the cursor, for its tag; nothing where it has nothing.
    pub(super) fn stock_told(&self, columns: usize) -> Vec<Row> {
        let Some(own) = self.subject().and_then(|one| self.in_the_book(one)) else {
            return Vec::new();
        };
        let price = own
            .price
            .map_or(String::new(), |price| format!(" at {price}"));
        let bound = own.bound().into_iter();
        let bound: String = bound.map(|one| format!(", {one}")).collect();
        let day = own
            .counted
            .map_or(String::new(), |day| format!("; as of {day}"));
        let told = format!("{} free{price}{bound}{day}.", own.count);
        paragraph(("Stock: ", Role::Quiet), &told, Role::Plain, columns)
    }

    /// The grower's usual paper.
    fn paper(&self) -> Option<Paper> {
        let usual = Paper::named(&self.supply.paper);
        usual.or_else(|| Paper::embedded().into_iter().next())
    }

    /// The price list as what a file of this ending holds, and what it is.
    ///
    /// # Errors
    /// In a sentence: why there is none.
    pub(super) fn price_list(
        &self,
        ending: &str,
        order: SaleOrder,
        grounds: &ClaimSources<'_>,
        stock: &Stock,
    ) -> Result<(Content, String), String> {
        let sale = grounds.on_sale(stock, None, order);
        if sale.offers.is_empty() {
            return Err("the stock book has nothing that is free to sell".to_string());
        }
        let mut told = format!("a price list of {}", sale.counted());
        let content = match ending {
            "csv" => Content::Table(sale.cells()),
            _ => {
                let paper = self.paper().ok_or("no paper is known")?;
                let practice = &self.supply.stock.practice;
                let pages = sale.pages(FOR_SALE, grounds.selling, practice, &paper);
                let pages = pages.map_err(|error| error.to_string())?;
                told += &format!(" on {}", counted(pages.len(), "page"));
                Content::Pages(pages)
            }
        };
        let withheld = match sale.withheld.len() {
            0 => String::new(),
            count => format!("; {count} withheld: `trug stock prices` says why"),
        };
        Ok((content, told + &withheld))
    }
}

#[cfg(test)]
mod tests;
