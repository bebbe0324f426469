//! What a tag says of a plant of which little is known, and that it says more once that is seen.

use super::tests::grounds_of;
use super::*;

/// A ball with every trait answered.
const BALL: &str = "centre=closed outline=globe tip=rounded set=regular roll=forward rolled=90 line=straight gradient=even rows=14";

/// The claim about a seedling of which these observations were noted, one a day from 1 August.
fn claim(about: About, observed: &[&str]) -> Option<String> {
    claim_of("26-001", "[]", about, observed)
}

/// The claim about a variety of this list, or about the seedling 26-001.
fn claim_of(id: &str, list: &str, about: About, observed: &[&str]) -> Option<String> {
    let entries = observed.iter().zip(1..).map(|(what, day)| {
        format!("(id: {day}, date: \"2026-08-{day:02}\", of: \"{id}\", what: observed(({what}))),")
    });
    let book = format!("[{}]", entries.collect::<String>());
    grounds_of(list, "[(number: \"26-001\")]", &book, |grounds| {
        let says = grounds.of(&id.parse().expect("a name or a number"));
        let fact = says.facts.into_iter().find(|fact| fact.about == about);
        fact.map(|fact| fact.text)
    })
}

/// `count` blooms of so many mm, as they are written.
fn blooms(count: usize, mm: u32) -> String {
    let sizes = (0..count).map(|at| format!("\"{}mm\",", mm + at as u32 % 3));
    format!("diameters: [{}]", sizes.collect::<String>())
}

fn vase(count: usize, days: &str) -> String {
    format!("vase: [{}]", format!("\"{days}\",").repeat(count))
}

#[test]
fn a_seedling_with_no_trait_looked_at_has_no_form_and_no_use() {
    let blooms = blooms(12, 86);
    assert_eq!(
        claim(About::Form, &[&blooms]).as_deref(),
        Some("form not yet known")
    );
    assert_eq!(claim(About::Uses, &[&blooms]), None);
}

#[test]
fn one_bloom_measured_and_nothing_else_is_told_as_that() {
    let one = "diameters: [\"85mm\"]";
    assert_eq!(
        claim(About::Form, &[one]).as_deref(),
        Some("form not yet known")
    );
    assert_eq!(claim(About::Uses, &[one]), None);
    assert_eq!(
        claim(About::Size, &[one]).as_deref(),
        Some("1 bloom measured so far: 8.5 cm, 3.3 in")
    );
}

#[test]
fn looks_of_three_days_that_contradict_make_no_form() {
    let looks = [
        "bloom: \"centre=closed tip=split set=wavy\", diameters: [\"110mm\"]",
        "bloom: \"centre=closed tip=pointed roll=back rolled=90 line=straight set=regular\"",
        "bloom: \"centre=closed tip=rounded roll=flat set=regular outline=saucer\"",
    ];
    assert_eq!(
        claim(About::Form, &looks).as_deref(),
        Some("form not yet known")
    );
    assert_eq!(claim(About::Uses, &looks), None);
}

/// Between two forms is said where it is measured and sure that it is one of the two.
#[test]
fn a_straddle_is_said_where_it_is_sure_to_be_one_of_the_two() {
    let ball = format!("bloom: \"{BALL}\", diameters: [\"87mm\", \"90mm\", \"88mm\", \"91mm\"]");
    assert_eq!(
        claim(About::Form, &[&ball]).as_deref(),
        Some("between miniature ball and ball")
    );
    // Of a form that is one of two nothing is expected, and no use rests on it.
    let storm = "weather: [\"wind:0/30\"]";
    let told = claim(About::Uses, &[&ball, storm, &blooms(20, 87)]);
    assert!(!told.unwrap_or_default().contains("expected"));
    // The same blooms, and nobody looked at their traits.
    let bare = "diameters: [\"87mm\", \"90mm\", \"88mm\", \"91mm\"]";
    assert_eq!(
        claim(About::Form, &[bare]).as_deref(),
        Some("form not yet known")
    );
    // Two blooms of 60 and 118 mm may as well be a pompon's.
    let wide = format!("bloom: \"{BALL}\", diameters: [\"60mm\", \"118mm\"]");
    assert_eq!(
        claim(About::Form, &[&wide]).as_deref(),
        Some("form not yet known")
    );
}

#[test]
fn a_few_blooms_in_the_weather_make_no_plant_for_an_exposed_place() {
    let ball = format!("bloom: \"{BALL}\", {}", blooms(12, 100));
    let uses = |weather: &str| claim(About::Uses, &[&ball, &format!("weather: [{weather}]")]);
    let own = |weather: &str| {
        let told = uses(weather).unwrap_or_default();
        let own = told.split("; ").find(|part| !part.starts_with("expected"));
        own.is_some_and(|part| part.contains("stands wind and rain"))
    };
    assert!(own("\"wind:0/12\""));
    for few in ["\"wind:0/2\"", "\"rain:0/1\"", "\"wind:0/5\", \"rain:0/4\""] {
        assert!(!own(few), "{few}");
        // Of a ball it may be expected.
        let told = uses(few).expect("a ball has uses");
        assert!(
            told.contains("expected of its form: ") && told.contains("stands wind and rain"),
            "{told}"
        );
    }
    // Scorching sun is neither wind nor rain.
    assert!(!own("\"sun:0/30\""));
    // A kind that did harm and is not surely under the limit is not made good by another.
    assert!(!own("\"wind:0/60\", \"rain:3/5\""));
    // Nothing but weather: no form of which anything could be expected, and no use of its own.
    for weather in ["weather: [\"wind:0/2\"]", "weather: [\"rain:0/1\"]"] {
        assert_eq!(claim(About::Uses, &[weather]), None, "{weather}");
    }
}

#[test]
fn a_median_is_said_of_as_many_stems_as_the_gate_asks_for() {
    for few in [vase(1, "6"), vase(9, "6"), vase(9, "6+")] {
        assert_eq!(claim(About::Vase, &[&few]), None, "{few}");
    }
    for (stems, told) in [
        (vase(10, "6"), "in the vase: 6 days (median of 10 stems)"),
        (vase(10, "1"), "in the vase: 1 day (median of 10 stems)"),
        (
            vase(10, "1+"),
            "in the vase: over 1 day (over half of 10 stems still fresh then)",
        ),
        (
            vase(10, "7"),
            "good in the vase: 7 days (median of 10 stems)",
        ),
    ] {
        assert_eq!(claim(About::Vase, &[&stems]).as_deref(), Some(told));
    }
    // One stem is no ground for a use either, though it is all that is known.
    assert_eq!(claim(About::Uses, &[&vase(1, "8")]), None);
}

#[test]
fn a_colour_word_stays_a_word_and_a_measured_colour_has_its_name() {
    for (colours, told) in [
        (&["colours: [\"peach\"]"][..], "peach"),
        (
            &["colours: [\"peach\", \"second:white\"]"],
            "peach blending into white",
        ),
        (&["colours: [\"#e05040\"]"], "strong reddish orange"),
        (
            &["colours: [\"#e05040\"]", "colours: [\"coral\"]"],
            "coral (strong reddish orange)",
        ),
        (
            &["colours: [\"peach\"]", "colours: [\"coral\"]"],
            "coral or peach",
        ),
    ] {
        assert_eq!(
            claim(About::Colour, colours).as_deref(),
            Some(told),
            "{colours:?}"
        );
    }
}

#[test]
fn a_mean_and_its_word_are_said_of_as_many_blooms_as_the_gate_asks_for() {
    let size = |count| claim(About::Size, &[&blooms(count, 99)]);
    assert_eq!(
        size(9).as_deref(),
        Some("9 blooms measured so far: 9.9 to 10.1 cm, 3.8 to 4 in")
    );
    assert_eq!(
        size(12).as_deref(),
        Some("mean 10 cm, 3.9 in across (size miniature), 12 blooms")
    );
}

#[test]
fn a_season_is_said_of_as_many_years_as_the_gate_asks_for() {
    let one = ["vase: [\"6\"]", "", "diameters: [\"99mm\"]"];
    assert_eq!(
        claim(About::Season, &one).as_deref(),
        Some("seen in bloom so far in August 2026")
    );
}

#[test]
fn a_use_is_a_plants_own_where_its_heaviest_want_was_seen_on_it() {
    let ball = format!("bloom: \"{BALL}\", {}", blooms(12, 100));
    let uses = |stems: usize| claim(About::Uses, &[&ball, &vase(stems, "9")]);
    let own = |stems: usize| {
        let told = uses(stems).expect("a ball has uses");
        let own = told.split("; ").find(|part| !part.starts_with("expected"));
        own.is_some_and(|part| part.contains("a cut flower for bunches"))
    };
    assert!(own(10) && !own(9));
    // A form that the list states is known as far as something may be expected of it.
    let stated = "[(name: \"Haaf Said\", form: (id: \"ball\", known: stated))]";
    let told = claim_of("Haaf Said", stated, About::Uses, &[]).expect("a ball has uses");
    assert!(told.starts_with("expected of its form: "), "{told}");
}

#[test]
fn a_list_keyed_form_stands_where_the_row_looked_at_no_trait() {
    let keyed = "[(name: \"Haaf Keyed\", form: (id: \"formal-decorative\", known: keyed))]";
    let told = claim_of("Haaf Keyed", keyed, About::Form, &["diameters: [\"72mm\"]"]);
    assert_eq!(told.as_deref(), Some("formal decorative"));
}

/// A drawing of a form is a claim of it.
#[test]
fn no_form_is_drawn_that_is_not_told() {
    let drawn = |what: &str| {
        let book =
            format!("[(id: 1, date: \"2026-08-01\", of: \"26-001\", what: observed(({what})))]");
        grounds_of("[]", "[(number: \"26-001\")]", &book, |grounds| {
            grounds
                .of(&"26-001".parse().expect("a number"))
                .bloom
                .is_some()
        })
    };
    assert!(!drawn("diameters: [\"85mm\"]"));
    assert!(drawn(&format!("bloom: \"{BALL}\", diameters: [\"100mm\"]")));
}
