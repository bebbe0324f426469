//! The files that a grower's folder knows, by name, and how large each may be.

use std::path::Path;

use crate::table::limits::MOST_BYTES;

/// The grower's list.
pub const VARIETIES: &str = "varieties.ron";
/// The seedlings.
pub const SEEDLINGS: &str = "trial.ron";
/// What was seen and decided of them.
pub const ENTRIES: &str = "trial.journal";
/// What became of tubers, from lifting to sale.
pub const STOCK: &str = "stock.journal";
/// The order.
pub const ORDER: &str = "order.ron";
/// What was settled of the order; made anew at any time.
pub const SETTLED: &str = "order.settled.ron";
/// The settings.
pub const SETTINGS: &str = "settings.ron";
/// The grower's own uses, in place of those in the program.
pub(super) const USES: &str = "uses.ron";
/// The grower's own colour words, in place of those in the program.
pub(super) const COLOURS: &str = "colours.ron";
/// The grower's own words on naming, in place of those in the program.
pub(super) const NAMING: &str = "naming.ron";
/// The grower's own release gate, in place of the one in the program.
pub(super) const RELEASE: &str = "release.ron";
/// The grower's own pieces of work, beside those in the program.
pub(super) const PIECES: &str = "pieces.ron";
/// The grower's own tags and sheets, in place of those in the program.
pub const TAGS: &str = "tags.ron";
/// The folder's own table of traits.
pub(super) const TRAITS: &str = "traits.ron";
/// The grower's own words for the headings and values of tables that come in.
pub const WORDS: &str = "words.ron";
/// Where the folder keeps rule sets, one a file.
pub(super) const RULES: &str = "rules";
/// The file by whose lock one program writes.
pub(super) const LOCK: &str = ".trug.lock";
/// The file that says who writes, where the disk knows no locks.
pub(super) const HELD: &str = ".trug.held";
/// Where each plant's entries stand in a long book; made anew at any time.
pub(super) const INDEX: &str = ".trug.index";

const MIB: u64 = 1 << 20;
/// Records that are rewritten whole: some 700,000 varieties, seven times the longest list that is
/// measured. Reading takes several times as much memory.
const RECORDS: u64 = 256 * MIB;
/// Some ten million entries: what a row of 1,000 plants gives in a lifetime.
pub(super) const GROWING: u64 = 1024 * MIB;
/// What a person writes by hand: hundreds of times the longest that comes with the program.
const BY_HAND: u64 = 4 * MIB;
/// Three settings, each a line.
const A_FEW_LINES: u64 = MIB;
/// A file that a command names to be read: a table of a million rows.
pub(super) const NAMED: u64 = MOST_BYTES as u64;

/// Every file by its name and the most bytes that it may have; those of [`RULES`] are as
/// [`TRAITS`].
const KNOWN: [(&str, u64); 16] = [
    (VARIETIES, RECORDS),
    (SEEDLINGS, RECORDS),
    (ENTRIES, GROWING),
    (STOCK, GROWING),
    (ORDER, BY_HAND),
    (SETTLED, BY_HAND),
    (SETTINGS, A_FEW_LINES),
    (USES, BY_HAND),
    (COLOURS, BY_HAND),
    (NAMING, BY_HAND),
    (RELEASE, BY_HAND),
    (TAGS, BY_HAND),
    (PIECES, BY_HAND),
    (TRAITS, BY_HAND),
    (WORDS, BY_HAND),
    // 12 bytes an entry, of as many as a book may have.
    (INDEX, RECORDS),
];

/// A grower's records, which no other program keeps under these names: by one of them a folder that she
/// stands in is found.
const RECORDED: [&str; 5] = [VARIETIES, SEEDLINGS, ENTRIES, STOCK, ORDER];

/// Whether `folder` is one that a grower keeps records in.
pub(super) fn has_records(folder: &Path) -> bool {
    RECORDED.iter().any(|name| folder.join(name).is_file())
}

/// Whether anything in `folder` may be a grower's: to be careful of, for settings are called so by
/// others, too.
pub(super) fn looks_like_one(folder: &Path) -> bool {
    let mut telling = RECORDED.iter().chain(&[SETTINGS, LOCK]);
    telling.any(|name| folder.join(name).symlink_metadata().is_ok())
}

/// The names of every file that is read in a folder, its rule sets apart.
pub(super) fn known() -> impl Iterator<Item = &'static str> {
    KNOWN.iter().map(|(name, _)| *name)
}

/// The most bytes that a file of the folder may have.
pub(super) fn most(path: &Path) -> u64 {
    let name = path.file_name().and_then(|name| name.to_str());
    let known = KNOWN.iter().find(|(known, _)| Some(*known) == name);
    known.map_or(BY_HAND, |(_, most)| *most)
}

/// Whether a file of this name is the folder's: one that it reads, the copy kept of it, what was set
/// aside of it, or what begins as the program's own hidden files do. Case tells no names apart, for on
/// many disks it tells no files apart.
pub(super) fn is_known(name: &str) -> bool {
    let name = name.to_lowercase();
    let plain = ["last", "torn"].iter().find_map(|ending| {
        name.strip_suffix(ending)
            .and_then(|rest| rest.strip_suffix('.'))
    });
    let plain = plain.unwrap_or(&name);
    name.starts_with(".trug") || known().any(|known| known == plain)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_the_folders_with_its_copies_and_in_any_case() {
        for name in [
            "varieties.ron",
            "Varieties.RON",
            "order.ron.last",
            "trial.journal.torn",
        ] {
            assert!(is_known(name), "{name}");
        }
        for name in [
            "counts.csv",
            "last",
            ".last",
            "varieties.ron.csv",
            "journal",
        ] {
            assert!(!is_known(name), "{name}");
        }
    }
}
