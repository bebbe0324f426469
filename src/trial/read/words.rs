//! The words of an entry beside the traits: one table for reading, messages, help and sheets.

/// A word beside the traits, and what its value looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Word {
    /// What stands before `=`.
    pub id: &'static str,
    /// What stands after it, for help and messages.
    pub expected: &'static str,
}

/// Every word beside the traits, in the order in which an entry is printed.
pub const WORDS: [Word; 20] = [
    word("date", "a day such as 20 Aug, 2026-08-20 or yesterday"),
    word("by", "who saw it, such as by=Ann"),
    word("diameter", "lengths such as 98mm,104mm,3.9in, one a bloom"),
    word(
        "colour",
        "colours, the main one first, such as peach,#ffcc99 or plum with a yellow centre; with a part before a colon as reverse:cream",
    ),
    word("stem", "lengths of cut stems such as 55cm,60cm"),
    word("height", "the plant's height such as 110cm"),
    word("open", "open blooms, a whole number from 0 to 9999"),
    word(
        "vase",
        "days for each stem such as 7,8,6,6+; + where it was still fresh at the end",
    ),
    word(
        "weather",
        "wind, rain or sun with damaged of open blooms, such as wind:3/12",
    ),
    word("visits", "pollinators over minutes such as 7/10min"),
    word("tubers", "tubers lifted, a whole number from 0 to 9999"),
    word(
        "sound",
        "tubers sound in spring, a whole number from 0 to 9999",
    ),
    word("plants", "plants standing, a whole number from 0 to 9999"),
    word("cut", "stems cut, a whole number from 0 to 9999"),
    word(
        "novelty",
        "yes, where you hold that it is a form of its own, or no",
    ),
    word("note", "a note of one line"),
    word("decide", "keep, hold or cull"),
    word("reason", "why it was decided so"),
    word(
        "corrects",
        "the number of an earlier entry, in whose place this one stands",
    ),
    word(
        "withdraw",
        "the number of an earlier entry that should not have been made",
    ),
];

const fn word(id: &'static str, expected: &'static str) -> Word {
    Word { id, expected }
}
