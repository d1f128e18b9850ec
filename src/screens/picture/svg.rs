//! A drawn window as an SVG picture, for the README and for looking at colours.
//!
//! A rectangle for each stretch of one background, a text for each stretch of
//! one style; reverse is resolved. Each text is set to its exact width, so that
//! the columns agree whatever font the viewer has.

use super::lines;
use itertools::Itertools;
use maud::Render;
use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};
use std::fmt::Write;
use unicode_width::UnicodeWidthStr;

const WIDE: f64 = 8.4;
const HIGH: f64 = 17.0;
const PAPER: &str = "#16181d";
const INK: &str = "#d6d8dc";

/// The picture.
pub fn svg(buffer: &Buffer, title: &str) -> String {
    let area = buffer.area();
    let (width, height) = (f64::from(area.width) * WIDE, f64::from(area.height) * HIGH);
    let mut out = String::new();
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{:.0}\" height=\"{:.0}\" viewBox=\"0 0 {width:.1} {height:.1}\" \
         font-family=\"'DejaVu Sans Mono','Liberation Mono',Menlo,Consolas,monospace\" font-size=\"14\" role=\"img\">",
        width, height
    );
    let _ = writeln!(out, "<title>{}</title>", escape(title));
    let _ = writeln!(out, "<rect width=\"100%\" height=\"100%\" fill=\"{PAPER}\"/>");
    for y in 0..area.height {
        row(&mut out, buffer, y);
    }
    out.push_str("</svg>\n");
    out
}

/// One row, stretch by stretch.
fn row(out: &mut String, buffer: &Buffer, y: u16) {
    let area = buffer.area();
    let cell = |x: u16| buffer.cell((area.x + x, area.y + y));
    let mut x = 0;
    while x < area.width {
        let Some(first) = cell(x) else { return };
        let look = Look::of(first);
        let start = x;
        let mut text = String::new();
        let mut columns = 0;
        while let Some(c) = cell(x).filter(|c| x < area.width && Look::of(c) == look) {
            text.push_str(c.symbol());
            let w = c.symbol().width().max(1) as u16;
            columns += w;
            x += w;
        }
        stretch(out, &look, start, y, columns, &text);
    }
}

fn stretch(out: &mut String, look: &Look, x: u16, y: u16, columns: u16, text: &str) {
    let (left, top, width) = (f64::from(x) * WIDE, f64::from(y) * HIGH, f64::from(columns) * WIDE);
    if look.back != PAPER {
        let fill = look.back;
        let _ = writeln!(
            out,
            "<rect x=\"{left:.1}\" y=\"{top:.1}\" width=\"{width:.1}\" height=\"{HIGH}\" fill=\"{fill}\" shape-rendering=\"crispEdges\"/>"
        );
    }
    // Blanks at both ends need no text; each word is placed by itself, so that nothing can drift.
    let mut at = 0;
    for piece in text.split_inclusive(' ') {
        let word = piece.trim_end_matches(' ');
        let mut column = at;
        for part in parts(word) {
            words(out, look, left + column as f64 * WIDE, top, part);
            column += part.width();
        }
        at += piece.width();
    }
}

/// A word cut where box-drawing begins and ends.
fn parts(word: &str) -> Vec<&str> {
    let mut parts = Vec::new();
    let mut rest = word;
    while let Some(first) = rest.chars().next() {
        let boxes = lines::arms(first).is_some();
        let end = rest.find(|c| lines::arms(c).is_some() != boxes).unwrap_or(rest.len());
        let (part, more) = rest.split_at(end);
        parts.push(part);
        rest = more;
    }
    parts
}

/// One part at its column: as lines, or as letters.
fn words(out: &mut String, look: &Look, x: f64, top: f64, part: &str) {
    let (ink, extra) = (look.ink, look.extra());
    if part.starts_with(|c| lines::arms(c).is_some()) {
        let (mut thin, mut thick) = (String::new(), String::new());
        let mut at = x;
        for run in part.chars().chunk_by(|c| *c).into_iter().map(|(c, run)| (c, run.count())) {
            // A long horizontal line is one stroke; the others are drawn cell by cell.
            let (c, count) = run;
            let (strokes, wide) = if matches!(c, '─' | '━') { (1, count as f64) } else { (count, 1.0) };
            for _ in 0..strokes {
                if let Some((a, b)) = lines::path(c, at, top, WIDE * wide, HIGH) {
                    thin.push_str(&a);
                    thick.push_str(&b);
                }
                at += WIDE * wide;
            }
        }
        for (path, weight) in [(thin, "1"), (thick, "2.2")].iter().filter(|(p, _)| !p.is_empty()) {
            let dim = if look.dim { " opacity=\"0.62\"" } else { "" };
            let _ = writeln!(out, "<path d=\"{path}\" stroke=\"{ink}\" stroke-width=\"{weight}\" fill=\"none\"{dim}/>");
        }
        return;
    }
    let (base, length, text) = (top + 13.0, part.width() as f64 * WIDE, escape(part));
    let fit = format!("textLength=\"{length:.1}\" lengthAdjust=\"spacingAndGlyphs\"");
    let _ = writeln!(out, "<text x=\"{x:.1}\" y=\"{base:.1}\" {fit} fill=\"{ink}\"{extra}>{text}</text>");
}

#[derive(PartialEq)]
struct Look {
    ink: &'static str,
    back: &'static str,
    bold: bool,
    dim: bool,
    underlined: bool,
}

impl Look {
    fn of(cell: &Cell) -> Look {
        let (mut ink, mut back) = (colour(cell.fg, INK), colour(cell.bg, PAPER));
        if cell.modifier.contains(Modifier::REVERSED) {
            std::mem::swap(&mut ink, &mut back);
        }
        let has = |m| cell.modifier.contains(m);
        let dim = has(Modifier::DIM);
        Look { ink, back, bold: has(Modifier::BOLD), dim, underlined: has(Modifier::UNDERLINED) }
    }

    fn extra(&self) -> String {
        let mut words = String::new();
        if self.bold {
            words.push_str(" font-weight=\"bold\"");
        }
        if self.dim {
            words.push_str(" opacity=\"0.62\"");
        }
        if self.underlined {
            words.push_str(" text-decoration=\"underline\"");
        }
        words
    }
}

fn colour(colour: Color, usual: &'static str) -> &'static str {
    match colour {
        Color::Red => "#f2777a",
        Color::Green => "#99cc99",
        Color::Yellow => "#ffcc66",
        Color::Blue => "#6699cc",
        Color::Magenta => "#d499d4",
        Color::Cyan => "#66cccc",
        Color::Black => "#000000",
        Color::White => "#ffffff",
        _ => usual,
    }
}

fn escape(text: &str) -> String {
    text.replace(char::is_control, "").render().into_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use ratatui::layout::Rect;
    use ratatui::style::Style;

    #[test]
    fn a_stretch_of_one_style_is_placed_by_column() {
        let mut buffer = Buffer::empty(Rect::new(0, 0, 12, 1));
        buffer.set_string(2, 0, "a<b 冷", Style::new().fg(Color::Red));
        let svg = svg(&buffer, "t&t");
        assert!(svg.contains("<title>t&amp;t</title>"));
        assert!(svg.contains("x=\"16.8\"") && svg.contains("a&lt;b</text>"), "{svg}");
        assert!(svg.contains("x=\"50.4\"") && svg.contains("冷</text>"), "{svg}");
    }
}
