//! Blooms that were in hand when the screen ended: as text, so that they can be kept and offered again.
//!
//! The text is RON with a version. It is a convenience and no record: what cannot be read of it is left
//! out, and nothing of it is ever done without being asked for.

use serde::{Deserialize, Serialize};

use crate::problem::read_ron;

/// The version of the text that is written here.
const VERSION: u32 = 1;

/// More than these are not kept: the oldest goes.
const MOST: usize = 9;

/// The letters of a day.
const A_DAY: usize = "2026-08-20".len();

/// A bloom in hand.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct HalfKeyed {
    /// The day it was left, as it is told: `2026-08-20`.
    pub day: String,
    /// Its answers in the order given, each `TRAIT=VALUE`; a trait that was looked at again stands
    /// there again.
    pub answers: Vec<String>,
    /// The trait whose number was half typed, and the line.
    #[serde(default)]
    pub typed: Option<(String, String)>,
}

#[derive(Serialize, Deserialize)]
struct File {
    version: u32,
    #[serde(default)]
    blooms: Vec<HalfKeyed>,
}

/// The version alone, of a file of any.
#[derive(Deserialize)]
struct Version {
    version: u32,
}

/// Reads what was kept, the latest first. A text that is spoiled holds nothing.
///
/// # Errors
/// In a clause: the text is of a later version, and must not be written over.
pub fn read(text: &str) -> Result<Vec<HalfKeyed>, String> {
    if let Ok(Version { version }) = read_ron("", text)
        && version > VERSION
    {
        return Err(format!(
            "found version {version} of the file of half keyed blooms, expected at most {VERSION}: a later trug wrote it"
        ));
    }
    let read: Result<File, _> = read_ron("", text);
    let mut blooms = read.map_or_else(|_| Vec::new(), |file| file.blooms);
    blooms.retain(|bloom| !bloom.is_empty() && bloom.day.len() <= A_DAY);
    blooms.truncate(MOST);
    Ok(blooms)
}

/// What is kept from now on: the bloom in hand, then those of `before` that are not `settled`, taken up
/// again or dropped. `None` where nothing is.
///
/// # Errors
/// In a clause: why it cannot be written as text.
pub fn write(
    in_hand: Option<HalfKeyed>,
    before: Vec<HalfKeyed>,
    settled: &[HalfKeyed],
) -> Result<Option<String>, String> {
    let before = before.into_iter().filter(|one| !settled.contains(one));
    let blooms: Vec<HalfKeyed> = in_hand.into_iter().chain(before).take(MOST).collect();
    if blooms.is_empty() {
        return Ok(None);
    }
    let file = File {
        version: VERSION,
        blooms,
    };
    let pretty = ron::ser::PrettyConfig::new().depth_limit(3).indentor("  ");
    let text = ron::ser::to_string_pretty(&file, pretty).map_err(|error| error.to_string())?;
    Ok(Some(text + "\n"))
}

impl HalfKeyed {
    /// Whether there is nothing in it.
    pub fn is_empty(&self) -> bool {
        self.answers.is_empty() && self.typed.is_none()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bloom(day: &str) -> HalfKeyed {
        HalfKeyed {
            day: day.to_string(),
            answers: vec!["centre=closed".to_string(), "tip=?".to_string()],
            typed: Some(("diameter".to_string(), "98 1\"\u{1b}".to_string())),
        }
    }

    #[test]
    fn what_is_kept_is_read_back_the_latest_first() {
        let old = vec![bloom("2026-08-19"), bloom("2026-08-18")];
        let text = write(Some(bloom("2026-08-20")), old.clone(), &old[1..]).expect("writes");
        let read = read(&text.expect("something")).expect("reads");
        assert_eq!(read, [bloom("2026-08-20"), bloom("2026-08-19")]);
        assert_eq!(write(None, old.clone(), &old), Ok(None));
        let many = vec![bloom("2026-08-18"); 40];
        let text = write(None, many, &[]).expect("writes").expect("something");
        assert_eq!(super::read(&text).map(|read| read.len()), Ok(MOST));
    }

    #[test]
    fn a_spoiled_file_of_half_keyed_blooms_offers_nothing_and_a_later_one_is_left_alone() {
        let text = write(Some(bloom("2026-08-20")), Vec::new(), &[]);
        let text = text.expect("writes").expect("something");
        for at in 0..text.trim_end().len() {
            let Some(half) = text.get(..at) else { continue };
            assert_eq!(read(half), Ok(Vec::new()), "{half}");
        }
        let more = text.replace("day:", "seen_by: \"Ann\", day:");
        assert_eq!(read(&more).map(|read| read.len()), Ok(1), "{more}");
        assert_eq!(read("(version: 1)"), Ok(Vec::new()));
        assert!(read("(version: 2, blooms: {})").is_err());
    }
}
