//! The Choose page: keys in, screen out.

use std::sync::LazyLock;

use proptest::prelude::*;

use super::*;
use crate::form::{Keyer, RuleSet};
use crate::screen::tests::{USUAL, any_key, must_show, play, screen};
use crate::screen::theme::Theme;
use crate::screen::{App, Message};

const LIST: &str = include_str!("../../../catalogue/varieties.ron");
const WIDE: (u16, u16) = (140, 45);

static STOCK: LazyLock<Stock> = LazyLock::new(|| Stock {
    list: Varieties::read("varieties.ron", LIST).expect("the demo's list"),
    stems_a_plant: 8.0,
    sure: crate::order::USUALLY_SURE,
    ..Stock::empty(RuleSet::embedded().remove(0), SizeUnits::Mm)
});

/// Open on the Choose page over the demo's list.
fn app(keeping: Keeping, theme: Theme) -> App {
    let keyer = Keyer::even(STOCK.rules.clone());
    let mut app =
        App::new(keyer, Vec::new(), SizeUnits::Mm, theme).with_list(STOCK.clone(), keeping);
    app.update(Message::NextPage);
    app
}

/// Plays the keys on a new screen of this size; every text must then be seen.
fn check(keys: &str, size: (u16, u16), seen: &[&str]) {
    let mut app = app(Keeping::Folder, Theme::Plain);
    app.update(Message::Resize(size.0, size.1));
    play(&mut app, keys);
    let shown = screen(&app, size);
    must_show(&shown, keys, seen);
}

#[test]
fn the_list_is_narrowed_ranked_and_taken_back() {
    for (keys, seen) in [
        ("", &["All 240 varieties, by name.", "Ebb Buttermilk"][..]),
        (
            "/skery",
            &["Words: [skery_]", "with the words skery", "Skerry"],
        ),
        ("/skery<esc>", &["All 240 varieties"]),
        (
            "cpeach<enter>",
            &["within 10 of peach; nearest colour first", "away"],
        ),
        ("cpeach<enter>++-", &["within 11 of peach"]),
        ("cpeech<enter>", &["Colour: [peech_]", "expected"]),
        ("c#12<enter>", &["expected a hex colour such as"]),
        ("+", &["press c and type one"]),
        ("p<down><down><enter>", &["best for", "fit", "For "]),
        ("cpeach<enter>p<down><enter>", &["and nearest colour first"]),
        ("s", &["cheapest a stem first", "a stem"]),
        ("f<home><enter><back>", &["All 240 varieties"]),
        ("<back>", &["this is the whole list"]),
        (
            "cpeach<enter>/zzzz<enter>",
            &[
                "Nothing is left. Without \"with the words zzzz\" there are",
                "press d",
            ],
        ),
        ("cpeach<enter>/zzzz<enter>d", &["within 10 of peach"]),
        ("<end>", &["> ", "Wrack Trowel"]),
    ] {
        check(keys, USUAL, seen);
    }
}

#[test]
fn a_picked_value_leaves_what_was_told() {
    let mut app = app(Keeping::Folder, Theme::Plain);
    let page = |app: &App| app.choose.clone();
    for facet in 0..Facet::ALL.len() {
        play(&mut app, "f");
        for _ in 0..facet {
            play(&mut app, "<right>");
        }
        let Entry::Values { facet, at } = page(&app).entry else {
            panic!("nothing is picked from");
        };
        let counts = page(&app).counts(facet).to_vec();
        let told = counts[at.row(counts.len())];
        play(&mut app, "<enter>");
        assert_eq!(page(&app).shown.found, told, "{facet:?}");
        // The same facet again: what another value would leave in place of this one.
        app.choose.begin_values(facet);
        play(&mut app, "<home>");
        let told = page(&app).counts(facet)[0];
        let again = *page(&app).picked(facet) == page(&app).values(facet)[..1];
        play(&mut app, "<enter>");
        if !again {
            assert_eq!(page(&app).shown.found, told, "{facet:?}");
        }
        play(&mut app, "<back><back>");
    }
}

#[test]
fn either_of_two_values_will_do() {
    let mut app = app(Keeping::Folder, Theme::Plain);
    play(&mut app, "f<home> <down> <esc>");
    let values = app.choose.picked(Facet::Form).to_vec();
    assert_eq!(values, app.choose.values(Facet::Form)[..2]);
    assert!(screen(&app, USUAL).contains(" or "));
}

#[test]
fn a_change_asks_for_one_save_and_is_called_saved_only_then() {
    let mut app = app(Keeping::Folder, Theme::Plain);
    for keys in [
        "m",
        "rsheltered bed<enter>",
        "ncheck the necks<enter>",
        "h12<enter>",
        "u",
        "u",
        "<c-r>",
    ] {
        let before = app.choose.list().clone();
        let mut effects = Vec::new();
        play_all(&mut app, keys, &mut effects);
        assert_eq!(effects, [Effect::SaveVarieties], "{keys}");
        assert!(app.choose.list() != &before, "{keys}");
        assert!(screen(&app, USUAL).contains("your list, saving"), "{keys}");
        assert!(!screen(&app, USUAL).contains("saved"), "{keys}");
        app.update(Message::Saved);
        let shown = screen(&app, USUAL);
        assert!(
            shown.contains("all saved") && shown.contains("(saved)"),
            "{keys}\n{shown}"
        );
    }
    for keys in [
        "jk",
        "h12x<enter>",
        "<esc>r<esc>",
        "<esc>e<down>x<esc><esc>",
        "aKist Lum<enter><esc><esc>",
        "X<down>",
        "yx<esc><esc>",
        "<esc>s",
        "vxg<esc>",
    ] {
        let before = app.choose.list().clone();
        let mut effects = Vec::new();
        play_all(&mut app, keys, &mut effects);
        assert_eq!(effects, [], "{keys}");
        assert!(app.choose.list() == &before, "{keys}");
    }
}

fn play_all(app: &mut App, keys: &str, effects: &mut Vec<Effect>) {
    for event in crate::screen::tests::presses(keys) {
        effects.extend(app.message(event).and_then(|message| app.update(message)));
    }
}

#[test]
fn a_save_that_failed_is_told_and_leaving_is_asked_twice() {
    let mut app = app(Keeping::Folder, Theme::Plain);
    play(&mut app, "m");
    app.update(Message::NotSaved(
        "could not save varieties.ron: the disk is full".to_string(),
    ));
    let shown = screen(&app, USUAL);
    assert!(
        shown.contains("NOT SAVED") && shown.contains("the disk is full"),
        "{shown}"
    );
    assert_eq!(play(&mut app, "q"), None);
    assert!(
        screen(&app, USUAL).contains("Quit again to leave"),
        "{}",
        screen(&app, USUAL)
    );
    assert_eq!(play(&mut app, "q"), Some(Effect::Quit));
}

#[test]
fn without_a_folder_and_read_only_nothing_is_saved() {
    let mut demo = app(Keeping::Session, Theme::Plain);
    assert_eq!(play(&mut demo, "m"), None);
    assert!(demo.choose.list() != &STOCK.list);
    assert!(screen(&demo, USUAL).contains("demo (F makes yours)"));
    let held = "process 4711 on skerry, since 14:05, has the folder open";
    let mut reader = app(Keeping::ReadOnly(held.to_string()), Theme::Plain);
    for keys in ["m", "r", "n", "h", "a", "e", "y", "X"] {
        assert_eq!(play(&mut reader, keys), None);
        assert!(
            screen(&reader, USUAL).contains("process 4711 on skerry"),
            "{keys}"
        );
    }
    assert!(reader.choose.list() == &STOCK.list);
}

#[test]
fn undo_of_everything_is_the_start() {
    let mut app = app(Keeping::Folder, Theme::Plain);
    play(
        &mut app,
        "m<down>ra<enter>/ebb<enter>mh3<enter>nold<enter><down>m",
    );
    let changed = app.choose.list().clone();
    play_all(&mut app, "uuuuuuuuu", &mut Vec::new());
    assert!(app.choose.list() == &STOCK.list);
    play_all(
        &mut app,
        "<c-r><c-r><c-r><c-r><c-r><c-r><c-r>",
        &mut Vec::new(),
    );
    assert!(app.choose.list() == &changed);
}

#[test]
fn a_revised_index_counts_as_a_new_one() {
    let mut app = app(Keeping::Folder, Theme::Plain);
    play_all(
        &mut app,
        "mjmh0<enter>jh4<enter>jh<back><back><enter>jra<enter>",
        &mut Vec::new(),
    );
    let page = &app.choose;
    let new = Index::new(&page.stock.list, page.stock.grounds());
    let counts = |index: &Index| -> Vec<Vec<usize>> {
        let left = index.left(&index.narrowed(&[]));
        left.iter()
            .map(|one| one.values.iter().map(|value| value.1).collect())
            .collect()
    };
    assert_eq!(page.index.as_ref().map(counts), Some(counts(&new)));
}

#[test]
fn a_few_are_compared_and_what_differs_is_marked() {
    check(
        "x<down>x<down>xv",
        USUAL,
        &["* differs", "* form", "* colours", "Ebb Buttermilk"],
    );
    check("v", USUAL, &["Pick two to four with x"]);
    check("xjxjxjxjx", USUAL, &["Four are picked already"]);
}

#[test]
fn a_wide_window_shows_counts_reasons_and_colours_at_once() {
    check(
        "p<down><enter>",
        WIDE,
        &[
            "What each would leave",
            "form ",
            "For ",
            "+ for: ",
            "The whole list by colour",
            "gaps - ",
            "offer ",
        ],
    );
    check("w", USUAL, &["raiser", "For "]);
    check(
        "g",
        USUAL,
        &[
            "ach by its main colour",
            "whites",
            "Word by word; - is a gap.",
        ],
    );
}

#[test]
fn colour_adds_nothing_that_words_do_not_say() {
    for size in [USUAL, WIDE] {
        let mut plain = app(Keeping::Folder, Theme::Plain);
        let mut colours = app(Keeping::Folder, Theme::AllColours(None));
        for keys in ["", "cpeach<enter>", "p<down><enter>", "f", "<esc>g"] {
            play(&mut plain, keys);
            play(&mut colours, keys);
            let words = |app: &App| -> Vec<String> {
                let shown = screen(app, size);
                let cut = |word: &str| {
                    let letters = word.chars().take(4);
                    letters.filter(|c| !"…\u{2584}".contains(*c)).collect()
                };
                shown.split_whitespace().map(cut).collect()
            };
            // Swatches take room from long words and add none.
            let plain = words(&plain);
            let missing: Vec<_> = words(&colours)
                .into_iter()
                .filter(|word| !plain.iter().any(|one| one.starts_with(word.as_str())))
                .collect();
            assert!(missing.is_empty(), "{keys} at {size:?}: {missing:?}");
        }
    }
}

#[test]
fn an_empty_list_can_be_looked_at() {
    let keyer = Keyer::even(STOCK.rules.clone());
    let mut app = App::new(keyer, Vec::new(), SizeUnits::Mm, Theme::Plain);
    play(&mut app, "<tab>mrmhxvpfgw<esc>eyX");
    play(&mut app, "<down><end>fpsu");
    assert!(
        screen(&app, USUAL).contains("No varieties yet: i reads a spreadsheet in, a adds one.")
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn any_keys_at_any_size_never_panic(
        steps in prop::collection::vec((any_key(), 1_u16..200, 1_u16..60), 1..40),
    ) {
        let mut app = app(Keeping::Folder, Theme::AllColours(None));
        for (key, width, height) in steps {
            app.update(Message::Resize(width, height));
            if let Some(message) = app.message(key) {
                app.update(message);
            }
            let shown = screen(&app, (width, height));
            prop_assert!(!shown.chars().any(|c| c.is_control() && c != '\n'));
        }
    }
}

#[test]
fn the_list_by_colour_is_of_what_is_narrowed_and_says_how_many_there_are() {
    let mut app = app(Keeping::Folder, Theme::Plain);
    let count = |app: &App| -> (usize, String) {
        let rows = app.choose.by_colour(78, Theme::Ascii);
        let rows: Vec<String> = rows.iter().map(ToString::to_string).collect();
        assert!(rows.iter().all(|row| row.is_ascii()), "{rows:#?}");
        let bars = rows.iter().filter_map(|row| row.split_once('|'));
        let told = bars.map(|(_, told)| told.trim_start_matches('#').trim().to_string());
        let counts = told.map(|told| told.split(' ').next().map(str::parse));
        let counts = counts
            .map(|count: Option<Result<usize, _>>| count.expect("a count").expect("a number"));
        (counts.sum(), rows[0].clone())
    };
    play(&mut app, "");
    let (all, told) = count(&app);
    assert!(told.starts_with(&format!("All {all} varieties")), "{told}");
    play(&mut app, "cpeach<enter>");
    let (some, told) = count(&app);
    assert!(
        some < all && told.starts_with(&format!("{some} of {all} varieties")),
        "{told}"
    );
}
