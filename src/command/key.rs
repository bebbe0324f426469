//! `trug key`: one bloom from its answers.

use std::io::Write;
use std::path::PathBuf;

use anyhow::{Result, anyhow};
use serde_json::{Value, json};

use super::{BadInput, Context, key_csv};
use crate::form::sentences::percent;
use crate::form::{Answers, Keyer, Reading, Status};

/// What `trug key` takes.
#[derive(Debug, clap::Args)]
pub struct KeyArguments {
    /// What you see of the bloom: rows=5, 'tip=rounded|pointed', rows=4..7, rows=10+, rolled=1/4,
    /// diameter=98mm,3.9in, and rows=? for cannot tell. `trug rules words` explains the words.
    #[arg(value_name = "TRAIT=VALUE")]
    answers: Vec<String>,
    /// Keys every bloom of a CSV file (a heading for each trait, a bloom a line) and prints the table
    /// with its form added.
    #[arg(long, value_name = "FILE.csv", conflicts_with = "answers")]
    from: Option<PathBuf>,
    /// Expects the forms of your list more often than others; without it all forms are alike before
    /// the first answer.
    #[arg(long, conflicts_with = "from")]
    by_list: bool,
}

/// Forms with less than this share are not listed in plain text.
const LEAST_SHARE: f64 = 0.01;
/// The most near misses listed in plain text.
const MOST_NEAR: usize = 4;
/// The most forms listed in plain text.
const MOST_LISTED: usize = 6;

pub(super) fn run(
    arguments: &KeyArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    if let Some(path) = &arguments.from {
        return key_csv::run(path, context, out, errors);
    }
    let set = context.set();
    let answers = Answers::read(&arguments.answers, &set.traits)
        .map_err(|error| anyhow!(BadInput(error.to_string())))?;
    let keyer = if arguments.by_list {
        context.keyers_by_list()?.remove(0)
    } else {
        context.keyer()
    };
    let reading = keyer.read(&answers);
    if context.json {
        writeln!(out, "{:#}", object(&keyer, &reading))?;
    } else {
        out.write_all(plain(&keyer, &reading, context).as_bytes())?;
    }
    Ok(true)
}

/// The answer as one object; every id is from the traits and the rule set.
pub(super) fn object(keyer: &Keyer, reading: &Reading) -> Value {
    let form = |index: usize| keyer.set.forms[index].id.as_str();
    let one = |index: usize| keyer.set.traits.get(index);
    let ids = |traits: &[usize]| {
        traits
            .iter()
            .map(|index| one(*index).id.as_str())
            .collect::<Vec<_>>()
    };
    let question = |asked: &Option<crate::form::Question>| {
        asked.map(|asked| json!({ "trait": one(asked.index).id, "bits": asked.bits }))
    };
    let close = reading.close.iter().map(|close| {
        let print = |number| one(close.index).print(number);
        json!({
            "trait": one(close.index).id,
            "limit": print(close.limit),
            "forms": close.forms.map(form),
            "on_limit": form(close.on_limit),
            "chance": close.chance,
            "distance": close.distance.map(print),
            "more": close.more,
            "note": keyer.note(close),
        })
    });
    let near = reading.near.iter().map(|near| {
        let traits: Vec<usize> = near.but_for.iter().map(|(index, _)| *index).collect();
        json!({ "form": form(near.form), "but_for": ids(&traits) })
    });
    let (status, settled) = match reading.verdict.status {
        Status::Settled(index) => ("settled", Some(form(index))),
        Status::Open => ("open", None),
        Status::None => ("none", None),
    };
    json!({
        "rules": keyer.set.id,
        "status": status,
        "form": settled,
        "size": reading.size,
        "possible": reading.verdict.possible.iter().map(|index| form(*index)).collect::<Vec<_>>(),
        "ruled_out": reading.ruled_out.iter()
            .map(|(index, by)| json!({ "form": form(*index), "by": ids(by) })).collect::<Vec<_>>(),
        "likely": reading.likely.iter()
            .map(|likely| json!({ "form": form(likely.form), "share": likely.share, "allowed": likely.allowed }))
            .collect::<Vec<_>>(),
        "ask": question(&reading.ask),
        "check": question(&reading.check),
        "suspect": reading.suspect.map(|s| json!({ "trait": one(s.index).id, "chance": s.chance })),
        "close": close.collect::<Vec<_>>(),
        "near": near.collect::<Vec<_>>(),
        "conflict": reading.conflict.as_ref().map(|c| json!({ "traits": ids(&c.traits), "gap": c.gap })),
    })
}

fn plain(keyer: &Keyer, reading: &Reading, context: &Context) -> String {
    let units = context.units;
    let mut lines = vec![
        format!("By {}.", keyer.set.name),
        keyer.verdict_sentence(reading, units),
    ];
    lines.extend(
        reading
            .conflict
            .iter()
            .map(|conflict| keyer.conflict_sentence(conflict, units)),
    );
    let doubtful = reading
        .suspect
        .filter(|suspect| suspect.chance >= 0.1 || reading.conflict.is_some());
    lines.extend(doubtful.map(|suspect| keyer.suspect_sentence(&suspect)));
    lines.extend(
        reading
            .close
            .iter()
            .map(|close| keyer.close_sentence(close, units)),
    );
    lines.push(String::new());
    lines.push("Likeliest, if any answer may be mistaken:".to_string());
    let listed = reading
        .likely
        .iter()
        .filter(|likely| likely.share >= LEAST_SHARE)
        .take(MOST_LISTED);
    for likely in listed {
        let mark = if likely.allowed {
            ""
        } else {
            "  (only by a mistake)"
        };
        let name = &keyer.set.forms[likely.form].name;
        lines.push(format!("  {:>9}  {name}{mark}", percent(likely.share)));
    }
    if let Status::Settled(form) = reading.verdict.status
        && keyer.set.shape_of(form).catch_all
        && !reading.near.is_empty()
    {
        lines.push(String::new());
        lines.extend(
            reading
                .near
                .iter()
                .take(MOST_NEAR)
                .map(|near| keyer.near_sentence(near, units)),
        );
    }
    if let Some(asked) = reading.ask {
        let one = keyer.set.traits.get(asked.index);
        lines.push(String::new());
        lines.push(format!(
            "Next: {} ({}, {:.2} bits)",
            one.ask, one.id, asked.bits
        ));
        lines.push(format!("  {}", one.look));
        lines.push(format!("  {}={}", one.id, one.expected_answer()));
    }
    lines.join("\n") + "\n"
}
