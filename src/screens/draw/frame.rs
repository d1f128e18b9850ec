//! Borders: of panes, and of what lies over them.

use crate::screens::action::Action;
use crate::screens::app::App;
use crate::screens::theme::Role;
use crate::screens::view::{Target, View};
use ratatui::Frame;
use ratatui::layout::{Constraint, Flex, Layout, Rect};
use ratatui::symbols::border;
use ratatui::text::Span;
use ratatui::widgets::{Block, BorderType, Clear};

/// Columns beside what lies over the screens that are worth leaving.
const SLIVER: u16 = 10;

/// A border; that of the pane being worked in is thicker.
pub fn bordered<'a>(app: &App, active: bool) -> Block<'a> {
    let block = Block::bordered();
    match (app.ascii, active) {
        (true, false) => block.border_set(ASCII),
        (true, true) => block.border_set(ASCII_ACTIVE),
        (false, true) => block.border_type(BorderType::Thick),
        (false, false) => block.border_type(BorderType::Plain),
    }
}

const ASCII: border::Set<'static> = border::Set {
    top_left: "+",
    top_right: "+",
    bottom_left: "+",
    bottom_right: "+",
    vertical_left: "|",
    vertical_right: "|",
    horizontal_top: "-",
    horizontal_bottom: "-",
};
const ASCII_ACTIVE: border::Set<'static> = border::Set { horizontal_top: "=", horizontal_bottom: "=", ..ASCII };

/// Room for something over the panes: centred, at most so wide and high, cleared and framed.
pub fn over(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect, size: (u16, u16), title: &str) -> Rect {
    // Of so few columns beside it nothing could be read.
    let width = if body.width.saturating_sub(size.0) < SLIVER { body.width } else { size.0 };
    let height = size.1.min(body.height);
    let [row] = Layout::horizontal([Constraint::Length(width)]).flex(Flex::Center).areas(body);
    let [area] = Layout::vertical([Constraint::Length(height)]).flex(Flex::Center).areas(row);
    frame.render_widget(Clear, area);
    let block = bordered(app, true)
        .border_style(app.theme.active_border())
        .title(Span::styled(format!(" {title} "), app.theme.style(Role::Heading)));
    let inner = block.inner(area);
    frame.render_widget(block, area);
    view.mark(body, Target::Button(Action::Cancel));
    view.mark(area, Target::Overlay);
    inner
}
