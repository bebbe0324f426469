//! The first minute of somebody who has no folder yet, at a real screen with an empty home.

use std::fs;

use super::Session;

/// Enter gives a field; Control and S save a slip.
const SAVE: &str = "\x13";

#[test]
fn one_key_makes_a_folder_of_my_own_and_goes_on_in_it_with_the_bloom_in_hand() {
    let mut session = Session::start(&["--units", "mm"], false);
    session.wait_for_text("> centre ?");
    session.wait_for_text("demo (F makes yours)");
    // On every page.
    for page in ["[Choose]", "[Row]", "[Order]", "[Stock]", "[Tags]"] {
        session.press("\t");
        session.wait_for_text(page);
        session.wait_for_text("demo (F makes yours)");
    }
    session.press("\t");
    session.wait_for_text("[Key]");
    session.press("d98\r");
    session.wait_for_text("diameter 98 mm");
    session.press("F");
    session.wait_for_text("A folder of your own");
    // The usual place is offered; then what is in it, units, frosts, money and a name.
    let home = session.home.path().to_path_buf();
    session.wait_for_text(".local/share/trug");
    session.press("\r\rmm\r14 May\r1 October\rkroner\rSkerry Lane\r");
    session.press(SAVE);
    session.wait_for_text("Your folder:");
    session.wait_for_text("diameter 98 mm");
    assert!(!session.screen.screen().contents().contains("demo ("));
    let folder = home.join(".local/share/trug");
    let settings = fs::read_to_string(folder.join("settings.ron")).expect("settings");
    for told in ["units: mm", "14 May", "1 October", "kroner", "Skerry Lane"] {
        assert!(settings.contains(told), "{told}: {settings}");
    }
    assert!(folder.join("varieties.ron").exists());

    // An order is begun: the season by the frosts that were said, the first bed, the first need.
    session.press("\t\t\t");
    session.wait_for_text("No order yet: b begins one");
    session.press("b");
    session.wait_for_text("The season and the money (1 of 3)");
    session.wait_for_text("-05-14");
    session.press(SAVE);
    session.wait_for_text("The first bed (2 of 3)");
    session.press("sea wall\r24m\r");
    session.press(SAVE);
    session.wait_for_text("The first need (3 of 3)");
    session.press("bunches\r12\r");
    assert!(!folder.join("order.ron").exists());
    session.press(SAVE);
    session.wait_for_text("the order is begun (saved)");
    session.wait_for_text("bed, sea wall");
    let order = fs::read_to_string(folder.join("order.ron")).expect("an order");
    assert!(
        order.contains("sea wall") && order.contains("bunches"),
        "{order}"
    );
    session.quit("q");

    // The second start opens it.
    let mut again = Session::start_among(&[], false, &[("HOME", home)]);
    again.wait_for_text("> centre ?");
    assert!(!again.screen.screen().contents().contains("demo ("));
    again.press("\t\t\t");
    again.wait_for_text("bed, sea wall");
    again.quit("q");
}

#[test]
fn a_place_that_cannot_be_is_told_in_its_field_and_nothing_typed_is_lost() {
    let mut session = Session::start(&[], false);
    session.wait_for_text("> centre ?");
    let taken = session.home.path().join("taken");
    fs::create_dir(&taken).expect("a folder");
    fs::write(taken.join("varieties.ron"), "[\n]\n").expect("a file");
    session.press("F");
    session.wait_for_text("A folder of your own");
    session.press("taken\rdemo\r");
    session.press(SAVE);
    session.wait_for_text("varieties.ron there already");
    session.wait_for_text("demo");
    // Control and U erases the line.
    session.press("\x15mine");
    session.press(SAVE);
    session.wait_for_text("Everything in");
    assert!(session.home.path().join("mine/trial.journal").exists());
    session.quit("q");
}
