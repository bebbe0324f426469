//! The links of pages: what one hands to another, and the drawings of the page that is seen.

use super::choose_page::{ChooseMessage, Renewed, Stores};
use super::drawing::page_area;
use super::filling::FillingMessage;
use super::key_page::KeyMessage;
use super::kit::area;
use super::kit::cursor::Movement;
use super::kit::line::Edit;
use super::order_page::OrderPage;
use super::row_page::{RowMessage, RowPage};
use super::sheet::{SheetKind, sheet_columns};
use super::stock_page::{Plants, StockMessage};
use super::tags_page::TagsMessage;
use super::{App, Effect, Page};
use crate::order::Cut;
use crate::variety;

/// Who goes by a variety's name, as a sentence.
fn named_by(row: &RowPage, order: &OrderPage, stores: &Stores, name: &str) -> Option<String> {
    let mut things = row.trial().naming(name);
    if stores.contains_key(&variety::folded(name)) {
        things.push("entries of the stock book".to_string());
    }
    things.extend(order.plan().and_then(|plan| plan.naming(name)));
    variety::named_by(name, &things)
}

impl App {
    pub(super) fn update_choose(&mut self, message: ChooseMessage) -> Option<Effect> {
        let (row, order, stores) = (&self.row, &self.order, self.choose.stores());
        let named = |name: &str| named_by(row, order, &stores, name);
        let effect = self.choose.update(message, &named);
        self.tell_of_records();
        effect
    }

    pub(super) fn fill_choose(&mut self, message: FillingMessage) -> Option<Effect> {
        let (row, order, stores) = (&self.row, &self.order, self.choose.stores());
        let named = |name: &str| named_by(row, order, &stores, name);
        let effect = self.choose.fill(message, &named);
        self.tell_of_records();
        effect
    }

    /// Where records of the list were changed: who reads them by name looks again, and what the row
    /// saw of those varieties reaches their scores.
    fn tell_of_records(&mut self) {
        let Some(Renewed { rows, moved }) = self.choose.take_renewed() else {
            return;
        };
        self.row.list_changed();
        match moved {
            true => self.order.list_moved(),
            false => self.order.list_changed(),
        }
        let list = self.choose.list();
        let record = |row: &usize| self.row.record_of(*row, list);
        let records = rows.iter().filter_map(record).collect();
        self.choose.take_evidence(records);
        self.choose.open();
        if let Some(row) = rows.first() {
            self.choose.go_to(*row);
        }
    }

    pub(super) fn update_row(&mut self, message: RowMessage) -> Option<Effect> {
        let placing = self.row.is_placing_bloom();
        let effect = self.row.update(message, self.choose.list());
        self.tell_news();
        if placing && effect.is_none() && !self.row.is_placing_bloom() {
            self.bloom_placed(message == RowMessage::Drop);
        }
        effect
    }

    /// What the row has seen of every variety reaches its score.
    pub(super) fn tell_choose(&mut self) {
        let records = self.row.records(self.choose.list());
        self.order.list_changed();
        self.choose.take_evidence(records);
    }

    /// The same of what was just noted, and of nothing else.
    fn tell_news(&mut self) {
        let records = self.row.take_news(self.choose.list());
        if !records.is_empty() {
            self.order.list_changed();
            self.choose.take_evidence(records);
        }
    }

    /// Takes the keyed bloom to the row, where it is asked whose it is.
    pub(super) fn note_bloom(&mut self) {
        match self.key.observation() {
            Ok(seen) => {
                self.row.begin_bloom(seen, self.choose.list());
                self.go_to(Page::Row);
            }
            Err(why) => self.key.say(&why),
        }
    }

    /// What was asked to be saved is on the disk. Where that was a plant for the keyed bloom, the bloom
    /// is saved next.
    pub(super) fn entered(&mut self) -> Option<Effect> {
        let placing = self.row.is_placing_bloom();
        self.row.entered();
        if self.row.is_placing_bloom() {
            return self.update_row(RowMessage::Give);
        }
        self.tell_news();
        if placing {
            self.bloom_placed(false);
        }
        None
    }

    /// Back to the Key page: with the next bloom, or with the same one where it was not placed.
    fn bloom_placed(&mut self, dropped: bool) {
        self.go_to(Page::Key);
        if !dropped {
            self.key.update(KeyMessage::New);
            self.key.say(self.row.said_last());
        }
    }

    /// The season of the order, with what the row has counted of it so far.
    pub(super) fn open_season(&mut self) {
        let list = self.choose.list();
        let cut = self.row.trial().cut_of_varieties();
        let cuts = cut.map(|(name, day, counts)| Cut::of(list, name, day, counts));
        let cuts: Vec<Cut> = cuts.collect();
        self.order.draw_seasons(&cuts);
        self.open(SheetKind::Season);
    }

    pub(super) fn open_stock(&mut self) {
        let plants = Plants {
            trial: self.row.trial(),
            list: self.choose.list(),
        };
        self.stock.open(plants);
    }

    pub(super) fn update_stock(&mut self, message: StockMessage) -> Option<Effect> {
        let plants = Plants {
            trial: self.row.trial(),
            list: self.choose.list(),
        };
        let effect = self.stock.update(message, plants);
        self.tell_stock();
        effect
    }

    /// The entry of the stock book is on the disk.
    pub(super) fn stocked(&mut self) {
        self.stock.entered();
        self.tell_stock();
    }

    /// What was just noted in the stock book reaches the list.
    fn tell_stock(&mut self) {
        if self.stock.take_changed() {
            self.tell_stores();
        }
    }

    /// What the stock book has of varieties reaches the list, and the order that goes by it.
    pub(super) fn tell_stores(&mut self) {
        let stock = self.stock.stock();
        let stores = stock.known(self.choose.list(), self.stock.planted());
        let rows = self.choose.take_stores(stores);
        let record = |row: &usize| self.row.record_of(*row, self.choose.list());
        let records = rows.iter().filter_map(record).collect();
        self.choose.take_evidence(records);
        if !rows.is_empty() {
            self.order.list_changed();
        }
    }

    /// Tags say what the row and the list hold as they are now.
    pub(super) fn open_tags(&mut self) {
        self.row.open(self.choose.list());
        self.tags.take_book(self.stock.stock());
        let on_tags = self.tags.on_tags();
        let grounds = self
            .row
            .grounds(self.choose.list(), self.choose.uses(), &on_tags);
        self.tags.open(&grounds, &self.row);
    }

    pub(super) fn update_tags(&mut self, message: TagsMessage) -> Option<Effect> {
        let on_tags = self.tags.on_tags();
        let grounds = self
            .row
            .grounds(self.choose.list(), self.choose.uses(), &on_tags);
        let effect = self.tags.update(message, &grounds, self.stock.stock());
        // Of what is said on tags now: the message may have changed it.
        self.make_tags();
        effect
    }

    pub(super) fn move_in_tags(&mut self, movement: Movement, window: usize) {
        self.tags.go(movement, window);
        self.make_tags();
    }

    pub(super) fn edit_in_tags(&mut self, edit: &Edit) {
        self.tags.edit(edit);
        self.make_tags();
    }

    /// What is said on the tags that are seen now.
    fn make_tags(&mut self) {
        let on_tags = self.tags.on_tags();
        let grounds = self
            .row
            .grounds(self.choose.list(), self.choose.uses(), &on_tags);
        self.tags.make(&grounds);
    }

    /// Draws the blooms that are seen, those that did not change excepted.
    pub(super) fn portray(&mut self) {
        self.easel.turn();
        self.portray_page();
        self.easel.close();
    }

    fn portray_page(&mut self) {
        let (width, height) = self.size;
        if !self.page.has_room(self.size) {
            return;
        }
        let area = page_area(area::window(width, height));
        let easel = &mut self.easel;
        match (self.sheet.as_ref().map(|sheet| sheet.kind), self.page) {
            (None, Page::Key) => self.key.portray(area, easel),
            (None, Page::Choose) => self.choose.portray(area, easel),
            (None, Page::Row) => self.row.portray(area, self.choose.list(), easel),
            (None, Page::Tags) => self.tags.portray(area, easel),
            (Some(SheetKind::Why), Page::Choose) => self.choose.portray_in_full(easel),
            (Some(SheetKind::Why), Page::Row) => {
                self.row.portray_in_full(self.choose.list(), easel);
            }
            (Some(SheetKind::Why), Page::Tags) => {
                let columns = sheet_columns(width);
                self.tags.portray_in_full(columns, easel);
            }
            (None, Page::Order | Page::Stock) | (Some(_), _) => {}
        }
    }
}
