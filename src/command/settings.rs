//! `trug settings`: what the grower has settled once, shown and changed.

use std::io::Write;

use anyhow::{Result, anyhow};
use clap::Subcommand;
use serde_json::json;

use super::{BadInput, Context, open_to_write, season_ahead};
use crate::folder::settings::{SETTINGS, Settings, open_settings, save_settings};
use crate::record::{Field, Fields};
use crate::settings::SettingsGround;

/// What `trug settings` takes.
#[derive(Debug, clap::Args)]
pub struct SettingsArguments {
    /// What to do; they are shown if left out.
    #[command(subcommand)]
    command: Option<SettingsCommand>,
}

#[derive(Debug, Subcommand)]
enum SettingsCommand {
    /// Changes some of them and saves them in your folder.
    Set(SetArguments),
}

#[derive(Debug, clap::Args)]
struct SetArguments {
    /// A setting and its value, such as units=in or 'grower=Skerry Lane'; nothing after the = takes it
    /// away.
    #[arg(value_name = "SETTING=VALUE", required = true)]
    words: Vec<String>,
}

/// Columns of a setting's word and of its value.
const WORD: usize = 13;
const VALUE: usize = 14;

pub(super) fn run(
    arguments: &SettingsArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let rules: Vec<String> = { context.contents.sets.iter() }
        .map(|set| set.id.clone())
        .collect();
    let ground = SettingsGround {
        rules: &rules,
        year: season_ahead(),
    };
    let settings = match &arguments.command {
        None => context.contents.settings.clone(),
        Some(SettingsCommand::Set(set)) => changed(&set.words, ground, context, errors)?,
    };
    let saved = arguments.command.is_some();
    if context.json {
        let mut object = json!({ "settings": serde_json::to_value(&settings)? });
        if saved {
            object["written"] = json!([format!("{SETTINGS} is saved.")]);
        }
        context.print(out, object)?;
        return Ok(true);
    }
    for field in settings.fields(ground) {
        writeln!(out, "{}", line(&field))?;
    }
    if saved {
        writeln!(out, "\n{SETTINGS} is saved.")?;
    }
    Ok(true)
}

/// A setting, what stands there, and what it means.
fn line(field: &Field) -> String {
    let value = match field.text.as_str() {
        "" => "-",
        text => text,
    };
    let word = field.key.to_string();
    format!("{word:<WORD$} {value:<VALUE$} {}", field.means)
}

/// The settings as they are changed, saved.
fn changed(
    words: &[String],
    ground: SettingsGround<'_>,
    context: &Context,
    errors: &mut dyn Write,
) -> Result<Settings> {
    let folder = open_to_write(context.own_folder()?, errors)?;
    let (mut settings, mut guard) = open_settings(&folder)?;
    for word in words {
        set(&mut settings, word, ground).map_err(|why| anyhow!(BadInput(why)))?;
    }
    if let Some((key, why)) = settings.wrong(ground) {
        return Err(anyhow!(BadInput(format!("{key}: {why}"))));
    }
    save_settings(&folder, &mut guard, &settings)?;
    Ok(settings)
}

/// Sets one setting.
fn set(settings: &mut Settings, typed: &str, ground: SettingsGround<'_>) -> Result<(), String> {
    let fields = settings.fields(ground);
    let known = || {
        let words = fields.iter().map(|field| field.key.to_string());
        words.collect::<Vec<_>>().join(", ")
    };
    let (word, value) = typed.split_once('=').ok_or_else(|| {
        format!("found {typed:?}, expected a setting and its value, such as units=in")
    })?;
    let field = fields.iter().find(|field| field.key.to_string() == word);
    let key = field.map(|field| field.key);
    let key = key.ok_or_else(|| format!("found {word:?}, expected one of {}", known()))?;
    let set = settings.set(key, value, ground);
    set.map_err(|why| format!("{key}: {why}"))
}
