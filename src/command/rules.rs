//! `trug rules`: the rule sets, what they define, and the proof that they do.

use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};
use clap::Subcommand;
use serde_json::{Map, Value, json};

use super::{Context, rules_compare, rules_printed, rules_show};
use crate::form::RuleSet;
use crate::form::card::card;
use crate::form::glossary::Glossary;
use crate::form::proof::Proof;
use crate::form::space::Block;
use crate::form::words::block_words;

/// What `trug rules` takes.
#[derive(Debug, clap::Args)]
pub struct RulesArguments {
    #[command(subcommand)]
    command: Option<RulesCommand>,
}

#[derive(Debug, Subcommand)]
enum RulesCommand {
    /// Shows a form: its rule, its sizes, what most of its blooms have, its neighbours, a drawing.
    Show {
        /// A form or a shape, such as miniature-ball or ball.
        #[arg(value_name = "FORM")]
        form: String,
        /// Also shows the rule as its file has it, for whoever edits the file.
        #[arg(long)]
        source: bool,
    },
    /// Explains the words of the trade that questions and rules use.
    Words,
    /// Proves that every bloom has one form and none has two, or shows a bloom where it is not so.
    Prove {
        /// Also writes the claims as SMT-LIB 2, so that any solver can check them.
        #[arg(long, value_name = "FILE")]
        smt: Option<PathBuf>,
    },
    /// Prints a key for the pocket: the fewest questions from a bloom to its form.
    Card {
        /// Writes one page with drawings, to fold in four; without it the words are shown here.
        #[arg(long, value_name = "FILE.pdf|.svg")]
        out: Option<PathBuf>,
        /// The paper, such as a4 or letter; without it your usual one.
        #[arg(long, value_name = "PAPER", requires = "out")]
        paper: Option<String>,
        /// Puts the forms of your list first; without it all forms are taken as alike.
        #[arg(long)]
        by_list: bool,
    },
    /// Draws every form to one scale, with what tells it from its neighbours.
    Chart {
        /// The file to write.
        #[arg(long, value_name = "FILE.pdf|.svg")]
        out: PathBuf,
        /// The paper, such as a4 or letter; without it your usual one.
        #[arg(long, value_name = "PAPER")]
        paper: Option<String>,
    },
    /// Shows which blooms, varieties and seedlings change form from one rule set to another.
    Compare {
        /// The rule set that you go by now.
        #[arg(value_name = "RULES")]
        first: String,
        /// The one to compare with it.
        #[arg(value_name = "OTHER")]
        second: String,
    },
}

pub(super) fn run(
    arguments: &RulesArguments,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    match &arguments.command {
        None => list(context, out),
        Some(RulesCommand::Show { form, source }) => rules_show::run(form, *source, context, out),
        Some(RulesCommand::Words) => words(context, out),
        Some(RulesCommand::Prove { smt }) => {
            if let Some(path) = smt {
                let claims = context.set().to_smt();
                context.output().write(path, claims.as_bytes())?;
            }
            prove(context, out)
        }
        Some(RulesCommand::Card {
            by_list,
            out: path,
            paper,
        }) => print_card(*by_list, path.as_deref(), paper.as_deref(), context, out),
        Some(RulesCommand::Chart { out: path, paper }) => {
            rules_printed::chart(path, paper.as_deref(), context, out)
        }
        Some(RulesCommand::Compare { first, second }) => {
            rules_compare::run(first, second, context, out)
        }
    }
}

fn list(context: &Context, out: &mut dyn Write) -> Result<bool> {
    if context.json {
        let sets = context.contents.sets.iter().map(|set| {
            let forms: Vec<&str> = set.forms.iter().map(|form| form.id.as_str()).collect();
            json!({ "id": set.id, "name": set.name, "source": set.source, "forms": forms })
        });
        context.print(
            out,
            json!({ "rules": sets.collect::<Vec<_>>(), "used": context.set().id }),
        )?;
        return Ok(true);
    }
    for (index, set) in context.contents.sets.iter().enumerate() {
        let used = if index == context.used {
            "  (used)"
        } else {
            ""
        };
        writeln!(out, "{}: {}{used}", set.id, set.name)?;
        writeln!(out, "  {}", set.source)?;
        writeln!(
            out,
            "  {} shapes, {} forms",
            set.shapes.len(),
            set.forms.len()
        )?;
        for shape in &set.shapes {
            writeln!(out, "    {:<22} {}", shape.name, shape.means)?;
        }
        writeln!(out)?;
    }
    Ok(true)
}

fn words(context: &Context, out: &mut dyn Write) -> Result<bool> {
    let glossary = Glossary::embedded();
    let terms = glossary.list();
    if context.json {
        let terms = terms
            .iter()
            .map(|term| json!({ "word": term.word, "means": term.means }));
        context.print(out, json!({ "words": terms.collect::<Vec<_>>() }))?;
        return Ok(true);
    }
    for term in terms {
        writeln!(out, "{:<13} {}", term.word, term.means)?;
    }
    Ok(true)
}

fn prove(context: &Context, out: &mut dyn Write) -> Result<bool> {
    let set = context.set();
    let proof = set.prove();
    if context.json {
        context.print(out, proof_object(set, &proof))?;
        return Ok(proof.total && proof.disjoint);
    }
    writeln!(
        out,
        "{}: {} forms in {} blocks over {} kinds of bloom.",
        set.id,
        set.forms.len(),
        proof.blocks,
        proof.cells
    )?;
    match &proof.gap {
        None => writeln!(out, "Proved: every bloom has a form.")?,
        Some(bloom) => writeln!(
            out,
            "Not so: a bloom with no form.\n  {}",
            bloom_words(set, bloom, context)
        )?,
    }
    match &proof.overlap {
        None => writeln!(out, "Proved: no bloom has two forms.")?,
        Some((bloom, first, second)) => {
            let (first, second) = (&set.forms[*first].name, &set.forms[*second].name);
            writeln!(
                out,
                "Not so: a bloom that is both {first} and {second}.\n  {}",
                bloom_words(set, bloom, context)
            )?;
        }
    }
    for form in &proof.never {
        writeln!(out, "No bloom can be {}.", set.forms[*form].name)?;
    }
    Ok(proof.total && proof.disjoint)
}

fn proof_object(set: &RuleSet, proof: &Proof) -> Value {
    let forms = |proof: &Proof| match proof.overlap {
        Some((_, first, second)) => {
            vec![set.forms[first].id.as_str(), set.forms[second].id.as_str()]
        }
        None => Vec::new(),
    };
    let witness = proof.overlap.map(|(bloom, ..)| bloom).or(proof.gap);
    json!({
        "rules": set.id,
        "total": proof.total,
        "disjoint": proof.disjoint,
        "cells": u64::try_from(proof.cells).map_or_else(|_| json!(proof.cells.to_string()), |cells| json!(cells)),
        "witness": witness.map(|bloom| witness_object(set, &bloom)),
        "witness_forms": forms(proof),
        "never": proof.never.iter().map(|form| &set.forms[*form].id).collect::<Vec<_>>(),
    })
}

fn witness_object(set: &RuleSet, bloom: &Block) -> Map<String, Value> {
    let answers = set.bloom_in(bloom);
    let pair = |(index, answer): (usize, &crate::form::Answer)| {
        let one = set.traits.get(index);
        (one.id.clone(), Value::String(answer.print(one)))
    };
    answers.iter().map(pair).collect()
}

fn bloom_words(set: &RuleSet, bloom: &Block, context: &Context) -> String {
    format!(
        "{}\n  for example: {}",
        block_words(&set.traits, set.scales(), bloom, context.units),
        set.bloom_in(bloom).print(&set.traits)
    )
}

fn print_card(
    by_list: bool,
    path: Option<&Path>,
    paper: Option<&str>,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let keyer = if by_list {
        context.keyer_by_list()?
    } else {
        context.keyer()
    };
    let Some(key) = keyer.shortest_key(false) else {
        return Err(anyhow!(
            "the rule set is too tangled for a shortest key: expected fewer clauses that overlap"
        ));
    };
    let card = card(&keyer, &key, context.units);
    if let Some(path) = path {
        return rules_printed::card(path, paper, &keyer, &card, context, out);
    }
    let text = card.text(&keyer.set);
    if context.json {
        let object = json!({ "rules": keyer.set.id, "mean": key.mean, "text": text });
        context.print(out, object)?;
    } else {
        out.write_all(text.as_bytes())?;
    }
    Ok(true)
}
