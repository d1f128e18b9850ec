//! A row of one's own: what is asked line by line, and below what is wrong with it or doubtful.

use super::frame::over;
use super::lists;
use super::width::{cut, fit, wrap};
use crate::screens::app::App;
use crate::screens::own::{Own, Row};
use crate::screens::theme::Role;
use crate::screens::view::{Target, View};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// Columns of a label, and of what is typed.
const LABEL: u16 = 16;
const VALUE: u16 = 27;

/// Draw it.
pub fn draw(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect, own: &Own) {
    let inner =
        over(app, view, frame, body, (body.width.min(104), body.height), "A part of your own, from its data sheet");
    let line = |y: u16| Rect { y: inner.y + y, height: 1, ..inner }.intersection(inner);
    let value =
        |at: Rect| Rect { x: at.x + LABEL, width: VALUE.min(at.width.saturating_sub(LABEL)), ..at }.intersection(inner);
    let after = |at: Rect| {
        Rect { x: at.x + LABEL + VALUE, width: at.width.saturating_sub(LABEL + VALUE), ..at }.intersection(inner)
    };
    frame.render_widget(Span::styled(fit("What it is", LABEL, false), app.theme.style(Role::Muted)), line(0));
    let style = if own.pick == 0 { app.theme.focus() } else { app.theme.style(Role::Heading) };
    frame.render_widget(Span::styled(format!("‹ {} ›", own.kind.word()), style), value(line(0)));
    frame
        .render_widget(Span::styled("← → battery, charger, fuse, cable", app.theme.style(Role::Muted)), after(line(0)));
    view.mark(line(0), Target::Choice(0));
    let asked = own.kind.asked();
    for (n, (one, input)) in asked.iter().zip(&own.typed).enumerate() {
        let at = line(n as u16 + 1);
        let options = one.options(&app.catalogue);
        frame.render_widget(Span::styled(fit(one.label, LABEL, false), app.theme.style(Role::Muted)), at);
        let text = own.shown(&app.catalogue, n);
        let (text, role) = match (text.as_str(), one.needed) {
            ("", true) => ("to be given".to_string(), Role::Caution),
            ("", false) => ("left out".to_string(), Role::Muted),
            (text, _) if options.is_empty() => (text.to_string(), Role::Given),
            (text, _) => (format!("‹ {text} ›"), Role::Given),
        };
        let wrong = matches!(&own.row, Row::Refused(of, _) if *of == n);
        let style = if wrong { app.theme.style(Role::Stop) } else { app.theme.style(role) };
        let in_hand = own.pick == n + 1;
        let style = if in_hand && (own.fresh || !options.is_empty()) { app.theme.focus() } else { style };
        if in_hand && options.is_empty() && !own.fresh {
            lists::input(app, frame, value(at), input);
        } else {
            frame.render_widget(Span::styled(cut(&text, VALUE - 1), style), value(at));
        }
        let means = options.into_iter().find(|(key, _)| key == input.value()).map(|(_, means)| means);
        let usual =
            means.unwrap_or_else(|| if one.usual.is_empty() { String::new() } else { format!("usual: {}", one.usual) });
        frame.render_widget(Span::styled(cut(&usual, after(at).width), app.theme.style(Role::Muted)), after(at));
        view.mark(at, Target::Choice(n + 1));
    }
    let top = asked.len() as u16 + 2;
    let below = Rect { y: inner.y + top, height: inner.height.saturating_sub(top), ..inner }.intersection(inner);
    for (n, (text, role)) in told(app, own, below.width).into_iter().take(usize::from(below.height)).enumerate() {
        let here = Rect { y: below.y + n as u16, height: 1, ..below }.intersection(below);
        frame.render_widget(Line::styled(text, app.theme.style(role)), here);
    }
}

/// What is wrong or doubtful first, then where it will be kept.
fn told(app: &App, own: &Own, columns: u16) -> Vec<(String, Role)> {
    let mut all: Vec<(String, Role)> = Vec::new();
    match &own.row {
        Row::Missing(_) => {}
        Row::Refused(_, why) => all.push((why.clone(), Role::Stop)),
        Row::Made(_, doubts) => all.extend(doubts.iter().map(|d| (format!("caution: {}", d.text), Role::Caution))),
    }
    if let (Row::Made(file, _), Some(_)) = (&own.row, &app.rows) {
        all.push((format!("Ctrl+S keeps it in your folder of profiles as {}", file.name), Role::Muted));
    }
    let lines = |(text, role): (String, Role)| wrap(&text, columns).into_iter().map(move |line| (line, role));
    all.into_iter().flat_map(lines).collect()
}
