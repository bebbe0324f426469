//! The season as a person fills it in, with the money and what else the plan has once. What it has
//! several of, needs, beds and suppliers, are records of their own.

use super::need::of_a_list;
use super::{PlanGround, bare, field, or_assumed, told};
use crate::order::candidates::forms;
use crate::order::item::{IN_A_SEASON, Item};
use crate::order::plan::Plan;
use crate::order::report::reckoned;
use crate::problem::{Path, Step, Wrong};
use crate::record::{Field, Fields, Key, beginning_with};

/// What the season's form holds: its word, the figure of the plan, its head, its name, and what it
/// means.
const FIGURES: [(&str, Item, &str, &str, &str); 15] = [
    (
        "planted",
        Item::Planted,
        "",
        "planted",
        "The day on which tubers, or plants raised from them, go into the beds.",
    ),
    (
        "last-frost",
        Item::LastFrost,
        "",
        "last frost",
        "The last frost of spring where you grow.",
    ),
    (
        "first-frost",
        Item::FirstFrost,
        "",
        "first frost",
        "The first frost of autumn; the last stems are cut on the day before it.",
    ),
    (
        "started",
        Item::Started,
        "",
        "started",
        "Whether tubers go straight into the bed or are potted up under cover first.",
    ),
    (
        "ordered",
        Item::Ordered,
        "The order",
        "orders go out",
        "The day on which the orders go out: what closes before it cannot be had.",
    ),
    (
        "money",
        Item::Money,
        "The order",
        "money",
        "The most that the order may cost.",
    ),
    (
        "shortlist",
        Item::Shortlist,
        "The order",
        "shortlist only",
        "Whether only varieties of your shortlist may be bought.",
    ),
    (
        "try",
        Item::Tried,
        "The order",
        "forms to try",
        "Forms of which one plant at least is to be tried.",
    ),
    (
        "first-cut",
        Item::FirstCut,
        "What a plant gives",
        "first cut, weeks",
        "Weeks from planting to the first cut.",
    ),
    (
        "stems",
        Item::Stems,
        "What a plant gives",
        "stems a week",
        "Saleable stems that a plant gives in a week at full flower.",
    ),
    (
        "ramp",
        Item::Ramp,
        "What a plant gives",
        "rise to flower",
        "The share of full flower in each week from the first cut; the last goes on.",
    ),
    (
        "plants-lost",
        Item::PlantsLost,
        "What a plant gives",
        "plants lost, %",
        "Plants lost of a hundred set out.",
    ),
    (
        "stems-lost",
        Item::StemsLost,
        "What a plant gives",
        "stems lost, %",
        "Stems lost of a hundred cut.",
    ),
    (
        "kept",
        Item::Storage,
        "What a plant gives",
        "tubers kept, %",
        "Tubers of your own that keep through the winter, of a hundred.",
    ),
    (
        "cut-before",
        Item::CutBefore,
        "Events and rounds",
        "cut before, days",
        "Days that stems are cut before an event or a round wants them.",
    ),
];

/// The field of the season's form that a figure of the plan stands in; `None` of a need, a bed and a
/// supplier, which are forms of their own.
pub fn field_of(item: Item) -> Option<Key> {
    let found = FIGURES.iter().find(|one| one.1 == item);
    found.map(|one| Key::of(one.0))
}

/// What stands in the field: what may be typed for it.
fn text(item: Item, plan: &Plan) -> String {
    let season = &plan.season;
    let number = |number: Option<f64>| number.map_or(String::new(), |number| number.to_string());
    match item {
        Item::Money => plan.money.map_or(String::new(), |money| money.to_string()),
        Item::LastFrost => season.last_frost.words(),
        Item::FirstFrost => season.first_frost.words(),
        Item::FirstCut => season
            .weeks_to_first_cut
            .map_or(String::new(), |weeks| weeks.to_string()),
        Item::Stems => match (season.stems_a_week, season.stems_a_plant) {
            (Some(stems), _) => stems.get().to_string(),
            (None, Some(total)) => format!("{total} {IN_A_SEASON}"),
            (None, None) => String::new(),
        },
        Item::Ramp => {
            let shares: Vec<String> = season.ramp.iter().map(f64::to_string).collect();
            shares.join(", ")
        }
        Item::PlantsLost => number(season.plants_lost),
        Item::StemsLost => number(season.stems_lost),
        Item::Storage => number(plan.storage_kept),
        Item::CutBefore => plan
            .cut_before
            .map_or(String::new(), |days| days.to_string()),
        Item::Tried if plan.tried.is_empty() => String::new(),
        // What is shown of the others is what may be typed.
        other => other.value(plan, Default::default()),
    }
}

/// What is assumed where nothing stands, with its source.
fn assumed(item: Item, plan: &Plan) -> Option<String> {
    if item == Item::CutBefore {
        return Some(format!("{} (assumed)", plan.days_before()));
    }
    let figures = reckoned(plan);
    let name = match item {
        Item::FirstCut => "weeks to the first cut",
        Item::Stems => "stems a week",
        Item::Ramp => "rise to full flower",
        Item::PlantsLost => "plants lost",
        Item::StemsLost => "stems lost",
        Item::Storage => "kept in store",
        _ => return None,
    };
    let figure = figures.into_iter().find(|figure| figure.name == name)?;
    Some(format!("{} ({})", figure.value, figure.source))
}

impl Fields for Plan {
    type Ground<'a> = PlanGround<'a>;

    fn fields(&self, ground: PlanGround<'_>) -> Vec<Field> {
        let forms = ground.grounds.rules.forms.iter().map(|one| one.id.as_str());
        let forms: Vec<&str> = forms.collect();
        let made = |(word, item, group, name, means): (
            &'static str,
            Item,
            &'static str,
            &'static str,
            &'static str,
        )| {
            let shown = field(Key::of(word), group, name, text(item, self));
            match (item, assumed(item, self)) {
                (Item::Money, _) => told(
                    shown,
                    means,
                    "An amount such as 450 or 450.50; nothing is no limit.",
                ),
                (Item::Tried, _) => told(
                    shown,
                    means,
                    format!("Nothing, or ids with commas between: {}.", forms.join(", ")),
                ),
                (_, Some(holds)) => {
                    or_assumed(told(shown, means, format!("{} Now {holds}.", item.hint())))
                }
                (_, None) => told(shown, means, item.hint()),
            }
        };
        FIGURES.into_iter().map(made).collect()
    }

    fn set(&mut self, key: Key, text: &str, ground: PlanGround<'_>) -> Result<(), String> {
        let item = FIGURES.iter().find(|one| one.0 == key.word);
        let Some((word, item, ..)) = item else {
            return Err(format!(
                "found the field {:?}, expected one of the season",
                key.word
            ));
        };
        let text = match (item, text.trim()) {
            (Item::Money, "") => "none",
            (_, text) => text,
        };
        let changed = item
            .set(self, text, &ground.days)
            .map_err(|why| bare(why, word))?;
        let mut wrong = Vec::new();
        forms(
            &changed.tried,
            ("", Path::field("try")),
            ground.grounds,
            &mut wrong,
        );
        if let Some(wrong) = wrong.into_iter().next() {
            return Err(bare(wrong.message, ""));
        }
        *self = changed;
        Ok(())
    }

    fn offered(&self, key: Key, typed: &str, ground: PlanGround<'_>) -> Vec<String> {
        match key.word {
            "started" => beginning_with(typed, ["tubers", "potted"]),
            "shortlist" => beginning_with(typed, ["no", "yes"]),
            "try" => of_a_list(
                typed,
                ground.grounds.rules.forms.iter().map(|one| one.id.as_str()),
            ),
            _ => Vec::new(),
        }
    }

    fn wrong(&self, _ground: PlanGround<'_>) -> Option<(Key, String)> {
        let told = |one: &Wrong| {
            let word = match one.at.steps() {
                // There may be none yet, and what is wrong with one in itself is told on its own form.
                [Step::Field("needs")] => return None,
                [Step::Field("needs"), _, Step::Field("weeks"), ..] => "first-frost",
                [Step::Field("work"), _, Step::Field("on" | "from" | "to")] => "first-frost",
                [Step::Field("cut_before")] => "cut-before",
                [Step::Field("suppliers"), ..] => "ordered",
                [Step::Field("season"), field, ..] => season_word(*field),
                [Step::Field("storage_kept")] => "kept",
                _ => return None,
            };
            Some((Key::of(word), one.message.clone()))
        };
        self.wrong().iter().find_map(told)
    }
}

/// The word of a field of the season as its file has it.
fn season_word(field: Step) -> &'static str {
    match field {
        Step::Field("last_frost") => "last-frost",
        Step::Field("first_frost") => "first-frost",
        Step::Field("weeks_to_first_cut") => "first-cut",
        Step::Field("stems_a_week" | "stems_a_plant") => "stems",
        Step::Field("plants_lost") => "plants-lost",
        Step::Field("stems_lost") => "stems-lost",
        Step::Renamed { .. } => "ramp",
        _ => "planted",
    }
}
