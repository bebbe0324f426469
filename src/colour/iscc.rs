//! Names back: the ISCC-NBS system of colour designations.
//!
//! K. L. Kelly and D. B. Judd, NBS Special Publication 440, 1976. A colour takes the name of the
//! nearest of the 267 centroids by CIEDE2000. That is close to the system and not the system itself:
//! SP 440 cuts Munsell space into blocks, and its data are for illuminant C where ours are D65.

use std::sync::LazyLock;

use super::data_rows;
use super::difference::{ciede2000, lower_bound};
use super::lab::Lab;
use super::srgb::Srgb;

const DATA: &str = include_str!("../../assets/iscc_nbs.csv");

/// A centroid of the system.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct IsccName {
    /// The centroid's number in SP 440, 1 to 267.
    pub number: u16,
    /// The name, in the standard's own spelling and lower case: `dark grayish red`.
    pub name: &'static str,
    /// The centroid.
    pub centre: Lab,
}

/// The ISCC-NBS name of the centroid nearest to `colour`; of two as near, the one numbered first.
pub fn name_of(colour: Lab) -> &'static str {
    let mut best = ("", f64::INFINITY);
    for centroid in iscc_names() {
        if lower_bound(colour, centroid.centre) < best.1 {
            let distance = ciede2000(colour, centroid.centre);
            if distance < best.1 {
                best = (centroid.name, distance);
            }
        }
    }
    best.0
}

/// All 267, by number.
pub fn iscc_names() -> &'static [IsccName] {
    static NAMES: LazyLock<Vec<IsccName>> =
        LazyLock::new(|| data_rows(DATA).filter_map(read).collect());
    &NAMES
}

/// A row that does not read is left out; the tests hold that there is none.
fn read(row: &'static str) -> Option<IsccName> {
    let mut cells = row.split(',');
    Some(IsccName {
        number: cells.next()?.parse().ok()?,
        name: cells.next()?,
        centre: Lab::from(cells.next()?.parse::<Srgb>().ok()?),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// Published centroids (SP 440; the data file says by what way): all 267, where 60 would do.
    #[test]
    fn every_centroid_names_back_to_itself() {
        let strays: Vec<_> = iscc_names()
            .iter()
            .filter(|centroid| name_of(centroid.centre) != centroid.name)
            .collect();
        assert!(strays.is_empty(), "{strays:?}");
    }

    /// SP 440's scheme: modifiers, then hues that may end in -ish, then one hue, white, gray or black.
    #[test]
    fn the_names_are_267_and_well_formed() {
        const MODIFIERS: [&str; 12] = [
            "vivid",
            "brilliant",
            "strong",
            "deep",
            "very",
            "light",
            "moderate",
            "medium",
            "dark",
            "pale",
            "grayish",
            "blackish",
        ];
        const HUES: [&str; 13] = [
            "pink", "red", "orange", "brown", "yellow", "olive", "green", "blue", "violet",
            "purple", "white", "gray", "black",
        ];
        const ISH: [&str; 8] = [
            "reddish",
            "yellowish",
            "greenish",
            "bluish",
            "purplish",
            "pinkish",
            "brownish",
            "grayish",
        ];
        let names = iscc_names();
        assert_eq!(names.len(), 267);
        let distinct: BTreeSet<_> = names.iter().map(|n| n.name).collect();
        assert_eq!(distinct.len(), 267);
        for (i, centroid) in names.iter().enumerate() {
            assert_eq!(usize::from(centroid.number), i + 1, "{}", centroid.name);
            let words: Vec<_> = centroid.name.split(' ').collect();
            assert!((1..=4).contains(&words.len()), "{}", centroid.name);
            let last = words.last().expect("split gives one");
            assert!(HUES.contains(last), "{}", centroid.name);
            for word in &words {
                let known = MODIFIERS.contains(word) || HUES.contains(word) || ISH.contains(word);
                assert!(known, "{word:?} in {}", centroid.name);
            }
        }
    }

    /// Numbers and names as the system prints them, from memory.
    #[test]
    fn some_numbers_are_the_standards() {
        for (number, name) in [
            (11, "vivid red"),
            (48, "vivid orange"),
            (82, "vivid yellow"),
            (115, "vivid yellow green"),
            (139, "vivid green"),
            (176, "vivid blue"),
            (236, "vivid reddish purple"),
            (263, "white"),
            (267, "black"),
        ] {
            assert_eq!(iscc_names()[number - 1].name, name);
        }
    }
}
