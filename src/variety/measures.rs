//! Size, diameter, height, stems and vase life of a variety: what was measured here, and what is
//! stated of each and by whom. What was measured goes before; neither ever stands for the other.

use super::evidence::Days;
use super::extent::{Extent, Reach};
use super::record::Variety;
use super::stated::{Named, StatedValue};
use super::text::Text;
use crate::form::RuleSet;
use crate::form::space::Span;
use crate::measure::sample::Sample;
use crate::measure::{Exact, Length};

impl Variety {
    /// The measured diameters' moments in millimetres; `None` where none was measured.
    pub fn diameter(&self) -> Option<Sample> {
        let values: Vec<f64> = self.diameters.iter().map(|one| one.mm()).collect();
        Sample::of(&values)
    }

    /// Its size word under `rules`: by the mean of the measured blooms, else as it is stated.
    pub fn size_under<'a>(&'a self, rules: &'a RuleSet) -> Option<&'a str> {
        let measured = self.measured_size_under(rules);
        measured.or_else(|| Some(self.stated_size_under(rules)?.0))
    }

    /// The size word for the mean of the blooms measured here.
    pub fn measured_size_under<'a>(&self, rules: &'a RuleSet) -> Option<&'a str> {
        mean(&self.diameters).and_then(|mean| rules.size_word(Span::point(mean.mm())))
    }

    /// The size word that it is sold under and who says so; else the word for a stated diameter that
    /// lies within one size.
    pub fn stated_size_under<'a>(&'a self, rules: &'a RuleSet) -> Option<Named<'a, &'a str>> {
        let words = self.stated_sizes().map(|(word, by)| (word.as_str(), by));
        let across = self.stated_diameters().filter_map(|(reach, by)| {
            let span = Span::closed(reach.low().length().mm(), reach.high().length().mm());
            Some((rules.size_word(span)?, by))
        });
        words.chain(across).next()
    }

    /// Its height: the mean of the plants measured here, else from the least to the most that is stated.
    pub fn height_known(&self) -> Option<Reach> {
        let measured = mean(&self.plant_heights).and_then(|mean| Extent::try_from(mean).ok());
        let stated = || spanned(self.stated_heights());
        measured.map(Reach::from).or_else(stated)
    }

    /// Its days in the vase: as tested here, else the first that is stated.
    pub fn vase_days(&self) -> Option<Days> {
        let tested = self.vase.filter(|vase| vase.stems.is_some());
        let stated = || self.stated_vase().next().map(|(days, _)| days);
        tested.map(|vase| vase.days).or_else(stated)
    }

    /// The size words that it is sold under, the one that nobody is named for first.
    pub fn stated_sizes(&self) -> impl Iterator<Item = Named<'_, &Text>> {
        let named = self.said(|value| match value {
            StatedValue::Size(word) => Some(word),
            _ => None,
        });
        self.size.iter().map(|word| (word, None)).chain(named)
    }

    /// Stated diameters of a bloom.
    pub fn stated_diameters(&self) -> impl Iterator<Item = Named<'_, Reach>> {
        self.said(|value| match value {
            StatedValue::Diameter(reach) => Some(*reach),
            _ => None,
        })
    }

    /// Stated heights of the plant, the one that nobody is named for first.
    pub fn stated_heights(&self) -> impl Iterator<Item = Named<'_, Reach>> {
        let named = self.said(|value| match value {
            StatedValue::Height(reach) => Some(*reach),
            _ => None,
        });
        self.height.iter().map(|reach| (*reach, None)).chain(named)
    }

    /// Stated lengths of a cut stem, the one that nobody is named for first.
    pub fn stated_stems(&self) -> impl Iterator<Item = Named<'_, Reach>> {
        let named = self.said(|value| match value {
            StatedValue::Stem(reach) => Some(*reach),
            _ => None,
        });
        self.stem.iter().map(|reach| (*reach, None)).chain(named)
    }

    /// Stated days in the vase, those that nobody is named for first.
    pub fn stated_vase(&self) -> impl Iterator<Item = Named<'_, Days>> {
        let named = self.said(|value| match value {
            StatedValue::Vase(days) => Some(*days),
            _ => None,
        });
        let untested = self.vase.iter().filter(|vase| vase.stems.is_none());
        untested.map(|vase| (vase.days, None)).chain(named)
    }

    fn said<'a, T: 'a>(
        &'a self,
        pick: impl Fn(&'a StatedValue) -> Option<T> + 'a,
    ) -> impl Iterator<Item = Named<'a, T>> {
        let statements = self.stated.iter();
        statements.filter_map(move |one| Some((pick(&one.value)?, one.by.as_ref())))
    }
}

/// Several stated lengths as one span, from the least to the most that anybody states.
pub(super) fn spanned<'a>(all: impl Iterator<Item = Named<'a, Reach>>) -> Option<Reach> {
    let wider = |one: Reach, other: Reach| {
        Reach::between(one.low().min(other.low()), one.high().max(other.high())).unwrap_or(one)
    };
    all.map(|(reach, _)| reach).reduce(wider)
}

/// The mean of what was measured; `None` where nothing was.
pub(super) fn mean(measured: &[Extent]) -> Option<Length> {
    let each: Vec<Exact> = measured.iter().map(|one| one.length().mm()).collect();
    Exact::mean(&each).map(Length::from_mm)
}
