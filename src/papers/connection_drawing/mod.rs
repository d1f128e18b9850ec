//! The connection drawing: both poles of everything, terminal by terminal, on sheets that join by the names of places.
//!
//! The overview comes first, then each device with its studs, then each run with its plus and its minus between two
//! places. All of it is read off the connection table, so that both say the same.

mod chain;
mod device;
mod row;
mod words;

use super::diagram::{self, symbol};
use super::document::{Block, Document, Drawing};
use super::job::Job;
use super::pen::{Anchor, Pen, Picture};
use crate::engine::{connections, control_wires};
use chain::{Element, Row};
use device::{BOX, Device};
use itertools::Itertools;
use row::{Laid, WIDTH, names};
use words::{LINE, fit};

/// Height that a sheet has for what it shows, on A4 and Letter below its heading.
const SHEET: f64 = 205.0;
/// Between boxes.
const GAP: f64 = 3.0;
/// What the first sheet of a kind leaves to nothing else: the key of symbols.
const KEY: f64 = 9.0;

/// The drawing of a design.
pub fn connection_drawing(job: &Job) -> Document {
    let mut paper = Document::new(format!("Connection drawing – {}", job.title()));
    paper.paragraph(
        "First the overview, then each device with what sits on its studs, then each run: its plus with its devices \
         above its minus, between the places at its ends. Arrows say on which sheet a place goes on. Sizes, lengths along \
         the loom and lugs are those of the cut list; the connection table says the same in words.",
    );
    let list = connections(job.design);
    let rows = chain::rows(&list, job.plan.job.units.system());
    let styles: Vec<&str> = rows.iter().flat_map(styles_of).unique().collect();
    let overview = diagram::layout(job.plan, job.design).pictures();
    let devices = device::devices(job, &list, &control_wires(job.design));
    let boxes = on_sheets(&devices);
    let mut laid: Vec<Laid<'_>> = rows.iter().map(Laid::of).collect();
    let runs = in_sheets(laid.iter().map(Laid::height));
    let before = overview.len() + boxes.len();
    go_on(&rows, &mut laid, &runs, before);
    let count = before + runs.len();
    let mut sheets: Vec<(&str, Picture)> = overview.into_iter().map(|picture| ("overview", picture)).collect();
    sheets.extend(boxes.iter().map(|placed| ("devices", draw_devices(&devices, placed))));
    sheets.extend(runs.iter().map(|range| ("runs", draw_runs(&laid[range.clone()], &rows[range.clone()], &styles))));
    for (n, (what, picture)) in sheets.into_iter().enumerate() {
        let caption = format!("Sheet {} of {count}: {what}", n + 1);
        paper.blocks.push(Block::Drawing(Drawing { caption, picture: Some(picture), text: String::new() }));
    }
    paper
}

fn styles_of(row: &Row) -> impl Iterator<Item = &str> {
    row.plus.iter().chain(&row.minus).filter_map(|e| match e {
        Element::Device(_, _, style) => Some(style.as_str()),
        _ => None,
    })
}

/// Which of so many heights one below the other go onto which sheet.
fn in_sheets(heights: impl Iterator<Item = f64>) -> Vec<std::ops::Range<usize>> {
    let mut sheets: Vec<std::ops::Range<usize>> = Vec::new();
    let mut left = 0.0;
    for (n, height) in heights.enumerate() {
        match sheets.last_mut().filter(|_| height <= left) {
            Some(sheet) => sheet.end = n + 1,
            None => {
                sheets.push(n..n + 1);
                left = SHEET;
            }
        }
        left -= height;
    }
    sheets
}

/// A place that begins runs is drawn there: whoever ends at it is told the sheet, if it is another one.
fn go_on(rows: &[Row], laid: &mut [Laid<'_>], sheets: &[std::ops::Range<usize>], before: usize) {
    let sheet_of = |n: usize| sheets.iter().position(|range| range.contains(&n)).map(|n| before + n + 1);
    let begins = |at: &str| rows.iter().position(|row| names(row)[0] == Some(at)).and_then(sheet_of);
    for (n, row) in rows.iter().enumerate() {
        let [near, far] = names(row);
        let here = sheet_of(n);
        laid[n].on[1] = far.and_then(begins).filter(|sheet| Some(*sheet) != here);
        // The first run of a place is where it is looked for; the others are reached from there.
        let ends = |at: &str| rows.iter().position(|row| names(row)[1] == Some(at)).and_then(sheet_of);
        laid[n].on[0] = near.and_then(ends).filter(|sheet| Some(*sheet) != here);
    }
}

/// A box, and where its left upper corner stands.
type Placed = (usize, f64, f64);

/// Boxes in two columns, each into the shorter one.
fn on_sheets(devices: &[Device]) -> Vec<Vec<Placed>> {
    let mut sheets: Vec<Vec<Placed>> = Vec::new();
    let mut down = [SHEET; 2];
    for (n, device) in devices.iter().enumerate() {
        let height = device.height() + GAP;
        let mut column = usize::from(down[1] < down[0]);
        if down[column] > 0.0 && down[column] + height > SHEET || sheets.is_empty() {
            sheets.push(Vec::new());
            down = [0.0; 2];
            column = 0;
        }
        let x = if column == 0 { 0.0 } else { WIDTH - BOX };
        sheets.last_mut().into_iter().for_each(|sheet| sheet.push((n, x, down[column])));
        down[column] += height;
    }
    sheets
}

fn draw_devices(devices: &[Device], placed: &[Placed]) -> Picture {
    let mut pen = Pen::default();
    let mut bottom: f64 = 0.0;
    for (n, x, y) in placed {
        let Some(device) = devices.get(*n) else { continue };
        pen.group(*x + 1.0, *y + 1.0, device.draw());
        bottom = bottom.max(y + device.height());
    }
    pen.picture(WIDTH + 2.0, bottom + 2.0, "Devices")
}

fn draw_runs(laid: &[Laid<'_>], rows: &[Row], styles: &[&str]) -> Picture {
    let mut pen = Pen::default();
    let mut y = 1.0;
    let letter = |style: &str| styles.iter().position(|s| *s == style).map_or_else(String::new, letter);
    for row in laid {
        pen.group(1.0, y, row.draw(&letter));
        y += row.height();
    }
    let mut x = 1.0;
    pen.line(x, y + 3.0, x + 8.0, y + 3.0);
    symbol::fuse(&mut pen, x + 1.0, y + 3.0, "");
    pen.text(x + 10.0, y + 4.0, "fuse or breaker (IEC 60617)", Anchor::Start, false);
    symbol::frame(&mut pen, x + 62.0, y + 1.5);
    pen.text(x + 66.0, y + 4.0, "the vehicle's body", Anchor::Start, false);
    pen.dot(x + 98.0, y + 3.0);
    pen.text(x + 101.0, y + 4.0, "a stud", Anchor::Start, false);
    y += KEY;
    // In two columns.
    let used: Vec<&str> = rows.iter().flat_map(styles_of).unique().collect();
    for (n, style) in used.iter().enumerate() {
        x = 1.0 + if n % 2 == 0 { 0.0 } else { WIDTH / 2.0 };
        fit(&mut pen, x, y, WIDTH / 2.0 - 2.0, &format!("{}: {style}", letter(style)), false);
        y += if n % 2 == 1 || n + 1 == used.len() { LINE } else { 0.0 };
    }
    pen.picture(WIDTH + 2.0, y + 1.0, "Runs")
}

/// `A`, `B`, … `Z`, `A1`, …
fn letter(n: usize) -> String {
    let letter = char::from(b'A' + (n % 26) as u8);
    if n < 26 { letter.to_string() } else { format!("{letter}{}", n / 26) }
}
