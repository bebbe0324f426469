//! A picture as the terminal is sent it.

use std::fmt;
use std::sync::Arc;

use image::DynamicImage;
use ratatui::buffer::Buffer;
use ratatui::layout::{Rect, Size};
use ratatui::widgets::Widget;
use ratatui_image::Image;
use ratatui_image::protocol::Protocol as Sent;
use ratatui_image::protocol::iterm2::Iterm2;
use ratatui_image::protocol::kitty::Kitty;
use ratatui_image::protocol::sixel::Sixel;

use super::request::Job;
use crate::screen::abilities::Protocol;

/// A picture that was made; what of it is in the terminal already is not sent again.
#[derive(Clone)]
pub struct Painted(Arc<Sent>);

impl Painted {
    /// Makes a picture: some milliseconds, more for sixels. `None` where it cannot be made; the cells then
    /// stay.
    pub fn of(job: &Job) -> Option<Painted> {
        // What stands between the program and its terminal is asked by name, and sent nothing.
        const BETWEEN: bool = false;
        let request = &job.request;
        let size = Size::new(request.size.0, request.size.1);
        let image = DynamicImage::ImageRgba8(request.raster());
        let sent = match request.pixels.protocol {
            Protocol::Kitty => Kitty::new(image, size, job.id, BETWEEN, false).map(Sent::Kitty),
            Protocol::Iterm2 => Iterm2::new(image, size, BETWEEN).map(Sent::ITerm2),
            Protocol::Sixel => Sixel::new(image, size, BETWEEN).map(Sent::Sixel),
        };
        Some(Painted(Arc::new(sent.ok()?)))
    }

    /// Columns and rows.
    pub(in crate::screen) fn size(&self) -> (u16, u16) {
        let size = self.0.size();
        (size.width, size.height)
    }

    /// Lays it over cells: the first has what the terminal is sent, the others are left to it.
    pub fn lay(&self, area: Rect, buffer: &mut Buffer) {
        Image::new(&self.0).render(area, buffer);
    }
}

impl fmt::Debug for Painted {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_tuple("Painted").field(&self.size()).finish()
    }
}

impl PartialEq for Painted {
    /// Whether it is the same one.
    fn eq(&self, other: &Painted) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

/// What tells a terminal of kitty's kind to forget the picture of this number, and to answer nothing.
pub fn forgotten(id: u32) -> String {
    format!("\x1b_Ga=d,d=I,i={id},q=2\x1b\\")
}
