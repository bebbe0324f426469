//! One account of the row as a whole: the same in the command, on the screen and for programs.

use super::{Counts, ParentShare, Whole};
use crate::account::{Cell, Pair, Part, Section};
use crate::form::sentences::percent;
use crate::measure::sample::Interval;
use crate::trial::account::{share, would_stay};
use crate::trial::statistics::parents::{Estimate, LEAST_DECIDED};
use crate::trial::telling::share_in_words;

impl Whole {
    /// The account: the row as it stands, by year of sowing, season by season, and by parents.
    pub fn account(&self) -> Vec<Section> {
        let stays = self.all.stays();
        let mut all = vec![
            self.all.in_words(),
            format!("selection rate: kept {}", share_in_words(self.all.kept())),
        ];
        if stays.of() > 0 {
            all.push(format!(
                "of those decided on, kept or held {}",
                share_in_words(stays)
            ));
        }
        let figures = vec![
            Pair::data("counts", Cell::Record(self.all.figures())),
            Pair::data("kept", share(self.all.kept())),
            Pair::data("stays", share(stays)),
        ];
        let years = |id, head: &str, years: &[(i16, Counts)]| {
            let told = years
                .iter()
                .map(|(year, seen)| format!("{year}: {}", seen.in_words()));
            let figures = years.iter().map(|(year, seen)| {
                let year = ("year", year.unsigned_abs().into());
                Cell::Record([seen.figures(), vec![year]].concat())
            });
            Section::under(head)
                .with(Part::sentences("", told))
                .with(Part::Pairs(vec![Pair::data(id, Cell::list(figures))]))
        };
        vec![
            Section::under("The row")
                .with(Part::sentences("", all))
                .with(Part::Pairs(figures)),
            years("sown", "By the year of sowing", &self.sown),
            years(
                "seasons",
                "As it stood at the end of each season",
                &self.seasons,
            ),
            self.parents_section(),
        ]
    }

    fn parents_section(&self) -> Section {
        let new = self.new_parent.filter(|_| !self.parents.is_empty());
        let told = new.map(|new| {
            let mut lines: Vec<String> = self.parents.iter().map(ParentShare::in_words).collect();
            lines.push(format!(
                "a parent new to this row: {}",
                estimate_in_words(new)
            ));
            lines.push(
                "'would stay' is the share of many seedlings with mates such as this row's. A \
                 seedling speaks for both its parents, and a parent of few seedlings is taken \
                 to be much like the others."
                    .to_string(),
            );
            lines
        });
        let parents = self.parents.iter().map(ParentShare::figures);
        Section::under("Parents, by the share of their seedlings that stays")
            .with(Part::sentences("", told.unwrap_or_default()))
            .with(Part::Pairs(vec![
                Pair::data("parents", Cell::list(parents)),
                Pair::data("new_parent", self.new_parent.map(would_stay)),
            ]))
    }
}

impl Counts {
    /// `60 sown: 1 kept, 22 held, 31 culled, 6 undecided`.
    fn in_words(&self) -> String {
        format!(
            "{} sown: {} kept, {} held, {} culled, {} undecided",
            self.sown,
            self.keep,
            self.hold,
            self.cull,
            self.undecided()
        )
    }

    fn figures(&self) -> Vec<(&'static str, Cell)> {
        vec![
            ("sown", self.sown.into()),
            ("keep", self.keep.into()),
            ("hold", self.hold.into()),
            ("cull", self.cull.into()),
        ]
    }
}

impl ParentShare {
    fn in_words(&self) -> String {
        let own = self.offspring.own;
        let decided = match own.of() {
            0 => "none decided on yet".to_string(),
            of => format!("{} of {of} decided on stay", own.hit()),
        };
        let would = match self.offspring.estimate {
            Some(estimate) => format!("; {}", estimate_in_words(estimate)),
            None if own.of() > 0 => format!("; too few to tell, under {LEAST_DECIDED}"),
            None => String::new(),
        };
        format!("{}: {decided}{would}", self.parent)
    }

    fn figures(&self) -> Cell {
        Cell::Record(vec![
            ("parent", self.parent.to_string().into()),
            ("counts", Cell::Record(self.counts.figures())),
            ("stays", share(self.offspring.own)),
            ("would_stay", self.offspring.estimate.map(would_stay).into()),
        ])
    }
}

/// `43 % would stay (95 %: 23 to 72 %)`.
fn estimate_in_words(estimate: Estimate) -> String {
    let Interval { low, high } = estimate.limits;
    format!(
        "{} would stay (95 %: {:.0} to {:.0} %)",
        percent(estimate.share),
        low * 100.0,
        high * 100.0
    )
}
