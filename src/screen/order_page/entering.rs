//! Lines that are typed, and changes by one key.

use super::{Of, OrderPage, Side};
use crate::order::{Item, Plan};
use crate::screen::Effect;
use crate::screen::kit::line::{Edit, Line};

/// What is said of what was dropped, behind its name.
const DROPPED: &str = " dropped";

impl OrderPage {
    /// The figure under the cursor: of a need that an event comes to the event.
    pub(super) fn item(&self) -> Option<Item> {
        let plan = self.in_view().ok()?;
        self.shown_item().map(|item| item.written(plan))
    }

    pub(super) fn begin_change(&mut self, text: &str) {
        let of = match self.side {
            Side::Given => self.item().map(Of::Item),
            Side::Bought => self.bought().map(|one| Of::Tubers(one.row)),
        };
        match of {
            Some(of) => self.begin_line(of, text),
            None => self.say("There is nothing here to change yet."),
        }
    }

    pub(super) fn begin_line(&mut self, of: Of, text: &str) {
        if self.plan.is_err() {
            return;
        }
        self.line = Some(Line::new(of, text));
    }

    /// Edits the line.
    pub(in crate::screen) fn edit(&mut self, edit: &Edit) {
        self.note = None;
        self.answer = None;
        if self.edit_slip(edit) {
            return;
        }
        if let Some(line) = &mut self.line {
            line.edit(edit);
        }
    }

    /// What the line is for, what is there now, and what may be typed.
    pub(super) fn asked(&self, of: &Of) -> (String, String) {
        let Ok(plan) = &self.plan else {
            return (String::new(), String::new());
        };
        let units = self
            .ground
            .as_ref()
            .map(|ground| ground.stock().units)
            .unwrap_or_default();
        match of {
            // What a need is now stands in the detail below.
            Of::Item(item @ (Item::Need(_) | Item::Work(_))) => (item.name(plan), item.hint().to_string()),
            Of::Item(item) => (
                item.name(plan),
                format!("Now {}. {}", item.value(plan, units), item.hint()),
            ),
            Of::Any => (
                "Fix".to_string(),
                "A variety of your list and the tubers to buy of it, such as Haaf Kettle=10; =0 buys none.".to_string(),
            ),
            Of::Tubers(row) => {
                let name = self.ground.as_ref().map(|ground| ground.list().list()[*row].name.to_string());
                let packs = self.packs_in_words(*row);
                (
                    format!("Tubers of {}", name.unwrap_or_default()),
                    format!("Buy exactly so many, the rest is solved again; nothing: let it be chosen. {packs}"),
                )
            }
        }
    }

    fn packs_in_words(&self, row: usize) -> String {
        let Some(ground) = &self.ground else {
            return String::new();
        };
        let offers = ground.list().list()[row].offers.iter();
        let told = offers.map(|offer| {
            format!(
                "{} a pack of {} from {}",
                offer.price, offer.pack, offer.supplier
            )
        });
        told.collect::<Vec<_>>().join("; ")
    }

    pub(super) fn give(&mut self) -> Option<Effect> {
        let line = self.line.clone()?;
        let given = self.given(&line.of, line.text().trim());
        let told = match given {
            Ok((plan, told)) => self.change(plan, &told),
            Err(problem) => Err(problem),
        };
        match told {
            Ok(effect) => {
                self.line = None;
                effect
            }
            Err(problem) => {
                if let Some(line) = &mut self.line {
                    line.refuse(problem);
                }
                None
            }
        }
    }

    /// The plan as the line changes it, and what is then said.
    fn given(&self, of: &Of, text: &str) -> Result<(Plan, String), String> {
        let plan = self.plan.as_ref().map_err(String::clone)?;
        let days = self.days.planning(plan.season.weeks_of());
        match of {
            Of::Item(item) => {
                let changed = item.set(plan, text, &days)?;
                let units = self
                    .ground
                    .as_ref()
                    .map(|ground| ground.stock().units)
                    .unwrap_or_default();
                let told = match item.taken(&changed, text, &days) {
                    Some(taken) => format!("{}: {taken}", item.name(&changed)),
                    None => item.described(&changed, units),
                };
                Ok((changed, told))
            }
            Of::Any => {
                let (name, tubers) = text
                    .rsplit_once('=')
                    .ok_or_else(|| format!("found {text:?}, expected such as Haaf Kettle=10"))?;
                let list = self.ground.as_ref().ok_or("There is no list.")?.list();
                let row = list.find(name.trim()).ok_or_else(|| {
                    let name = name.trim();
                    format!("found {name:?}, expected {}", list.expected(name))
                })?;
                self.given(&Of::Tubers(row), tubers.trim())
            }
            Of::Tubers(row) => {
                let ground = self.ground.as_ref().ok_or("There is no list.")?;
                let variety = &ground.list().list()[*row];
                let mut changed = plan.clone();
                if text.is_empty() {
                    changed.unfix(variety);
                    return Ok((
                        changed,
                        format!("{}: chosen by what is needed", variety.name),
                    ));
                }
                let tubers = text.parse::<u32>().map_err(|_| {
                    format!("found {text:?}, expected a number of tubers, or nothing")
                })?;
                changed.fix(variety, tubers)?;
                Ok((
                    changed,
                    format!("{}: {tubers} tubers, fixed by hand", variety.name),
                ))
            }
        }
    }

    /// A step more or less of what is under the cursor.
    pub(super) fn step_value(&mut self, by: i32) -> Option<Effect> {
        let stepped = match self.side {
            Side::Given => self.step_item(by),
            Side::Bought => self.step_packs(by),
        };
        let done = stepped.and_then(|(plan, told)| self.change(plan, &told));
        self.done_or_explained(done)
    }

    fn step_item(&self, by: i32) -> Result<(Plan, String), String> {
        let plan = self.plan.as_ref().map_err(String::clone)?;
        let item = self.item().ok_or("There is nothing here to change.")?;
        let units = self
            .ground
            .as_ref()
            .map(|ground| ground.stock().units)
            .unwrap_or_default();
        let changed = item.step(plan, by, units)?;
        let told = item.described(&changed, units);
        Ok((changed, told))
    }

    fn step_packs(&self, by: i32) -> Result<(Plan, String), String> {
        let planted = self.planted().ok_or("There is nothing here to change.")?;
        let ground = self.ground.as_ref().ok_or("There is no list.")?;
        let variety = &ground.list().list()[planted.row];
        let pack = variety.offers.first().map_or(1, |offer| offer.pack.get());
        let bought = u32::try_from(planted.bought).unwrap_or(u32::MAX);
        let tubers = if by > 0 {
            bought.saturating_add(pack)
        } else {
            bought.saturating_sub(pack)
        };
        self.given(&Of::Tubers(planted.row), &tubers.to_string())
    }

    /// Takes away what is under the cursor, once that was asked; of a variety the quantity that is
    /// fixed.
    pub(super) fn remove(&mut self, was_asked: bool) -> Option<Effect> {
        let done = match self.side {
            Side::Given if !was_asked && self.keeper.refusal().is_none() => {
                return self.ask_to_drop();
            }
            Side::Given => self.dropped(),
            Side::Bought => match self.bought() {
                Some(one) => self.given(&Of::Tubers(one.row), ""),
                None => Err("There is nothing here to let go.".to_string()),
            },
        };
        let done = done.and_then(|(plan, told)| self.change(plan, &told));
        self.done_or_explained(done)
    }

    /// Asks whether what is under the cursor is to be dropped.
    fn ask_to_drop(&mut self) -> Option<Effect> {
        match self.dropped() {
            Ok((_, told)) => {
                let what = told.trim_end_matches(DROPPED);
                self.say(format!("x again drops the {what}; u takes that back."));
                self.asked_to_drop = true;
            }
            Err(why) => self.say(why),
        }
        None
    }

    /// The plan without what is under the cursor.
    fn dropped(&self) -> Result<(Plan, String), String> {
        let mut plan = self.plan.clone()?;
        let what = match self.item() {
            Some(Item::Need(at)) => format!("need {}", plan.needs.remove(at).name),
            Some(Item::Work(at)) => {
                let work = plan.work.remove(at);
                format!("{} {}", work.kind(), work.name)
            }
            Some(Item::Bed(at)) => format!("bed {}", plan.beds.remove(at).name),
            Some(Item::Supplier(at)) => format!("terms of {}", plan.suppliers.remove(at).name),
            _ => {
                return Err(
                    "A need, an event, a bed or a supplier's terms can be dropped.".to_string(),
                );
            }
        };
        Ok((plan, format!("{what}{DROPPED}")))
    }

    pub(super) fn toggle_shortlist(&mut self) -> Option<Effect> {
        let plan = self.plan.clone();
        let done = plan.and_then(|mut plan| {
            plan.shortlist_only = !plan.shortlist_only;
            let told = if plan.shortlist_only {
                "only the shortlist is bought"
            } else {
                "anything on the list may be bought"
            };
            self.change(plan, told)
        });
        self.done_or_explained(done)
    }

    fn done_or_explained(&mut self, done: Result<Option<Effect>, String>) -> Option<Effect> {
        done.unwrap_or_else(|problem| {
            self.say(problem);
            None
        })
    }
}
