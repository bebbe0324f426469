//! `trug rules show`: one form in words, and drawn.

use std::io::Write;

use anyhow::{Result, anyhow};
use serde_json::json;

use super::{BadInput, Context};
use crate::account::text::wrap;
use crate::draw::{Bloom, Characters, Drawing, Grid, Paint, View};
use crate::form::glossary::Glossary;
use crate::form::traits::list_and;
use crate::form::words::span_words;
use crate::form::{Answers, Shape};
use crate::measure::same_id;

/// The width of one drawing: two of them and the gap have room in 80 columns.
const ACROSS: u16 = 36;
const GAP: &str = "    ";
/// The columns of words, and what stands before them under a head.
const COLUMNS: usize = 78;
const INDENT: &str = "  ";

pub(super) fn run(
    id: &str,
    as_written: bool,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let set = context.set();
    let found = set.find(id);
    let shape = found.map(|form| set.forms[form].shape);
    let shape = shape.or_else(|| set.shapes.iter().position(|shape| same_id(id, &shape.id)));
    let Some(index) = shape else {
        let ids: Vec<&str> = set.forms.iter().map(|form| form.id.as_str()).collect();
        let told = format!(
            "found the form {id:?}, expected one of {}: {}",
            set.id,
            ids.join(", ")
        );
        return Err(anyhow!(BadInput(told)));
    };
    let shape = &set.shapes[index];
    let before: Vec<&str> = shape
        .unless
        .iter()
        .map(|at| set.shapes[*at].name.as_str())
        .collect();
    let forms: Vec<_> = set
        .forms
        .iter()
        .filter(|form| form.shape == index)
        .collect();
    let one = set.traits.find("diameter").map(|at| set.traits.get(at));
    let size = |span| one.map_or(String::new(), |one| span_words(one, span, context.units));
    if context.json {
        let forms = forms.iter().map(
            |form| json!({ "id": form.id, "name": form.name, "diameter": size(form.diameter) }),
        );
        let names = shape
            .names
            .iter()
            .map(|named| json!({ "name": named.name, "value": named.value, "note": named.note }));
        let object = json!({
            "rules": set.id, "shape": shape.id, "name": shape.name, "means": shape.means,
            "requires": shape.text, "unless": shape.unless.iter().map(|at| &set.shapes[*at].id).collect::<Vec<_>>(),
            "names": names.collect::<Vec<_>>(),
            "typical": shape.typical_text, "forms": forms.collect::<Vec<_>>(),
        });
        context.print(out, object)?;
        return Ok(true);
    }
    // Asked for by a size's own name, say so before the shape that it is a size of.
    if let Some(form) = set
        .find(id)
        .map(|form| &set.forms[form])
        .filter(|form| form.name != shape.name)
    {
        writeln!(
            out,
            "{}: {}, {} across.\n",
            form.name,
            shape.name,
            size(form.diameter)
        )?;
    }
    writeln!(out, "{}: {}", shape.name, shape.means)?;
    writeln!(out, "\nIts rule in {}:", set.id)?;
    write_words(&set.rule_said(shape, context.units), out)?;
    if !before.is_empty() {
        write_words(&format!("and none of {}", list_and(&before)), out)?;
    }
    for limit in set.limits_said(shape, context.units) {
        write_words(&limit, out)?;
    }
    if let Some(typical) = set.typical_said(shape, context.units) {
        writeln!(out, "\nTypical, not required:")?;
        write_words(&typical, out)?;
    }
    if as_written {
        write_source(shape, out)?;
    }
    writeln!(out, "\nForms by size:")?;
    for form in forms {
        writeln!(out, "  {:<26} {}", form.name, size(form.diameter))?;
    }
    let of_shape = || set.forms.iter().position(|form| form.shape == index);
    if let Some(form) = found.or_else(of_shape) {
        let near = context.keyer().neighbours(form, context.units);
        if !near.is_empty() {
            writeln!(out, "\nBut with:")?;
        }
        for near in near {
            writeln!(out, "  {}: {}", near.wants, set.shapes[near.shape].name)?;
        }
        let read = [
            shape.means.clone(),
            set.rule_said(shape, context.units),
            set.typical_said(shape, context.units).unwrap_or_default(),
        ];
        let glossary = Glossary::embedded();
        let terms = glossary.in_text(&read.join("; "));
        if !terms.is_empty() {
            writeln!(out, "\nWords:")?;
        }
        for term in terms {
            writeln!(out, "  {}: {}", term.word, term.means)?;
        }
        writeln!(out, "\nTypically, face and side:\n")?;
        out.write_all(drawn(context, form).as_bytes())?;
    }
    Ok(true)
}

/// A sentence under its head, in lines.
fn write_words(words: &str, out: &mut dyn Write) -> Result<()> {
    for line in wrap(words, COLUMNS - INDENT.len()) {
        writeln!(out, "{INDENT}{line}")?;
    }
    Ok(())
}

/// The rule as its file has it, with what its named words and limits stand for: for who edits the file.
fn write_source(shape: &Shape, out: &mut dyn Write) -> Result<()> {
    writeln!(out, "\nAs the file has it:\n  requires {}", shape.text)?;
    writeln!(out, "  typical  {}", shape.typical_text)?;
    for named in &shape.names {
        writeln!(out, "  {} is {}", named.name, named.value)?;
    }
    Ok(())
}

/// A typical bloom of the form with this index as text, its side right of its face.
fn drawn(context: &Context, form: usize) -> String {
    let characters = match context.plain {
        true => Characters::Ascii,
        false => Characters::Braille,
    };
    let bloom = Bloom::of_form(context.set(), form, &Answers::default());
    let grid = |view| {
        let drawing = Drawing::of(&bloom, &Paint::plain(), view);
        Grid::of(&drawing, ACROSS, ACROSS / 2, characters, None)
    };
    let (face, side) = (grid(View::Face), grid(View::Side));
    let line = |row: u16| {
        let cells = |grid: &Grid| grid.row(row).iter().map(|cell| cell.symbol).collect();
        let (face, side): (String, String) = (cells(&face), cells(&side));
        format!("{face}{GAP}{side}").trim_end().to_string() + "\n"
    };
    (0..ACROSS / 2).map(line).collect()
}
