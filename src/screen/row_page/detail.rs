//! The plant under the cursor: what its entries add up to, what is missing, and its book.

use super::{RowPage, Sum};
use crate::measure::{Exact, Length};
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;
use crate::trial::plot::{self, Frame};

/// The name of a line, and the gap behind it.
const LEAD: usize = 14;
/// The room of a plot, columns and rows.
const PLOT: (usize, usize) = (64, 9);

impl RowPage {
    /// The head over the detail.
    pub(super) fn detail_head(&self) -> Row {
        let Some(sum) = self.chosen() else {
            return Row::of("No plant", Role::Heading);
        };
        let subject = &sum.evidence.subject;
        let row = Row::of(subject.to_string(), Role::Heading);
        match self.plot.trial.seedling_of(subject) {
            Some(seedling) => row.with(format!("  {}", seedling.told()), Role::Plain),
            None => row.with("  of your list, under trial", Role::Plain),
        }
    }

    /// What to do, and what the entries add up to.
    pub(super) fn detail(&self, columns: usize) -> Vec<Row> {
        let Some(sum) = self.chosen() else {
            return Vec::new();
        };
        let mut rows = self.advised(sum, columns);
        rows.extend(self.told(sum, columns));
        rows
    }

    /// Everything, for the sheet: plots and every entry too.
    pub(super) fn in_full(&self, columns: usize) -> Vec<Row> {
        let Some(sum) = self.chosen() else {
            return vec![Row::of("There is no plant to show.", Role::Plain)];
        };
        let mut rows = vec![self.detail_head(), Row::default()];
        rows.extend(self.told(sum, columns));
        rows.extend(self.plots(sum, columns));
        rows.push(Row::default());
        rows.extend(self.advised(sum, columns));
        rows.extend(self.book(sum, columns));
        rows
    }

    /// The vase curve, and the blooms' diameters against the limits of the sizes.
    fn plots(&self, sum: &Sum, columns: usize) -> Vec<Row> {
        let frame = Frame {
            width: columns.min(PLOT.0),
            height: PLOT.1,
            ascii: false,
        };
        let mut rows = Vec::new();
        let mut plot = |heading: &str, lines: Vec<String>| {
            if !lines.is_empty() {
                rows.extend([Row::default(), Row::of(heading, Role::Heading)]);
                rows.extend(lines.iter().map(|line| Row::of(line, Role::Plain)));
            }
        };
        if let Some(curve) = &sum.evidence.vase {
            let steps: Vec<(f64, f64)> =
                curve.steps.iter().map(|one| (one.day, one.share)).collect();
            let stems = sum.evidence.vase_stems.iter();
            let fresh: Vec<f64> = stems.filter(|one| !one.ended).map(|one| one.days).collect();
            let test = plot::VaseTest {
                steps: &steps,
                fresh: &fresh,
            };
            plot(
                "Still fresh in the vase, by day (+: when its test ended)",
                test.lines(frame),
            );
        }
        if let Some(seen) = &sum.evidence.diameters {
            let blooms: Vec<f64> = seen
                .blooms
                .iter()
                .flat_map(|(_, day)| day)
                .map(|mm| mm.to_f64())
                .collect();
            let limits: Vec<plot::Limit> = self
                .plot
                .keyer
                .set
                .size_words
                .iter()
                .map(|(word, span)| plot::Limit {
                    at: span.low.to_f64(),
                    label: word.clone(),
                })
                .collect();
            let mean = seen.nested.limits();
            let strip = plot::Diameters {
                blooms: &blooms,
                mean: mean.map(|limits| [limits.low, seen.nested.mean, limits.high]),
                limits: &limits,
            };
            let units = self.plot.units;
            let shown = |mm: f64| Length::from_mm(Exact::whole(mm.round() as i64)).shown(units);
            plot(
                "Each bloom's diameter, and where sizes begin",
                strip.lines(frame, shown),
            );
        }
        rows
    }

    fn told(&self, sum: &Sum, columns: usize) -> Vec<Row> {
        let listed = self.listed(sum);
        let lines = sum.evidence.told(&self.plot.keyer, listed, self.plot.units);
        if lines.is_empty() {
            return vec![Row::of("Nothing was noted of it yet.", Role::Quiet)];
        }
        let line = |line: &crate::trial::Line| {
            let lead = format!("{:<LEAD$}", line.about);
            paragraph((&lead, Role::Quiet), &line.text, Role::Plain, columns)
        };
        lines.iter().flat_map(line).collect()
    }

    fn advised(&self, sum: &Sum, columns: usize) -> Vec<Row> {
        let advice = &sum.advice;
        let mut rows = vec![Row::of(
            format!("The gate's advice: {}", advice.fate.word()),
            Role::Strong,
        )];
        let missing = advice.missing.iter().map(|told| (" ? ", Role::Doubt, told));
        let mark = match advice.fate {
            crate::trial::Fate::Cull => (" - ", Role::Wrong),
            _ => (" + ", Role::Fits),
        };
        let reasons = advice.reasons.iter().map(|told| (mark.0, mark.1, told));
        let unknown = advice.unknown.iter();
        let unknown = unknown.map(|told| (" . not known: ", Role::Quiet, told));
        for (mark, role, told) in missing.chain(reasons).chain(unknown) {
            rows.extend(paragraph((mark, role), told, Role::Plain, columns));
        }
        rows
    }

    /// Every entry about it, the corrected ones marked.
    fn book(&self, sum: &Sum, columns: usize) -> Vec<Row> {
        let trial = &self.plot.trial;
        let entries: Vec<_> = trial
            .entries()
            .iter()
            .filter(|entry| entry.of == sum.evidence.subject)
            .collect();
        if entries.is_empty() {
            return Vec::new();
        }
        let mut rows = vec![Row::default(), Row::of("Its entries", Role::Heading)];
        for entry in entries {
            let stands = trial.stands_for(entry.id).map(|standing| standing.id);
            let stands = stands == Some(entry.id);
            let (mark, role) = match stands {
                true => (' ', Role::Plain),
                false => ('-', Role::Quiet),
            };
            let lead = format!("{mark}{:>5}  ", entry.id);
            let text = match stands {
                true => entry.print(),
                false => format!("{} (no longer counts)", entry.print()),
            };
            rows.extend(paragraph((&lead, Role::Quiet), &text, role, columns));
        }
        rows.push(Row::default());
        let told = "To correct one: 0, then corrects=ITS NUMBER and all of it as it should be; withdraw=ITS NUMBER takes it out.";
        rows.extend(paragraph(("", Role::Quiet), told, Role::Quiet, columns));
        rows
    }
}
