//! Making the tags: the kind and the sheet, labels and refusals, and the file to be written.

use super::by_book::FOR_SALE;
use super::{Content, Of, Printing, TagsPage};
use crate::account::text::{capitalised, counted, plural};
use crate::screen::Effect;
use crate::screen::kit::line::Line;
use crate::stock::Stock;
use crate::tag::{self, ClaimSources, Label, Printer, Refused, Run, Says, labels_in};
use crate::trial::Subject;

impl TagsPage {
    pub(super) fn choose_kind(&mut self, digit: char) {
        let place = digit.to_digit(10).unwrap_or(0) as usize;
        let count = self.supply.stock.kinds.len();
        match place {
            place if (1..=count).contains(&place) => {
                self.kind = place - 1;
                self.placing.from = 1;
                self.labels.clear();
            }
            _ => self.say(format!("There is no kind {place}: 1 to {count}.")),
        }
    }

    pub(super) fn next_sheet(&mut self) {
        let (Some(kind), Some(sheet)) = (self.kind(), self.sheet()) else {
            return;
        };
        let own = self.supply.stock.sheets.iter();
        let own: Vec<&str> = own
            .filter(|one| one.kind == kind.id)
            .map(|one| one.id.as_str())
            .collect();
        let here = own.iter().position(|id| *id == sheet.id).unwrap_or(0);
        let next = own.get((here + 1) % own.len().max(1)).copied();
        if let Some(next) = next {
            self.sheets.insert(kind.id.clone(), next.to_string());
            self.placing.from = 1;
            self.labels.clear();
        }
    }

    /// Works out what is not known yet: what is said of those to be printed and of the one under
    /// the cursor, and their labels.
    pub(in crate::screen) fn make(&mut self, grounds: &ClaimSources<'_>) {
        let wanted = self.targets().into_iter().chain(self.subject());
        let wanted: Vec<Subject> = wanted
            .filter(|subject| !self.labels.contains_key(subject))
            .cloned()
            .collect();
        let new = wanted.iter().filter(|one| !self.said.contains_key(one));
        let new: Vec<Subject> = new.cloned().collect();
        let said = grounds.of_all(&new);
        self.said.extend(new.into_iter().zip(said));
        let says: Vec<Says> = wanted
            .iter()
            .filter_map(|subject| self.said.get(subject).cloned())
            .collect();
        let labels = self.labels_of(&says);
        self.labels.extend(wanted.into_iter().zip(labels));
    }

    fn labels_of(&self, says: &[Says]) -> Vec<Result<Label, Refused>> {
        let (Some(kind), Some(sheet)) = (self.kind(), self.sheet()) else {
            return Vec::new();
        };
        let printer = Printer::new(&self.supply.stock, kind, sheet, self.coloured);
        match printer.map(|printer| printer.with_numbers(self.copies.numbered)) {
            Ok(printer) => printer.labels(says),
            Err(why) => {
                let refused = |says: &Says| Refused {
                    subject: says.subject.clone(),
                    why: why.clone(),
                };
                says.iter().map(|says| Err(refused(says))).collect()
            }
        }
    }

    /// How many labels are printed of what was asked for.
    pub(super) fn count(&self) -> usize {
        let made = |subject: &&Subject| self.labels.get(*subject).is_some_and(Result::is_ok);
        let made = self.targets().into_iter().filter(made);
        // No more than a thousand plants are picked, and no more copies than fit a figure.
        made.map(|subject| self.copies_of(subject) as usize).sum()
    }

    /// What is not printed of what was asked for, and why.
    pub(super) fn refused(&self) -> Vec<&Refused> {
        let of = |subject| self.labels.get(subject)?.as_ref().err();
        self.targets().into_iter().filter_map(of).collect()
    }

    /// What is printed of what was asked for and wants asking about before it is sold, and what to ask.
    pub(super) fn warned(&self) -> Vec<(&Subject, &str)> {
        if !self.kind().is_some_and(|kind| kind.sold) {
            return Vec::new();
        }
        let of = |subject| {
            self.labels.get(subject)?.as_ref().ok()?;
            Some((subject, self.said.get(subject)?.warned.as_deref()?))
        };
        self.targets().into_iter().filter_map(of).collect()
    }

    /// `; 1 refused, protection of 2 not known (r)`; empty where there is neither.
    pub(super) fn left_out(&self) -> String {
        let refused = match self.refused().len() {
            0 => None,
            count => Some(format!("{count} refused")),
        };
        let warned = match self.warned().len() {
            0 => None,
            count => Some(format!("protection of {count} not known")),
        };
        let told: Vec<String> = refused.into_iter().chain(warned).collect();
        match told.is_empty() {
            true => String::new(),
            false => format!("; {} (r)", told.join(", ")),
        }
    }

    /// The name of a file for what is printed.
    pub(super) fn usual_name(&self, of: &Of) -> String {
        let kind = self
            .kind()
            .map_or("tags".to_string(), |kind| plural(&kind.says));
        let kind = kind.replace(' ', "-");
        match of {
            Of::TestPage => format!("{kind}-test.pdf"),
            Of::Prices(_) => "prices.pdf".to_string(),
            _ => format!("{kind}.pdf"),
        }
    }

    /// Asks the edge for the file, or says why there is nothing to write.
    ///
    /// # Errors
    /// In a sentence: what is wrong with the name, or why nothing is printed.
    pub(super) fn print(
        &mut self,
        line: &Line<Of>,
        grounds: &ClaimSources<'_>,
        book: &Stock,
    ) -> Result<Effect, String> {
        self.make(grounds);
        let name = line.text().trim();
        let ending = name.rsplit_once('.').filter(|(stem, _)| !stem.is_empty());
        let ending = ending.map(|(_, ending)| ending.to_ascii_lowercase());
        let (content, told) = match (&line.of, ending.as_deref()) {
            (Of::TestPage, Some("pdf" | "svg")) => self.test_page()?,
            (Of::TestPage, _) => {
                return Err(format!(
                    "found {name:?}, expected a name that ends in .pdf or .svg"
                ));
            }
            (Of::Prices(order), Some(ending @ ("pdf" | "svg" | "csv"))) => {
                self.price_list(ending, *order, grounds, book)?
            }
            (Of::Prices(_), _) => {
                return Err(format!(
                    "found {name:?}, expected a name that ends in .pdf, .svg or .csv"
                ));
            }
            (_, Some(ending @ ("pdf" | "svg" | "csv" | "txt"))) => self.tags(ending)?,
            _ => {
                return Err(format!(
                    "found {name:?}, expected a name that ends in .pdf, .svg, .csv or .txt"
                ));
            }
        };
        let title = match line.of {
            Of::Prices(_) => Some(FOR_SALE.to_string()),
            _ => self.kind().map(|kind| capitalised(&plural(&kind.says))),
        };
        self.pending = Some(Printing {
            name: name.to_string(),
            // Given again after it failed: the grower insists.
            replace: line.problem().is_some(),
            title: title.unwrap_or_default(),
            content,
            told,
        });
        Ok(Effect::PrintTags)
    }

    fn test_page(&self) -> Result<(Content, String), String> {
        let (Some(kind), Some(sheet)) = (self.kind(), self.sheet()) else {
            return Err("the stock has no kind of tag".to_string());
        };
        let page =
            tag::test_page(sheet, kind, self.placing.offset).map_err(|error| error.to_string())?;
        let told = "a page to align the sheet by: print it at 100 %, hold it against the labels, \
                    and give with o what is amiss";
        Ok((Content::Pages(vec![page]), told.to_string()))
    }

    fn tags(&self, ending: &str) -> Result<(Content, String), String> {
        let (Some(kind), Some(sheet)) = (self.kind(), self.sheet()) else {
            return Err("the stock has no kind of tag".to_string());
        };
        let made = |subject: &Subject| {
            let label = self.labels.get(subject)?.as_ref().ok()?;
            Some((self.said.get(subject)?, label))
        };
        let made: Vec<(&Says, &Label)> = self.targets().into_iter().filter_map(made).collect();
        if made.is_empty() {
            return Err(match &self.refused()[..] {
                [] => "there is nothing to tag".to_string(),
                [one] => format!("no {} for {one}", kind.says),
                [one, rest @ ..] => {
                    format!("no {} for {one}; and {} more (r)", kind.says, rest.len())
                }
            });
        }
        let copies = |subject: &Subject| self.copies_of(subject);
        let labels = labels_in(made.iter().map(|(says, _)| copies(&says.subject)))?;
        let mut told = counted(labels, &kind.says);
        let says = made.iter().map(|(says, _)| (*says, copies(&says.subject)));
        let content = match ending {
            "csv" => Content::Table(tag::table(says, kind, self.copies.numbered)),
            "txt" => Content::Text(tag::text(says, kind)),
            _ => {
                let run = |(says, label): &(&Says, &Label)| Run {
                    label: (*label).clone(),
                    copies: copies(&says.subject),
                };
                let runs: Vec<Run> = made.iter().map(run).collect();
                let pages = tag::pages(sheet, kind, &runs, self.placing);
                let pages = pages.map_err(|error| error.to_string())?;
                told += &format!(" on {}", counted(pages.len(), "page"));
                Content::Pages(pages)
            }
        };
        told += &self.left_out();
        Ok((content, told))
    }

    /// What the edge is asked to write.
    pub fn pending(&self) -> Option<&Printing> {
        self.pending.as_ref()
    }

    /// It is written.
    pub(in crate::screen) fn printed(&mut self) {
        if let Some(printing) = self.pending.take() {
            self.line = None;
            self.say(format!("Wrote {}: {}.", printing.name, printing.told));
        }
    }

    /// It is not, and why: the line stays, and giving it again insists.
    pub(in crate::screen) fn not_printed(&mut self, why: String) {
        self.pending = None;
        if let Some(line) = &mut self.line {
            line.refuse(why);
        }
    }
}

#[cfg(test)]
mod tests;
