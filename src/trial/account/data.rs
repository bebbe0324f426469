//! A plant's figures as programs get them: lengths in mm, shares from 0 to 1.

use super::{Plant, Wording};
use crate::account::{Cell, Pair, object};
use crate::measure::sample::Interval;
use crate::trial::Evidence;
use crate::trial::evidence::{Damage, PartColour, Season};
use crate::trial::statistics::parents::Estimate;
use crate::trial::statistics::share::Share;
use crate::trial::statistics::survival::{Curve, Step};

/// Decimals that a person would read of a figure that only programs get.
const PLACES: usize = 2;

impl Plant<'_> {
    /// Everything that the entries add up to.
    pub(super) fn figures(&self, by: &Wording<'_>) -> Vec<Pair> {
        let evidence = self.evidence;
        let form = by.keyer.account(&evidence.form.reading(by.keyer), by.units);
        let taken = self.taken(by).map(|taken| {
            let name = taken.name(&by.keyer.set);
            Cell::Record(vec![("form", name.into()), ("from", taken.from().into())])
        });
        let differ = evidence.form.disagreements.iter();
        let differ = differ.map(|one| one.sentence(by.keyer));
        let decision = evidence.decision.as_ref().map(|(date, decision)| {
            let reason = decision.reason.as_ref().map(ToString::to_string);
            Cell::Record(vec![
                ("fate", decision.fate.word().into()),
                ("date", (*date).into()),
                ("reason", reason.into()),
            ])
        });
        let tubers = vec![
            ("kept", share(evidence.tubers.kept)),
            ("stored", evidence.tubers.stored.into()),
        ];
        vec![
            Pair::data("id", evidence.subject.to_string()),
            Pair::data("form", object(&form)),
            Pair::data("taken", taken),
            Pair::data("looks_differ", Cell::list(differ)),
            Pair::data("diameter", diameter(evidence)),
            Pair::data("vase", evidence.vase.as_ref().map(vase)),
            Pair::data("damage", damage(evidence)),
            Pair::data("colour", Cell::list(evidence.colours.iter().map(colour))),
            Pair::data("near", near(evidence)),
            Pair::data("cut", Cell::list(evidence.seasons.iter().map(season))),
            Pair::data("tubers", Cell::Record(tubers)),
            Pair::data("decision", decision),
            Pair::data("doubts", Cell::list(evidence.doubts.clone())),
        ]
    }
}

fn number(number: f64) -> Cell {
    Cell::Number(number, PLACES)
}

fn known(value: Option<f64>) -> Cell {
    value.map(number).into()
}

fn diameter(evidence: &Evidence) -> Cell {
    let diameter = evidence.diameters.as_ref().map(|seen| {
        let limits = seen.nested.limits();
        Cell::Record(vec![
            ("mean", number(seen.mean().mm().to_f64())),
            ("low", known(limits.map(|limits| limits.low))),
            ("high", known(limits.map(|limits| limits.high))),
            ("n", seen.count().into()),
            ("days", seen.nested.dates.into()),
            ("spread", known(seen.nested.spread())),
        ])
    });
    diameter.into()
}

/// A vase test: its curve, and the median with its limits.
pub fn vase(curve: &Curve) -> Cell {
    let step = |step: &Step| Cell::list([number(step.day), Cell::Share(step.share)]);
    Cell::Record(vec![
        ("curve", Cell::list(curve.steps.iter().map(step))),
        (
            "errors",
            Cell::list(curve.steps.iter().map(|step| known(step.error))),
        ),
        ("median", known(curve.median)),
        ("low", known(curve.median_limits.low)),
        ("high", known(curve.median_limits.high)),
        ("stems", curve.stems.into()),
        ("censored", curve.censored.into()),
    ])
}

/// All weather together, and each kind by itself; nothing where none was counted after.
fn damage(evidence: &Evidence) -> Cell {
    let all: Share = evidence.damage.iter().map(|one| one.share).sum();
    if all.of() == 0 {
        return Cell::Nothing;
    }
    let by = |one: &Damage| {
        let mut fields = share_fields(one.share);
        fields.push(("weather", one.kind.word().into()));
        fields.push(("events", one.events.into()));
        Cell::Record(fields)
    };
    let mut fields = share_fields(all);
    fields.push(("by_weather", Cell::list(evidence.damage.iter().map(by))));
    Cell::Record(fields)
}

fn colour(seen: &PartColour) -> Cell {
    // The middle of a word is not a colour that anybody measured.
    let measured = seen.name.map(|_| seen.mean);
    let lab = measured.map(|mean| Cell::list([mean.l, mean.a, mean.b].map(number)));
    Cell::Record(vec![
        ("part", seen.part.word().into()),
        ("words", Cell::list(seen.words.clone())),
        ("lab", lab.into()),
        (
            "hex",
            measured.map(|mean| mean.to_srgb().to_string()).into(),
        ),
        ("name", seen.name.into()),
        ("n", seen.count.into()),
        ("spread", known(seen.spread)),
    ])
}

fn near(evidence: &Evidence) -> Cell {
    Cell::list(evidence.near.iter().map(|near| {
        Cell::Record(vec![
            ("name", near.name.to_string().into()),
            ("distance", number(near.distance)),
            ("same_form", near.same_form.into()),
        ])
    }))
}

fn season(season: &Season) -> Cell {
    Cell::Record(vec![
        ("year", season.year.unsigned_abs().into()),
        ("stems", season.stems.into()),
        ("weeks", season.weeks.into()),
        ("a_plant", known(season.a_plant)),
        ("a_week", known(season.a_week())),
    ])
}

/// A share that was counted, with its limits at 95 %.
pub fn share(share: Share) -> Cell {
    Cell::Record(share_fields(share))
}

fn share_fields(share: Share) -> Vec<(&'static str, Cell)> {
    let Interval { low, high } = share.limits();
    vec![
        ("share", share.value().map(Cell::Share).into()),
        ("low", Cell::Share(low)),
        ("high", Cell::Share(high)),
        ("hit", share.hit().into()),
        ("open", share.of().into()),
    ]
}

/// What share of a parent's seedlings would stay.
pub(in crate::trial) fn would_stay(estimate: Estimate) -> Cell {
    Cell::Record(vec![
        ("share", Cell::Share(estimate.share)),
        ("low", Cell::Share(estimate.limits.low)),
        ("high", Cell::Share(estimate.limits.high)),
    ])
}
