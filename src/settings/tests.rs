//! Settings and a new folder filled in: what is shown is read back as the same.

use super::*;
use crate::record::{Fields, Key};

fn rules() -> Vec<String> {
    vec!["trade-inch".to_string(), "register-mm".to_string()]
}

fn set(settings: &mut Settings, word: &'static str, text: &str) -> Result<(), String> {
    let rules = rules();
    let (rules, year) = (&rules[..], 2027);
    settings.set(Key::of(word), text, SettingsGround { rules, year })
}

#[test]
fn every_field_is_read_back_as_it_is_shown_and_written_and_read_as_a_file() {
    let rules = rules();
    let ground = SettingsGround {
        rules: &rules,
        year: 2027,
    };
    let mut settings = Settings::default();
    for (word, text) in [
        ("units", "in"),
        ("last-frost", "14 May"),
        ("first-frost", "10-05"),
        ("currency", "kroner"),
        ("grower", "Skerry Lane"),
        ("place", "Sea Wall Road 3"),
        ("price", "4.50"),
        ("line", "Registration 17-204"),
        ("rules", "register-mm"),
        ("stems", "6.5"),
        ("days", "day-first"),
        ("ground", "light"),
        ("pictures", "cells"),
        ("pictures", "halves"),
    ] {
        assert_eq!(set(&mut settings, word, text), Ok(()), "{word}");
        for field in settings.fields(ground) {
            let mut again = settings.clone();
            assert_eq!(again.set(field.key, &field.text, ground), Ok(()));
            assert_eq!(again, settings, "{}", field.key);
        }
        let options = ron::Options::default()
            .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
        let text = options.to_string(&settings).expect("writes");
        let read = crate::problem::read_ron::<Settings>("settings.ron", &text);
        assert_eq!(read, Ok(settings.clone()), "{text}");
    }
    assert_eq!(settings.fields(ground)[3].text, "5 October");
    for field in settings.fields(ground) {
        assert_eq!(settings.set(field.key, "", ground), Ok(()));
    }
    assert_eq!(settings, Settings::default());
}

#[test]
fn what_is_wrong_is_told_in_its_field() {
    let mut settings = Settings::default();
    for (word, text, told) in [
        ("units", "ells", "expected in or mm"),
        ("ground", "grey", "expected light, dark, or ask"),
        ("rules", "trade", "expected one of trade-inch, register-mm"),
        ("first-frost", "autumn", "such as 14 May"),
        ("stems", "0", "stems a plant"),
        ("stems", "some", "a number over 0"),
        ("price", "dear", "expected an amount such as 4 or 4.50"),
        ("price", "2000000", "expected a price of at most"),
        ("pictures", "oil", "expected one of pixels, cells, halves"),
    ] {
        let error = set(&mut settings, word, text).expect_err(word);
        assert!(error.contains(told), "{word}: {error}");
    }
    assert_eq!(set(&mut settings, "last-frost", "1 Oct"), Ok(()));
    assert_eq!(set(&mut settings, "first-frost", "1 May"), Ok(()));
    let rules = rules();
    let (rules, year) = (&rules[..], 2027);
    let (key, why) = settings
        .wrong(SettingsGround { rules, year })
        .expect("no season lies between these");
    assert_eq!(key, Key::of("first-frost"));
    assert!(why.contains("first frost"), "{why}");
}

#[test]
fn a_new_folder_is_filled_in_with_the_settings_that_are_asked_at_once() {
    let rules = rules();
    let ground = StartGround {
        usual: "/home/ann/.local/share/trug",
        settings: SettingsGround {
            rules: &rules,
            year: 2027,
        },
    };
    let mut start = Start::new(ground.usual);
    assert_eq!(start.wrong(ground), None);
    assert_eq!(start.set(Key::of("with"), "demo", ground), Ok(()));
    assert_eq!(start.set(Start::PLACE, "garden", ground), Ok(()));
    assert_eq!(start.set(Key::of("grower"), "Ann", ground), Ok(()));
    for field in start.fields(ground) {
        let mut again = start.clone();
        assert_eq!(again.set(field.key, &field.text, ground), Ok(()));
        assert_eq!(again, start, "{}", field.key);
    }
    assert!(start.set(Start::PLACE, "  ", ground).is_err());
    assert!(start.set(Key::of("with"), "half", ground).is_err());
    assert_eq!((start.place.as_str(), start.demo), ("garden", true));
}
