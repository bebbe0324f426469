//! What blooms are drawn on: the theme's colours, the finest cells that the terminal has, and pixels where
//! it shows them.

use std::sync::Arc;

use super::abilities::{Abilities, Finest, Pixels};
use super::picture::{Album, Job, Painted, Request};
use super::theme::Theme;
use crate::colour::Ground;
use crate::draw::{Characters, Drawing};
use crate::settings::{Pictures, Settings};

/// Where drawings of the screen are made.
#[derive(Debug, Clone)]
pub(super) struct Easel {
    /// The theme that the screen was started in.
    started: Theme,
    abilities: Abilities,
    pictures: Pictures,
    ground: Option<Ground>,
    album: Album,
}

impl Easel {
    /// For a terminal that said nothing.
    pub(super) fn new(started: Theme) -> Easel {
        Easel {
            started,
            abilities: Abilities::default(),
            pictures: Pictures::default(),
            ground: None,
            album: Album::default(),
        }
    }

    /// How all is drawn: on the ground that the grower says, else on the one that the terminal said, else
    /// as it was started.
    pub(super) fn theme(&self) -> Theme {
        let said = self.abilities.ground.map(Ground::of);
        let ground = self.ground.or(said);
        ground.map_or(self.started, |ground| self.started.on(ground))
    }

    /// What the terminal said.
    pub(super) fn abilities(&self) -> Abilities {
        self.abilities
    }

    /// The terminal says this now; what was made for it as it was is of no use.
    pub(super) fn sees(&mut self, abilities: Abilities) {
        if self.abilities != abilities {
            self.abilities = abilities;
            self.album.clear();
        }
    }

    /// Goes on with what another knows and has in the terminal.
    pub(super) fn take_over(&mut self, before: &mut Easel) {
        self.abilities = before.abilities;
        std::mem::swap(&mut self.album, &mut before.album);
    }

    /// What the grower wants to see, and on what ground.
    pub(super) fn wants(&mut self, settings: &Settings) {
        self.pictures = settings.pictures;
        self.ground = settings.ground;
    }

    /// Whether anything is shown that hangs on what the terminal is: one without colours, or a text
    /// console, is not asked.
    pub(super) fn asks_the_terminal(&self) -> bool {
        matches!(self.started, Theme::Colours(_) | Theme::AllColours(_))
    }

    /// With what characters a drawing is made.
    pub(super) fn characters(&self, coloured: bool) -> Characters {
        match (self.started.characters(coloured), self.started) {
            // The fonts of a text console have halves alone.
            (Characters::HalfBlocks, Theme::Colours(_) | Theme::AllColours(_)) => {
                match self.abilities.finest {
                    _ if self.pictures == Pictures::Halves => Characters::HalfBlocks,
                    Finest::Halves => Characters::HalfBlocks,
                    Finest::Quadrants => Characters::Quadrants,
                    Finest::Sextants => Characters::Sextants,
                    Finest::Octants => Characters::Octants,
                }
            }
            (characters, _) => characters,
        }
    }

    /// How pixels are shown here: where the terminal has them, there is colour, and the grower did not say
    /// no.
    pub(super) fn pixels(&self) -> Option<Pixels> {
        let wanted = self.started.has_colour() && self.pictures == Pictures::Pixels;
        self.abilities.pixels.filter(|_| wanted)
    }

    /// From now on pages say anew what they show.
    pub(super) fn turn(&mut self) {
        self.album.turn();
    }

    /// A page shows this drawing: the number of its picture, where there are pixels.
    pub(super) fn show(
        &mut self,
        drawing: &Arc<Drawing>,
        asked: Option<&str>,
        size: (u16, u16),
    ) -> Option<u32> {
        let request = Request {
            drawing: Arc::clone(drawing),
            asked: asked.map(str::to_string),
            size,
            pixels: self.pixels()?,
            ground: self.abilities.ground,
        };
        Some(self.album.show(request))
    }

    /// All pages said what they show.
    pub(super) fn close(&mut self) {
        self.album.close();
    }

    /// The next picture that is to be made.
    pub(super) fn next(&self) -> Option<Job> {
        self.album.next()
    }

    /// Takes in a picture that was made, or that it cannot be.
    pub(super) fn put(&mut self, id: u32, painted: Option<Painted>) {
        self.album.put(id, painted);
    }

    /// The picture of this number, once it is made.
    pub(super) fn painted(&self, id: u32) -> Option<&Painted> {
        self.album.painted(id)
    }

    /// The window has another size: terminals differ in what of a picture they keep then.
    pub(super) fn anew(&mut self) {
        self.album.clear();
    }

    /// The numbers of pictures that the terminal may forget since the last asking.
    pub(super) fn take_gone(&mut self) -> Vec<u32> {
        self.album.take_gone()
    }
}
