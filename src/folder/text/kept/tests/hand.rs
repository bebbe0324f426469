//! Texts as a person may write them, with a comment in every place.

use std::collections::BTreeMap;

use fastrand::Rng;

use super::garden::{Bed, Garden, Kind};

/// A comment of a drawn text.
#[derive(Debug)]
pub(super) struct Remark {
    pub(super) text: String,
    /// The brackets that it stands in, from the outermost: each the way to a value.
    pub(super) within: String,
    /// The ways to the values before and behind it there.
    pub(super) between: [Option<String>; 2],
}

/// A text that is being drawn.
pub(super) struct Hand {
    pub(super) text: String,
    pub(super) remarks: Vec<Remark>,
    /// Each value of a field or of a list of records: the way to it and its text.
    pub(super) values: Vec<(String, String)>,
    dice: Rng,
    newline: &'static str,
}

impl Hand {
    /// Writes a value in some way.
    pub(super) fn write(garden: &Garden, seed: u64) -> Hand {
        let mut dice = Rng::with_seed(seed);
        let newline = if dice.u8(..4) == 0 { "\r\n" } else { "\n" };
        let mut hand = Hand {
            text: String::new(),
            remarks: Vec::new(),
            values: Vec::new(),
            dice,
            newline,
        };
        hand.gap("", [None, None]);
        if hand.one_in(4) {
            hand.text += "#![enable(implicit_some)]";
            hand.text += newline;
        }
        let words = if hand.one_in(4) { "terms" } else { "words" };
        let mut fields = vec![
            ("title", Some(hand.quoted(&garden.title))),
            (
                "money",
                hand.some(garden.money.map(|money| money.to_string())),
            ),
            (
                "weeks",
                Some(format!("({}, {})", garden.weeks.0, garden.weeks.1)),
            ),
            (words, hand.list(&garden.words)),
            ("prices", hand.table(&garden.prices)),
            ("beds", None),
        ];
        if garden.only || hand.dice.bool() {
            fields.push(("only", Some(garden.only.to_string())));
        }
        fields.retain(|(name, text)| *name == "beds" || text.is_some());
        hand.dice.shuffle(&mut fields);
        let items = fields.into_iter();
        let items: Vec<(String, Item<'_>)> = items
            .map(|(name, text)| match text {
                None => (format!("{name}: "), Item::Beds(&garden.beds)),
                Some(text) => (format!("{name}: "), Item::Text(text)),
            })
            .collect();
        hand.row("", ["(", ")"], items);
        hand.gap("", [None, None]);
        hand
    }

    fn one_in(&mut self, of: u8) -> bool {
        self.dice.u8(..of) == 0
    }

    fn quoted(&mut self, text: &str) -> String {
        match self.one_in(3) {
            true => format!("r#\"{text}\"#"),
            false => format!("{text:?}"),
        }
    }

    fn some(&mut self, text: Option<String>) -> Option<String> {
        match text {
            None => self.one_in(3).then(|| "None".to_string()),
            Some(text) if self.one_in(3) => Some(format!("Some( {text} /* in some */ )")),
            text => text,
        }
    }

    fn list(&mut self, words: &[String]) -> Option<String> {
        let words: Vec<String> = words.iter().map(|word| self.quoted(word)).collect();
        let comma = if self.dice.bool() && !words.is_empty() {
            ","
        } else {
            ""
        };
        let shown = format!("[{}{comma}]", words.join(", "));
        (!words.is_empty() || self.one_in(3)).then_some(shown)
    }

    fn table(&mut self, prices: &BTreeMap<String, u32>) -> Option<String> {
        let prices = prices
            .iter()
            .map(|(word, price)| format!("{}: {price}", self.quoted(word)));
        let prices: Vec<String> = prices.collect();
        (!prices.is_empty() || self.one_in(3)).then(|| format!("{{{}}}", prices.join(", ")))
    }

    /// Values between two brackets, with gaps about them.
    fn row(&mut self, way: &str, brackets: [&str; 2], items: Vec<(String, Item<'_>)>) {
        self.text += brackets[0];
        let ways: Vec<String> = items
            .iter()
            .map(|(name, item)| match item {
                Item::Bed(bed) => format!("{way}/{}", bed.name),
                _ => format!("{way}/{}", name.trim_end_matches(": ")),
            })
            .collect();
        let count = items.len();
        for (at, (name, item)) in items.into_iter().enumerate() {
            let before = at.checked_sub(1).map(|at| ways[at].clone());
            self.gap(way, [before, Some(ways[at].clone())]);
            let start = self.text.len();
            self.text += &name;
            match item {
                Item::Text(text) => self.text += &text,
                Item::Beds(beds) => {
                    let beds = beds.iter().map(|bed| (String::new(), Item::Bed(bed)));
                    self.row(&ways[at], ["[", "]"], beds.collect());
                }
                Item::Bed(bed) => self.bed(&ways[at], bed),
            }
            self.values
                .push((ways[at].clone(), self.text[start..].to_string()));
            if self.one_in(5) {
                self.text += " /* before the comma */ ";
            }
            if at + 1 < count || self.dice.bool() {
                self.text += ",";
            }
        }
        self.gap(way, [ways.last().cloned(), None]);
        self.text += brackets[1];
    }

    fn bed(&mut self, way: &str, bed: &Bed) {
        let kind = bed.kind.map(|kind| match kind {
            Kind::Ball => "Ball".to_string(),
            Kind::Rows(first, second) => format!("Rows({first} , {second})"),
        });
        let mut fields = vec![
            ("name", Some(self.quoted(&bed.name))),
            ("rows", self.some(bed.rows.map(|rows| rows.to_string()))),
            ("colours", self.list(&bed.colours)),
            ("kind", self.some(kind)),
        ];
        let length = bed.length.clone().map(|length| self.quoted(&length));
        fields.push(("length", self.some(length)));
        fields.retain(|(_, text)| text.is_some());
        self.dice.shuffle(&mut fields);
        let open = if self.one_in(4) { "Bed(" } else { "(" };
        let fields = fields.into_iter();
        let items =
            fields.map(|(name, text)| (format!("{name}: "), Item::Text(text.unwrap_or_default())));
        self.row(way, [open, ")"], items.collect());
    }

    /// Blanks and comments.
    fn gap(&mut self, within: &str, between: [Option<String>; 2]) {
        for _ in 0..self.dice.usize(..4) {
            let (newline, number) = (self.newline, self.remarks.len());
            let text = match self.dice.u8(..6) {
                0 => format!("// remark {number}, (\""),
                1 => format!("/* remark {number}, /* ) */ */"),
                2 => {
                    self.text += newline;
                    self.text += "  ";
                    continue;
                }
                3 => {
                    self.text += newline;
                    continue;
                }
                _ => {
                    self.text += " ";
                    continue;
                }
            };
            self.text += &text;
            if text.starts_with("//") {
                self.text += newline;
            }
            self.remarks.push(Remark {
                text,
                within: within.to_string(),
                between: between.clone(),
            });
        }
    }
}

enum Item<'a> {
    Text(String),
    Beds(&'a [Bed]),
    Bed(&'a Bed),
}
