//! A need and a supplier's terms as they are told. What a grower types to change them stands in
//! [`need_words`](super::need_words) and [`means_words`](super::means_words).

use super::need::Need;
use super::terms::Terms;
use crate::form::traits::list_or;
use crate::variety::Text;

impl Need {
    /// The need, its name apart: `80 stems a week in weeks 33 to 41; for market bunch, fit 70 % or
    /// more; warm, within 6; 4 varieties or more, each with 3 stems or more; 40 % or less from one`.
    pub fn told(&self) -> String {
        let (first, last) = self.weeks;
        self.told_in(&match first == last {
            true => format!("week {first}"),
            false => format!("weeks {first} to {last}"),
        })
    }

    /// The same with its weeks in these words.
    pub fn told_in(&self, weeks: &str) -> String {
        let mut told = vec![format!("{} stems a week in {weeks}", self.stems)];
        if let Some(wanted) = &self.for_use {
            let assumed = if self.fitness.is_none() {
                " (assumed)"
            } else {
                ""
            };
            told.push(format!(
                "for {}, fit {:.0} % or more{assumed}",
                spaced(wanted),
                self.least_fitness() * 100.0
            ));
        }
        if !self.colours.is_empty() {
            let assumed = if self.within.is_none() {
                " (assumed)"
            } else {
                ""
            };
            let within = format!(", within {}{assumed}", self.reach());
            let by = self.colour_by.map(|by| format!(", {}", by.told()));
            told.push(either(&self.colours) + &within + &by.unwrap_or_default());
        }
        if !self.forms.is_empty() {
            told.push(either(&self.forms));
        }
        if let Some(varieties) = self.varieties {
            let each = self
                .each
                .map(|each| format!(", each with {each} stems or more"));
            told.push(format!(
                "{varieties} varieties or more{}",
                each.unwrap_or_default()
            ));
        }
        told.extend(
            self.different_forms
                .map(|forms| format!("{forms} forms or more")),
        );
        told.extend(
            self.most_from_one
                .map(|most| format!("{most} % or less from one")),
        );
        told.extend(self.sure.map(|sure| format!("{:.0} % sure", sure * 100.0)));
        told.join("; ")
    }
}

impl Terms {
    /// The terms: `postage 6.50, free from 150.00; orders of 20.00 or more; closes 2027-02-28`.
    pub fn told(&self) -> String {
        let free = self.free_over.map(|over| format!(", free from {over}"));
        let mut told = vec![format!(
            "postage {}{}",
            self.postage,
            free.unwrap_or_default()
        )];
        told.extend(self.least.map(|least| format!("orders of {least} or more")));
        told.extend(self.closes.map(|day| format!("closes {day}")));
        told.join("; ")
    }
}

/// An id as words: of uses and forms it is their name, joined.
pub(in crate::order) fn spaced(id: &Text) -> String {
    id.as_str().replace('-', " ")
}

fn either(texts: &[Text]) -> String {
    let words: Vec<String> = texts.iter().map(spaced).collect();
    list_or(&words.iter().map(String::as_str).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::day::Calendar;

    #[test]
    fn a_need_and_terms_are_told_without_the_signs_that_they_are_typed_with() {
        let days = &Calendar::FILES;
        let need = Need::read(
            "bowls: 12 32-41 use=low-bowl fitness=0.7 colours=warm,plum within=6 forms=anemone,miniature-ball varieties=4 each=3 most=40",
            days,
        );
        assert_eq!(
            need.expect("a need").told(),
            "12 stems a week in weeks 32 to 41; for low bowl, fit 70 % or more; warm or plum, within 6; anemone or miniature ball; 4 varieties or more, each with 3 stems or more; 40 % or less from one"
        );
        let day = Need::read("day: 45 37-37", days).expect("a need");
        assert_eq!(day.told(), "45 stems a week in week 37");
        let line = "Oar Bulbs postage=6.50 free=150.00 least=20.00 closes=2027-02-28";
        assert_eq!(
            Terms::read(line, days).expect("terms").told(),
            "postage 6.50, free from 150.00; orders of 20.00 or more; closes 2027-02-28"
        );
    }
}
