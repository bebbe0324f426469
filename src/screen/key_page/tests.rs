//! The Key page: keys in, screen out.

use crate::form::{Answer, Answers, Status};
use crate::measure::SizeUnits;
use crate::screen::tests::LEAST;
use crate::screen::tests::{KEYERS, USUAL, app, check, play, presses, screen, without_drawing};
use crate::screen::theme::Theme;
use crate::screen::{App, Message};

/// What a grower sees of a ball, a single and a straight cactus.
const BALL: &str = "centre=closed rows=12 roll=forward rolled=90 line=straight tip=rounded set=regular outline=globe gradient=even width=broad heart=round diameter=98mm";
const SINGLE: &str = "centre=open rows=1 collar=none roll=flat rolled=0 line=straight tip=rounded set=regular outline=saucer gradient=even width=broad diameter=90mm";
const CACTUS: &str = "centre=closed rows=9 roll=back rolled=55 line=straight tip=pointed set=regular outline=deep gradient=even width=narrow heart=round diameter=140mm";

/// The presses that answer what the page asks of such a bloom until its form is settled.
fn presses_for(bloom: &str) -> String {
    let pairs: Vec<&str> = bloom.split_whitespace().collect();
    let traits = &KEYERS[0].set.traits;
    let seen = Answers::read(&pairs, traits).expect(bloom);
    let mut app = app();
    let mut keys = String::new();
    while let Some(asked) = app.key.reading().ask {
        let answer = match seen.get(asked.index) {
            Some(Answer::States(mask)) => (mask.trailing_zeros() + 1).to_string(),
            Some(answer) => answer.print(traits.get(asked.index)).replace("mm", "") + "<enter>",
            None => "0".to_string(),
        };
        play(&mut app, &answer);
        keys += &answer;
    }
    keys
}

#[test]
fn the_page_at_its_usual_size() {
    let mut app = app();
    app.update(Message::Resize(USUAL.0, USUAL.1));
    // The drawing is in Braille dots, shown to be there and not dot by dot.
    let shown = without_drawing(&screen(&app, USUAL));
    let expected = "
  trug [Key] Choose  Row  Order  Stock  Tags              by the trade's forms
────────────────────────────────────────────────────────────────────────────────
Answers             │ Question: centre              │ Forms: 35 fit
> centre ?          │ What is at the centre of the  │ + anemone               3%
                    │ bloom?                        │ + micro anemone         3%
                    │ At full bloom, before it goes │ + single                3%
                    │ over, look straight at the    │ + mignon single         3%
                    │ face.                         │ + collarette            3%
                    │                               │ … 30 more (w)
                    │  1 closed: only ray florets,  │ + fits - by a mistake
                    │    right to the middle        │
                    │  2 open: a flat disc of small │
                    │    yellow florets             │
                    │  3 pincushion: a dome of long │
                    │    tubes (disc florets)       │
                    │  0 I can't tell (or Space)    │
────────────────────────────────────────────────────│
  Answer what you can see. Any answer can be        │
  changed or taken back, and none has to be given.  │
1                2                3                 │
                                                    │
                                                    │
                                                    │ face; arrow to the middle
  + several  / find  o forms  g words  n new  w why  Tab page  ? keys  q quit";
    assert_eq!(shown, expected.trim_start_matches('\n'), "\n{shown}");
}

#[test]
fn blooms_are_keyed() {
    for (bloom, size, seen) in [
        (
            BALL,
            USUAL,
            &[
                "This bloom is a",
                "  BALL",
                "89 to 102 mm across (size",
                "miniature)",
                "a look again",
                "n the next bloom",
            ][..],
        ),
        (
            BALL,
            (140, 45),
            &["not with tip rounded", "- micro semi-cactus"],
        ),
        (BALL, (60, 16), &["  BALL", "= Settled: ball, 89 to 102 mm"]),
        (SINGLE, USUAL, &["  SINGLE", "+ single"]),
        (
            CACTUS,
            USUAL,
            &[
                "  STRAIGHT CACTUS",
                "= Settled: straight cactus, 102 to 152 mm",
                "across (size small).",
            ],
        ),
    ] {
        check(&presses_for(bloom), size, seen);
    }
    // Under the other rules the same answers are read anew, and the next question is theirs.
    let other = presses_for(BALL) + "r";
    check(
        &other,
        USUAL,
        &["by the international register's", "The same answers"],
    );
    for (keys, seen) in [
        // A contradiction names the answers and what would mend it.
        (
            "/roll<enter>1/rolled<enter>30<enter>",
            &[
                "Forms: none fits",
                "roll and rolled cannot all be",
                "- semi-cactus",
            ][..],
        ),
        // Near a limit: how many more to measure.
        (
            "1d98 90 85<enter>/roll<enter>2",
            &["Close: the mean is above 88.9 mm", "91 mm, 3 blooms"],
        ),
    ] {
        check(keys, USUAL, seen);
    }
}

#[test]
fn answers_are_entered_changed_and_taken_back() {
    for (keys, seen) in [
        ("1d98 104<enter>", &["101 mm,", "diameter"][..]),
        ("1d98 10", &["[98 10_]", "= 54 mm, 2 blooms"]),
        (
            "1d98x<enter>",
            &["[98x_]", "! diameter: found \"98x\"", "Esc drop it"],
        ),
        ("1d98x<enter><back><enter>", &["diameter 98 mm"]),
        (
            "/roll<enter>+12",
            &["*1 flat", "*2 forward", "Enter one of those"],
        ),
        ("/roll<enter>m12<enter>", &["flat or forward"]),
        ("+<enter>", &["Nothing is marked"]),
        ("+12<esc>", &[" 1 closed", "> centre ?"]),
        (
            "1d98<enter><up>",
            &["> diameter 98 mm", "now 98 mm", "go on: Down"],
        ),
        ("1d98<enter><up>104<enter>", &["diameter 104 mm"]),
        ("1d98<enter><up><enter>", &["[98mm_]"]),
        ("1d98<enter><up><up>2", &["centre open"]),
        ("1<up><enter>2<enter>", &["closed or open"]),
        (
            "1d98<enter><back>",
            &["Took back: diameter", "Forms: 21 fit"],
        ),
        (
            "1d98<enter><up><up><back>",
            &["Took back: centre", "  diameter 98 mm"],
        ),
        ("1d98<enter>uu", &["> centre ?", "Undone."]),
        ("1d98<enter>uu<c-r><c-r>", &["diameter 98 mm"]),
        ("1n", &["A new bloom.", "> centre ?"]),
        ("1nu", &["centre closed"]),
        ("0", &["centre passed"]),
        (" ", &["centre passed"]),
        ("7", &["There is no 7 here: 1 to 3"]),
        ("d3 1/2 in<enter>", &["diameter 88.9 mm"]),
        ("/diamter<enter>98<enter>", &["diameter 98 mm"]),
        ("/zzzz<enter>", &["No trait is like that"]),
        ("/tip<esc>", &["> centre ?"]),
        ("             1", &["Nothing is asked now"]),
        ("n", &["This is a new bloom already"]),
        ("<back>", &["There is no answer here"]),
        ("u<c-r>", &["There is nothing to redo"]),
        ("a", &["There is no answer yet"]),
        ("1<up>a1", &["closed (again)"]),
        ("1<up>a ", &["centre closed", "Forms: 21 fit"]),
        ("w", &["Every form: how likely", "Your answers"]),
        (
            "w<end>",
            &["Everything in full", "Esc closes", "Down, Up, Page Down"],
        ),
        ("w<esc>", &["> centre ?"]),
        // A part of a length by eye, and what cannot be counted.
        ("/rolled<enter>1/4", &["[1/4_]", "= about a quarter"]),
        (
            "/rolled<enter>3/4<enter>",
            &["about three", "quarters (70 %", "to 80 %)"],
        ),
        (
            "/rolled<enter><enter>half<enter>",
            &["about half (45", "% to 55 %)"],
        ),
        (
            "/rolled<enter><enter>a third<enter>",
            &["about a third", "(28.3 % to"],
        ),
        ("/rolled<enter><enter>two thirds<enter>", &["about two"]),
        (
            "/rolled<enter><enter><esc>",
            &["1/4 1/3 1/2 by eye", "Enter, half"],
        ),
        (
            "/rolled<enter>",
            &["2/3 3/4     by eye", "Enter, half in words"],
        ),
        ("/rows<enter>", &["10+         ten or more"]),
        ("/rows<enter>10+<enter>", &["rows at least 10"]),
        ("/rows<enter>10 or more<enter>", &["rows at least 10"]),
        // On both sides of a limit, and that is said.
        (
            "/centre<enter>1/tip<enter>2/roll<enter>3/line<enter>2/rolled<enter>1/2<enter>",
            &["Close: about half (45 % to 55 %) for", "both sides of 50 %"],
        ),
        // The words of the question, then all others.
        (
            "g",
            &[
                "Words of this question",
                "ray floret",
                "disc floret",
                "Other words of the trade",
                "revolute",
            ],
        ),
        (
            "/roll<enter>g",
            &["involute      with edges rolled forward", "revolute"],
        ),
        ("g<esc>", &["> centre ?"]),
        ("o<home>g", &["Words of this form", "ray floret"]),
        ("?", &["Keys: at a question", "At a question", "Esc closes"]),
        ("d9<f1>", &["While a number is typed"]),
    ] {
        check(keys, USUAL, seen);
    }
}

/// From a new bloom to its form, with even odds before the first answer; Enter included.
#[test]
fn a_bloom_takes_few_keys() {
    for (bloom, form, most) in [
        (BALL, "ball", 11),
        (SINGLE, "single", 9),
        (CACTUS, "straight-cactus", 11),
        ("centre=pincushion diameter=75mm", "anemone", 4),
    ] {
        let keys = presses_for(bloom);
        let mut app = app();
        play(&mut app, &keys);
        let Status::Settled(settled) = app.key.reading().verdict.status else {
            panic!("{keys} does not settle\n{}", screen(&app, USUAL));
        };
        assert_eq!(KEYERS[0].set.forms[settled].id, form);
        assert!(presses(&keys).len() <= most, "{form}: {keys}");
    }
}

#[test]
fn a_bare_number_is_in_the_growers_units() {
    let mut app = App::new(KEYERS[0].clone(), Vec::new(), SizeUnits::In, Theme::Plain);
    play(&mut app, "d3 1/2 4<enter>");
    let answers = Answers::read(&["diameter=88.9mm,101.6mm"], &KEYERS[0].set.traits).expect("two");
    assert_eq!(app.key.answers(), &answers);
    assert!(screen(&app, USUAL).contains("3.75 in,"));
}

/// Every question with where to look, all its states and the way to pass it, whole at the usual
/// size; at the least size every state still has its row.
#[test]
fn every_question_fits() {
    for one in KEYERS[0].set.traits.list() {
        for size in [USUAL, LEAST] {
            let mut app = app();
            app.update(Message::Resize(size.0, size.1));
            play(&mut app, &format!("/{}<enter>", one.id));
            let shown = without_drawing(&screen(&app, size));
            let middles = shown
                .lines()
                .filter_map(|line| line.split('\u{2502}').nth(1));
            let middle: Vec<&str> = middles.collect();
            assert!(
                !middle.iter().any(|row| row.contains("more (w)")),
                "{} at {size:?}\n{shown}",
                one.id
            );
            // Indented rows and all, as one text.
            let whole: Vec<&str> = middle
                .iter()
                .flat_map(|row| row.split_whitespace())
                .collect();
            let whole = whole.join(" ");
            let states = one.states().iter().map(|state| &state.means);
            for text in [&one.ask, &one.look].into_iter().chain(states) {
                let seen = whole.contains(text.as_str());
                assert!(seen || size == LEAST, "{text} at {size:?}\n{shown}");
            }
            for state in 1..=one.states().len() {
                assert!(
                    middle.iter().any(|row| row.contains(&format!(" {state} "))),
                    "{} at {size:?}\n{shown}",
                    one.id
                );
            }
        }
    }
}

#[test]
fn a_bloom_half_keyed_before_is_gone_on_with_where_it_was_left() {
    for (keys, size) in [
        ("1", 1),
        ("1/tip<enter>+13<enter>/rows<enter>4-7<enter> ", 4),
        // A trait looked at twice, and a number half typed.
        ("1/tip<enter>1<up>a2d98 10", 3),
        ("d3 1/2", 1),
    ] {
        let mut left = app();
        play(&mut left, keys);
        let bloom = left.key.half_keyed("2026-08-20").expect("a bloom in hand");
        let words = bloom.answers.len() + usize::from(bloom.typed.is_some());
        assert!(words >= size, "{keys}: {bloom:?}");

        let mut next = app().with_half_keyed(vec![bloom.clone()]);
        assert!(next.key.answers().is_empty());
        let shown = screen(&next, USUAL);
        assert!(shown.contains("half keyed on 2026-08-20"), "{shown}");
        play(&mut next, "k");
        assert_eq!(next.key.half_keyed("2026-08-20").as_ref(), Some(&bloom));
        assert_eq!(next.key.answers(), left.key.answers());
        assert_eq!(next.key.settled(), [bloom]);
        assert!(!screen(&next, USUAL).contains("is kept: k"));
    }
    assert_eq!(app().key.half_keyed("2026-08-20"), None);
}

#[test]
fn a_bloom_kept_from_before_is_dropped_only_where_it_is_asked_for() {
    let mut left = app();
    play(&mut left, "1");
    let mut bloom = left.key.half_keyed("2026-08-20").expect("a bloom");
    bloom.answers.push("no such trait".to_string());
    let mut next = app().with_half_keyed(vec![bloom.clone()]);
    // Another bloom is in hand.
    play(&mut next, "2xk");
    assert_eq!(next.key.settled(), []);
    play(&mut next, "<back>x");
    assert_eq!(next.key.settled(), [bloom.clone()]);
    assert!(next.key.answers().is_empty());

    let mut next = app().with_half_keyed(vec![bloom]);
    play(&mut next, "k");
    let note = next.key.note.as_deref().unwrap_or_default();
    assert!(
        note.contains("1 of its answers could not be read"),
        "{note}"
    );
}
