//! Records filled in on the Order page: a need, a bed, a supplier's terms, the season.

use super::given::shown_names;
use super::slip::Slip;
use super::{OrderPage, Side};
use crate::order::{Item, Plan, PlanGround, field_of};
use crate::record::{Fields, Key};
use crate::screen::Effect;
use crate::screen::filling::{Filled, Filling, FillingMessage};
use crate::screen::kit::cursor::{Cursor, Movement};
use crate::screen::kit::line::Edit;

/// What is said where no plan can be changed.
pub(super) const NO_PLAN: &str = "There is no order to change.";

impl OrderPage {
    /// What a record is read against; `None` before the page has looked at the list.
    pub(super) fn record_ground(&self) -> Option<PlanGround<'_>> {
        let ground = self.ground.as_ref()?;
        let stock = ground.stock();
        let plan = self.plan.as_ref().ok().or(self.draft.as_ref())?;
        Some(PlanGround {
            plan,
            at: None,
            grounds: stock.grounds(),
            list: &stock.list,
            units: stock.units,
            days: self.days.planning(plan.season.weeks_of()),
            pieces: &stock.pieces,
            palette: &self.palette,
        })
    }

    /// Opens the slip of what is under the cursor.
    pub(super) fn open_slip(&mut self) {
        let (Some(ground), Some(item)) = (self.record_ground(), self.item()) else {
            return self.say(NO_PLAN);
        };
        let plan = ground.plan;
        let slip = match item {
            Item::Need(at) => {
                let need = plan.needs[at].clone();
                let title = format!("The need {}", need.name);
                let slip = Filling::new(title, need, ground.at(Some(at)));
                Slip::Need(Box::new(slip), Some(at))
            }
            Item::Work(at) => {
                let work = plan.work[at].clone();
                let title = format!("The {} {}", work.kind(), work.name);
                let slip = Filling::new(title, work, ground.at(Some(at)));
                Slip::Work(Box::new(slip), Some(at))
            }
            Item::Bed(at) => {
                let bed = plan.beds[at].clone();
                let title = format!("The bed {}", bed.name);
                let slip = Filling::new(title, bed, ground.at(Some(at)));
                Slip::Bed(Box::new(slip), Some(at))
            }
            Item::Supplier(at) => {
                let terms = plan.suppliers[at].clone();
                let title = format!("The terms of {}", terms.name);
                let slip = Filling::new(title, terms, ground.at(Some(at)));
                Slip::Terms(Box::new(slip), Some(at))
            }
            item => {
                let slip = Filling::new("The season and the money", plan.clone(), ground);
                Slip::Season(Box::new(match field_of(item) {
                    Some(key) => slip.on(key, ground),
                    None => slip,
                }))
            }
        };
        self.slip = Some(slip);
    }

    /// Opens a slip with a copy of what is under the cursor.
    pub(super) fn copy(&mut self) {
        let (Some(ground), Some(item)) = (self.record_ground(), self.item()) else {
            return self.say(NO_PLAN);
        };
        let plan = ground.plan;
        let title = |name: &str| format!("A copy of {name}");
        let slip = match item {
            Item::Need(at) => {
                let need = &plan.needs[at];
                Slip::Need(new(title(&need.name), need.copy(plan), ground), None)
            }
            Item::Work(at) => {
                let work = &plan.work[at];
                Slip::Work(new(title(&work.name), work.copy(plan), ground), None)
            }
            Item::Bed(at) => {
                let bed = &plan.beds[at];
                Slip::Bed(new(title(&bed.name), bed.copy(plan), ground), None)
            }
            Item::Supplier(at) => {
                let terms = &plan.suppliers[at];
                Slip::Terms(new(title(&terms.name), terms.copy(plan), ground), None)
            }
            _ => return self.say("A need, an event, a bed or a supplier's terms can be copied."),
        };
        self.slip = Some(slip);
    }

    /// Says on the slip that leaving would lose what is typed; `false` where nothing is.
    pub(in crate::screen) fn warn_of_slip(&mut self) -> bool {
        self.slip.as_mut().is_some_and(Slip::warn)
    }

    /// Types on the slip; `false` where none is open.
    pub(super) fn edit_slip(&mut self, edit: &Edit) -> bool {
        let Some(mut slip) = self.slip.take() else {
            return false;
        };
        if let Some(ground) = self.record_ground() {
            match &mut slip {
                Slip::Need(slip, at) => slip.edit(edit, ground.at(*at)),
                Slip::Work(slip, at) => slip.edit(edit, ground.at(*at)),
                Slip::Bed(slip, at) => slip.edit(edit, ground.at(*at)),
                Slip::Terms(slip, at) => slip.edit(edit, ground.at(*at)),
                Slip::Season(slip) => slip.edit(edit, ground),
            }
        }
        self.slip = Some(slip);
        true
    }

    /// Goes to another field of the slip; `false` where none is open.
    pub(super) fn go_on_slip(&mut self, movement: Movement, window: usize) -> bool {
        let Some(mut slip) = self.slip.take() else {
            return false;
        };
        if let Some(ground) = self.record_ground() {
            match &mut slip {
                Slip::Need(slip, at) => slip.go(movement, window, ground.at(*at)),
                Slip::Work(slip, at) => slip.go(movement, window, ground.at(*at)),
                Slip::Bed(slip, at) => slip.go(movement, window, ground.at(*at)),
                Slip::Terms(slip, at) => slip.go(movement, window, ground.at(*at)),
                Slip::Season(slip) => slip.go(movement, window, ground),
            }
        }
        self.slip = Some(slip);
        true
    }

    /// Does what was asked with the slip that is open.
    pub(in crate::screen) fn fill(&mut self, message: FillingMessage) -> Option<Effect> {
        let mut slip = self.slip.take()?;
        let ground = self.record_ground()?;
        let changed = match &mut slip {
            Slip::Need(slip, at) => saved(slip.update(message, ground.at(*at)), |need| {
                let before = at.map(|at| &ground.plan.needs[at]);
                let told = told("need", &need.name, before, &need, ground);
                let (plan, at) = ground.plan.with_need(need, *at);
                (plan, Some(Item::Need(at)), told)
            }),
            Slip::Work(slip, at) => saved(slip.update(message, ground.at(*at)), |work| {
                let before = at.map(|at| &ground.plan.work[at]);
                let told = told(work.kind(), &work.name, before, &work, ground);
                let (plan, at) = ground.plan.with_work(work, *at);
                (plan, Some(Item::Work(at)), told)
            }),
            Slip::Bed(slip, at) => saved(slip.update(message, ground.at(*at)), |bed| {
                let before = at.map(|at| &ground.plan.beds[at]);
                let told = told("bed", &bed.name, before, &bed, ground);
                let (plan, at) = ground.plan.with_bed(bed, *at);
                (plan, Some(Item::Bed(at)), told)
            }),
            Slip::Terms(slip, at) => saved(slip.update(message, ground.at(*at)), |terms| {
                let before = at.map(|at| &ground.plan.suppliers[at]);
                let told = told("terms of", &terms.name, before, &terms, ground);
                let (plan, at) = ground.plan.with_terms(terms, *at);
                (plan, Some(Item::Supplier(at)), told)
            }),
            Slip::Season(slip) => saved(slip.update(message, ground), |plan| {
                let names = shown_names(ground.plan, &plan, ground);
                (plan, None, format!("season: {names} changed"))
            }),
        };
        match changed {
            Saved::Open => self.slip = Some(slip),
            Saved::Closed => self.leave_slip(&slip),
            Saved::As(plan, item, told) => match self.plan.is_ok() {
                true => return self.take_record(slip, *plan, item, &told),
                false => return self.take_beginning(slip, *plan),
            },
        }
        None
    }

    /// Puts the plan with the record in place; where it cannot be the slip stays open and says why.
    fn take_record(
        &mut self,
        slip: Slip,
        plan: Plan,
        item: Option<Item>,
        told: &str,
    ) -> Option<Effect> {
        match self.change(plan, told) {
            Ok(effect) => {
                self.side = Side::Given;
                let place = |item| self.items().iter().position(|one| *one == item);
                if let Some(place) = item.and_then(place) {
                    self.at[Side::Given as usize] = Cursor::on(place);
                }
                effect
            }
            Err(why) => {
                self.refuse_slip(slip, why);
                None
            }
        }
    }

    /// Opens the slip again with what is wrong told in its first field.
    pub(super) fn refuse_slip(&mut self, mut slip: Slip, why: String) {
        if let Some(ground) = self.record_ground() {
            let name = Key::of("name");
            match &mut slip {
                Slip::Need(slip, at) => slip.refuse(name, why, ground.at(*at)),
                Slip::Work(slip, at) => slip.refuse(name, why, ground.at(*at)),
                Slip::Bed(slip, at) => slip.refuse(name, why, ground.at(*at)),
                Slip::Terms(slip, at) => slip.refuse(name, why, ground.at(*at)),
                Slip::Season(slip) => slip.refuse(Key::of("planted"), why, ground),
            }
        }
        self.slip = Some(slip);
    }
}

/// A slip of a record that is not in the plan yet.
pub(super) fn new<'a, R: Fields<Ground<'a> = PlanGround<'a>>>(
    title: impl Into<String>,
    record: R,
    ground: PlanGround<'a>,
) -> Box<Filling<R>> {
    Box::new(Filling::of_new(title, record, ground))
}

/// What became of a slip, for the plan.
enum Saved {
    Open,
    Closed,
    /// The plan as it is then, the row to go to, and what is said.
    As(Box<Plan>, Option<Item>, String),
}

fn saved<R>(filled: Filled<R>, as_plan: impl FnOnce(R) -> (Plan, Option<Item>, String)) -> Saved {
    match filled {
        Filled::Open => Saved::Open,
        Filled::Closed => Saved::Closed,
        Filled::Save(record) => {
            let (plan, item, told) = as_plan(record);
            Saved::As(Box::new(plan), item, told)
        }
    }
}

/// What is said of a record that was added or changed.
fn told<'a, R: Fields<Ground<'a> = PlanGround<'a>>>(
    kind: &str,
    name: &str,
    before: Option<&R>,
    after: &R,
    ground: PlanGround<'a>,
) -> String {
    match before {
        None => format!("{kind} {name} added"),
        Some(before) => {
            let names = shown_names(before, after, ground);
            format!("{kind} {name}: {names} changed")
        }
    }
}
