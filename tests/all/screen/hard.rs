//! What is hard on a terminal: much at once, a window too small, and an end that nobody chose.

use std::fs::File;
use std::time::{Duration, Instant};

use rustix::process::{Pid, Signal, kill_process};
use rustix::termios::{LocalModes, tcgetattr};

use super::{DEADLINE, Session, size, some};

impl Session {
    /// The terminal that it runs in, kept open to be looked at.
    fn terminal(&self) -> File {
        let name = self.master.tty_name().expect("a terminal has a name");
        File::open(name).expect("the terminal")
    }

    fn sends(&mut self, signal: Signal) {
        let id = self.child.process_id().expect("a process");
        let id = Pid::from_raw(i32::try_from(id).expect("an id")).expect("an id");
        kill_process(id, signal).expect("it runs");
    }

    fn resizes(&mut self, columns: u16, rows: u16) {
        let screen = self.screen.screen_mut();
        screen.set_size(some(rows), some(columns));
        self.master.resize(size(columns, rows)).expect("a new size");
    }
}

/// Whether a terminal is as a shell has it: it shows what is typed, line by line.
fn is_restored(terminal: &File) -> bool {
    let modes = tcgetattr(terminal).expect("its modes").local_modes;
    modes.contains(LocalModes::ECHO | LocalModes::ICANON | LocalModes::ISIG)
}

/// The library's usual way to wait tells of bytes once, when they come: after it took 1,024 of them the
/// rest lay there until the next key.
#[test]
fn ten_thousand_characters_typed_at_once_are_all_taken_in() {
    let mut session = Session::start(&["--units", "mm"], false);
    session.wait_for_text("> centre ?");
    session.press("d");
    session.wait_for_text("> diameter ?");
    // Control-U erases them again.
    session.press(&("1".repeat(10_000) + "\x1598"));
    session.wait_for_text("[98_]");
    session.press("\r");
    session.wait_for_text("diameter 98 mm");
    session.quit("q");
}

#[test]
fn a_paste_of_ten_million_characters_is_refused_with_a_sentence() {
    let mut session = Session::start(&["--units", "mm"], false);
    session.wait_for_text("> centre ?");
    session.press("d98");
    session.wait_for_text("[98_]");
    let began = Instant::now();
    session.press(&format!("\x1b[200~{}\x1b[201~", "1".repeat(10_000_000)));
    session.wait_for_text("more than 4000");
    let took = began.elapsed();
    // A second where a machine is free; those that run these tests seldom are.
    assert!(took < Duration::from_secs(8), "{took:?}");
    session.press("\x1b");
    session.wait_for_text("type a number");
    session.quit("q");
}

#[test]
fn no_key_changes_an_order_that_is_not_seen() {
    let home = tempfile::tempdir().expect("a folder");
    let dir = super::lane(home.path());
    let order = || std::fs::read_to_string(format!("{dir}/order.ron")).expect("an order");
    let before = order();
    let mut session = Session::start(&["--at", &dir], false);
    session.wait_for_text("> centre ?");
    session.press("\t\t\t");
    session.wait_for_text("[Order]");
    session.resizes(40, 12);
    session.wait_for_text("no other key");
    session.press("++\t\x1b[200~5\x1b[201~");
    session.resizes(80, 24);
    session.wait_for_text("[Order]");
    assert_eq!(order(), before);
    session.quit("q");
}

#[test]
fn a_signal_leaves_the_terminal_as_it_was_and_keeps_the_bloom_in_hand() {
    let state = tempfile::tempdir().expect("a folder");
    let place = [("XDG_STATE_HOME", state.path().to_path_buf())];
    for (signal, number) in [
        (Signal::TERM, 15),
        (Signal::HUP, 1),
        (Signal::INT, 2),
        (Signal::QUIT, 3),
    ] {
        let mut session = Session::start_among(&["--units", "mm"], false, &place);
        session.wait_for_text("> centre ?");
        let terminal = session.terminal();
        assert!(!is_restored(&terminal));
        session.press("1d98 10");
        session.wait_for_text("[98 10_]");
        session.sends(signal);
        session.wait_for("the terminal as it was", |screen| {
            !screen.alternate_screen() && !screen.hide_cursor() && !screen.bracketed_paste()
        });
        let status = session.child.wait().expect("trug ends");
        assert_eq!(status.exit_code(), 128 + number);
        assert!(is_restored(&terminal));

        let mut next = Session::start_among(&["--units", "mm"], false, &place);
        next.wait_for_text("is kept: k goes");
        next.press("k");
        next.wait_for_text("Going on with the bloom of");
        next.wait_for_text("[98 10_]");
        // Taken up and undone: nothing is kept.
        next.press("\x1b");
        next.wait_for_text("] type a number");
        next.press("u");
        next.wait_for_text("Undone.");
        next.quit("q");
        assert!(!state.path().join("trug/half-keyed.ron").exists());
    }
}

/// Half a key, such as what a broken connection leaves, once made a read that nothing ended.
#[test]
fn half_a_key_does_not_make_it_deaf() {
    let mut session = Session::start(&[], false);
    session.wait_for_text("> centre ?");
    session.press("\x1b[200~half a paste");
    std::thread::sleep(Duration::from_millis(300));
    session.sends(Signal::TERM);
    let until = Instant::now() + DEADLINE;
    session.wait_until(until, "its end", |screen| !screen.alternate_screen());
    let status = session.child.wait().expect("trug ends");
    assert_eq!(status.exit_code(), 143);
}

#[test]
fn a_bloom_in_hand_on_another_page_is_offered_at_the_next_start_and_dropped_if_asked() {
    let state = tempfile::tempdir().expect("a folder");
    let place = [("XDG_STATE_HOME", state.path().to_path_buf())];
    let mut session = Session::start_among(&[], false, &place);
    session.wait_for_text("> centre ?");
    session.press("1\t");
    session.wait_for_text("[Choose]");
    session.quit("\x03");
    let file = state.path().join("trug/half-keyed.ron");
    assert!(file.exists());
    // Nothing is done to it where nothing is asked.
    let mut session = Session::start_among(&[], false, &place);
    session.wait_for_text("is kept: k goes");
    session.quit("q");
    assert!(file.exists());
    let mut session = Session::start_among(&[], false, &place);
    session.wait_for_text("is kept: k goes");
    session.press("x");
    session.wait_for_text("Dropped the bloom");
    session.quit("q");
    assert!(!file.exists());
}
