//! A few varieties side by side.

use super::fitness::Known;
use super::index::price_a_stem;
use super::index_context::IndexContext;
use super::record::Variety;
use crate::form::sentences::percent;
use crate::measure::{Exact, Length, SizeUnits, days};

/// One line of a comparison.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ComparedField {
    /// What is compared.
    pub field: String,
    /// Each variety's value in words; `None` where it is unknown.
    pub values: Vec<Option<String>>,
    /// Whether the values are not all the same.
    pub differs: bool,
}

/// Compares varieties field by field; a field that is unknown for all of them is left out.
pub fn compare(
    varieties: &[&Variety],
    grounds: IndexContext<'_>,
    units: SizeUnits,
) -> Vec<ComparedField> {
    let IndexContext {
        rules,
        uses,
        words,
        stems_a_plant,
    } = grounds;
    let money = |hundredths: f64| format!("{:.2}", hundredths / 100.0);
    let mut lines = Vec::new();
    let mut line = |field: &str, value: &dyn Fn(&Variety) -> Option<String>| {
        let values: Vec<Option<String>> = varieties.iter().map(|one| value(one)).collect();
        if values.iter().any(Option::is_some) {
            let differs = values.iter().any(|value| *value != values[0]);
            lines.push(ComparedField {
                field: field.to_string(),
                values,
                differs,
            });
        }
    };
    line("raiser", &|one| one.raiser.as_deref().map(str::to_string));
    line("form", &|one| {
        let form = &rules.forms[one.form_under(rules)?];
        let known = one.form.as_ref().map_or("keyed", |form| form.known.word());
        Some(format!("{} ({known})", form.name))
    });
    line("size", &|one| {
        let size = one.size_under(rules)?;
        Some(rules.size_in_words(one.form_under(rules), size, units))
    });
    line("diameter", &|one| {
        let exact: Vec<Exact> = one.diameters.iter().map(|one| one.length().mm()).collect();
        let mean = Length::from_mm(Exact::mean(&exact)?).shown(units);
        Some(match exact.len() {
            1 => format!("{mean}, one bloom"),
            many => format!("{mean}, mean of {many}"),
        })
    });
    line("colours", &|one| {
        let colour = |note: &super::record::ColourNote| {
            let (part, pattern) = (note.part.word(), note.pattern.word());
            // A measured colour is a word too, the nearest one.
            match note.colour.target(words) {
                Ok(target) if target.name.is_none() => {
                    let word = &words.word_for(target.centre).word;
                    format!("{part} {word} {} ({pattern})", note.colour)
                }
                _ => format!("{part} {} ({pattern})", note.colour),
            }
        };
        let all: Vec<String> = one.colours.iter().map(colour).collect();
        (!all.is_empty()).then(|| all.join(", "))
    });
    line("height", &|one| Some(one.height?.shown(units)));
    line("stem", &|one| Some(one.stem?.shown(units)));
    line("foliage", &|one| {
        one.foliage.map(|leaf| leaf.word().to_string())
    });
    line("vase life", &|one| {
        let vase = one.vase?;
        let ground = match vase.stems.map(|stems| stems.get()) {
            None => "stated".to_string(),
            Some(1) => "one stem".to_string(),
            Some(stems) => format!("{stems} stems"),
        };
        Some(format!("{} ({ground})", days(vase.days.get())))
    });
    line("weather", &|one| {
        let count = |one: &super::evidence::Weather| {
            format!(
                "{} of {} damaged by {}",
                one.damaged,
                one.open,
                one.kind.word()
            )
        };
        let all: Vec<String> = one.weather.iter().map(count).collect();
        (!all.is_empty()).then(|| all.join(", "))
    });
    line("price a tuber", &|one| one.price_a_tuber().map(money));
    line("price a stem", &|one| {
        price_a_stem(one, stems_a_plant).map(money)
    });
    line("on hand", &|one| {
        one.on_hand.map(|tubers| tubers.to_string())
    });
    line("protected", &|one| {
        let protected = if one.protected? { "yes" } else { "no" };
        Some(match &one.licence {
            Some(licence) => format!("{protected}, licence {licence}"),
            None => protected.to_string(),
        })
    });
    for one_use in uses.list() {
        line(&one_use.name, &|one| {
            let fitness = Known::of(one, rules, uses).fitness(one_use)?;
            Some(percent(fitness))
        });
    }
    line("notes", &|one| one.notes.as_deref().map(str::to_string));
    line("shortlist", &|one| {
        let mark = one.shortlist.as_ref()?;
        Some(mark.note.as_deref().unwrap_or("yes").to_string())
    });
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::Vocabulary;
    use crate::form::RuleSet;
    use crate::variety::{Uses, Varieties};

    const LIST: &str = r##"[
  (name: "A", form: (id: "ball", known: keyed), diameters: ["96mm", "98mm"], height: "90-120cm", stem: "457mm", colours: [(colour: "peach", part: main, pattern: self)], vase: (days: 7.5, stems: 6), weather: ["wind:3/12"], on_hand: 0, offers: [(supplier: "Oar Bulbs", price: "6.00", pack: 3)], protected: false),
  (name: "B", form: (id: "ball", known: keyed), stem: "457mm", vase: (days: 7.5), on_hand: 4, notes: "late", shortlist: ()),
  (name: "C", colours: [(colour: "#f6bf9d", part: main, pattern: tipped)]),
]"##;

    /// The lines of a comparison as `field: value | value`, those that differ with a star.
    fn told(rows: &[usize], units: SizeUnits) -> Vec<String> {
        let list = Varieties::read("varieties.ron", LIST).expect("a list");
        let grounds = IndexContext {
            rules: &RuleSet::embedded()[0],
            uses: &Uses::embedded(),
            words: &Vocabulary::embedded(),
            stems_a_plant: 8.0,
        };
        let varieties: Vec<&Variety> = rows.iter().map(|row| &list.list()[*row]).collect();
        let lines = compare(&varieties, grounds, units).into_iter().map(|line| {
            let values = line.values.iter();
            let values: Vec<&str> = values.map(|one| one.as_deref().unwrap_or("?")).collect();
            let star = if line.differs { "* " } else { "" };
            format!("{star}{}: {}", line.field, values.join(" | "))
        });
        lines.collect()
    }

    #[test]
    fn what_differs_is_marked_and_the_unknown_stays_so() {
        let told = told(&[0, 1], SizeUnits::Mm);
        for line in [
            "form: ball (keyed) | ball (keyed)",
            "* diameter: 97 mm, mean of 2 | ?",
            "* height: 900 to 1200 mm | ?",
            "stem: 457 mm | 457 mm",
            "* colours: main peach (self) | ?",
            "* vase life: 7.5 days (6 stems) | 7.5 days (stated)",
            "* weather: 3 of 12 damaged by wind | ?",
            "* price a tuber: 2.00 | ?",
            "* price a stem: 0.25 | ?",
            "* on hand: 0 | 4",
            "* protected: no | ?",
            "* notes: ? | late",
            "* shortlist: ? | yes",
        ] {
            assert!(told.iter().any(|one| one == line), "{line}: {told:#?}");
        }
        let uses = told.iter().filter(|line| line.contains(" %"));
        assert_eq!(uses.count(), Uses::embedded().list().len());
        // Unknown for both: left out.
        assert!(!told.iter().any(|line| line.contains("raiser:")));
    }

    #[test]
    fn lengths_are_in_the_units_asked_for() {
        let told = told(&[0, 2], SizeUnits::In);
        assert!(
            told.contains(&"* height: 35.4 to 47.2 in | ?".to_string()),
            "{told:#?}"
        );
        assert!(told.contains(&"* stem: 18 in | ?".to_string()), "{told:#?}");
    }

    #[test]
    fn a_measured_colour_is_a_word_and_what_is_unknown_for_all_is_left_out() {
        let told = told(&[2, 2], SizeUnits::Mm);
        assert_eq!(
            told,
            ["colours: main peach #f6bf9d (tipped) | main peach #f6bf9d (tipped)"]
        );
    }
}
