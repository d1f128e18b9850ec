//! The pen that drawings are made with: lines, shapes and words as SVG, black on white, in millimetres.

use super::clean::clean;
use maud::Render;
use std::fmt::Write;

/// Letter size of a drawing.
pub const LETTER: f64 = 2.7;
const STYLE: &str = "path,rect,circle{fill:none;stroke:#000;stroke-width:.35}\
rect,circle{fill:#fff}.heavy{stroke-width:1}.thin{stroke:#999;stroke-width:.15}\
.dashed{stroke-dasharray:.9 .7;stroke-width:.25}.dot{fill:#000}\
text{fill:#000;font-family:'Liberation Sans','DejaVu Sans',Arial,Helvetica,sans-serif}";

/// Collects SVG elements.
#[derive(Debug, Default)]
pub struct Pen {
    /// The elements so far.
    pub out: String,
}

/// Where a text is anchored.
#[derive(Clone, Copy, Debug)]
pub enum Anchor {
    /// Its left end.
    Start,
    /// Its middle.
    Middle,
}

impl Pen {
    /// A straight line.
    pub fn line(&mut self, x1: f64, y1: f64, x2: f64, y2: f64) {
        let _ = writeln!(self.out, "<path d=\"M{x1:.1} {y1:.1}L{x2:.1} {y2:.1}\"/>");
    }

    /// A thin grey line: the ground of a curve.
    pub fn thin(&mut self, x1: f64, y1: f64, x2: f64, y2: f64) {
        let _ = writeln!(self.out, "<path class=\"thin\" d=\"M{x1:.1} {y1:.1}L{x2:.1} {y2:.1}\"/>");
    }

    /// A line through points.
    pub fn polyline(&mut self, points: &[(f64, f64)]) {
        let all: Vec<String> = points.iter().map(|(x, y)| format!("{x:.2} {y:.2}")).collect();
        let _ = writeln!(self.out, "<path d=\"M{}\"/>", all.join("L"));
    }

    /// All of it as a drawing so wide and high, on white.
    pub fn svg(&self, width: f64, height: f64, title: &str) -> String {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" aria-label=\"{}\" width=\"{width:.1}mm\" \
             height=\"{height:.1}mm\" viewBox=\"0 0 {width:.1} {height:.1}\" font-size=\"{LETTER}\">\n\
             <style>{STYLE}</style>\n<rect style=\"stroke:none\" width=\"{width:.1}\" height=\"{height:.1}\"/>\n{}</svg>\n",
            escape(title),
            self.out
        )
    }

    /// Everything of another pen, moved.
    pub fn group(&mut self, x: f64, y: f64, inner: &Pen) {
        let _ = writeln!(self.out, "<g transform=\"translate({x} {y})\">\n{}</g>", inner.out);
    }

    /// A heavy line.
    pub fn heavy(&mut self, x1: f64, y1: f64, x2: f64, y2: f64) {
        let _ = writeln!(self.out, "<path class=\"heavy\" d=\"M{x1:.1} {y1:.1}L{x2:.1} {y2:.1}\"/>");
    }

    /// A dashed line.
    pub fn dashed(&mut self, x1: f64, y1: f64, x2: f64, y2: f64) {
        let _ = writeln!(self.out, "<path class=\"dashed\" d=\"M{x1:.1} {y1:.1}L{x2:.1} {y2:.1}\"/>");
    }

    /// A rectangle, white inside.
    pub fn rect(&mut self, x: f64, y: f64, w: f64, h: f64) {
        let _ = writeln!(self.out, "<rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{w:.1}\" height=\"{h:.1}\"/>");
    }

    /// A circle, white inside.
    pub fn circle(&mut self, x: f64, y: f64, r: f64) {
        let _ = writeln!(self.out, "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"{r:.1}\"/>");
    }

    /// A filled dot: conductors that are joined.
    pub fn dot(&mut self, x: f64, y: f64) {
        let _ = writeln!(self.out, "<circle class=\"dot\" cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"0.9\"/>");
    }

    /// Words; `bold` for names.
    pub fn text(&mut self, x: f64, y: f64, text: &str, anchor: Anchor, bold: bool) {
        let anchor = match anchor {
            Anchor::Start => "",
            Anchor::Middle => " text-anchor=\"middle\"",
        };
        let weight = if bold { " font-weight=\"bold\"" } else { "" };
        let _ = writeln!(self.out, "<text x=\"{x:.1}\" y=\"{y:.1}\"{anchor}{weight}>{}</text>", escape(text));
    }

    /// Words squeezed into a width.
    pub fn squeezed(&mut self, x: f64, y: f64, width: f64, text: &str, bold: bool) {
        let weight = if bold { " font-weight=\"bold\"" } else { "" };
        let fit = format!("textLength=\"{width:.1}\" lengthAdjust=\"spacingAndGlyphs\"");
        let _ = writeln!(self.out, "<text x=\"{x:.1}\" y=\"{y:.1}\" {fit}{weight}>{}</text>", escape(text));
    }
}

/// Safe as SVG text; two signs are not allowed in XML at all.
fn escape(text: &str) -> String {
    clean(text).replace(['\u{fffe}', '\u{ffff}'], "\u{fffd}").render().into_string()
}
