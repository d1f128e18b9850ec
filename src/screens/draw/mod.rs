//! One frame: header, panes, what lies over them, footer. Reads the app, changes nothing of it.

mod arrange;
mod axis;
mod bars;
mod bench;
mod cards;
mod field;
mod fold;
mod footer;
mod frame;
mod header;
mod help;
mod lists;
mod logging;
mod own;
mod plot;
mod probing;
mod table;
mod tabs;
mod text;
mod width;

use super::app::App;
use super::overlay::Overlay;
use super::pane::{Body, Pane};
use super::theme::Role;
use super::view::{Target, View};
use crate::plan::is_hidden;
use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::{Alignment, Constraint, Layout, Rect};
use ratatui::widgets::{Block, Paragraph};
use unicode_width::UnicodeWidthStr;

/// The least window that shows the screens.
pub const LEAST: (u16, u16) = (60, 16);

/// From this width on the working of the number in hand stands beside the panes.
const DOCK: u16 = 150;

/// Draw everything.
pub fn draw(app: &App, view: &mut View, frame: &mut Frame<'_>) {
    view.begin();
    let area = frame.area();
    if area.width < LEAST.0 || area.height < LEAST.1 {
        view.hidden = true;
        too_small(app, frame, area);
    } else {
        whole(app, view, frame, area);
    }
    unhide(frame.buffer_mut());
    if app.ascii {
        super::ascii::only(frame.buffer_mut());
    }
}

/// Take hidden characters, which come in with a sign before them, out of every cell: text of a plan
/// must neither steer the terminal nor say something else than it does. Where that makes a sign
/// wider or narrower than the place it has, a mark stands for it.
fn unhide(buffer: &mut Buffer) {
    for cell in &mut buffer.content {
        let symbol = cell.symbol();
        if symbol.chars().any(is_hidden) {
            let seen: String = symbol.chars().filter(|c| !is_hidden(*c)).collect();
            let same = seen.width() == symbol.width();
            cell.set_symbol(if same { &seen } else { "\u{fffd}" });
        }
    }
}

fn too_small(app: &App, frame: &mut Frame<'_>, area: Rect) {
    let (wide, high) = LEAST;
    let words =
        format!("The window needs {wide} × {high}; it has {} × {}. Keys wait until then.", area.width, area.height);
    let lines = u16::try_from(words.len()).unwrap_or(0).div_ceil(area.width.max(1));
    let [middle] =
        Layout::vertical([Constraint::Length(lines.min(area.height))]).flex(ratatui::layout::Flex::Center).areas(area);
    let sentence = Paragraph::new(words).alignment(Alignment::Center).style(app.theme.style(Role::Text));
    frame.render_widget(sentence.wrap(ratatui::widgets::Wrap { trim: true }), middle);
}

fn whole(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect) {
    let [head, body, foot] =
        Layout::vertical([Constraint::Length(2), Constraint::Fill(1), Constraint::Length(2)]).areas(area);
    header::draw(app, view, frame, head);
    let body = if body.width >= DOCK && app.screen.has_workings() {
        let [left, right] = Layout::horizontal([Constraint::Fill(1), Constraint::Length(46)]).areas(body);
        cards::beside(app, frame, right);
        left
    } else {
        body
    };
    let field = panes(app, view, frame, body);
    footer::draw(app, view, frame, foot);
    if let (Some(cell), Some(edit)) = (field, &app.editing) {
        field::over(app, view, frame, cell, body, edit);
    }
    overlay(app, view, frame, body);
}

/// Draw the panes; the area of the cell being edited.
fn panes(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect) -> Option<Rect> {
    let panes = app.all_panes();
    let earlier = super::changes::earlier(app);
    let second = app.seconds.get(&app.screen).copied().unwrap_or(1);
    let areas = arrange::arrange(app.screen.shape(), &panes, body, app.pane(), second, app.zoom);
    let hidden: Vec<usize> = (0..panes.len()).filter(|n| !areas.iter().any(|(m, _)| m == n)).collect();
    // In the corner where the eye ends.
    let last = areas.iter().max_by_key(|(_, a)| (a.bottom(), a.right())).map(|(n, _)| *n);
    let corner = areas.iter().find(|(n, _)| Some(*n) == last).map_or(body, |(_, area)| *area);
    let mut field = None;
    for (n, area) in areas {
        let Some(pane) = panes.get(n) else { continue };
        let active = n == app.pane() && app.overlay.is_none();
        let block = frame_of(app, &pane.title, active);
        let inner = block.inner(area);
        frame.render_widget(block, area);
        view.mark(area, Target::Pane(n));
        match &pane.body {
            Body::Table(table) => {
                let old = earlier.get(n).and_then(Pane::as_table);
                field = table::draw(app, view, frame, inner, n, table, old).or(field);
            }
            Body::Plot(plot) => {
                let place = || app.spots.get(&(app.screen, n)).map_or(0, |s| s.column);
                plot::draw(app, frame, inner, plot, active.then(place));
            }
            Body::Text(text) => text::draw(app, view, frame, inner, n, text),
        }
    }
    tabs::draw(app, frame, corner, body, &hidden.iter().filter_map(|&n| panes.get(n)).collect::<Vec<_>>());
    field
}

/// The border of a pane.
fn frame_of<'a>(app: &App, title: &str, active: bool) -> Block<'a> {
    let style = if active { app.theme.active_border() } else { app.theme.style(Role::Muted) };
    let mark = if active { "▸ " } else { " " };
    let title_style = if active { app.theme.active_border() } else { app.theme.style(Role::Heading) };
    frame::bordered(app, active)
        .border_style(style)
        .title(ratatui::text::Span::styled(format!("{mark}{title} "), title_style))
}

fn overlay(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect) {
    match &app.overlay {
        None => {}
        Some(Overlay::Help { scroll }) => help::draw(app, view, frame, body, *scroll),
        Some(Overlay::Text { title, lines, scroll, .. }) => lists::text(app, view, frame, body, title, lines, *scroll),
        Some(Overlay::Card(card)) => cards::over(app, view, frame, body, card),
        Some(Overlay::Menu(menu)) => lists::menu(app, view, frame, body, menu),
        Some(Overlay::Ask(ask)) => lists::ask(app, view, frame, body, ask),
        Some(Overlay::Bench(bench)) => bench::draw(app, view, frame, body, bench),
        Some(Overlay::Own(own)) => own::draw(app, view, frame, body, own),
        Some(Overlay::Probing(probing)) => probing::draw(app, view, frame, body, probing),
        Some(Overlay::Log(log)) => logging::draw(app, view, frame, body, log),
        Some(Overlay::Walk(walk)) => lists::walk(app, view, frame, body, walk),
    }
}
