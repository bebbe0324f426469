//! What the screen shows in pixels, and how it is made beside the keys.

use super::App;
use super::abilities::Abilities;
use super::picture::{Job, Painted};

impl App {
    /// What the terminal said of itself.
    pub fn abilities(&self) -> Abilities {
        self.easel.abilities()
    }

    /// Whether anything is shown that hangs on what the terminal is: one without colours, or a text
    /// console, is not asked.
    pub fn asks_the_terminal(&self) -> bool {
        self.easel.asks_the_terminal()
    }

    /// The next picture that is to be made, of those that are seen.
    pub fn next_picture(&self) -> Option<Job> {
        self.easel.next()
    }

    /// The numbers of pictures that the terminal may forget since the last asking.
    pub fn gone_pictures(&mut self) -> Vec<u32> {
        self.easel.take_gone()
    }

    /// The numbers of all pictures: the screen ends.
    pub fn all_pictures(&mut self) -> Vec<u32> {
        self.easel.anew();
        self.easel.take_gone()
    }

    /// Goes on with what is known of the terminal and with what is in it.
    pub(super) fn take_over_easel(&mut self, before: &mut App) {
        self.easel.take_over(&mut before.easel);
    }

    /// Takes in what the terminal says of itself.
    pub(super) fn see(&mut self, abilities: Abilities) {
        self.easel.sees(abilities);
    }

    /// Takes in a picture that was made, or that it cannot be.
    pub(super) fn hang(&mut self, id: u32, painted: Option<Painted>) {
        self.easel.put(id, painted);
    }
}
