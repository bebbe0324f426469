//! The labels that were made, whose they are, and those that cannot be.

use std::io::Write;

use anyhow::{Result, anyhow};

use super::job::Job;
use crate::command::{BadInput, Context};
use crate::tag::{About, PerPlant, Practice, Printer, Refused, Run, Says, labels_in};

/// What was made of what was asked for.
#[derive(Default)]
pub(super) struct Made<'a> {
    /// Whose tags, and how many of each.
    pub(super) tags: Vec<(&'a Says, u32)>,
    /// Their labels.
    pub(super) runs: Vec<Run>,
    /// What is not printed and why, by plant.
    pub(super) refused: Vec<Refused>,
}

impl<'a> Made<'a> {
    /// The labels of these plants.
    ///
    /// # Errors
    /// Where the kind has no room on the sheet, or where they are too many.
    pub(super) fn of(
        says: &'a [Says],
        copies: &PerPlant<u32>,
        job: &Job<'_>,
        context: &Context,
    ) -> Result<Made<'a>> {
        let printer = Printer::new(&context.contents.tags, job.kind, job.sheet, job.coloured);
        let printer = printer.map_err(|told| anyhow!(told))?;
        let printer = printer.with_numbers(job.numbered);
        let mut made = Made::default();
        for (one, label) in says.iter().zip(printer.labels(says)) {
            match label {
                Ok(label) => {
                    let copies = *copies.of(&one.subject);
                    made.tags.push((one, copies));
                    made.runs.push(Run { label, copies });
                }
                Err(why) => made.refused.push(why),
            }
        }
        made.refused.sort_by(|a, b| a.subject.cmp(&b.subject));
        labels_in(made.copies()).map_err(|told| anyhow!(BadInput(told)))?;
        Ok(made)
    }

    /// How many labels.
    pub(super) fn labels(&self) -> usize {
        // OK because they were counted when they were made.
        labels_in(self.copies()).unwrap_or_default()
    }

    fn copies(&self) -> impl Iterator<Item = u32> {
        self.tags.iter().map(|(_, copies)| *copies)
    }

    /// Says what to ask about before anything is sold.
    pub(super) fn caution(&self, out: &mut dyn Write, practice: &Practice) -> Result<()> {
        writeln!(out, "{}", practice.selling)?;
        let line = |says: &Says| says.facts.iter().any(|fact| fact.about == About::Line);
        if self.tags.iter().any(|(says, _)| line(says)) && !practice.own_line.is_empty() {
            writeln!(out, "{}", practice.own_line)?;
        }
        Ok(())
    }
}
