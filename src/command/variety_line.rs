//! One variety in a line of an answer.

use super::Context;
use crate::form::sentences::percent;
use crate::form::traits::list_and;
use crate::variety::{Ranked, Variety};

/// One variety in a line: `Noust Ember: ball, 4 to 6 in across (size small); coral; fitness 82 %;
/// 3.1 from the colour`.
pub(super) fn line(variety: &Variety, one: &Ranked, context: &Context) -> String {
    let set = context.set();
    let form = variety.form_under(set);
    let name = form.map_or("form unknown", |form| set.forms[form].name.as_str());
    let size = match variety.size_under(set) {
        Some(size) => set.size_in_words(form, size, context.units),
        None => "size unknown".to_string(),
    };
    let mut said = vec![format!("{name}, {size}")];
    said.push(match colours(variety) {
        words if words.is_empty() => "colour unknown".to_string(),
        words => words,
    });
    said.extend(
        one.fitness
            .map(|fitness| format!("fitness {}", percent(fitness))),
    );
    said.extend(
        one.distance
            .map(|distance| format!("{distance:.1} from the colour")),
    );
    format!("{}: {}", variety.name.as_str(), said.join("; "))
}

fn colours(variety: &Variety) -> String {
    let words = variety.colours.iter().map(|note| note.colour.to_string());
    let mut words: Vec<String> = words.collect();
    words.dedup();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    list_and(&words)
}
