use super::*;
use proptest::prelude::*;

fn read(line: &str) -> Result<Draft, String> {
    let traits = Traits::embedded();
    let reader = Reader {
        traits: &traits,
        bare: None,
        days: Calendar::noting(Date::constant(2026, 9, 1), None),
    };
    reader.read_line(line).map_err(|error| error.to_string())
}

fn entry(line: &str) -> Entry {
    let day = Date::constant(2026, 9, 1);
    let of = "26-014".parse().expect("a number");
    read(line).expect(line).entry(3, of, day)
}

#[test]
fn what_is_printed_reads_back() {
    for line in [
        "date=2026-08-20 diameter=98mm,104mm,99.06mm",
        "date=2026-08-20 by='Ann T.' vase=7,8,6,6+ weather=wind:3/12,rain:1/9 note=\"It's torn at \\\"A\\\"\"",
        "date=2026-08-20 colour='peach,second:lab(60 20 -3.5),centre:#ffcc99' stem=550mm height=1100mm open=9",
        "date=2026-08-20 visits=7/10min tubers=9 sound=7 plants=3 cut=14 novelty=yes",
        "date=2026-08-20 corrects=2 centre=closed tip='rounded|pointed' 'rows=4..7' 'line=?'",
        "date=2026-09-01 decide=keep reason='Lasts, and stands the wind.'",
        "date=2026-09-01 by=Ann withdraw=2",
    ] {
        let first = entry(line);
        let printed = first.print();
        assert_eq!(entry(&printed), first, "{printed}");
        assert_eq!(
            read(&printed).map(|draft| draft.date),
            Ok(Some(first.date.into()))
        );
    }
    let inch = entry("diameter=3.9in,'3 1/2 in' stem=22in");
    assert_eq!(
        inch.print(),
        "date=2026-09-01 diameter=3.9in,3.5in stem=22in"
    );
}

#[test]
fn an_entry_is_told_without_the_signs_that_it_is_typed_with() {
    for (typed, told) in [
        (
            "by=Ann diameter=66mm,72mm colour=salmon,reverse:ivory roll=forward rolled=70 tip=rounded|pointed rows=1",
            "2026-09-01, Ann: 66, 72 mm across; salmon, reverse ivory; edges rolled forward; florets rolled 70 % of their length; tips round or pointed; one row of florets",
        ),
        (
            "diameter=66mm,3in stem=55cm vase=7,8,6+ weather=wind:3/12 visits=7/10min note='Opens clean'",
            "2026-09-01: 66 mm, 3 in across; stems 55 cm; in the vase 7, 8, 6+ days; wind damaged 3 of 12; 7 visits in 10 minutes; \"Opens clean\"",
        ),
        ("decide=keep reason='Lasts'", "2026-09-01: kept: Lasts"),
    ] {
        assert_eq!(entry(typed).told(&Traits::embedded()), told);
    }
}

#[test]
fn bare_numbers_are_taken_in_the_growers_units_where_there_are_any() {
    let traits = Traits::embedded();
    for (bare, told) in [
        (SizeUnits::Mm, "diameter=8mm,4.5mm stem=55cm height=90cm"),
        (SizeUnits::In, "diameter=8in,4.5in stem=55in height=90in"),
    ] {
        let reader = Reader {
            traits: &traits,
            bare: Some(bare),
            days: Calendar::FILES,
        };
        let draft = reader
            .read_line("diameter=8,4.5 stem=55 height=90")
            .expect("lengths");
        let of: Subject = "26-014".parse().expect("a number");
        let entry = draft.entry(1, of, Date::constant(2026, 9, 1));
        assert_eq!(entry.print(), format!("date=2026-09-01 {told}"));
    }
    // Millimetres typed where inches are read.
    let reader = Reader {
        traits: &traits,
        bare: Some(SizeUnits::In),
        days: Calendar::FILES,
    };
    let told = reader.read_line("diameter=98").expect_err("no bloom");
    assert_eq!(
        told.to_string(),
        "diameter: found \"98\", expected a length over 0 and up to 500mm; 98 is read as 98 inches: write 98mm if that is meant"
    );
}

#[test]
fn one_sentence_says_where_what_was_found_and_what_was_expected() {
    for (line, told) in [
        (
            "",
            "entry: found nothing that was seen or decided, expected at least one word such as diameter=98mm, vase=7,6+ or centre=closed",
        ),
        (
            "vase",
            "vase: found \"vase\", expected WORD=VALUE, such as diameter=98mm or centre=closed",
        ),
        (
            "diameter=98",
            "diameter: found \"98\", expected lengths such as 98mm,104mm,3.9in, one a bloom",
        ),
        (
            "diameter=80mm..90mm",
            "diameter: found \"80mm..90mm\", expected lengths such as 98mm,104mm,3.9in, one a bloom",
        ),
        (
            "diameter=9m",
            "diameter: found \"9m\", expected a length over 0 and up to 5m",
        ),
        (
            "vase=7,x",
            "vase: found \"x\", expected days over 0 and at most 60 for each stem, such as 7, or 6+ where it was still fresh",
        ),
        (
            "weather=wind:13/12",
            "weather: found \"wind:13/12\", expected wind, rain or sun with damaged of open blooms, such as wind:3/12",
        ),
        (
            "colour=leaf:red",
            "colour: found \"leaf\", expected main, second, reverse or centre before the colon",
        ),
        (
            "colour=#12",
            "colour: found \"#12\", expected a colour word such as peach, #rrggbb or lab(L a b)",
        ),
        (
            "date=next cut=1",
            "date: found \"next\", expected a day such as 20 Aug, 20 August 2026, 2026-08-20, yesterday or friday",
        ),
        (
            "cut=1.5",
            "cut: found \"1.5\", expected stems cut, a whole number from 0 to 9999",
        ),
        ("cut=1 cut=2", "cut: found \"2\", expected each word once"),
        (
            "decide=sell",
            "decide: found \"sell\", expected keep, hold or cull",
        ),
        (
            "decide=keep cut=3",
            "decide: found \"it beside observations\", expected decide in an entry without observations",
        ),
        (
            "reason=none",
            "reason: found \"none\", expected decide=keep, hold or cull with it",
        ),
        (
            "centre=shut",
            "centre: found \"shut\", expected closed, open or pincushion",
        ),
        (
            "note='a",
            "entry: found a quotation mark ' that is never closed, expected one at the end of the value",
        ),
    ] {
        assert_eq!(read(line).expect_err(line), told);
    }
    let told = read("petals=5").expect_err("no such word");
    assert!(
        told.starts_with("petals: found \"petals\", expected one of date, by, diameter,")
            && told.ends_with("heart, diameter)"),
        "{told}"
    );
}

fn any_words() -> impl Strategy<Value = Vec<String>> {
    let one = |id: &'static str, value: &'static str| {
        prop::option::of(value).prop_map(move |value| value.map(|value| format!("{id}={value}")))
    };
    let words = [
        one("by", "[A-Za-z'\"\\\\$ ]{0,5}[a-z]"),
        one("diameter", "[1-9][0-9]{0,2}mm(,[1-9]in){0,3}"),
        one(
            "colour",
            "(main:|second:)?(peach|#[0-9a-f]{6}|lab\\([1-9][0-9] -?[0-9]{1,2} [0-9]\\.[1-9]\\))",
        ),
        one("stem", "[1-9][0-9]cm(,[1-9][0-9]cm)?"),
        one("vase", "[1-9](,[1-9]\\.5\\+?){0,4}"),
        one("weather", "(wind|rain|sun):[0-3]/[3-9](,wind:1/9)?"),
        one("visits", "[0-9]/[1-9]0min"),
        one("cut", "[0-9]{1,4}"),
        one("novelty", "(yes|no)"),
        one("note", "[a-zé'\" \\\\$`|;]{0,9}[a-z]"),
        one("tip", "(split|rounded|pointed|\\?)"),
        one("rows", "[1-9](\\.\\.[1-3][0-9])?"),
    ];
    Vec::from(words).prop_map(|words| words.into_iter().flatten().collect())
}

proptest! {
    #[test]
    fn any_entry_that_is_read_is_printed_so_that_it_reads_back(words in any_words()) {
        let traits = Traits::embedded();
        let reader = Reader { traits: &traits, bare: None, days: Calendar::FILES };
        if let Ok(draft) = reader.read(&words) {
            let of: Subject = "26-014".parse().expect("a number");
            let day = Date::constant(2026, 9, 1);
            let entry = draft.entry(1, of.clone(), day);
            let printed = entry.print();
            let again = reader.read_line(&printed).map(|draft| draft.entry(1, of, day));
            prop_assert_eq!(again, Ok(entry), "{}", printed);
        }
    }

    #[test]
    fn any_line_is_read_or_refused_without_panic(line in "([a-z]{1,9}=.{0,9} ?){0,4}.{0,9}") {
        let _ = read(&line);
    }
}
