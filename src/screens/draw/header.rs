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
    let (long, short) = match &app.file {
        None if !app.unsaved() => ("example, not changed".to_string(), "example"),
        None => ("new, not saved".to_string(), state),
        Some(_) => (format!("{}, {state}", app.file_name()), state),
    };
    let room = area.width.saturating_sub(right + 3);
    let name = match app.now.plan.job.title.as_str() {
        "" => "Untitled plan",
        title => title,
    };
    // The title is worth more than all the words behind it.
    let pinned: [&str; 3] = match app.pinned {
        Some(_) => [" · comparing with the pinned design", " · beside the pinned one", " · pinned"],
        None => [""; 3],
    };
    let states = pinned.map(|pinned| format!(" · {long}{pinned}"));
    let states = states.into_iter().chain([format!(" · {short}{}", pinned[2])]);
    let fits = |state: &String| width(name) + width(state) <= room;
    let state = states.clone().find(fits).or(states.last()).unwrap_or_default();
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

/// One button for each screen, its key marked in its title.
fn screens(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect) {
    let total = |title: fn(Screen) -> &'static str| Screen::ALL.iter().map(|s| width(title(*s)) + 2).sum::<u16>();
    let (title, pad): (fn(Screen) -> &'static str, u16) =
        if total(Screen::title) + 1 > area.width { (Screen::short, 0) } else { (Screen::title, 1) };
    let gap = if pad == 0 && total(Screen::short) + 1 > area.width { 1 } else { 2 - 2 * pad };
    let mut x = area.x + 1;
    for &screen in Screen::ALL {
        let words = title(screen);
        let here = Rect { x, width: (width(words) + 2 * pad).min(area.right().saturating_sub(x)), ..area };
        let style = if screen == app.screen { app.theme.focus() } else { Style::new() };
        let blank = " ".repeat(usize::from(pad));
        let at = words.find(|c: char| c.eq_ignore_ascii_case(&screen.key())).unwrap_or(0);
        let (before, rest) = words.split_at(at);
        let (key, after) = rest.split_at(1.min(rest.len()));
        let spans = [
            Span::raw(format!("{blank}{before}")),
            Span::styled(key, app.theme.letter()),
            Span::raw(format!("{after}{blank}")),
        ];
        frame.render_widget(Line::from(spans.to_vec()).style(style), here);
        view.mark(here, Target::Button(Action::Show(screen)));
        x = here.right() + gap;
    }
}
