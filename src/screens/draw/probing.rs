//! A search for a fault: what is known and what to measure next, the reading below it.

use super::frame::over;
use super::lists;
use crate::screens::app::App;
use crate::screens::probing::Probing;
use crate::screens::sheet;
use crate::screens::theme::Role;
use crate::screens::view::View;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::Span;

/// Columns before the reading.
const LABEL: u16 = 12;

/// Draw it.
pub fn draw(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect, probing: &Probing) {
    let inner = over(app, view, frame, body, (body.width.min(104), body.height), &probing.title());
    if inner.height < 3 {
        return;
    }
    let above = Rect { height: inner.height - 2, ..inner };
    let lines = sheet::lines(app, &probing.paper(), above.width);
    let lines: Vec<(String, Role)> = lines.into_iter().map(|line| (line, Role::Text)).collect();
    lists::scrolled(app, frame, above, &lines, probing.scroll);
    let last = Rect { y: inner.bottom() - 1, height: 1, ..inner };
    if !probing.asks() {
        let words = "Nothing more to measure. Esc closes; Backspace takes the last reading back.";
        frame.render_widget(Span::styled(words, app.theme.style(Role::Heading)), last);
        return;
    }
    frame.render_widget(Span::styled("It reads", app.theme.style(Role::Heading)), last);
    let typed = Rect { x: last.x + LABEL, width: last.width.saturating_sub(LABEL), ..last }.intersection(last);
    lists::input(app, frame, typed, &probing.input, false);
}
