//! What is shown over the page: the order in full, and the season.

use super::OrderPage;
use crate::account::{Section, lines};
use crate::order::report::account::{
    causes, figures, mended, notes, promises, risk, risk_chart, shortfall,
};
use crate::order::report::{
    Chart, bed_plan, beds, key_dates, risk_in_words, season_so_far, sheet, status_sentence,
    weeks_to_hand,
};
use crate::order::{Candidates, Cut, SEASONS, SeasonSoFar, chances};
use crate::screen::kit::chart;
use crate::screen::kit::text::{Row, lines as wrapped, paragraph, width};
use crate::screen::theme::{Role, Theme};

impl OrderPage {
    /// The order in full: how it stands, the sheet by supplier, beds, dates, figures.
    pub fn why(&self, columns: usize) -> Vec<Row> {
        let plan = match &self.plan {
            Ok(plan) => self.solved.as_ref().unwrap_or(plan),
            Err(why) => return texts(std::slice::from_ref(why), columns),
        };
        let (Some(settled), Some(ground)) = (&self.settled, &self.ground) else {
            return vec![Row::of("Nothing is solved yet.", Role::Plain)];
        };
        let mut rows = texts(&[status_sentence(settled)], columns);
        if !self.is_fresh() {
            rows.extend(texts(
                &["The plan has changed since: this is the last solution.".to_string()],
                columns,
            ));
        }
        part(
            &mut rows,
            columns,
            "What would mend it",
            self.mend_sentences(),
        );
        let short = texts_of(&shortfall(plan, settled));
        part(&mut rows, columns, "Short", short);
        let promised = promises(plan, settled);
        let told = Section {
            head: String::new(),
            ..promised.clone()
        };
        part(&mut rows, columns, &promised.head, lines(&[told], columns));
        if let Some(whys) = self.causes.as_deref().filter(|_| self.is_fresh()) {
            let why = texts_of(&causes(plan, settled, whys));
            part(&mut rows, columns, "Why", why);
        }
        if let Some(order) = &settled.order {
            part(
                &mut rows,
                columns,
                "Order",
                lines(&sheet(plan, order, ground.list()), columns),
            );
            let stretches = bed_plan(plan, order, &settled.candidates.first_cuts);
            part(
                &mut rows,
                columns,
                "Beds",
                lines(&beds(plan, &stretches, ground.stock().units), columns),
            );
            part(
                &mut rows,
                columns,
                "To work with, week by week (on average)",
                weeks_to_hand(plan, settled, order, ground.list()),
            );
        }
        rows.push(Row::default());
        rows.push(Row::of("Dates", Role::Heading));
        for date in key_dates(plan, settled, ground.list()) {
            let lead = date.day.strftime("%a %e %b %Y  ").to_string();
            let told = format!("{}. {}", date.what, date.more);
            rows.extend(paragraph(
                (&lead, Role::Strong),
                &told,
                Role::Plain,
                columns,
            ));
        }
        let figures = figures(plan, ground.list());
        part(&mut rows, columns, &figures.head, texts_of(&figures));
        part(
            &mut rows,
            columns,
            "Left out or assumed",
            texts_of(&notes(settled)),
        );
        rows
    }

    /// What would mend it, as far as it was asked.
    pub(super) fn mend_sentences(&self) -> Vec<String> {
        let (Some(mends), Ok(plan)) = (self.mends.as_deref(), &self.plan) else {
            return Vec::new();
        };
        texts_of(&mended(plan, mends))
    }

    /// Draws the seasons that [`OrderPage::season`] tells of, unless they are of this solution, and tells by these
    /// cuts how the one goes that is under way.
    pub(in crate::screen) fn draw_seasons(&mut self, cuts: &[Cut]) {
        self.so_far = self.season_by(cuts).unwrap_or_default();
        let (Some(plan), Some(settled), Some(ground)) = (&self.solved, &self.settled, &self.ground)
        else {
            return;
        };
        if let (Some(order), None) = (&settled.order, &self.drawn) {
            let draw = || chances(plan, &settled.candidates, ground.list(), order, SEASONS);
            self.drawn = Some(settled.chances.clone().unwrap_or_else(draw));
        }
    }

    /// How the plan's own season goes, by these cuts; `None` where none is of what is planted.
    fn season_by(&self, cuts: &[Cut]) -> Option<Vec<Section>> {
        let (plan, ground) = (self.whole.clone()?, self.ground.as_ref()?);
        let plan = plan.before_its_season();
        let candidates = Candidates::of(&plan, ground.against()).ok()?;
        let order = self.planted_of(&candidates)?;
        let so_far = SeasonSoFar::of(&plan, &candidates, ground.list(), &order, cuts, None)?;
        Some(season_so_far(&plan, &so_far))
    }

    /// How the season goes that is under way; then stems needed and expected by week with their range, and the
    /// chances of each need.
    pub fn season(&self, columns: usize, theme: Theme) -> Vec<Row> {
        let mut rows = Vec::new();
        for section in &self.so_far {
            let told = Section {
                head: String::new(),
                ..section.clone()
            };
            rows.extend(wrapped(&section.head, Role::Heading, columns));
            rows.extend(texts(&lines(&[told], columns), columns));
            rows.push(Row::default());
        }
        rows.extend(self.season_planned(columns, theme));
        rows
    }

    /// What the order in view is looked for to give.
    fn season_planned(&self, columns: usize, theme: Theme) -> Vec<Row> {
        let (Some(plan), Some(settled)) = (&self.solved, &self.settled) else {
            return vec![Row::of("Nothing is solved yet.", Role::Plain)];
        };
        let Some(drawn) = &self.drawn else {
            let told = match settled.order {
                None => "There is no order to show the season of.",
                // It came in while the sheet was open.
                Some(_) => "The order was solved again: Esc, then g, draws its season.",
            };
            return vec![Row::of(told, Role::Plain)];
        };
        let chart = Chart::of(plan, settled, Some(drawn));
        let mut rows = vec![Row::of(Chart::TITLE, Role::Heading)];
        let lines = chart.map_or_else(Vec::new, |chart| chart.lines(columns, theme.signs()));
        rows.extend(chart::rows(&lines));
        rows.push(Row::default());
        let chances = risk(plan, drawn, columns);
        rows.extend(wrapped(&chances.head, Role::Heading, columns));
        let shares = risk_chart(plan, drawn);
        rows.extend(chart::rows(&shares.lines(columns, theme.signs())));
        rows.push(chart::row(&shares.legend()));
        rows.push(Row::default());
        rows.extend(texts(&[risk_in_words(plan)], columns));
        rows
    }
}

/// A head and its lines, if there are any.
fn part(rows: &mut Vec<Row>, columns: usize, head: &str, lines: Vec<String>) {
    if !lines.is_empty() {
        rows.push(Row::default());
        rows.push(Row::of(head, Role::Heading));
        rows.extend(texts(&lines, columns));
    }
}

fn texts_of(section: &Section) -> Vec<String> {
    section.sentences().map(|one| one.text.clone()).collect()
}

/// Lines with their own spaces, wrapped only where they are too wide.
fn texts(lines: &[String], columns: usize) -> Vec<Row> {
    lines.iter().flat_map(|line| kept(line, columns)).collect()
}

fn kept(line: &str, columns: usize) -> Vec<Row> {
    match width(line) <= columns {
        true => vec![Row::of(line, Role::Plain)],
        false => wrapped(line, Role::Plain, columns),
    }
}
