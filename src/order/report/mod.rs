//! What a settled order prints: the sheet by supplier, the season chart, the beds, the dates, and
//! why each variety is in it.

pub mod account;
mod bed_paper;
mod beds;
mod calendar;
mod causes;
mod chart;
mod columns;
mod dates;
mod going;
mod harvest;
mod have;
mod lacking;
mod mending;
mod planting;
mod reckoned;
mod sheet;
mod telling;
mod why;

pub use bed_paper::{Undrawable, bed_pages};
pub use beds::{Stretch, bed_plan, beds};
pub use calendar::calendar;
pub use causes::{cause_clause, cause_sentence};
pub use chart::{Chart, ChartWeek};
pub use columns::{in_weeks, weeks_in_words};
pub use dates::{KeyDate, key_dates, order_by};
pub use going::season_so_far;
pub use harvest::{Brought, brought, counts, harvest_section};
pub use have::{ToHand, have, to_hand, weeks_to_hand};
pub use lacking::{Lack, lacking};
pub use mending::mend_sentence;
pub use reckoned::{counted_in_store, reckoned};
pub use sheet::{sheet, sheet_rows};
pub use telling::{promise_in_words, risk_in_words, short_lines, status_sentence};
pub use why::{why, why_not};
