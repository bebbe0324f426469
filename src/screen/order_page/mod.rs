//! The Order page: needs, means and the solution side by side. A number is changed and it solves
//! again, while the last solution stays in view.

mod adding;
mod beginning;
mod bought;
mod detail;
mod entering;
mod filling;
mod folds;
mod given;
mod ground;
mod jumped;
mod keeping;
mod kept;
mod message;
mod promised;
mod running;
mod sheets;
mod slip;
mod solving;
mod surer;
mod task;
mod view;

use std::cell::OnceCell;
use std::collections::BTreeSet;
use std::rc::Rc;

use jiff::civil::Date;

use crate::account::Section;
use crate::history::History;
use crate::measure::day::Calendar;
use crate::order::report::{Lack, lacking};
use crate::order::{Aim, Candidates, Cause, Chances, Item, Kept, Mend, Plan, Settled, UsualFrosts};
use crate::problem::sentences;
use crate::variety::{Index, Text, Varieties};

use super::Effect;
use super::choose_page::Stock;
use super::keeping::{Keeper, Keeping};
use super::keys::Mode;
use super::kit::cursor::{Cursor, Movement};
use super::kit::line::Line;
use ground::Ground;
pub use message::OrderMessage;
use running::Running;
pub use slip::Kind;
use slip::Slip;
pub use task::{Outcome, Task};
use task::{Question, Reply, Surer};

/// Why the page is empty where the folder has no order.
const NO_ORDER: &str = "the folder has no order.ron";

/// The Order page's state.
#[derive(Debug, Clone)]
pub struct OrderPage {
    /// The plan, or why there is none.
    plan: Result<Plan, String>,
    /// The same with the needs that its events and rounds come to; `None` where that is not known.
    whole: Option<Plan>,
    /// The names of the events and rounds whose needs are shown.
    opened: BTreeSet<String>,
    /// The colours last looked for on the Choose page.
    palette: Vec<Text>,
    /// What a day that is typed is read by.
    days: Calendar,
    keeper: Keeper,
    /// Whether the folder has no order, so that one can be begun here; and what of it is said so far.
    can_begin: bool,
    draft: Option<Plan>,
    /// The day as the program began, and the frosts that a new order begins with.
    today: Date,
    usual_frosts: UsualFrosts,
    /// What money is counted in, where the grower said.
    currency: Option<Text>,
    /// Plans before the changes made here, and those that were undone.
    history: History<Step>,
    /// Worked out when the page is first needed.
    ground: Option<Rc<Ground>>,
    /// The plan as it is now, ready to be solved; or why it cannot be.
    candidates: Result<Candidates, String>,
    /// The last solution, and the plan that it is of.
    settled: Option<Rc<Settled>>,
    solved: Option<Plan>,
    /// What it lacks beside stems.
    lacks: Vec<Lack>,
    /// Whether it was solved with the list as it is now.
    of_this_list: bool,
    /// Plans that were solved to the end, so that an undo shows at once what it goes back to.
    known: Vec<(Plan, Rc<Settled>)>,
    /// What an order is settled for.
    aim: Aim,
    /// What is kept beside the plan of what was settled, and what of it is not kept there yet.
    kept: Vec<Kept>,
    to_keep: Option<Kept>,
    /// Whether the plan is yet to be solved.
    due: bool,
    /// A question about the solution, yet to be asked.
    question: Option<Question>,
    running: Option<Running>,
    /// Tasks begun, to tell the outcome of one from that of another.
    begun: u64,
    /// How many had begun when the list's varieties last got other places: what those come to says
    /// nothing any more.
    moved: u64,
    /// What the last questions came to.
    mends: Option<Vec<Mend>>,
    surer: Option<Surer>,
    /// Why needs are not met, once that was worked out.
    causes: Option<Vec<Cause>>,
    replies: Vec<Reply>,
    /// What stands in the detail: until the next key.
    answer: Option<Answer>,
    /// Seasons drawn of the solution in view, once the season was asked for; how the one goes that is under way.
    drawn: Option<Chances>,
    so_far: Vec<Section>,
    side: Side,
    /// The cursors of the two sides.
    at: [Cursor; 2],
    line: Option<Line<Of>>,
    /// The record that is filled in.
    slip: Option<Slip>,
    /// Whether it was asked if what is under the cursor is to be dropped.
    asked_to_drop: bool,
    note: Option<String>,
}

/// A plan, and what was done to it, or taken back, when it was left.
#[derive(Debug, Clone)]
struct Step {
    plan: Plan,
    told: String,
}

/// The halves of the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Needs and means.
    Given,
    /// What is bought and planted.
    Bought,
}

/// What a question came to that stands in the detail, in place of what is under the cursor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Answer {
    /// What would mend it.
    Mends,
    /// What surer costs.
    Surer,
}

/// What a line is for.
#[derive(Debug, Clone, PartialEq)]
enum Of {
    /// A figure of the plan.
    Item(Item),
    /// Tubers of a variety: its place in the list.
    Tubers(usize),
    /// A variety by its name, and its tubers.
    Any,
}

impl OrderPage {
    /// A page over a plan, or over the sentence that says why there is none; `days` knows today.
    pub fn new(plan: Result<Plan, String>, keeping: Keeping, days: Calendar) -> OrderPage {
        OrderPage {
            due: plan.is_ok(),
            plan,
            whole: None,
            opened: BTreeSet::new(),
            palette: Vec::new(),
            days,
            keeper: Keeper::new(keeping),
            can_begin: false,
            draft: None,
            today: Date::MAX,
            usual_frosts: UsualFrosts::default(),
            currency: None,
            history: History::default(),
            ground: None,
            candidates: Err(String::new()),
            settled: None,
            solved: None,
            lacks: Vec::new(),
            of_this_list: true,
            known: Vec::new(),
            aim: Aim::Surely,
            kept: Vec::new(),
            to_keep: None,
            question: None,
            running: None,
            begun: 0,
            moved: 0,
            mends: None,
            surer: None,
            causes: None,
            replies: Vec::new(),
            answer: None,
            drawn: None,
            so_far: Vec::new(),
            side: Side::Given,
            at: [Cursor::default(); 2],
            line: None,
            slip: None,
            asked_to_drop: false,
            note: None,
        }
    }

    /// A page of a folder that has no order yet: one can be begun here.
    pub(super) fn without_order(keeping: Keeping, days: Calendar) -> OrderPage {
        OrderPage {
            can_begin: true,
            ..OrderPage::new(Err(NO_ORDER.to_string()), keeping, days)
        }
    }

    /// Takes the list as it is now, and the day; where the list has changed, what is solved is no
    /// longer the plan's.
    pub(super) fn open(&mut self, stock: impl FnOnce() -> Stock, list: &Varieties, today: Date) {
        self.today = today;
        let same = self
            .ground
            .as_ref()
            .is_some_and(|ground| ground.based_on(list));
        if (self.plan.is_err() && !self.begins()) || same {
            return;
        }
        let stock = stock();
        let index = Index::new(&stock.list, stock.grounds());
        self.ground = Some(Rc::new(Ground {
            stock,
            index,
            lasting: OnceCell::new(),
        }));
        self.known.clear();
        self.of_this_list = false;
        self.rework();
    }

    /// The list will be read again when the page is next open: more is known of its varieties.
    pub(super) fn list_changed(&mut self) {
        self.ground = None;
    }

    /// Varieties have another place in the list: what was found tells them by their places, and is let
    /// go. The page solves again when it is next open.
    pub(super) fn list_moved(&mut self) {
        self.list_changed();
        self.moved = self.begun;
        (self.settled, self.solved, self.drawn) = (None, None, None);
        (self.question, self.running, self.mends) = (None, None, None);
        self.lacks.clear();
        self.known.clear();
        self.replies.clear();
        self.line = None;
    }

    /// What the keys mean now.
    pub fn mode(&self) -> Mode {
        match &self.line {
            _ if self.slip.is_some() => Mode::Filling,
            None if self.begins() => Mode::Beginning,
            None => Mode::Ordering,
            Some(_) => Mode::Reckoning,
        }
    }

    /// Takes a message in.
    pub fn update(&mut self, message: OrderMessage) -> Option<Effect> {
        use OrderMessage as O;
        if let O::Looked(nodes) = message {
            self.looked(nodes);
            return None;
        }
        self.note = None;
        self.answer = None;
        let asked_to_drop = std::mem::take(&mut self.asked_to_drop);
        match message {
            O::Side(side) => self.side = side,
            O::Change => self.begin_change(""),
            O::Digit(digit) => self.begin_change(&digit.to_string()),
            O::Step(by) => return self.step_value(by),
            O::Begin => self.begin_plan(),
            O::Add => self.add_like_this(),
            O::AddKind(kind) => self.add(kind),
            O::Slip => self.open_slip(),
            O::Copy => self.copy(),
            O::Fix => self.begin_line(Of::Any, ""),
            O::Remove => return self.remove(asked_to_drop),
            O::Fold => self.fold(),
            O::Shortlist => return self.toggle_shortlist(),
            O::Mend => self.ask_mends(),
            O::Without => self.ask_without(),
            O::Aim => self.turn_aim(),
            O::Surer { alone } => self.ask_surer(alone),
            O::Solve => self.solve_again(),
            O::Stop => self.stop(),
            O::Undo => return self.undo(),
            O::Redo => return self.redo(),
            O::Give => return self.give(),
            O::Drop => self.line = None,
            O::Looked(_) => {}
        }
        None
    }

    /// Makes the plan ready to be solved.
    fn rework(&mut self) {
        let (Ok(plan), Some(ground)) = (&self.plan, &self.ground) else {
            return;
        };
        let whole = ground.whole(plan);
        let candidates = whole.as_ref().map_err(Clone::clone).and_then(|whole| {
            let candidates = Candidates::of(whole, ground.against());
            candidates.map_err(|wrong| whole.in_file(wrong))
        });
        self.whole = whole.ok();
        self.candidates = candidates.map_err(|wrong| sentences(&wrong));
        let before = self.settled_before();
        self.due = self.candidates.is_ok() && before.is_none();
        if let Some((plan, settled)) = before {
            self.put(Some(plan), settled);
        }
        self.question = None;
        self.running = None;
        (self.mends, self.surer) = (None, None);
        self.replies.clear();
    }

    /// Puts a solution in view, and the plan that it is of.
    fn put(&mut self, plan: Option<Plan>, settled: Rc<Settled>) {
        self.lacks = lacking(&settled);
        self.causes = None;
        self.solved = plan;
        self.settled = Some(settled);
        self.of_this_list = true;
        self.drawn = None;
    }

    /// Moves the cursor of the half that is worked at, in a window of so many rows.
    pub(super) fn go(&mut self, movement: Movement, window: usize) {
        self.note = None;
        self.answer = None;
        self.asked_to_drop = false;
        if self.go_on_slip(movement, window) {
            return;
        }
        let count = self.length(self.side);
        self.at[self.side as usize].go(movement, count, window);
    }

    fn length(&self, side: Side) -> usize {
        match side {
            Side::Given => self.items().len(),
            Side::Bought => self.rows_bought().len(),
        }
    }

    /// The cursor of a half, where that is the one that is worked at.
    fn cursor_at_work(&self, side: Side) -> Option<usize> {
        (self.side == side).then(|| self.cursor(side))
    }

    fn cursor(&self, side: Side) -> usize {
        self.at[side as usize].row(self.length(side))
    }

    pub(super) fn say(&mut self, note: impl Into<String>) {
        self.note = Some(note.into());
    }
}

#[cfg(test)]
mod tests;
