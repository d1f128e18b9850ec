//! The panes that Tab shows in the place of others, by name on the bottom border.

use super::width::{cut, width};
use crate::screens::app::App;
use crate::screens::pane::Pane;
use crate::screens::theme::Role;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Span;

/// What a name does without: who it is about, how, in what unit.
const ENDS: [&str; 7] = [" of ", " for ", " on ", " by ", " at ", ",", ":"];
/// And what besides where there is little room.
const NARROW_ENDS: [&str; 2] = [" and ", " to "];

/// On the border of the last pane; where that is too narrow, over those beside it as well.
pub fn draw(app: &App, frame: &mut Frame<'_>, last: Rect, body: Rect, hidden: &[&Pane<'_>]) {
    if hidden.is_empty() || last.height == 0 {
        return;
    }
    let named = |ends: &[&str]| {
        let names: Vec<&str> = hidden.iter().map(|p| short(&p.title, ends)).collect();
        format!("Tab: {}", names.join(" · "))
    };
    let (usual, narrow) = (named(&ENDS), named(&[&ENDS[..], &NARROW_ENDS[..]].concat()));
    let fits = |(text, area): &(&String, Rect)| width(text) <= area.width.saturating_sub(4);
    let choices = [(&usual, last), (&usual, body), (&narrow, body)];
    // Those that Tab shows first where not even that holds all; a sign says that there are more.
    let (text, area) = choices.into_iter().find(fits).unwrap_or((&narrow, body));
    let text = format!(" {} ", cut(text, area.width.saturating_sub(4)));
    let x = area.right().saturating_sub(width(&text) + 1);
    let here = Rect { x, y: area.bottom().saturating_sub(1), width: width(&text), height: 1 };
    // Not in the style of the border below it.
    frame.buffer_mut().set_style(here.intersection(area), Style::reset());
    frame.render_widget(Span::styled(text, app.theme.style(Role::Muted)), here.intersection(area));
}

/// A name up to the first of these ends.
fn short<'a>(title: &'a str, ends: &[&str]) -> &'a str {
    let end = ends.iter().filter_map(|w| title.find(w)).min().unwrap_or(title.len());
    title.get(..end).unwrap_or(title)
}
