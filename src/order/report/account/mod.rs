//! One account of a settled order, section by section: each is what the command prints, the screen
//! shows and programs get of one matter. The order sheet is a file of its own, `sheet`.

mod causes;
mod needs;
mod risk;
mod season;
mod status;
mod sure;
mod work;

pub use causes::causes;
pub use needs::{needs, planted};
pub use risk::{risk, risk_chart, spreads};
pub use season::{dates, figures, weeks};
pub use status::{mended, notes, shortfall, status};
pub use sure::{promises, surer};
pub use work::{needs_of, stems_and_weeks, work};
