//! An event and a round as a person fills them in.

use std::num::NonZeroU32;

use jiff::civil::{Date, Weekday};

use super::need::of_a_list;
use super::{PlanGround, bare, copied, field, or_assumed, told, unlike, wrong_of};
use crate::colour::{Family, Group};
use crate::measure::day;
use crate::order::candidates::looked_up;
use crate::order::need::{Need, WITHIN};
use crate::order::plan::Plan;
use crate::order::work::{Count, Pieces, When, Work, weekdays};
use crate::problem::Wrong;
use crate::record::{Field, Fields, Key, beginning_with};
use crate::variety::Text;

/// The fields as the plan's file has them, and their words here.
const WORDS: [(&str, &str); 9] = [
    ("on", "on"),
    ("every", "every"),
    ("from", "from"),
    ("to", "to"),
    ("pieces", "pieces"),
    ("colours", "colours"),
    ("within", "within"),
    ("cut_before", "cut"),
    ("sure", "sure"),
];

/// What a new event is made of, and how far before the frost it is; what a new round is, and its weeks:
/// something to type over.
const EVENT: (u32, i64) = (10, 21);
const ROUND: (u32, i64) = (10, 28);

impl Work {
    /// An event to be filled in, some weeks before the frost, by a name that the plan has not.
    pub fn fresh_event(plan: &Plan, pieces: &Pieces) -> Work {
        let (number, before) = EVENT;
        Work::fresh(
            "event",
            When::On(before_frost(plan, before)),
            number,
            plan,
            pieces,
        )
    }

    /// A round of some weeks before the frost.
    pub fn fresh_round(plan: &Plan, pieces: &Pieces) -> Work {
        let (number, weeks) = ROUND;
        let when = When::Every {
            day: Weekday::Friday,
            from: before_frost(plan, weeks),
            to: before_frost(plan, 7),
        };
        Work::fresh("round", when, number, plan, pieces)
    }

    fn fresh(name: &str, when: When, number: u32, plan: &Plan, pieces: &Pieces) -> Work {
        let number = NonZeroU32::new(number).unwrap_or(NonZeroU32::MIN);
        let first = pieces.list().first();
        let pieces = first.map(|piece| Count(number, piece.name.clone()));
        Work {
            pieces: pieces.into_iter().collect(),
            ..Work::of(unlike(name, names(plan), 1), when)
        }
    }

    /// The same by another name.
    pub fn copy(&self, plan: &Plan) -> Work {
        Work {
            name: copied(&self.name, names(plan)),
            ..self.clone()
        }
    }
}

/// So many days before the first frost, and after planting.
fn before_frost(plan: &Plan, days: i64) -> Date {
    let day = day::later(plan.season.first_frost.middle(), -days);
    day.max(plan.season.planted)
}

/// The names that another may not have.
fn names(plan: &Plan) -> impl Iterator<Item = &Text> + Clone {
    let work = plan.work.iter().map(|work| &work.name);
    work.chain(plan.needs.iter().map(|need| &need.name))
}

impl Fields for Work {
    type Ground<'a> = PlanGround<'a>;

    fn fields(&self, ground: PlanGround<'_>) -> Vec<Field> {
        let own = |word, group, name, text: String| field(Key::of(word), group, name, text);
        let number =
            |number: Option<f64>| number.map_or(String::new(), |number| number.to_string());
        let line = if self.is_event() {
            "Berry wedding: 2027-09-12 12 table bowl, 8 buttonhole colours=plum,blush"
        } else {
            "quay stall: fridays 10 market bunch 2027-08-13 to 2027-10-01 colours=warm"
        };
        let mut fields = vec![told(
            own("name", "", "name", self.name.to_string()),
            "What the flowers are for.",
            format!("Any words, each by another name; a whole line does too: {line}."),
        )];
        let a_day = "A day such as 12 Sep, 12 September 2027 or 2027-09-12.";
        match self.when {
            When::On(day) => fields.push(told(
                own("on", "", "day", day.to_string()),
                "The day on which the flowers are wanted.",
                format!("{a_day} This is {}.", self.when.told()),
            )),
            When::Every { day, from, to } => fields.extend([
                told(
                    own(
                        "every",
                        "",
                        "every",
                        weekdays()
                            .nth(day_of_week(day))
                            .unwrap_or_default()
                            .to_string(),
                    ),
                    "The day of every week on which they are wanted.",
                    "A day of the week such as friday.",
                ),
                told(
                    own("from", "", "from", from.to_string()),
                    "It begins on the first such day from here on.",
                    a_day,
                ),
                told(
                    own("to", "", "to", to.to_string()),
                    "It ends with the last such day up to here.",
                    a_day,
                ),
            ]),
        }
        fields.extend([
            told(
                own("pieces", "", "pieces", self.pieces_words()),
                "So many of each piece; of a round on each of its days.",
                format!(
                    "Such as 12 table bowl, 3 large vase; pieces are {}.",
                    ground.pieces.names()
                ),
            ),
            told(
                own("colours", "", "colours", listed(&self.colours)),
                "The colours asked for, the main one first; any of them will do but where a piece splits its stems.",
                "Nothing for any; else words, families such as pinks, groups (warm, cool, pale, dark) or #rrggbb, with commas between.",
            ),
            or_assumed(told(
                own("within", "", "how near", number(self.within)),
                "How far (CIEDE2000) a variety may be from the nearest of the colours.",
                format!(
                    "A number from 0 to 200; where nothing stands {} holds, our own choice.",
                    WITHIN
                ),
            )),
            or_assumed(told(
                own("cut", "", "cut before, days", self.cut_before.map_or(String::new(), |days| days.to_string())),
                "Days before its day on which the stems are cut; fewer where they would not last.",
                format!(
                    "A whole number up to 14; where nothing stands the plan's own holds, {}.",
                    ground.plan.days_before()
                ),
            )),
            or_assumed(told(
                own("sure", "", "sure", number(self.sure)),
                "The chance that it is to have all its stems.",
                match self.sureness() {
                    Some(sure) => format!("From 0.5 to 0.99; where nothing stands {sure} holds, our own choice."),
                    None => "From 0.5 to 0.99; where nothing stands what holds for every need does.".to_string(),
                },
            )),
        ]);
        fields
    }

    fn set(&mut self, key: Key, text: &str, ground: PlanGround<'_>) -> Result<(), String> {
        let text = text.trim();
        let days = &ground.days;
        let changed = match key.word {
            "name" => {
                let whole = match self.when {
                    When::On(_) => Work::read_event(text, days),
                    When::Every { .. } => Work::read_round(text, days),
                };
                // All of it in one line.
                match whole {
                    Ok(whole) => whole,
                    Err(_) => Work {
                        name: Text::new(text).map_err(|error| error.to_string())?,
                        ..self.clone()
                    },
                }
            }
            "within" if !text.is_empty() && self.colours.is_empty() => {
                return Err("found a distance without a colour, expected the colours first".into());
            }
            word => {
                let changed = self.with(&format!("{word}={text}"), days);
                changed.map_err(|why| bare(why, word))?
            }
        };
        let unknown = |Count(_, name): &&Count| ground.pieces.find(name.as_str()).is_none();
        if let Some(Count(_, name)) = changed.pieces.iter().find(unknown) {
            let name = name.as_str();
            return Err(format!(
                "found {name:?}, expected one of {}",
                ground.pieces.names()
            ));
        }
        let of_colours = Need {
            colours: changed.colours.clone(),
            ..Need::of_any(changed.name.clone(), NonZeroU32::MIN, (1, 1))
        };
        let mut wrong: Vec<Wrong> = Vec::new();
        looked_up((0, &of_colours), ground.grounds, &mut wrong);
        if let Some(wrong) = wrong.into_iter().next() {
            return Err(bare(wrong.message, changed.name.as_str()));
        }
        *self = changed;
        Ok(())
    }

    fn offered(&self, key: Key, typed: &str, ground: PlanGround<'_>) -> Vec<String> {
        match key.word {
            "every" => beginning_with(typed, weekdays()),
            "pieces" => {
                let (before, last) = typed
                    .rsplit_once(',')
                    .map_or(("", typed), |(before, last)| (before, last));
                let number = last.trim().split(' ').next().unwrap_or_default();
                let number = number.parse::<NonZeroU32>().unwrap_or(NonZeroU32::MIN);
                let begun = last
                    .trim()
                    .trim_start_matches(|c: char| c.is_ascii_digit())
                    .trim();
                let names = ground.pieces.list().iter().map(|piece| piece.name.as_str());
                let before = if before.is_empty() {
                    String::new()
                } else {
                    format!("{}, ", before.trim())
                };
                let offered = beginning_with(begun, names).into_iter();
                offered
                    .map(|name| format!("{before}{number} {name}"))
                    .collect()
            }
            "colours" => {
                let words = ground
                    .grounds
                    .words
                    .words()
                    .iter()
                    .map(|word| word.word.as_str());
                let families = Family::ALL.iter().map(|one| one.word());
                let groups = Group::ALL.iter().map(|one| one.word());
                let offered = of_a_list(typed, groups.chain(families).chain(words));
                // What was last looked for in the list comes first, whole.
                let palette = Some(listed(ground.palette));
                let palette = palette.filter(|all| typed.trim().is_empty() && !all.is_empty());
                palette.into_iter().chain(offered).collect()
            }
            _ => Vec::new(),
        }
    }

    fn wrong(&self, ground: PlanGround<'_>) -> Option<(Key, String)> {
        let (plan, at) = ground.plan.with_work(self.clone(), ground.at);
        let own = wrong_of(plan.wrong(), ("work", at), &self.name, &WORDS);
        own.or_else(|| {
            let wrong = plan.whole(ground.pieces, &|_| None).err()?;
            wrong_of(wrong, ("work", at), &self.name, &WORDS)
        })
    }
}

fn listed(texts: &[Text]) -> String {
    let texts: Vec<&str> = texts.iter().map(Text::as_str).collect();
    texts.join(", ")
}

/// The place of a day in the week, Monday the first.
fn day_of_week(day: Weekday) -> usize {
    usize::try_from(day.to_monday_zero_offset()).unwrap_or(0)
}
