//! What a grower wrote in the files of a folder, through saves of the screen and back.

use std::path::Path;

use super::{Session, lane, list_in};

#[test]
fn a_comment_stays_through_every_save_of_the_screen_and_what_is_undone_is_the_start() {
    let home = tempfile::tempdir().expect("a folder");
    let dir = lane(home.path());
    let path = |name: &str| Path::new(&dir).join(name);
    let text = |name: &str| std::fs::read_to_string(path(name)).expect("a file");
    // Comments about every record, lengths in inches, and an end of lines of another system's.
    let records = list_in(&dir).replace("\n  (", "\n  // Mine.\n  (");
    let list = records
        .replace("\"183mm\"", "\"7 1/5in\"")
        .replace('\n', "\r\n");
    std::fs::write(path("varieties.ron"), &list).expect("writes");
    let order = text("order.ron").replace("length: \"24m\"", "length: \"80 ft\" /* paced */");
    std::fs::write(path("order.ron"), &order).expect("writes");

    let mut session = Session::start(&["--at", &dir], false);
    session.wait_for_text("> centre ?");
    session.press("\tm");
    session.wait_for_text("(saved)");
    let marked = text("varieties.ron");
    assert_eq!(marked.replacen(", shortlist: ()", "", 1), list);
    assert_ne!(marked, list);
    session.press("u");
    session.wait_for_text("took back");
    session.wait_for_text("(saved)");
    assert_eq!(text("varieties.ron"), list);

    session.press("\t\t");
    session.wait_for_text("(Esc stops)");
    session.press("61\r");
    session.wait_for("61 stems", |screen| {
        let shown = screen.contents();
        shown.contains("61 a week") && shown.contains("(saved)")
    });
    let changed = order.replacen("stems: 80", "stems: 61", 1);
    assert_eq!(text("order.ron"), changed);
    session.press("u");
    session.wait_for("took back", |screen| {
        let shown = screen.contents();
        shown.contains("took back") && shown.contains("(saved)")
    });
    assert_eq!(text("order.ron"), order);
    session.quit("q");
}
