//! A picture is well formed, says what the cells say, and shows their colours.

use ratatui::style::{Color, Modifier, Style};

use super::*;
use crate::screen::kit::area;

fn window() -> Window<'static> {
    Window {
        title: "trug <Key>",
        shows: "A question & its answers",
        ground: Ground::Dark,
    }
}

/// A picture of a row of cells, each text in its style.
fn picture(pieces: &[(&str, Style)]) -> String {
    let mut buffer = Buffer::empty(area::window(40, 2));
    let mut x = 0;
    for (text, style) in pieces {
        (x, _) = buffer.set_stringn(x, 0, text, usize::MAX, *style);
    }
    svg(&buffer, &window())
}

/// The runs of words below the bar: place, length, colour and text.
fn runs(svg: &str) -> Vec<(f64, f64, String, String)> {
    let document = roxmltree::Document::parse(svg).expect("XML");
    let number = |node: roxmltree::Node<'_, '_>, name: &str| {
        node.attribute(name)
            .map(|text| text.parse().expect("a number"))
    };
    { document.descendants() }
        .filter(|node| node.has_tag_name("text"))
        .filter_map(|node| {
            let length = number(node, "textLength")?;
            let fill = node.attribute("fill")?.to_string();
            Some((number(node, "x")?, length, fill, node.text()?.to_string()))
        })
        .collect()
}

#[test]
fn words_stand_at_their_columns_with_their_colours() {
    let key = Style::new()
        .fg(Color::Rgb(1, 2, 3))
        .add_modifier(Modifier::BOLD);
    let svg = picture(&[("Tab", key), (" next page   <b> \u{2026}", Style::new())]);
    let found = runs(&svg);
    let texts: Vec<&str> = found.iter().map(|run| run.3.as_str()).collect();
    assert_eq!(texts, ["Tab", "next page", "<b>", "\u{2026}"]);
    let places: Vec<(f64, f64)> = found.iter().map(|run| (run.0, run.1)).collect();
    assert_eq!(
        places,
        [(0.0, 30.0), (40.0, 90.0), (160.0, 30.0), (200.0, 10.0)]
    );
    assert_eq!(found[0].2, "#010203");
    assert!(
        svg.contains("font-weight=\"bold\" textLength=\"30\">Tab"),
        "{svg}"
    );
    assert!(svg.contains("<title>trug &lt;Key&gt;</title>"));
    assert!(svg.contains("<desc>A question &amp; its answers</desc>"));
}

#[test]
fn where_the_cursor_is_letters_and_ground_change_places() {
    let chosen = Style::new().add_modifier(Modifier::REVERSED);
    let svg = picture(&[("> plum", chosen)]);
    let paint = Paint::of(Ground::Dark);
    assert_eq!(runs(&svg)[0].2, paint.ground.to_string());
    let back = format!("<path fill=\"{}\" d=\"M0 0h60v20h-60z\"/>", paint.letters);
    assert!(svg.contains(&back), "{svg}");
}

#[test]
fn a_bloom_is_shapes_of_its_own_colours() {
    let petal = Style::new()
        .fg(Color::Rgb(241, 146, 125))
        .bg(Color::Indexed(16));
    let svg = picture(&[
        ("\u{2580}\u{2580}", petal),
        ("\u{2801}\u{2500}", Style::new()),
    ]);
    assert!(
        svg.contains("<path fill=\"#f1927d\" d=\"M0 0h20v10h-20z\"/>"),
        "{svg}"
    );
    assert!(
        svg.contains("<path fill=\"#000000\" d=\"M0 0h20v20h-20z\"/>"),
        "{svg}"
    );
    assert!(
        svg.contains("stroke-linecap=\"round\" d=\"M22.5 2.5h0\""),
        "{svg}"
    );
    assert!(
        svg.contains("stroke-linecap=\"butt\" d=\"M30 10h10\""),
        "{svg}"
    );
    assert_eq!(runs(&svg), []);
}
