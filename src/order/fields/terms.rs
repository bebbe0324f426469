//! A supplier's terms as a person fills them in.

use super::{PlanGround, bare, copied, field, told, unlike, wrong_of};
use crate::measure::Money;
use crate::order::plan::Plan;
use crate::order::terms::Terms;
use crate::record::{Field, Fields, Figure, Key, beginning_with};
use crate::variety::Text;

const WORDS: [(&str, &str); 4] = [
    ("postage", "postage"),
    ("free_over", "free"),
    ("least", "least"),
    ("closes", "closes"),
];

impl Terms {
    /// Terms to be filled in: of the first supplier of the list of whom the plan has none.
    pub fn fresh(ground: PlanGround<'_>) -> Terms {
        let own = ground.plan.suppliers.iter().map(|terms| &terms.name);
        let mut suppliers = ground.suppliers().into_iter();
        let next = suppliers.find(|name| own.clone().all(|own| own.as_str() != *name));
        let next = next.and_then(|name| Text::new(name).ok());
        Terms::of(next.unwrap_or_else(|| unlike("supplier", own, 1)))
    }

    /// The same terms of another supplier.
    pub fn copy(&self, plan: &Plan) -> Terms {
        Terms {
            name: copied(&self.name, plan.suppliers.iter().map(|terms| &terms.name)),
            ..self.clone()
        }
    }
}

impl Fields for Terms {
    type Ground<'a> = PlanGround<'a>;

    fn fields(&self, ground: PlanGround<'_>) -> Vec<Field> {
        let amount = |money: Option<Money>| money.map_or(String::new(), |money| money.to_string());
        let closes = self.closes.map_or(String::new(), |day| day.to_string());
        let stated = |field| Field {
            figure: Figure::Stated,
            ..field
        };
        let suppliers = match &ground.suppliers()[..] {
            [] => "The name as in the offers of your list.".to_string(),
            names => format!(
                "The name as in the offers of your list: {}.",
                names.join(", ")
            ),
        };
        vec![
            told(
                field(Key::of("name"), "", "supplier", self.name.to_string()),
                "Whose terms these are.",
                suppliers,
            ),
            stated(told(
                field(Key::of("postage"), "", "postage", self.postage.to_string()),
                "Postage on an order.",
                "An amount such as 7.50; nothing is none.",
            )),
            stated(told(
                field(Key::of("free"), "", "free from", amount(self.free_over)),
                "The worth of an order from which postage is free.",
                "An amount such as 250, or nothing.",
            )),
            stated(told(
                field(Key::of("least"), "", "least order", amount(self.least)),
                "The least worth of an order that is taken.",
                "An amount such as 20, or nothing.",
            )),
            stated(told(
                field(Key::of("closes"), "", "last day", closes),
                "The last day on which an order is taken.",
                "A day such as 2027-02-28, or nothing.",
            )),
        ]
    }

    fn set(&mut self, key: Key, text: &str, ground: PlanGround<'_>) -> Result<(), String> {
        let text = text.trim();
        *self = match key.word {
            "name" => Terms {
                name: Text::new(text).map_err(|error| error.to_string())?,
                ..self.clone()
            },
            word => {
                let changed = self.with(&format!("{word}={text}"), &ground.days);
                changed.map_err(|why| bare(why, word))?
            }
        };
        Ok(())
    }

    fn offered(&self, key: Key, typed: &str, ground: PlanGround<'_>) -> Vec<String> {
        match key.word {
            "name" => beginning_with(typed, ground.suppliers()),
            _ => Vec::new(),
        }
    }

    fn wrong(&self, ground: PlanGround<'_>) -> Option<(Key, String)> {
        let (plan, at) = ground.plan.with_terms(self.clone(), ground.at);
        wrong_of(plan.wrong(), ("suppliers", at), &self.name, &WORDS)
    }
}
