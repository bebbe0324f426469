//! Every check of the gate on either side of its figure, and what must never be: that more which
//! speaks against improves the advice.

use proptest::prelude::*;

use super::tests::{judged, ready, without};
use super::*;

/// The seedling with all that the gate wants, with these counts after weather in place of its own.
fn weathered(weather: &str) -> Advice {
    judged(&without("wind:2/20", weather)).0
}

/// The limits of the shares are scipy's: `binomtest(12, 17).proportion_ci().low` is 0.440,
/// `binomtest(19, 20)...low` 0.751, `binomtest(2, 20)...high` 0.317, `binomtest(1, 8)...high` 0.527
/// (scipy 1.17.1). 21 of 30 is the first count like 12 of 17 whose low is over 0.5: 0.506.
#[test]
fn damage_is_judged_by_its_interval_on_both_sides_of_the_limit() {
    for (weather, fate, told) in [
        (
            "wind:12/17",
            Fate::Hold,
            "watch it in more wind: 12 of 17 open blooms damaged, where 50 % is your limit; some 13 more would tell if they fare alike",
        ),
        (
            "rain:1/8",
            Fate::Hold,
            "watch it in more rain: 1 of 8 open blooms damaged, where 50 % is your limit; at least 1 more would tell",
        ),
        (
            "rain:1/2",
            Fate::Hold,
            "watch it in more rain: 1 of 2 open blooms damaged, where 50 % is your limit; at least 7 more would tell",
        ),
        (
            "wind:20/40",
            Fate::Hold,
            "decide by hand, or watch it in more wind: 20 of 40 open blooms damaged, too near your limit of 50 % for 60 more to tell",
        ),
        (
            "wind:19/20",
            Fate::Cull,
            "wind damaged 19 of 20 open blooms, surely over your limit of 50 %",
        ),
        (
            "wind:2/20",
            Fate::Keep,
            "wind damaged 2 of 20 open blooms, surely under your limit of 50 %",
        ),
    ] {
        let advice = weathered(weather);
        let said = match fate {
            Fate::Hold => &advice.missing,
            Fate::Keep | Fate::Cull => &advice.reasons,
        };
        assert_eq!(advice.fate, fate, "{weather}: {advice:?}");
        assert!(said.contains(&told.to_string()), "{weather}: {advice:?}");
    }
}

/// That no weather came is nobody's fault: it is asked for by no instruction and is no reason either.
#[test]
fn what_no_weather_told_is_said_as_not_known() {
    for (weather, told) in [
        ("", "how it stands wind and rain: no weather was noted"),
        (
            "wind:0/3",
            "how it stands wind: none of 3 open blooms damaged, too few to tell",
        ),
    ] {
        let line = match weather {
            "" => without("weather=wind:2/20", ""),
            _ => without("wind:2/20", weather),
        };
        let advice = judged(&line).0;
        assert_eq!(advice.fate, Fate::Keep, "{advice:?}");
        assert_eq!(advice.unknown, [told], "{advice:?}");
        let words = ["wind", "weather"];
        let spoken = |told: &&String| words.iter().any(|word| told.contains(word));
        assert_eq!(advice.reasons.iter().find(spoken), None);
    }
    assert_eq!(weathered("wind:2/20").unknown, Vec::<String>::new());
}

#[test]
fn no_kind_of_weather_hides_another() {
    // Of these two the many blooms in wind have the higher lower limit.
    let advice = weathered("wind:20/100,rain:2/3");
    assert_eq!(advice.fate, Fate::Hold, "{advice:?}");
    assert!(advice.missing[0].starts_with("watch it in more rain: 2 of 3"));
    assert!(
        advice
            .reasons
            .iter()
            .any(|told| told.starts_with("wind damaged 20 of 100"))
    );
    let advice = weathered("wind:19/20,sun:18/20");
    assert_eq!(advice.reasons.len(), 2, "{advice:?}");
}

/// By scipy, as above: of 10 stems that all lasted the lower limit is 0.692, of 9 of 11 0.482; 0 of
/// 10 has an upper limit of 0.309.
#[test]
fn a_vase_life_counts_once_half_the_stems_surely_outlast_the_limit() {
    let own = "7,8,8,9,6,7,9+,9+,8,7,7";
    for (vase, fate, told) in [
        (
            own,
            Fate::Keep,
            "11 stems tested in the vase, median 8 days",
        ),
        (
            "7,8,8,9,6,7,9+,9+,8,3,3",
            Fate::Hold,
            "test more stems in the vase: 9 of 11 lasted over 3.5 days, where half must; some 4 more would tell if they last alike",
        ),
        (
            "7,8,8,9,6,2,2,2,2,2",
            Fate::Hold,
            "decide by hand, or test more stems in the vase: 5 of 10 lasted over 3.5 days, too near half for 30 more to tell",
        ),
        (
            "2+,2+,2+,2+,2+,2+,2+,2+,2+,2+,2+",
            Fate::Hold,
            "test 10 more stems in the vase until they end: 0 of 11 show whether they last over 3.5 days",
        ),
        (
            "1,1,1,1,1,1,1,1,1,1",
            Fate::Cull,
            "0 of 10 stems lasted over 3.5 days in the vase: half of them surely do not",
        ),
    ] {
        let advice = judged(&without(own, vase)).0;
        let said = match fate {
            Fate::Hold => &advice.missing,
            Fate::Keep | Fate::Cull => &advice.reasons,
        };
        assert_eq!(advice.fate, fate, "{vase}: {advice:?}");
        assert!(said.iter().any(|one| one == told), "{vase}: {advice:?}");
    }
}

#[test]
fn tubers_count_once_their_share_is_seen_and_surely_over_the_limit() {
    let winter = |lifted: &str, sound: &str| {
        let lines = ready().into_iter();
        let lines = lines.map(|line| line.replace("tubers=10", lifted).replace("sound=9", sound));
        judged(&lines.collect::<Vec<_>>()).0
    };
    for (lifted, sound, fate, told) in [
        ("tubers=10", "sound=8", Fate::Keep, "8 of 10 tubers kept"),
        // scipy: the lower limit of 4 of 5 is 0.284.
        (
            "tubers=5",
            "sound=4",
            Fate::Hold,
            "store its tubers another winter: 4 of 5 tubers kept, too few to be sure of over 40 %",
        ),
        (
            "tubers=10",
            "sound=7",
            Fate::Hold,
            "store its tubers another winter: 7 of 10 tubers kept, and 80 % is wanted",
        ),
        (
            "tubers=10",
            "sound=0",
            Fate::Cull,
            "0 of 10 tubers kept, surely under your limit of 40 %",
        ),
    ] {
        let advice = winter(lifted, sound);
        let said = match fate {
            Fate::Hold => &advice.missing,
            Fate::Keep | Fate::Cull => &advice.reasons,
        };
        assert_eq!(advice.fate, fate, "{lifted} {sound}: {advice:?}");
        assert!(said.iter().any(|one| one == told), "{sound}: {advice:?}");
    }
}

#[test]
fn every_count_is_missing_one_short_and_met_at_its_least() {
    for (gate, word, short, enough) in [
        (
            Gate::Blooms,
            ",103mm,102mm,101mm",
            ",103mm,102mm",
            ",103mm,102mm,101mm",
        ),
        (Gate::Seasons, "2025-08", "2026-08", "2025-08"),
        (Gate::Plants, "plants=3", "plants=2", "plants=3"),
        (
            Gate::Vase,
            "7,8,8,9,6,7,9+,9+,8,7,7",
            "7,8,8,9,6,7,9+,9+,8",
            "7,8,8,9,6,7,9+,9+,8,7",
        ),
        (Gate::New, "lab(60 10 70)", "#f0a080", "lab(60 10 70)"),
        (Gate::Form, "outline=globe ", "", "outline=globe "),
    ] {
        for (with, state) in [(short, State::Missing), (enough, State::Met)] {
            let advice = judged(&without(word, with)).0;
            let check = advice.checks.iter().find(|check| check.gate == gate);
            assert_eq!(check.map(|one| one.state), Some(state), "{gate:?} {with}");
        }
    }
}

/// Of a plant whose form nobody knows it cannot be said that no variety of its form is near.
#[test]
fn a_colour_is_new_for_a_form_that_is_known() {
    let lines = ["date=2026-08-02 colour='lab(60 10 70)'".to_string()];
    let (advice, _) = judged(&lines);
    let new = advice.checks.iter().find(|check| check.gate == Gate::New);
    let new = new.expect("a check");
    assert_eq!(
        (new.state, new.told.as_str()),
        (
            State::Missing,
            "settle its form: whether its colour is new is asked among varieties of one form"
        )
    );
}

#[test]
fn a_novelty_is_declared_of_a_bloom_that_was_looked_at() {
    for (line, state) in [
        ("date=2026-08-02 diameter=100mm novelty=yes", State::Missing),
        ("date=2026-08-02 tip=split novelty=yes", State::Met),
    ] {
        let advice = judged(&[line.to_string()]).0;
        assert_eq!(advice.checks[0].state, state, "{line}: {advice:?}");
    }
}

/// How far the advice is from keeping.
fn rank(fate: Fate) -> u8 {
    match fate {
        Fate::Keep => 0,
        Fate::Hold => 1,
        Fate::Cull => 2,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Damage never improves the advice, whether a sound bloom turns out damaged or one more is
    /// found so; and one more sound bloom never makes it worse.
    #[test]
    fn more_damage_never_improves_the_advice(sound in 0_u32..40, damaged in 0_u32..40, other in 0_u32..9) {
        let advice = |damaged: u32, sound: u32| {
            let open = damaged + sound;
            // A count after weather is of one bloom at least.
            let wind = if open == 0 { String::new() } else { format!("wind:{damaged}/{open},") };
            rank(weathered(&format!("{wind}rain:{other}/12")).fate)
        };
        let here = advice(damaged, sound);
        prop_assert!(advice(damaged + 1, sound) >= here);
        prop_assert!(advice(damaged, sound + 1) <= here);
        if sound > 0 {
            prop_assert!(advice(damaged + 1, sound - 1) >= here);
        }
    }

    /// A stem that lasted longer, by its end or by the end of its test, never makes the advice worse.
    #[test]
    fn a_stem_that_lasted_longer_never_makes_the_advice_worse(
        stems in prop::collection::vec((1_u32..9, any::<bool>()), 1..16),
        at in any::<prop::sample::Index>(),
        more in 1_u32..6,
    ) {
        let advice = |stems: &[(u32, bool)]| {
            let words = stems.iter().map(|(days, ended)| format!("{days}{}", if *ended { "" } else { "+" }));
            let words: Vec<String> = words.collect();
            rank(judged(&without("7,8,8,9,6,7,9+,9+,8,7,7", &words.join(","))).0.fate)
        };
        let mut longer = stems.clone();
        longer[at.index(stems.len())].0 += more;
        prop_assert!(advice(&longer) <= advice(&stems), "{stems:?} {longer:?}");
    }

    /// One tuber more that is sound, of as many, never makes the advice worse.
    #[test]
    fn a_sound_tuber_never_makes_the_advice_worse(lifted in 1_u32..20, rotten in 1_u32..20) {
        prop_assume!(rotten <= lifted);
        let advice = |sound: u32| {
            let lines = ready().into_iter().map(|line| {
                line.replace("tubers=10", &format!("tubers={lifted}"))
                    .replace("sound=9", &format!("sound={sound}"))
            });
            rank(judged(&lines.collect::<Vec<_>>()).0.fate)
        };
        prop_assert!(advice(lifted - rotten + 1) <= advice(lifted - rotten));
    }
}
