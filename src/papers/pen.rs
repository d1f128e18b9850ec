//! The pen that drawings are made with: lines, shapes and words in millimetres, black on white.
//!
//! What it drew stays data, so that a page of HTML, a file of SVG and a sheet of PDF show the same.

use super::clean::clean;
use maud::Render;
use std::fmt::Write;

/// Letter size of a drawing.
pub const LETTER: f64 = 2.7;
const STYLE: &str = "path,rect,circle{fill:none;stroke:#000;stroke-width:.35}\
rect,circle{fill:#fff}.heavy{stroke-width:1}.thin{stroke:#999;stroke-width:.15}\
.dashed{stroke-dasharray:.9 .7;stroke-width:.25}.dot{fill:#000}\
text{fill:#000;font-family:'Liberation Sans','DejaVu Sans',Arial,Helvetica,sans-serif}";

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// As most are: 0.35 mm.
    Plain,
    /// Thin and grey: the ground of a curve.
    Thin,
    /// 1 mm.
    Heavy,
    /// Broken: 0.25 mm.
    Dashed,
}

/// Where a text is anchored.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its left end.
    Start,
    /// Its middle.
    Middle,
}

/// Words of a drawing, clean already.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// Where they are anchored, on the line they stand on.
    pub at: (f64, f64),
    /// What they say.
    pub text: String,
    /// Which end is there.
    pub anchor: Anchor,
    /// For names.
    pub bold: bool,
    /// The width that they are squeezed into.
    pub width: Option<f64>,
}

/// One stroke of the pen.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A line from point to point.
    Line(Vec<(f64, f64)>, Stroke),
    /// One wave around a point, 3.2 mm wide: alternating current.
    Wave(f64, f64),
    /// A rectangle, white inside: left, top, width, height.
    Rect(f64, f64, f64, f64),
    /// A circle, white inside: middle and radius.
    Circle(f64, f64, f64),
    /// A filled dot of 0.9 mm radius.
    Dot(f64, f64),
    /// Words.
    Words(Words),
    /// Marks of another pen, moved.
    Group(f64, f64, Vec<Mark>),
}

/// Collects marks.
#[derive(Debug, Default)]
pub struct Pen {
    marks: Vec<Mark>,
}

/// A drawing that is done.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Picture {
    /// Its size in millimetres.
    pub width: f64,
    /// Its height.
    pub height: f64,
    /// What it shows, for whoever cannot see it.
    pub title: String,
    /// What was drawn, in order: later ones cover earlier ones.
    pub marks: Vec<Mark>,
}

impl Pen {
    /// A straight line.
    pub fn line(&mut self, x1: f64, y1: f64, x2: f64, y2: f64) {
        self.stroke(x1, y1, x2, y2, Stroke::Plain);
    }

    /// A thin grey line: the ground of a curve.
    pub fn thin(&mut self, x1: f64, y1: f64, x2: f64, y2: f64) {
        self.stroke(x1, y1, x2, y2, Stroke::Thin);
    }

    /// A heavy line.
    pub fn heavy(&mut self, x1: f64, y1: f64, x2: f64, y2: f64) {
        self.stroke(x1, y1, x2, y2, Stroke::Heavy);
    }

    /// A dashed line.
    pub fn dashed(&mut self, x1: f64, y1: f64, x2: f64, y2: f64) {
        self.stroke(x1, y1, x2, y2, Stroke::Dashed);
    }

    fn stroke(&mut self, x1: f64, y1: f64, x2: f64, y2: f64, stroke: Stroke) {
        self.marks.push(Mark::Line(vec![(x1, y1), (x2, y2)], stroke));
    }

    /// A line through points.
    pub fn polyline(&mut self, points: &[(f64, f64)]) {
        self.marks.push(Mark::Line(points.to_vec(), Stroke::Plain));
    }

    /// One wave: alternating current.
    pub fn wave(&mut self, x: f64, y: f64) {
        self.marks.push(Mark::Wave(x, y));
    }

    /// Everything of another pen, moved.
    pub fn group(&mut self, x: f64, y: f64, inner: Pen) {
        self.marks.push(Mark::Group(x, y, inner.marks));
    }

    /// A rectangle, white inside.
    pub fn rect(&mut self, x: f64, y: f64, w: f64, h: f64) {
        self.marks.push(Mark::Rect(x, y, w, h));
    }

    /// A circle, white inside.
    pub fn circle(&mut self, x: f64, y: f64, r: f64) {
        self.marks.push(Mark::Circle(x, y, r));
    }

    /// A filled dot: conductors that are joined.
    pub fn dot(&mut self, x: f64, y: f64) {
        self.marks.push(Mark::Dot(x, y));
    }

    /// Words; `bold` for names.
    pub fn text(&mut self, x: f64, y: f64, text: &str, anchor: Anchor, bold: bool) {
        self.words(Words { at: (x, y), text: text.into(), anchor, bold, width: None });
    }

    /// Words squeezed into a width.
    pub fn squeezed(&mut self, x: f64, y: f64, width: f64, text: &str, bold: bool) {
        self.words(Words { at: (x, y), text: text.into(), anchor: Anchor::Start, bold, width: Some(width) });
    }

    /// Two signs are not allowed in XML at all.
    fn words(&mut self, words: Words) {
        let text = clean(&words.text).replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}");
        self.marks.push(Mark::Words(Words { text, ..words }));
    }

    /// All of it as a drawing so wide and high, on white.
    pub fn picture(self, width: f64, height: f64, title: &str) -> Picture {
        Picture { width, height, title: clean(title), marks: self.marks }
    }
}

impl Picture {
    /// As SVG, a whole `<svg>` element.
    pub fn svg(&self) -> String {
        let (width, height) = (self.width, self.height);
        let mut out = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-label=\"{}\" width=\"{width:.1}mm\" \
             height=\"{height:.1}mm\" viewBox=\"0 0 {width:.1} {height:.1}\" font-size=\"{LETTER}\">\n\
             <style>{STYLE}</style>\n<rect style=\"stroke:none\" width=\"{width:.1}\" height=\"{height:.1}\"/>\n",
            escape(&self.title)
        );
        elements(&mut out, &self.marks);
        out.push_str("</svg>\n");
        out
    }
}

fn elements(out: &mut String, marks: &[Mark]) {
    for mark in marks {
        // Writing to a string cannot fail.
        let _ = match mark {
            Mark::Line(points, stroke) => line(out, points, *stroke),
            Mark::Wave(x, y) => writeln!(out, "<path d=\"M{:.1} {y:.1}q0.8 -1.6 1.6 0t1.6 0\"/>", x - 1.6),
            Mark::Rect(x, y, w, h) => {
                writeln!(out, "<rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{w:.1}\" height=\"{h:.1}\"/>")
            }
            Mark::Circle(x, y, r) => writeln!(out, "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"{r:.1}\"/>"),
            Mark::Dot(x, y) => writeln!(out, "<circle class=\"dot\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"0.9\"/>"),
            Mark::Words(words) => text(out, words),
            Mark::Group(x, y, inner) => {
                let _ = writeln!(out, "<g transform=\"translate({x} {y})\">");
                elements(out, inner);
                writeln!(out, "</g>")
            }
        };
    }
}

fn line(out: &mut String, points: &[(f64, f64)], stroke: Stroke) -> std::fmt::Result {
    let class = match stroke {
        Stroke::Plain => "",
        Stroke::Thin => " class=\"thin\"",
        Stroke::Heavy => " class=\"heavy\"",
        Stroke::Dashed => " class=\"dashed\"",
    };
    write!(out, "<path{class} d=\"")?;
    for (n, (x, y)) in points.iter().enumerate() {
        let sign = if n == 0 { 'M' } else { 'L' };
        // A curve has many points close to each other.
        if points.len() > 2 {
            write!(out, "{sign}{x:.2} {y:.2}")?
        } else {
            write!(out, "{sign}{x:.1} {y:.1}")?
        };
    }
    writeln!(out, "\"/>")
}

fn text(out: &mut String, words: &Words) -> std::fmt::Result {
    let (x, y) = words.at;
    let anchor = if words.anchor == Anchor::Middle { " text-anchor=\"middle\"" } else { "" };
    let weight = if words.bold { " font-weight=\"bold\"" } else { "" };
    let said = escape(&words.text);
    match words.width {
        Some(width) => {
            let fit = format!("textLength=\"{width:.1}\" lengthAdjust=\"spacingAndGlyphs\"");
            writeln!(out, "<text x=\"{x:.1}\" y=\"{y:.1}\" {fit}{weight}>{said}</text>")
        }
        None => writeln!(out, "<text x=\"{x:.1}\" y=\"{y:.1}\"{anchor}{weight}>{said}</text>"),
    }
}

fn escape(text: &str) -> String {
    text.render().into_string()
}
