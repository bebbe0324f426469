//! The colours of drawn blooms: what a grower said is what is seen, on paper and on the screen.
//!
//! A stated colour is compared as a screen or a printer shows it, after it was clipped to sRGB. The
//! disc, the pincushion and the stem have colours of their own and are left out: the bloom's colour is
//! that of its rays and petaloids. The mean is taken in linear light, for that is what the eye gets
//! from a bloom too far away for its petals to be told apart.

mod renderers;

use std::collections::HashMap;

use kurbo::Shape;
use trug::colour::{Lab, Part, Pattern, Srgb, Vocabulary, Word, ciede2000};
use trug::draw::bloom::{Centre, Depth, FloretLine, Roll, Tip};
use trug::draw::{Bloom, Characters, Drawing, Grid, Paint, Picture, Role, View};
use trug::form::{Answers, RuleSet};
use trug::geometry::Stroke;
use trug::paper::{Lettering, svg};

use super::{TAG, alone};

/// Farther than this the commonest fill is another colour; and the mean of all that is seen.
const COMMONEST: f64 = 2.0;
const MEAN: f64 = 8.0;
/// A ball as light as this is called white or cream; with a shade in each of its many florets it would be
/// grey.
const PALE: f64 = 85.0;
const MEAN_OF_PALE: f64 = 5.0;
/// As near as this a pixel counts as of a colour: smoothed edges are not.
const SAME: f64 = 4.0;

const RED: Lab = Lab::new(41.0, 63.0, 43.0);
const WHITE: Lab = Lab::new(97.0, -1.0, 3.0);

/// Every bloom that a form of a rule set that ships looks like, with the form's name.
fn blooms() -> Vec<(String, Bloom)> {
    let mut blooms: Vec<(String, Bloom)> = Vec::new();
    for set in RuleSet::embedded() {
        for (at, form) in set.forms.iter().enumerate() {
            let bloom = Bloom {
                diameter: None,
                ..Bloom::of_form(&set, at, &Answers::default())
            };
            if !blooms.iter().any(|(_, known)| *known == bloom) {
                blooms.push((format!("{} of {}", form.id, set.id), bloom));
            }
        }
    }
    assert!(blooms.len() > 20, "{}", blooms.len());
    blooms
}

fn drawn(bloom: &Bloom, colours: &[(Lab, Part, Pattern)]) -> Drawing {
    Drawing::of(bloom, &Paint::of(colours), View::Face)
}

fn of_one_colour(bloom: &Bloom, colour: Lab) -> Drawing {
    drawn(bloom, &[(colour, Part::Main, Pattern::SelfColoured)])
}

fn is_ray(role: Role) -> bool {
    matches!(
        role,
        Role::RayFace | Role::RayInside | Role::RayReverse | Role::Collar
    )
}

type Pixel = Option<[u8; 3]>;

/// A way to look at a drawing: its pixels, none where nothing is.
type Way = (&'static str, fn(&Drawing) -> Vec<Pixel>);

const ON_A_TAG: Way = ("on a tag of 20 mm at 200 dots an inch", |drawing| {
    opaque(drawing, TAG)
});
const ON_PAPER: Way = ("600 pixels across", |drawing| opaque(drawing, 600));
const IN_CELLS: Way = ("in 24 by 12 cells", |drawing| halves(drawing, 24));
const IN_FEW_CELLS: Way = ("in 12 by 6 cells", |drawing| halves(drawing, 12));

fn opaque(drawing: &Drawing, side: u32) -> Vec<Pixel> {
    let picture = Picture::of(drawing, side, 0.0);
    let whole = |[r, g, b, a]: &[u8; 4]| (*a == 255).then_some([*r, *g, *b]);
    picture.pixels.iter().map(whole).collect()
}

fn halves(drawing: &Drawing, columns: u16) -> Vec<Pixel> {
    let grid = Grid::of(drawing, columns, columns / 2, Characters::HalfBlocks, None);
    let of_cell = |cell: &trug::draw::Cell| match cell.symbol {
        '▀' => [cell.front, cell.back],
        '▄' => [None, cell.front],
        _ => [None, None],
    };
    let halves = grid.cells.iter().flat_map(of_cell);
    halves
        .map(|half| half.map(|Srgb { r, g, b }| [r, g, b]))
        .collect()
}

/// The pixels that a ray or a petaloid takes, and nothing else: those that stay as they are while
/// all other parts change their colours.
fn of_rays(bloom: &Bloom, see: fn(&Drawing) -> Vec<Pixel>) -> Vec<bool> {
    let with = |fill: Srgb, line: Srgb| {
        let mut drawing = of_one_colour(bloom, RED);
        for patch in &mut drawing.patches {
            if !is_ray(patch.role) {
                let width = patch.outline.stroke.map_or(0.0, |stroke| stroke.width);
                patch.outline.fill = Some(fill);
                patch.outline.stroke = Some(Stroke::new(line, width));
            }
        }
        see(&drawing)
    };
    let one = with(
        Srgb { r: 0, g: 0, b: 255 },
        Srgb {
            r: 0,
            g: 255,
            b: 255,
        },
    );
    let other = with(
        Srgb {
            r: 255,
            g: 255,
            b: 0,
        },
        Srgb {
            r: 255,
            g: 0,
            b: 255,
        },
    );
    let kept = |(one, other): (&Pixel, &Pixel)| one.is_some() && one == other;
    one.iter().zip(&other).map(kept).collect()
}

fn lab([r, g, b]: [u8; 3]) -> Lab {
    Lab::from(Srgb { r, g, b })
}

/// The transfer function of IEC 61966-2-1, both ways.
fn light(channel: u8) -> f64 {
    let channel = f64::from(channel) / 255.0;
    match channel <= 0.04045 {
        true => channel / 12.92,
        false => ((channel + 0.055) / 1.055).powf(2.4),
    }
}

fn channel(light: f64) -> u8 {
    let channel = match light <= 0.003_130_8 {
        true => light * 12.92,
        false => 1.055 * light.powf(1.0 / 2.4) - 0.055,
    };
    (channel * 255.0).round().clamp(0.0, 255.0) as u8
}

/// How many pixels there are of each colour.
fn counted(pixels: &[[u8; 3]]) -> HashMap<[u8; 3], usize> {
    let mut counts = HashMap::new();
    // Neighbours are mostly of one colour.
    for run in pixels.chunk_by(|one, next| one == next) {
        *counts.entry(run[0]).or_default() += run.len();
    }
    counts
}

fn commonest(pixels: &[[u8; 3]]) -> [u8; 3] {
    let counts = counted(pixels);
    counts
        .into_iter()
        .max_by_key(|(_, count)| *count)
        .expect("a pixel")
        .0
}

fn mean(pixels: &[[u8; 3]]) -> Lab {
    let mut sum = [0.0; 3];
    for (colour, count) in counted(pixels) {
        for (sum, channel) in sum.iter_mut().zip(colour) {
            *sum += light(channel) * count as f64;
        }
    }
    lab(sum.map(|sum| channel(sum / pixels.len() as f64)))
}

/// The share of the pixels that are as good as of this colour.
fn share(pixels: &[[u8; 3]], colour: Lab) -> f64 {
    let shown = Lab::from(colour.to_srgb());
    let of_it = counted(pixels)
        .into_iter()
        .filter(|(pixel, _)| ciede2000(lab(*pixel), shown) < SAME);
    of_it.map(|(_, count)| count).sum::<usize>() as f64 / pixels.len() as f64
}

fn rays_seen(drawing: &Drawing, rays: &[bool], see: fn(&Drawing) -> Vec<Pixel>) -> Vec<[u8; 3]> {
    let pixels = see(drawing).into_iter().zip(rays).filter(|(_, ray)| **ray);
    pixels.filter_map(|(pixel, _)| pixel).collect()
}

/// What is wrong with the colours of a bloom, seen in a way, in every so many words from the first on.
fn wrong_in(form: &str, bloom: &Bloom, (way, see): Way, first: usize, every: usize) -> Vec<String> {
    let rays = of_rays(bloom, see);
    let words = Vocabulary::embedded();
    let one = |word: &Word| {
        let stated = Lab::from(word.centre.to_srgb());
        let pixels = rays_seen(&of_one_colour(bloom, word.centre), &rays, see);
        let fill = ciede2000(lab(commonest(&pixels)), stated);
        let all = ciede2000(mean(&pixels), stated);
        let most = if stated.l > PALE && bloom.outline == Depth::Globe {
            MEAN_OF_PALE
        } else {
            MEAN
        };
        (fill > COMMONEST || all > most).then(|| {
            format!(
                "{} {form} {way}: commonest {fill:.1}, mean {all:.1}",
                word.word
            )
        })
    };
    words
        .words()
        .iter()
        .skip(first)
        .step_by(every)
        .filter_map(one)
        .collect()
}

#[test]
fn a_bloom_shows_the_colour_that_it_is_said_to_have() {
    let blooms = blooms();
    let of_one = |at: usize, form: &str, bloom: &Bloom| -> Vec<String> {
        let mut wrong = wrong_in(form, bloom, ON_A_TAG, 0, 1);
        wrong.extend(wrong_in(form, bloom, IN_CELLS, 0, 1));
        wrong.extend(wrong_in(form, bloom, IN_FEW_CELLS, 0, 1));
        // Large drawings take long: each word and each form at least once.
        wrong.extend(wrong_in(form, bloom, ON_PAPER, at % 16, 16));
        wrong
    };
    // Each half on a core of its own.
    let wrong: Vec<String> = std::thread::scope(|scope| {
        let half = |odd: usize| {
            let own = blooms
                .iter()
                .enumerate()
                .filter(move |(at, _)| at % 2 == odd);
            scope.spawn(move || {
                own.flat_map(|(at, (form, bloom))| of_one(at, form, bloom))
                    .collect::<Vec<_>>()
            })
        };
        let halves = [half(0), half(1)];
        halves
            .into_iter()
            .flat_map(|half| half.join().expect("no panic"))
            .collect()
    });
    assert!(
        wrong.is_empty(),
        "{} are wrong: {:#?}",
        wrong.len(),
        &wrong[..wrong.len().min(20)]
    );
}

#[test]
fn an_svg_has_the_colours_of_the_drawing() {
    let words = Vocabulary::embedded();
    for ((form, bloom), word) in blooms().iter().zip(words.words().iter().cycle()) {
        let drawing = of_one_colour(bloom, word.centre);
        let text = svg(form, &alone(&drawing, form), Lettering::Words).expect("an SVG");
        let document = roxmltree::Document::parse(&text).expect("XML");
        let paths = document
            .descendants()
            .filter(|node| node.has_tag_name((super::NAMESPACE, "path")));
        let fills: Vec<Option<Srgb>> = paths
            .map(|path| path.attribute("fill").and_then(|fill| fill.parse().ok()))
            .collect();
        let drawn: Vec<Option<Srgb>> = drawing
            .patches
            .iter()
            .map(|patch| patch.outline.fill)
            .collect();
        assert_eq!(fills, drawn, "{form}");
        assert!(
            drawn.contains(&Some(word.centre.to_srgb())),
            "{form} in {}",
            word.word
        );
    }
}

/// Where a bloom has one ring of florets and no collar, a place's distance from the middle tells how
/// far along a floret it is.
fn is_one_ring(bloom: &Bloom) -> bool {
    bloom.centre != Centre::Closed && bloom.rows == 1 && !bloom.collar
}

/// What is seen on a tag of rays, for every form without a collar, whose ring has the second colour.
fn on_tags(colours: &[(Lab, Part, Pattern)]) -> Vec<(String, Bloom, Vec<[u8; 3]>)> {
    let plain = blooms()
        .into_iter()
        .filter(|(_, bloom)| !bloom.collar || bloom.centre == Centre::Closed);
    let seen = |(form, bloom): (String, Bloom)| {
        let rays = of_rays(&bloom, ON_A_TAG.1);
        let pixels = rays_seen(&drawn(&bloom, colours), &rays, ON_A_TAG.1);
        (form, bloom, pixels)
    };
    plain.map(seen).collect()
}

fn two(pattern: Pattern) -> [(Lab, Part, Pattern); 2] {
    [(RED, Part::Main, pattern), (WHITE, Part::Second, pattern)]
}

#[test]
fn tips_are_seen_at_the_ends_of_rays_and_nowhere_else() {
    for (form, bloom, pixels) in on_tags(&two(Pattern::Tipped)) {
        let tips = share(&pixels, WHITE);
        assert!((0.03..0.4).contains(&tips), "{form}: {tips:.2}");
        assert_eq!(
            commonest(&pixels),
            {
                let Srgb { r, g, b } = RED.to_srgb();
                [r, g, b]
            },
            "{form}"
        );
        if is_one_ring(&bloom) {
            let picture = Picture::of(&drawn(&bloom, &two(Pattern::Tipped)), TAG, 0.0);
            let middle = f64::from(TAG) / 2.0;
            for (at, [r, g, b, a]) in picture.pixels.into_iter().enumerate() {
                let (x, y) = (at as u32 % TAG, at as u32 / TAG);
                let out = (f64::from(x) + 0.5 - middle).hypot(f64::from(y) + 0.5 - middle) / middle;
                let white = a == 255 && ciede2000(lab([r, g, b]), WHITE) < SAME;
                assert!(
                    !white || out > 0.6,
                    "{form}: white at {out:.2} of the radius"
                );
            }
        }
    }
}

#[test]
fn two_colours_share_the_rays_of_a_bicolour() {
    for (form, _, pixels) in on_tags(&two(Pattern::Bicolour)) {
        let (main, second) = (share(&pixels, RED), share(&pixels, WHITE));
        assert!((0.1..0.6).contains(&second), "{form}: second {second:.2}");
        assert!((0.2..0.7).contains(&main), "{form}: main {main:.2}");
    }
}

#[test]
fn a_blend_goes_from_the_second_colour_at_its_heart_to_the_main_one_at_its_rim() {
    for (form, bloom, pixels) in on_tags(&two(Pattern::Blend)) {
        assert!(
            ciede2000(lab(commonest(&pixels)), RED) < COMMONEST + SAME,
            "{form}"
        );
        let rays = of_rays(&bloom, ON_A_TAG.1);
        let seen = ON_A_TAG.1(&drawn(&bloom, &two(Pattern::Blend)));
        let middle = f64::from(TAG) / 2.0;
        let ring = |from: f64, to: f64| -> Vec<[u8; 3]> {
            let inside = |at: usize| {
                let (x, y) = (at as u32 % TAG, at as u32 / TAG);
                let out = (f64::from(x) + 0.5 - middle).hypot(f64::from(y) + 0.5 - middle) / middle;
                rays[at] && (from..to).contains(&out)
            };
            let places = (0..seen.len()).filter(|at| inside(*at));
            places.filter_map(|at| seen[at]).collect()
        };
        let (heart, rim) = (ring(0.0, 0.55), ring(0.7, 1.0));
        let far = |pixels: &[[u8; 3]]| ciede2000(mean(pixels), RED);
        assert!(
            far(&heart) > far(&rim) + 8.0,
            "{form}: {:.1} and {:.1}",
            far(&heart),
            far(&rim)
        );
    }
}

#[test]
fn flecks_are_few_and_on_every_side() {
    for (form, bloom, pixels) in on_tags(&two(Pattern::Flecked)) {
        // A fleck of a pixel or two is smoothed: what is nearer to white than to red counts.
        let light =
            |pixel: &&[u8; 3]| ciede2000(lab(**pixel), WHITE) < ciede2000(lab(**pixel), RED);
        let flecks = pixels.iter().filter(light).count() as f64 / pixels.len() as f64;
        assert!((0.01..0.3).contains(&flecks), "{form}: {flecks:.3}");
        let Srgb { r, g, b } = RED.to_srgb();
        assert_eq!(commonest(&pixels), [r, g, b], "{form}");
        let seen = ON_A_TAG.1(&drawn(&bloom, &two(Pattern::Flecked)));
        let mut quarters = [0; 4];
        for (at, pixel) in seen.iter().enumerate() {
            let side = TAG as usize;
            let quarter = usize::from(at % side > side / 2) + 2 * usize::from(at / side > side / 2);
            quarters[quarter] += usize::from(pixel.as_ref().is_some_and(|pixel| light(&pixel)));
        }
        assert!(
            quarters.iter().all(|count| *count > 5),
            "{form}: {quarters:?}"
        );
    }
}

#[test]
fn a_reverse_is_seen_where_rays_show_their_backs_and_a_centre_where_it_is_open() {
    let colours = [
        (RED, Part::Main, Pattern::SelfColoured),
        (WHITE, Part::Reverse, Pattern::SelfColoured),
    ];
    for (form, bloom, pixels) in on_tags(&colours) {
        let backs = share(&pixels, WHITE);
        match bloom.roll {
            // Edges that roll forward wrap the face in the back.
            Roll::Forward => assert!(backs > 0.04, "{form}: {backs:.2}"),
            // Flat rays turn their faces to who looks at the bloom.
            _ if !bloom.wavy && bloom.line != FloretLine::Incurved => {
                assert!(
                    share(&pixels, RED) > 0.5 && backs < 0.1,
                    "{form}: {backs:.2}"
                );
            }
            _ => {}
        }
        // Rays of a closed bloom are folded over its middle until they open.
        if bloom.centre == Centre::Closed {
            assert!(backs > 0.005, "{form}: {backs:.3}");
            let middle = of_the_middle(&drawn(&bloom, &colours));
            let folded = share(&middle, WHITE);
            assert!(folded > 0.25, "{form}: {folded:.2} of the middle");
        }
        // Rays that rise to the face show their backs from the side, where no roll wraps them.
        if bloom.line == FloretLine::Incurved {
            let open = Bloom {
                roll: Roll::Flat,
                ..bloom
            };
            let side = Drawing::of(&open, &Paint::of(&colours), View::Side);
            let seen: Vec<[u8; 3]> = opaque(&side, TAG).into_iter().flatten().collect();
            assert!(
                share(&seen, WHITE) > 0.1,
                "{form}: {:.2}",
                share(&seen, WHITE)
            );
        }
    }
    let plum = Lab::new(24.0, 28.0, -17.0);
    for (form, bloom) in blooms()
        .iter()
        .filter(|(_, bloom)| bloom.centre != Centre::Closed)
    {
        let centre = (plum, Part::Centre, Pattern::SelfColoured);
        let drawing = drawn(bloom, &[(WHITE, Part::Main, Pattern::SelfColoured), centre]);
        let rays = of_rays(bloom, ON_A_TAG.1);
        let middle: Vec<[u8; 3]> = ON_A_TAG.1(&drawing)
            .into_iter()
            .zip(rays)
            .filter_map(|(pixel, ray)| pixel.filter(|_| !ray))
            .filter(|pixel| ciede2000(lab(*pixel), WHITE) > 40.0)
            .collect();
        assert!(middle.len() > 300, "{form}");
        assert!(
            ciede2000(lab(commonest(&middle)), Lab::from(plum.to_srgb())) < COMMONEST,
            "{form}"
        );
    }
}

/// What is seen of the middle of a bloom on a tag: a twelfth of its radius about it.
fn of_the_middle(drawing: &Drawing) -> Vec<[u8; 3]> {
    let middle = f64::from(TAG) / 2.0;
    let near = |at: usize| {
        let (x, y) = (at as u32 % TAG, at as u32 / TAG);
        (f64::from(x) + 0.5 - middle).hypot(f64::from(y) + 0.5 - middle) < middle / 12.0
    };
    let pixels = ON_A_TAG.1(drawing).into_iter().enumerate();
    pixels
        .filter_map(|(at, pixel)| pixel.filter(|_| near(at)))
        .collect()
}

/// Edges that roll back wrap a ray in its face, and its back is the slot between them.
#[test]
fn a_ray_that_is_rolled_back_shows_its_face_from_behind_and_its_reverse_in_a_slot() {
    let colours = [
        (RED, Part::Main, Pattern::SelfColoured),
        (WHITE, Part::Reverse, Pattern::SelfColoured),
    ];
    let from_the_side = |bloom: &Bloom| {
        let drawing = Drawing::of(bloom, &Paint::of(&colours), View::Side);
        let seen: Vec<[u8; 3]> = opaque(&drawing, 600).into_iter().flatten().collect();
        share(&seen, WHITE)
    };
    let mut seen = 0;
    for (form, bloom) in blooms() {
        if bloom.roll == Roll::Back && bloom.rolled > 0.5 && bloom.tip != Tip::Split {
            let flat = Bloom {
                roll: Roll::Flat,
                ..bloom
            };
            let (rolled, flat) = (from_the_side(&bloom), from_the_side(&flat));
            assert!(
                rolled > 0.01 && rolled < 0.6 * flat,
                "{form}: {rolled:.2} where flat rays show {flat:.2}"
            );
            seen += 1;
        }
    }
    assert!(seen > 2, "{seen}");
}

/// A floret that falls back over the stem leaves no hole beside it through which the calyx is seen.
#[test]
fn a_bloom_whose_florets_fall_back_is_closed_over_its_calyx_from_the_side() {
    let (of_ray, of_stem) = ([255, 0, 0], [0, 255, 0]);
    let mut seen = 0;
    for (form, bloom) in blooms() {
        if bloom.centre != Centre::Closed || bloom.line != FloretLine::Reflexed || bloom.narrow {
            continue;
        }
        let mut drawing = Drawing::of(&bloom, &Paint::plain(), View::Side);
        for patch in &mut drawing.patches {
            let [r, g, b] = if is_ray(patch.role) { of_ray } else { of_stem };
            patch.outline.fill = Some(Srgb { r, g, b });
            patch.outline.stroke = None;
        }
        let side = 300;
        let pixels = opaque(&drawing, side as u32);
        let hole = |x: usize| {
            let column = |y: usize| pixels.get(y * side + x).copied().flatten();
            let top = (0..side).find(|y| column(*y) == Some(of_stem));
            let foot = (0..side).rfind(|y| column(*y) == Some(of_ray));
            top.zip(foot)
                .map_or(0, |(top, foot)| foot.saturating_sub(top))
        };
        let holes: usize = (0..side).map(hole).sum();
        assert!(holes < 60, "{form}: {holes} pixels of stem over a floret");
        seen += 1;
    }
    assert!(seen > 0);
}

/// The lowest florets of a ball close around its stem; the dark of its middle is not counted.
#[test]
fn a_ball_seen_from_the_side_is_whole_down_to_its_stem() {
    let balls = blooms()
        .into_iter()
        .filter(|(_, bloom)| bloom.outline == Depth::Globe);
    let mut seen = 0;
    for (form, bloom) in balls {
        let drawing = Drawing::of(&bloom, &Paint::plain(), View::Side);
        let florets = drawing.patches.iter().filter(|patch| is_ray(patch.role));
        let bounds = florets
            .map(|patch| patch.outline.path.bounding_box())
            .reduce(|all, one| all.union(one))
            .expect("florets");
        let round = bounds.height() / bounds.width();
        assert!(
            (0.93..1.1).contains(&round),
            "{form}: {round:.2} as high as wide"
        );
        seen += 1;
    }
    assert!(seen > 1);
}
