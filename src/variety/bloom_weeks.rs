//! Weeks of the year as a set.

/// Weeks of the year, 1 to 53.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct BloomWeeks(u64);

impl BloomWeeks {
    /// The weeks from one to another, none where the first is the later.
    pub fn span(first: u8, last: u8) -> BloomWeeks {
        (first..=last).collect()
    }

    /// Whether there is none.
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Whether the week is one of them.
    pub fn has(self, week: u8) -> bool {
        week < 64 && self.0 >> week & 1 == 1
    }

    /// The weeks, rising.
    pub fn iter(self) -> impl Iterator<Item = u8> {
        (1..=53).filter(move |week| self.has(*week))
    }

    /// These and others.
    pub fn and(self, others: BloomWeeks) -> BloomWeeks {
        BloomWeeks(self.0 | others.0)
    }

    /// In words: `30 to 35, 38`.
    pub fn told(self) -> String {
        let mut spans: Vec<(u8, u8)> = Vec::new();
        for week in self.iter() {
            match spans.last_mut() {
                Some((_, last)) if *last + 1 == week => *last = week,
                _ => spans.push((week, week)),
            }
        }
        let span = |(first, last): &(u8, u8)| match first == last {
            true => first.to_string(),
            false => format!("{first} to {last}"),
        };
        spans.iter().map(span).collect::<Vec<_>>().join(", ")
    }
}

impl FromIterator<u8> for BloomWeeks {
    fn from_iter<I: IntoIterator<Item = u8>>(weeks: I) -> BloomWeeks {
        let weeks = weeks.into_iter().filter(|week| (1..=53).contains(week));
        BloomWeeks(weeks.fold(0, |all, week| all | 1 << week))
    }
}
