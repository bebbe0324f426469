//! Events and rounds on the Order page: keys in, screen out.

use crate::order::{Item, Plan};
use crate::screen::keeping::Keeping;
use crate::screen::order_page::tests::{PLAN, app_with, work};
use crate::screen::tests::{must_show, play, screen};
use crate::screen::{App, Effect, Message};

const NARROW: (u16, u16) = (80, 24);
const WORK: &str = r#"work: [
    (name: "wedding", on: "2027-09-12", pieces: [(2, "jar"), (3, "buttonhole")], colours: ["plum", "white"], within: 60.0),
    (name: "shop", every: "friday", from: "2027-09-03", to: "2027-09-17", pieces: [(1, "jar")]),
  ],
  needs: ["#;

/// The plan of the page's tests with an event and a round.
fn plan() -> Plan {
    Plan::read("order.ron", &PLAN.replace("needs: [", WORK)).expect("a plan")
}

/// Plays the keys, each save succeeding and each search done.
fn played(keys: &[&str]) -> App {
    let mut app = app_with(Ok(plan()), Keeping::Folder);
    app.update(Message::Resize(NARROW.0, NARROW.1));
    work(&mut app);
    for keys in keys {
        if play(&mut app, keys) == Some(Effect::SaveOrder) {
            app.update(Message::OrderSaved);
        }
        work(&mut app);
    }
    app
}

/// The plan as it would be saved.
fn saved(app: &App) -> &Plan {
    app.order.plan().expect("a plan")
}

#[test]
fn a_wedding_is_one_row_with_its_stems_and_opens_to_its_parts() {
    let folded = screen(&played(&["jj"]), NARROW);
    must_show(
        &folded,
        "",
        &[
            "2 needs, 1 event, 1 round",
            "+ wedding",
            "16",
            "+ shop",
            "35-37",
            "2 jars, 3 buttonholes; plum or white",
        ],
    );
    assert!(!folded.contains("  worn"), "{folded}");
    let open = screen(&played(&["jj", "o"]), NARROW);
    must_show(
        &open,
        "o",
        &["- wedding", "  secondary", "  small", "  worn"],
    );
    let again = screen(&played(&["jj", "o", "jjj", "o"]), NARROW);
    assert!(
        again.contains("+ wedding") && !again.contains("  worn"),
        "{again}"
    );
    let other = screen(&played(&["o"]), NARROW);
    must_show(
        &other,
        "o",
        &["Only an event or a round is opened and folded."],
    );
}

#[test]
fn what_is_changed_on_a_part_is_changed_on_the_wedding() {
    // On the row of its worn stems.
    let part = ["jj", "o", "jjj"];
    let app = played(&[&part[..], &["e", "19 Sep 4 jar", "<enter>"]].concat());
    let wedding = &saved(&app).work[0];
    assert_eq!(
        wedding.words(),
        "2027-09-19 4 jar, 3 buttonhole colours=plum,white within=60"
    );
    assert_eq!(saved(&app).needs.len(), 2);
    let undone = played(&[&part[..], &["e", "19 Sep 4 jar", "<enter>", "u"]].concat());
    assert_eq!(saved(&undone), &plan());
    let more = played(&[&part[..], &["+"]].concat());
    assert_eq!(saved(&more).work[0].pieces[0].0.get(), 3);
}

#[test]
fn a_wedding_is_added_copied_and_dropped_by_the_keys_of_needs() {
    let added = played(&[
        "V",
        "fete: 2027-09-05 6 jar colours=white",
        "<enter>",
        "<c-s>",
    ]);
    let work = &saved(&added).work;
    assert_eq!(
        (work.len(), work[2].words().as_str()),
        (3, "2027-09-05 6 jar colours=white"),
        "{}",
        screen(&added, NARROW)
    );
    let round = played(&["R", "<c-s>"]);
    assert!(!saved(&round).work[2].is_event());
    let like = played(&["jj", "a", "<c-s>"]);
    assert!(saved(&like).work[2].is_event());
    let copied = played(&["jj", "y", "<c-s>"]);
    assert_eq!(saved(&copied).work[2].name.as_str(), "wedding 2");
    let dropped = played(&["jj", "x", "x"]);
    assert_eq!(saved(&dropped).work.len(), 1);
    must_show(&screen(&dropped, NARROW), "x x", &["event wedding dropped"]);
}

#[test]
fn a_part_is_found_from_the_jump_line_though_it_is_folded() {
    let mut app = played(&[]);
    let parts = Item::all(app.order.in_view().expect("a plan"));
    let at = parts
        .iter()
        .position(|item| *item == Item::Work(0))
        .expect("the event");
    app.order.point_at(parts[at + 3]);
    must_show(&screen(&app, NARROW), "", &["- wedding", "wedding: worn"]);
}

#[test]
fn colours_last_looked_for_are_offered_for_an_event() {
    let mut app = played(&[]);
    let palette = ["plum", "blush"].map(|word| crate::variety::Text::new(word).expect("a word"));
    app.order.set_palette(palette.to_vec());
    play(&mut app, "V");
    play(&mut app, "<down><down><down>");
    must_show(&screen(&app, NARROW), "", &["plum, blush"]);
}
