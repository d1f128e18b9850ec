//! How does what stands on a page get into a PDF?

use super::face::{Face, Faces};
use super::slab::Item;
use crate::papers::pen::{Anchor, LETTER, Mark, Picture, Stroke, Words};
use krilla::color::luma;
use krilla::geom::{PathBuilder, Point, Rect, Transform};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, StrokeDash};
use krilla::surface::Surface;

const BLACK: u8 = 0;
const GREY: u8 = 0x99;

/// Draws on one page.
pub struct Ink<'s, 'p> {
    /// Widths and fonts.
    pub faces: &'static Faces,
    /// The page.
    pub surface: &'s mut Surface<'p>,
}

impl Ink<'_, '_> {
    /// Draw it. What leads elsewhere is the caller's.
    pub fn item(&mut self, item: &Item<'_>) {
        match item {
            Item::Words { x, y, face, size, text } => self.words(*x, *y, *face, *size, text),
            Item::Rule { from, to, width, grey } => {
                self.stroke(*width, if *grey { GREY } else { BLACK }, None);
                self.line(&[*from, *to]);
            }
            Item::Picture { x, y, scale, picture } => self.picture(*x, *y, *scale, picture),
            Item::PageOf { .. } | Item::Begins { .. } => {}
        }
    }

    /// Words on their line.
    pub fn words(&mut self, x: f64, y: f64, face: Face, size: f64, text: &str) {
        let glyphs = self.faces.glyphs(text, face);
        self.fill(BLACK);
        self.surface.set_stroke(None);
        let at = Point::from_xy(x as f32, y as f32);
        self.surface.draw_glyphs(at, &glyphs, self.faces.font(face), text, size as f32, false);
    }

    fn fill(&mut self, lightness: u8) {
        let paint = luma::Color::new(lightness).into();
        self.surface.set_fill(Some(Fill { paint, opacity: NormalizedF32::ONE, rule: Default::default() }));
    }

    fn stroke(&mut self, width: f64, lightness: u8, dash: Option<StrokeDash>) {
        let paint = luma::Color::new(lightness).into();
        let stroke = krilla::paint::Stroke { paint, width: width as f32, dash, ..Default::default() };
        self.surface.set_stroke(Some(stroke));
    }

    fn line(&mut self, points: &[(f64, f64)]) {
        let mut path = PathBuilder::new();
        for (n, (x, y)) in points.iter().enumerate() {
            if n == 0 { path.move_to(*x as f32, *y as f32) } else { path.line_to(*x as f32, *y as f32) }
        }
        self.surface.set_fill(None);
        self.path(path);
    }

    /// A path of nothing is not drawn.
    fn path(&mut self, path: PathBuilder) {
        if let Some(path) = path.finish() {
            self.surface.draw_path(&path);
        }
    }

    fn picture(&mut self, x: f64, y: f64, scale: f64, picture: &Picture) {
        self.marks(Place { x, y, scale }, &picture.marks);
    }

    fn marks(&mut self, place: Place, marks: &[Mark]) {
        for mark in marks {
            match mark {
                Mark::Line(points, stroke) => {
                    let (width, grey, dash) = line_style(*stroke);
                    let dash = dash.map(|dash| StrokeDash {
                        array: dash.iter().map(|d| (d * place.scale) as f32).collect(),
                        offset: 0.0,
                    });
                    self.stroke(width * place.scale, grey, dash);
                    let points: Vec<(f64, f64)> = points.iter().map(|p| place.at(*p)).collect();
                    self.line(&points);
                }
                Mark::Wave(x, y) => self.wave(place, *x, *y),
                Mark::Rect(x, y, w, h) => {
                    let (left, top) = place.at((*x, *y));
                    let (right, bottom) = place.at((x + w, y + h));
                    if let Some(rect) = Rect::from_ltrb(left as f32, top as f32, right as f32, bottom as f32) {
                        self.white(place);
                        let mut path = PathBuilder::new();
                        path.push_rect(rect);
                        self.path(path);
                    }
                }
                Mark::Circle(x, y, r) => {
                    self.white(place);
                    self.circle(place, (*x, *y), *r);
                }
                Mark::Dot(x, y) => {
                    self.fill(BLACK);
                    self.surface.set_stroke(None);
                    self.circle(place, (*x, *y), 0.9);
                }
                Mark::Words(words) => self.drawn_words(place, words),
                Mark::Group(x, y, inner) => {
                    let (x, y) = place.at((*x, *y));
                    self.marks(Place { x, y, ..place }, inner);
                }
            }
        }
    }

    /// White inside, with a line around.
    fn white(&mut self, place: Place) {
        self.fill(u8::MAX);
        self.stroke(0.35 * place.scale, BLACK, None);
    }

    fn wave(&mut self, place: Place, x: f64, y: f64) {
        self.stroke(0.35 * place.scale, BLACK, None);
        self.surface.set_fill(None);
        let mut path = PathBuilder::new();
        let at = |x: f64, y: f64| {
            let (x, y) = place.at((x, y));
            (x as f32, y as f32)
        };
        let (begin, middle, end) = (at(x - 1.6, y), at(x, y), at(x + 1.6, y));
        let (up, down) = (at(x - 0.8, y - 1.6), at(x + 0.8, y + 1.6));
        path.move_to(begin.0, begin.1);
        path.quad_to(up.0, up.1, middle.0, middle.1);
        path.quad_to(down.0, down.1, end.0, end.1);
        self.path(path);
    }

    /// Four arcs; 0.5523 is how far the handle of a cubic stands off for a quarter of a circle.
    fn circle(&mut self, place: Place, middle: (f64, f64), r: f64) {
        let (x, y) = place.at(middle);
        let (x, y, r) = (x as f32, y as f32, (r * place.scale) as f32);
        let k = 0.5523 * r;
        let mut path = PathBuilder::new();
        path.move_to(x + r, y);
        path.cubic_to(x + r, y + k, x + k, y + r, x, y + r);
        path.cubic_to(x - k, y + r, x - r, y + k, x - r, y);
        path.cubic_to(x - r, y - k, x - k, y - r, x, y - r);
        path.cubic_to(x + k, y - r, x + r, y - k, x + r, y);
        path.close();
        self.path(path);
    }

    /// Words that are squeezed into a width get narrower, never wider.
    fn drawn_words(&mut self, place: Place, words: &Words) {
        let face = if words.bold { Face::Bold } else { Face::Plain };
        let size = LETTER * place.scale;
        let wide = self.faces.width(&words.text, face, size);
        let (x, y) = place.at(words.at);
        let x = if words.anchor == Anchor::Middle { x - wide / 2.0 } else { x };
        match words.width.map(|width| width * place.scale / wide.max(1e-6)).filter(|squeeze| *squeeze < 1.0) {
            Some(squeeze) => {
                let to = Transform::from_row(squeeze as f32, 0.0, 0.0, 1.0, x as f32, y as f32);
                self.surface.push_transform(&to);
                self.words(0.0, 0.0, face, size, &words.text);
                self.surface.pop();
            }
            None => self.words(x, y, face, size, &words.text),
        }
    }
}

/// Where a picture stands, and how large its millimetres are.
#[derive(Clone, Copy)]
struct Place {
    x: f64,
    y: f64,
    scale: f64,
}

impl Place {
    fn at(&self, (x, y): (f64, f64)) -> (f64, f64) {
        (self.x + x * self.scale, self.y + y * self.scale)
    }
}

/// Width in millimetres, lightness, and strokes of a broken line.
fn line_style(stroke: Stroke) -> (f64, u8, Option<[f64; 2]>) {
    match stroke {
        Stroke::Plain => (0.35, BLACK, None),
        Stroke::Thin => (0.15, GREY, None),
        Stroke::Heavy => (1.0, BLACK, None),
        Stroke::Dashed => (0.25, BLACK, Some([0.9, 0.7])),
    }
}
