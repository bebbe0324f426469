//! What is asked of the list, as one sentence.

use super::ChoosePage;
use crate::form::traits::list_and;
use crate::variety::{By, Facet, Narrowing, UNKNOWN};

impl ChoosePage {
    /// `12 of 240: with the words "sker", within 10 of peach, form ball; best for market bunch first.`
    pub(super) fn sentence(&self) -> String {
        let all = self.stock.list.len();
        if all == 0 {
            return "No varieties yet: i reads a spreadsheet in, a adds one.".to_string();
        }
        let found = match (self.shown.found, self.narrowings.len()) {
            (_, 0) => format!("All {all} varieties"),
            (0, _) => format!("None of {all}"),
            (found, _) => format!("{found} of {all}"),
        };
        let said: Vec<String> = self
            .narrowings
            .iter()
            .map(|one| self.narrowing_in_words(one))
            .collect();
        match said.is_empty() {
            true => format!("{found}, {}.", self.order_in_words()),
            false => format!("{found}: {}; {}.", said.join(", "), self.order_in_words()),
        }
    }

    /// What to do where nothing is left.
    pub(super) fn mend_sentence(&self) -> Option<String> {
        if self.shown.found > 0 || self.narrowings.is_empty() {
            return None;
        }
        Some(match self.shown.mend {
            Some(mend) => format!(
                "Nothing is left. Without {:?} there are {}: press d to drop it.",
                self.narrowing_in_words(&self.narrowings[mend.drop]),
                mend.brings
            ),
            None => {
                "Nothing is left, and no one narrowing is to blame: Backspace takes back the last."
                    .to_string()
            }
        })
    }

    /// The narrowing at a place in words.
    pub(super) fn narrowing_at(&self, at: usize) -> String {
        let narrowing = self.narrowings.get(at);
        narrowing.map_or(String::new(), |one| self.narrowing_in_words(one))
    }

    /// One narrowing in words.
    fn narrowing_in_words(&self, narrowing: &Narrowing) -> String {
        match narrowing {
            Narrowing::Words(text) => format!("with the words {text}"),
            Narrowing::Colour { asked, within, .. } => format!("within {within} of {asked}"),
            Narrowing::Facet { facet, values } => self.facet_in_words(*facet, values),
        }
    }

    fn facet_in_words(&self, facet: Facet, values: &[String]) -> String {
        let shown: Vec<String> = values
            .iter()
            .map(|value| self.value_name(facet, value))
            .collect();
        let shown: Vec<&str> = shown.iter().map(String::as_str).collect();
        let either = match shown.split_last() {
            Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
            _ => list_and(&shown),
        };
        match (facet, values) {
            (Facet::OnHand | Facet::Shortlist, [one]) if one != UNKNOWN => {
                let not = if one == "yes" { "" } else { "not " };
                format!("{not}{}", name(facet))
            }
            (Facet::Use, _) => format!("fit for {either}"),
            (Facet::Supplier, _) => format!("sold by {either}"),
            (Facet::Raiser, _) => format!("raised by {either}"),
            _ => format!("{} {either}", name(facet)),
        }
    }

    /// A value of a facet as it is shown.
    pub(super) fn value_name(&self, facet: Facet, value: &str) -> String {
        let means = match facet {
            Facet::Price | Facet::Height => facet.means(value, self.stock.units),
            _ => None,
        };
        let words = || facet.value_in_words(value, &self.stock.rules, &self.stock.uses);
        means.unwrap_or_else(words)
    }

    fn order_in_words(&self) -> String {
        let wanted = self
            .use_at
            .map_or("", |at| &self.stock.uses.list()[at].name);
        match self.order() {
            By::Name => "by name".to_string(),
            By::Fitness => format!("best for {wanted} first"),
            By::Colour => "nearest colour first".to_string(),
            By::Both => format!("best for {wanted} and nearest colour first"),
            By::Price => "cheapest a stem first".to_string(),
        }
    }
}

/// A facet as it is shown.
pub(super) fn name(facet: Facet) -> &'static str {
    match facet {
        Facet::Use => "fit for",
        Facet::Form => "form",
        Facet::Size => "size",
        Facet::Colour => "colours",
        Facet::Height => "height",
        Facet::Foliage => "foliage",
        Facet::Vase => "vase life",
        Facet::InBloom => "in bloom",
        Facet::Price => "price",
        Facet::OnHand => "on hand",
        Facet::Supplier => "supplier",
        Facet::Raiser => "raiser",
        Facet::Shortlist => "on the shortlist",
    }
}
