use super::*;
use crate::colour::Vocabulary;
use crate::form::RuleSet;
use crate::order::{Candidates, Frost, ListContext, settle_candidates};
use crate::variety::{Index, IndexContext, Uses};
use jiff::civil::date;

const LIST: &str = r#"[
  (name: "Haaf Bell", form: (id: "ball", known: keyed), stems_a_week: 1.0, on_hand: 100),
  (name: "Haaf Drift", form: (id: "single", known: keyed), on_hand: 100),
]"#;
/// Seven plants too many for the first need, a plant too few for the last, which is fixed by the bed.
const PLAN: &str = r#"(
  ordered: "2027-01-15",
  season: (last_frost: (date: "2027-05-01"), first_frost: (date: "2027-10-10"), planted: "2027-05-01", stems_a_week: 1.0, plants_lost: 10.0, stems_lost: 10.0),
  beds: [(name: "sea wall", length: "20m", width: "400mm", spacing: "400mm")],
  storage_kept: 100.0,
  needs: [
    (name: "stall", stems: STALL, weeks: (35, 38), forms: ["ball"]),
    (name: "chapel", stems: 8, weeks: (34, 39), forms: ["single"]),
  ],
)"#;

/// The chances of an order of 30 balls and 20 singles, of which the stall needs so many stems a week.
fn drawn(stall: u32, spreads: Spreads, change: impl FnOnce(&mut Plan)) -> Chances {
    let text = PLAN.replace("STALL", &stall.to_string());
    let mut plan = Plan::read("order.ron", &text).expect("a plan");
    change(&mut plan);
    let list = Varieties::read("varieties.ron", LIST).expect("a list");
    let (rules, uses, words) = (
        RuleSet::embedded().remove(0),
        Uses::embedded(),
        Vocabulary::embedded(),
    );
    let grounds = IndexContext {
        rules: &rules,
        uses: &uses,
        words: &words,
        stems_a_plant: 8.0,
        season: None,
    };
    let index = Index::new(&list, grounds);
    let against = ListContext {
        list: &list,
        index: &index,
        grounds,
        sure: crate::order::USUALLY_SURE,
    };
    let candidates = Candidates::of(&plan, against).expect("candidates");
    let settled = settle_candidates(candidates.clone(), &mut |_| false);
    let mut choice = settled.order.expect("an order").choice;
    choice.plants = vec![30, 20];
    let order = Order::of(&candidates, choice);
    let seasons = Seasons::of(&plan, &candidates, &list, spreads, 0..300);
    of_seasons(&seasons, &candidates, &order.choice.plants)
}

fn of(chances: &Chances, need: usize, week: u8) -> f64 {
    let own = chances.met[need].iter().find(|one| one.0 == week);
    own.expect("a week").1
}

/// Worked by hand: 30 plants at full flower give 30 * 0.81 = 24.3 stems a week.
#[test]
fn a_certain_season_is_sure_either_way() {
    for (stall, chance) in [(24, 1.0), (25, 0.0)] {
        let chances = drawn(stall, Spreads::none(), |_| ());
        for week in 35..=38 {
            assert_eq!(of(&chances, 0, week), chance, "{stall} in week {week}");
        }
        assert_eq!(chances.throughout, [chance, 1.0]);
        for (week, [low, middle, high]) in chances.grown {
            assert!(low == middle && middle == high, "week {week}");
        }
    }
}

#[test]
fn chances_fall_as_spreads_widen() {
    let wider = |by: f64| Spreads {
        season: 0.15 * by,
        known: 0.10 * by,
        unknown: 0.25 * by,
        lost: Some(40.0 / by),
    };
    let chances = [0.3, 0.6, 1.0, 1.5, 2.5].map(|by| drawn(20, wider(by), |_| ()));
    for pair in chances.windows(2) {
        for need in 0..2 {
            let [before, after] = [0, 1].map(|at: usize| pair[at].throughout[need]);
            assert!(after <= before, "{before} {after}");
        }
    }
    assert!(chances[0].throughout[0] > chances[4].throughout[0] + 0.2);
    for one in &chances {
        for (met, throughout) in one.met.iter().zip(&one.throughout) {
            assert!(met.iter().all(|(_, chance)| chance >= throughout));
        }
    }
}

#[test]
fn chances_fall_as_the_frost_is_less_sure() {
    let frost = |day: &str| {
        let risks =
            format!(r#"(risks: [(chance: 10, on: "{day}"), (chance: 50, on: "2027-10-10")])"#);
        let chances = drawn(20, Spreads::none(), |plan| {
            plan.season.first_frost =
                crate::problem::read_ron("order.ron", &risks).expect("a frost");
        });
        of(&chances, 1, 39)
    };
    let chances = ["2027-10-08", "2027-10-01", "2027-09-21", "2027-09-01"].map(frost);
    assert!(
        chances.windows(2).all(|pair| pair[1] < pair[0]),
        "{chances:?}"
    );
    // Worked by hand: 20 singles give 16.2 a week, so 8 take four days of week 39, and the frost comes
    // on 1 October or later: 9.5 days before the middle, where 19 are 1.2816 deviations, 0.64 of them.
    assert!((chances[2] - 0.739).abs() < 0.06, "{chances:?}");
}

/// Worked by hand: with a frost on 4 October, a Monday, week 39 is the last, and nothing is cut in
/// week 40; where it may come later, something is.
#[test]
fn a_first_frost_later_than_planned_lets_cutting_go_on() {
    let planned = |plan: &mut Plan| {
        plan.season.first_frost = Frost::on(date(2027, 10, 4));
        plan.needs[1].weeks = (34, 40);
    };
    let sure = drawn(20, Spreads::none(), planned);
    assert_eq!(of(&sure, 1, 39), 1.0);
    assert_eq!(of(&sure, 1, 40), 0.0);
    let open = drawn(20, Spreads::none(), |plan| {
        planned(plan);
        let frost = r#"(risks: [(chance: 10, on: "2027-09-20"), (chance: 50, on: "2027-10-04")])"#;
        plan.season.first_frost = crate::problem::read_ron("order.ron", frost).expect("a frost");
    });
    assert!(
        of(&open, 1, 39) < 1.0 && of(&open, 1, 40) > 0.0,
        "{open:#?}"
    );
}

/// What grows in each season, reckoned day by day as the season's own words have it.
#[test]
fn what_grows_is_what_the_season_gives() {
    let counted = r#"[(variety: "Haaf Drift", plants: 4, stems: [(34, 9), (35, 12), (36, 8)])]"#;
    let text = PLAN.replace("STALL", "20").replace(
        "stems_lost: 10.0",
        &format!("stems_lost: 10.0, counted: {counted}"),
    );
    let text = text.replace(
        r#"(date: "2027-10-10")"#,
        r#"(risks: [(chance: 10, on: "2027-09-13"), (chance: 50, on: "2027-10-01")])"#,
    );
    let text = text.replace(
        r#"(date: "2027-05-01")"#,
        r#"(risks: [(chance: 90, on: "2027-04-20"), (chance: 10, on: "2027-05-20")])"#,
    );
    let plan = Plan::read("order.ron", &text).expect("a plan");
    let list = Varieties::read("varieties.ron", LIST).expect("a list");
    let candidates = Candidates {
        wholes: Vec::new(),
        model: Model::default(),
        weeks: (33..=40).collect(),
        rows: vec![0, 1],
        first_cuts: vec![13, 12],
        offers: Vec::new(),
        offered: Vec::new(),
        matches: Vec::new(),
        sure: Vec::new(),
        aside: crate::order::SetAside::default(),
        notes: Vec::new(),
    };
    let seasons = Seasons::of(&plan, &candidates, &list, Spreads::assumed(), 7..207);
    let (mut frosty, mut late) = (0, 0);
    for (at, number) in (7..207).enumerate() {
        let season = drawn::Drawn::of(&plan.season, Spreads::assumed(), number);
        late += usize::from(season.late > 0);
        for (candidate, variety) in list.list().iter().enumerate() {
            let known = plan.season.knows(variety);
            let own = season.of_variety(&variety.name, known);
            let stems = own.stems / plan.season.plants_kept();
            let stand = own.standing(17) * stems;
            let first = candidates.first_cuts[candidate];
            let weeks = &candidates.weeks;
            let given = plan
                .season
                .given(variety, first, weeks, season.late, season.frost);
            let given = given.into_iter().map(|of_one| of_one * stand);
            let given: Vec<i64> = given
                .map(|stems| crate::order::season::thousandths(stems) as i64)
                .collect();
            frosty += usize::from(given[0] > 0 && given[7] == 0);
            assert_eq!(seasons.grown(candidate, 17, at..at + 1), given, "{number}");
        }
    }
    assert!(frosty > 20 && late > 20, "{frosty} {late}");
}
