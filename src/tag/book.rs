//! A look-book: plants by colour, each drawn in its colours, for a customer to leaf through.

use super::about::About;
use super::bloom::Blooms;
use super::flow::Flow;
use super::poster::{Poster, PosterError};
use super::says::{Says, by_colour};
use crate::account::text::capitalised;
use crate::colour::{Family, Vocabulary};
use crate::draw::{Paint, View};
use crate::paper::{Item, Page, Paper, Style};

/// Cells side by side and one below the other on a page.
const ACROSS: usize = 3;
const DOWN: usize = 4;
/// The side of a drawing, in mm.
const SIDE: f64 = 28.0;
const TELLS: [About; 5] = [
    About::Form,
    About::Colour,
    About::Size,
    About::Uses,
    About::Vase,
];
/// Sizes of letters that are tried, in points.
const SIZES: [f64; 7] = [8.0, 7.5, 7.25, 7.0, 6.5, 6.0, 5.5];

/// The book of these plants on this paper, from white to dark by the family of the main colour and
/// in each from light to deep; those of unknown colour last.
///
/// # Errors
/// [`PosterError`] where a name cannot be set or what is told does not fit.
pub fn book(
    title: &str,
    plants: &[Says],
    words: &Vocabulary,
    paper: &Paper,
) -> Result<Vec<Page>, PosterError> {
    let plants = plants.iter().map(|says| (says.family(words), says));
    let mut plants: Vec<(Option<Family>, &Says)> = plants.collect();
    plants.sort_by(|a, b| by_colour((a.1, a.0), (b.1, b.0)));
    let poster = Poster {
        title: title.to_string(),
        note: "A colour that was measured has the nearest name of the ISCC-NBS system. A printer \
               shows a colour only nearly."
            .to_string(),
        once: true,
    };
    let mut blooms = Blooms::default();
    poster.grid(
        paper,
        (ACROSS, DOWN),
        plants.len(),
        &SIZES,
        |at, width, points| {
            let (family, says) = plants[at];
            // The family is told where it begins, on every page anew.
            let new = at % (ACROSS * DOWN) == 0 || plants[at - 1].0 != family;
            let heading = new.then(|| family.map_or("colour unknown", Family::word));
            cell(says, heading, width, points, &mut blooms)
        },
    )
}

fn cell(
    says: &Says,
    heading: Option<&str>,
    width: f64,
    points: f64,
    blooms: &mut Blooms,
) -> Result<(Vec<Item>, f64), PosterError> {
    let mut flow = Flow::new(0.0, 0.0, width);
    let family = Style::bold(9.0);
    match heading {
        Some(heading) => flow.say(&capitalised(heading), family)?,
        None => flow.gap(family.line()),
    }
    flow.gap(1.0);
    let drawing = says.bloom.as_ref().map(|bloom| {
        let paint = Paint::of(&says.colours);
        blooms.drawing(bloom, &paint, View::Face, SIDE, (0.0, flow.y))
    });
    flow.gap(SIDE + 1.5);
    flow.say(&says.title, Style::bold(points + 3.0))?;
    for fact in says.about(&TELLS) {
        flow.say(&capitalised(&fact.text), Style::regular(points))?;
    }
    let mut items = flow.items;
    items.extend(drawing.map(Item::from));
    Ok((items, flow.y))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tag::says::tests::said;

    #[test]
    fn plants_stand_by_colour_and_those_of_unknown_colour_last() {
        let plants = ["Foam Bare", "Ebb Guess", "Haaf Bobbin"].map(said);
        let paper = Paper::named("a4").expect("a paper");
        let pages = book("Shortlist", &plants, &Vocabulary::embedded(), &paper).expect("pages");
        assert_eq!(pages.len(), 1);
        assert_eq!(pages[0].strays().count(), 0);
        let lines = pages[0].lines().map(|line| line.text.as_str());
        let names: Vec<&str> = lines.filter(|line| line.starts_with('\u{2018}')).collect();
        assert_eq!(
            names,
            [
                "\u{2018}Haaf Bobbin\u{2019}",
                "\u{2018}Ebb Guess\u{2019}",
                "\u{2018}Foam Bare\u{2019}"
            ]
        );
    }

    #[test]
    fn pages_of_a_book_are_numbered_and_its_note_is_told_once() {
        let plants: Vec<Says> = std::iter::repeat_with(|| said("Haaf Bobbin"))
            .take(2 * ACROSS * DOWN)
            .collect();
        let paper = Paper::named("a4").expect("a paper");
        let pages = book("Shortlist", &plants, &Vocabulary::embedded(), &paper).expect("pages");
        let has =
            |page: &Page, told: &str| page.lines().any(|line| line.text.as_str().contains(told));
        assert!(has(&pages[0], "1 of 2") && has(&pages[1], "2 of 2"));
        assert!(has(&pages[0], "ISCC-NBS") && !has(&pages[1], "ISCC-NBS"));
    }
}
