//! What a longer season, more room, money or care may do to an order: never harm. And what is advised
//! where an order falls short does, when it is made, what it said.

use crate::common::order_lane;

use crate::common::order_lane::{Lane, PLAN, hundredths};
use crate::common::orders::Demo;
use jiff::ToSpan;
use jiff::civil::Date;
use proptest::prelude::*;
use trug::order::{
    By, Candidates, Frost, ListContext, Method, Plan, RowCount, Settled, Status, mends, settle,
};
use trug::variety::{Index, Money, StemsAWeek, Text, Varieties};

/// Two varieties of their own figures, one of the plan's, one in store.
const LIST: &str = r#"[
  (name: "Haaf Bell", form: (id: "ball", known: keyed), colours: [(colour: "plum", part: main, pattern: self)], stems_a_week: 1.2, offers: [(supplier: "Oar Bulbs", price: "4.00", pack: 1), (supplier: "Ebb Nursery", price: "9.00", pack: 3)]),
  (name: "Haaf Drift", form: (id: "single", known: keyed), colours: [(colour: "white", part: main, pattern: self)], offers: [(supplier: "Oar Bulbs", price: "3.00", pack: 1)]),
  (name: "Ebb Wine", form: (id: "ball", known: keyed), colours: [(colour: "wine", part: main, pattern: self)], stems_a_plant: 7, offers: [(supplier: "Ebb Nursery", price: "7.50", pack: 5)]),
  (name: "Ebb Kist", form: (id: "ball", known: keyed), colours: [(colour: "white", part: main, pattern: self)], on_hand: 10),
]"#;

/// The demo with another list and plan.
fn bench(list: &str, plan: Plan) -> Demo {
    Demo {
        list: Varieties::read("varieties.ron", list).expect("a list"),
        plan,
        ..Demo::read()
    }
}

fn with<T>(demo: &Demo, then: impl FnOnce(ListContext<'_>) -> T) -> T {
    let index = Index::new(&demo.list, demo.grounds());
    then(ListContext {
        list: &demo.list,
        index: &index,
        grounds: demo.grounds(),
        sure: trug::order::USUALLY_SURE,
    })
}

fn settled(demo: &Demo) -> Settled {
    with(demo, |against| {
        settle(&demo.plan, against, &mut |_| false).expect("a plan that means something")
    })
}

/// What meeting every need costs, where it can be done.
fn cost(demo: &Demo) -> Option<Money> {
    let settled = settled(demo);
    assert_ne!(settled.status, Status::Unknown);
    let met = matches!(settled.status, Status::Optimal) && !settled.falls_short();
    met.then(|| settled.order.expect("an order").cost)
}

fn later(day: Date, days: i64) -> Date {
    day.checked_add(days.days()).expect("a day")
}

/// A change of a plan by so much.
type Betterment = fn(&mut Plan, u16);

/// Everything that can only do good, by so many days, thousandths or hundredths.
const BETTERMENTS: [(&str, Betterment); 11] = [
    ("planted earlier", |plan, by| {
        plan.season.planted = later(plan.season.planted, -i64::from(by % 60));
    }),
    ("a later frost", |plan, by| {
        let frost = plan.season.first_frost.middle();
        plan.season.first_frost = Frost::on(later(frost, i64::from(by % 60)));
    }),
    ("potted", |plan, _| plan.season.method = Method::Potted),
    ("a sooner first cut", |plan, by| {
        let weeks = plan.season.weeks_for("", None);
        plan.season.weeks_to_first_cut = Some(weeks.saturating_sub(u32::from(by % 5)));
    }),
    ("a longer bed", |plan, by| {
        let longer = format!("{}mm", 4_000 + u32::from(by) * 10);
        plan.beds[0].length = plan.beds[0].length.max(longer.parse().expect("a length"));
    }),
    ("more stems a week", |plan, by| {
        let more = plan.season.weekly_stems() + f64::from(by) / 500.0;
        plan.season.stems_a_week = StemsAWeek::try_from(more).ok();
    }),
    ("sooner at full flower", |plan, by| {
        let share = |share: &f64| (share + f64::from(by) / 1000.0).min(1.0);
        plan.season.ramp = plan.season.rise().iter().map(share).collect();
    }),
    ("fewer plants lost", |plan, by| {
        let lost = 100.0 * (1.0 - plan.season.plants_kept()) - f64::from(by) / 40.0;
        plan.season.plants_lost = Some(lost.max(0.0));
    }),
    ("fewer stems lost", |plan, by| {
        let lost = 100.0 * (1.0 - plan.season.stems_kept()) - f64::from(by) / 40.0;
        plan.season.stems_lost = Some(lost.max(0.0));
    }),
    ("more money", |plan, by| {
        let more = |money: Money| Money::hundredths(money.in_hundredths() + u64::from(by));
        plan.money = plan.money.map(more);
    }),
    ("more kept in store", |plan, by| {
        plan.storage_kept = Some((plan.storage() + f64::from(by) / 40.0).min(100.0));
    }),
];

#[derive(Debug, Clone)]
struct Drawn {
    planted: i64,
    frost: i64,
    weekly: u32,
    lost: (u32, u32),
    bed: u32,
    money: Option<u32>,
    needs: Vec<(u32, u8, u8, u8)>,
    counted: Option<(u32, Vec<u32>)>,
}

fn drawn() -> impl Strategy<Value = Drawn> {
    let need = (1..30_u32, 28..42_u8, 0..6_u8, 0..5_u8);
    let counted = (1..6_u32, prop::collection::vec(0..20_u32, 8));
    (
        -30..40_i64,
        -30..20_i64,
        1..25_u32,
        (0..40_u32, 0..40_u32),
        800..20_000_u32,
        prop::option::of(0..30_000_u32),
        prop::collection::vec(need, 1..4),
        prop::option::weighted(0.3, counted),
    )
        .prop_map(
            |(planted, frost, weekly, lost, bed, money, needs, counted)| Drawn {
                planted,
                frost,
                weekly,
                lost,
                bed,
                money,
                needs,
                counted,
            },
        )
}

/// The plan that was drawn; `None` where it makes no sense.
fn plan(drawn: &Drawn) -> Option<Plan> {
    let mut plan = Plan::read("order.ron", PLAN).expect("a plan");
    let season = &mut plan.season;
    season.planted = later(season.planted, drawn.planted);
    season.first_frost = Frost::on(later(season.first_frost.middle(), drawn.frost));
    season.stems_a_week = StemsAWeek::try_from(f64::from(drawn.weekly) / 10.0).ok();
    season.plants_lost = Some(drawn.lost.0.into());
    season.stems_lost = Some(drawn.lost.1.into());
    if let Some((plants, stems)) = &drawn.counted {
        season.counted.push(RowCount {
            variety: Text::new("Haaf Bell").expect("a name"),
            year: Some(2026),
            planted: (plants % 2 == 0).then(|| later(season.planted, -364)),
            plants: std::num::NonZeroU32::new(*plants).expect("some"),
            stems: (31..).zip(stems.iter().copied()).collect(),
        });
    }
    plan.beds[0].length = format!("{}mm", drawn.bed).parse().expect("a length");
    plan.money = drawn.money.map(|money| Money::hundredths(money.into()));
    let blank = plan.needs[0].clone();
    plan.needs = { drawn.needs.iter().enumerate() }
        .map(|(at, (stems, first, more, kind))| {
            let words = match kind {
                0 => "forms=ball",
                1 => "forms=single",
                2 => "forms= colours=plum within=5",
                3 => "forms= use=pollinators fitness=0.95",
                _ => "forms=",
            };
            let words = format!("name=need{at} {stems} {first}-{} {words}", first + more);
            blank
                .with(&words, &trug::measure::day::Calendar::FILES)
                .expect("a need")
        })
        .collect();
    plan.problems().is_empty().then_some(plan)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn what_does_good_never_costs_more(drawn in drawn(), by in 1..2_000_u16) {
        let Some(plan) = plan(&drawn) else { return Ok(()) };
        let before = cost(&bench(LIST, plan.clone()));
        for (what, better) in BETTERMENTS {
            let mut bettered = plan.clone();
            better(&mut bettered, by);
            prop_assert_eq!(bettered.problems(), Vec::<String>::new(), "{}", what);
            let after = cost(&bench(LIST, bettered));
            if let Some(before) = before {
                prop_assert!(after.is_some_and(|after| after <= before), "{}: {:?} {:?}", what, before, after);
            }
        }
    }

    #[test]
    fn what_is_advised_does_what_it_said(drawn in drawn()) {
        let Some(plan) = plan(&drawn) else { return Ok(()) };
        let demo = bench(LIST, plan);
        let short = settled(&demo);
        if !short.falls_short() {
            return Ok(());
        }
        let advised = with(&demo, |against| mends(&demo.plan, against, &short, &mut |_| false));
        for mend in &advised {
            let made = mend.made(&demo.plan).expect("an edit of this plan");
            // The very text that is saved, read again.
            let text = made.write().expect("writes");
            let read = Plan::read("order.ron", &text).expect("a plan that makes sense");
            let cost = cost(&bench(LIST, read));
            prop_assert!(cost.is_some_and(|cost| cost <= mend.cost), "{mend:?} {cost:?}");
            // Fitness is lowered, so that a step less of it is told from the plan as mended.
            let from = if matches!(mend.by, By::Fitness { .. }) { &made } else { &demo.plan };
            let less = less(from, mend.by).filter(|_| mend.is_least());
            if let Some(less) = less.filter(|less| less.problems().is_empty()) {
                prop_assert_eq!(self::cost(&bench(LIST, less)), None, "{:?}", mend);
            }
        }
    }
}

/// The plan with a step less than a mend changes; `None` where there is no such step.
fn less(plan: &Plan, by: By) -> Option<Plan> {
    let mut less = plan.clone();
    match by {
        By::Money { more, .. } => {
            let money = plan.money?.in_hundredths() + more.in_hundredths() - 1;
            less.money = Some(Money::hundredths(money));
        }
        By::Earlier { weeks, .. } => {
            less.season.planted = later(plan.season.planted, 7 - 7 * i64::from(weeks));
        }
        By::Colour { wider, .. } => {
            for need in less
                .needs
                .iter_mut()
                .filter(|need| !need.colours.is_empty())
            {
                need.within = Some(need.reach() + f64::from(wider - 1));
            }
        }
        By::Fitness { .. } => {
            for need in less.needs.iter_mut() {
                need.fitness = need.fitness.map(|fitness| fitness + 0.01);
            }
        }
        // Which weeks another choice of them would give up is not asked.
        By::Weeks { .. } | By::Stems { .. } => return None,
        By::Bed { places, .. } => {
            // One bed, one row: a place is 400 mm.
            let bed = &mut less.beds[0];
            bed.width = "400mm".parse().ok()?;
            let long = (plan.places() + places - 1) * 400;
            bed.length = format!("{long}mm").parse().ok()?;
        }
    }
    Some(less)
}

/// Worked by hand: 12 balls a week of 0.9 each are 14 plants of one variety, and the bed holds 10.
#[test]
fn a_bed_too_small_for_one_variety_is_mended_by_a_longer_one() {
    let text = PLAN
        .replace(
            "length: \"20m\", width: \"1.2m\"",
            "length: \"4m\", width: \"400mm\"",
        )
        .replace(
            "forms: [\"ball\"]",
            "forms: [\"ball\"], colours: [\"plum\"], within: 5",
        );
    let mut plan = Plan::read("order.ron", &text).expect("a plan");
    plan.needs.truncate(1);
    let demo = bench(order_lane::LIST, plan);
    let short = settled(&demo);
    let advised = with(&demo, |against| {
        mends(&demo.plan, against, &short, &mut |_| false)
    });
    let bed = advised
        .iter()
        .find(|mend| matches!(mend.by, By::Bed { .. }));
    let bed = bed.unwrap_or_else(|| panic!("{advised:?}"));
    let (places, at_least) = (4, 4);
    assert_eq!(bed.by, By::Bed { places, at_least });
    assert_eq!(bed.edits[0].words(&demo.plan), "sea wall=5.6m");
}

/// Every advice that the command gives, taken by the command, and saved.
#[test]
fn the_command_takes_its_own_advice() {
    let late = PLAN
        .replace("planted: \"2027-05-01\"", "planted: \"2027-06-01\"")
        .replace(
            "stems: 12, weeks: (33, 38)",
            "stems: 12, weeks: (36, 38), colours: [\"plum\"], within: 5",
        );
    let mut taken = Vec::new();
    for plan in [
        late.clone(),
        late.replace("money: \"450\"", "money: \"20\""),
        late.replace("length: \"20m\"", "length: \"2m\""),
        late.replace(
            "colours: [\"plum\"], within: 5",
            "colours: [\"wine\"], within: 5",
        ),
        late.replace("weeks: (36, 38)", "weeks: (34, 38)"),
    ] {
        let answer = Lane::new(&plan).json(&[]);
        for mend in answer["mends"].as_array().expect("a list") {
            let lane = Lane::new(&plan);
            let sets = mend["set"].as_array().expect("edits").iter();
            let words = sets.flat_map(|set| ["--set", set.as_str().expect("an edit")]);
            let words: Vec<&str> = words.chain(["--save"]).collect();
            for edit in words.iter().filter(|word| word.contains('=')) {
                let told = mend["told"].as_str().expect("a sentence");
                let (figure, value) = edit.split_once('=').expect("an edit");
                assert!(
                    told.contains(&format!("{figure}: {value}")),
                    "{edit}: {told}"
                );
            }
            lane.json(&words);
            let after = lane.json(&[]);
            assert_eq!(after["status"], "optimal", "{mend:#}\n{plan}");
            assert!(
                hundredths(&after["cost"]) <= hundredths(&mend["cost"]),
                "{mend:#}"
            );
            taken.push(mend["by"].as_str().expect("a word").to_string());
        }
    }
    for by in ["bed", "money", "colour", "earlier"] {
        assert!(taken.iter().any(|one| one == by), "{by}: {taken:?}");
    }
}

/// The demo, where everything comes together: no variety gives less in any week.
#[test]
fn a_longer_season_takes_no_stem_from_any_week() {
    let candidates = |change: &dyn Fn(&mut Plan)| {
        let mut demo = Demo::read();
        change(&mut demo.plan);
        with(&demo, |against| {
            Candidates::of(&demo.plan, against).expect("candidates")
        })
    };
    let planned = candidates(&|plan| plan.season.method = Method::Tubers);
    let potted = |plan: &mut Plan| plan.season.method = Method::Potted;
    let earlier = |weeks: i64| {
        move |plan: &mut Plan| plan.season.planted = later(plan.season.planted, -7 * weeks)
    };
    let frost = |plan: &mut Plan| {
        let frost = plan.season.first_frost.middle();
        plan.season.first_frost = Frost::on(later(frost, 13));
    };
    type Changing<'a> = &'a dyn Fn(&mut Plan);
    let changes: [(&str, Changing<'_>); 5] = [
        ("potted", &potted),
        ("a week earlier", &earlier(1)),
        ("three weeks earlier", &earlier(3)),
        ("six weeks earlier", &earlier(6)),
        ("13 days more of autumn", &frost),
    ];
    for (what, change) in changes {
        let longer = candidates(&change);
        for (one, other) in planned.model.varieties.iter().zip(&longer.model.varieties) {
            for (at, week) in planned.weeks.iter().enumerate() {
                let (before, after) = (one.yields[at], other.yields[at]);
                assert!(
                    after >= before,
                    "{}, {what}: {before} {after} in week {week}",
                    one.name
                );
            }
        }
    }
}

/// A season's total, as older files have it, is of so many weeks at full flower, whatever the dates.
#[test]
fn an_order_of_an_older_season_is_read() {
    let older = PLAN.replace(
        "stems_a_week: 0.9,",
        "stems_a_plant: 9, curve: [0.5, 1.0, 1.0],",
    );
    let answer = Lane::new(&older).json(&[]);
    let figures = answer["figures"].as_array().expect("figures");
    let told = |name: &str| {
        let figure = figures
            .iter()
            .find(|one| one["name"] == name)
            .expect("a figure");
        format!("{} ({})", figure["value"], figure["source"])
    };
    assert!(told("stems a week").contains("1.125 a plant at full flower, from 9 in a season"));
    assert!(told("rise to full flower").contains("50 % of it in the first week"));
    assert!(told("a stated season total").contains("8 weeks at full flower"));
    Lane::new(&older.replace("[0.5, 1.0, 1.0]", "[0.5, 1.0, 0.8]"))
        .refused(&[], "write ramp: [0.5, 1] instead");
}
