//! The grower's own words are mapped once, and nothing is half imported.

use super::grower::{Grower, numbers};

#[test]
fn own_words_are_listed_mapped_once_and_remembered() {
    let grower = Grower::new();
    let file = grower.write(
        "sheet.csv",
        "name,form,colour\nHaaf A,FD large,brick dust\nHaaf B,fd  LARGE,red\nHaaf C,bal,red\n",
    );
    let before = grower.list();
    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!((status, answer["outcome"].as_str()), (1, Some("refused")));
    assert_eq!(answer["unknown"][0]["lines"], serde_json::json!([2, 3]));
    let ball = answer["unknown"]
        .as_array()
        .expect("words")
        .iter()
        .find(|one| one["word"] == "bal");
    assert_eq!(ball.expect("bal")["near"][0], "ball");
    assert_eq!(grower.list(), before);

    let wrong = grower.trug(&[
        "import",
        &file,
        "--at",
        &grower.path("lane"),
        "--map",
        "form:bal=bell",
    ]);
    wrong.refused("such as ball");

    let maps = [
        "--map",
        "form:FD large=formal-decorative",
        "--map",
        "form:bal=ball",
        "--map",
        "colour:brick dust=brick (main, tipped); white (second, tipped)",
    ];
    let (status, answer) = grower.json(&[&["import", file.as_str()], &maps[..]].concat());
    assert_eq!((status, numbers(&answer)), (0, (3, 0, 0)), "{answer:#}");
    assert_eq!(answer["remembered"].as_array().map(Vec::len), Some(3));
    assert!(
        grower
            .list()
            .contains("(colour: \"white\", part: second, pattern: tipped)")
    );
    let saved = grower.list();
    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!((status, numbers(&answer)), (0, (0, 0, 3)), "{answer:#}");
    assert_eq!(
        (answer["outcome"].as_str(), grower.list()),
        (Some("unchanged"), saved)
    );
}

#[test]
fn nothing_is_half_imported_unless_bad_rows_are_left_out_on_purpose() {
    let grower = Grower::new();
    let file = grower.write("sheet.csv", "name,height\nHaaf A,90cm\nHaaf B,90\n");
    let before = grower.list();
    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!((status, answer["bad"][0]["line"].as_u64()), (1, Some(3)));
    assert_eq!(grower.list(), before);
    let (status, answer) = grower.json(&["import", &file, "--preview", "--skip-bad"]);
    assert_eq!((status, answer["outcome"].as_str()), (0, Some("previewed")));
    assert_eq!(grower.list(), before);
    let (status, answer) = grower.json(&["import", &file, "--skip-bad"]);
    assert_eq!(
        (status, answer["left_out"].as_u64(), numbers(&answer)),
        (0, Some(1), (1, 0, 0))
    );
    assert!(grower.list().contains("Haaf A") && !grower.list().contains("Haaf B"));
}

#[test]
fn escape_sequences_never_reach_the_output() {
    let grower = Grower::new();
    let csv = "na\u{1b}[2Jme,name,fo\u{9b}rm,form,notes,height\n\
        x\u{1b}]0;t\u{7},Haaf\u{1b}[31m Red\u{202e},y,FD\u{1b}[1m,a\u{1b}[2Jb\u{8},\u{1b}[5m9\n";
    let file = grower.write("sheet.csv", csv);
    let dir = grower.path("lane");
    for words in [
        &["import", "--preview"][..],
        &["import"],
        &["import", "--json"],
        &["import", "--skip-bad"],
        &["import", "--map", "form:FD [1m=ball"],
    ] {
        let answer = grower.trug(&[words, &[&file, "--at", &dir]].concat());
        let said = answer.out + &answer.error;
        assert!(said.contains("Haaf"), "{said}");
        let odd = said
            .chars()
            .find(|c| c.is_control() && *c != '\n' || *c == '\u{202e}');
        assert_eq!(odd, None, "{said:?}");
    }
}
