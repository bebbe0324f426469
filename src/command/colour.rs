//! `trug colour`: names and measures a colour, and the varieties nearest to it.

use std::io::Write;

use anyhow::{Result, anyhow};
use serde_json::json;

use super::{BadInput, Context};
use crate::colour::{Lab, Target, ciede2000, name_of};
use crate::variety::{Ask, By, Index, Ranking};

/// What `trug colour` takes.
#[derive(Debug, clap::Args)]
pub struct ColourArguments {
    /// A colour: a word such as plum, #rrggbb, or lab(L a b) as measured in daylight (D65).
    #[arg(value_name = "COLOUR", allow_hyphen_values = true)]
    colour: String,
    /// Another colour, to see how far apart the two are.
    #[arg(value_name = "COLOUR", allow_hyphen_values = true)]
    other: Option<String>,
    /// Shows so many of the nearest varieties.
    #[arg(long, value_name = "COUNT", default_value_t = 8)]
    top: usize,
}

pub(super) fn run(
    arguments: &ColourArguments,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let target = resolve(&arguments.colour, context)?;
    let lab = target.centre;
    if let Some(other) = &arguments.other {
        return apart(lab, resolve(other, context)?.centre, context, out);
    }
    let list = context.varieties()?;
    let index = Index::new(&list, context.contents.grounds(context.set()));
    // Nearest to the colour itself, not to the region of its word.
    let ranking = Ranking {
        by: By::Colour,
        targets: vec![Target::point(lab)],
        ..Ranking::default()
    };
    let reply = index.ask(&Ask {
        ranking,
        top: arguments.top,
        ..Ask::default()
    });
    let near = reply
        .ranked
        .iter()
        .filter_map(|one| Some((list.list()[one.row].name.as_str(), one.distance?)));
    if context.json {
        let near = near.map(|(name, distance)| json!({ "name": name, "distance": distance }));
        context.print(out, object(lab, context, near.collect()))?;
        return Ok(true);
    }
    for line in words(lab, context) {
        writeln!(out, "{line}")?;
    }
    if target.radius > 0.0 {
        writeln!(
            out,
            "As a word it is broad: everything within {:.0} of it passes for it.",
            target.radius
        )?;
    }
    writeln!(out, "\nNearest varieties (CIEDE2000):")?;
    for (name, distance) in near {
        writeln!(out, "  {distance:>5.1}  {name}")?;
    }
    Ok(true)
}

fn apart(first: Lab, second: Lab, context: &Context, out: &mut dyn Write) -> Result<bool> {
    let distance = ciede2000(first, second);
    if context.json {
        let mut object = object(first, context, Vec::new());
        object["distance"] = json!(distance);
        object["other"] = self::object(second, context, Vec::new());
        context.print(out, object)?;
        return Ok(true);
    }
    for line in words(first, context)
        .iter()
        .chain(&[String::new()])
        .chain(&words(second, context))
    {
        writeln!(out, "{line}")?;
    }
    writeln!(out, "\nThey are {distance:.2} apart (CIEDE2000).")?;
    Ok(true)
}

fn object(lab: Lab, context: &Context, nearest: Vec<serde_json::Value>) -> serde_json::Value {
    json!({
        "lab": [lab.l, lab.a, lab.b],
        "hex": lab.to_srgb().to_string(),
        "name": name_of(lab),
        "word": context.contents.words.word_for(lab).word,
        "nearest": nearest,
    })
}

fn words(lab: Lab, context: &Context) -> Vec<String> {
    let clipped = if lab.in_gamut() {
        ""
    } else {
        " (nearest that a screen can show)"
    };
    let words = &context.contents.words;
    vec![
        format!("{} by the ISCC-NBS system", name_of(lab)),
        format!(
            "{} in the trade's words, among the {}",
            words.word_for(lab).word,
            words.family_of(lab).word()
        ),
        format!(
            "lab({:.1} {:.1} {:.1}), {}{clipped}",
            lab.l,
            lab.a,
            lab.b,
            lab.to_srgb()
        ),
    ]
}

fn resolve(text: &str, context: &Context) -> Result<Target> {
    let words = &context.contents.words;
    words.one(text).map_err(|told| anyhow!(BadInput(told)))
}
