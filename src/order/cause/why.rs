//! Causes: what keeps a need from being met.

use jiff::civil::Date;

/// Why a need is not met, or not as surely as was asked, in some of its weeks.
#[derive(Debug, Clone, PartialEq)]
pub struct Cause {
    /// The place of the need.
    pub need: usize,
    /// The weeks of the year, rising.
    pub weeks: Vec<u8>,
    /// What keeps it from being met.
    pub why: Why,
    /// The smallest sets of other needs, by their places, without any one of which it could be met; none where
    /// it could not be met alone.
    pub competes: Vec<Vec<usize>>,
}

/// What keeps a need from being met.
#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    /// Nothing that could serve it is cut before this day.
    BeforeFirstCut {
        /// The earliest first cut.
        first: Date,
    },
    /// The first frost is looked for on this day.
    AfterFrost {
        /// The day.
        frost: Date,
    },
    /// By what was counted of it, nothing that could serve it flowers then.
    NotInBloom,
    /// No variety is of its use, colours and forms together.
    NoVariety {
        /// The nearest for each of its words that is given up, the fewest words first.
        nearest: Vec<Nearest>,
    },
    /// So many varieties could serve it, of which none is on hand and none is offered.
    NotOffered {
        /// How many.
        varieties: usize,
    },
    /// It could be met with what closed before the orders go out.
    Closed {
        /// The last day on which an offer that could serve it closed.
        on: Option<Date>,
    },
    /// It could be met with what is not on the shortlist.
    NotOnShortlist,
    /// It could be met but for what is fixed by hand.
    Fixed,
    /// It could be met but for the least orders of these suppliers.
    LeastOrder {
        /// Their names.
        suppliers: Vec<String>,
    },
    /// Too few varieties or forms flower.
    TooFewKinds {
        /// Of what.
        of: Kind,
        /// As many as are asked for.
        asked: u64,
        /// The fewest that could serve it in one of the weeks.
        able: u64,
    },
    /// So few varieties flower that more than the most allowed would have to come from one.
    MostFromOne {
        /// The most from one, in a hundred.
        most: u64,
        /// The fewest that flower in one of the weeks.
        able: u64,
    },
    /// All that is offered and on hand gives too little.
    TooFewTubers {
        /// The least stems that it gives in one of the weeks.
        gives: f64,
        /// Stems asked for.
        asked: f64,
    },
    /// Were all that is offered and on hand planted, in beds large enough, it would be met in no more seasons.
    TooLittleOffered {
        /// The share of seasons, 0 to 1.
        share: f64,
    },
    /// The beds or the money are too small.
    TooSmall {
        /// Which.
        means: Means,
        /// For whom.
        scope: Scope,
    },
    /// In so many seasons of all nothing that could serve it is cut yet.
    LateFirstCut {
        /// The share, 0 to 1, in the worst of the weeks.
        share: f64,
    },
    /// In so many seasons of all the first frost has ended it.
    EarlyFrost {
        /// The share, 0 to 1, in the worst of the weeks.
        share: f64,
    },
    /// It was not worked out in the time given.
    Unknown,
}

/// Varieties or forms.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Varieties.
    Varieties,
    /// Forms.
    Forms,
}

/// What is too small.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Means {
    /// The beds: with larger ones the money would do.
    Beds,
    /// The money: with more of it the beds would do.
    Money,
    /// Either: more of one would do.
    Either,
    /// Both: more of one would not do.
    Both,
}

/// For whom means are too small.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scope {
    /// For the need alone, if nothing else were asked for.
    Alone,
    /// For the need beside others.
    Together,
    /// For being as sure as was asked.
    Surely,
}

/// The nearest variety to what is asked for, of which a word or more is given up.
#[derive(Debug, Clone, PartialEq)]
pub struct Nearest {
    /// What is given up.
    pub given_up: Vec<Given>,
    /// The variety.
    pub variety: String,
    /// Its fitness for the use; `None` where none is asked or nothing is known.
    pub fitness: Option<f64>,
    /// CIEDE2000 from the colours; `None` where none is asked.
    pub distance: Option<f64>,
}

/// A word of a need.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Given {
    /// Its colours, as near as was asked.
    Colours,
    /// Its use, as fit as was asked.
    Use,
    /// Its forms.
    Forms,
}

impl Why {
    /// The word for programs.
    pub fn word(&self) -> &'static str {
        match self {
            Why::BeforeFirstCut { .. } => "before_first_cut",
            Why::AfterFrost { .. } => "after_frost",
            Why::NotInBloom => "not_in_bloom",
            Why::NoVariety { .. } => "no_variety",
            Why::NotOffered { .. } => "not_offered",
            Why::Closed { .. } => "closed",
            Why::NotOnShortlist => "shortlist",
            Why::Fixed => "fixed",
            Why::LeastOrder { .. } => "least_order",
            Why::TooFewKinds { of, .. } => match of {
                Kind::Varieties => "too_few_varieties",
                Kind::Forms => "too_few_forms",
            },
            Why::MostFromOne { .. } => "most_from_one",
            Why::TooFewTubers { .. } => "too_few_tubers",
            Why::TooLittleOffered { .. } => "too_little_offered",
            Why::TooSmall { means, .. } => match means {
                Means::Beds => "beds",
                Means::Money => "money",
                Means::Either => "beds_or_money",
                Means::Both => "beds_and_money",
            },
            Why::LateFirstCut { .. } => "late_first_cut",
            Why::EarlyFrost { .. } => "early_frost",
            Why::Unknown => "unknown",
        }
    }

    /// Both told as one, where they are of one kind: the worse of their figures.
    fn with(&self, other: &Why) -> Option<Why> {
        match (self, other) {
            (
                Why::TooFewKinds { of, asked, able },
                Why::TooFewKinds {
                    of: other_of,
                    able: other,
                    ..
                },
            ) if of == other_of => Some(Why::TooFewKinds {
                of: *of,
                asked: *asked,
                able: *able.min(other),
            }),
            (Why::MostFromOne { most, able }, Why::MostFromOne { able: other, .. }) => {
                Some(Why::MostFromOne {
                    most: *most,
                    able: *able.min(other),
                })
            }
            (Why::TooFewTubers { gives, asked }, Why::TooFewTubers { gives: other, .. }) => {
                Some(Why::TooFewTubers {
                    gives: gives.min(*other),
                    asked: *asked,
                })
            }
            (one, other) => (one == other).then(|| one.clone()),
        }
    }
}

/// Causes of the weeks of one need, weeks of one cause together.
pub(super) fn gathered(need: usize, whys: impl Iterator<Item = (u8, Why)>) -> Vec<Cause> {
    let mut causes: Vec<Cause> = Vec::new();
    for (week, why) in whys {
        let both = { causes.iter_mut() }.find_map(|cause| Some((cause.why.with(&why)?, cause)));
        match both {
            Some((both, cause)) => {
                cause.why = both;
                cause.weeks.push(week);
            }
            None => causes.push(Cause {
                need,
                weeks: vec![week],
                why,
                competes: Vec::new(),
            }),
        }
    }
    causes
}
