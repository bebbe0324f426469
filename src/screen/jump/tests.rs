//! The jump line: keys in, screen out.

use jiff::civil::Date;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::style::Modifier;

use crate::measure::SizeUnits;
use crate::order::Plan;
use crate::problem::read_ron;
use crate::screen::choose_page::Stock;
use crate::screen::easel::Easel;
use crate::screen::row_page::Plot;
use crate::screen::tests::{KEYERS, USUAL, must_show, play, screen};
use crate::screen::theme::Theme;
use crate::screen::{App, Effect, Keeping, Message, Page};
use crate::trial::Trial;
use crate::variety::Varieties;

const LIST: &str = r#"[
  (name: "Haaf Bell", form: (id: "ball", known: keyed)),
  (name: "Noust Lochan", form: (id: "stellar", known: keyed)),
  (name: "Wrack Kist"),
]"#;
const SEEDLINGS: &str = r#"[
  (number: "26-001", seed_parent: "Haaf Bell", row: "sea wall", place: 2),
  (number: "26-014", seed_parent: "Wrack Kist", row: "byre", place: 1),
]"#;
const PLAN: &str = r#"(
  ordered: "2027-01-15",
  season: (last_frost: (date: "2027-05-01"), first_frost: (date: "2027-10-10"), planted: "2027-05-01"),
  beds: [(name: "sea wall", length: "20m", width: "1.2m", spacing: "400mm")],
  suppliers: [(name: "Oar Bulbs", postage: "5")],
  needs: [(name: "quay stall", stems: 12, weeks: (33, 38))],
)"#;

fn app() -> App {
    let keyer = KEYERS[0].clone();
    let stock = Stock {
        list: Varieties::read("varieties.ron", LIST).expect("a list"),
        ..Stock::empty(keyer.set.clone(), SizeUnits::Mm)
    };
    let seedlings = read_ron("trial.ron", SEEDLINGS).expect("seedlings");
    let plot = Plot {
        trial: Trial::of(seedlings, Vec::new()).0,
        today: Date::constant(2026, 9, 1),
        ..Plot::empty(keyer.clone(), SizeUnits::Mm)
    };
    let plan = Plan::read("order.ron", PLAN).expect("a plan");
    let mut app = App::new(keyer, KEYERS[1..].to_vec(), SizeUnits::Mm, Theme::Plain)
        .with_list(stock, Keeping::Session)
        .with_row(plot, Keeping::Session, Vec::new())
        .with_order(
            Ok(plan),
            Keeping::Session,
            crate::measure::day::Calendar::FILES,
        );
    app.update(Message::Resize(USUAL.0, USUAL.1));
    app
}

#[track_caller]
fn check(keys: &str, page: Page, seen: &[&str]) {
    let mut app = app();
    play(&mut app, keys);
    let shown = screen(&app, USUAL);
    must_show(&shown, keys, seen);
    assert_eq!(app.page, page, "{keys}\n{shown}");
}

#[test]
fn whatever_has_a_name_is_gone_to_from_any_page() {
    for from in ["", "<tab>", "<tab><tab>", "<tab><tab><tab>", "o", "<tab>f"] {
        let go = |words: &str| format!("{from}:{words}<enter>");
        check(&go("lchn"), Page::Choose, &[">   Noust Lochan"]);
        check(&go("nl"), Page::Choose, &[">   Noust Lochan"]);
        check(&go("nuost loch"), Page::Choose, &[">   Noust Lochan"]);
        check(&go("26-014"), Page::Row, &[">   26-014"]);
        check(&go("pompon"), Page::Key, &["> ", "pompon", "Forms: + fits"]);
        check(&go("diam"), Page::Key, &["Question: diameter"]);
        check(&go("quay"), Page::Order, &["> quay stall"]);
        check(&go("sea wall"), Page::Order, &["> bed, sea wall"]);
        check(&go("oar"), Page::Order, &["> Oar Bulbs"]);
        check(&go("tags"), Page::Tags, &["[Tags]"]);
        check(
            &go("shortlist note why"),
            Page::Choose,
            &["Why it is on the shortlist: ["],
        );
    }
}

#[test]
fn the_line_tells_what_each_is_and_which_keys_do_it() {
    let mut app = app();
    play(&mut app, "<tab><c-k>sort");
    let shown = screen(&app, USUAL);
    must_show(
        &shown,
        "sort",
        &[
            "Jump to: [sort_]",
            "> command   Sort by the next order; of those",
            "s on Choose",
            "s on Row",
            "found, the best first",
        ],
    );
    play(&mut app, "<c-u>qqqq");
    must_show(&screen(&app, USUAL), "qqqq", &["Nothing is called so"]);
}

#[test]
fn closing_the_line_changes_nothing() {
    let mut app = app();
    play(&mut app, "<tab><down>");
    let before = screen(&app, USUAL);
    play(&mut app, ":noust<down><up><esc>");
    assert_eq!(screen(&app, USUAL), before);
    play(&mut app, "<c-k>qqqq<enter><esc>");
    assert_eq!(screen(&app, USUAL), before);
}

#[test]
fn a_command_is_done_where_it_holds() {
    assert_eq!(play(&mut app(), ":quit<enter>"), Some(Effect::Quit));
    let mut app = app();
    // Undo of the Choose page, from the Key page.
    play(
        &mut app,
        "<tab>m<c-k>key<enter>:take back last change<enter>",
    );
    assert_eq!(app.page, Page::Choose);
    assert!(
        app.choose
            .list()
            .list()
            .iter()
            .all(|one| one.shortlist.is_none())
    );
}

#[test]
fn narrowings_that_hide_the_variety_are_taken_back_and_that_is_said() {
    let narrowed = "<tab>/kist<enter>";
    check(
        &format!("{narrowed}:lochan<enter>"),
        Page::Choose,
        &[">   Noust Lochan", "the narrowings are taken back"],
    );
    check(
        &format!("{narrowed}:wrack<enter>"),
        Page::Choose,
        &[">   Wrack Kist", "words kist"],
    );
    check(
        "<tab><tab>/byre<enter>:26-001<enter>",
        Page::Row,
        &[">   26-001", "all are shown again"],
    );
}

#[test]
fn what_is_half_typed_elsewhere_stays_for_what_it_was_typed_for() {
    let mut app = app();
    play(&mut app, "<tab>nsweet scent<tab>:lochan<enter>");
    let shown = screen(&app, USUAL);
    must_show(
        &shown,
        "a half typed note",
        &[">   Haaf Bell", "[sweet scent_]"],
    );
    // In a line a colon is a colon, and Control-K erases to its end.
    play(&mut app, "<home><c-k>a:b");
    must_show(&screen(&app, USUAL), "a colon", &["[a:b_]"]);
}

#[test]
fn found_letters_are_underlined_with_and_without_colour() {
    for theme in [Theme::Plain, Theme::Colours(None)] {
        let mut app = app();
        app.easel = Easel::new(theme);
        play(&mut app, ":nst lchn");
        let mut terminal = Terminal::new(TestBackend::new(80, 24)).expect("a test backend");
        terminal
            .draw(|frame| app.view(frame))
            .expect("a test backend");
        let cells = &terminal.backend().buffer().content;
        let marked = cells.iter().filter(|cell| {
            cell.modifier
                .contains(Modifier::UNDERLINED | Modifier::BOLD)
        });
        let marked: String = marked.map(|cell| cell.symbol()).collect();
        assert!(marked.contains("NstLchn"), "{marked}");
    }
}

#[test]
fn the_line_as_it_is_drawn() {
    let mut app = app();
    play(&mut app, "<tab>:ball");
    let shown = screen(&app, USUAL);
    let upper: Vec<&str> = shown.lines().skip(1).take(7).collect();
    let expected = [
        "  Jump to: [ball_]",
        "  A variety, seedling, form, trait, need, bed, supplier or command: a part of",
        "  its name, its first letters, or letters in order.",
        "> form      ball           a globe of blunt ray florets rolled forward over hal…",
        "  form      miniature ball a globe of blunt ray florets rolled forward over hal…",
        "",
        "",
    ];
    assert_eq!(upper, expected, "\n{shown}");
}

#[test]
fn a_small_window_has_the_line_and_some_of_the_found() {
    let mut app = app();
    app.update(Message::Resize(60, 16));
    play(&mut app, ":lchn");
    let shown = screen(&app, (60, 16));
    must_show(
        &shown,
        "60 by 16",
        &["Jump to: [lchn_]", "> variety   Noust Lochan"],
    );
    for width in [44, 60, 80, 140] {
        assert!(
            shown
                .lines()
                .all(|line| line.chars().count() <= width.max(60))
        );
    }
}
