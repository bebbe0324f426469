use super::*;
use crate::colour::Srgb;
use proptest::prelude::*;

fn error(text: &str) -> crate::problem::Problem {
    Vocabulary::from_ron(text).expect_err(text)
}

fn lab(hex: &str) -> Lab {
    Lab::from(hex.parse::<Srgb>().expect(hex))
}

#[test]
fn every_shipped_word_names_itself_and_lies_in_what_a_screen_shows() {
    let vocabulary = Vocabulary::embedded();
    assert!(vocabulary.words().len() >= 45);
    for word in vocabulary.words() {
        assert_eq!(vocabulary.word_for(word.centre).word, word.word);
        assert!(word.centre.in_gamut(), "{}", word.word);
        assert!(word.radius >= 3.0, "{}", word.word);
        for spelling in word.spellings() {
            let target = vocabulary.target(spelling).expect(spelling);
            assert_eq!(target.name.as_ref(), Some(&word.word));
        }
    }
}

/// What anyone in the trade would say of the words, in CIELAB. Common practice, no source.
#[test]
fn the_words_hang_together() {
    let vocabulary = Vocabulary::embedded();
    let word = |text: &str| vocabulary.find(text).expect(text);
    let hue = |text: &str| {
        let Lab { a, b, .. } = word(text).centre;
        b.atan2(a).to_degrees()
    };
    assert!(word("plum").centre.l < 30.0 && (-60.0..0.0).contains(&hue("plum")));
    assert!(hue("lemon") > hue("orange") && hue("orange") > hue("scarlet"));
    assert!(
        hue("scarlet") > hue("pink") && hue("pink") > hue("lilac") && hue("lilac") > hue("violet")
    );
    for (lighter, darker) in [
        ("white", "cream"),
        ("blush", "pink"),
        ("pink", "cerise"),
        ("red", "dark red"),
        ("dark red", "burgundy"),
        ("burgundy", "near-black"),
        ("lilac", "purple"),
        ("peach", "rust"),
    ] {
        assert!(
            word(lighter).centre.l > word(darker).centre.l,
            "{lighter} {darker}"
        );
    }
    for word in vocabulary.words() {
        let (l, says) = (word.centre.l, |group| word.groups.contains(&group));
        assert!(!says(Group::Dark) || l < 40.0, "{}", word.word);
        assert!(!says(Group::Pale) || l >= 70.0, "{}", word.word);
        assert!(!(says(Group::Warm) && says(Group::Cool)), "{}", word.word);
        assert!(word.family != Family::Darks || l < 30.0, "{}", word.word);
    }
    for family in Family::ALL {
        assert!(
            vocabulary.words().iter().any(|w| w.family == family),
            "{}",
            family.word()
        );
    }
}

/// Names of the ISCC-NBS system for the same words: an outside look at our centres.
#[test]
fn the_centres_have_the_names_one_would_expect() {
    let vocabulary = Vocabulary::embedded();
    for (word, hue) in [
        ("white", "white"),
        ("yellow", "yellow"),
        ("orange", "orange"),
        ("salmon", "pink"),
        ("pink", "pink"),
        ("scarlet", "red"),
        ("red", "red"),
        ("dark red", "red"),
        ("purple", "purple"),
        ("plum", "purple"),
        ("lavender", "purple"),
        ("violet", "violet"),
        ("near-black", "black"),
        ("brown", "brown"),
        ("cream", "yellow"),
        ("burgundy", "red"),
    ] {
        let centre = vocabulary.find(word).expect(word).centre;
        let name = crate::colour::name_of(centre);
        assert!(name.contains(hue), "{word} is {name}");
    }
}

#[test]
fn a_word_is_found_however_it_is_written() {
    let vocabulary = Vocabulary::embedded();
    for text in ["dark red", "Dark-Red", "DARKRED", "dark_red", "maroon"] {
        assert_eq!(
            vocabulary.target(text).expect(text).name.as_deref(),
            Some("dark red")
        );
    }
}

#[test]
fn css_names_stand_in_only_where_the_trade_has_no_word() {
    let vocabulary = Vocabulary::embedded();
    let tomato = vocabulary.target("Tomato").expect("a CSS name");
    assert_eq!((tomato.centre, tomato.radius), (lab("#ff6347"), 0.0));
    // CSS has a blue-tinted lavender, #e6e6fa; the trade's is a flower's.
    let lavender = vocabulary.target("lavender").expect("a word");
    assert!(lavender.radius > 0.0 && lavender.centre != lab("#e6e6fa"));
}

#[test]
fn lab_in_is_lab_out() {
    let target = Vocabulary::embedded()
        .target("lab(50 10 10)")
        .expect("CIELAB");
    assert_eq!(target, Target::point(Lab::new(50.0, 10.0, 10.0)));
}

#[test]
fn an_unknown_word_brings_the_nearest_spellings() {
    let vocabulary = Vocabulary::embedded();
    let says = |text: &str| vocabulary.target(text).expect_err(text).to_string();
    assert!(says("peech").starts_with("found \"peech\", expected a colour word such as peach"));
    assert!(says("brozne").contains("such as bronze"));
    assert!(says("qqqqqqqq").contains("such as white, "));
    assert!(says("#12").contains("a hex colour"));
}

#[test]
fn a_family_or_a_group_is_all_its_words() {
    let vocabulary = Vocabulary::embedded();
    let names = |text: &str| -> Vec<String> {
        let members = vocabulary.members(text).expect(text);
        members.into_iter().filter_map(|t| t.name).collect()
    };
    assert!(names("warm").contains(&"bronze".to_string()));
    assert!(!names("Warm").contains(&"lilac".to_string()));
    assert!(names("darks").contains(&"near-black".to_string()));
    assert_eq!(vocabulary.members("pink"), None);
    assert_eq!(vocabulary.family_of(lab("#f0a0b0")), Family::Pinks);
}

#[test]
fn a_faulty_file_says_where_and_what() {
    let word = |more: &str| {
        format!(
            "(words: [\n  (word: \"red\", centre: (40, 60, 40), radius: 5, family: reds),\n  ({more}),\n])"
        )
    };
    for (more, says) in [
        (
            "word: \"Red\", centre: (40, 60, 40), radius: 5, family: reds",
            "\"Red\"",
        ),
        (
            "word: \"a\", also: [\"A\"], centre: (40, 60, 40), radius: 5, family: reds",
            "once",
        ),
        (
            "word: \"a\", centre: (140, 60, 40), radius: 5, family: reds",
            "0 to 100",
        ),
        (
            "word: \"a\", centre: (NaN, 60, 40), radius: 5, family: reds",
            "0 to 100",
        ),
        (
            "word: \"a\", centre: (40, inf, 40), radius: 5, family: reds",
            "-200 to 200",
        ),
        (
            "word: \"a\", centre: (40, 60, 40), radius: -1, family: reds",
            "radius -1",
        ),
        (
            "word: \"warm\", centre: (40, 60, 40), radius: 1, family: reds",
            "no family",
        ),
        (
            "word: \"#123\", centre: (40, 60, 40), radius: 1, family: reds",
            "letters",
        ),
        (
            "word: \"a\", centre: (40, 60, 40), radius: 1, family: blues",
            "whites",
        ),
        (
            "word: \"a\", centre: (40, 60, 40), radius: 1, family: reds, size: 1",
            "groups",
        ),
    ] {
        let error = error(&word(more));
        assert_eq!(error.line, 3, "{more}: {error}");
        assert!(error.to_string().contains(says), "{more}: {error}");
    }
    assert!(error("(words: [])").to_string().contains("at least one"));
    assert_eq!(error("(words: [\n  (word: \"a\"\n").line, 3);
    // A word of any length where the record should begin is told in short.
    let long = error(&format!("{}(words: [])", "nonsy".repeat(400))).to_string();
    assert!(long.len() < 200, "{long}");
}

proptest! {
    #[test]
    fn any_text_is_a_colour_or_an_error(text in ".{0,24}") {
        let vocabulary = Vocabulary::embedded();
        let _ = vocabulary.target(&text);
        let _ = vocabulary.members(&text);
    }

    #[test]
    fn the_word_for_a_colour_is_the_nearest(l in 0.0..100.0, a in -90.0..90.0, b in -90.0..90.0) {
        let (vocabulary, colour) = (Vocabulary::embedded(), Lab { l, a, b });
        let found = ciede2000(vocabulary.word_for(colour).centre, colour);
        for word in vocabulary.words() {
            prop_assert!(found <= ciede2000(word.centre, colour) + 1e-9, "{}", word.word);
        }
    }
}
