//! A curve over days, as a drawing and as characters.
//!
//! One line in black on a ruled ground; bars above it show when something was
//! cut off. As characters it is an area of block elements, one column for a
//! stretch of time, showing the lowest value in it.

use super::pen::{Anchor, Pen, Picture};
use crate::engine::{CurveAt, Endurance};
use crate::quantity::Hours;

/// Width and height of the plot, in millimetres.
const WIDE: f64 = 165.0;
const HIGH: f64 = 60.0;
/// Left of it and above it.
const LEFT: f64 = 14.0;
const TOP: f64 = 8.0;

/// State of charge over the days simulated, as a drawing.
pub fn charge_picture(endurance: &Endurance, title: &str) -> Picture {
    let hours = f64::from(endurance.days.max(1)) * 24.0;
    let x = |at: f64| LEFT + WIDE * (at / hours).clamp(0.0, 1.0);
    let y = |share: f64| TOP + HIGH * (1.0 - share.clamp(0.0, 1.0));
    let mut pen = Pen::default();
    for percent in [0u8, 20, 40, 60, 80, 100] {
        let at = y(f64::from(percent) / 100.0);
        pen.thin(LEFT, at, LEFT + WIDE, at);
        pen.text(1.0, at + 1.0, &format!("{percent} %"), Anchor::Start, false);
    }
    let step = (endurance.days / 15).max(1);
    for day in (0..=endurance.days).step_by(step as usize) {
        let at = x(f64::from(day) * 24.0);
        pen.thin(at, TOP, at, TOP + HIGH + 1.2);
        pen.text(at, TOP + HIGH + 4.5, &day.to_string(), Anchor::Middle, false);
    }
    pen.text(LEFT + WIDE / 2.0, TOP + HIGH + 9.0, "days", Anchor::Middle, false);
    let line: Vec<(f64, f64)> = endurance.points.iter().map(|p| (x(p.at.get()), y(p.charge.get()))).collect();
    pen.polyline(&line);
    for pair in endurance.points.windows(2) {
        if let [a, b] = pair
            && a.cut
        {
            pen.heavy(x(a.at.get()), TOP - 1.5, x(b.at.get()).max(x(a.at.get()) + 0.3), TOP - 1.5);
        }
    }
    if endurance.cuts > 0 {
        pen.text(LEFT, TOP - 3.5, "bars: the cut-off is open", Anchor::Start, false);
    }
    pen.picture(LEFT + WIDE + 4.0, TOP + HIGH + 11.0, title)
}

/// Columns of the plot as characters.
const COLUMNS: usize = 70;
/// Rows of it.
const ROWS: usize = 8;

/// State of charge over the days simulated, as characters.
pub fn charge_text(endurance: &Endurance) -> String {
    let hours = f64::from(endurance.days.max(1)) * 24.0;
    let mut lowest = [f64::NAN; COLUMNS];
    let mut cut = [false; COLUMNS];
    for p in &endurance.points {
        let column = ((p.at.get() / hours * COLUMNS as f64) as usize).min(COLUMNS - 1);
        lowest[column] = lowest[column].min(p.charge.get());
        cut[column] |= p.cut;
    }
    // A column without a point of its own goes on as the one before it.
    for n in 1..COLUMNS {
        if lowest[n].is_nan() {
            lowest[n] = lowest[n - 1];
        }
    }
    let mut out = String::new();
    for row in (0..ROWS).rev() {
        let label = match row + 1 {
            ROWS => "100 % ",
            r if r == ROWS / 2 => " 50 % ",
            _ => "      ",
        };
        let line: String = lowest.iter().map(|share| block(share * ROWS as f64 - row as f64)).collect();
        out.push_str(&format!("{label}│{}\n", line.trim_end()));
    }
    out.push_str(&format!("  0 % └{}\n", "─".repeat(COLUMNS)));
    out.push_str(&format!("       day 0{:>width$}\n", format!("day {}", endurance.days), width = COLUMNS - 5));
    if endurance.cuts > 0 {
        let bars: String = cut.iter().map(|c| if *c { '█' } else { ' ' }).collect();
        out.push_str(&format!("  cut   {}\n", bars.trim_end()));
    }
    out
}

/// The block element that fills so much of a cell.
fn block(share: f64) -> char {
    const EIGHTHS: [char; 9] = [' ', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];
    let eighths = (share * 8.0).round().clamp(0.0, 8.0);
    EIGHTHS.get(eighths as usize).copied().unwrap_or(' ')
}

/// Rows of a plot of two curves.
const TALL: usize = 14;

/// Voltage over time, measured and expected, as characters.
pub fn curve_text(curve: &[CurveAt]) -> String {
    let last = curve.iter().map(|c| c.at.get()).fold(1e-6, f64::max);
    let all = || curve.iter().flat_map(|c| [Some(c.measured), c.planned]).flatten().map(|v| v.get());
    let (low, high) = (all().fold(f64::MAX, f64::min), all().fold(f64::MIN, f64::max));
    let (low, high) = ((low * 10.0).floor() / 10.0, (high * 10.0).ceil() / 10.0);
    let mut marks = vec![vec![' '; COLUMNS]; TALL];
    let mut put = |at: f64, volts: f64, mark: char| {
        let column = ((at / last * COLUMNS as f64) as usize).min(COLUMNS - 1);
        let row = ((high - volts) / (high - low).max(1e-6) * (TALL - 1) as f64).round() as usize;
        let cell = &mut marks[row.min(TALL - 1)][column];
        *cell = if *cell == ' ' || *cell == mark { mark } else { '*' };
    };
    for point in curve {
        if let Some(planned) = point.planned {
            put(point.at.get(), planned.get(), '-');
        }
        put(point.at.get(), point.measured.get(), 'o');
    }
    let volts = |row: usize| high - (high - low) * row as f64 / (TALL - 1) as f64;
    let mut out = String::new();
    for (row, cells) in marks.iter().enumerate() {
        let label = if row % 3 == 0 || row + 1 == TALL { format!("{:5.2} V ", volts(row)) } else { " ".repeat(8) };
        out.push_str(&label);
        out.extend(cells);
        out.push('\n');
    }
    out.push_str(&format!("{}0 to {}\n", " ".repeat(8), Hours::new(last)));
    out
}
