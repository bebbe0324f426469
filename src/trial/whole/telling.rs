//! The row as a whole in words: the same in the command and on the screen.

use super::{Counts, ParentShare, Whole};
use crate::form::sentences::percent;
use crate::measure::sample::Interval;
use crate::trial::statistics::parents::{Estimate, LEAST_DECIDED};
use crate::trial::telling::share_told;

impl Whole {
    /// The row as a whole: a heading, and a line for each thing under it.
    pub fn told(&self) -> Vec<(&'static str, Vec<String>)> {
        let counts = |counts: &Counts| {
            format!(
                "{} sown: {} kept, {} held, {} culled, {} undecided",
                counts.sown,
                counts.keep,
                counts.hold,
                counts.cull,
                counts.undecided()
            )
        };
        let mut all = vec![
            counts(&self.all),
            format!("selection rate: kept {}", share_told(self.all.kept())),
        ];
        let stays = self.all.stays();
        if stays.of() > 0 {
            all.push(format!(
                "of those decided on, kept or held {}",
                share_told(stays)
            ));
        }
        let of_year = |(year, seen): &(i16, Counts)| format!("{year}: {}", counts(seen));
        let mut parts = vec![
            ("The row", all),
            (
                "By the year of sowing",
                self.sown.iter().map(of_year).collect(),
            ),
            (
                "As it stood at the end of each season",
                self.seasons.iter().map(of_year).collect(),
            ),
        ];
        if let Some(new) = self.new_parent.filter(|_| !self.parents.is_empty()) {
            let mut lines: Vec<String> = self.parents.iter().map(ParentShare::told).collect();
            lines.push(format!("a parent new to this row: {}", estimate_told(new)));
            lines.push(
                "'would stay' is the share of many seedlings with mates such as this row's. A \
                 seedling speaks for both its parents, and a parent of few seedlings is taken \
                 to be much like the others."
                    .to_string(),
            );
            parts.push(("Parents, by the share of their seedlings that stays", lines));
        }
        parts
    }
}

impl ParentShare {
    fn told(&self) -> String {
        let own = self.offspring.own;
        let decided = match own.of() {
            0 => "none decided on yet".to_string(),
            of => format!("{} of {of} decided on stay", own.hit()),
        };
        let would = match self.offspring.estimate {
            Some(estimate) => format!("; {}", estimate_told(estimate)),
            None if own.of() > 0 => format!("; too few to tell, under {LEAST_DECIDED}"),
            None => String::new(),
        };
        format!("{}: {decided}{would}", self.parent)
    }
}

/// `43 % would stay (95 %: 23 to 72 %)`.
fn estimate_told(estimate: Estimate) -> String {
    let Interval { low, high } = estimate.limits;
    format!(
        "{} would stay (95 %: {:.0} to {:.0} %)",
        percent(estimate.share),
        low * 100.0,
        high * 100.0
    )
}
