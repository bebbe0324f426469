//! What a seller adds to what is known of a plant: who grew it and where, the price, and a line of the
//! grower's own. It is said as the grower wrote it, and nothing is said that is not written.

use super::per_plant::PerPlant;
use crate::measure::Money;
use crate::trial::Subject;
use crate::variety::Text;

/// What tags for a buyer say of the seller; each left out where it is not set.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Selling {
    /// Who grows.
    pub grower: Option<Text>,
    /// Where.
    pub place: Option<Text>,
    /// A line of the grower's own: the number of a registration, a passport or a permit.
    pub line: Option<Text>,
    /// What money is counted in.
    pub currency: Option<Text>,
    /// What one costs; `None` for no price on the tag.
    pub price: PerPlant<Option<Money>>,
}

/// What is typed where no price is to be told.
const NO_PRICE: &str = "none";

impl Selling {
    /// `Skerry Lane, Sea Wall Road`.
    pub(super) fn who_and_where(&self) -> Option<String> {
        let told: Vec<&str> = [&self.grower, &self.place]
            .into_iter()
            .flatten()
            .map(Text::as_str)
            .collect();
        (!told.is_empty()).then(|| told.join(", "))
    }

    /// `4.50 kroner`.
    pub fn price_told(&self, subject: &Subject) -> Option<String> {
        let price = (*self.price.of(subject))?;
        Some(match &self.currency {
            Some(currency) => format!("{price} {currency}"),
            None => price.to_string(),
        })
    }

    /// Reads a price: `4.50`, or `none`.
    ///
    /// # Errors
    /// In a sentence: what was found and what was expected.
    pub fn read_price(text: &str) -> Result<Option<Money>, String> {
        match text.trim() {
            "" => Err(format!(
                "found nothing, expected an amount such as 4.50, or {NO_PRICE}"
            )),
            NO_PRICE => Ok(None),
            text => {
                let money: Money = text
                    .parse()
                    .map_err(|error| format!("{error}, or {NO_PRICE}"))?;
                money.as_price().map(Some)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_price_is_an_amount_or_none() {
        let told = |text: &str| Selling::read_price(text);
        assert_eq!(told("4.5"), Ok(Some(Money::hundredths(450))));
        assert_eq!(told(" none "), Ok(None));
        for (text, expected) in [
            (
                "",
                "found nothing, expected an amount such as 4.50, or none",
            ),
            ("dear", "without a sign or a currency mark, or none"),
            ("2000000", "expected a price of at most 1000000.00"),
        ] {
            let error = told(text).expect_err(text);
            assert!(error.contains(expected), "{error}");
        }
    }

    #[test]
    fn what_is_not_set_is_not_said() {
        let text = |text: &str| Text::new(text).ok();
        let plant: Subject = "24-001".parse().expect("a number");
        let mut selling = Selling::default();
        assert_eq!(selling.who_and_where(), None);
        assert_eq!(selling.price_told(&plant), None);
        selling.place = text("Sea Wall Road");
        assert_eq!(selling.who_and_where().as_deref(), Some("Sea Wall Road"));
        selling.grower = text("Skerry Lane");
        let both = "Skerry Lane, Sea Wall Road";
        assert_eq!(selling.who_and_where().as_deref(), Some(both));
        selling.price = PerPlant::all(Some(Money::hundredths(450)));
        assert_eq!(selling.price_told(&plant).as_deref(), Some("4.50"));
        selling.currency = text("kroner");
        assert_eq!(selling.price_told(&plant).as_deref(), Some("4.50 kroner"));
        selling.price.set(Some(plant.clone()), None);
        assert_eq!(selling.price_told(&plant), None);
    }
}
