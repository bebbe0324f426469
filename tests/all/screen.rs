//! The real binary in a real pseudo-terminal: it opens, keys a bloom, quits and restores.

mod colour;
mod first_minute;
#[cfg(unix)]
mod hard;
mod import;
mod kept;
mod pages;
mod picture;
#[cfg(unix)]
mod pixels;
pub(crate) mod random_keys;
mod season;
pub(crate) mod sizes;
mod stock;
mod words;

use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::path::Path;
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};
use trug::folder::Folder;

use crate::common::shell::trug;

/// How long a condition may take before the test fails.
const DEADLINE: Duration = Duration::from_secs(20);

pub(crate) struct Session {
    child: Box<dyn Child + Send + Sync>,
    master: Box<dyn MasterPty + Send>,
    writer: Box<dyn Write + Send>,
    output: Receiver<Vec<u8>>,
    screen: vt100::Parser,
    /// All that came so far.
    sent: Vec<u8>,
    // Where it runs, and no grower's folder is found; removed when the session ends.
    home: tempfile::TempDir,
}

fn some(number: u16) -> NonZeroU16 {
    NonZeroU16::new(number).expect("over 0")
}

fn size(columns: u16, rows: u16) -> PtySize {
    PtySize {
        rows,
        cols: columns,
        pixel_width: 0,
        pixel_height: 0,
    }
}

impl Session {
    pub(super) fn start(arguments: &[&str], no_color: bool) -> Session {
        Session::start_among(arguments, no_color, &[])
    }

    /// With these variables set as well, to find a folder of the grower's by.
    pub(crate) fn start_among(
        arguments: &[&str],
        no_color: bool,
        surroundings: &[(&str, std::path::PathBuf)],
    ) -> Session {
        let home = tempfile::tempdir().expect("a folder");
        let pair = native_pty_system()
            .openpty(size(80, 24))
            .expect("a pseudo-terminal");
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_trug"));
        command.args(arguments);
        command.cwd(home.path());
        command.env("HOME", home.path());
        command.env("TERM", "xterm-256color");
        // A dark ground: on one that is not known words have no colour.
        command.env("COLORFGBG", "15;0");
        command.env_remove("XDG_DATA_HOME");
        command.env_remove("XDG_CONFIG_HOME");
        command.env_remove("XDG_STATE_HOME");
        command.env_remove("NO_COLOR");
        if no_color {
            command.env("NO_COLOR", "1");
        }
        for (name, value) in surroundings {
            command.env(name, value);
        }
        let child = pair.slave.spawn_command(command).expect("trug starts");
        let mut reader = pair.master.try_clone_reader().expect("a reader");
        let writer = pair.master.take_writer().expect("a writer");
        let (sender, output) = channel();
        std::thread::spawn(move || {
            let mut bytes = [0; 4096];
            while let Ok(count @ 1..) = reader.read(&mut bytes) {
                if sender.send(bytes[..count].to_vec()).is_err() {
                    break;
                }
            }
        });
        let screen = vt100::Parser::new(some(24), some(80), 0);
        Session {
            child,
            master: pair.master,
            writer,
            output,
            screen,
            sent: Vec::new(),
            home,
        }
    }

    pub(crate) fn press(&mut self, keys: &str) {
        self.writer.write_all(keys.as_bytes()).expect("trug reads");
        self.writer.flush().expect("trug reads");
    }

    fn wait_for(&mut self, what: &str, seen: impl Fn(&vt100::Screen) -> bool) {
        self.wait_until(Instant::now() + DEADLINE, what, seen);
    }

    pub(crate) fn wait_until(
        &mut self,
        until: Instant,
        what: &str,
        seen: impl Fn(&vt100::Screen) -> bool,
    ) {
        while !seen(self.screen.screen()) {
            let left = until.saturating_duration_since(Instant::now());
            match self.output.recv_timeout(left) {
                Ok(bytes) => {
                    self.screen.process(&bytes);
                    self.sent.extend(bytes);
                }
                Err(error) => panic!(
                    "waited for {what}: {error}\n{}",
                    self.screen.screen().contents()
                ),
            }
        }
    }

    pub(crate) fn wait_for_text(&mut self, text: &str) {
        self.wait_for(text, |screen| screen.contents().contains(text));
    }

    /// All that the terminal was sent so far, as text.
    fn sent(&self) -> String {
        String::from_utf8_lossy(&self.sent).into_owned()
    }

    /// Waits until the terminal was sent this, whatever it shows of it.
    fn wait_for_sent(&mut self, text: &str) -> String {
        self.wait_until_sent(text, |sent| sent.contains(text))
    }

    /// Waits until what the terminal was sent is so.
    fn wait_until_sent(&mut self, text: &str, is_so: impl Fn(&str) -> bool) -> String {
        let until = Instant::now() + DEADLINE;
        loop {
            let sent = self.sent();
            if is_so(&sent) {
                return sent;
            }
            let left = until.saturating_duration_since(Instant::now());
            match self.output.recv_timeout(left) {
                Ok(bytes) => {
                    self.screen.process(&bytes);
                    self.sent.extend(bytes);
                }
                Err(error) => panic!("waited for {text:?} to be sent: {error}"),
            }
        }
    }

    pub(crate) fn quit(&mut self, keys: &str) {
        self.press(keys);
        self.wait_for("the terminal as it was", |screen| {
            !screen.alternate_screen() && !screen.hide_cursor() && !screen.bracketed_paste()
        });
        let status = self.child.wait().expect("trug ends");
        assert!(status.success(), "{status:?}");
    }

    fn cells(&self) -> impl Iterator<Item = &vt100::Cell> {
        let screen = self.screen.screen();
        let (rows, columns) = screen.size();
        let (rows, columns) = (rows.get(), columns.get());
        (0..rows)
            .flat_map(move |row| (0..columns).filter_map(move |column| screen.cell(row, column)))
    }
}

#[test]
fn a_bloom_is_keyed_in_colour_and_the_terminal_is_restored() {
    let mut session = Session::start(&["--units", "mm"], false);
    session.wait_for_text("> centre ?");
    assert!(session.screen.screen().alternate_screen());
    // Traits are asked for by name: what is asked next hangs on the grower's list.
    session.press("1d98\r/roll\r2/tip\r1/outline\r1/rolled\r90\r/set\r1");
    session.wait_for_text("= Settled: ball, 89 to 102 mm across (size");
    assert!(
        session
            .cells()
            .any(|cell| cell.fgcolor() != vt100::Color::Default)
    );
    session.quit("q");
}

/// Keys would give the answer at the line's end, and letters after it would be commands.
#[test]
fn what_is_pasted_is_written_on_the_line_and_is_no_command() {
    let mut session = Session::start(&["--units", "mm"], false);
    session.wait_for_text("> centre ?");
    session.press("\x1b[200~q\x1b[201~d");
    session.press("\x1b[200~98 104\rq\x1b[201~");
    session.wait_for_text("[98 104 q_]");
    // Backspace, Control-Left and Control-W.
    session.press("\x7f\x1b[1;5D\x17");
    session.wait_for_text("[104 ]");
    session.quit("\x03");
}

#[test]
fn without_colour_the_marks_and_reverse_video_stay() {
    for (arguments, no_color) in [
        (&["--units", "mm"][..], true),
        (&["--units", "mm", "--plain"], false),
    ] {
        let mut session = Session::start(arguments, no_color);
        session.wait_for_text("> centre ?");
        session.press("1d98\r\x1b[A");
        session.wait_for_text("> diameter 98 mm");
        let coloured = |cell: &vt100::Cell| {
            cell.fgcolor() != vt100::Color::Default || cell.bgcolor() != vt100::Color::Default
        };
        assert!(!session.cells().any(coloured));
        assert!(
            session.cells().any(|cell| cell.inverse()) && session.cells().any(|cell| cell.bold())
        );
        session.quit("\x03");
    }
}

#[test]
fn the_window_may_change_its_size() {
    let mut session = Session::start(&[], false);
    session.wait_for_text("> centre ?");
    session.screen.screen_mut().set_size(some(45), some(140));
    session.master.resize(size(140, 45)).expect("a new size");
    session.wait_for_text("+ micro novelty fully double");
    session.screen.screen_mut().set_size(some(10), some(40));
    session.master.resize(size(40, 10)).expect("a new size");
    session.wait_for_text("needs at");
    session.quit("q");
}

#[test]
fn without_a_terminal_one_sentence_says_so() {
    let home = tempfile::tempdir().expect("a folder");
    let answer = trug(home.path(), &[]);
    assert_eq!((answer.status, answer.out.as_str()), (Some(1), ""));
    let told = answer.error;
    assert!(
        told.contains("needs a terminal") && told.lines().count() == 1,
        "{told}"
    );
}

/// A folder with the demo's list.
fn lane(home: &Path) -> String {
    let dir = home.join("lane").display().to_string();
    trug(home, &["start", &dir, "--demo"]).done();
    dir
}

fn list_in(dir: &str) -> String {
    std::fs::read_to_string(Path::new(dir).join("varieties.ron")).expect("a list")
}

#[test]
fn a_second_screen_says_who_has_the_folder_and_only_reads() {
    let home = tempfile::tempdir().expect("a folder");
    let dir = lane(home.path());
    let before = list_in(&dir);
    let held = Folder::open(Path::new(&dir), "14:05").expect("opens");
    let mut session = Session::start(&["--at", &dir], false);
    session.wait_for_text("> centre ?");
    session.press("\t");
    session.wait_for_text(&format!("read only: process {}", std::process::id()));
    session.press("m");
    session.wait_for_text("Read only, nothing was changed");
    session.quit("q");
    drop(held);
    assert_eq!(list_in(&dir), before);
}

#[test]
fn what_the_screen_holds_no_other_program_changes() {
    let home = tempfile::tempdir().expect("a folder");
    let dir = lane(home.path());
    let before = list_in(&dir);
    let mut session = Session::start(&["--at", &dir], false);
    session.wait_for_text("> centre ?");
    session.press("\tm");
    session.wait_for_text("(saved)");
    let after = list_in(&dir);
    assert_ne!(after, before);
    let sheet = home.path().join("sheet.csv");
    std::fs::write(&sheet, "name\nHaaf Stranger\n").expect("writes");
    let import = ["import", &sheet.display().to_string(), "--at", &dir];
    let import = trug(home.path(), &import);
    let who = format!("process {}", session.child.process_id().expect("a process"));
    assert!(
        import.status == Some(1) && import.error.contains(&who),
        "{import:?}"
    );
    // The screen is none the worse for it: what it undoes is saved.
    assert_eq!(list_in(&dir), after);
    session.press("u");
    session.wait_for_text("took back");
    session.wait_for_text("(saved)");
    session.quit("q");
    assert_eq!(list_in(&dir), before);
}

/// From the first page: to the tags, `p`, Enter; and what another program finds in the file.
#[test]
fn all_kept_seedlings_are_printed_from_the_screen() {
    let home = tempfile::tempdir().expect("a folder");
    let dir = lane(home.path());
    let mut session = Session::start(&["--at", &dir, "--units", "mm"], true);
    session.wait_for_text("> centre ?");
    // Shift-Tab: the last page.
    session.press("\x1b[Z");
    session.wait_for_text("[Tags]");
    session.wait_for_text("kept seedling");
    session.press("p");
    session.wait_for_text("[sale-tags.pdf_]");
    session.press("\r");
    session.wait_for_text("Wrote sale-tags.pdf: 1 sale tag on 1 page.");
    let file = session.home.path().join("sale-tags.pdf");
    let first = std::fs::read(&file).expect("the tags");
    assert!(first.starts_with(b"%PDF-"));
    // What is there is replaced only when asked again.
    std::fs::write(&file, "mine").expect("writes");
    session.press("p\r");
    session.wait_for_text("is there already");
    assert_eq!(std::fs::read(&file).expect("a file"), b"mine");
    session.press("\r");
    session.wait_for_text("Wrote sale-tags.pdf");
    assert_eq!(std::fs::read(&file).expect("the tags"), first);
    // Where the file cannot be written, that is said, and the screen goes on.
    session.press("p\x7f\x7f\x7f\x7f/no/such.txt\r");
    session.wait_for_text("Print to: [sale-tags/no/such.txt_]");
    session.wait_for_text("sale-tags/no/such.txt");
    session.press("\x1b");
    session.wait_for_text("Kind:");
    session.quit("q");
}

#[test]
fn the_screen_answers_while_it_solves_and_a_search_can_be_stopped() {
    let mut session = Session::start(&[], false);
    session.wait_for_text("> centre ?");
    session.press("\t\t\t");
    session.wait_for_text("[Order]");
    // What comes with the demo is settled: a stem more is not.
    session.press("+");
    session.wait_for_text("(Esc stops)");
    session.press("\x1b[B");
    session.wait_for_text("> quay stall, early");
    session.press("\x1b");
    // A quick machine may have the order before the key.
    session.wait_for("the end of the search", |screen| {
        let shown = screen.contents();
        shown.contains("Stopped: ") || shown.contains("It costs ")
    });
    session.quit("q");
}

#[test]
fn a_figure_changed_while_it_solves_is_on_the_disk_when_it_is_called_saved() {
    let home = tempfile::tempdir().expect("a folder");
    let dir = lane(home.path());
    let order = || std::fs::read_to_string(Path::new(&dir).join("order.ron")).expect("an order");
    let mut session = Session::start(&["--at", &dir], false);
    session.wait_for_text("> centre ?");
    session.press("\t\t\t");
    session.wait_for_text("every need as sure as asked");
    for (keys, told, saved) in [
        ("61\r", "61 a week", "stems: 61, weeks: (33, 39)"),
        ("+", "62 a week", "stems: 62, weeks: (33, 39)"),
        ("u", "took back", "stems: 61, weeks: (33, 39)"),
    ] {
        session.press(keys);
        session.wait_for(told, |screen| {
            let shown = screen.contents();
            shown.contains(told) && shown.contains("(saved)")
        });
        assert!(order().contains(saved), "{keys}: {}", order());
    }
    session.quit("q");
}
