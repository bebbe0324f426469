//! Several colours in one text: the one grammar of every page, of import and of every command.
//!
//! - Between colours stand `,` `;` `/` `&` `+`, `and` or `or`: `red, white`, `plum/wine`,
//!   `pink and cream`. None of these parts a colour within its brackets: `lab(60, 20, 30)`.
//! - Of a bloom the first is its main colour and the others are second colours, unless it is said of
//!   which part one is: `second:white`, `reverse: lab(60 20 30)`, `white (second, tipped)`,
//!   `yellow centre`.
//! - How they lie may be said too: `plum with a white tip`, `white-tipped plum`,
//!   `plum edged with white`, `pink and cream blend`.
//! - `red tipped white` may mean either way round: it is no colour, and [`either_way`] has both.

use super::laid::{Laid, laid};
use super::target::{Part, Pattern};

/// One colour of several, not yet looked up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// The colour as it was written.
    pub colour: String,
    /// The part that it is of.
    pub part: Part,
    /// How it lies; `None` where nothing says.
    pub pattern: Option<Pattern>,
    /// Whether the text says nothing of it but the colour.
    pub is_plain: bool,
}

/// What stands before a colon, and names no part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoPart {
    /// As it was written.
    pub found: String,
}

/// A colour with what is said of it.
struct Said {
    colour: String,
    part: Option<Part>,
    pattern: Option<Pattern>,
}

/// The colours of a text, at least one. A text that `is_colour` as it stands is one, whatever is in it.
///
/// # Errors
/// [`NoPart`] where a colon stands behind a word that names no part.
pub fn several(text: &str, is_colour: &dyn Fn(&str) -> bool) -> Result<Vec<Piece>, NoPart> {
    let mut said = Vec::new();
    for item in parted(text, &[';'], &[]) {
        match bracketed(&item).filter(|one| is_colour(&one.colour)) {
            Some(one) => said.push(one),
            None if is_colour(item.trim()) => said.push(Said::plain(&item)),
            None => {
                for part in parted(&item, &[',', '/', '&', '+'], &["and", "or"]) {
                    said.extend(one(&part, is_colour)?);
                }
            }
        }
    }
    if said.is_empty() {
        said.push(Said::plain(text));
    }
    Ok(pieces(said))
}

/// A colour, before it the part that it is of where a colon says so: `second:white`.
///
/// # Errors
/// [`NoPart`] where what stands before the colon names none.
pub fn with_part(text: &str) -> Result<(Option<Part>, &str), NoPart> {
    let Some((word, colour)) = text.split_once(':') else {
        return Ok((None, text.trim()));
    };
    match laid(word).and_then(|laid| laid.part) {
        Some(part) => Ok((Some(part), colour.trim())),
        None => Err(NoPart {
            found: word.to_string(),
        }),
    }
}

/// What `red tipped white` may mean, as this grammar would read it; `None` of another text.
pub fn either_way(text: &str) -> Option<[String; 2]> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let at = words.iter().position(|word| laid(word).is_some())?;
    let Laid { part, pattern } = laid(words[at])?;
    let (first, last) = (words[..at].join(" "), words[at + 1..].join(" "));
    let (part, pattern) = (part?, pattern?);
    let way = |main: &str, other: &str| {
        let (part, pattern) = (part.word(), pattern.word());
        format!("{main} (main, {pattern}); {other} ({part}, {pattern})")
    };
    let whole = !first.is_empty() && !last.is_empty();
    whole.then(|| [way(&first, &last), way(&last, &first)])
}

/// The parts of a text at signs and words that stand in no brackets; empty ones are none.
fn parted(text: &str, signs: &[char], words: &[&str]) -> Vec<String> {
    let mut depth = 0_i32;
    let mut parts = vec![String::new()];
    for word in text.split_inclusive(char::is_whitespace) {
        let bare = word.trim().to_lowercase();
        if depth == 0 && words.contains(&bare.as_str()) {
            parts.push(String::new());
            continue;
        }
        for c in word.chars() {
            depth += i32::from(c == '(') - i32::from(c == ')');
            match parts.last_mut() {
                Some(part) if depth > 0 || !signs.contains(&c) => part.push(c),
                _ => parts.push(String::new()),
            }
        }
    }
    let parts = parts.iter().map(|part| part.trim().to_string());
    parts.filter(|part| !part.is_empty()).collect()
}

/// One colour as a list writes it, and what of another colour is said with it.
fn one(text: &str, is_colour: &dyn Fn(&str) -> bool) -> Result<Vec<Said>, NoPart> {
    let text = without_article(text);
    if is_colour(text) {
        return Ok(vec![Said::plain(text)]);
    }
    if let Some(one) = bracketed(text) {
        return Ok(vec![one]);
    }
    let (part, colour) = with_part(text)?;
    if part.is_some() {
        let pattern = None;
        let colour = colour.to_string();
        return Ok(vec![Said {
            colour,
            part,
            pattern,
        }]);
    }
    Ok(described(text).unwrap_or_else(|| vec![Said::plain(text)]))
}

/// A colour with its part, and where it is said how it lies, in brackets behind it.
fn bracketed(text: &str) -> Option<Said> {
    let (colour, marks) = text.trim().strip_suffix(')')?.rsplit_once('(')?;
    let (part, pattern) = match marks.split_once(',') {
        Some((part, pattern)) => (part, Some(pattern)),
        None => (marks, None),
    };
    let part = laid(part)?.part?;
    let pattern = match pattern {
        Some(pattern) => laid(pattern)?.pattern?,
        None => Pattern::SelfColoured,
    };
    Some(Said {
        colour: colour.trim().to_string(),
        part: Some(part),
        pattern: Some(pattern),
    })
}

/// Colours by words: `plum with a white tip`, `white-tipped plum`, `white tips`, `tipped white`.
fn described(text: &str) -> Option<Vec<Said>> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let joins = |word: &&str| word.eq_ignore_ascii_case("with") || word.eq_ignore_ascii_case("in");
    if let Some(at) = words.iter().position(joins) {
        let (before, behind) = (&words[..at], without_article_words(&words[at + 1..]));
        if before.is_empty() || behind.is_empty() {
            return None;
        }
        // `plum with a white tip`, `cream blend with a yellow eye`.
        if let Some(other) = ended(behind) {
            let main = ended(before).unwrap_or_else(|| Said::plain(&before.join(" ")));
            return Some(vec![main, other]);
        }
        // `edged with white`, `plum edged with white`.
        let how = before
            .split_last()
            .and_then(|(how, main)| Some((laid(how)?, main)));
        if let Some((how, main)) = how {
            let main = (!main.is_empty()).then(|| Said::plain(&main.join(" ")));
            let other = Said::of(behind, how);
            return Some(main.into_iter().chain([other]).collect());
        }
        let other = Said {
            part: Some(Part::Second),
            ..Said::plain(&behind.join(" "))
        };
        return Some(vec![Said::plain(&before.join(" ")), other]);
    }
    // `white-tipped plum`.
    let hyphened = words.iter().position(|word| {
        let last = word.rsplit_once('-');
        last.is_some_and(|(_, last)| laid(last).is_some())
    });
    if let Some(at) = hyphened
        && at + 1 < words.len()
    {
        let (first, how) = words[at].rsplit_once('-')?;
        let other = [&words[..at], &[first]].concat();
        let main = Said::plain(&words[at + 1..].join(" "));
        return Some(vec![main, Said::of(&other, laid(how)?)]);
    }
    let begun = || {
        let (how, colour) = words.split_first()?;
        (!colour.is_empty()).then_some(())?;
        Some(Said::of(colour, laid(how)?))
    };
    ended(&words).or_else(begun).map(|one| vec![one])
}

/// `white tips`, `cream two tone`: a colour, and behind it a word or two of how it lies.
fn ended(words: &[&str]) -> Option<Said> {
    [2, 1].into_iter().find_map(|count| {
        let at = words.len().checked_sub(count).filter(|at| *at > 0)?;
        let (colour, how) = words.split_at(at);
        Some(Said::of(colour, laid(&how.join(" "))?))
    })
}

fn without_article(text: &str) -> &str {
    let text = text.trim();
    match text.split_once(' ') {
        Some((word, rest)) if is_article(word) => rest.trim(),
        _ => text,
    }
}

fn without_article_words<'a, 'b>(words: &'a [&'b str]) -> &'a [&'b str] {
    match words.split_first() {
        Some((word, rest)) if is_article(word) => rest,
        _ => words,
    }
}

fn is_article(word: &str) -> bool {
    ["a", "an", "the"]
        .iter()
        .any(|one| word.eq_ignore_ascii_case(one))
}

impl Said {
    fn plain(text: &str) -> Said {
        Said {
            colour: text.trim().to_string(),
            part: None,
            pattern: None,
        }
    }

    fn of(words: &[&str], how: Laid) -> Said {
        Said {
            colour: words.join(" "),
            part: how.part,
            pattern: how.pattern,
        }
    }
}

/// The first of which nothing else is said is the main colour. How one of them lies is how main and
/// second colours meet.
fn pieces(said: Vec<Said>) -> Vec<Piece> {
    let how = said.iter().filter_map(|one| one.pattern);
    let mut how = how.rev().filter(|one| *one != Pattern::SelfColoured);
    let how = how.next();
    let mut has_main = said.iter().any(|one| one.part == Some(Part::Main));
    let mut piece = |one: Said| {
        let part = one.part.unwrap_or(match has_main {
            true => Part::Second,
            false => Part::Main,
        });
        has_main |= part == Part::Main;
        let meets = matches!(part, Part::Main | Part::Second);
        Piece {
            is_plain: one.part.is_none() && one.pattern.is_none(),
            pattern: one.pattern.or(how.filter(|_| meets)),
            colour: one.colour,
            part,
        }
    };
    said.into_iter().map(&mut piece).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::Vocabulary;
    use proptest::prelude::*;

    fn told(text: &str) -> String {
        let words = Vocabulary::embedded();
        let is_colour = |text: &str| words.target(text).is_ok();
        let pieces = match several(text, &is_colour) {
            Ok(pieces) => pieces,
            Err(none) => return format!("no part {:?}", none.found),
        };
        let one = |one: &Piece| match one.pattern {
            Some(pattern) => format!("{} ({}, {})", one.colour, one.part.word(), pattern.word()),
            None => format!("{} ({})", one.colour, one.part.word()),
        };
        let told: Vec<String> = pieces.iter().map(one).collect();
        told.join("; ")
    }

    #[test]
    fn several_colours_are_read_as_people_write_them() {
        for (text, read) in [
            ("red", "red (main)"),
            ("red, white", "red (main); white (second)"),
            ("plum/wine", "plum (main); wine (second)"),
            ("pink and cream", "pink (main); cream (second)"),
            (
                "red & white + gold",
                "red (main); white (second); gold (second)",
            ),
            ("peach or blush", "peach (main); blush (second)"),
            ("Dark red AND cream;", "Dark red (main); cream (second)"),
            (
                "lab(60, 20, 30),reverse:lab(1 2 3)",
                "lab(60, 20, 30) (main); lab(1 2 3) (reverse)",
            ),
            ("second:white, red", "white (second); red (main)"),
            (
                "red (main, tipped); white (second, tipped)",
                "red (main, tipped); white (second, tipped)",
            ),
            (
                "red (main); white (second)",
                "red (main, self); white (second, self)",
            ),
            (
                "plum with a white tip",
                "plum (main, tipped); white (second, tipped)",
            ),
            (
                "white-tipped plum",
                "plum (main, tipped); white (second, tipped)",
            ),
            (
                "plum edged with white",
                "plum (main, tipped); white (second, tipped)",
            ),
            (
                "plum, tipped white",
                "plum (main, tipped); white (second, tipped)",
            ),
            (
                "plum with white tips and a yellow centre",
                "plum (main, tipped); white (second, tipped); yellow (centre)",
            ),
            (
                "pink and cream blend",
                "pink (main, blend); cream (second, blend)",
            ),
            (
                "pink and cream blend with a yellow eye",
                "pink (main, blend); cream (second, blend); yellow (centre)",
            ),
            ("edged with white", "white (second, tipped)"),
            ("pink with cream", "pink (main); cream (second)"),
            ("yellow self", "yellow (main, self)"),
            ("red with a yellow reverse", "red (main); yellow (reverse)"),
            // A word with a separator in it is one where the vocabulary has it.
            ("dark/red", "dark/red (main)"),
            // Not guessed: what is no colour stays whole, to be asked about.
            ("red tipped white", "red tipped white (main)"),
            ("plumm", "plumm (main)"),
            ("leaf:red", "no part \"leaf\""),
            ("", " (main)"),
        ] {
            assert_eq!(told(text), read, "{text}");
        }
    }

    #[test]
    fn what_may_be_meant_either_way_is_offered_both_ways() {
        let both = either_way("red tipped white").expect("two ways");
        assert_eq!(
            both,
            [
                "red (main, tipped); white (second, tipped)",
                "white (main, tipped); red (second, tipped)"
            ]
        );
        for text in ["red", "white tips", "tipped white", "red white"] {
            assert_eq!(either_way(text), None, "{text}");
        }
    }

    proptest! {
        #[test]
        fn any_text_has_at_least_one_colour(text in "\\PC{0,60}", words in "((red|white|tips|with|a|in|and|,|;|/|\\(|\\)|-|:) ?){0,9}") {
            for text in [text, words] {
                if let Ok(pieces) = several(&text, &|text| text == "red") {
                    prop_assert!(!pieces.is_empty());
                }
                let _ = either_way(&text);
            }
        }
    }
}
