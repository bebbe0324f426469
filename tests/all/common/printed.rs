//! Printed pages as files, and what an outside program must find in them.
#![allow(dead_code, unreachable_pub)]

use std::fs;
use std::path::Path;

use serde_json::{Value, json};
use trug::paper::{Lettering, Page, pdf, svg};

/// A part of a page with one code on it, in mm from the upper left corner of the page.
#[derive(Debug, Clone, PartialEq)]
pub struct Coded {
    /// The page, from 0.
    pub page: usize,
    /// Left edge, upper edge, width and height.
    pub area: [f64; 4],
    /// What the code holds.
    pub text: String,
}

/// Pages of each file that are written as SVG too: the others are drawn alike, and SVG is large.
const DRAWN: usize = 2;

/// Writes the pages and gives what an outside program must find in them.
pub fn write(folder: &Path, name: &str, title: &str, pages: &[Page]) -> Value {
    write_coded(folder, name, title, pages, &[])
}

/// The same of pages with codes.
pub fn write_coded(
    folder: &Path,
    name: &str,
    title: &str,
    pages: &[Page],
    codes: &[Coded],
) -> Value {
    let bytes = pdf(title, pages).expect("a PDF");
    fs::write(folder.join(format!("{name}.pdf")), bytes).expect("written");
    for (at, page) in pages.iter().enumerate() {
        assert_eq!(page.strays().count(), 0, "{name}, page {}", at + 1);
        if at >= DRAWN {
            continue;
        }
        for (kind, lettering) in [
            ("words", Lettering::Words),
            ("outlines", Lettering::Outlines),
        ] {
            let text = svg(title, page, lettering).expect("an SVG");
            fs::write(folder.join(format!("{name}-{}.{kind}.svg", at + 1)), text).expect("written");
        }
    }
    let page = |(at, page): (usize, &Page)| {
        let texts: Vec<&str> = page.lines().map(|line| line.text.as_str()).collect();
        let codes = codes.iter().filter(|code| code.page == at);
        let codes: Vec<Value> = codes
            .map(|code| json!({ "area": code.area, "text": code.text }))
            .collect();
        json!({
            "width": page.width, "height": page.height, "texts": texts, "codes": codes,
            "svg": at < DRAWN,
        })
    };
    let pages: Vec<Value> = pages.iter().enumerate().map(page).collect();
    json!({ "name": name, "title": title, "pages": pages })
}
