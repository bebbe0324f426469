//! Stems cut in the beds, one variety after the other: a line names the variety, for it may have no note
//! in the row yet.

use super::{Of, RowPage};
use crate::screen::Effect;
use crate::screen::kit::line::Line;
use crate::trial::Subject;
use crate::trial::read::{Draft, Reader, split};
use crate::variety::Varieties;

/// What may be typed.
pub(super) const HINT: &str = "A variety of your list and how many stems, such as Haaf Bell 12, then plants=20 where you counted them. The line stays for the next variety.";

impl RowPage {
    pub(super) fn begin_cutting(&mut self) {
        match self.refusal() {
            Some(refusal) => self.say(refusal),
            None => self.line = Some(Line::new(Of::Cut, String::new())),
        }
    }

    pub(super) fn cut(&mut self, text: &str, list: &Varieties) -> Option<Effect> {
        let draft = self.draft_of_cut(text, list);
        match draft {
            Ok((subject, draft)) => self.enter_or_tell(Ok(draft), Some(subject), list),
            Err(told) => {
                self.refuse(told);
                None
            }
        }
    }

    /// Whose cut it is, and what a line says of it.
    fn draft_of_cut(&self, text: &str, list: &Varieties) -> Result<(Subject, Draft), String> {
        let (name, words) = read(text)?;
        let row = list.find(name);
        let row = row.ok_or_else(|| format!("found {name:?}, expected {}", list.expected(name)))?;
        let reader = Reader {
            traits: &self.plot.keyer.set.traits,
            bare: Some(self.plot.units),
            days: self.calendar(),
        };
        let draft = reader.read(&words).map_err(|error| error.to_string())?;
        Ok((Subject::Variety(list.list()[row].name.clone()), draft))
    }
}

/// `Haaf Bell 12 plants=20` as the name and the words of the note.
fn read(text: &str) -> Result<(&str, Vec<String>), String> {
    let first = text.split_whitespace().find(|word| word.contains('='));
    let at = first.and_then(|word| text.find(word)).unwrap_or(text.len());
    let (said, words) = text.split_at(at);
    let mut words = split(words).map_err(|error| error.to_string())?;
    let said = said.trim();
    let Some((name, stems)) = said.rsplit_once(char::is_whitespace) else {
        return Err(format!(
            "found {text:?}, expected a variety and its stems, such as Haaf Bell 12"
        ));
    };
    if stems.parse::<u32>().is_err() {
        return Err(format!(
            "found {stems:?} behind the name, expected the stems that were cut, a whole number"
        ));
    }
    words.insert(0, format!("cut={stems}"));
    Ok((name.trim(), words))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_a_variety_and_its_stems() {
        for (text, meant) in [
            ("Haaf Bell 12", Ok(("Haaf Bell", "cut=12"))),
            ("Haaf Bell  0", Ok(("Haaf Bell", "cut=0"))),
            (
                "Haaf Bell 12 plants=20 note='late in the day'",
                Ok(("Haaf Bell", "cut=12|plants=20|note=late in the day")),
            ),
            ("Haaf", Err("expected a variety and its stems")),
            ("Haaf Bell", Err("found \"Bell\" behind the name")),
            ("Haaf Bell cut=12", Err("found \"Bell\" behind the name")),
        ] {
            let read = read(text).map(|(name, words)| (name, words.join("|")));
            match (read, meant) {
                (Ok((name, words)), Ok(meant)) => assert_eq!((name, words.as_str()), meant),
                (Err(told), Err(meant)) => assert!(told.contains(meant), "{told}"),
                (found, meant) => panic!("{text}: {found:?}, {meant:?}"),
            }
        }
    }
}
