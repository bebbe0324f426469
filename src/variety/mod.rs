//! The grower's own list: records, uses, narrowing and ranking.
//!
//! Pure: text and values in, values out. [`Varieties`] is the list, [`Index`] its columns worked out
//! once, and [`Index::ask`] one look at it.

mod account;
mod ask;
mod bits;
mod bloom_weeks;
mod by_colour;
mod by_name;
mod column;
mod compare;
mod counted;
mod edit;
mod estimate;
mod evidence;
pub mod exchange;
mod extent;
mod facet;
mod fields;
mod fitness;
mod fits;
mod fitting;
mod in_bloom;
mod index;
mod index_context;
mod list;
mod looks;
mod measures;
mod middles;
mod naming;
mod narrow;
mod query_cache;
mod rank;
mod record;
mod rekey;
mod rests;
mod search;
mod shades;
mod stated;
mod stems;
mod text;
mod uses;
mod words;
mod yields;

pub use crate::matching::Query;
pub use crate::measure::{Money, ParseMoneyError};
pub use account::{account, in_bloom, in_brief};
pub use ask::{Ask, Reply};
pub use bits::Rows;
pub use bloom_weeks::BloomWeeks;
pub use compare::{ComparedField, compare};
pub use edit::{Change, Edit, Several, Step, Touched, named_by};
pub use estimate::{Estimate, StatedFigure};
pub use evidence::{Days, ParseWeatherError, VaseLife, Weather, WeatherKind};
pub use extent::{Extent, Reach};
pub use facet::{Facet, UNKNOWN};
pub use fields::{Draft, Ground as DraftGround, NamesKnown};
pub use fitness::{Enough, FITS, FitBasis, Known, Reason, Side};
pub use in_bloom::{BloomSeason, InBloom};
pub use index::{Index, Replaced, price_a_stem};
pub use index_context::IndexContext;
pub use list::{NameTaken, Varieties};
pub use looks::{KnownBloom, KnownColour};
pub use middles::Middles;
pub use naming::{NameCheck, NamingRules};
pub use narrow::{Left, Mend, Narrowing};
pub use query_cache::QueryCache;
pub use rank::{By, Ranked, Ranking, closeness};
pub use record::{
    ColourNote, Foliage, FormKnown, FormNote, Offer, Shortlisted, StoreCount, Variety,
};
pub use rekey::{Rekeyed, rekeyed};
pub use rests::{Ground, Rests};
pub use shades::Distances;
pub use stated::{Dimension, Named, StatedValue, Statement};
pub use stems::{FULL_WEEKS, StemsAWeek};
pub use text::{Text, TextError, folded, plain};
pub use uses::{Quantity, Use, Uses, use_id};
pub use words::Names;
