//! The form by all observations together.
//!
//! Every answer of every day is one look: the belief takes each with its trait's rate of mistakes,
//! so that agreeing days tend to certainty and one slip among many does not turn them. The strict
//! verdict takes one answer a trait: what most looks allow, and all of it where they tie. That
//! looks err independently is an assumption; whoever was wrong once may be wrong again. So where
//! days disagree it is told, with the days.

use jiff::civil::Date;

use super::diameter::Diameters;
use crate::form::limits::Close;
use crate::form::space::{Atom, Scale, Span, bits};
use crate::form::traits::list_and;
use crate::form::words::answer_words;
use crate::form::{Answer, Answers, Keyer, Likely, Reading, Status, Verdict};
use crate::measure::Exact;
use crate::trial::entry::Observation;
use crate::trial::statistics::nested::Needed;

/// The form as all observations have it.
#[derive(Debug, Clone, PartialEq)]
pub struct FormSeen {
    /// One answer a trait, for the strict verdict: what most looks allow.
    pub standing: Answers,
    /// Every look, for belief.
    pub looks: Answers,
    /// What the rules say of the standing answers.
    pub verdict: Verdict,
    /// The word for the size, by the mean diameter.
    pub size: Option<String>,
    /// Every form from the likeliest down by all looks; shares sum to 1.
    pub likely: Vec<Likely>,
    /// Limits that the standing answers come near.
    pub close: Vec<Close>,
    /// Traits on which looks exclude each other.
    pub disagreements: Vec<Disagreement>,
    /// On how many days a trait was answered.
    pub days: usize,
}

/// Looks at one trait that exclude each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Disagreement {
    /// The trait.
    pub index: usize,
    /// Each answer, the one first given first.
    pub said: Vec<Said>,
    /// The answer that stands for the strict verdict, in words.
    pub stands: String,
}

/// One of several answers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// The answer as it is written.
    pub answer: String,
    /// The days on which it was given; one day twice where two looks agreed on it.
    pub days: Vec<Date>,
}

impl FormSeen {
    pub(super) fn of(
        seen: &[(Date, &Observation)],
        diameters: Option<&Diameters>,
        keyer: &Keyer,
        doubts: &mut Vec<String>,
    ) -> FormSeen {
        let set = &keyer.set;
        let diameter = set.traits.find("diameter");
        let mut given: Vec<Vec<Look>> = vec![Vec::new(); set.traits.list().len()];
        let mut days: Vec<Date> = Vec::new();
        for (date, observation) in seen {
            let Some(bloom) = &observation.bloom else {
                continue;
            };
            let words: Vec<&str> = bloom.split_whitespace().collect();
            match Answers::read(&words, &set.traits) {
                Err(error) => doubts.push(format!("{date}: {error}")),
                Ok(answers) => {
                    days.push(*date);
                    for (index, answer) in answers.iter().filter(|(at, _)| Some(*at) != diameter) {
                        given[index].push(Look {
                            date: *date,
                            mask: answer.mask(&set.scales()[index]),
                            answer: answer.clone(),
                        });
                    }
                }
            }
        }
        days.dedup();
        let (mut standing, mut looks) = (Answers::default(), Answers::default());
        let mut disagreements = Vec::new();
        for (index, given) in given.iter().enumerate() {
            for look in given {
                looks.look_again(index, look.answer.clone());
            }
            let scale = &set.scales()[index];
            if let Some(answer) = agreed(given, scale) {
                if let Some(said) = disagreement(index, given, keyer) {
                    let stands = answer.print(set.traits.get(index));
                    disagreements.push(Disagreement {
                        index,
                        said,
                        stands,
                    });
                }
                standing.set(index, answer);
            }
        }
        if let (Some(index), Some(diameters)) = (diameter, diameters) {
            let values = Answer::Values(diameters.units.clone());
            standing.set(index, values.clone());
            looks.set(index, values);
        }
        let verdict = set.verdict(&standing);
        let ranked = keyer.belief(&looks).ranked().into_iter();
        let likely = ranked.map(|(form, share)| Likely {
            form,
            share,
            allowed: verdict.possible.contains(&form),
        });
        FormSeen {
            likely: likely.collect(),
            size: set.size_of(&standing).map(str::to_string),
            close: close(&standing, diameters, keyer),
            disagreements,
            days: days.len(),
            verdict,
            standing,
            looks,
        }
    }

    /// The whole reading: strict by the standing answers; likely, ask, check and suspect by every
    /// look. Under another rule set, take the evidence anew.
    pub fn reading(&self, keyer: &Keyer) -> Reading {
        let belief = keyer.belief(&self.looks);
        Reading {
            likely: self.likely.clone(),
            ask: keyer.ask(&self.looks),
            check: keyer.check(&self.looks),
            suspect: keyer.suspect(&self.looks),
            near: keyer.near_misses(&self.standing, &belief),
            close: self.close.clone(),
            ..keyer.read(&self.standing)
        }
    }

    /// The likeliest form and its share; `None` where nothing was answered and nothing measured.
    pub fn leading(&self) -> Option<Likely> {
        let likely = self.likely.first().copied();
        likely.filter(|_| !self.looks.is_empty())
    }

    /// The form, where the rules and the looks agree on it: the strict verdict leaves it alone, and
    /// its share is at least `credence`.
    pub fn settled(&self, credence: f64) -> Option<usize> {
        let leading = self.leading()?;
        let strict = self.verdict.status == Status::Settled(leading.form);
        (strict && leading.share >= credence).then_some(leading.form)
    }
}

/// The close calls; how many more blooms a diameter wants is told by the same interval as the mean.
fn close(standing: &Answers, diameters: Option<&Diameters>, keyer: &Keyer) -> Vec<Close> {
    let mut close = keyer.close(standing);
    if let Some(diameters) = diameters {
        for one in &mut close {
            if keyer.set.traits.get(one.index).id == "diameter" && diameters.count() > 1 {
                let distance = one.distance.map_or(0.0, Exact::to_f64);
                let level = crate::form::limits::LEVEL;
                one.more = match diameters.nested.needed(distance, level) {
                    Some(Needed::Blooms(more)) => Some(more),
                    Some(Needed::Dates(_) | Needed::Nothing) | None => None,
                };
            }
        }
    }
    close
}

/// The answer that most looks allow; of several that as many allow, all of them. `CannotTell`
/// where no look could tell, `None` of no look.
fn agreed(given: &[Look], scale: &Scale) -> Option<Answer> {
    let told = || given.iter().filter(|look| look.tells());
    if told().next().is_none() {
        return given.first().map(|_| Answer::CannotTell);
    }
    let mut votes = vec![0_usize; scale.atoms().len()];
    for at in told().flat_map(|look| bits(look.mask)) {
        votes[at] += 1;
    }
    let most = votes.iter().max().copied().unwrap_or(0);
    let won = votes
        .iter()
        .enumerate()
        .filter(|(_, count)| **count == most);
    let won: u64 = won.map(|(at, _)| 1 << at).sum();
    let states: u64 = bits(won)
        .filter_map(|at| match scale.atoms()[at] {
            Atom::State(state) => Some(1 << state),
            Atom::Span(_) | Atom::Absent => None,
        })
        .sum();
    if states != 0 {
        return Some(Answer::States(states));
    }
    // Of numbers that no rule tells apart the last look is as good as any.
    let mut same = told().filter(|look| look.mask == won);
    if let Some(last) = same.next_back() {
        return Some(last.answer.clone());
    }
    let spans = bits(won).filter_map(|at| match scale.atoms()[at] {
        Atom::Span(span) => Some(span),
        Atom::State(_) | Atom::Absent => None,
    });
    // What looks themselves said, no wider: an atom may reach to the end of the scale.
    let spans_said = told().filter_map(|look| look.answer.span());
    let said = spans_said.reduce(|all, one| Span {
        low: all.low.min(one.low),
        high: all.high.max(one.high),
        ..all
    })?;
    let won = spans.reduce(|all, one| Span {
        low: all.low.min(one.low),
        high: all.high.max(one.high),
        low_in: all.low_in,
        high_in: one.high_in,
    })?;
    let span = won.meet(said).unwrap_or(said);
    Some(Answer::Range(Span::closed(span.low, span.high)))
}

/// The answers by what was said, where two of them exclude each other.
fn disagreement(index: usize, given: &[Look], keyer: &Keyer) -> Option<Vec<Said>> {
    let told: Vec<&Look> = given.iter().filter(|look| look.tells()).collect();
    let mut masks: Vec<u64> = told.iter().map(|look| look.mask).collect();
    masks.sort_unstable();
    masks.dedup_by(|one, other| one == other && *one != 0);
    let apart = |at: usize| masks[..at].iter().any(|other| other & masks[at] == 0);
    (0..masks.len()).find(|at| apart(*at))?;
    let mut said: Vec<Said> = Vec::new();
    for Look { date, answer, .. } in told {
        let answer = answer.print(keyer.set.traits.get(index));
        match said.iter_mut().find(|one| one.answer == answer) {
            Some(one) => one.days.push(*date),
            None => said.push(Said {
                answer,
                days: vec![*date],
            }),
        }
    }
    Some(said)
}

/// One answer of one day.
#[derive(Debug, Clone)]
struct Look {
    date: Date,
    answer: Answer,
    /// The atoms that it leaves.
    mask: u64,
}

impl Look {
    fn tells(&self) -> bool {
        self.answer != Answer::CannotTell
    }
}

impl Disagreement {
    /// In words: `tip: split on 2026-08-12; pointed on 2026-08-03 and 2026-08-20; pointed stands`.
    pub fn sentence(&self, keyer: &Keyer) -> String {
        let one = keyer.set.traits.get(self.index);
        let words = |printed: &str| {
            let read = Answer::read(printed, one);
            read.map_or_else(
                |_| printed.to_string(),
                |answer| answer_words(one, &answer, keyer.set.units),
            )
        };
        let said = self.said.iter().map(|said| {
            let days: Vec<String> = said.days.iter().map(Date::to_string).collect();
            let days: Vec<&str> = days.iter().map(String::as_str).collect();
            format!("{} on {}", words(&said.answer), list_and(&days))
        });
        let said: Vec<String> = said.collect();
        let stands = words(&self.stands);
        format!("{}: {}; {stands} stands", one.id, said.join("; "))
    }
}
