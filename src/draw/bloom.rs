//! A bloom as a drawing needs it: one state for every trait, whatever was answered.

use crate::form::space::bits;
use crate::form::{Answer, Answers, RuleSet, Traits};

/// What is at the centre.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Centre {
    /// Only ray florets.
    Closed,
    /// A flat disc.
    Open,
    /// A dome of tubular florets.
    Pincushion,
}

/// How the edges of a ray floret roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Roll {
    /// Not at all, or a shallow cup.
    Flat,
    /// Toward the upper face.
    Forward,
    /// Toward the under face.
    Back,
}

/// How a ray floret bends along its length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FloretLine {
    /// Toward the face.
    Incurved,
    /// Not at all.
    Straight,
    /// Toward the stem.
    Reflexed,
}

/// The tips of the ray florets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tip {
    /// Blunt or round.
    Rounded,
    /// Coming to a point.
    Pointed,
    /// Cleft or fringed.
    Split,
}

/// The outline from the side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    /// Ball-shaped.
    Globe,
    /// Between a ball and a saucer.
    Deep,
    /// Less deep than half its width.
    Saucer,
}

/// A bloom to be drawn. Every field has a value; what nobody knows is the ordinary one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bloom {
    /// What is at the centre.
    pub centre: Centre,
    /// Rows of ray florets, at least 1.
    pub rows: u32,
    /// Whether there is a ring of petaloids. Drawn only where the centre is not closed.
    pub collar: bool,
    /// How the edges of a ray floret roll.
    pub roll: Roll,
    /// How much of its length is rolled, 0 to 1; 0 where nothing rolls.
    pub rolled: f64,
    /// How it bends along its length.
    pub line: FloretLine,
    /// Its tip.
    pub tip: Tip,
    /// Whether ray florets are waved or twisted out of their order.
    pub wavy: bool,
    /// The outline from the side.
    pub outline: Depth,
    /// Whether ray florets are clearly shorter at the centre.
    pub graded: bool,
    /// Whether ray florets are narrow at the base.
    pub narrow: bool,
    /// Whether a closed centre is three-cornered.
    pub three_cornered: bool,
    /// Across the face, in millimetres, where it is known.
    pub diameter: Option<f64>,
}

/// The bloom that is drawn where nothing is known: rounded, flat, even, closed.
impl Default for Bloom {
    fn default() -> Bloom {
        Bloom::ORDINARY
    }
}

/// One row for each state that changes the drawing: trait, state, and what it sets.
type State = (&'static str, &'static str, fn(&mut Bloom));

const STATES: [State; 25] = [
    ("centre", "closed", |b| b.centre = Centre::Closed),
    ("centre", "open", |b| b.centre = Centre::Open),
    ("centre", "pincushion", |b| b.centre = Centre::Pincushion),
    ("collar", "none", |b| b.collar = false),
    ("collar", "petaloid", |b| b.collar = true),
    ("roll", "flat", |b| b.roll = Roll::Flat),
    ("roll", "forward", |b| b.roll = Roll::Forward),
    ("roll", "back", |b| b.roll = Roll::Back),
    ("line", "incurved", |b| b.line = FloretLine::Incurved),
    ("line", "straight", |b| b.line = FloretLine::Straight),
    ("line", "reflexed", |b| b.line = FloretLine::Reflexed),
    ("tip", "rounded", |b| b.tip = Tip::Rounded),
    ("tip", "pointed", |b| b.tip = Tip::Pointed),
    ("tip", "split", |b| b.tip = Tip::Split),
    ("set", "regular", |b| b.wavy = false),
    ("set", "wavy", |b| b.wavy = true),
    ("outline", "globe", |b| b.outline = Depth::Globe),
    ("outline", "deep", |b| b.outline = Depth::Deep),
    ("outline", "saucer", |b| b.outline = Depth::Saucer),
    ("gradient", "even", |b| b.graded = false),
    ("gradient", "graded", |b| b.graded = true),
    ("width", "broad", |b| b.narrow = false),
    ("width", "narrow", |b| b.narrow = true),
    ("heart", "round", |b| b.three_cornered = false),
    ("heart", "triangular", |b| b.three_cornered = true),
];

/// The same for the traits that are numbers.
type Number = (&'static str, fn(&mut Bloom, f64));

const NUMBERS: [Number; 3] = [
    ("rows", |b, rows| {
        b.rows = rows.round().clamp(1.0, 1000.0) as u32
    }),
    ("rolled", |b, percent| {
        b.rolled = (percent / 100.0).clamp(0.0, 1.0)
    }),
    ("diameter", |b, mm| b.diameter = (mm > 0.0).then_some(mm)),
];

impl Bloom {
    pub(super) const ORDINARY: Bloom = Bloom {
        centre: Centre::Closed,
        rows: 8,
        collar: false,
        roll: Roll::Flat,
        rolled: 0.0,
        line: FloretLine::Straight,
        tip: Tip::Rounded,
        wavy: false,
        outline: Depth::Deep,
        graded: false,
        narrow: false,
        three_cornered: false,
        diameter: None,
    };

    /// The bloom that answers tell, the ordinary one where they tell nothing; of a choice the
    /// ordinary one too, of a range the middle. Answers that cannot stand together are drawn as they are.
    pub fn read(traits: &Traits, answers: &Answers) -> Bloom {
        let mut bloom = Bloom::default();
        bloom.tell(traits, answers);
        let counted = traits
            .find("rows")
            .is_some_and(|rows| answers.get(rows).is_some());
        if bloom.centre != Centre::Closed && !counted {
            // Where there is a disc to be seen, one row is the ordinary thing.
            bloom.rows = 1;
        }
        bloom.settled()
    }

    /// A typical bloom of the form with this index, as the answers would have it: where they rule
    /// the form out, they are drawn and the form tells the rest.
    pub fn of_form(set: &RuleSet, form: usize, answers: &Answers) -> Bloom {
        let mut bloom = Bloom::default();
        let agreeing = set.typical(form, answers);
        let typical = agreeing.or_else(|| set.typical(form, &Answers::default()));
        bloom.tell(&set.traits, &typical.unwrap_or_default());
        bloom.tell(&set.traits, answers);
        bloom.settled()
    }

    /// The same with this state of this trait and nothing else changed; `None` where there is no
    /// such state to be drawn.
    pub(super) fn with_state(&self, trait_id: &str, state_id: &str) -> Option<Bloom> {
        let row = STATES
            .iter()
            .find(|row| row.0 == trait_id && row.1 == state_id)?;
        let mut changed = *self;
        row.2(&mut changed);
        Some(changed.settled())
    }

    /// The same with this number of this trait, as files have it: a count, per cent, millimetres.
    pub(super) fn with_number(&self, trait_id: &str, number: f64) -> Option<Bloom> {
        let row = NUMBERS.iter().find(|row| row.0 == trait_id)?;
        let mut changed = *self;
        row.1(&mut changed, number);
        Some(changed.settled())
    }

    fn tell(&mut self, traits: &Traits, answers: &Answers) {
        for (index, one) in traits.list().iter().enumerate() {
            match answers.get(index) {
                Some(Answer::States(mask)) => {
                    let told = bits(*mask).filter_map(|at| one.states().get(at));
                    let row = |id: &str| STATES.iter().find(|row| row.0 == one.id && row.1 == id);
                    let with = told.filter_map(|state| row(&state.id)).map(|row| {
                        let mut changed = *self;
                        row.2(&mut changed);
                        changed
                    });
                    let with: Vec<Bloom> = with.collect();
                    if let (Some(first), false) = (with.first(), with.contains(self)) {
                        *self = *first;
                    }
                }
                Some(answer) => {
                    let Some(span) = answer.span() else { continue };
                    let middle = (span.low.to_f64() + span.high.to_f64()) / 2.0;
                    let row = |(id, _): &&Number| one.id == *id;
                    NUMBERS
                        .iter()
                        .filter(row)
                        .for_each(|row| row.1(self, middle));
                }
                None => {}
            }
        }
    }

    /// With what follows from other traits: a flat floret has no rolled part, another has some.
    fn settled(mut self) -> Bloom {
        self.rolled = match (self.roll, self.rolled) {
            (Roll::Flat, _) => 0.0,
            (_, none) if none <= 0.0 => 0.5,
            (_, some) => some,
        };
        self
    }

    /// With every number one that can be drawn.
    pub(super) fn drawable(mut self) -> Bloom {
        self.rolled = if self.rolled.is_finite() {
            self.rolled.clamp(0.0, 1.0)
        } else {
            0.0
        };
        self.diameter = self.diameter.filter(|mm| mm.is_finite() && *mm > 0.0);
        self.settled()
    }

    /// Whether there is a collar to draw.
    pub(super) fn has_collar(&self) -> bool {
        self.collar && self.centre != Centre::Closed
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Kind;

    #[test]
    fn every_answer_that_can_be_given_has_its_row_and_every_row_its_answer() {
        let traits = Traits::embedded();
        let mut states = 0;
        for one in traits.list() {
            for state in one.states() {
                let row = STATES
                    .iter()
                    .any(|row| row.0 == one.id && row.1 == state.id);
                assert!(row, "{}={}", one.id, state.id);
                states += 1;
            }
            let number = !matches!(one.kind, Kind::OneOf(_));
            assert_eq!(
                NUMBERS.iter().any(|row| row.0 == one.id),
                number,
                "{}",
                one.id
            );
        }
        assert_eq!(STATES.len(), states);
        assert!(NUMBERS.iter().all(|row| traits.find(row.0).is_some()));
    }

    #[test]
    fn an_open_bloom_without_a_count_has_one_row_and_a_flat_floret_nothing_rolled() {
        let traits = Traits::embedded();
        let read =
            |pairs: &[&str]| Bloom::read(&traits, &Answers::read(pairs, &traits).expect("answers"));
        assert_eq!(read(&["centre=open"]).rows, 1);
        assert_eq!(read(&["centre=open", "rows=3..6"]).rows, 5);
        assert_eq!(read(&["roll=flat", "rolled=60"]).rolled, 0.0);
        assert!(read(&["roll=back"]).rolled > 0.0);
        // Of a choice the ordinary state is drawn, and the first where it is not among them.
        assert_eq!(read(&["line=incurved|straight"]).line, FloretLine::Straight);
        assert_eq!(read(&["line=incurved|reflexed"]).line, FloretLine::Incurved);
    }
}
