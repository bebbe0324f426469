//! Varieties filled in on the Choose page: added, changed, copied, dropped.

use super::slip::{Named, Slip};
use super::{ChoosePage, Entry, Stock};
use crate::record::Key;
use crate::screen::Effect;
use crate::screen::filling::{Filled, Filling, FillingMessage};
use crate::screen::kit::cursor::Movement;
use crate::screen::kit::line::Edit as Typed;
use crate::variety::exchange::OwnWords;
use crate::variety::{Draft, DraftGround, Edit, NamesKnown, Variety, folded};

const FORM: Key = Key::of("form");

impl ChoosePage {
    /// A slip for a new variety, behind all others.
    pub(super) fn begin_adding(&mut self) {
        self.begin_slip("A new variety", Draft::new(), None, self.stock.list.len());
    }

    /// A slip for the variety under the cursor.
    pub(super) fn begin_changing(&mut self) {
        let Some(row) = self.row() else {
            return self.say("Nothing is left to change: a adds a variety.");
        };
        let record = &self.stock.list.list()[row];
        let (title, draft) = (record.name.to_string(), Draft::of(record));
        self.begin_slip(&title, draft, Some(row), row);
    }

    /// A slip for a new variety that is like the one under the cursor but for its name.
    pub(super) fn begin_copying(&mut self) {
        let Some(row) = self.row() else {
            return self.say("Nothing is left to copy: a adds a variety.");
        };
        let record = &self.stock.list.list()[row];
        let title = format!("A new variety like {}", record.name);
        self.begin_slip(&title, Draft::copy_of(record), None, row + 1);
    }

    fn begin_slip(&mut self, title: &str, draft: Draft, row: Option<usize>, at: usize) {
        if let Some(refusal) = self.keeper.refusal() {
            return self.say(refusal);
        }
        let (known, own) = (NamesKnown::default(), OwnWords::default());
        let ground = ground(&self.stock, (&known, &own), row);
        let seen = row.and_then(|row| self.seen.get(&row));
        let beside = seen.map_or(Vec::new(), |seen| seen_of(seen, &draft, ground));
        let filling = match row {
            None => Filling::of_new(title, draft, ground),
            // A name is seldom changed, and would be typed over.
            Some(_) => Filling::new(title, draft, ground)
                .beside(beside)
                .on(FORM, ground),
        };
        self.entry = Entry::Slip(Box::new(Slip {
            filling,
            row,
            at,
            known,
            own,
        }));
    }

    /// Asks whether the variety under the cursor is to go; asked again, it goes.
    pub(super) fn drop_variety(&mut self, named: Named<'_>) -> Option<Effect> {
        let Some(row) = self.row() else {
            self.say("Nothing is left to drop.");
            return None;
        };
        if let Some(refusal) = self.keeper.refusal() {
            self.say(refusal);
            return None;
        }
        if self.dropping.take() == Some(row) {
            return self.make(Edit::Remove { row });
        }
        self.dropping = Some(row);
        let name = &self.stock.list.list()[row].name;
        let named = named(name).map_or(String::new(), |told| format!(" {told}"));
        self.say(format!(
            "X again drops {name} from the list; u takes that back.{named}"
        ));
        None
    }

    /// Says that leaving would lose what is typed on the slip; `false` where nothing is.
    pub(in crate::screen) fn warn_of_slip(&mut self) -> bool {
        match &mut self.entry {
            Entry::Slip(slip) => slip.filling.warn(),
            _ => false,
        }
    }

    /// Types on the slip that is open.
    pub(super) fn edit_slip(&mut self, edit: &Typed) {
        if let Entry::Slip(slip) = &mut self.entry {
            let ground = ground(&self.stock, (&slip.known, &slip.own), slip.row);
            slip.filling.edit(edit, ground);
        }
    }

    /// Moves over the fields of the slip that is open.
    pub(super) fn move_in_slip(&mut self, movement: Movement, window: usize) {
        if let Entry::Slip(slip) = &mut self.entry {
            let ground = ground(&self.stock, (&slip.known, &slip.own), slip.row);
            slip.filling.go(movement, window, ground);
        }
    }

    /// Does what was asked with the slip that is open. A change of a name that others go by is asked
    /// after.
    pub(in crate::screen) fn fill(
        &mut self,
        message: FillingMessage,
        named: Named<'_>,
    ) -> Option<Effect> {
        self.note = None;
        let Entry::Slip(slip) = &mut self.entry else {
            return None;
        };
        let ground = ground(&self.stock, (&slip.known, &slip.own), slip.row);
        let record = match slip.filling.update(message, ground) {
            Filled::Open => return None,
            Filled::Closed => {
                self.entry = Entry::Nothing;
                return None;
            }
            // OK because nothing is wrong with it, so that it is whole.
            Filled::Save(draft) => Box::new(draft.record()?),
        };
        let Some(row) = slip.row else {
            let row = slip.at;
            self.entry = Entry::Nothing;
            return self.make(Edit::Insert { row, record });
        };
        let before = &self.stock.list.list()[row].name;
        if folded(before) != folded(&record.name)
            && let Some(told) = named(before)
            && !slip.filling.ask(Draft::NAME, &told, ground)
        {
            return None;
        }
        self.entry = Entry::Nothing;
        self.make(Edit::Put { row, record })
    }
}

fn ground<'a>(
    stock: &'a Stock,
    (known, own): (&'a NamesKnown, &'a OwnWords),
    row: Option<usize>,
) -> DraftGround<'a> {
    DraftGround {
        rules: &stock.rules,
        words: &stock.words,
        own,
        list: &stock.list,
        row,
        known,
        units: stock.units,
        stems_a_plant: stock.stems_a_plant,
    }
}

/// What the trial row saw of a variety and its record does not say, by field.
fn seen_of(seen: &Variety, draft: &Draft, ground: DraftGround<'_>) -> Vec<(Key, String)> {
    use crate::record::Fields;
    let own = draft.fields(ground);
    let seen = Draft::of(seen).fields(ground).into_iter();
    let news = seen.filter(|field| {
        let same = |one: &crate::record::Field| one.key == field.key && one.text == field.text;
        !field.text.is_empty() && !own.iter().any(same)
    });
    news.map(|field| {
        let told = format!(
            "With the trial row: {} (reckoned with, not saved here).",
            field.text
        );
        (field.key, told)
    })
    .collect()
}

#[cfg(test)]
mod tests;
