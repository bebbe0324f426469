//! Seedlings filled in on the Row page: added, changed, copied, dropped.

use super::slip::Slip;
use super::states::{Pending, Turn};
use super::{Plot, RowPage};
use crate::measure::day::Calendar;
use crate::record::Key;
use crate::screen::Effect;
use crate::screen::filling::{Filled, Filling, FillingMessage};
use crate::screen::kit::cursor::Movement;
use crate::screen::kit::line::Edit;
use crate::trial::{Number, Numbers, SeedlingEdit, Sowing, SowingGround, Subject};
use crate::variety::Varieties;

const SEED: Key = Key::of("seed");

impl RowPage {
    /// A slip for new seedlings, with the next number of the year.
    pub(super) fn begin_sowing(&mut self, list: &Varieties) {
        let next = self.next_numbers();
        self.begin_slip("New seedlings", Sowing::new(next), None, list);
    }

    /// A slip for the seedling under the cursor.
    pub(super) fn begin_changing(&mut self, list: &Varieties) {
        match self.subject() {
            None => self.say("There is no seedling here: a adds one."),
            Some(Subject::Variety(name)) => self.say(of_the_list(&name)),
            Some(Subject::Seedling(number)) => {
                if let Some(seedling) = self.plot.trial.seedling(number) {
                    let sowing = Sowing::of(seedling);
                    self.begin_slip(&number.to_string(), sowing, Some(number), list);
                } else {
                    self.say(not_there(number));
                }
            }
        }
    }

    /// A slip for new seedlings of the same cross and row as the one under the cursor.
    pub(super) fn begin_copying(&mut self, list: &Varieties) {
        let seedling = self
            .subject()
            .and_then(|one| self.plot.trial.seedling_of(&one).cloned());
        let Some(mut seedling) = seedling else {
            return self.say("There is no seedling here to copy: a adds one.");
        };
        let title = format!("New seedlings like {}", seedling.number);
        (seedling.place, seedling.plants) = (None, None);
        let copy = Sowing::of(&seedling).with_numbers(self.next_numbers());
        self.begin_slip(&title, copy, None, list);
    }

    fn next_numbers(&self) -> Option<Numbers> {
        self.plot
            .trial
            .next_number(self.plot.today.year())
            .map(Numbers::from)
    }

    fn begin_slip(
        &mut self,
        title: &str,
        sowing: Sowing,
        changed: Option<Number>,
        list: &Varieties,
    ) {
        if let Some(refusal) = self.refusal() {
            return self.say(refusal);
        }
        let filling = match changed {
            None => Filling::of_new(title, sowing, ground(&self.plot, list, changed)),
            // A number is seldom changed, and would be typed over.
            Some(_) => {
                let ground = ground(&self.plot, list, changed);
                Filling::new(title, sowing, ground).on(SEED, ground)
            }
        };
        self.slip = Some(Box::new(Slip { filling, changed }));
    }

    /// Asks whether the seedling under the cursor is to go; asked again, it goes. One that something
    /// stands of, or that others name as a parent, stays.
    pub(super) fn drop_seedling(&mut self) -> Option<Effect> {
        let number = match self.subject() {
            Some(Subject::Seedling(number)) => number,
            Some(Subject::Variety(name)) => {
                self.say(of_the_list(&name));
                return None;
            }
            None => {
                self.say("There is no seedling here to drop.");
                return None;
            }
        };
        let refusal = self.refusal();
        let stays = || self.plot.trial.why_stays(number);
        if let Some(told) =
            refusal.or_else(|| Some(format!("{}: d gives it up, its notes stay.", stays()?)))
        {
            self.say(told);
            return None;
        }
        if self.plot.trial.seedling(number).is_none() {
            self.say(not_there(number));
            return None;
        }
        if self.dropping.take() == Some(number) {
            return self.turn(SeedlingEdit::Remove(vec![number]), Turn::Made);
        }
        self.dropping = Some(number);
        self.say(format!(
            "X again drops {number} from the row; u takes that back."
        ));
        None
    }

    /// Says that leaving would lose what is typed on the slip; `false` where nothing is.
    pub(in crate::screen) fn warn_of_slip(&mut self) -> bool {
        let slip = self.slip.as_mut();
        slip.is_some_and(|slip| slip.filling.warn())
    }

    /// Types on the slip that is open.
    pub(super) fn edit_slip(&mut self, edit: &Edit, list: &Varieties) {
        if let Some(slip) = &mut self.slip {
            let ground = ground(&self.plot, list, slip.changed);
            slip.filling.edit(edit, ground);
        }
    }

    /// Moves over the fields of the slip that is open.
    pub(super) fn move_in_slip(&mut self, movement: Movement, window: usize, list: &Varieties) {
        if let Some(slip) = &mut self.slip {
            let ground = ground(&self.plot, list, slip.changed);
            slip.filling.go(movement, window, ground);
        }
    }

    /// Does what was asked with the slip that is open. It stays until what it says is on the disk.
    pub(in crate::screen) fn fill(
        &mut self,
        message: FillingMessage,
        list: &Varieties,
    ) -> Option<Effect> {
        self.note = None;
        let slip = self.slip.as_mut()?;
        let ground = ground(&self.plot, list, slip.changed);
        let mut seedlings = match slip.filling.update(message, ground) {
            Filled::Open => return None,
            Filled::Closed => {
                self.slip = None;
                return None;
            }
            Filled::Save(sowing) => sowing.seedlings(),
        };
        let edit = match slip.changed {
            None => SeedlingEdit::add(seedlings),
            Some(number) => SeedlingEdit::Put {
                number,
                // OK because one that is changed has one number.
                seedling: seedlings.pop()?,
            },
        };
        self.turn(edit, Turn::Made)
    }

    /// Makes a change of the seedlings, as soon as it is on the disk.
    pub(super) fn turn(&mut self, edit: SeedlingEdit, turn: Turn) -> Option<Effect> {
        if let Some(refusal) = self.refusal() {
            self.say(refusal);
            return None;
        }
        let stays = match &edit {
            SeedlingEdit::Remove(numbers) => numbers
                .iter()
                .find_map(|number| self.plot.trial.why_stays(*number)),
            SeedlingEdit::Put { number, seedling } if *number != seedling.number => {
                self.plot.trial.why_stays(*number)
            }
            SeedlingEdit::Put { .. } | SeedlingEdit::Add(_) => None,
        };
        if let Some(why) = stays {
            self.say(format!("Nothing was changed: {why}."));
            return None;
        }
        self.save_or_keep(Pending::Seedlings { edit, turn })
    }
}

fn ground<'a>(plot: &'a Plot, list: &'a Varieties, changed: Option<Number>) -> SowingGround<'a> {
    SowingGround {
        trial: &plot.trial,
        list,
        changed,
        days: Calendar::noting(plot.today, plot.days),
    }
}

fn of_the_list(name: &str) -> String {
    format!("{name} is a variety of your list: it is changed and dropped on the Choose page.")
}

fn not_there(number: Number) -> String {
    format!("The book names {number}, but trial.ron has no such seedling: a adds it.")
}

#[cfg(test)]
mod tests;
