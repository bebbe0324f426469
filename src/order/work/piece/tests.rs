//! Pieces that ship and a grower's own, and what is wrong with one.

use super::*;

fn own(text: &str) -> Result<Pieces, Vec<Problem>> {
    Pieces::embedded().with_own("pieces.ron", text)
}

#[test]
fn the_pieces_that_ship_are_read_and_found_for_one_and_for_several() {
    let pieces = Pieces::embedded();
    assert_eq!(pieces.list().len(), 8);
    for name in ["Table Bowls", "table-bowl", "bride's bunch"] {
        assert!(pieces.find(name).is_some(), "{name}");
    }
    assert!(pieces.find("table").is_none());
    for piece in pieces.list() {
        assert!(
            piece.means.is_some() && piece.many.is_some(),
            "{}",
            piece.name
        );
    }
}

#[test]
fn a_piece_of_the_growers_own_is_added_and_one_of_the_same_name_replaces_ours() {
    let text = r#"(parts: [(id: "bed", use: "tuck-in")], pieces: [(name: "Jar", stems: {"any": 9}), (name: "crown", stems: {"worn": 12, "bed": 2}, spares: 50)])"#;
    let pieces = own(text).expect("pieces");
    let jar = pieces.find("jar").expect("a jar");
    assert_eq!(jar.stems.values().map(|stems| stems.get()).sum::<u32>(), 9);
    assert_eq!(jar.counted(2), "2 Jar");
    assert_eq!(pieces.list().len(), 9);
    let (_, bed) = pieces.part("bed").expect("a part");
    assert_eq!(bed.for_use.as_ref().map(Text::as_str), Some("filler"));
}

#[test]
fn colours_are_split_as_the_piece_says_and_the_last_share_takes_the_rest() {
    let colours: Vec<Text> = ["plum", "blush", "white"]
        .map(|word| Text::new(word).expect("a word"))
        .into();
    let pieces = Pieces::embedded();
    let bunch = pieces.find("bride's bunch").expect("a piece");
    assert_eq!(
        bunch.split(&colours),
        [(60, &colours[..1]), (40, &colours[1..])]
    );
    assert_eq!(bunch.split(&colours[..1]), [(100, &colours[..1])]);
    assert_eq!(bunch.split(&[]), [(100, &[] as &[Text])]);
    let jar = pieces.find("jar").expect("a piece");
    assert_eq!(jar.split(&colours), [(100, &colours[..])]);
}

#[test]
fn what_is_wrong_with_a_piece_is_told_with_its_line_and_column() {
    let told = |text: &str| own(text).expect_err(text)[0].to_string();
    for (text, expected) in [
        (
            "(pieces: [\n  (name: \"urn\", stems: {\"foccal\": 3}),\n])",
            "pieces.ron, line 2, column 24: urn: found the part \"foccal\", expected one of focal, secondary, small, accent, low, worn, any",
        ),
        (
            "(pieces: [\n  (name: \"urn\", stems: {}),\n])",
            "pieces.ron, line 2, column 24: urn: found no stems, expected those of one part at least",
        ),
        (
            "(pieces: [\n  (name: \"urn\", stems: {\"any\": 3}, shares: [60, 30]),\n])",
            "pieces.ron, line 2, column 44: urn: found shares that come to 90, expected some over 0 that come to 100",
        ),
        (
            "(pieces: [\n  (name: \"urn\", stems: {\"any\": 3}, spares: 120),\n])",
            "pieces.ron, line 2, column 44: urn: found 120 spares in a hundred, expected from 0 to 100",
        ),
        (
            "(pieces: [(name: \"urn of 3\", stems: {\"any\": 3})])",
            "pieces.ron, line 1, column 18: urn of 3: found a number in its name, expected words, for a number says how many",
        ),
        (
            "(pieces: [(name: \"urn\", stems: {\"any\": 3}), (name: \"Urn\", stems: {\"any\": 3})])",
            "pieces.ron, line 1, column 52: found the name \"Urn\" a second time, expected each name once",
        ),
    ] {
        assert_eq!(told(text), expected);
    }
    assert!(told("(pieces: [(name: \"urn\", stems: {\"any\": 0})])").contains("expected"));
    assert!(told("(pieces: [(nme: \"urn\")])").contains("nme"));
}
