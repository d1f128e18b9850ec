//! The axes of a plot: each label where its value lies.

use super::width::{fit, width};
use crate::screens::app::App;
use crate::screens::pane::Plot;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Style;

/// Where a value lies among so many cells, of which each has so many dots.
pub fn cell(value: f64, from: f64, to: f64, cells: u16, dots: f64) -> u16 {
    let last = f64::from(cells) * dots - 1.0;
    let dot = ((value - from) / (to - from) * last).round().clamp(0.0, last.max(0.0));
    (dot / dots) as u16
}

/// The y axis: each label in the row where its value lies.
pub fn upright(app: &App, frame: &mut Frame<'_>, area: Rect, plot: &Plot) {
    let (bar, mark) = if app.ascii { ("|", "+") } else { ("│", "┤") };
    for y in area.top()..area.bottom() {
        frame.buffer_mut().set_string(area.right().saturating_sub(1), y, bar, Style::new());
    }
    for (value, words) in &plot.up {
        let row = cell(plot.y.1 + plot.y.2 - value, plot.y.1, plot.y.2, area.height, 4.0);
        let words = fit(words, area.width.saturating_sub(1), true);
        frame.buffer_mut().set_string(area.x, area.y + row, format!("{words}{mark}"), Style::new());
    }
}

/// The x axis: each label under the column where its value lies, as many of them as have room.
pub fn lying(app: &App, frame: &mut Frame<'_>, area: Rect, plot: &Plot) {
    if area.height < 2 || area.width < 2 {
        return;
    }
    let (corner, line, mark) = if app.ascii { ("+", "-", "+") } else { ("└", "─", "┴") };
    let cells = area.width - 1;
    let buffer = frame.buffer_mut();
    buffer.set_string(area.x, area.y, format!("{corner}{}", line.repeat(usize::from(cells))), Style::new());
    let placed = |(value, words): &(f64, String)| {
        let column = area.x + 1 + cell(*value, plot.x.1, plot.x.2, cells, 2.0);
        // Under its mark; at the right end what is too wide moves in.
        let from = column.saturating_sub(width(words) / 2).clamp(area.x, area.right().saturating_sub(width(words)));
        (column, from, words.clone())
    };
    let all: Vec<(u16, u16, String)> = plot.across.iter().map(placed).collect();
    let apart = |step: usize| {
        let shown: Vec<_> = all.iter().step_by(step).collect();
        shown.windows(2).all(|pair| pair[0].1 + width(&pair[0].2) < pair[1].1)
    };
    let step = (1..=all.len().max(1)).find(|step| apart(*step)).unwrap_or(1);
    for (column, from, words) in all.iter().step_by(step) {
        buffer.set_string(*column, area.y, mark, Style::new());
        buffer.set_string(*from, area.y + 1, words, Style::new());
    }
}
