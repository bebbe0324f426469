//! Bars side by side, each with its range, and with what is needed and lacks there.

mod cells;
mod page;

/// Bars over a common scale from nothing on.
#[derive(Debug, Clone, PartialEq)]
pub struct Bars {
    /// What it shows.
    pub title: String,
    /// What it is from, and how it was worked out.
    pub notes: Vec<String>,
    /// What the values are, with their unit.
    pub up: String,
    /// The bars in their order.
    pub bars: Vec<Bar>,
    /// Rows of figures under the bars on a page: a name, and one text for each bar.
    pub figures: Vec<(String, Vec<String>)>,
    /// What each sign says.
    pub words: BarWords,
    /// All of it in words, for who cannot see it.
    pub shows: String,
}

/// One bar. No figure is less than 0.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bar {
    /// How long it is.
    pub value: f64,
    /// From where to where the value may lie.
    pub range: Option<(f64, f64)>,
    /// What is needed; nothing is marked at 0.
    pub need: f64,
    /// How much of the need lacks.
    pub short: f64,
}

/// What the signs of a chart of bars say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BarWords {
    /// The bar.
    pub value: &'static str,
    /// The range about its end.
    pub range: &'static str,
    /// The line across.
    pub need: &'static str,
    /// The piece that lacks.
    pub short: &'static str,
}

impl Bars {
    /// The most that any bar, range or need comes to; at least 1.
    pub fn most(&self) -> f64 {
        let bars = self.bars.iter();
        let most = bars.map(|bar| {
            let high = bar.range.map_or(0.0, |(_, high)| high);
            bar.need.max(bar.value).max(high)
        });
        most.fold(1.0, f64::max)
    }

    fn has_ranges(&self) -> bool {
        self.bars.iter().any(|bar| bar.range.is_some())
    }
}
