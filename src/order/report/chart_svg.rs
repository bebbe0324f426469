//! The season chart as SVG 1.1.

use std::fmt::Write;

use super::chart::{Chart, ChartWeek};

/// Units of a week's column, and of the frame around the columns.
const WEEK: f64 = 34.0;
const LEFT: f64 = 56.0;
const TOP: f64 = 64.0;
const HEIGHT: f64 = 260.0;
const BELOW: f64 = 84.0;
/// Lines across, and the steps that they may be apart.
const LINES: f64 = 5.0;

impl Chart {
    /// The chart as one SVG document that needs no colour to be read: what is expected is a filled
    /// bar, its range a whisker, what is needed a thick line, what is short a hatched piece.
    pub fn svg(&self, title: &str) -> String {
        let (width, height) = (
            LEFT + WEEK * self.weeks.len() as f64 + 24.0,
            TOP + HEIGHT + BELOW,
        );
        let step = step(self.most());
        let top = (self.most() / step).ceil() * step;
        let mut text = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" role=\"img\" aria-labelledby=\"title description\" viewBox=\"0 0 {width:.0} {height:.0}\" width=\"{width:.0}\" height=\"{height:.0}\" font-family=\"sans-serif\" font-size=\"11\">\n\
             <title id=\"title\">{}</title>\n<desc id=\"description\">{}</desc>\n\
             <rect width=\"{width:.0}\" height=\"{height:.0}\" fill=\"#ffffff\"/>\n\
             <text x=\"{LEFT}\" y=\"24\" font-size=\"16\" font-weight=\"bold\">{}</text>\n",
            escaped(title),
            escaped(&self.described()),
            escaped(title),
        );
        legend(&mut text);
        let mut line = 0.0;
        while line <= top {
            let y = place(line, top);
            let right = LEFT + WEEK * self.weeks.len() as f64;
            let _ = writeln!(
                text,
                "<path d=\"M{LEFT} {y:.1}H{right}\" stroke=\"#cccccc\" fill=\"none\"/><text x=\"{:.0}\" y=\"{:.1}\" text-anchor=\"end\">{line:.0}</text>",
                LEFT - 6.0,
                y + 4.0
            );
            line += step;
        }
        for (at, one) in self.weeks.iter().enumerate() {
            week(&mut text, LEFT + WEEK * at as f64, one, top);
        }
        let bottom = TOP + HEIGHT;
        let _ = writeln!(
            text,
            "<text x=\"{LEFT}\" y=\"{:.0}\">week of the year, and its Monday</text>",
            bottom + 62.0
        );
        text + "</svg>\n"
    }

    fn described(&self) -> String {
        let told = self.weeks.iter().map(|one| {
            format!(
                "week {}: {:.0} needed, {:.0} expected",
                one.week, one.needed, one.expected
            )
        });
        told.collect::<Vec<_>>().join("; ")
    }
}

fn week(text: &mut String, x: f64, one: &ChartWeek, top: f64) {
    let bottom = TOP + HEIGHT;
    let (bar, wide) = (x + 6.0, WEEK - 12.0);
    let expected = place(one.expected, top);
    let _ = writeln!(
        text,
        "<rect x=\"{bar:.1}\" y=\"{expected:.1}\" width=\"{wide:.1}\" height=\"{:.1}\" fill=\"#b5c9a8\" stroke=\"#4d6b3c\"/>",
        bottom - expected
    );
    if one.short > 0.0 {
        let (from, until) = (place(one.needed, top), place(one.needed - one.short, top));
        let _ = writeln!(
            text,
            "<rect x=\"{bar:.1}\" y=\"{from:.1}\" width=\"{wide:.1}\" height=\"{:.1}\" fill=\"none\" stroke=\"#a02020\" stroke-dasharray=\"3 2\"/>",
            until - from
        );
    }
    if let Some((low, high)) = one.range {
        let middle = x + WEEK / 2.0;
        let (low, high) = (place(low, top), place(high, top));
        let (left, right) = (middle - 4.0, middle + 4.0);
        let _ = writeln!(
            text,
            "<path d=\"M{left:.1} {high:.1}H{right:.1}M{middle:.1} {high:.1}V{low:.1}M{left:.1} {low:.1}H{right:.1}\" stroke=\"#333333\" fill=\"none\"/>"
        );
    }
    if one.needed > 0.0 {
        let y = place(one.needed, top);
        let _ = writeln!(
            text,
            "<path d=\"M{:.1} {y:.1}H{:.1}\" stroke=\"#000000\" stroke-width=\"3\" fill=\"none\"/>",
            x + 1.0,
            x + WEEK - 1.0
        );
    }
    let middle = x + WEEK / 2.0;
    let _ = writeln!(
        text,
        "<text x=\"{middle:.1}\" y=\"{:.0}\" text-anchor=\"middle\">{}</text>",
        bottom + 16.0,
        one.week
    );
    if let Some(day) = one.monday {
        let _ = writeln!(
            text,
            "<text x=\"{middle:.1}\" y=\"{:.0}\" text-anchor=\"middle\" font-size=\"9\">{}</text><text x=\"{middle:.1}\" y=\"{:.0}\" text-anchor=\"middle\" font-size=\"9\">{}</text>",
            bottom + 30.0,
            day.day(),
            bottom + 41.0,
            day.strftime("%b")
        );
    }
}

fn legend(text: &mut String) {
    let (x, y) = (LEFT, 42.0);
    let _ = writeln!(
        text,
        "<path d=\"M{x} {y}h20\" stroke=\"#000000\" stroke-width=\"3\"/><text x=\"{}\" y=\"{}\">stems needed</text>",
        x + 26.0,
        y + 4.0
    );
    let _ = writeln!(
        text,
        "<rect x=\"{}\" y=\"{}\" width=\"20\" height=\"10\" fill=\"#b5c9a8\" stroke=\"#4d6b3c\"/><text x=\"{}\" y=\"{}\">expected</text>",
        x + 120.0,
        y - 5.0,
        x + 146.0,
        y + 4.0
    );
    let _ = writeln!(
        text,
        "<path d=\"M{} {y}h20m-20 -4v8m20 -8v8\" stroke=\"#333333\" fill=\"none\"/><text x=\"{}\" y=\"{}\">nine seasons in ten</text>",
        x + 220.0,
        x + 246.0,
        y + 4.0
    );
    let _ = writeln!(
        text,
        "<rect x=\"{}\" y=\"{}\" width=\"20\" height=\"10\" fill=\"none\" stroke=\"#a02020\" stroke-dasharray=\"3 2\"/><text x=\"{}\" y=\"{}\">short</text>",
        x + 370.0,
        y - 5.0,
        x + 396.0,
        y + 4.0
    );
}

fn place(stems: f64, top: f64) -> f64 {
    TOP + HEIGHT * (1.0 - stems / top)
}

/// A round step with about so many lines: 1, 2 or 5 and noughts.
fn step(most: f64) -> f64 {
    let raw = (most / LINES).max(1.0);
    let tens = 10_f64.powf(raw.log10().floor());
    let round = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .find(|one| one * tens >= raw);
    round.unwrap_or(10.0) * tens
}

fn escaped(text: &str) -> String {
    let text = text.replace('&', "&amp;").replace('<', "&lt;");
    text.replace('>', "&gt;").replace('"', "&quot;")
}
