//! Text: wrapped when it is prose, scrolled both ways when it is a drawing.

use super::width::{width, wrap};
use crate::screens::app::App;
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
    let lines: Vec<Line<'_>> = if text.wrap { prose(app, text, area.width) } else { drawing(app, text, spot.column) };
    let last = lines.len().saturating_sub(usize::from(area.height));
    let first = spot.row.min(last);
    view.scroll.insert((app.screen, pane), (first, spot.column));
    for (n, line) in lines.into_iter().skip(first).take(usize::from(area.height)).enumerate() {
        frame.render_widget(line, Rect { y: area.y + n as u16, height: 1, ..area });
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
