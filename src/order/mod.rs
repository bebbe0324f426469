//! The order: from what is needed by week to what to buy, at least cost, proved.
//!
//! Pure: values in, values out. [`Plan`] is what the grower writes, [`Candidates`] what of the list
//! can serve it, [`model`] the integer program, [`solve`] its exact search.

mod aim;
mod aside;
mod bed;
mod blank;
mod candidates;
mod cause;
mod expand;
mod fields;
mod fix;
mod frost;
mod frost_words;
mod item;
mod kept;
mod lasting;
mod means_words;
mod mend;
pub mod model;
pub mod mps;
mod need;
mod need_words;
mod padding;
mod pared;
mod plan;
mod promise;
mod reach;
pub mod report;
mod risk;
mod row_count;
mod season;
mod setting_aside;
mod settle;
mod so_far;
mod solution;
pub mod solve;
mod sure;
mod terms;
mod told;
mod tried;
mod without;
mod work;

pub use aim::Aim;
pub use aside::{Aside, Rest, SetAside};
pub use bed::{Bed, Place};
pub use blank::{UsualFrosts, blank_text, season_ahead};
pub use candidates::{Candidates, ListContext, Match};
pub use cause::{Cause, Given, Kind, Means, Nearest, Scope, Why, causes};
pub use fields::{PlanGround, field_of};
pub use frost::{Frost, Risk, Side};
pub use item::Item;
pub use kept::{Kept, OfVariety};
pub use lasting::Lasting;
pub use mend::{By, Edit, Mend, mends};
pub(crate) use need::SURE;
pub use need::{Need, USUALLY_SURE};
pub use padding::Padding;
pub use plan::{Fixed, Plan};
pub use promise::{Promise, Promised, Takes, Whole};
pub use risk::{Chances, Grown, Grows, SEASONS, Spreads, chances};
pub use row_count::RowCount;
pub use season::{Figure, FirstCut, Method, Season, monday, week_of, weeks_with_days};
pub use settle::{Settled, Status, settle, settle_candidates};
pub use so_far::{
    Counted, Cut, Free, Going, Left, Log, Own, Prior, SeasonSoFar, SoFar, WeekGone, chances_left,
    free_to_sell, going,
};
pub use solution::{Bill, Gives, Order, OrderLine, Planted, Weekly};
pub use sure::{settle_surely, settle_surely_in, what_surer_costs};
pub use terms::Terms;
pub use without::without;
pub use work::{Count, FromWork, Part, Piece, Pieces, When, Work};
