//! The column of answers: what was given, where the cursor is, and what comes next.

use super::answered::answer_words;
use super::{At, KeyPage};
use crate::screen::kit::part::about;
use crate::screen::kit::text::{Row, fit, paragraph, width};
use crate::screen::theme::Role;

/// From this many columns on the answers stand under each other.
const ALIGNED: usize = 24;

/// The answers in the order given, then the next question; `height` rows around the cursor.
pub(super) fn rows(page: &KeyPage, columns: usize, height: usize) -> Vec<Row> {
    let mut list = Vec::new();
    let mut cursor = 0;
    for (index, answer) in page.answers.iter() {
        let here = matches!(page.at, At::Chosen { index: chosen, .. } if chosen == index);
        if here {
            cursor = list.len();
        }
        let one = page.trait_at(index);
        let doubtful = page.suspect().is_some_and(|suspect| suspect.index == index);
        let mark = match (here, doubtful) {
            (true, _) => "> ",
            (false, true) => "? ",
            (false, false) => "  ",
        };
        let twice = if page.answers.looks(index).count() > 1 {
            " (again)"
        } else {
            ""
        };
        let words = format!("{}{twice}", answer_words(one, answer, page.units));
        let name = match columns {
            ALIGNED.. => format!("{:<8} ", one.id),
            _ => format!("{} ", one.id),
        };
        let lead =
            Row::of(mark, if doubtful { Role::Doubt } else { Role::Key }).with(&name, Role::Quiet);
        let room = columns.saturating_sub(lead.width());
        // An answer that has no room beside its name goes below it.
        let rows = if width(&words) <= room {
            vec![lead.with(fit(&words, room), Role::Strong)]
        } else {
            let mut rows = vec![lead.with(" ".repeat(room), Role::Plain)];
            rows.extend(paragraph(
                ("    ", Role::Plain),
                &words,
                Role::Strong,
                columns,
            ));
            rows
        };
        list.extend(rows.into_iter().map(|row| row.in_list(here)));
    }
    let not_given = page
        .asked()
        .filter(|index| page.answers.get(*index).is_none());
    if page.at == At::Next || not_given.is_some() {
        cursor = list.len();
        let row = match not_given {
            Some(index) => Row::of("> ", Role::Key)
                .with(page.trait_at(index).id.clone(), Role::Strong)
                .with(" ?", Role::Strong),
            None => Row::of("> ", Role::Key).with("all asked", Role::Quiet),
        };
        list.push(row);
    } else {
        list.push(Row::of("  go on: Down", Role::Quiet));
    }
    about(list, cursor, height)
}
