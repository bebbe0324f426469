//! An account as plain text.

use super::section::{Pair, Part, Section, Sentence};
use super::text::{Side, pad, paragraph, width};

/// In front of what stands under a head.
const INDENT: &str = "  ";
/// What goes on from a line stands so much further in.
const FURTHER: usize = 2;

/// Sections as lines of at most so many columns, a blank line between; tables are as wide as they
/// are.
pub fn lines(sections: &[Section], columns: usize) -> Vec<String> {
    let mut lines = Vec::new();
    for section in sections {
        let own = section_lines(section, columns);
        if !lines.is_empty() && !own.is_empty() {
            lines.push(String::new());
        }
        lines.extend(own);
    }
    lines
}

/// One section: its head, and under it what it says. What has no head is not set in; a head that is
/// no sentence says nothing alone.
pub fn section_lines(section: &Section, columns: usize) -> Vec<String> {
    let indent = if section.head.is_empty() { "" } else { INDENT };
    let under = under(section, indent, columns);
    let head = head(section).filter(|head| !under.is_empty() || head.ends_with('.'));
    head.into_iter().chain(under).collect()
}

fn under(section: &Section, indent: &str, columns: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut after_a_table = false;
    for part in &section.parts {
        match part {
            Part::Table(table) if table.rows.is_empty() || table.shown().is_empty() => continue,
            Part::Table(table) => {
                // One table would be taken for more rows of the other.
                lines.extend(after_a_table.then(String::new));
                let rows = table.lines();
                lines.extend(
                    rows.iter()
                        .map(|line| format!("{indent}{line}").trim_end().to_string()),
                );
            }
            Part::Sentences(_, sentences) => {
                let told = |one: &Sentence| sentence(one, indent, columns);
                lines.extend(sentences.iter().flat_map(told));
            }
            Part::Pairs(pairs) => lines.extend(fields(pairs, indent, columns)),
            Part::Sums(_, sums) => {
                let sums: Vec<String> = seen(sums).map(sum).collect();
                lines.extend(paragraph(
                    indent,
                    &sums.join(", "),
                    indent.len() + FURTHER,
                    columns,
                ));
            }
        }
        after_a_table = matches!(part, Part::Table(_));
    }
    lines
}

/// `Oar Bulbs, order by 2027-02-01:`; what has a colon or is a sentence gets none.
fn head(section: &Section) -> Option<String> {
    let note = match section.note.as_str() {
        "" => String::new(),
        note => format!(", {note}"),
    };
    let head = format!("{}{note}", section.head);
    let is_label = head.ends_with(char::is_alphanumeric) && !head.contains(": ");
    let end = if is_label { ":" } else { "" };
    (!section.head.is_empty()).then(|| head + end)
}

fn sentence(told: &Sentence, indent: &str, columns: usize) -> Vec<String> {
    let lead = match told.lead {
        "" => indent.to_string(),
        lead => format!("{indent}{lead}:"),
    };
    paragraph(&lead, &told.text, indent.len() + FURTHER, columns)
}

/// Fields one under the other, their values in a column of their own.
fn fields(pairs: &[Pair], indent: &str, columns: usize) -> Vec<String> {
    let names = seen(pairs).map(|pair| width(pair.name)).max().unwrap_or(0);
    let field = |pair: &Pair| {
        let lead = format!("{indent}{}  ", pad(pair.name, names, Side::Left));
        paragraph(&lead, &value(pair), width(&lead), columns)
    };
    seen(pairs).flat_map(field).collect()
}

/// `postage 0.00 (free from 100.00)`.
fn sum(pair: &Pair) -> String {
    format!("{} {}", pair.name, value(pair))
}

fn value(pair: &Pair) -> String {
    match pair.note.as_str() {
        "" => pair.cell.shown(),
        note => format!("{} ({note})", pair.cell.shown()),
    }
}

fn seen(pairs: &[Pair]) -> impl Iterator<Item = &Pair> {
    pairs.iter().filter(|pair| !pair.name.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::account::{Column, Table};
    use crate::measure::Money;

    #[test]
    fn a_section_is_told_part_by_part() {
        let money = Money::hundredths;
        let columns = [
            Column::words("variety", "variety"),
            Column::figures("cost", "cost"),
        ];
        let rows = [vec!["Haaf Bell".into(), money(5400).into()]];
        let supplier = Section {
            note: "order by 2027-02-01".to_string(),
            ..Section::under("Oar Bulbs")
        };
        let supplier = supplier
            .with(Part::Table(Table::of("lines", columns).with(rows)))
            .with(Part::sentences(
                "",
                ["Haaf Bell: 2 of 6 packs to reach free postage."],
            ))
            .with(Part::Sums(
                "suppliers",
                vec![
                    Pair::data("supplier", "Oar Bulbs"),
                    Pair::new("goods", "goods", money(5400)),
                    Pair::new("postage", "postage", money(0)).noted("free from 50.00"),
                ],
            ));
        let plant = Section::under("The gate's advice: cull.").with(Part::Sentences(
            "reasons",
            vec![Sentence {
                lead: "because",
                text: "0 of 8 stems lasted".to_string(),
            }],
        ));
        let fields = Section::default().with(Part::Pairs(vec![
            Pair::new("form", "form", "ball"),
            Pair::new("diameter", "diameter", "mean 98 mm of 12 blooms"),
        ]));
        assert_eq!(
            lines(&[supplier, plant, fields], 30),
            [
                "Oar Bulbs, order by 2027-02-01:",
                "  variety     cost",
                "  Haaf Bell  54.00",
                "  Haaf Bell: 2 of 6 packs to",
                "    reach free postage.",
                "  goods 54.00, postage 0.00",
                "    (free from 50.00)",
                "",
                "The gate's advice: cull.",
                "  because: 0 of 8 stems lasted",
                "",
                "form      ball",
                "diameter  mean 98 mm of 12",
                "          blooms",
            ]
        );
    }
}
