//! The words of an entry: one table for reading, messages, help and sheets.

use crate::book::words::Word;

/// Every word, in the order in which an entry is printed.
pub const WORDS: [Word; 22] = [
    Word::new("date", "a day such as 20 Oct, 2026-10-20 or yesterday"),
    Word::new("by", "who noted it, such as by=Ann"),
    Word::new(
        "year",
        "the year in which the tubers were lifted, such as 2025; without it the last autumn's",
    ),
    Word::new("place", "where they lie, such as byre or shelf 2"),
    Word::new(
        "corrects",
        "the number of an earlier entry, in whose place this one stands",
    ),
    Word::new("lifted", "clumps lifted, a whole number from 0 to 9999"),
    Word::new(
        "divided",
        "tubers with an eye that they were divided into, a whole number from 0 to 9999",
    ),
    Word::new(
        "cuttings",
        "cuttings that rooted, a whole number from 0 to 9999",
    ),
    Word::new(
        "stored",
        "tubers put in store, a whole number from 0 to 9999",
    ),
    Word::new("lost", "tubers lost, a whole number from 0 to 9999"),
    Word::new("why", "why they were lost, such as rotten or dried out"),
    Word::new("potted", "tubers potted up, a whole number from 0 to 9999"),
    Word::new("given", "given away, a whole number from 0 to 9999"),
    Word::new("sold", "sold, a whole number from 0 to 9999"),
    Word::new("planted", "planted out, a whole number from 0 to 9999"),
    Word::new(
        "promised",
        "promised and still here, a whole number from 0 to 9999",
    ),
    Word::new(
        "to",
        "to whom they were given, promised or sold, in your own words",
    ),
    Word::new(
        "price",
        "the price of each, such as 4.50: of those sold, else what you ask from now on",
    ),
    Word::new(
        "sound",
        "tubers found sound when all were counted, a whole number from 0 to 9999",
    ),
    Word::new(
        "keep",
        "how many you keep back for your own beds, a whole number from 0 to 9999",
    ),
    Word::new("note", "a note of one line"),
    Word::new(
        "withdraw",
        "the number of an earlier entry that should not have been made",
    ),
];
