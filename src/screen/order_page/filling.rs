//! Records filled in on the Order page.

use super::OrderPage;
use crate::screen::Effect;
use crate::screen::filling::FillingMessage;

impl OrderPage {
    /// Does what was asked with the slip that is open.
    pub(in crate::screen) fn fill(&mut self, _message: FillingMessage) -> Option<Effect> {
        None
    }
}
