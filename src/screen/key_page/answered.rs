//! What answers rule out, in words.

use super::KeyPage;
use crate::form::Likely;
pub(super) use crate::form::words::answer_words;

/// What the rules say of a form as the answers stand: it fits, or what rules it out.
pub(super) fn why_words(page: &KeyPage, likely: &Likely) -> String {
    let by = page
        .reading
        .ruled_out
        .iter()
        .find(|(form, _)| *form == likely.form);
    let Some((_, by)) = by else {
        return "fits".to_string();
    };
    let told = by.iter().map(|index| {
        let one = page.trait_at(*index);
        let answer = page.answers.get(*index);
        let words = answer.map_or(String::new(), |answer| {
            answer_words(one, answer, page.units)
        });
        format!("{} {words}", one.id)
    });
    format!("not with {}", told.collect::<Vec<_>>().join(", "))
}
