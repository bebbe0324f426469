//! The words of an entry beside the traits: one table for reading, messages, help and sheets.

use crate::book::words::Word;

/// Every word beside the traits, in the order in which an entry is printed.
pub const WORDS: [Word; 20] = [
    Word::new("date", "a day such as 20 Aug, 2026-08-20 or yesterday"),
    Word::new("by", "who saw it, such as by=Ann"),
    Word::new("diameter", "lengths such as 98mm,104mm,3.9in, one a bloom"),
    Word::new(
        "colour",
        "colours, the main one first, such as peach,#ffcc99 or plum with a yellow centre; with a part before a colon as reverse:cream",
    ),
    Word::new("stem", "lengths of cut stems such as 55cm,60cm"),
    Word::new("height", "the plant's height such as 110cm"),
    Word::new("open", "open blooms, a whole number from 0 to 9999"),
    Word::new(
        "vase",
        "days for each stem such as 7,8,6,6+; + where it was still fresh at the end",
    ),
    Word::new(
        "weather",
        "wind, rain or sun with damaged of open blooms, such as wind:3/12",
    ),
    Word::new("visits", "pollinators over minutes such as 7/10min"),
    Word::new("tubers", "tubers lifted, a whole number from 0 to 9999"),
    Word::new(
        "sound",
        "tubers sound in spring, a whole number from 0 to 9999",
    ),
    Word::new("plants", "plants standing, a whole number from 0 to 9999"),
    Word::new("cut", "stems cut, a whole number from 0 to 9999"),
    Word::new(
        "novelty",
        "yes, where you hold that it is a form of its own, or no",
    ),
    Word::new("note", "a note of one line"),
    Word::new("decide", "keep, hold or cull"),
    Word::new("reason", "why it was decided so"),
    Word::new(
        "corrects",
        "the number of an earlier entry, in whose place this one stands",
    ),
    Word::new(
        "withdraw",
        "the number of an earlier entry that should not have been made",
    ),
];
