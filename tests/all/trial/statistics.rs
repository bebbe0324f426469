//! Writes what `tests/outside/trial_agrees.py` works out again with scipy, lifelines and
//! statsmodels: data and our figures, over Freireich's remissions and random rows with ties, censored
//! stems and dates of unequal size.

use std::path::PathBuf;

use serde_json::{Value, json};
use trug::measure::sample::{Interval, Sample};
use trug::trial::statistics::LEVEL;
use trug::trial::statistics::log_rank::LogRank;
use trug::trial::statistics::nested::Nested;
use trug::trial::statistics::parents::{Decided, Estimate, Parents};
use trug::trial::statistics::permutation::{Basis, Permutation};
use trug::trial::statistics::share::Share;
use trug::trial::statistics::survival::{Curve, Stem};

/// Weeks in remission: Freireich et al., Blood 21:699-716, 1963.
const TREATED: ([f64; 9], [f64; 12]) = (
    [6., 6., 6., 7., 10., 13., 16., 22., 23.],
    [6., 9., 10., 11., 17., 19., 20., 25., 32., 32., 34., 35.],
);
const PLACEBO: [f64; 21] = [
    1., 1., 2., 2., 3., 4., 4., 5., 5., 8., 8., 8., 8., 11., 11., 12., 12., 15., 17., 22., 23.,
];

const RANDOM_ROWS: usize = 50;
const ROWS_OF_PARENTS: usize = 10;

#[test]
fn our_figures_are_written_for_outside_libraries() {
    let mut random = fastrand::Rng::with_seed(20260820);
    let treated = stems(&TREATED.0, &TREATED.1);
    let mut pairs = vec![(treated, stems(&PLACEBO, &[]))];
    pairs.extend((0..RANDOM_ROWS).map(|_| (vase_test(&mut random), vase_test(&mut random))));
    let shares = (0..RANDOM_ROWS).map(|_| {
        let of = random.u32(1..400);
        (random.u32(0..=of), of)
    });
    let shares: Vec<Value> = shares.map(share).collect();
    let dates: Vec<Value> = (0..RANDOM_ROWS)
        .map(|_| nested(&dates(&mut random)))
        .collect();
    let rows: Vec<Value> = (0..ROWS_OF_PARENTS)
        .map(|at| parents(&mut random, at))
        .collect();
    let small: Vec<Value> = (0..RANDOM_ROWS).map(|_| samples(&mut random)).collect();
    let all = json!({
        "level": LEVEL,
        "samples": small,
        "vase": pairs.iter().map(|(first, second)| vase(first, second)).collect::<Vec<_>>(),
        "shares": shares,
        "dates": dates,
        "parents": rows,
    });
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"));
    std::fs::write(folder.join("trial.json"), format!("{all:#}")).expect("written");
}

fn stems(ended: &[f64], fresh: &[f64]) -> Vec<Stem> {
    let stem = |ended| move |days: &f64| Stem { days: *days, ended };
    let stems = ended.iter().map(stem(true));
    stems.chain(fresh.iter().map(stem(false))).collect()
}

/// 2 to 40 stems on whole and half days, so that many tie; up to all of them still fresh.
fn vase_test(random: &mut fastrand::Rng) -> Vec<Stem> {
    let (count, fresh) = (random.usize(2..40), random.f64());
    let stem = |_| Stem {
        days: f64::from(random.u32(2..28)) / 2.0,
        ended: random.f64() >= fresh * fresh,
    };
    (0..count).map(stem).collect()
}

fn vase(first: &[Stem], second: &[Stem]) -> Value {
    json!({"curves": [curve(first), curve(second)], "log_rank": log_rank(&[first, second])})
}

/// Two to four samples at once, of so few stems that their arrangements can be gone through.
fn samples(random: &mut fastrand::Rng) -> Value {
    let most = [0, 0, 7, 3, 2];
    let number = random.usize(2..5);
    let drawn: Vec<Vec<Stem>> = (0..number)
        .map(|_| {
            let stem = |random: &mut fastrand::Rng| Stem {
                days: f64::from(random.u32(2..9)),
                ended: random.f64() < 0.8,
            };
            (0..random.usize(2..=most[number]))
                .map(|_| stem(random))
                .collect()
        })
        .collect();
    let samples: Vec<&[Stem]> = drawn.iter().map(Vec::as_slice).collect();
    let days = |sample: &Vec<Stem>| sample.iter().map(|stem| stem.days).collect::<Vec<_>>();
    let ended = |sample: &Vec<Stem>| sample.iter().map(|stem| stem.ended).collect::<Vec<_>>();
    let permutation = Permutation::of(&samples).map(|found| match found.basis {
        Basis::Exact {
            arrangements,
            least,
        } => {
            json!({"p": found.p, "arrangements": arrangements, "least": least})
        }
        Basis::Drawn { .. } => panic!("so few stems are gone through: {found:?}"),
    });
    json!({
        "days": drawn.iter().map(days).collect::<Vec<_>>(),
        "ended": drawn.iter().map(ended).collect::<Vec<_>>(),
        "log_rank": log_rank(&samples),
        "permutation": permutation,
    })
}

fn log_rank(samples: &[&[Stem]]) -> Option<Value> {
    LogRank::of(samples).map(|test| {
        json!({
            "chi_square": test.chi_square,
            "freedom": test.freedom,
            "p": test.p,
            "observed": test.samples.iter().map(|ends| ends.observed).collect::<Vec<_>>(),
            "expected": test.samples.iter().map(|ends| ends.expected).collect::<Vec<_>>(),
        })
    })
}

fn curve(stems: &[Stem]) -> Value {
    let curve = Curve::of(stems).expect("sound stems");
    let steps = curve.steps.iter().map(|step| {
        json!({
            "day": step.day,
            "at_risk": step.at_risk,
            "ended": step.ended,
            "share": step.share,
            "error": step.error,
            "limits": step.limits.map(pair),
        })
    });
    let means = [curve.watched / 2.0, curve.watched].map(|day| {
        let mean = curve.mean_to(day).expect("watched");
        json!({"day": day, "days": mean.days, "error": mean.error})
    });
    json!({
        "days": stems.iter().map(|stem| stem.days).collect::<Vec<_>>(),
        "ended": stems.iter().map(|stem| stem.ended).collect::<Vec<_>>(),
        "steps": steps.collect::<Vec<_>>(),
        "median": curve.median,
        "median_limits": [curve.median_limits.low, curve.median_limits.high],
        "means": means,
    })
}

fn share((hit, of): (u32, u32)) -> Value {
    let share = Share::new(hit, of).expect("no more than there are");
    json!({"hit": hit, "of": of, "limits": pair(share.limits())})
}

/// Two to six dates of one to eight blooms, now and then with as many on each.
fn dates(random: &mut fastrand::Rng) -> Vec<Vec<f64>> {
    let between = random.f64() * 8.0;
    let same = random.bool().then(|| random.usize(2..6));
    let mut uniform = random.fork();
    let mut around = move |mean: f64, by: f64| mean + by * (2.0 * uniform.f64() - 1.0);
    (0..random.usize(2..=6))
        .map(|_| {
            let date = around(98.0, between);
            let size = same.unwrap_or(random.usize(1..=8));
            (0..size).map(|_| around(date, 6.0).round()).collect()
        })
        .collect()
}

fn nested(dates: &[Vec<f64>]) -> Value {
    let found = Nested::of(dates).expect("some blooms");
    let first = Sample::of(&dates[0]).expect("a bloom");
    json!({
        "dates": dates,
        "mean": found.mean,
        "grand_mean": found.grand_mean,
        "within": found.within,
        "between": found.between,
        "limits": found.limits().map(pair),
        "first_date_limits": first.interval_of_length(LEVEL).map(pair),
    })
}

/// One parent crossed with what the bees brought, itself and parents that nobody noted; every fifth
/// row has a second one.
fn parents(random: &mut fastrand::Rng, at: usize) -> Value {
    let number = if at % 5 == 4 { 2 } else { 1 };
    let parent = |random: &mut fastrand::Rng| {
        let at = random.usize(0..number + 2);
        (at < number).then_some(at)
    };
    let rate = random.f64();
    let decided: Vec<Decided> = (0..random.usize(12..40))
        .map(|_| Decided {
            parents: [parent(random), parent(random)],
            stays: random.f64() < rate,
        })
        .collect();
    let found = Parents::of(&decided, number).expect("some seedlings");
    let told = |one: Estimate| json!({"share": one.share, "limits": pair(one.limits)});
    let seedling = |one: &Decided| json!([one.parents[0], one.parents[1], one.stays]);
    json!({
        "parents": number,
        "decided": decided.iter().map(seedling).collect::<Vec<_>>(),
        "new": told(found.new),
        "each": found.each.iter().map(|one| one.estimate.map(told)).collect::<Vec<_>>(),
    })
}

fn pair(limits: Interval) -> [f64; 2] {
    [limits.low, limits.high]
}
