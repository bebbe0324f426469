use jiff::civil::Date;
use proptest::prelude::*;

use super::*;
use crate::colour::{Lab, Part, ciede2000};
use crate::form::{Answer, RuleSet};
use crate::measure::SizeUnits;
use crate::trial::read::Reader;
use crate::trial::statistics::nested::{Basis, Needed};
use crate::trial::{Entry, Seedling, What};
use crate::variety::Varieties;

pub(in crate::trial) const BALL: &str = "centre=closed outline=globe tip=rounded set=regular roll=forward rolled=90 line=straight gradient=even rows=14";

pub(in crate::trial) const LIST: &str = r##"[
  (name: "Haaf Light", form: (id: "ball", known: stated), colours: [(colour: "#f0a080", part: main, pattern: self)]),
  (name: "Ebb Ember", form: (id: "ball", known: stated), colours: [(colour: "#c03020", part: main, pattern: self), (colour: "white", part: second, pattern: tipped)]),
  (name: "Oar Lamp", form: (id: "single", known: stated), colours: [(colour: "#f1a283", part: main, pattern: self)]),
]"##;

/// A row of seedlings 24-001 to 24-009 and what a list, rules and words make of it.
pub(in crate::trial) struct Bench {
    pub(in crate::trial) keyer: Keyer,
    pub(in crate::trial) words: Vocabulary,
    pub(in crate::trial) list: Varieties,
    pub(in crate::trial) neighbours: Neighbours,
}

impl Bench {
    pub(in crate::trial) fn new() -> Bench {
        let keyer = Keyer::even(RuleSet::embedded().remove(0));
        let words = Vocabulary::embedded();
        let list = Varieties::read("varieties.ron", LIST).expect("a list");
        let neighbours = Neighbours::of(&list, &keyer.set, &words);
        Bench {
            keyer,
            words,
            list,
            neighbours,
        }
    }

    pub(in crate::trial) fn under(&self) -> EvidenceContext<'_> {
        EvidenceContext {
            keyer: &self.keyer,
            words: &self.words,
            neighbours: &self.neighbours,
        }
    }

    pub(in crate::trial) fn entry(&self, id: u32, of: &str, line: &str) -> Entry {
        let reader = Reader {
            traits: &self.keyer.set.traits,
            bare: None,
            days: crate::measure::day::Calendar::FILES,
        };
        let draft = reader.read_line(line).expect(line);
        draft.entry(id, of.parse().expect(of), Date::constant(2026, 8, 1))
    }

    pub(in crate::trial) fn trial(&self, entries: &[(&str, &str)]) -> Trial {
        let numbered = entries.iter().zip(1..);
        self.of(numbered
            .map(|((of, line), id)| self.entry(id, of, line))
            .collect())
    }

    pub(in crate::trial) fn of(&self, entries: Vec<Entry>) -> Trial {
        let seedlings = (1..10)
            .map(|own| Seedling::numbered(format!("24-{own:03}").parse().expect("a number")));
        Trial::of(seedlings.collect(), entries).0
    }

    pub(in crate::trial) fn evidence(&self, lines: &[&str]) -> Evidence {
        let entries: Vec<(&str, &str)> = lines.iter().map(|line| ("24-001", *line)).collect();
        let subject = "24-001".parse().expect("a number");
        self.trial(&entries).evidence(&subject, &self.under())
    }

    fn leading(&self, lines: &[String]) -> (String, f64) {
        let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
        let seen = self.evidence(&lines).form;
        let likely = seen.leading().expect("looks");
        (self.keyer.set.forms[likely.form].id.clone(), likely.share)
    }
}

/// One bloom of every form, each trait answered: ten days that agree leave no doubt, and one slip
/// among ten, in any trait, does not turn the form.
#[test]
fn agreeing_days_tend_to_certainty_and_one_slip_among_ten_does_not_turn_them() {
    let bench = Bench::new();
    let set = &bench.keyer.set;
    let day = |at: usize, answers: &str| format!("date=2026-08-{:02} {answers}", at + 1);
    for form in set.forms.iter().step_by(3) {
        let bloom = set.bloom_in(&form.blocks[0]);
        let told = bloom.print(&set.traits);
        let agreeing =
            |days: usize| -> Vec<String> { (0..days).map(|at| day(at, &told)).collect() };
        let shares = [1, 3, 10].map(|days| {
            let (id, share) = bench.leading(&agreeing(days));
            assert!(
                days == 1 || id == form.id,
                "{told}: {id} is not {}",
                form.id
            );
            share
        });
        assert!(
            shares[2] > 0.99 && shares[2] >= shares[1],
            "{} {shares:?}",
            form.id
        );
        for (index, _) in bloom.iter() {
            let states = set.traits.get(index).states().len() as u32;
            let Some(Answer::States(mask)) = bloom.get(index).cloned() else {
                continue;
            };
            let other = (mask.trailing_zeros() + 1) % states;
            let mut slipped = bloom.clone();
            slipped.set(index, Answer::States(1 << other));
            let mut days = agreeing(10);
            days[4] = day(4, &slipped.print(&set.traits));
            let (id, _) = bench.leading(&days);
            assert_eq!(id, form.id, "with a slip in {}", set.traits.get(index).id);
        }
    }
}

#[test]
fn days_that_disagree_are_shown_with_their_dates_and_most_looks_stand() {
    let bench = Bench::new();
    let seen = bench.evidence(&[
        &format!("date=2026-08-03 {BALL} diameter=100mm,102mm"),
        &format!(
            "date=2026-08-12 {} diameter=101mm",
            BALL.replace("tip=rounded", "tip=split")
        ),
        "date=2026-08-20 tip=rounded|pointed line=?",
    ]);
    let told: Vec<String> = seen
        .form
        .disagreements
        .iter()
        .map(|one| one.sentence(&bench.keyer))
        .collect();
    assert_eq!(
        told,
        [
            "tip: rounded on 2026-08-03; split on 2026-08-12; rounded or pointed on 2026-08-20; rounded stands"
        ]
    );
    let ball = bench.keyer.set.find("ball").expect("ball");
    assert_eq!(
        seen.form.settled(0.9),
        Some(ball),
        "{:?}",
        seen.form.leading()
    );
    let tie = bench.evidence(&[
        "date=2026-08-03 tip=split rows=9",
        "date=2026-08-04 tip=pointed rows=3",
    ]);
    let printed = tie.form.standing.print(&bench.keyer.set.traits);
    assert_eq!(printed, "rows=3..9 tip=pointed|split");
    let reading = seen.form.reading(&bench.keyer);
    assert_eq!(
        (reading.verdict, reading.likely),
        (seen.form.verdict.clone(), seen.form.likely.clone())
    );
}

#[test]
fn the_interval_says_what_it_used_and_what_it_straddles() {
    let bench = Bench::new();
    let one_day = bench.evidence(&[&format!("{BALL} diameter=87mm,91mm,88mm,94mm,90mm")]);
    let diameters = one_day.diameters.as_ref().expect("blooms");
    assert_eq!(
        (
            diameters.nested.basis,
            diameters.mean().to_string().as_str()
        ),
        (Basis::OneDate, "90mm")
    );
    let straddles = diameters.straddles(&one_day.form.close, &bench.keyer);
    let told = |straddle: &Straddle, units| straddle.instruction(&bench.keyer, units);
    // s = 2.7386 and 1.1 mm to the limit: 26.3 blooms by t of the number itself, so 27 in all.
    assert_eq!(straddles[0].needed, Some(Needed::Blooms(22)));
    assert_eq!(
        told(&straddles[0], SizeUnits::Mm),
        "measure 22 more blooms: 86 to 94 mm straddles the limit of 88.9 mm between miniature ball and ball"
    );
    assert_eq!(
        told(&straddles[0], SizeUnits::In),
        "measure 22 more blooms: 3.41 to 3.68 in straddles the limit of 3.5 in between miniature ball and ball"
    );
    let days = bench.evidence(&[
        &format!("date=2026-08-01 {BALL} diameter=87mm,88mm"),
        "date=2026-08-09 diameter=90mm,91mm,92mm",
        "date=2026-08-20 diameter=92mm",
        "date=2026-08-20 diameter=94mm",
    ]);
    let diameters = days.diameters.as_ref().expect("blooms");
    assert_eq!(
        (diameters.nested.basis, diameters.count()),
        (Basis::Dates(3), 7)
    );
    let straddle = &diameters.straddles(&days.form.close, &bench.keyer)[0];
    assert!(
        matches!(straddle.needed, Some(Needed::Dates(_))),
        "{straddle:?}"
    );
    assert!(
        told(straddle, SizeUnits::Mm).contains("more days: "),
        "{}",
        told(straddle, SizeUnits::Mm)
    );
    // Too near the limit for any number that anybody measures; two days may yet be odd ones.
    for (count, start) in [
        (2, "measure more blooms, on other days: "),
        (
            8,
            "more blooms would not settle it: read it as either, miniature ball or ball: ",
        ),
    ] {
        let lines: Vec<String> = (0..count)
            .map(|at| {
                format!(
                    "date=2026-08-{:02} diameter={}mm",
                    at + 2,
                    if at % 2 == 0 { 84 } else { 94 }
                )
            })
            .chain([format!("date=2026-08-01 {BALL}")])
            .collect();
        let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
        let near = bench.evidence(&lines);
        let diameters = near.diameters.as_ref().expect("blooms");
        let straddle = &diameters.straddles(&near.form.close, &bench.keyer)[0];
        let told = told(straddle, SizeUnits::Mm);
        assert!(told.starts_with(start), "{told}");
    }
    assert_eq!(
        days.form.close[0].more, None,
        "blooms of the same days would not settle it"
    );
}

#[test]
fn colours_have_a_mean_a_spread_a_name_and_neighbours() {
    let bench = Bench::new();
    let seen = bench.evidence(&[
        &format!("{BALL} diameter=100mm,104mm colour='lab(72 28 28),second:white'"),
        "date=2026-08-09 colour='lab(74 30 30)'",
    ]);
    let main = &seen.colours[0];
    assert_eq!((main.mean, main.count), (Lab::new(73.0, 29.0, 29.0), 2));
    assert!(
        main.spread
            .is_some_and(|spread| spread > 0.5 && spread < 2.0),
        "{main:?}"
    );
    assert_eq!(
        (seen.colours[1].part, seen.colours[1].spread),
        (Part::Second, None)
    );
    let near: Vec<(&str, Option<bool>)> = seen
        .near
        .iter()
        .map(|near| (near.name.as_str(), near.same_form))
        .collect();
    assert_eq!(
        near,
        [
            ("Haaf Light", Some(true)),
            ("Oar Lamp", Some(false)),
            ("Ebb Ember", Some(true))
        ]
    );
    // Ebb Ember's white tips are the seedling's too, and bring it nearer than its red alone.
    let red = ciede2000(
        main.mean,
        "#c03020"
            .parse::<crate::colour::Srgb>()
            .expect("red")
            .into(),
    );
    assert!((seen.near[2].distance - red / 1.65).abs() < 1e-9);
}

#[test]
fn counts_add_up_by_season_and_by_winter() {
    let bench = Bench::new();
    let seen = bench.evidence(&[
        "date=2025-08-04 cut=4 plants=2",
        "date=2025-08-10 cut=2",
        "date=2025-08-25 cut=6",
        "date=2025-10-20 tubers=8",
        "date=2026-03-10 sound=7",
        "date=2026-04-02 sound=6",
        "date=2026-08-03 cut=9 plants=3 weather=wind:3/12,rain:0/5 visits=4/10min",
        "date=2026-08-07 weather=wind:6/12 visits=3/10min stem=55cm,57cm",
        "date=2026-10-21 tubers=14",
    ]);
    // Monday 4 August to Sunday 10 is one week; to Monday 25 it is four.
    let [first, second] = seen.seasons[..] else {
        panic!("{:?}", seen.seasons)
    };
    assert_eq!(
        (first.year, first.stems, first.weeks, first.a_plant),
        (2025, 12, 4, Some(6.0))
    );
    assert_eq!((first.a_week(), second.a_week()), (Some(1.5), Some(3.0)));
    assert_eq!(
        (
            seen.tubers.kept.hit(),
            seen.tubers.kept.of(),
            seen.tubers.stored
        ),
        (6, 8, Some(14))
    );
    let wind = seen.damage[0];
    assert_eq!((wind.share.hit(), wind.share.of(), wind.events), (9, 24, 2));
    assert_eq!(
        (seen.years.as_slice(), seen.plants),
        (&[2025, 2026][..], Some(3))
    );
    // Poisson limits of 7: 2.81 to 14.42 (Ulm, American Journal of Epidemiology 131:373-375, 1990;
    // from memory), here over 20 minutes.
    let visits = seen.visits.expect("visits");
    let limits = visits.limits();
    assert_eq!(visits.a_minute(), 0.35);
    assert!((limits.low * 20.0 - 2.81).abs() < 0.005 && (limits.high * 20.0 - 14.42).abs() < 0.005);
    assert_eq!(
        VisitRate {
            count: 0,
            minutes: 10
        }
        .limits()
        .low,
        0.0
    );
}

#[test]
fn what_cannot_be_used_is_told_with_its_day() {
    let bench = Bench::new();
    let seen = bench.evidence(&[
        "date=2026-08-03 colour=greige cut=1",
        "date=2026-04-01 sound=3",
    ]);
    assert_eq!(seen.doubts.len(), 2, "{:?}", seen.doubts);
    assert!(
        seen.doubts[0].starts_with("2026-08-03: ") && seen.doubts[1].starts_with("2026-04-01: ")
    );
    assert_eq!(bench.evidence(&[]).form.leading(), None);
}

#[test]
fn many_subjects_come_in_their_order() {
    let bench = Bench::new();
    let trial = bench.trial(&[
        ("24-002", "cut=2"),
        ("24-001", "cut=1"),
        ("Haaf Light", "cut=3"),
    ]);
    let subjects: Vec<Subject> = trial.subjects().into_iter().cycle().take(200).collect();
    let all = trial.evidence_of(&subjects, &bench.under());
    let alone = subjects
        .iter()
        .map(|one| trial.evidence(one, &bench.under()));
    assert!(all.iter().cloned().eq(alone));
    assert_eq!(trial.evidence_of(&[], &bench.under()), []);
}

fn any_line() -> impl Strategy<Value = String> {
    let bloom = prop_oneof![
        Just(String::new()),
        Just(BALL.to_string()),
        "tip=(split|rounded|pointed) rows=[1-9]",
    ];
    (
        1..28_u32,
        bloom,
        "diameter=[89][0-9]mm(,1[01][0-9]mm){0,2}",
        "(vase=[3-9]\\+?(,[3-9])?)?",
        "(cut=[0-9])?",
        "(weather=wind:[0-3]/[3-9])?",
        "(colour=(peach|coral|#f0a0[0-9]0))?",
    )
        .prop_map(|(day, bloom, diameter, vase, cut, weather, colour)| {
            format!("date=2026-08-{day:02} {bloom} {diameter} {vase} {cut} {weather} {colour}")
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn the_order_of_entries_makes_no_difference_to_the_sums(lines in prop::collection::vec(any_line(), 1..9), seed in any::<u64>()) {
        let bench = Bench::new();
        let entries: Vec<Entry> = lines.iter().zip(1..).map(|(line, id)| bench.entry(id, "24-001", line)).collect();
        let mut turned = entries.clone();
        fastrand::Rng::with_seed(seed).shuffle(&mut turned);
        let subject = "24-001".parse().expect("a number");
        let sums = |entries| bench.of(entries).evidence(&subject, &bench.under());
        prop_assert_eq!(sums(entries), sums(turned));
    }

    #[test]
    fn a_correction_equals_having_entered_it_right(lines in prop::collection::vec(any_line(), 1..7), slip in any_line(), at in any::<prop::sample::Index>(), again in any::<bool>()) {
        let bench = Bench::new();
        let at = at.index(lines.len());
        let entry = |(line, id): (&String, u32)| bench.entry(id, "24-001", line);
        let right: Vec<Entry> = lines.iter().zip(1..).map(entry).collect();
        let mut wrong = right.clone();
        wrong[at] = bench.entry(at as u32 + 1, "24-001", &slip);
        let slipped = at as u32 + 1;
        if again {
            let withdrawn = |id: u32, of: &str, named: u32| Entry { what: What::Withdrawn, corrects: Some(named), ..bench.entry(id, of, &slip) };
            // The slip may have gone to another seedling too, and be withdrawn there.
            wrong.extend([bench.entry(80, "24-002", &slip), withdrawn(81, "24-002", 80)]);
            // It may have been corrected wrongly, or withdrawn by mistake.
            wrong.push(Entry { corrects: Some(slipped), ..bench.entry(90, "24-001", &slip) });
            wrong.extend([withdrawn(91, "24-001", 90), withdrawn(92, "24-001", slipped), withdrawn(93, "24-001", 92)]);
        }
        wrong.push(Entry { id: 99, corrects: Some(slipped), ..right[at].clone() });
        for subject in ["24-001", "24-002", "24-003"] {
            let subject = subject.parse().expect("a number");
            let sums = |entries: &[Entry]| bench.of(entries.to_vec()).evidence(&subject, &bench.under());
            prop_assert_eq!(sums(&right), sums(&wrong));
        }
    }
}
