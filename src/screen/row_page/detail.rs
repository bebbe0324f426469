//! The plant under the cursor: what its entries add up to, what is missing, and its book.

use super::{RowPage, Sum};
use crate::account::text::{Side, pad};
use crate::measure::{Exact, Length};
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;
use crate::trial::Fate;
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
            Some(seedling) => row.with(format!("  {}", seedling.description()), Role::Plain),
            None => row.with("  of your list, under trial", Role::Plain),
        }
    }

    /// What to do next, and what the gate advises.
    pub(super) fn to_do(&self, columns: usize) -> Vec<Row> {
        let Some(sum) = self.chosen() else {
            return Vec::new();
        };
        let mut rows = paragraph(
            ("Next: ", Role::Quiet),
            &sum.next.told,
            Role::Plain,
            columns,
        );
        rows.extend(self.advised(sum, columns));
        rows
    }

    /// What the entries of the plant under the cursor add up to.
    pub(super) fn evidence(&self, columns: usize) -> Vec<Row> {
        let sum = self.chosen();
        sum.map_or_else(Vec::new, |sum| self.evidence_rows(sum, columns))
    }

    /// Everything, for the sheet: plots and every entry too.
    pub(super) fn in_full(&self, columns: usize) -> Vec<Row> {
        let Some(sum) = self.chosen() else {
            return vec![Row::of("There is no plant to show.", Role::Plain)];
        };
        let mut rows = vec![self.detail_head(), Row::default()];
        rows.extend(self.evidence_rows(sum, columns));
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

    fn evidence_rows(&self, sum: &Sum, columns: usize) -> Vec<Row> {
        let section = self.plant(sum).sums(&self.plot.trial, &self.by());
        let mut rows = Vec::new();
        for pair in section.pairs().filter(|pair| !pair.name.is_empty()) {
            let lead = pad(pair.name, LEAD, Side::Left);
            let text = pair.cell.shown();
            rows.extend(paragraph((&lead, Role::Quiet), &text, Role::Plain, columns));
        }
        if rows.is_empty() {
            rows.push(Row::of("Nothing was noted of it yet.", Role::Quiet));
        }
        rows
    }

    fn advised(&self, sum: &Sum, columns: usize) -> Vec<Row> {
        let section = self.plant(sum).advised();
        let mut rows = vec![Row::of(&section.head, Role::Strong)];
        for one in section.sentences() {
            let (mark, role) = match (one.lead, sum.advice.fate) {
                ("missing", _) => ("? ", Role::Doubt),
                ("because", Fate::Cull) => ("- ", Role::Wrong),
                ("because", _) => ("+ ", Role::Fits),
                _ => (". not known: ", Role::Quiet),
            };
            rows.extend(paragraph((mark, role), &one.text, Role::Plain, columns));
        }
        rows
    }

    /// Every entry about it, and who changed what.
    fn book(&self, sum: &Sum, columns: usize) -> Vec<Row> {
        let section = self.plant(sum).book(&self.plot.trial, &self.by());
        let entries: Vec<_> = section.tables().flat_map(|table| &table.rows).collect();
        if entries.is_empty() {
            return Vec::new();
        }
        let mut rows = vec![Row::default(), Row::of(&section.head, Role::Heading)];
        for entry in entries {
            let [mark, id, text] = [0, 1, 2].map(|at| entry[at].shown());
            let role = match mark.as_str() {
                "" => Role::Plain,
                _ => Role::Quiet,
            };
            let lead = format!("{mark:1}{id:>5}  ");
            rows.extend(paragraph((&lead, Role::Quiet), &text, role, columns));
        }
        rows.push(Row::default());
        let told = "To correct one: 0, then corrects=ITS NUMBER and all of it as it should be; withdraw=ITS NUMBER takes it out, and a withdrawal too.";
        rows.extend(paragraph(("", Role::Quiet), told, Role::Quiet, columns));
        rows
    }
}
