//! The grower's own list: varieties in the grower's order, no name twice.

use std::fmt;

use ron::ser::PrettyConfig;

use super::by_name::ByName;
use super::record::Variety;
use crate::colour::Vocabulary;
use crate::cores::in_spans;
use crate::form::RuleSet;
use crate::matching::{Finder, Folded, Query, folded};
use crate::problem::{Path, Problem, Wrong, read_ron};

/// A list of varieties; names are unique, case and accents apart.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Varieties {
    list: Vec<Variety>,
    by_name: ByName,
}

/// A name that the list has already.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NameTaken {
    /// The name as the list has it.
    pub name: String,
}

/// Fewer records than this are written before a thread has started.
const LEAST_A_THREAD: usize = 500;

/// A record with its place in a list.
type Placed = (usize, Variety);

impl Varieties {
    /// Reads a list from RON, or says everything that is wrong with it.
    pub fn read(file: &str, text: &str) -> Result<Varieties, Vec<Problem>> {
        let list: Vec<Variety> = read_ron(file, text).map_err(|problem| vec![problem])?;
        Varieties::of(list).map_err(|taken| Problem::all(file, text, taken))
    }

    /// The list of these varieties, in this order.
    ///
    /// # Errors
    /// Each name that comes again, with its place in the list.
    pub fn of(list: Vec<Variety>) -> Result<Varieties, Vec<Wrong>> {
        let mut by_name = ByName::with_room(list.len());
        let mut again = Vec::new();
        for at in 0..list.len() {
            if let Err(first) = by_name.add(at, &list) {
                let name = list[first].name.to_string();
                let place = Path::at(at).then("name");
                again.push(Wrong::new(place, NameTaken { name }.to_string()));
            }
        }
        match again[..] {
            [] => Ok(Varieties { list, by_name }),
            _ => Err(again),
        }
    }

    /// Writes the list as RON, one record a line, so that one change is one line of a difference. A
    /// long one is written on all cores.
    pub fn write(&self) -> Result<String, ron::Error> {
        let parts = in_spans(self.list.len(), LEAST_A_THREAD, |span| {
            records(&self.list[span])
        });
        let parts: Result<Vec<String>, _> = parts.into_iter().collect();
        Ok(format!("[\n{}]\n", parts?.concat()))
    }

    /// Every variety, in the grower's order.
    pub fn list(&self) -> &[Variety] {
        &self.list
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.list.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// The place of the variety with this name, case and accents apart.
    pub fn find(&self, name: &str) -> Option<usize> {
        self.by_name.find(name, &self.list)
    }

    /// The name of the list that one which is not in it finds best, of equals the shortest; `None` where
    /// it finds none.
    pub fn meant(&self, name: &str) -> Option<&str> {
        let query = Query::new(name);
        if query.words().is_empty() {
            return None;
        }
        let finder = Finder::of(&query);
        let ranked = self.list.iter().filter_map(|one| {
            let rank = finder.rank(&Folded::of(&one.name), "")?;
            Some((rank, one.name.len(), one.name.as_str()))
        });
        ranked.min().map(|(_, _, known)| known)
    }

    /// What was expected in place of a name that is not in the list, as a clause: with the name that
    /// may have been meant.
    pub fn expected(&self, name: &str) -> String {
        let clause = "the name of a variety of the list";
        match self.meant(name) {
            Some(meant) => format!("{clause}, perhaps {meant}"),
            None => clause.to_string(),
        }
    }

    /// How many varieties have each form of a rule set, by the form's index.
    pub fn form_counts(&self, rules: &RuleSet) -> Vec<usize> {
        let mut counts = vec![0; rules.forms.len()];
        for form in self
            .list
            .iter()
            .filter_map(|variety| variety.form_under(rules))
        {
            counts[form] += 1;
        }
        counts
    }

    /// Puts a variety at `index` (the end where it is past it).
    pub fn insert(&mut self, index: usize, variety: Variety) -> Result<(), NameTaken> {
        self.free(&variety, None)?;
        let index = index.min(self.list.len());
        self.list.insert(index, variety);
        if index + 1 == self.list.len() {
            // OK because the name is free.
            let _ = self.by_name.add(index, &self.list);
        } else {
            self.number();
        }
        Ok(())
    }

    /// Puts another record in the place of the one at `index` and gives that one back; `None`
    /// where there is no such place.
    pub fn replace(
        &mut self,
        index: usize,
        variety: Variety,
    ) -> Result<Option<Variety>, NameTaken> {
        self.free(&variety, Some(index))?;
        let Some(slot) = self.list.get_mut(index) else {
            return Ok(None);
        };
        let old = std::mem::replace(slot, variety);
        if old.name != slot.name {
            self.number();
        }
        Ok(Some(old))
    }

    /// Puts records in the place of those of the same name, keeps so many of the list and puts `added` behind
    /// them; gives back what undoes it. `None`, and no change, where a place is none or a name would be there
    /// twice.
    pub(super) fn swap(
        &mut self,
        mut replaced: Vec<Placed>,
        kept: usize,
        added: Vec<Variety>,
    ) -> Option<(Vec<Placed>, Vec<Variety>)> {
        let fits = |(at, new): &(usize, Variety)| *at < kept && self.find(&new.name) == Some(*at);
        let is_free = |new: &Variety| self.find(&new.name).is_none_or(|at| at >= kept);
        let mut names: Vec<String> = added.iter().map(|one| folded(&one.name)).collect();
        names.sort_unstable();
        names.dedup();
        let fits = kept <= self.list.len()
            && replaced.iter().all(fits)
            && added.iter().all(is_free)
            && names.len() == added.len();
        if !fits {
            return None;
        }
        let dropped = self.list.split_off(kept);
        for (at, record) in &mut replaced {
            std::mem::swap(record, &mut self.list[*at]);
        }
        self.list.extend(added);
        self.number();
        Some((replaced, dropped))
    }

    /// Takes the variety at `index` out; `None` where there is none.
    pub fn remove(&mut self, index: usize) -> Option<Variety> {
        let removed = (index < self.list.len()).then(|| self.list.remove(index))?;
        self.number();
        Some(removed)
    }

    /// The record at `index`, for an edit that leaves its name alone.
    pub(super) fn record_mut(&mut self, index: usize) -> Option<&mut Variety> {
        self.list.get_mut(index)
    }

    /// What in the list means nothing under these rules and words, one sentence each. The list is
    /// used all the same: what cannot be read counts as unknown.
    pub fn doubts(&self, rules: &RuleSet, words: &Vocabulary) -> Vec<String> {
        let mut doubts = Vec::new();
        for variety in &self.list {
            let mut doubt = |message: String| doubts.push(format!("{}: {message}", variety.name));
            if let Some(form) = variety
                .form
                .as_ref()
                .filter(|form| rules.find(&form.id).is_none())
            {
                doubt(format!(
                    "found the form {:?}, expected a form of {}",
                    form.id.as_str(),
                    rules.id
                ));
            }
            if let Err(error) = variety.answers(&rules.traits) {
                doubt(error.to_string());
            }
            let sizes: Vec<&str> = rules
                .size_words
                .iter()
                .map(|(word, _)| word.as_str())
                .collect();
            for (size, _) in variety.stated_sizes() {
                if !sizes.contains(&size.as_str()) {
                    doubt(format!(
                        "found the size {:?}, expected {}",
                        size.as_str(),
                        sizes.join(", ")
                    ));
                }
            }
            for note in &variety.colours {
                if let Err(error) = note.colour.target(words) {
                    doubt(error.to_string());
                }
            }
        }
        doubts
    }

    fn free(&self, variety: &Variety, but: Option<usize>) -> Result<(), NameTaken> {
        match self.find(&variety.name) {
            Some(index) if Some(index) != but => Err(NameTaken {
                name: self.list[index].name.to_string(),
            }),
            _ => Ok(()),
        }
    }

    fn number(&mut self) {
        self.by_name = ByName::with_room(self.list.len());
        for at in 0..self.list.len() {
            // OK because no name is there twice.
            let _ = self.by_name.add(at, &self.list);
        }
    }
}

fn records(list: &[Variety]) -> Result<String, ron::Error> {
    let options =
        ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
    let pretty = PrettyConfig::new().depth_limit(0);
    let mut text = String::new();
    for variety in list {
        text.push_str("  ");
        options.to_writer_pretty(&mut text, variety, pretty.clone())?;
        text.push_str(",\n");
    }
    Ok(text)
}

impl fmt::Display for NameTaken {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "found the name {:?} a second time, expected each name once, case and accents apart",
            self.name
        )
    }
}

impl std::error::Error for NameTaken {}

#[cfg(test)]
mod tests {
    use super::*;

    const TWO: &str = r#"[
  (name: "Haaf Test", form: (id: "ball", known: keyed), diameters: ["98mm", "3 7/8 in"], vase: (days: 7.5, stems: 6), weather: ["wind:3/12"], shortlist: ()),
  (name: "Ebb Test", offers: [(supplier: "Oar Bulbs", price: "4.50", pack: 3, closes: "2027-02-28")], protected: false),
]
"#;

    #[test]
    fn a_list_reads_back_as_it_was_written() {
        let list = Varieties::read("varieties.ron", TWO).expect("a list");
        let written = list.write().expect("writes");
        assert_eq!(written.lines().count(), 4, "{written}");
        assert_eq!(Varieties::read("varieties.ron", &written), Ok(list));
    }

    #[test]
    fn a_slip_in_a_name_is_told_with_the_name_that_was_meant() {
        let text = r#"[(name: "Haaf Kettle"), (name: "Tangle Raven"), (name: "Ebb Ember")]"#;
        let list = Varieties::read("varieties.ron", text).expect("a list");
        for (typed, meant) in [
            ("Haaf Ketle", Some("Haaf Kettle")),
            ("tngle raven", Some("Tangle Raven")),
            ("Ebb Ebmer", Some("Ebb Ember")),
            ("Skerry Lantern", None),
            ("", None),
        ] {
            assert_eq!(list.meant(typed), meant, "{typed}");
        }
    }

    #[test]
    fn a_name_is_there_once_case_and_accents_apart() {
        let text = TWO.replace("Ebb Test", "HÁAF test");
        let problems = Varieties::read("varieties.ron", &text).expect_err("a name twice");
        assert_eq!(
            problems[0].to_string(),
            "varieties.ron, line 3, column 10: found the name \"Haaf Test\" a second time, expected each name once, case and accents apart"
        );
    }

    #[test]
    fn a_wrong_field_is_told_with_its_place_and_what_was_expected() {
        for (bad, told) in [
            (TWO.replace("stems: 6", "stem: 6"), "line 2"),
            (TWO.replace("4.50", "four"), "expected an amount"),
            (TWO.replace("pack: 3", "pack: 0"), "line 3"),
            (TWO.replace("keyed", "known"), "keyed"),
            (TWO.replace("98mm", "0mm"), "over 0"),
            (TWO.replace("7.5", "-1"), "over 0"),
            (TWO.replace("Ebb", "\\u{1b}Ebb"), "control character"),
        ] {
            let problems = Varieties::read("varieties.ron", &bad).expect_err(told);
            assert!(problems[0].to_string().contains(told), "{}", problems[0]);
        }
    }

    #[test]
    fn edits_keep_names_findable() {
        let mut list = Varieties::read("varieties.ron", TWO).expect("a list");
        let taken = list.list()[0].clone();
        assert!(list.replace(1, taken.clone()).is_err());
        assert_eq!(list.replace(0, taken.clone()), Ok(Some(taken.clone())));
        assert_eq!(list.remove(0), Some(taken.clone()));
        assert_eq!(
            (list.find("ebb test"), list.find("haaf test")),
            (Some(0), None)
        );
        assert_eq!(list.insert(0, taken), Ok(()));
        assert_eq!((list.find("EBB TEST"), list.remove(2)), (Some(1), None));
    }
}
