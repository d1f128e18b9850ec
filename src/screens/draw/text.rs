//! Text: wrapped when it is prose, scrolled both ways when it is a drawing.

use super::width::{width, wrap};
use crate::screens::app::{App, Spot};
use crate::screens::pane::Text;
use crate::screens::theme::Role;
use crate::screens::view::View;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthChar;

/// Draw it.
pub fn draw(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect, pane: usize, text: &Text) {
    let spot = app.spots.get(&(app.screen, pane)).copied().unwrap_or_default();
    let high = usize::from(area.height);
    let widest = text.lines.iter().map(|line| line.iter().map(|(t, _)| usize::from(width(t))).sum()).max().unwrap_or(0);
    let spot = Spot { column: spot.column.min(widest.saturating_sub(usize::from(area.width))), ..spot };
    let drawn = !text.runs.is_empty();
    let lines: Vec<Line<'_>> = if text.wrap { prose(app, text, area.width) } else { drawing(app, text, spot.column) };
    let last = lines.len().saturating_sub(high);
    // A drawing has a line in hand and moves only as far as that asks for.
    let first = if drawn {
        let before = view.scroll.get(&(app.screen, pane)).map_or(0, |(first, _)| *first);
        before.clamp((spot.row + 1).saturating_sub(high), spot.row).min(last)
    } else {
        spot.row.min(last)
    };
    view.scroll.insert((app.screen, pane), (first, spot.column));
    for (n, line) in lines.into_iter().enumerate().skip(first).take(high) {
        let row = Rect { y: area.y + (n - first) as u16, height: 1, ..area };
        let cut = line.width() > usize::from(area.width);
        let line = if drawn && n == spot.row { line.patch_style(app.theme.in_hand()) } else { line };
        frame.render_widget(line, row);
        if drawn && n == spot.row {
            frame.buffer_mut().set_style(row, app.theme.focus());
        }
        if cut && !text.wrap {
            let end = Rect { x: row.right().saturating_sub(1), width: 1, ..row };
            frame.render_widget(Span::styled("›", app.theme.style(Role::Key)), end);
        }
    }
    if first < last && area.height > 0 {
        let corner = Rect { x: area.right().saturating_sub(1), y: area.bottom() - 1, width: 1, height: 1 };
        frame.render_widget(Span::styled("↓", app.theme.style(Role::Key)), corner);
    }
}

fn prose<'a>(app: &App, text: &Text, columns: u16) -> Vec<Line<'a>> {
    let mut lines = Vec::new();
    for line in &text.lines {
        let whole: String = line.iter().map(|(t, _)| t.as_str()).collect();
        if width(&whole) <= columns {
            let span = |(t, role): &(String, Role)| Span::styled(t.clone(), app.theme.style(*role));
            lines.push(Line::from(line.iter().map(span).collect::<Vec<_>>()));
        } else {
            let style = line.last().map_or_else(Default::default, |(_, role)| app.theme.style(*role));
            lines.extend(wrap(&whole, columns).into_iter().map(|l| Line::styled(l, style)));
        }
    }
    lines
}

fn drawing<'a>(app: &App, text: &Text, skip: usize) -> Vec<Line<'a>> {
    let line = |pieces: &Vec<(String, Role)>| {
        let mut left = skip;
        let mut spans = Vec::new();
        for (piece, role) in pieces {
            let mut shown = String::new();
            for c in piece.chars() {
                let w = c.width().unwrap_or(0);
                if left >= w.max(1) {
                    left -= w;
                } else {
                    left = 0;
                    shown.push(c);
                }
            }
            spans.push(Span::styled(shown, app.theme.style(*role)));
        }
        Line::from(spans)
    };
    text.lines.iter().map(line).collect()
}
