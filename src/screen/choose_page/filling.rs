//! Records filled in on the Choose page.

use super::ChoosePage;
use crate::screen::Effect;
use crate::screen::filling::FillingMessage;

impl ChoosePage {
    /// Does what was asked with the slip that is open.
    pub(in crate::screen) fn fill(&mut self, _message: FillingMessage) -> Option<Effect> {
        None
    }
}
