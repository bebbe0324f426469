//! A flower's colour: CIELAB, distance, words and names, targets and palettes; and how well a colour is
//! read on another.
//!
//! Everywhere inside, a colour is [`Lab`]: CIELAB under D65. A person writes a [`Spec`]; a
//! [`Vocabulary`] makes it a [`Target`]; distance counts from the target's region. Knows nothing of
//! dahlias but the trade's colour words.

mod asked;
mod contrast;
mod css;
mod difference;
mod family;
mod ground;
mod iscc;
mod lab;
mod laid;
pub mod palette;
mod planes;
mod several;
mod shown;
mod spec;
mod spelling;
mod srgb;
mod target;
mod vocabulary;

pub use contrast::{LEGIBLE, contrast, legible_on, luminance};
pub use difference::{ciede2000, lightness_bound, lower_bound};
pub use family::{Family, Group};
pub use ground::Ground;
pub use iscc::{IsccName, iscc_names, name_of};
pub use lab::Lab;
pub use laid::pattern_named;
pub use planes::{Between, Planes};
pub use several::{NoPart, Piece, either_way, several, with_part};
pub use shown::{Judged, Shown, distance_to_target, lower_bound_to_target, main_of, weigh};
pub use spec::{ParseSpecError, Spec};
pub use srgb::{ParseHexError, Srgb};
pub use target::{Part, Pattern, Target};
pub use vocabulary::{UnknownColour, Vocabulary, Word};

/// The rows of a data file that ships in the binary: comments (`# `, where a hex has no
/// space) and the heading are left out.
fn data_rows(text: &str) -> impl Iterator<Item = &str> {
    text.lines()
        .filter(|line| !line.starts_with("# ") && !line.is_empty())
        .skip(1)
}
