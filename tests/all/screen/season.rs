//! A whole season at a real screen, from an empty home to printed tags, by keys alone: no file is
//! edited by hand, and what is then in the folder is read back by the commands.

use std::fs;

use super::Session;
use super::import::{MAPS, answer, messy};
use crate::common::shell::trug;

/// Control and S saves a slip.
const SAVE: &str = "\x13";

/// Presses keys, then waits until each of the texts is on the screen.
fn press(session: &mut Session, keys: &str, texts: &[&str]) {
    session.press(keys);
    for text in texts {
        session.wait_for_text(text);
    }
}

/// The text with the numbers of seedlings of the year that the screen offers in place of 2026.
fn of_year(year: &str, text: &str) -> String {
    text.replace("26-0", &format!("{year}-0"))
}

#[test]
fn a_season_from_an_empty_home_to_printed_tags_by_keys_alone() {
    let mut session = Session::start(&[], true);
    let home = session.home.path().to_path_buf();
    let folder = home.join(".local/share/trug");
    session.wait_for_text("> centre ?");

    // A folder of one's own.
    press(&mut session, "F", &["A folder of your own"]);
    press(
        &mut session,
        &format!("\r\rmm\r14 May\r1 October\rkroner\rSkerry Lane\r{SAVE}"),
        &["Your folder:"],
    );

    // The list: a messy spreadsheet of forty, each question answered once.
    messy(&home.join("list.xlsx").display().to_string());
    press(
        &mut session,
        "\t",
        &["No varieties yet: i reads a spreadsheet"],
    );
    press(&mut session, "i", &["File: ["]);
    press(&mut session, "list.xlsx\r", &["Kind of bloom"]);
    for _ in MAPS {
        let asked = session.screen.screen().contents();
        session.press(&answer(&asked).to_string());
        session.wait_for("the next question", |screen| screen.contents() != asked);
    }
    session.wait_for_text("list.xlsx: 40 new, 0 changed, 0 the same.");
    press(
        &mut session,
        "\r",
        &["40 varieties read from list.xlsx", "(saved)"],
    );

    // A variety by form, changed, and another dropped.
    press(&mut session, "a", &["A new variety"]);
    press(&mut session, "Kist Ember\rball\r", &["> form known"]);
    press(&mut session, "\r\rred, white\r", &["colour 2"]);
    press(
        &mut session,
        &format!("\x1b[B\x1b[B\x1b[B\x1b[B\x1b[BOar Bulbs\r4.50\r3\r{SAVE}"),
        &["Kist Ember added", ">   Kist Ember", "(saved)"],
    );
    press(&mut session, "e", &["form by"]);
    press(
        &mut session,
        &format!("\x15pompon\r{SAVE}"),
        &["Kist Ember changed", "pompon"],
    );
    press(&mut session, ":wrack bobbin\r", &[]);
    session.wait_for("the variety", |screen| {
        let shown = screen.contents();
        shown.contains(">   Wrack Bobbin") || shown.contains("─ Wrack")
    });
    press(&mut session, "X", &["X again"]);
    press(&mut session, "X", &["dropped"]);

    // Ten seedlings at once, diameters along the row, a bloom keyed, a decision.
    press(&mut session, "\t", &["[Row]", "a adds the first seedling"]);
    press(&mut session, "a", &["-001 "]);
    let offered = session.screen.screen().contents();
    let (before, _) = offered.split_once("-001 ").expect("a number");
    let year = before[before.len() - 2..].to_string();
    let of_year = |text: &str| of_year(&year, text);
    press(
        &mut session,
        &of_year("..26-010 Kist Ember x open-pollinated, byre 1\r"),
        &[&of_year("26-001 to 26-010 added (saved)")],
    );
    press(&mut session, "\x1b[H1", &[&of_year("26-001")]);
    press(&mut session, "98 104\r", &[&of_year("26-002 diameters: [")]);
    press(&mut session, "88 90\r", &[&of_year("26-003 diameters: [")]);
    press(&mut session, "\x1b", &["Enter in full"]);
    press(&mut session, "\x1b[Z\x1b[Z", &["[Key]", "> centre ?"]);
    press(&mut session, "1", &["centre closed"]);
    press(&mut session, "s", &["[Row]"]);
    press(
        &mut session,
        &of_year("26-004\r"),
        &["[Key]", &of_year("26-004")],
    );
    press(&mut session, "\t\t", &["[Row]"]);
    press(
        &mut session,
        &of_year(":26-001\r"),
        &[&of_year(">   26-001")],
    );
    press(&mut session, "d", &["keep, hold or cull"]);
    press(
        &mut session,
        "keep stands well\r",
        &["kept: stands well (saved)"],
    );

    // The order: season, bed, need, a supplier's terms; settled.
    press(&mut session, "\t", &["No order yet: b begins one"]);
    press(&mut session, "b", &["(1 of 3)"]);
    press(&mut session, SAVE, &["(2 of 3)"]);
    press(
        &mut session,
        &format!("sea wall\r24m\r{SAVE}"),
        &["(3 of 3)"],
    );
    press(
        &mut session,
        &format!("bunches\r6\r{SAVE}"),
        &["the order is begun (saved)", "every need as sure as asked"],
    );
    press(&mut session, "T", &["supplier"]);
    press(
        &mut session,
        &format!("Oar Bulbs\r7.50\r{SAVE}"),
        &[
            "terms of Oar Bulbs added (saved)",
            "every need as sure as asked",
        ],
    );

    // The kept seedling's tag.
    press(&mut session, "\t\t", &["The kept seedling: 1 sale tag"]);
    press(&mut session, "p", &["Print to: ["]);
    press(&mut session, "\r", &["Wrote sale-tags.pdf"]);
    session.quit("q");

    // The commands read back what the keys made.
    let at = folder.display().to_string();
    let ask = |words: &[&str]| {
        let words: Vec<&str> = words.iter().copied().chain(["--at", &at]).collect();
        trug(&home, &words).done()
    };
    let ember = ask(&["choose", "kist ember"]);
    assert!(ember.contains("Kist Ember: pompon"), "{ember}");
    let list = ask(&["choose"]);
    assert!(list.starts_with("40 of 40 varieties"), "{list}");
    let kept = ask(&["row", &of_year("26-001")]);
    assert!(
        kept.contains("kept") && kept.contains("stands well"),
        "{kept}"
    );
    let keyed = ask(&["row", &of_year("26-004")]);
    assert!(keyed.contains("Kist Ember x open-pollinated"), "{keyed}");
    let order = ask(&["order"]);
    assert!(
        order.contains("Every need is as sure as was asked"),
        "{order}"
    );
    let tags = fs::read(home.join("sale-tags.pdf")).expect("tags");
    assert!(tags.starts_with(b"%PDF"), "a PDF");
}
