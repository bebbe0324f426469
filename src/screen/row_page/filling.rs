//! Records filled in on the Row page.

use super::RowPage;
use crate::screen::Effect;
use crate::screen::filling::FillingMessage;

impl RowPage {
    /// Does what was asked with the slip that is open.
    pub(in crate::screen) fn fill(&mut self, _message: FillingMessage) -> Option<Effect> {
        None
    }
}
