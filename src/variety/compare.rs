//! A few varieties side by side.

use super::account::account;
use super::index_context::IndexContext;
use super::middles::Middles;
use super::record::Variety;
use crate::account::Section;
use crate::measure::SizeUnits;

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

/// Compares varieties of a list with these middles field by field, then by how well they fit each use;
/// what is unknown for all of them is left out.
pub fn compare(
    varieties: &[&Variety],
    context: IndexContext<'_>,
    middles: &Middles,
    units: SizeUnits,
) -> Vec<ComparedField> {
    let accounts = varieties
        .iter()
        .map(|one| account(one, context, middles, units));
    let accounts: Vec<Vec<(String, String)>> = accounts.map(|one| values(&one)).collect();
    let count = accounts.first().map_or(0, Vec::len);
    let line = |at: usize| {
        let known = |value: &String| (!value.is_empty()).then(|| value.clone());
        let values: Vec<Option<String>> =
            accounts.iter().map(|values| known(&values[at].1)).collect();
        ComparedField {
            field: accounts[0][at].0.clone(),
            differs: values.iter().any(|value| *value != values[0]),
            values,
        }
    };
    let lines = (0..count).map(line);
    lines
        .filter(|line| line.values.iter().any(Option::is_some))
        .collect()
}

/// What is compared of an account, each with its value in words: the same in every account.
fn values(account: &Section) -> Vec<(String, String)> {
    let pairs = account
        .pairs()
        .filter(|pair| !pair.name.is_empty())
        .map(|pair| (pair.name.to_string(), pair.cell.shown()));
    let rows = account.tables().flat_map(|table| &table.rows);
    let uses = rows.map(|row| (row[0].shown(), row[1].shown()));
    pairs.chain(uses).collect()
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
            season: None,
        };
        let varieties: Vec<&Variety> = rows.iter().map(|row| &list.list()[*row]).collect();
        let lines = compare(&varieties, grounds, &Middles::default(), units)
            .into_iter()
            .map(|line| {
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
            "* height: 90 to 120 cm (stated) | ?",
            "stem: 45.7 cm (stated) | 45.7 cm (stated)",
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
            told.contains(&"* height: 35.4 to 47.2 in (stated) | ?".to_string()),
            "{told:#?}"
        );
        assert!(
            told.contains(&"* stem: 18 in (stated) | ?".to_string()),
            "{told:#?}"
        );
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
