//! Ways to put the questions to a grower, from the first to the last: for measuring how well they
//! serve, by simulated blooms and simulated mistakes.
#![allow(dead_code, unreachable_pub)]

use trug::form::condition::Condition;
use trug::form::space::{Block, MOST_TRAITS};
use trug::form::{Answer, Answers, Keyer, Status};

/// How to go on, and when to stop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Policy {
    /// The next question until the form is settled, or nothing more tells.
    Strict,
    /// As strict; then a look at what tells most, asked before or not, until the leader has this
    /// share or so many looks were taken in all.
    Careful {
        /// The share (0 to 1) at which to stop.
        share: f64,
        /// The most looks in all.
        most: usize,
    },
    /// Every trait that makes sense, once: no way of asking once can be right more often than the
    /// likeliest form after it.
    Everything,
    /// A peer: the traits in the order of the table, until one form is left.
    FixedOrder,
    /// A peer: every trait once, then forms by how many answers agree with them.
    Count,
}

impl Policy {
    /// Careful enough that with one look in ten mistaken more than nine blooms in ten end at their
    /// form, as `benches/questions.rs` measures.
    pub const CAREFUL: Policy = Policy::Careful {
        share: 0.98,
        most: 24,
    };
}

/// How one bloom was keyed.
#[derive(Debug, Clone, PartialEq)]
pub struct Keyed {
    /// How many looks were taken.
    pub looks: usize,
    /// Forms from the best down.
    pub ranked: Vec<usize>,
}

/// How well a policy serves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tally {
    /// The mean number of looks.
    pub looks: f64,
    /// The share (0 to 1) of blooms whose form came first.
    pub first: f64,
    /// The share (0 to 1) of blooms whose form was among the first three.
    pub third: f64,
}

impl Policy {
    /// Tries a policy on simulated blooms, every form as often as another, where each look is
    /// mistaken with the chance `mistake`, independently; `chance` gives numbers from 0 to 1.
    pub fn tally(
        self,
        keyer: &Keyer,
        mistake: f64,
        blooms: usize,
        chance: &mut impl FnMut() -> f64,
    ) -> Tally {
        let (mut looks, mut first, mut third) = (0, 0, 0);
        for at in 0..blooms {
            let form = at % keyer.set.forms.len();
            let bloom = keyer.draw(form, chance);
            let keyed = self.keyed(keyer, &mut |index| {
                keyer.report(&bloom, index, mistake, chance)
            });
            looks += keyed.looks;
            let place = keyed.ranked.iter().position(|other| *other == form);
            first += usize::from(place.is_some_and(|place| place < 1));
            third += usize::from(place.is_some_and(|place| place < 3));
        }
        let mean = |count: usize| count as f64 / blooms as f64;
        Tally {
            looks: mean(looks),
            first: mean(first),
            third: mean(third),
        }
    }

    /// Keys a bloom by a policy; `look` answers for one trait.
    pub fn keyed(self, keyer: &Keyer, look: &mut impl FnMut(usize) -> Answer) -> Keyed {
        let mut answers = Answers::default();
        let looks = match self {
            Policy::Strict => ask_on(keyer, &mut answers, look),
            Policy::Careful { share, most } => {
                let looks = ask_on(keyer, &mut answers, look);
                check_on(keyer, &mut answers, looks, share, most, look)
            }
            Policy::Everything | Policy::Count => ask_all(keyer, &mut answers, look, false),
            Policy::FixedOrder => ask_all(keyer, &mut answers, look, true),
        };
        let mut ranked = match self {
            Policy::Count => by_agreement(keyer, &answers),
            _ => keyer
                .belief(&answers)
                .ranked()
                .into_iter()
                .map(|(form, _)| form)
                .collect(),
        };
        // A key that takes answers as right ends at the form that they settle.
        if let (Policy::Strict | Policy::FixedOrder, Status::Settled(form)) =
            (self, keyer.set.verdict(&answers).status)
        {
            ranked.sort_by_key(|other| *other != form);
        }
        Keyed { looks, ranked }
    }
}

fn ask_on(keyer: &Keyer, answers: &mut Answers, look: &mut impl FnMut(usize) -> Answer) -> usize {
    let mut looks = 0;
    while let Some(question) = keyer.ask(answers) {
        answers.set(question.index, look(question.index));
        looks += 1;
    }
    looks
}

fn check_on(
    keyer: &Keyer,
    answers: &mut Answers,
    mut looks: usize,
    share: f64,
    most: usize,
    look: &mut impl FnMut(usize) -> Answer,
) -> usize {
    while looks < most && keyer.belief(answers).ranked()[0].1 < share {
        let Some(question) = keyer.check(answers) else {
            break;
        };
        answers.look_again(question.index, look(question.index));
        looks += 1;
    }
    looks
}

fn ask_all(
    keyer: &Keyer,
    answers: &mut Answers,
    look: &mut impl FnMut(usize) -> Answer,
    until_settled: bool,
) -> usize {
    let mut looks = 0;
    for index in 0..keyer.set.traits.list().len() {
        let settled = matches!(
            keyer.set.verdict(answers).status,
            Status::Settled(_) | Status::None
        );
        if until_settled && settled {
            break;
        }
        if keyer.makes_sense(answers, index) {
            answers.set(index, look(index));
            looks += 1;
        }
    }
    looks
}

/// Forms by how many answers agree with what they require or typically show.
fn by_agreement(keyer: &Keyer, answers: &Answers) -> Vec<usize> {
    let told = answers.block(keyer.set.scales());
    let agreeing = |form: usize| {
        let shown = shown_by(keyer, form);
        answers
            .iter()
            .filter(|(index, _)| told.0[*index] & shown.0[*index] != 0)
            .count()
    };
    let mut ranked: Vec<usize> = (0..keyer.set.forms.len()).collect();
    ranked.sort_by_key(|form| std::cmp::Reverse(agreeing(*form)));
    ranked
}

/// For each trait, what a form's rule allows, or the typical part of it.
fn shown_by(keyer: &Keyer, form: usize) -> Block {
    let mut shown = Block([0; MOST_TRAITS]);
    for block in &keyer.set.forms[form].blocks {
        shown
            .0
            .iter_mut()
            .zip(block.0)
            .for_each(|(all, own)| *all |= own);
    }
    for typical in &keyer.set.shape_of(form).typical {
        let (index, mask) = match typical {
            Condition::States(index, states) => {
                (*index, keyer.set.scales()[*index].states(*states))
            }
            Condition::Number(index, span) => (*index, keyer.set.scales()[*index].touched(*span)),
            _ => continue,
        };
        if shown.0[index] & mask != 0 {
            shown.0[index] &= mask;
        }
    }
    shown
}
