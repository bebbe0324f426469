//! What a tag says: only what the evidence holds, and how far it does.

use std::cmp::Ordering;

use crate::colour::{Family, Lab, Part, Pattern, Vocabulary};
use crate::draw::Bloom;
use crate::measure::SizeUnits;
use crate::trial::{Decision, Evidence, EvidenceContext, Fate, Release, Subject, Trial};
use crate::variety::{NamingRules, Text, Uses, Varieties, Variety};

use super::about::About;
use super::cores::on_every_core;
use super::selling::Selling;
use super::stock::{Kind, Practice};

mod colour;
mod form;
mod season;
mod size;
mod uses;
mod vase;
mod width;

/// Where claims come from: the list, the row, and what they are worked out under.
#[derive(Debug, Clone, Copy)]
pub struct ClaimSources<'a> {
    /// The grower's list.
    pub list: &'a Varieties,
    /// The trial row.
    pub trial: &'a Trial,
    /// Rules, colour words and the list's colours.
    pub under: EvidenceContext<'a>,
    /// The release gate.
    pub release: &'a Release,
    /// The uses.
    pub uses: &'a Uses,
    /// What tags say beside what was observed.
    pub practice: &'a Practice,
    /// What names are written by.
    pub naming: &'a NamingRules,
    /// Who sells, and for how much.
    pub selling: &'a Selling,
    /// The units to tell lengths in.
    pub units: SizeUnits,
}

/// Everything that a tag may say of one subject. A label takes of it what its kind tells.
#[derive(Debug, Clone, PartialEq)]
pub struct Says {
    /// Of whom.
    pub subject: Subject,
    /// What stands before the name for a buyer: `Dahlia`, `Dahlia seedling`.
    pub genus: String,
    /// The name, in single quotation marks where the Code takes it for one, or the seedling's number.
    pub title: String,
    /// What can be claimed, in no order.
    pub facts: Vec<Fact>,
    /// The bloom to be drawn; `None` where no form is told.
    pub bloom: Option<Bloom>,
    /// Its colours, for a drawing in colour.
    pub colours: Vec<(Lab, Part, Pattern)>,
    /// Why nothing of it may go to a buyer, as a sentence's end.
    pub unsold: Option<String>,
    /// What to ask about before anything of it goes to a buyer, as a sentence's end.
    pub warned: Option<String>,
}

/// One claim.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fact {
    /// What it is about.
    pub about: About,
    /// The claim, with its ground, without a full stop at its end where it is no sentence.
    pub text: String,
}

impl ClaimSources<'_> {
    /// The seedlings that are kept, by number.
    pub fn kept(&self) -> Vec<Subject> {
        let subjects = self.trial.seedlings().iter();
        let mut kept: Vec<Subject> = subjects
            .map(|seedling| Subject::Seedling(seedling.number))
            .filter(|subject| {
                let decision = self.trial.decision(subject);
                decision.is_some_and(|(_, decision)| decision.fate == Fate::Keep)
            })
            .collect();
        kept.sort();
        kept
    }

    /// The subject as the list and the row have it; `None` where neither does.
    pub fn find(&self, subject: &Subject) -> Option<Subject> {
        match subject {
            Subject::Seedling(number) => {
                let known = self.trial.seedling(*number).is_some();
                known.then(|| subject.clone())
            }
            Subject::Variety(name) => match self.list.find(name) {
                Some(at) => Some(Subject::Variety(self.list.list()[at].name.clone())),
                None => {
                    let on_trial = !self.trial.of_subject(subject).is_empty();
                    on_trial.then(|| subject.clone())
                }
            },
        }
    }

    /// What can be said of many, in their order, on every core.
    pub fn of_all(&self, subjects: &[Subject]) -> Vec<Says> {
        on_every_core(subjects, || |subject: &Subject| self.of(subject))
    }

    /// What can be said of a subject.
    pub fn of(&self, subject: &Subject) -> Says {
        let evidence = self.trial.evidence(subject, &self.under);
        let listed = match subject {
            Subject::Variety(name) => self.list.find(name),
            Subject::Seedling(_) => None,
        };
        let record = listed.map(|at| &self.list.list()[at]);
        let keyer = self.under.keyer;
        let credence = self.release.least.credence;
        let known = Known {
            grounds: self,
            record,
            variety: evidence.as_variety(keyer, credence, record),
            evidence: &evidence,
        };
        let claims = [
            (About::Status, known.status()),
            (About::Form, known.form()),
            (About::Size, known.size()),
            (About::Colour, known.colour()),
            (About::Vase, known.vase()),
            (
                About::Season,
                season::season_in_words(&evidence.in_bloom, self.release.least.seasons),
            ),
            (About::Licence, known.licence()),
            (About::Price, self.selling.price_told(subject)),
            (About::Grower, self.selling.who_and_where()),
            (About::Line, self.selling.line.as_ref().map(Text::to_string)),
            (About::Planting, Some(known.planting())),
            (About::Handling, Some(self.practice.handling.clone())),
        ];
        let uses = known.uses();
        let claims = claims
            .into_iter()
            .chain([(About::Uses, uses.told), (About::Cautions, uses.cautions)]);
        let fact = |(about, text): (About, Option<String>)| text.map(|text| Fact { about, text });
        let genus = self.naming.genus();
        let (genus, title) = match subject {
            Subject::Seedling(number) => (format!("{genus} seedling"), number.to_string()),
            Subject::Variety(name) => (genus, self.naming.written(name.as_str())),
        };
        Says {
            genus,
            title,
            facts: claims.filter_map(fact).collect(),
            bloom: known.bloom(),
            colours: known.colours(),
            unsold: known.unsold(),
            warned: known.warned(),
            subject: subject.clone(),
        }
    }
}

impl Says {
    /// The name on a tag of this kind. For a buyer as it is named in the trade (ICNCP, 9th edition,
    /// 2016): `Dahlia ‘Haaf Bell’`, and what is no variety yet by its number, without marks: `Dahlia
    /// seedling 24-001`. In the row the name or the number alone.
    pub fn name_on(&self, kind: &Kind) -> String {
        match kind.sold {
            true => self.trade_name(),
            false => self.title.clone(),
        }
    }

    /// The name for a buyer.
    pub fn trade_name(&self) -> String {
        format!("{} {}", self.genus, self.title)
    }

    /// The family of its main colour; `None` where no colour is known.
    pub(super) fn family(&self, words: &Vocabulary) -> Option<Family> {
        self.main_colour().map(|lab| words.family_of(lab))
    }

    fn main_colour(&self) -> Option<Lab> {
        let main = self.colours.iter().find(|colour| colour.1 == Part::Main);
        main.or(self.colours.first()).map(|colour| colour.0)
    }

    /// What it says about these things, in their order.
    pub fn about<'a>(&'a self, wanted: &'a [About]) -> impl Iterator<Item = &'a Fact> {
        let of = |about: &About| self.facts.iter().find(|fact| fact.about == *about);
        wanted.iter().filter_map(of)
    }
}

/// Plants, each with its family, from white to dark by the family and in each from light to deep; those of
/// unknown colour last.
pub(super) fn by_colour(
    (one, of_one): (&Says, Option<Family>),
    (other, of_other): (&Says, Option<Family>),
) -> Ordering {
    let unknown = of_one.is_none().cmp(&of_other.is_none());
    let depth = |says: &Says| says.main_colour().map_or(0.0, |lab| -lab.l);
    let depth = depth(one).total_cmp(&depth(other));
    unknown.then(of_one.cmp(&of_other)).then(depth)
}

/// What is known of one subject: its record, its evidence, and both as one record.
struct Known<'a> {
    grounds: &'a ClaimSources<'a>,
    record: Option<&'a Variety>,
    variety: Variety,
    evidence: &'a Evidence,
}

impl Known<'_> {
    /// Said of a seedling as long as its evidence does not speak for keeping it.
    fn status(&self) -> Option<String> {
        let Subject::Seedling(_) = self.evidence.subject else {
            return None;
        };
        let ClaimSources {
            under,
            release,
            units,
            ..
        } = self.grounds;
        let advice = release.advise(self.evidence, under, *units);
        let kept = self.fate() == Some(Fate::Keep);
        match advice.fate == Fate::Keep && kept {
            true => Some("Seedling raised here, kept after trial".to_string()),
            false => Some("Provisional: a seedling still on trial".to_string()),
        }
    }

    /// By what is known of the plant's height and the bloom's size.
    fn planting(&self) -> String {
        let height = self.variety.height_known().map(|reach| reach.high().mm());
        let size = self.variety.size_under(&self.grounds.under.keyer.set);
        let units = self.grounds.units;
        self.grounds.practice.planting(height, size, units)
    }

    fn fate(&self) -> Option<Fate> {
        let decision = self.evidence.decision.as_ref();
        decision.map(|(_, Decision { fate, .. })| *fate)
    }

    fn licence(&self) -> Option<String> {
        let record = self.record.filter(|one| one.protected == Some(true))?;
        let licence = record.licence.as_ref()?;
        Some(format!("Protected variety. {licence}"))
    }

    /// Said of a variety of which nobody noted whether it is protected; what was raised here is the
    /// grower's own.
    fn warned(&self) -> Option<String> {
        let is_variety = matches!(self.evidence.subject, Subject::Variety(_));
        let noted = self
            .record
            .is_some_and(|one| one.protected.is_some() || one.licence.is_some());
        (is_variety && !noted).then(|| {
            "whether it is protected is not known: ask whoever sold it to you before you multiply \
             or sell it, and record the answer as `protected`"
                .to_string()
        })
    }

    fn unsold(&self) -> Option<String> {
        let protected = self.record.and_then(|record| record.protected) == Some(true);
        let licensed = self.record.is_some_and(|record| record.licence.is_some());
        if protected && !licensed {
            return Some(
                "it is protected and no licence is recorded: to multiply or sell it needs the \
                 breeder's leave (UPOV Convention 1991, Art. 14); once you have it, record it as \
                 its licence"
                    .to_string(),
            );
        }
        match (&self.evidence.subject, self.fate()) {
            (Subject::Seedling(number), Some(Fate::Cull)) => Some(format!(
                "it is culled: `trug row decide {number} keep` comes before a tag to sell it by"
            )),
            _ => None,
        }
    }
}

#[cfg(test)]
mod little_tests;
#[cfg(test)]
pub(in crate::tag) mod tests;
