//! In which weeks of the year a variety is in bloom: as the trial row saw it, else as the season that is
//! planned leads one to expect.

use super::bloom_weeks::BloomWeeks;
use super::record::Variety;
use super::text::Text;
use crate::account::Cell;

/// The season that is planned, as far as it says when something is in bloom: from its first cut to the
/// first frost. What of it is of a variety by name stands before what is of its form.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct BloomSeason {
    /// The year whose weeks are meant.
    pub year: i16,
    /// Of most varieties.
    pub usual: BloomWeeks,
    /// Of those with other weeks to the first cut: names of varieties and ids of forms.
    pub others: Vec<(Vec<Text>, BloomWeeks)>,
    /// Weeks in which stems of a variety were counted.
    pub counted: Vec<(Text, BloomWeeks)>,
}

/// When one variety is in bloom.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct InBloom {
    /// Weeks in which it was seen so, in whatever year.
    pub seen: BloomWeeks,
    /// Weeks in which it is expected to be.
    pub expected: BloomWeeks,
}

impl BloomSeason {
    /// In which weeks a variety of a form is expected to be in bloom.
    fn expected(&self, name: &str, form: Option<&str>) -> BloomWeeks {
        let of = |word: &str| {
            let mut others = self.others.iter();
            others.find(|(of, _)| of.iter().any(|own| own.as_str() == word))
        };
        let own = of(name).or_else(|| of(form?));
        own.map_or(self.usual, |(_, weeks)| *weeks)
    }
}

impl InBloom {
    /// Of a variety of a form, under the season that is planned; nothing is expected where none is.
    pub fn of(variety: &Variety, form: Option<&str>, season: Option<&BloomSeason>) -> InBloom {
        let name = variety.name.as_str();
        let counted = season.iter().flat_map(|season| &season.counted);
        let counted = counted.filter(|(of, _)| of.as_str() == name);
        InBloom {
            seen: counted.fold(variety.seen_in_bloom, |all, (_, weeks)| all.and(*weeks)),
            expected: season.map_or(BloomWeeks::default(), |season| season.expected(name, form)),
        }
    }

    /// All weeks in which it may be counted on.
    pub fn weeks(self) -> BloomWeeks {
        self.seen.and(self.expected)
    }

    /// The weeks, and which of them were seen and which are expected; `None` where there is none.
    pub fn cell(self) -> Option<Cell> {
        let ground = match (self.seen.is_empty(), self.expected.is_empty()) {
            (true, true) => return None,
            (true, false) => "expected by the season of your plan".to_string(),
            (false, _) if self.weeks() == self.seen => "seen".to_string(),
            (false, _) => format!(
                "seen in {}, else expected by the season of your plan",
                self.seen.told()
            ),
        };
        let words = format!("weeks {}: {ground}", self.weeks().told());
        let figures = vec![
            ("weeks", Cell::list(self.weeks().iter())),
            ("seen", Cell::list(self.seen.iter())),
        ];
        Some(Cell::worded(words, Cell::Record(figures)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(word: &str) -> Text {
        Text::new(word).expect("a text")
    }

    #[test]
    fn what_was_seen_stands_beside_what_the_season_leads_one_to_expect() {
        let season = BloomSeason {
            year: 2027,
            usual: BloomWeeks::span(31, 42),
            others: vec![
                (vec![text("single")], BloomWeeks::span(30, 42)),
                (vec![text("Haaf Early")], BloomWeeks::span(28, 42)),
            ],
            counted: vec![(text("Haaf Late"), BloomWeeks::span(43, 44))],
        };
        let told = |name: &str, form, seen: &[u8]| {
            let mut variety = Variety::named(text(name));
            variety.seen_in_bloom = seen.iter().copied().collect();
            let cell = InBloom::of(&variety, form, Some(&season)).cell();
            cell.expect("weeks").shown()
        };
        let expected = "expected by the season of your plan";
        assert_eq!(
            told("A", Some("ball"), &[]),
            format!("weeks 31 to 42: {expected}")
        );
        assert_eq!(
            told("A", Some("single"), &[]),
            format!("weeks 30 to 42: {expected}")
        );
        assert_eq!(
            told("Haaf Early", Some("single"), &[27]),
            format!("weeks 27 to 42: seen in 27, else {expected}")
        );
        assert_eq!(
            told("Haaf Late", None, &[33, 34]),
            format!("weeks 31 to 44: seen in 33 to 34, 43 to 44, else {expected}")
        );
        let nobody = Variety::named(text("A"));
        assert_eq!(InBloom::of(&nobody, Some("ball"), None).cell(), None);
        assert!(BloomWeeks::span(40, 39).is_empty());
    }
}
