//! Labels to cut out: printed at their size, with the part that wraps around the cable.
//!
//! A label is a strip: words at its head, and below them a tail long enough to go once
//! around the cable and over the words. Three lengths do for every cable; what is too thick for the
//! longest gets that one as a flag.

use super::columns::wrap;
use super::document::{Block, Document, Drawing};
use super::job::Job;
use super::labels::{Label, labels_of};
use super::pen::{Anchor, Pen, Picture};
use crate::engine::physics::conductor::cable::Cable;
use crate::quantity::Millimetres;
use std::f64::consts::PI;

/// Lengths of a label, of which the smallest is taken that goes around.
const LENGTHS: [f64; 3] = [24.0, 38.0, 62.0];
/// Width of a label, along the cable, and how many stand side by side.
const WIDTH: f64 = 36.0;
const ABREAST: usize = 5;
/// From line to line of the words at its head, and what they leave below them.
const LINE: f64 = 3.1;
const BELOW: f64 = 1.7;
/// The tail goes around with so much to spare.
const SPARE: f64 = 1.05;
/// Height of a sheet that fits A4 and Letter below its heading, the ruler included.
const SHEET: f64 = 205.0;
/// What the first sheet leaves to the words above it.
const ABOVE: f64 = 55.0;
/// Height of the ruler.
const RULER: f64 = 9.0;
/// Letters that fit into a line, and those that still can be read squeezed; more take another line.
const FIT: usize = 26;
const SQUEEZED: usize = 38;

/// The sheets of a design.
pub fn label_sheet(job: &Job) -> Document {
    let mut paper = Document::new(format!("Labels to cut out – {}", job.title()));
    // The ruler on it is one of millimetres.
    paper.metric = true;
    paper.paragraph(
        "Print at 100 %, the ruler must measure 50 mm. Cut along the dashed lines. Wrap the blank tail around the cable \
         first, so that the words lie on top, and put clear sleeve or clear tape over all of it. A label marked FLAG is \
         shorter than its cable is round: fold it over and let it stand off.",
    );
    let mut all: Vec<Cut> = labels_of(job).into_iter().map(|label| Cut::of(job, label)).collect();
    all.sort_by(|a, b| a.length.total_cmp(&b.length));
    let sheets = sheets(all);
    for (n, sheet) in sheets.iter().enumerate() {
        let caption = format!("Sheet {} of {}", n + 1, sheets.len());
        let drawing = Drawing { picture: Some(draw(sheet, &caption)), caption, text: String::new() };
        paper.blocks.push(Block::Drawing(drawing));
    }
    paper
}

/// A label with its length.
struct Cut {
    /// The first in bold.
    lines: Vec<String>,
    length: f64,
}

fn broken(text: String) -> Vec<String> {
    if text.chars().count() <= SQUEEZED { vec![text] } else { wrap(&text, SQUEEZED) }
}

fn words_height(lines: &[String]) -> f64 {
    lines.len() as f64 * LINE + BELOW
}

impl Cut {
    fn of(job: &Job, label: Label) -> Cut {
        let cable = Cable::labelled(job.catalogue, &label.size);
        let lines = |flag: &str| {
            let Label { number, here, there, line, .. } = &label;
            let all = [format!("{number}  {line}{flag}"), here.clone(), format!("to {there}")];
            all.into_iter().flat_map(broken).collect::<Vec<String>>()
        };
        let plain = lines("");
        let around = PI * cable.map_or(Millimetres::ZERO, |c| c.conductor.outside).get() * SPARE;
        let enough = LENGTHS.into_iter().find(|length| words_height(&plain) + around <= *length);
        match enough {
            Some(length) => Cut { lines: plain, length },
            None => Cut { lines: lines("  FLAG"), length: LENGTHS[2] },
        }
    }
}

/// Rows of labels alike in length, as many as fit onto a sheet.
fn sheets(all: Vec<Cut>) -> Vec<Vec<Vec<Cut>>> {
    let mut rows: Vec<Vec<Cut>> = Vec::new();
    for cut in all {
        match rows.last_mut().filter(|row| row.len() < ABREAST && row.iter().all(|c| c.length == cut.length)) {
            Some(row) => row.push(cut),
            None => rows.push(vec![cut]),
        }
    }
    let mut sheets: Vec<Vec<Vec<Cut>>> = Vec::new();
    let mut left = 0.0;
    for row in rows {
        let height = height(&row);
        if height > left {
            left = SHEET - RULER - if sheets.is_empty() { ABOVE } else { 0.0 };
            sheets.push(Vec::new());
        }
        left -= height;
        if let Some(sheet) = sheets.last_mut() {
            sheet.push(row);
        }
    }
    sheets
}

fn height(row: &[Cut]) -> f64 {
    row.first().map_or(0.0, |cut| cut.length)
}

fn draw(sheet: &[Vec<Cut>], title: &str) -> Picture {
    let mut pen = Pen::default();
    pen.line(0.2, 3.0, 50.2, 3.0);
    [0.2, 50.2].into_iter().for_each(|x| pen.line(x, 1.0, x, 5.0));
    pen.text(52.0, 4.0, "50 mm", Anchor::Start, false);
    let mut y = RULER;
    for row in sheet {
        let mut one = Pen::default();
        for (n, cut) in row.iter().enumerate() {
            label(&mut one, WIDTH * n as f64, cut);
        }
        pen.group(0.2, y, one);
        y += height(row);
    }
    pen.picture(WIDTH * ABREAST as f64 + 0.4, y + 0.4, title)
}

fn label(pen: &mut Pen, x: f64, cut: &Cut) {
    let (right, bottom) = (x + WIDTH, cut.length);
    for (x1, y1, x2, y2) in
        [(x, 0.0, right, 0.0), (x, bottom, right, bottom), (x, 0.0, x, bottom), (right, 0.0, right, bottom)]
    {
        pen.dashed(x1, y1, x2, y2);
    }
    for (n, text) in cut.lines.iter().enumerate() {
        let (y, x) = (3.4 + LINE * n as f64, x + 1.2);
        if text.chars().count() > FIT {
            pen.squeezed(x, y, WIDTH - 2.4, text, n == 0);
        } else {
            pen.text(x, y, text, Anchor::Start, n == 0);
        }
    }
    let below = words_height(&cut.lines);
    pen.thin(x + 1.0, below, right - 1.0, below);
}
