//! `trug row compare`: does this plant last longer in the vase than that one?

use std::io::Write;

use anyhow::Result;
use serde_json::{Value, json};

use super::super::Context;
use super::{Standing, Workings, bad, tell};
use crate::trial::account::vase;
use crate::trial::statistics::permutation::Basis;
use crate::trial::{Evidence, Lasting, Pair, Subject, Tests, Verdict, beside};

/// What `trug row compare` takes.
#[derive(Debug, clap::Args)]
pub(super) struct CompareArguments {
    /// Two to four plants: seedlings by number, such as 26-014, or varieties on trial by name.
    #[arg(value_name = "PLANT", required = true, num_args = 2..=4)]
    ids: Vec<String>,
}

pub(super) fn run(
    arguments: &CompareArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let workings = Workings::new(context)?;
    tell(&workings.row, errors)?;
    let subjects = arguments.ids.iter().map(|id| workings.subject(id));
    let subjects = subjects.collect::<Result<Vec<Subject>>>()?;
    for (at, subject) in subjects.iter().enumerate() {
        if subjects[..at].contains(subject) {
            return Err(bad(format!(
                "found {subject} a second time, expected different plants"
            )));
        }
    }
    let standings = subjects
        .iter()
        .map(|subject| workings.standing(subject, context));
    let standings: Vec<Standing> = standings.collect();
    let seen: Vec<&Evidence> = standings.iter().map(|one| &one.evidence).collect();
    let lasting = Lasting::of(&workings.row.trial, &seen);
    if context.json {
        context.print(out, object(&lasting))?;
        return Ok(true);
    }
    for line in lasting.sentences() {
        writeln!(out, "{line}")?;
    }
    let listed = |subject: &Subject| {
        let of = standings
            .iter()
            .find(|one| one.evidence.subject == *subject);
        of.and_then(|one| one.listed.as_ref())
    };
    for line in beside(&seen, listed, &workings.keyer, context.units) {
        writeln!(out, "\n{}", line.about)?;
        for (subject, value) in subjects.iter().zip(&line.values) {
            writeln!(out, "  {subject}: {}", value.as_deref().unwrap_or("?"))?;
        }
    }
    Ok(true)
}

/// The comparison as an object: `plants` as asked, each with its vase test; `all` at once, null of
/// two; `pairs`, each with its `verdict` (`first longer`, `second longer`, `not told`, `too few`,
/// `nothing to compare`), what it rests on, and the `more` stems of each that would tell.
fn object(lasting: &Lasting) -> Value {
    let plants = lasting.plants.iter().map(|plant| {
        json!({
            "id": plant.subject.to_string(),
            "vase": plant.curve.as_ref().map(|curve| vase(curve).data()),
            "days_tested": plant.days,
        })
    });
    let pair = |pair: &Pair| {
        let [first, second] = pair.plants.map(|at| lasting.plants[at].subject.to_string());
        let (verdict, more) = match pair.verdict {
            Verdict::Longer(at) if at == pair.plants[0] => ("first longer", None),
            Verdict::Longer(_) => ("second longer", None),
            Verdict::NotTold(more) => ("not told", more),
            Verdict::TooFew(_) => ("too few", None),
            Verdict::Nothing => ("nothing to compare", None),
        };
        json!({
            "first": first,
            "second": second,
            "verdict": verdict,
            "tests": pair.tests.as_ref().map(tests),
            "adjusted": pair.adjusted,
            "more": more,
            "told": lasting.pair_sentence(pair),
        })
    };
    json!({
        "plants": plants.collect::<Vec<_>>(),
        "pairs": lasting.pairs.iter().map(pair).collect::<Vec<_>>(),
        "all": lasting.all.as_ref().map(tests),
        "cautions": lasting.cautions(),
    })
}

fn tests(tests: &Tests) -> Value {
    let (exact, error) = match tests.permutation.basis {
        Basis::Exact { .. } => (true, None),
        Basis::Drawn { error } => (false, Some(error)),
    };
    json!({
        "p": tests.permutation.p,
        "exact": exact,
        "error": error,
        "log_rank": {
            "chi_square": tests.log_rank.chi_square,
            "freedom": tests.log_rank.freedom,
            "p": tests.log_rank.p,
        },
    })
}
