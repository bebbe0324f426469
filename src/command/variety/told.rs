//! What was done to a variety, in words and as an object.

use std::io::Write;

use anyhow::Result;
use serde_json::{Value, json};

use super::Context;
use crate::command::field_changed::field_changed;
use crate::record::{Field, Fields};
use crate::variety::{Draft, DraftGround, Variety};

/// A field whose text is another than before.
struct Changed {
    field: String,
    before: String,
    after: String,
}

/// Says what was done: `done` is added, changed or dropped; `left` how many the list holds.
pub(super) fn told(
    (before, after): (Option<&Variety>, Option<&Variety>),
    done: &str,
    left: usize,
    ground: DraftGround<'_>,
    context: &Context,
    out: &mut dyn Write,
) -> Result<()> {
    let name = after.or(before).map_or("", |one| one.name.as_str());
    let changes = changes(before, after, ground);
    if context.json {
        let object =
            |one: &Changed| json!({ "field": one.field, "before": one.before, "after": one.after });
        let changes: Vec<Value> = changes.iter().map(object).collect();
        let object = json!({ "name": name, "done": done, "fields": changes, "varieties": left });
        return context.print(out, object);
    }
    writeln!(out, "{name} {done}, saved; the list holds {left} now.")?;
    if done == "dropped" {
        return Ok(());
    }
    for Changed {
        field,
        before,
        after,
    } in changes
    {
        match done {
            "added" => writeln!(out, "  {field}: {after}")?,
            _ => writeln!(out, "{}", field_changed(&field, &before, &after))?,
        }
    }
    Ok(())
}

fn changes(
    before: Option<&Variety>,
    after: Option<&Variety>,
    ground: DraftGround<'_>,
) -> Vec<Changed> {
    let fields = |variety: Option<&Variety>| -> Vec<Field> {
        variety.map_or(Vec::new(), |one| Draft::of(one).fields(ground))
    };
    let (before, after) = (fields(before), fields(after));
    let text = |fields: &[Field], key| {
        let found = fields.iter().find(|field| field.key == key);
        found.map_or(String::new(), |field| field.text.clone())
    };
    let mut keys: Vec<_> = after.iter().chain(&before).map(|field| field.key).collect();
    let mut seen = std::collections::BTreeSet::new();
    keys.retain(|key| seen.insert(*key));
    let changed = keys.into_iter().map(|key| Changed {
        field: key.to_string(),
        before: text(&before, key),
        after: text(&after, key),
    });
    changed.filter(|one| one.before != one.after).collect()
}
