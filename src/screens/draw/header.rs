//! The two lines at the top: the plan and its state, the screens and the findings.

use super::width::{cut, width};
use crate::engine::Severity;
use crate::screens::action::Action;
use crate::screens::app::App;
use crate::screens::findings;
use crate::screens::screen::Screen;
use crate::screens::theme::Role;
use crate::screens::view::{Target, View};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

/// Draw both.
pub fn draw(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect) {
    let line = |y: u16| Rect { y: area.y + y, height: 1, ..area };
    title(app, view, frame, line(0));
    screens(app, view, frame, line(1));
}

fn title(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect) {
    let counts = counts(app);
    let right: u16 = counts.iter().map(|s| width(&s.content)).sum();
    let state = if app.unsaved() { "not saved" } else { "saved" };
    let state = match &app.file {
        None if !app.unsaved() => "example, not changed".to_string(),
        None => "new, not saved".to_string(),
        Some(_) => format!("{}, {state}", app.file_name()),
    };
    let pinned = if app.pinned.is_some() { " · comparing with the pinned design" } else { "" };
    let room = area.width.saturating_sub(right + 3);
    let state = format!(" · {state}{pinned}");
    let name = match app.now.plan.job.title.as_str() {
        "" => "Untitled plan",
        title => title,
    };
    let name = cut(name, room.saturating_sub(width(&state)).max(12));
    let state = cut(&state, room.saturating_sub(width(&name)));
    let role = if app.unsaved() { Role::Caution } else { Role::Muted };
    let left = Line::from(vec![
        Span::styled(format!(" {name}"), app.theme.style(Role::Heading)),
        Span::styled(state, app.theme.style(role)),
    ]);
    frame.render_widget(left, area);
    let at = Rect { x: area.right().saturating_sub(right + 1), width: right.min(area.width), ..area };
    frame.render_widget(Line::from(counts), at);
    view.mark(at, Target::Button(Action::Show(Screen::Findings)));
}

/// `2 STOP  3 caution  1 note`, or that all is well.
fn counts<'a>(app: &App) -> Vec<Span<'a>> {
    let mut spans = Vec::new();
    for severity in [Severity::Stop, Severity::Caution, Severity::Note] {
        let n = app.now.design.count(severity);
        if n > 0 {
            let gap = if spans.is_empty() { "" } else { "  " };
            let style = app.theme.style(findings::role(severity));
            spans.push(Span::raw(gap));
            spans.push(Span::styled(format!("{n} {}", word(severity, n)), style));
        }
    }
    if spans.is_empty() {
        spans.push(Span::styled("nothing to mend", app.theme.style(Role::Good)));
    }
    spans
}

/// Several notes, but always STOP.
fn word(severity: Severity, n: usize) -> String {
    let word = severity.word();
    if n == 1 || severity == Severity::Stop { word.into() } else { format!("{word}s") }
}

/// One button for each screen: with blanks between number and title where there is room.
fn screens(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect) {
    let wide = |s: &Screen| (s.key(), format!("{} {}", s.key(), s.title()));
    let narrow = |s: &Screen| (s.key(), format!("{}{}", s.key(), s.short()));
    let mut words: Vec<(char, String)> = Screen::ALL.iter().map(wide).collect();
    let total = |words: &[(char, String)]| words.iter().map(|(_, w)| width(w) + 2).sum::<u16>();
    let mut pad = 1;
    if total(&words) + 1 > area.width {
        words = Screen::ALL.iter().map(narrow).collect();
        pad = 0;
    }
    let mut x = area.x + 1;
    for (&screen, (key, words)) in Screen::ALL.iter().zip(&words) {
        let here = Rect { x, width: (width(words) + 2 * pad).min(area.right().saturating_sub(x)), ..area };
        let style = if screen == app.screen { app.theme.focus() } else { Style::new() };
        let blank = " ".repeat(usize::from(pad));
        let title = words.strip_prefix(*key).unwrap_or(words);
        let number = Span::styled(format!("{blank}{key}"), app.theme.style(Role::Key));
        let line = Line::from(vec![number, Span::raw(format!("{title}{blank}"))]).style(style);
        frame.render_widget(line, here);
        view.mark(here, Target::Button(Action::Show(screen)));
        x = here.right() + (1 - pad);
    }
}
