use super::*;

fn read(text: &str) -> Result<Condition, String> {
    let traits = Traits::embedded();
    let mut reader = Reader::new("f", text, &traits);
    reader.limits.insert("tube-roll", "67 %");
    reader
        .words
        .insert("rolled-back", Condition::States(3, 0b100));
    let read = reader.read(text);
    read.ok_or_else(|| reader.problems[0].to_string())
}

#[test]
fn a_comma_binds_tighter_than_or() {
    let a = || Condition::States(0, 1);
    let b = || Condition::States(6, 0b110);
    assert_eq!(read("centre=closed"), Ok(a()));
    assert_eq!(
        read("centre=closed, tip=pointed|split or centre=closed and not (tip = pointed | split)"),
        Ok(Condition::Any(vec![
            Condition::All(vec![a(), b()]),
            Condition::All(vec![a(), Condition::Not(Box::new(b()))]),
        ]))
    );
}

#[test]
fn numbers_may_be_named_and_have_their_unit_apart() {
    for text in [
        "rolled over tube-roll",
        "rolled over 67",
        "rolled over 67%",
        "rolled over 67 %",
    ] {
        let expected = Span {
            low_in: false,
            ..Span::closed(Exact::whole(67), Exact::whole(100))
        };
        assert_eq!(read(text), Ok(Condition::Number(4, expected)), "{text}");
    }
    assert_eq!(
        read("diameter at most 2 in, rows=4..7").map(|c| matches!(c, Condition::All(_))),
        Ok(true)
    );
    assert_eq!(read("rolled-back"), Ok(Condition::States(3, 0b100)));
}

#[test]
fn a_fault_says_where_what_and_what_instead() {
    for (text, told) in [
        (
            "centre=shut",
            "column 8: found \"shut\", expected closed, open or pincushion",
        ),
        (
            "centre over 3",
            "column 8: found \"over\", expected `centre=` and closed, open or pincushion",
        ),
        (
            "rows over",
            "column 10: found the end, expected a whole number from 1 to 40, or the name of a limit that is one",
        ),
        (
            "rows=50",
            "column 6: found \"50\", expected a whole number from 1 to 40, or the name of a limit that is one",
        ),
        (
            "rows=7..4",
            "column 10: found the end, expected a whole number from 1 to 40 in rising order",
        ),
        ("(rows=1", "column 8: found the end, expected a `)`"),
        (
            "rows=1 rows=2",
            "column 8: found \"rows\", expected a comma, `and`, `or` or the end",
        ),
        (
            "rolled at 5",
            "column 11: found \"5\", expected `at least` or `at most`",
        ),
    ] {
        let error = read(text).expect_err(text);
        assert_eq!(error, format!("f, line 1, {told}"), "{text}");
    }
}
