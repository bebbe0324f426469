//! A week of the season chart.

use jiff::civil::Date;

/// One week, all needs and all varieties together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChartWeek {
    /// The week of the year.
    pub week: u8,
    /// Its Monday; `None` where the year has no such week.
    pub monday: Option<Date>,
    /// Stems needed.
    pub needed: f64,
    /// Stems needed that no variety gives.
    pub short: f64,
    /// Usable stems expected of all varieties.
    pub expected: f64,
    /// The least and the most of nine seasons in ten.
    pub range: Option<(f64, f64)>,
}

impl ChartWeek {
    pub(super) fn monday_as(&self, form: &str) -> Option<String> {
        self.monday.map(|day| day.strftime(form).to_string())
    }

    /// `49 to 100`.
    pub(super) fn range_in_words(&self) -> Option<String> {
        let range = self.range;
        range.map(|(low, high)| format!("{low:.0} to {high:.0}"))
    }

    /// Stems short to a tenth; nothing where none is.
    pub(super) fn short_in_words(&self) -> Option<String> {
        (self.short > 0.0).then(|| format!("{:.1}", self.short))
    }
}

/// The first of the last weeks whose range goes down to nothing though stems are expected, where `frosty`
/// gives frost by its Monday the chance to do that; `None` where it does not, or no week is so.
pub(super) fn frost_before(weeks: &[ChartWeek], frosty: impl Fn(Date) -> f64) -> Option<u8> {
    let to_nothing = |one: &&ChartWeek| {
        let range = one
            .range
            .is_some_and(|(low, high)| low < 0.5 && high >= 0.5);
        // The range leaves out one season in twenty at its lower end.
        range && one.monday.is_some_and(|monday| frosty(monday) >= 0.05)
    };
    let last = weeks.iter().rev().take_while(to_nothing);
    last.last().map(|one| one.week)
}
