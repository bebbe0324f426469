//! What a change of rule set means for the list: which varieties have another form under it.

use super::list::Varieties;
use super::record::Variety;
use crate::form::RuleSet;
use crate::form::compare::Comparison;

/// A variety that has, or may have, another form under the second set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rekeyed {
    /// Its place in the list.
    pub row: usize,
    /// Its form under the first set.
    pub from: usize,
    /// The forms that it can have under the second: one where that is sure.
    pub to: Vec<usize>,
    /// Whether its own recorded bloom says so, not the form alone.
    pub by_bloom: bool,
}

/// The varieties whose form changes its id between two sets, or may. A recorded bloom is keyed
/// anew; without one, a variety can go wherever blooms of its form go. One whose form is unknown
/// is left out.
pub fn rekeyed(
    list: &Varieties,
    first: &RuleSet,
    second: &RuleSet,
    comparison: &Comparison,
) -> Vec<Rekeyed> {
    let one = |(row, variety): (usize, &Variety)| {
        let from = variety.form_under(first)?;
        let bloom = variety
            .bloom
            .as_ref()
            .and_then(|_| variety.answers(&second.traits).ok());
        let (to, by_bloom) = match bloom {
            Some(answers) => (second.verdict(&answers).possible, true),
            None => {
                let pairs = comparison.pairs.iter().filter(|pair| pair.from == from);
                (pairs.map(|pair| pair.to).collect(), false)
            }
        };
        let same = |to: &usize| second.forms[*to].id == first.forms[from].id;
        (!to.is_empty() && !to.iter().all(same)).then_some(Rekeyed {
            row,
            from,
            to,
            by_bloom,
        })
    };
    list.list().iter().enumerate().filter_map(one).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::Traits;
    use crate::variety::{FormKnown, FormNote, Text};

    #[test]
    fn an_edited_limit_moves_the_varieties_between_the_old_and_the_new() {
        let [(file, text), _] = RuleSet::embedded_files();
        let traits = Traits::embedded();
        let old = RuleSet::read(file, text, &traits).expect("embedded");
        let edited = text.replace("\"cactus-roll\": \"50 %\"", "\"cactus-roll\": \"60 %\"");
        let new = RuleSet::read(file, &edited, &traits).expect("edited");
        let text = |text: &str| Text::new(text).expect(text);
        let mut list = Varieties::default();
        for (name, bloom) in [
            ("Ebb Gutter", Some(55)),
            ("Ebb Ridge", Some(80)),
            ("Ebb Slate", None),
        ] {
            let mut variety = Variety::named(text(name));
            variety.form = Some(FormNote {
                id: text("straight-cactus"),
                known: FormKnown::Stated,
                by: None,
            });
            variety.bloom = bloom.map(|rolled| {
                let words =
                    format!("centre=closed tip=pointed roll=back rolled={rolled} line=straight");
                text(&words).into()
            });
            list.insert(list.len(), variety).expect("a new name");
        }
        let comparison = old.compare(&new).expect("one table");
        let found = rekeyed(&list, &old, &new, &comparison);
        let told: Vec<_> = found
            .iter()
            .map(|one| (one.row, one.to.len(), one.by_bloom))
            .collect();
        // Without a diameter the first may be the micro form too; the second stays a cactus of
        // either size; the third may go either way.
        assert_eq!(told, [(0, 2, true), (1, 2, true), (2, 2, false)]);
        let semi = new.find("semi-cactus").expect("semi-cactus");
        assert!(
            found[0].to.contains(&semi)
                && !found[1].to.contains(&semi)
                && found[2].to.contains(&semi)
        );
    }
}
