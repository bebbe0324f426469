//! Pictures as the terminal is sent them, read back by another's hand and compared with their pixels.

use std::fs;
use std::path::Path;
use std::sync::Arc;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use image::{ImageFormat, RgbaImage};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use trug::colour::{Lab, Part, Pattern, Srgb, ciede2000};
use trug::draw::{Bloom, Drawing, Paint, View};
use trug::form::{Answers, RuleSet};
use trug::screen::abilities::{Pixels, Protocol};
use trug::screen::picture::{Job, Painted, Request};

/// The cells of a bloom beside a text, and their pixels.
const CELLS: (u16, u16) = (24, 12);
const CELL: (u16, u16) = (10, 20);

/// A few blooms in colours that sixels have to share out.
fn requests(protocol: Protocol) -> Vec<(&'static str, Request)> {
    let set = &RuleSet::embedded()[0];
    let pink = Lab::new(70.0, 40.0, 5.0);
    let cream = Lab::new(95.0, 0.0, 15.0);
    let of = |(id, pattern): (&'static str, Pattern)| {
        let form = set.find(id).expect("a form");
        let bloom = Bloom::of_form(set, form, &Answers::default());
        let paint = Paint::of(&[(pink, Part::Main, pattern), (cream, Part::Second, pattern)]);
        let request = Request {
            drawing: Arc::new(Drawing::of(&bloom, &paint, View::Face)),
            asked: (id == "ball").then(|| "tip".to_string()),
            size: CELLS,
            pixels: Pixels {
                protocol,
                cell: CELL,
            },
            ground: Some(Srgb {
                r: 30,
                g: 30,
                b: 30,
            }),
        };
        (id, request)
    };
    let all = [
        ("ball", Pattern::Blend),
        ("single", Pattern::Tipped),
        ("incurved-cactus", Pattern::Bicolour),
    ];
    all.into_iter().map(of).collect()
}

/// What the terminal is sent for a picture.
fn sent(request: &Request) -> String {
    let job = Job {
        id: 77,
        request: request.clone(),
    };
    let painted = Painted::of(&job).expect("a picture");
    let area = Rect::new(0, 0, CELLS.0, CELLS.1);
    let mut buffer = Buffer::empty(area);
    painted.lay(area, &mut buffer);
    buffer[(0, 0)].symbol().to_string()
}

fn between<'a>(sent: &'a str, first: &str, last: &str) -> &'a str {
    let from = sent.find(first).expect(first) + first.len();
    let length = sent[from..].find(last).expect(last);
    &sent[from..from + length]
}

#[test]
fn kittys_pixels_are_those_of_the_raster() {
    for (name, request) in requests(Protocol::Kitty) {
        let sent = sent(&request);
        let parts = sent
            .split("\x1b_G")
            .skip(1)
            .filter_map(|part| part.split_once("\x1b\\"));
        let data: String = parts
            .map(|(part, _)| part.split_once(';').expect("data").1)
            .collect();
        let pixels = STANDARD.decode(data).expect("base64");
        assert!(pixels == *request.raster().as_raw(), "{name}");
    }
}

#[test]
fn the_file_in_iterm2s_text_has_the_pixels_of_the_raster() {
    for (name, request) in requests(Protocol::Iterm2) {
        let sent = sent(&request);
        let data = between(&sent, "doNotMoveCursor=1:", "\x07");
        let file = STANDARD.decode(data).expect("base64");
        // The decoder of the printed pages' rasteriser.
        let read = tiny_skia::Pixmap::decode_png(&file).expect("a PNG");
        assert_eq!((read.width(), read.height()), (240, 240));
        let read = image::load_from_memory_with_format(&file, ImageFormat::Png).expect("a PNG");
        assert!(read.to_rgba8() == request.raster(), "{name}");
    }
}

/// The mean difference of what both have, in CIEDE2000.
fn difference(one: &RgbaImage, other: &RgbaImage) -> f64 {
    let lab = |pixel: &image::Rgba<u8>| {
        let [r, g, b, _] = pixel.0;
        Lab::from(Srgb { r, g, b })
    };
    let both = one.pixels().zip(other.pixels());
    let both = both.filter(|(one, other)| one[3] > 0 && other[3] > 0);
    let all: Vec<f64> = both
        .map(|(one, other)| ciede2000(lab(one), lab(other)))
        .collect();
    all.iter().sum::<f64>() / all.len() as f64
}

/// The files are read by libsixel as well, see `tests/outside/pixels_agree.py`.
#[test]
fn sixels_are_near_the_raster_and_clear_where_it_is() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("pixels");
    fs::create_dir_all(&folder).expect("a folder");
    for (name, request) in requests(Protocol::Sixel) {
        let sent = sent(&request);
        let sixels = &sent[sent.find("\x1bP").expect("sixels")..];
        let raster = request.raster();
        fs::write(folder.join(name).with_extension("six"), sixels).expect("written");
        raster
            .save(folder.join(name).with_extension("png"))
            .expect("written");
        let read = icy_sixel::SixelImage::decode(sixels.as_bytes()).expect("sixels");
        let read = RgbaImage::from_raw(240, 240, read.pixels).expect("as many pixels");
        let clear = |image: &RgbaImage| -> Vec<bool> {
            image.pixels().map(|pixel| pixel[3] == 0).collect()
        };
        assert!(clear(&read) == clear(&raster), "{name}");
        let away = difference(&read, &raster);
        assert!(away < 2.0, "{name}: {away}");
    }
}

#[test]
fn a_marked_feature_is_marked_in_pixels() {
    let (_, request) = requests(Protocol::Kitty).swap_remove(0);
    let bare = Request {
        asked: None,
        ..request.clone()
    };
    let (marked, bare) = (request.raster(), bare.raster());
    let other = marked
        .pixels()
        .zip(bare.pixels())
        .filter(|(one, other)| one != other);
    assert!(other.count() > 50);
}
