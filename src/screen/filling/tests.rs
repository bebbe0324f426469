//! A small record filled in by keys.

use super::*;
use crate::record::{Figure, beginning_with};
use crate::screen::tests::painted;
use crate::screen::theme::Theme;
use proptest::prelude::*;

/// A crate of stems: its name, how many, and marks, behind the last of which there is room.
#[derive(Debug, Clone, PartialEq, Default)]
struct Crate {
    name: String,
    stems: Option<u32>,
    marks: Vec<String>,
}

const NAME: Key = Key::of("name");
const STEMS: Key = Key::of("stems");
const MARKS: [&str; 3] = ["for the quay", "for the hotel", "spare"];

impl Fields for Crate {
    type Ground<'a> = ();

    fn fields(&self, (): ()) -> Vec<Field> {
        let field = |key: Key, name, text: &str| Field {
            key,
            group: if key.word == "mark" { "Marks" } else { "" },
            name,
            text: text.to_string(),
            means: "So it is.",
            takes: String::new(),
            figure: Figure::Chosen,
        };
        let stems = self.stems.map_or(String::new(), |stems| stems.to_string());
        let mut fields = vec![
            field(NAME, "name", &self.name),
            field(STEMS, "stems", &stems),
        ];
        let marks = self
            .marks
            .iter()
            .map(String::as_str)
            .chain([""])
            .enumerate();
        fields.extend(marks.map(|(place, mark)| field(Key::nth("mark", place), "mark", mark)));
        fields
    }

    fn set(&mut self, key: Key, text: &str, (): ()) -> Result<(), String> {
        match (key.word, text) {
            ("name", text) => self.name = text.to_string(),
            ("stems", "") => self.stems = None,
            ("stems", text) => {
                let stems = text.parse().map(Some);
                self.stems = stems.map_err(|_| format!("found {text:?}, expected a number"))?;
            }
            (_, "") if key.place < self.marks.len() => drop(self.marks.remove(key.place)),
            (_, "") => {}
            (_, text) if key.place < self.marks.len() => self.marks[key.place] = text.to_string(),
            (_, text) => self.marks.push(text.to_string()),
        }
        Ok(())
    }

    fn offered(&self, key: Key, typed: &str, (): ()) -> Vec<String> {
        match key.word {
            "mark" => beginning_with(typed, MARKS),
            _ => Vec::new(),
        }
    }

    fn wrong(&self, (): ()) -> Option<(Key, String)> {
        let nameless = self.name.is_empty();
        nameless.then(|| (NAME, "found no name, expected one".to_string()))
    }
}

fn write(slip: &mut Filling<Crate>, text: &str) {
    slip.edit(&Edit::Write(text.to_string()), ());
}

fn give(slip: &mut Filling<Crate>, text: &str) {
    write(slip, text);
    assert_eq!(slip.update(FillingMessage::Give, ()), Filled::Open);
}

fn shown(slip: &Filling<Crate>, width: u16, height: u16) -> String {
    painted((width, height), |window, buffer| {
        slip.draw(window, buffer, Theme::Plain);
    })
}

#[test]
fn fields_are_given_one_after_the_other_and_saved_together() {
    let mut slip = Filling::new("A new crate", Crate::default(), ());
    give(&mut slip, "early");
    give(&mut slip, "40");
    write(&mut slip, "ho");
    assert_eq!(slip.update(FillingMessage::Offered, ()), Filled::Open);
    give(&mut slip, "");
    let saved = Crate {
        name: "early".to_string(),
        stems: Some(40),
        marks: vec!["for the hotel".to_string()],
    };
    assert_eq!(slip.update(FillingMessage::Save, ()), Filled::Save(saved));
}

#[test]
fn what_is_wrong_stays_as_typed_in_its_field_and_nothing_else_is_lost() {
    let mut slip = Filling::new("A new crate", Crate::default(), ());
    give(&mut slip, "early");
    give(&mut slip, "forty");
    slip.go(Movement::Down, 24, ());
    give(&mut slip, "spare");
    insta::assert_snapshot!(shown(&slip, 60, 16), @r"
    ─ A new crate ──────────────────────────────────────────────
      name    early
    ! stems   forty
      Marks
      mark    spare
    > mark 2  [_]






    ─ mark 2 ───────────────────────────────────────────────────
      Tab: for the quay · for the hotel · spare
      So it is.
      yours to say
    ");
    assert_eq!(slip.update(FillingMessage::Save, ()), Filled::Open);
    insta::assert_snapshot!(shown(&slip, 44, 14), @r#"
    ─ A new crate ──────────────────────────────
      name    early
    > stems   [forty_]
      Marks
      mark    spare
      mark 2




    ─ stems ────────────────────────────────────
      found "forty", expected a number
      So it is.
      yours to say
    "#);
    slip.edit(&Edit::EraseToStart, ());
    give(&mut slip, "40");
    assert!(matches!(
        slip.update(FillingMessage::Save, ()),
        Filled::Save(_)
    ));
}

#[test]
fn what_a_record_lacks_is_told_in_its_field() {
    let mut slip = Filling::new("A new crate", Crate::default(), ());
    slip.go(Movement::Down, 24, ());
    write(&mut slip, "4");
    assert_eq!(slip.update(FillingMessage::Save, ()), Filled::Open);
    assert!(shown(&slip, 80, 24).contains("found no name, expected one"));
    give(&mut slip, "late");
    assert!(matches!(
        slip.update(FillingMessage::Save, ()),
        Filled::Save(_)
    ));
}

#[test]
fn nothing_typed_is_dropped_unasked() {
    let mut slip = Filling::new("A crate", Crate::default(), ());
    assert_eq!(
        slip.clone().update(FillingMessage::Close, ()),
        Filled::Closed
    );
    write(&mut slip, "e");
    assert_eq!(slip.update(FillingMessage::Close, ()), Filled::Open);
    assert!(shown(&slip, 80, 24).contains("Esc again"));
    let mut typed_on = slip.clone();
    write(&mut typed_on, "arly");
    assert_eq!(typed_on.update(FillingMessage::Close, ()), Filled::Open);
    assert_eq!(slip.update(FillingMessage::Close, ()), Filled::Closed);
}

proptest! {
    /// Any keys at any size: the slip is drawn, and what every field shows is read as it was.
    #[test]
    fn any_keys_at_any_size(keys in prop::collection::vec((0_u8..12, "[a-z0-9 ]{0,3}"), 0..40), width in 1_u16..160, height in 1_u16..50) {
        let mut slip = Filling::new("A crate", Crate::default(), ());
        for (key, text) in keys {
            match key {
                0..4 => slip.edit(&Edit::Write(text), ()),
                4 => slip.edit(&Edit::Erase, ()),
                5 => slip.go(Movement::Up, 24, ()),
                6 => slip.go(Movement::Down, 24, ()),
                7 => drop(slip.update(FillingMessage::Offered, ())),
                8 => drop(slip.update(FillingMessage::Save, ())),
                _ => drop(slip.update(FillingMessage::Give, ())),
            }
        }
        shown(&slip, width, height);
        for field in slip.draft.fields(()) {
            let mut again = slip.draft.clone();
            prop_assert_eq!(again.set(field.key, &field.text, ()), Ok(()));
            prop_assert_eq!(&again, &slip.draft);
        }
    }
}
