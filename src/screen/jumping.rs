//! The jump line and the pages: what each has to be found, and arriving there.

use super::jump::place::{Goal, Kind, Place};
use super::jump::{Jump, JumpMessage};
use super::keys::{self, BINDINGS, Meaning, Mode};
use super::kit::line::Edit;
use super::{App, Effect, Page};

impl App {
    pub(super) fn update_jump(&mut self, message: JumpMessage) -> Option<Effect> {
        match message {
            JumpMessage::Open => {
                self.choose.open_names();
                self.jump = Some(Jump::new(self.places()));
                None
            }
            JumpMessage::Drop => {
                self.jump = None;
                None
            }
            JumpMessage::Give => {
                let goal = self.jump.as_ref()?.goal()?.clone();
                self.jump = None;
                self.arrive(goal)
            }
        }
    }

    /// Edits the jump line, where it is open.
    pub(super) fn edit_jump(&mut self, edit: &Edit) {
        let choose = &self.choose;
        if let Some(jump) = &mut self.jump {
            jump.edit(edit, |query, most| choose.found_by(query, most));
        }
    }

    /// All that can be jumped to beside the varieties.
    fn places(&self) -> Vec<Place> {
        let page = |(at, page): (usize, &Page)| {
            let goal = Goal::Page(at);
            Place::new(Kind::Page, page.name(), goal)
        };
        let mut places: Vec<Place> = Page::ALL.iter().enumerate().map(page).collect();
        places.extend(self.order.places());
        places.extend(self.key.places());
        places.extend(self.row.places());
        places.extend(keys::commands(self.page_mode()));
        places
    }

    /// Goes there, or does it where it can be done.
    fn arrive(&mut self, goal: Goal) -> Option<Effect> {
        match goal {
            Goal::Page(at) => self.go_to(Page::ALL[at]),
            Goal::Variety(row) if self.comes_to(Page::Choose) => self.choose.point_at(row),
            Goal::Plant(subject) if self.comes_to(Page::Row) => self.row.point_at(&subject),
            Goal::Form(at) if self.comes_to(Page::Key) => self.key.show_form(at),
            Goal::Trait(at) if self.comes_to(Page::Key) => self.key.ask_trait(at),
            Goal::Item(item) if self.comes_to(Page::Order) => self.order.point_at(item),
            Goal::Command(at) => {
                let row = &BINDINGS[at];
                let there = keys::page_of(row.mode).unwrap_or(self.page);
                if let (true, Meaning::Is(message)) = (self.comes_to(there), &row.meaning) {
                    return self.take(message.clone());
                }
            }
            Goal::Variety(_) | Goal::Plant(_) | Goal::Form(_) | Goal::Trait(_) | Goal::Item(_) => {}
        }
        None
    }

    /// Opens a page; whether it can be worked there. What is half typed on it stays, and is for what
    /// stands under its cursor: that must not move.
    fn comes_to(&mut self, page: Page) -> bool {
        self.go_to(page);
        let mode = self.page_mode();
        let is_typed = mode.with().contains(&Mode::Line) && mode != Mode::Finding;
        if is_typed {
            self.say("A line is half typed here: Enter gives it, Esc drops it; then jump again.");
        }
        !is_typed
    }
}
