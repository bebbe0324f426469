//! A need as a person fills it in.

use std::num::NonZeroU32;

use super::{PlanGround, bare, copied, field, or_assumed, told, unlike, wrong_of};
use crate::colour::{Family, Group, Judged};
use crate::order::candidates::looked_up;
use crate::order::need::Need;
use crate::order::plan::Plan;
use crate::order::season::{week_of, weeks_with_days};
use crate::record::{Field, Fields, Key, beginning_with};
use crate::variety::Text;

/// The fields as the plan's file has them, and their words here: the words of a quick line.
const WORDS: [(&str, &str); 13] = [
    ("stems", "stems"),
    ("weeks", "weeks"),
    ("use", "use"),
    ("fitness", "fitness"),
    ("colours", "colours"),
    ("within", "within"),
    ("colour_by", "by"),
    ("forms", "forms"),
    ("varieties", "varieties"),
    ("each", "each"),
    ("different_forms", "different"),
    ("most_from_one", "most"),
    ("sure", "sure"),
];

/// Stems a week of a need before anything is said of it: something to type over.
const STEMS: u32 = 10;
/// It then runs in so many weeks, up to the one before the first frost.
const WEEKS: u8 = 4;

impl Need {
    /// A need to be filled in, for a few weeks before the frost, by a name that the plan has not.
    pub fn fresh(plan: &Plan) -> Need {
        let frost = week_of(plan.season.first_frost.middle());
        let last = frost.saturating_sub(1).max(1);
        let planted = week_of(plan.season.planted).min(last);
        let name = unlike("need", plan.needs.iter().map(|need| &need.name), 1);
        let stems = NonZeroU32::new(STEMS).unwrap_or(NonZeroU32::MIN);
        let weeks = (last.saturating_sub(WEEKS - 1).max(planted), last);
        Need::of_any(name, stems, weeks)
    }

    /// The same need by another name.
    pub fn copy(&self, plan: &Plan) -> Need {
        Need {
            name: copied(&self.name, plan.needs.iter().map(|need| &need.name)),
            ..self.clone()
        }
    }
}

impl Fields for Need {
    type Ground<'a> = PlanGround<'a>;

    fn fields(&self, ground: PlanGround<'_>) -> Vec<Field> {
        let grounds = ground.grounds;
        let list = |texts: &[Text]| {
            let texts: Vec<&str> = texts.iter().map(Text::as_str).collect();
            texts.join(", ")
        };
        let shown = |number: Option<String>| number.unwrap_or_default();
        let uses = grounds.uses.list().iter().map(|one| one.id.as_str());
        let uses: Vec<&str> = uses.collect();
        let forms = grounds.rules.forms.iter().map(|one| one.id.as_str());
        let forms: Vec<&str> = forms.collect();
        let weeks = format!("{}-{}", self.weeks.0, self.weeks.1);
        let days = weeks_with_days(self.weeks, ground.plan.season.planted);
        let one = |word| Key::of(word);
        vec![
            told(
                field(one("name"), "", "name", self.name.to_string()),
                "What the stems are for.",
                "Any words, each need by another name; a whole line does too: lifeboat day: 45 37-37 colours=plum,wine within=8.",
            ),
            told(
                field(one("stems"), "", "stems a week", self.stems.to_string()),
                "Stems needed in each of its weeks, cut or left to flower.",
                "A whole number over 0.",
            ),
            told(
                field(one("weeks"), "", "weeks", weeks),
                "The first and the last week of the year in which they are needed.",
                format!("Two weeks such as 30-42, or one. These are {days}."),
            ),
            told(
                field(
                    one("use"),
                    "What serves",
                    "use",
                    shown(self.for_use.as_ref().map(Text::to_string)),
                ),
                "A use that the variety must fit.",
                format!("Nothing for any, or one of {}.", uses.join(", ")),
            ),
            told(
                field(
                    one("colours"),
                    "What serves",
                    "colours",
                    list(&self.colours),
                ),
                "Colours, of which the nearest counts.",
                "Nothing for any; else words, families such as pinks, groups (warm, cool, pale, dark) or #rrggbb, with commas between.",
            ),
            or_assumed(told(
                field(
                    one("within"),
                    "What serves",
                    "how near",
                    shown(self.within.map(|one| one.to_string())),
                ),
                "How far (CIEDE2000) a variety may be from the nearest of the colours.",
                format!(
                    "A number from 0 to 200; where nothing stands {} holds, our own choice.",
                    self.reach()
                ),
            )),
            or_assumed(told(
                field(
                    one("by"),
                    "What serves",
                    "judged by",
                    shown(self.colour_by.map(|by| by.word().to_string())),
                ),
                "Which of a bloom's colours are held against them.",
                "mostly: what it mostly shows, the main colour in full and the others by as much as is seen of them; main: the main colour alone; any: any of its colours; every: each colour of its petals. Where nothing stands mostly does.",
            )),
            told(
                field(one("forms"), "What serves", "forms", list(&self.forms)),
                "Forms that will do.",
                format!(
                    "Nothing for any, or ids with commas between: {}.",
                    forms.join(", ")
                ),
            ),
            or_assumed(told(
                field(
                    one("fitness"),
                    "What serves",
                    "least fitness",
                    shown(self.fitness.map(|one| one.to_string())),
                ),
                "How well a variety must fit the use, from 0 to 1.",
                format!(
                    "A number from 0 to 1; where nothing stands {} holds, our own choice.",
                    self.least_fitness()
                ),
            )),
            told(
                field(
                    one("varieties"),
                    "Mixture",
                    "varieties",
                    shown(self.varieties.map(|one| one.to_string())),
                ),
                "The least number of varieties that give it stems in each of its weeks.",
                "Nothing, or a whole number over 0.",
            ),
            told(
                field(
                    one("different"),
                    "Mixture",
                    "different forms",
                    shown(self.different_forms.map(|one| one.to_string())),
                ),
                "The least number of different forms.",
                "Nothing, or a whole number over 0.",
            ),
            or_assumed(told(
                field(
                    one("each"),
                    "Mixture",
                    "stems of each",
                    shown(self.each.map(|one| one.to_string())),
                ),
                "Stems a week that each variety must give to count as one of them.",
                "A whole number over 0; where nothing stands 1 does.",
            )),
            told(
                field(
                    one("most"),
                    "Mixture",
                    "most from one, %",
                    shown(self.most_from_one.map(|one| one.to_string())),
                ),
                "The most of a week's stems that may come from one variety.",
                "Nothing, or of a hundred: 1 to 100.",
            ),
            or_assumed(told(
                field(
                    one("sure"),
                    "Promise",
                    "how sure",
                    shown(self.sure.map(|one| one.to_string())),
                ),
                "The chance at which it is to have all its stems in all of its weeks.",
                "A number from 0.5 to 0.99: 0.9 is nine seasons of ten; where nothing stands your usual one holds (settings, sure).",
            )),
        ]
    }

    fn set(&mut self, key: Key, text: &str, ground: PlanGround<'_>) -> Result<(), String> {
        let text = text.trim();
        let changed = match key.word {
            "name" => match Need::read(text, &ground.days) {
                // All of it in one line.
                Ok(whole) => whole,
                Err(_) => Need {
                    name: Text::new(text).map_err(|error| error.to_string())?,
                    ..self.clone()
                },
            },
            "within" if !text.is_empty() && self.colours.is_empty() => {
                return Err("found a distance without a colour, expected the colours first".into());
            }
            "by" if !text.is_empty() && self.colours.is_empty() => {
                return Err(
                    "found what of a bloom is judged without a colour, expected the colours first"
                        .into(),
                );
            }
            "fitness" if !text.is_empty() && self.for_use.is_none() => {
                return Err("found a fitness without a use, expected the use first".into());
            }
            "stems" | "weeks" if text.is_empty() => {
                let expected = if key.word == "stems" {
                    "a whole number"
                } else {
                    "such as 30-42"
                };
                return Err(format!("found nothing, expected {expected}"));
            }
            word => {
                let changed = self.with(&format!("{word}={text}"), &ground.days);
                changed.map_err(|why| bare(why, word))?
            }
        };
        let mut wrong = Vec::new();
        looked_up((0, &changed), ground.grounds, &mut wrong);
        if let Some(wrong) = wrong.into_iter().next() {
            return Err(bare(wrong.message, changed.name.as_str()));
        }
        *self = changed;
        Ok(())
    }

    fn offered(&self, key: Key, typed: &str, ground: PlanGround<'_>) -> Vec<String> {
        let grounds = ground.grounds;
        match key.word {
            "use" => beginning_with(typed, grounds.uses.list().iter().map(|one| one.id.as_str())),
            // Of no colours nothing is judged.
            "by" if self.colours.is_empty() => Vec::new(),
            "by" => beginning_with(typed, Judged::ALL.into_iter().map(Judged::word)),
            "forms" => of_a_list(typed, grounds.rules.forms.iter().map(|one| one.id.as_str())),
            "colours" => {
                let words = grounds.words.words().iter().map(|word| word.word.as_str());
                let families = Family::ALL.iter().map(|one| one.word());
                let groups = Group::ALL.iter().map(|one| one.word());
                of_a_list(typed, groups.chain(families).chain(words))
            }
            _ => Vec::new(),
        }
    }

    fn wrong(&self, ground: PlanGround<'_>) -> Option<(Key, String)> {
        let (plan, at) = ground.plan.with_need(self.clone(), ground.at);
        wrong_of(plan.wrong(), ("needs", at), &self.name, &WORDS)
    }
}

/// What goes on with the last of a list with commas between, those before it kept.
pub(super) fn of_a_list<'a>(typed: &str, values: impl Iterator<Item = &'a str>) -> Vec<String> {
    let (before, last) = match typed.rsplit_once(',') {
        Some((before, last)) => (format!("{}, ", before.trim()), last),
        None => (String::new(), typed),
    };
    let named: Vec<&str> = before.split(',').map(str::trim).collect();
    let offered = beginning_with(last, values).into_iter();
    let offered = offered.filter(|value| !named.contains(&value.as_str()));
    offered.map(|value| format!("{before}{value}")).collect()
}
