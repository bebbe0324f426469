//! What is typed is taken as people write it: days, weeks, ids and inches.

use std::fs;
use std::path::PathBuf;

use crate::common::shell::{Answer, trug, trug_anywhere};

/// A folder of one's own with the demo in it.
struct Garden(tempfile::TempDir);

impl Garden {
    fn new() -> Garden {
        let garden = Garden(tempfile::tempdir().expect("a folder"));
        let dir = garden.dir().display().to_string();
        trug(garden.0.path(), &["start", &dir, "--demo"]).done();
        garden
    }

    fn dir(&self) -> PathBuf {
        self.0.path().join("garden")
    }

    fn types(&self, words: &[&str]) -> Answer {
        let dir = self.dir().display().to_string();
        trug(self.0.path(), &[&["--at", &dir], words].concat())
    }

    fn journal(&self) -> String {
        fs::read_to_string(self.dir().join("trial.journal")).expect("a journal")
    }
}

#[test]
fn a_day_of_a_note_is_typed_as_people_write_it_and_saved_as_files_have_it() {
    let garden = Garden::new();
    garden
        .types(&["row", "add", "25-901", "--sown", "14 Mar 2025"])
        .done();
    let row = fs::read_to_string(garden.dir().join("trial.ron")).expect("a row");
    assert!(row.contains("2025-03-14"), "{row}");
    let note = |day: &str| {
        let date = format!("date={day}");
        garden.types(&["row", "note", "25-901", &date, "cut=3", "--even-so"])
    };
    for day in [
        "20 Aug 2025",
        "August 20, 2025",
        "20.8.2025",
        "20/08/2025",
        "08/20/2025",
    ] {
        let told = note(day).done();
        assert!(
            told.contains("saved: date=2025-08-20 cut=3"),
            "{day}: {told}"
        );
        assert!(
            told.contains(&format!("date: {day}, so 2025-08-20")),
            "{told}"
        );
    }
    let told = note("2025-08-20").done();
    assert!(!told.contains(", so "), "{told}");
    let before = garden.journal();
    assert!(!before.contains("Aug"), "{before}");
    note("31 Jun 2025").refused("date: found \"31 Jun 2025\", a day that June does not have");
    note("soon").refused("expected a day such as 20 Aug");
    // Which of day and month comes first is settled once.
    let either = "which may be 4 Sep (2025-09-04) or 9 Apr (2025-04-09)";
    note("04/09/2025").refused(either);
    assert_eq!(garden.journal(), before);
    for (order, day) in [("day-first", "2025-09-04"), ("month-first", "2025-04-09")] {
        let settings = format!("(days: \"{order}\")\n");
        fs::write(garden.dir().join("settings.ron"), settings).expect("settings");
        let told = note("04/09/2025").done();
        assert!(told.contains(&format!("saved: date={day}")), "{told}");
    }
    let decided = garden.types(&["row", "decide", "25-901", "Cull", "--date", "30 Sep 2025"]);
    assert!(decided.done().contains("date=2025-09-30 decide=cull"));
    fs::write(
        garden.dir().join("settings.ron"),
        "(days: \"year-first\")\n",
    )
    .expect("settings");
    note("today").fails_in_a_sentence("expected \"day-first\" or \"month-first\"");
}

#[test]
fn a_sheets_days_are_read_as_they_were_written_by_hand() {
    let garden = Garden::new();
    garden
        .types(&["row", "add", "25-901", "--sown", "2025"])
        .done();
    let sheet = garden.0.path().join("counts.csv");
    let sheet_path = sheet.display().to_string();
    fs::write(
        &sheet,
        "seedling,date,cut\n25-901,20.8.2025,3\n25-901,Aug 27 2025,4\n25-901,,5\n",
    )
    .expect("a sheet");
    let import = |more: &[&str]| {
        garden.types(&[&["row", "import", &sheet_path, "--even-so"], more].concat())
    };
    import(&["--date", "3/9"]).refused("--date: found \"3/9\", which may be 3 Sep");
    import(&["--date", "3 Sep 2025"]).done();
    let journal = garden.journal();
    for day in ["2025-08-20", "2025-08-27", "2025-09-03"] {
        assert!(journal.contains(day), "{day}");
    }
}

#[test]
fn inches_typed_come_back_in_inches() {
    let garden = Garden::new();
    garden
        .types(&["row", "add", "25-901", "--sown", "2025"])
        .done();
    let told = garden.types(&[
        "--units",
        "mm",
        "row",
        "note",
        "25-901",
        "date=2025-08-20",
        "diameter=3.9in,4 in",
        "stem=22 inches",
    ]);
    assert!(told.done().contains("diameter=3.9in,4in stem=22in"));
    assert!(garden.journal().contains("3.9in"));
    let plant = garden.types(&["--units", "mm", "row", "25-901"]).done();
    assert!(plant.contains("3.9, 4 in across; stems 22 in"), "{plant}");
    assert!(plant.contains("mean 100.3 mm"), "{plant}");
}

#[test]
fn days_of_a_plan_are_refused_with_both_readings_and_told_when_they_are_taken() {
    let garden = Garden::new();
    let answer = garden.types(&[
        "order",
        "--add",
        "supper: 20 20 Aug - 5 Sep colours=plum use=event focal",
        "--set",
        "planted=03/04/2027",
    ]);
    assert_eq!(answer.status, Some(2), "{}", answer.error);
    assert!(
        answer
            .error
            .contains("supper: weeks 33 to 35 (16 Aug to 5 Sep)"),
        "{}",
        answer.error
    );
    assert!(
        answer
            .error
            .contains("--set: planted: found \"03/04/2027\", which may be 3 Apr"),
        "{}",
        answer.error
    );
}

#[test]
fn an_id_is_the_same_with_spaces_underscores_or_hyphens() {
    let said = |words: &[&str]| trug_anywhere(words).done();
    let own = said(&["choose", "--where", "use=event-focal"]);
    for typed in ["use=event focal", "Use=Event_Focal"] {
        assert_eq!(said(&["choose", "--where", typed]), own);
    }
    assert_eq!(
        said(&["choose", "--use", "event focal"]),
        said(&["choose", "--use", "event-focal"])
    );
    assert_eq!(
        said(&[
            "--rules",
            "Trade Inch",
            "rules",
            "show",
            "formal decorative"
        ]),
        said(&["rules", "show", "formal-decorative"])
    );
    assert_eq!(
        said(&["key", "Centre=Closed", "tip=POINTED"]),
        said(&["key", "centre=closed", "tip=pointed"])
    );
}
