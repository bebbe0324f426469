//! A line that is typed: what each edit does to it, and that its cursor stays in sight.

use super::*;
use proptest::prelude::*;

fn edited(text: &str, edits: &[Edit]) -> Line<()> {
    let mut line = Line::new((), text);
    for edit in edits {
        line.edit(edit);
    }
    line
}

fn write(text: &str) -> Edit {
    Edit::Write(text.to_string())
}

#[test]
fn a_line_is_edited_where_its_cursor_is() {
    use Edit::*;
    for (text, edits, becomes, shown) in [
        ("98 104", vec![], "98 104", "[98 104_]"),
        ("98 104", vec![Left, Left, Erase], "98 04", "[98 04]"),
        ("98 104", vec![Start, EraseNext], "8 104", "[8 104]"),
        ("98 104", vec![Start, write("1")], "198 104", "[198 104]"),
        ("98 104", vec![EraseWord], "98 ", "[98 _]"),
        (
            "98 104 7",
            vec![WordLeft, EraseToEnd],
            "98 104 ",
            "[98 104 _]",
        ),
        ("98 104", vec![WordLeft, EraseToStart], "104", "[104]"),
        (
            "98 104",
            vec![Start, WordRight, write("x")],
            "98 x104",
            "[98 x104]",
        ),
        (
            "98",
            vec![Start, Left, Right, Right, Right, write("0")],
            "980",
            "[980_]",
        ),
        ("", vec![Erase, EraseNext, EraseWord, WordLeft], "", "[_]"),
        ("ab", vec![Left, Start, End, write("c")], "abc", "[abc_]"),
    ] {
        let line = edited(text, &edits);
        let typed = line.typed(40).to_string();
        assert_eq!((line.text(), typed.as_str()), (becomes, shown), "{edits:?}");
    }
}

#[test]
fn the_first_character_written_stands_in_place_of_what_is_offered() {
    use Edit::*;
    for (edits, becomes) in [
        (vec![write("k")], "k"),
        (vec![write("k"), write("eep")], "keep"),
        (vec![write("keep good plum\n")], "keep good plum"),
        (vec![End, write("frost")], "hold frost"),
        (vec![Erase, write(" on")], "hold on"),
        (vec![Start, write("x ")], "x hold "),
        (vec![write("\r\n")], "hold "),
        (vec![write(&"x".repeat(MOST + 1))], "hold "),
    ] {
        let mut line = Line::offering((), "hold ");
        for edit in &edits {
            let before = line.text().to_string();
            assert_eq!(line.edit(edit), line.text() != before);
        }
        assert_eq!(line.text(), becomes, "{edits:?}");
    }
    let rows = Line::offering((), "hold ").rows("26-001", ("a hint", Role::Quiet), 80);
    assert!(
        rows[1].to_string().starts_with("Type over it"),
        "{}",
        rows[1]
    );
}

#[test]
fn a_character_is_what_a_reader_sees_as_one() {
    // An e with an accent of its own, and a flag of two signs.
    for one in ["e\u{301}", "\u{1f1eb}\u{1f1ee}"] {
        let text = format!("a{one}b");
        assert_eq!(edited(&text, &[Edit::Left, Edit::Erase]).text(), "ab");
        let before = edited(&text, &[Edit::Start, Edit::Right, Edit::EraseNext]);
        assert_eq!(before.text(), "ab");
    }
}

#[test]
fn a_paste_is_one_line_and_a_line_ends_somewhere() {
    let line = edited("7 ", &[write("8\r\n6\t6+\n")]);
    assert_eq!(line.text(), "7 8 6 6+");
    let long = edited("ab", &[Edit::Left, write(&"x".repeat(MOST))]);
    assert_eq!(long.text().chars().count(), MOST);
    assert!(long.text().starts_with("axx") && long.text().ends_with("xb"));
    assert!(long.problem().is_some_and(|why| why.contains("4000")));
    let mut full = long;
    assert!(!full.edit(&write("y")));
    assert!(full.edit(&Edit::Erase) && full.problem().is_none());
}

#[test]
fn a_problem_is_said_until_the_text_changes() {
    let mut line = Line::new((), "300");
    line.doubt("large");
    line.edit(&Edit::Left);
    assert_eq!((line.problem(), line.is_doubted()), (Some("large"), true));
    let rows = line.rows("Across", ("a hint", Role::Quiet), 40);
    let shown: Vec<String> = rows.iter().map(Row::to_string).collect();
    assert_eq!(shown, ["Across: [300]", "large"]);
    line.edit(&Edit::Erase);
    assert_eq!((line.problem(), line.is_doubted()), (None, false));
    let rows = line.rows("Across", ("a hint", Role::Quiet), 40);
    assert_eq!(rows[1].to_string(), "a hint");
}

#[test]
fn a_long_line_scrolls_sideways() {
    let shown = |edits: &[Edit]| edited("0123456789", edits).typed(8).to_string();
    assert_eq!(shown(&[]), "[\u{2026}6789_]");
    assert_eq!(shown(&[Edit::Start]), "[01234\u{2026}]");
    let left = |times| shown(&vec![Edit::Left; times]);
    assert_eq!(left(2), "[\u{2026}56789]");
    assert_eq!(left(4), "[\u{2026}3456\u{2026}]");
}

fn any_edit() -> impl Strategy<Value = Edit> {
    prop_oneof![
        3 => "\\PC{0,6}".prop_map(Edit::Write),
        4 => prop::sample::select(vec![
            Edit::Erase, Edit::EraseNext, Edit::EraseWord, Edit::EraseToStart, Edit::EraseToEnd,
            Edit::Left, Edit::Right, Edit::WordLeft, Edit::WordRight, Edit::Start, Edit::End,
        ]),
    ]
}

proptest! {
    /// From six columns on: brackets, a character of two columns, and a mark on either side of it.
    #[test]
    fn the_line_and_its_cursor_are_always_in_sight(
        edits in prop::collection::vec(any_edit(), 0..30),
        columns in 6_usize..30,
    ) {
        let mut line = Line::new((), "");
        for edit in &edits {
            let before = line.text().to_string();
            let changed = line.edit(edit);
            prop_assert_eq!(changed, line.text() != before);
            let typed = line.typed(columns);
            prop_assert!(typed.width() <= columns, "{}", typed);
            let at_the_end = line.is_at_its_end();
            prop_assert!(!at_the_end || typed.to_string().ends_with("_]"), "{}", typed);
        }
    }

    #[test]
    fn what_is_written_is_erased_again(before in "[a-z ]{0,9}", text in "[a-z0-9é]{1,9}") {
        let mut line = Line::new((), before.clone());
        line.edit(&Edit::Start);
        line.edit(&Edit::Write(text.clone()));
        for _ in text.chars() {
            line.edit(&Edit::Erase);
        }
        prop_assert_eq!(line.text(), before);
    }
}
