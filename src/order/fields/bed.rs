//! A bed as a person fills it in.

use super::{PlanGround, bare, copied, field, or_assumed, told, unlike, wrong_of};
use crate::measure::{Exact, Length, LengthUnit, SizeUnits};
use crate::order::bed::Bed;
use crate::order::plan::Plan;
use crate::record::{Field, Fields, Key, beginning_with};
use crate::variety::Text;

const WORDS: [(&str, &str); 5] = [
    ("length", "length"),
    ("width", "width"),
    ("spacing", "spacing"),
    ("row_spacing", "row-spacing"),
    ("rows", "rows"),
];

/// A bed before anything is said of it, in metric and in feet: something to type over.
const METRIC: [(i64, LengthUnit); 3] = [
    (10, LengthUnit::Metre),
    (120, LengthUnit::Centimetre),
    (40, LengthUnit::Centimetre),
];
const IN_FEET: [(i64, LengthUnit); 3] = [
    (30, LengthUnit::Foot),
    (4, LengthUnit::Foot),
    (16, LengthUnit::Inch),
];

impl Bed {
    /// A bed to be filled in, as wide and as far between plants as the last one of the plan, by a name
    /// that the plan has not.
    pub fn fresh(plan: &Plan, units: SizeUnits) -> Bed {
        let measures = match units {
            SizeUnits::Mm => METRIC,
            SizeUnits::In => IN_FEET,
        };
        let [length, width, spacing] =
            measures.map(|(number, unit)| Length::new(Exact::whole(number), unit));
        let name = unlike("bed", plan.beds.iter().map(|bed| &bed.name), 1);
        match plan.beds.last() {
            Some(last) => Bed {
                name,
                ..last.clone()
            },
            None => Bed {
                name,
                length,
                width,
                spacing,
                row_spacing: None,
                rows: None,
                staggered: false,
            },
        }
    }

    /// The same bed by another name.
    pub fn copy(&self, plan: &Plan) -> Bed {
        Bed {
            name: copied(&self.name, plan.beds.iter().map(|bed| &bed.name)),
            ..self.clone()
        }
    }
}

fn yes_or_no(so: bool) -> String {
    if so { "yes" } else { "no" }.to_string()
}

impl Fields for Bed {
    type Ground<'a> = PlanGround<'a>;

    fn fields(&self, _ground: PlanGround<'_>) -> Vec<Field> {
        let length = "A length such as 24m, 80ft, 120cm or 48in.";
        let rows = self.rows.map_or(String::new(), |rows| rows.to_string());
        let row_spacing = { self.row_spacing }.map_or(String::new(), |apart| apart.to_string());
        let places = match self.places() {
            Some(places) => format!("It then holds {places} plants."),
            None => "As it stands it holds none.".to_string(),
        };
        vec![
            told(
                field(Key::of("name"), "", "name", self.name.to_string()),
                "What the bed is called.",
                "Any words, each bed by another name.",
            ),
            told(
                field(Key::of("length"), "", "length", self.length.to_string()),
                "From end to end.",
                format!("{length} {places}"),
            ),
            told(
                field(Key::of("width"), "", "width", self.width.to_string()),
                "From side to side, without the paths.",
                format!("{length} {places}"),
            ),
            told(
                field(Key::of("spacing"), "", "spacing", self.spacing.to_string()),
                "From plant to plant in the row, and from row to row where nothing else says it.",
                format!("{length} {places}"),
            ),
            or_assumed(told(
                field(Key::of("row-spacing"), "", "rows apart", row_spacing),
                "From row to row, where that is not as from plant to plant.",
                format!(
                    "{length} Where nothing stands: as far as plants, or rows whose number is given share the width out."
                ),
            )),
            or_assumed(told(
                field(Key::of("rows"), "", "rows", rows),
                "Rows along its length.",
                format!(
                    "A whole number over 0; where nothing stands as many as its width holds, {}.",
                    self.across()
                ),
            )),
            told(
                field(
                    Key::of("staggered"),
                    "",
                    "staggered",
                    yes_or_no(self.staggered),
                ),
                "Whether every other row begins half a spacing later, so that plants stand in the gaps of their neighbours.",
                format!("yes or no. {places}"),
            ),
        ]
    }

    fn set(&mut self, key: Key, text: &str, _ground: PlanGround<'_>) -> Result<(), String> {
        let text = text.trim();
        *self = match key.word {
            "name" => Bed {
                name: Text::new(text).map_err(|error| error.to_string())?,
                ..self.clone()
            },
            word => {
                let changed = self.with(&format!("{word}={text}"));
                changed.map_err(|why| bare(why, word))?
            }
        };
        Ok(())
    }

    fn offered(&self, key: Key, typed: &str, _ground: PlanGround<'_>) -> Vec<String> {
        match key.word {
            "staggered" => beginning_with(typed, ["yes", "no"]),
            _ => Vec::new(),
        }
    }

    fn wrong(&self, ground: PlanGround<'_>) -> Option<(Key, String)> {
        let (plan, at) = ground.plan.with_bed(self.clone(), ground.at);
        wrong_of(plan.wrong(), ("beds", at), &self.name, &WORDS)
    }
}
