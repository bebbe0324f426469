//! The seventeen shapes as pictures: told from each other on a tag and in a terminal, and put on a
//! sheet to be looked at.

mod answer;
mod cells;
mod colour;

use std::f64::consts::PI;
use std::path::Path;

use kurbo::Affine;
use trug::colour::{Lab, Part, Pattern};
use trug::draw::{Bloom, Characters, Drawing, Grid, Paint, Picture, View};
use trug::form::{Answers, RuleSet};
use trug::paper::{self, Lettering, Page, svg};

/// 20 mm at 200 dots to the inch.
const TAG: u32 = 157;
/// Turns that are tried for the best fit.
const TURNS: usize = 40;

/// The first form of each shape, by name, with its drawing from the front.
fn shapes(paint: &Paint) -> Vec<(String, Drawing)> {
    let set = &RuleSet::embedded()[0];
    let drawn = |shape: usize| {
        let form = set
            .forms
            .iter()
            .position(|form| form.shape == shape)
            .expect("a form");
        let bloom = Bloom::of_form(set, form, &Answers::default());
        (
            set.shapes[shape].id.clone(),
            Drawing::of(&bloom, paint, View::Face),
        )
    };
    (0..set.shapes.len()).map(drawn).collect()
}

fn turned(drawing: &Drawing, by: f64) -> Drawing {
    let mut turned = drawing.clone();
    for patch in &mut turned.patches {
        patch.outline.path.apply_affine(Affine::rotate(by));
    }
    turned
}

/// Black and white as a label printer has it: every pixel one or the other.
fn on_a_tag(drawing: &Drawing) -> Vec<bool> {
    let picture = Picture::of(drawing, TAG, 1.0);
    picture
        .pixels
        .iter()
        .map(|pixel| grey(*pixel) < 0.5)
        .collect()
}

/// Luma of a pixel on white paper, 0 (black) to 1 (white): ITU-R BT.709 weights over the
/// gamma-encoded channels.
fn grey(pixel: [u8; 4]) -> f64 {
    let [r, g, b, opacity] = pixel.map(|channel| f64::from(channel) / 255.0);
    let luma = 0.2126 * r + 0.7152 * g + 0.0722 * b;
    opacity * luma + 1.0 - opacity
}

/// The dots of a grid of 24 by 12 cells, lit or not.
fn in_a_terminal(drawing: &Drawing) -> Vec<bool> {
    let grid = Grid::of(drawing, 24, 12, Characters::Braille, None);
    // Unicode, Braille Patterns, U+2800 to U+28FF: dots 1, 2, 3, 7 down the left, 4, 5, 6, 8 down
    // the right; dot n is bit n - 1.
    let bit = |x: usize, y: usize| [[0, 1, 2, 6], [3, 4, 5, 7]][x][y];
    let lit = |at: usize| {
        let (x, y) = (at % 48, at / 48);
        let symbol = grid.cells[y / 4 * 24 + x / 2].symbol;
        let dots = u32::from(symbol).saturating_sub(0x2800);
        dots >> bit(x % 2, y % 4) & 1 == 1
    };
    (0..48 * 48).map(lit).collect()
}

/// What the eye keeps of a picture a step away: the mean over squares of `of` pixels a side.
fn blurred(picture: &[bool], of: usize) -> Vec<f64> {
    let lit: Vec<f64> = picture
        .iter()
        .map(|dot| f64::from(u8::from(*dot)))
        .collect();
    blurred_shades(&lit, of)
}

/// The same of a picture in shades.
fn blurred_shades(picture: &[f64], of: usize) -> Vec<f64> {
    let side = picture.len().isqrt();
    let squares = side / of;
    let mean = |at: usize| {
        let (left, top) = (at % squares * of, at / squares * of);
        let all = (0..of).flat_map(|y| (0..of).map(move |x| (x, y)));
        let sum: f64 = all.map(|(x, y)| picture[(top + y) * side + left + x]).sum();
        sum / (of * of) as f64
    };
    (0..squares * squares).map(mean).collect()
}

/// The mean difference of two pictures over the circle, 0 to 1.
fn difference(one: &[f64], other: &[f64]) -> f64 {
    let sum: f64 = one.iter().zip(other).map(|(a, b)| (a - b).abs()).sum();
    sum / (one.len() as f64 * PI / 4.0)
}

/// Compares every shape, turned by an odd angle, with every shape at the turn that fits best:
/// `[turned][other]`.
fn table(paint: &Paint, see: impl Fn(&Drawing) -> Vec<f64>) -> (Vec<String>, Vec<Vec<f64>>) {
    let shapes = shapes(paint);
    let step = 2.0 * PI / TURNS as f64;
    let all_turns = |drawing: &Drawing| -> Vec<Vec<f64>> {
        (0..TURNS)
            .map(|turn| see(&turned(drawing, turn as f64 * step)))
            .collect()
    };
    let known: Vec<_> = shapes
        .iter()
        .map(|(_, drawing)| all_turns(drawing))
        .collect();
    let row = |(_, drawing): &(String, Drawing)| -> Vec<f64> {
        // Between two of the turns tried.
        let seen = see(&turned(drawing, 3.2 * step));
        let best = |turns: &Vec<Vec<f64>>| {
            let all = turns.iter().map(|other| difference(&seen, other));
            all.fold(f64::INFINITY, f64::min)
        };
        known.iter().map(best).collect()
    };
    let rows = shapes.iter().map(row).collect();
    (shapes.into_iter().map(|(name, _)| name).collect(), rows)
}

/// Each shape must be further from every other than `floor`, and than `times` its distance from
/// itself at another turn.
fn told_apart(see: impl Fn(&Drawing) -> Vec<f64>, floor: f64, times: f64) {
    told_apart_in(&Paint::plain(), see, (floor, times));
}

/// The same of shapes in these colours.
fn told_apart_in(paint: &Paint, see: impl Fn(&Drawing) -> Vec<f64>, (floor, times): (f64, f64)) {
    let (least, least_ratio) = measured(paint, see);
    assert!(least.0 >= floor, "{least:?}");
    assert!(least_ratio.0 >= times, "{least_ratio:?}");
}

/// The least distance of two shapes, and the least of one from another by its own from itself at
/// another turn; each with the pair.
fn measured(paint: &Paint, see: impl Fn(&Drawing) -> Vec<f64>) -> ((f64, String), (f64, String)) {
    let (names, rows) = table(paint, see);
    assert_eq!(names.len(), 17);
    let mut least = (f64::INFINITY, String::new());
    let mut least_ratio = (f64::INFINITY, String::new());
    for (one, row) in rows.iter().enumerate() {
        for (other, far) in row.iter().enumerate().filter(|(other, _)| *other != one) {
            let pair = format!("{} and {}", names[one], names[other]);
            if *far < least.0 {
                least = (*far, pair.clone());
            }
            if far / row[one] < least_ratio.0 {
                least_ratio = (far / row[one], pair);
            }
        }
    }
    (least, least_ratio)
}

#[test]
fn shapes_are_told_apart_on_a_tag_of_20_mm_in_black_and_white() {
    told_apart(|drawing| blurred(&on_a_tag(drawing), 3), 0.09, 1.2);
}

#[test]
fn shapes_are_told_apart_in_24_by_12_cells() {
    told_apart(|drawing| blurred(&in_a_terminal(drawing), 2), 0.09, 1.2);
}

#[test]
fn the_measure_sees_no_difference_where_there_is_none() {
    let (_, drawing) = &shapes(&Paint::plain())[0];
    let seen = blurred(&on_a_tag(drawing), 3);
    assert_eq!(difference(&seen, &seen), 0.0);
    let white = vec![0.0; seen.len()];
    let black = vec![1.0; seen.len()];
    assert!(difference(&white, &black) >= 1.0);
}

/// A page as large as the bloom, and nothing else on it.
fn alone(drawing: &Drawing, shows: &str) -> Page {
    let bloom = paper::Drawing {
        outlines: drawing.outlines(),
        place: Affine::translate((50.0, 50.0)) * Affine::scale(50.0),
    };
    Page {
        width: 100.0,
        height: 100.0,
        shows: shows.to_string(),
        items: vec![bloom.into()],
    }
}

#[test]
fn a_drawing_is_well_formed_svg_with_a_title_and_a_description() {
    let set = &RuleSet::embedded()[0];
    for form in 0..set.forms.len() {
        let bloom = Bloom::of_form(set, form, &Answers::default());
        let drawing = Drawing::of(&bloom, &Paint::plain(), View::Side);
        let title = "A <b> & \"c\" \u{1}\u{ffff}'d' é";
        let page = alone(&drawing, &set.shape_of(form).means);
        assert_eq!(page.strays().count(), 0);
        let text = svg(title, &page, Lettering::Words).expect("an SVG");
        // roxmltree refuses what XML 1.0 does not allow.
        let document = roxmltree::Document::parse(&text).expect("well-formed XML");
        let root = document.root_element();
        let child = |name: &str| {
            let found = root
                .children()
                .find(|node| node.has_tag_name((NAMESPACE, name)));
            found.and_then(|node| node.text()).map(str::to_string)
        };
        assert_eq!(root.tag_name().name(), "svg");
        assert_eq!(child("title").as_deref(), Some("A <b> & \"c\" 'd' é"));
        assert_eq!(child("desc").as_ref(), Some(&set.shape_of(form).means));
        let paths = root.children();
        let paths = paths.filter(|node| node.has_tag_name((NAMESPACE, "path")));
        assert_eq!(paths.count(), drawing.patches.len());
    }
}

const NAMESPACE: &str = "http://www.w3.org/2000/svg";

/// Writes a contact sheet to be looked at: every shape from the front and from the side in black
/// and white, at 20 mm, and in colour by every pattern.
#[test]
fn a_contact_sheet_is_written() {
    let set = &RuleSet::embedded()[0];
    let (side, gap) = (240_u32, 10_u32);
    let shapes = set.shapes.len() as u32;
    let (wide, high) = ((side + gap) * 6, (side + gap) * 3);
    let pink = Lab::new(70.0, 40.0, 5.0);
    let cream = Lab::new(95.0, 0.0, 15.0);
    for (name, view, coloured) in [
        ("front", View::Face, false),
        ("side", View::Side, false),
        ("colour", View::Face, true),
    ] {
        let mut sheet = tiny_skia::Pixmap::new(wide, high).expect("a sheet");
        sheet.fill(tiny_skia::Color::WHITE);
        for shape in 0..shapes {
            let form = set
                .forms
                .iter()
                .position(|form| form.shape == shape as usize);
            let bloom = Bloom::of_form(set, form.expect("a form"), &Answers::default());
            let pattern = Pattern::ALL[shape as usize % 5];
            let paint = match coloured {
                true => Paint::of(&[(pink, Part::Main, pattern), (cream, Part::Second, pattern)]),
                false => Paint::plain(),
            };
            let picture = Picture::of(&Drawing::of(&bloom, &paint, view), side, 1.0);
            let inked = picture.pixels.iter().filter(|pixel| pixel[3] > 0).count();
            assert!(
                inked > (side * side / 20) as usize,
                "shape {shape} is nearly empty"
            );
            let (left, top) = (shape % 6 * (side + gap), shape / 6 * (side + gap));
            for (at, [r, g, b, a]) in picture.pixels.iter().enumerate() {
                let (x, y) = (left + at as u32 % side, top + at as u32 / side);
                let on_white = |c: u8| {
                    255 - u8::try_from(u32::from(255 - c) * u32::from(*a) / 255).expect("a byte")
                };
                let pixel = [on_white(*r), on_white(*g), on_white(*b), 255];
                let from = ((y * wide + x) * 4) as usize;
                sheet.data_mut()[from..from + 4].copy_from_slice(&pixel);
            }
        }
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
        let file = folder.join(format!("blooms-{name}.png"));
        sheet.save_png(&file).expect("written");
    }
}
