//! The field being edited, over its cell: what is typed, what it would mean, what can be picked.

use super::width::{cut, fit, width};
use crate::screens::app::App;
use crate::screens::edit::Edit;
use crate::screens::theme::Role;
use crate::screens::view::{Target, View};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::{Block, Borders, Clear};

/// Most options seen at once.
const MOST: u16 = 9;

/// Draw it over its cell; what can be picked next to it.
pub fn over(app: &App, view: &mut View, frame: &mut Frame<'_>, cell: Rect, body: Rect, edit: &Edit) {
    let area = typing(app, frame, cell, body, edit);
    options(app, view, frame, area, body, edit);
}

/// What is typed, over its cell; the area it takes.
pub fn typing(app: &App, frame: &mut Frame<'_>, cell: Rect, body: Rect, edit: &Edit) -> Rect {
    let wanted = width(edit.input.value()).saturating_add(2).clamp(14, 40).max(cell.width);
    let wide = wanted.min(body.width);
    let x = cell.x.min(body.right().saturating_sub(wide));
    let area = Rect { x, y: cell.y, width: wide, height: 1 };
    frame.render_widget(Clear, area);
    let room = area.width.saturating_sub(1);
    let scroll = edit.input.visual_scroll(usize::from(room));
    let shown: String = visible(edit.input.value(), scroll, room);
    let style = if edit.fresh { app.theme.focus() } else { app.theme.input() };
    let style = if edit.error.is_some() { style.patch(app.theme.style(Role::Stop)) } else { style };
    frame.render_widget(Line::styled(fit(&shown, area.width, false), style), area);
    let at = edit.input.visual_cursor().saturating_sub(scroll);
    frame.set_cursor_position(Position { x: area.x + u16::try_from(at).unwrap_or(0).min(room), y: area.y });
    area
}

/// The part of a text in sight.
fn visible(text: &str, scroll: usize, room: u16) -> String {
    let mut left = scroll;
    let rest: String = text
        .chars()
        .skip_while(|c| {
            let skip = left > 0;
            left = left.saturating_sub(unicode_width::UnicodeWidthChar::width(*c).unwrap_or(0));
            skip
        })
        .collect();
    if width(&rest) > room { cut(&rest, room) } else { rest }
}

/// Below the cell, or above where there is no room below: the preview and the options.
pub fn options(app: &App, view: &mut View, frame: &mut Frame<'_>, cell: Rect, body: Rect, edit: &Edit) {
    let matches = edit.matches();
    let preview = edit.preview(&app.scene()).map(|p| format!("= {p}"));
    let nothing = preview.is_none() && matches.is_empty() && !edit.options.is_empty();
    let hint =
        nothing.then(|| if edit.names_a_point() { "a new point" } else { "nothing in the list matches" }.to_string());
    let notes: Vec<String> = preview.into_iter().chain(hint).collect();
    let below = body.bottom().saturating_sub(cell.bottom());
    let above = cell.y.saturating_sub(body.y);
    let lines = (matches.len() as u16).min(MOST) + notes.len() as u16;
    // One line more for the frame, so that a list is not read as rows of the table under it.
    let lines = lines + 1;
    let up = below < lines && above > below;
    let height = lines.min(if up { above } else { below });
    if height < 2 || lines == 1 {
        return;
    }
    let key_width = matches.iter().filter_map(|&i| edit.options.get(i)).map(|o| width(&o.0)).max().unwrap_or(0);
    let line = |i: &usize| edit.options.get(*i).map(|(key, words)| option(key, words, key_width)).unwrap_or_default();
    let all: Vec<String> = matches.iter().map(line).collect();
    let wide = all.iter().chain(&notes).map(|l| width(l)).max().unwrap_or(0).max(cell.width);
    let wide = wide.saturating_add(2).min(body.width);
    let x = cell.x.min(body.right().saturating_sub(wide));
    let y = if up { cell.y - height } else { cell.bottom() };
    let area = Rect { x, y, width: wide, height };
    frame.render_widget(Clear, area);
    view.mark(area, Target::Overlay);
    let open = if up { Borders::TOP } else { Borders::BOTTOM };
    let block = Block::new().borders(Borders::LEFT | Borders::RIGHT | open).border_style(app.theme.active_border());
    let inner = block.inner(area);
    frame.render_widget(block, area);
    let (area, wide) = (inner, inner.width);
    let room = area.height.saturating_sub(notes.len() as u16);
    let first = edit.pick.map_or(0, |p| View::follow(0, p, usize::from(room)));
    let mut y = area.y;
    for note in &notes {
        let here = Rect { y, height: 1, ..area }.intersection(area);
        frame.render_widget(Span::styled(fit(note, wide, false), app.theme.style(Role::Chosen)), here);
        y += 1;
    }
    for (n, text) in all.iter().enumerate().skip(first).take(usize::from(room)) {
        let here = Rect { y, height: 1, ..area }.intersection(area);
        let style = if edit.pick == Some(n) { app.theme.focus() } else { app.theme.style(Role::Muted) };
        frame.render_widget(Line::styled(fit(text, wide, false), style), here);
        view.mark(here, Target::Choice(n));
        y += 1;
    }
}

fn option(key: &str, words: &str, key_width: u16) -> String {
    if words.is_empty() || words == key {
        format!(" {key} ")
    } else {
        format!(" {}  {words} ", fit(key, key_width, false))
    }
}
