//! The plant under the cursor: what its entries add up to, what is missing, and its book.

use super::{RowPage, Sum};
use crate::account::text::{Side, pad};
use crate::chart::{Frame, Line};
use crate::screen::kit::chart;
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::{Role, Theme};
use crate::trial::Fate;

/// The name of a line, and the gap behind it.
const LEAD: usize = 14;
/// The most columns that a chart takes, and the rows that the curve and the days have.
const CHART: usize = 90;
const CURVE: usize = 11;
const DAYS: usize = 18;
/// The fewest rows in which a curve tells anything, and the rows over a chart.
const LEAST_CURVE: usize = 7;
const OVER: usize = 3;

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

    /// Everything, for the sheet: charts and every entry too.
    pub(super) fn in_full(&self, columns: usize, theme: Theme) -> Vec<Row> {
        let Some(sum) = self.chosen() else {
            return vec![Row::of("There is no plant to show.", Role::Plain)];
        };
        let mut rows = vec![self.detail_head(), Row::default()];
        rows.extend(self.evidence_rows(sum, columns));
        rows.extend(self.vase_chart(sum, columns, CURVE, theme));
        rows.extend(self.day_chart(sum, columns, theme));
        rows.push(Row::default());
        rows.extend(self.advised(sum, columns));
        rows.extend(self.book(sum, columns));
        rows
    }

    /// The charts of the plant that have room in so many rows: the curve as high as that lets it be.
    pub(super) fn charts_within(&self, columns: usize, height: usize, theme: Theme) -> Vec<Row> {
        let Some(sum) = self.chosen() else {
            return Vec::new();
        };
        let curve = height.saturating_sub(OVER).min(CURVE);
        let curve = (curve >= LEAST_CURVE).then(|| self.vase_chart(sum, columns, curve, theme));
        let mut rows = curve.unwrap_or_default();
        let days = self.day_chart(sum, columns, theme);
        if rows.len() + days.len() <= height {
            rows.extend(days);
        }
        rows
    }

    /// The share of stems still fresh, in so many rows under a blank one, a head and what the signs
    /// say; nothing where none was tested.
    fn vase_chart(&self, sum: &Sum, columns: usize, rows: usize, theme: Theme) -> Vec<Row> {
        let wanted = self.plot.release.cull.vase;
        let Some(curve) = sum.evidence.vase_chart(wanted) else {
            return Vec::new();
        };
        let signs = theme.signs();
        let frame = Frame {
            columns: columns.min(CHART),
            rows,
            signs,
        };
        let head = "Share still fresh in the vase, by day";
        under(head, &curve.legend(signs), &curve.lines(frame))
    }

    /// The blooms' diameters by day against where sizes begin; nothing where none was measured.
    fn day_chart(&self, sum: &Sum, columns: usize, theme: Theme) -> Vec<Row> {
        let plot = &self.plot;
        let days = sum.evidence.diameter_chart(&plot.keyer.set, plot.units);
        let Some(days) = days else {
            return Vec::new();
        };
        let signs = theme.signs();
        let frame = Frame {
            columns: columns.min(CHART),
            rows: DAYS,
            signs,
        };
        let head = "Diameters by day, and where sizes begin";
        under(head, &days.legend(signs), &days.lines(frame))
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

/// A chart under a blank row, its head and what its signs say; nothing where it has no lines.
fn under(head: &str, legend: &Line, lines: &[Line]) -> Vec<Row> {
    if lines.is_empty() {
        return Vec::new();
    }
    let mut rows = vec![Row::default(), Row::of(head, Role::Heading)];
    rows.push(chart::row(legend));
    rows.extend(chart::rows(lines));
    rows
}
