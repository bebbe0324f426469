//! Text of fixed width: how wide it is, and how it is broken into lines. All that is drawn in
//! columns, on the screen, in a terminal or in a file, is measured here.

use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// What stands for a letter that is wider than the line.
const TOO_WIDE: &str = "\u{2026}";

/// The side that a text stands at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Side {
    /// It begins where the column does.
    #[default]
    Left,
    /// It ends where the column does.
    Right,
}

/// The width of a text in columns, letter by letter as a reader sees letters.
pub fn width(text: &str) -> usize {
    if is_ascii_letters(text) {
        return text.len();
    }
    text.graphemes(true).map(UnicodeWidthStr::width).sum()
}

/// Whether every byte of a text is a letter that is seen, or a space: most are, and need no closer look.
pub fn is_ascii_letters(text: &str) -> bool {
    text.bytes().all(|byte| (b' '..=b'~').contains(&byte))
}

/// The text with spaces to so many columns; a wider one as it is.
pub fn pad(text: &str, columns: usize, side: Side) -> String {
    let spaces = " ".repeat(columns.saturating_sub(width(text)));
    match side {
        Side::Left => format!("{text}{spaces}"),
        Side::Right => format!("{spaces}{text}"),
    }
}

/// The text with its first letter a capital.
pub fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}

/// The word for more than one, of words that take an `s`.
pub fn plural(one: &str) -> String {
    let stem = one.strip_suffix('y');
    let stem = stem.filter(|stem| !stem.ends_with(['a', 'e', 'i', 'o', 'u']));
    stem.map_or_else(|| format!("{one}s"), |stem| format!("{stem}ies"))
}

/// `1 stem`, `3 stems`; `0 stems`.
pub fn counted(count: usize, one: &str) -> String {
    match count {
        1 => format!("1 {one}"),
        count => format!("{count} {}", plural(one)),
    }
}

/// The text broken at spaces into lines of at most so many columns; a longer word is broken inside.
pub fn wrap(text: &str, columns: usize) -> Vec<String> {
    hanging("", text.split_whitespace(), 0, columns)
}

/// A text after its lead, and the lines that go on from it with so many spaces in front. The lead
/// stands as it is; where it does not end with a space, there is one behind it.
pub fn paragraph(lead: &str, text: &str, indent: usize, columns: usize) -> Vec<String> {
    hanging(lead, text.split_whitespace(), indent, columns)
}

/// Pieces after a lead, a space between, in lines of at most so many columns: a line ends only
/// between pieces, and within one where it is wider than a line. Lines that go on from the first
/// have so many spaces in front.
pub fn hanging<'a>(
    lead: &str,
    pieces: impl IntoIterator<Item = &'a str>,
    indent: usize,
    columns: usize,
) -> Vec<String> {
    let columns = columns.max(indent + 1);
    let front = " ".repeat(indent);
    let mut lines = vec![lead.to_string()];
    // Whether nothing but the front or the lead is in the line.
    let mut begun = false;
    for piece in pieces {
        let line = lines.last_mut().expect("never empty");
        let gap = usize::from(!line.is_empty() && !line.ends_with(' '));
        if width(line) + gap + width(piece) <= columns {
            line.push_str(&" ".repeat(gap));
            line.push_str(piece);
            begun = true;
            continue;
        }
        let whole = width(piece) <= columns - indent;
        if begun || whole && width(line) > indent {
            line.truncate(line.trim_end().len());
            lines.push(front.clone());
        }
        begun = true;
        for letter in piece.graphemes(true) {
            let letter = match width(letter) > columns - indent {
                true => TOO_WIDE,
                false => letter,
            };
            let line = lines.last_mut().expect("never empty");
            if width(line) + width(letter) > columns {
                lines.push(front.clone() + letter);
            } else {
                line.push_str(letter);
            }
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn lines_are_broken_between_words_and_go_on_under_the_text() {
        assert_eq!(
            wrap("a ring of short petaloids", 9),
            ["a ring of", "short", "petaloids"]
        );
        assert_eq!(wrap("", 9), [""]);
        assert_eq!(wrap("petaloids", 4), ["peta", "loid", "s"]);
        assert_eq!(
            paragraph("  form  ", "formal decorative", 8, 16),
            ["  form  formal", "        decorati", "        ve"]
        );
        assert_eq!(
            hanging(" 1  Tip?", ["pointed: go to 2;", "rounded: ball"], 4, 27),
            [" 1  Tip? pointed: go to 2;", "    rounded: ball"]
        );
        assert_eq!(pad("花", 4, Side::Left), "花  ");
        assert_eq!(pad("9.50", 6, Side::Right), "  9.50");
    }

    proptest! {
        #[test]
        fn a_plain_text_is_as_wide_as_its_letters_are_together(text in "[ -~\u{e9}花\u{301}\t\r\n]{0,12}") {
            let letters = text.graphemes(true).map(UnicodeWidthStr::width);
            prop_assert_eq!(width(&text), letters.sum::<usize>());
        }

        #[test]
        fn no_line_is_wider_than_asked_and_no_letter_is_lost(text in "[a-z花\u{e9} ]{0,60}", columns in 2_usize..40, indent in 0_usize..4) {
            let lines = paragraph(&" ".repeat(indent), &text, indent, columns + indent);
            for line in &lines {
                prop_assert!(width(line) <= columns + indent, "{line:?}");
            }
            let kept = |text: &str| text.chars().filter(|c| *c != ' ').collect::<String>();
            prop_assert_eq!(kept(&lines.concat()), kept(&text));
        }
    }
}
