//! What narrows the list on the command line, for every command that takes a part of it.

use anyhow::{Result, anyhow};

use super::{BadInput, Context};
use crate::colour::Target;
use crate::measure::day::{self, Weeks};
use crate::measure::same_id;
use crate::variety::{Facet, Index, Narrowing, Query, use_id};

/// What narrows the list.
#[derive(Debug, clap::Args)]
pub(super) struct NarrowArguments {
    /// Words in the name, the raiser, the form or the colours. A name is found by its first letters
    /// and by letters in order too (lchn: Lochan), and one slip in a word is forgiven.
    #[arg(value_name = "WORDS")]
    words: Vec<String>,
    /// Near this colour: a word such as plum, a group such as warm, #rrggbb or lab(L a b). For
    /// several give it again, or write them with or, and, a comma or a slash between: the nearer
    /// counts.
    #[arg(long, value_name = "COLOUR")]
    colour: Vec<String>,
    /// Only what is this near to the colour (CIEDE2000): 2 is hard to tell apart, 10 is
    /// plainly another.
    #[arg(long, value_name = "DISTANCE", requires = "colour")]
    within: Option<f64>,
    /// Only this form; give it again for either form.
    #[arg(long, value_name = "FORM")]
    form: Vec<String>,
    /// Only this size, height, foliage, use, vase, in-bloom, price, on-hand, supplier or raiser, such as
    /// size=small; the same one again: either value.
    #[arg(long = "where", value_name = "FACET=VALUE")]
    facets: Vec<String>,
    /// Only what is in bloom in a week or on a day of the year that is planned, such as 37 or '12 Sep':
    /// as your trial row saw it, else as the season of your plan leads one to expect.
    #[arg(long, value_name = "DAY")]
    in_bloom: Vec<String>,
    /// Only what is on your shortlist.
    #[arg(long)]
    pub(super) shortlist: bool,
}

impl NarrowArguments {
    /// The narrowings as meant.
    ///
    /// # Errors
    /// [`BadInput`] that names the argument.
    pub(super) fn meant(&self, context: &Context, index: &Index) -> Result<Vec<Narrowing>> {
        let bad = |told: String| anyhow!(BadInput(told));
        let mut narrowings = Vec::new();
        let words = self.words.join(" ");
        if !words.trim().is_empty() {
            narrowings.push(Narrowing::Words(words));
        }
        if let Some(within) = self.within {
            if !(within.is_finite() && within >= 0.0) {
                return Err(bad(format!(
                    "--within: found {within}, expected a distance of 0 or more"
                )));
            }
            narrowings.push(Narrowing::Colour {
                asked: self.colour.join(" or "),
                targets: self.targets(context)?,
                within,
            });
        }
        let forms = self.form.iter().map(|form| format!("form={form}"));
        let weeks = self.weeks(context)?;
        let weeks = weeks.iter().map(|week| format!("in-bloom={week}"));
        let marked = self.shortlist.then(|| "shortlist=yes".to_string());
        let facets = forms.chain(self.facets.iter().cloned());
        for pair in facets.chain(weeks).chain(marked) {
            add_facet(&mut narrowings, &pair, index).map_err(bad)?;
        }
        Ok(narrowings)
    }

    /// The weeks of the year in which it is to be in bloom.
    ///
    /// # Errors
    /// [`BadInput`] where one is none.
    fn weeks(&self, context: &Context) -> Result<Vec<u8>> {
        let bad = |told: String| anyhow!(BadInput(format!("--in-bloom: {told}")));
        if self.in_bloom.is_empty() {
            return Ok(Vec::new());
        }
        let year = { context.contents.season.as_ref() }.map(|season| season.year);
        let year = year.unwrap_or_else(|| super::today().year());
        let days = context.calendar().planning(year);
        let mut all = Vec::new();
        for typed in &self.in_bloom {
            let Weeks { first, last } = day::weeks(typed, &days).map_err(bad)?;
            all.extend(first..=last);
        }
        Ok(all)
    }

    /// The colours to be near to.
    ///
    /// # Errors
    /// [`BadInput`] where one is none.
    pub(super) fn targets(&self, context: &Context) -> Result<Vec<Target>> {
        let mut targets = Vec::new();
        for colour in &self.colour {
            targets.extend(targets_of(colour, context)?);
        }
        Ok(targets)
    }

    /// The words.
    pub(super) fn query(&self) -> Option<Query> {
        let words = self.words.join(" ");
        (!words.trim().is_empty()).then(|| Query::new(&words))
    }

    /// Whether a colour is given without a distance: something to rank by, which narrows nothing.
    pub(super) fn ranks_only(&self) -> bool {
        !self.colour.is_empty() && self.within.is_none()
    }
}

fn add_facet(narrowings: &mut Vec<Narrowing>, pair: &str, index: &Index) -> Result<(), String> {
    let (id, value) = pair.split_once('=').ok_or_else(|| {
        format!("--where: found {pair:?}, expected FACET=VALUE, such as size=small")
    })?;
    let facet = Facet::find(id).ok_or_else(|| {
        let known = Facet::ALL.map(Facet::id);
        format!(
            "--where: found the facet {id:?}, expected one of {}",
            known.join(", ")
        )
    })?;
    let value = match facet {
        Facet::Use => use_id(value),
        _ => value,
    };
    let known = index.values(facet);
    let own = known.iter().find(|one| *one == value);
    let own = own.or_else(|| known.iter().find(|one| same_id(value, one)));
    let Some(value) = own else {
        return Err(format!(
            "{id}: found {value:?}, expected one of {}",
            known.join(", ")
        ));
    };
    for narrowing in narrowings.iter_mut() {
        if let Narrowing::Facet { facet: own, values } = narrowing
            && *own == facet
        {
            values.push(value.to_string());
            return Ok(());
        }
    }
    narrowings.push(Narrowing::facet(facet, value));
    Ok(())
}

/// The targets of one colour or several that are asked for.
pub(super) fn targets_of(text: &str, context: &Context) -> Result<Vec<Target>> {
    let words = &context.contents.words;
    words.asked(text).map_err(|told| anyhow!(BadInput(told)))
}
