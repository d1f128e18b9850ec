//! A row of one's own: what is asked line by line, and below what is wrong with it or doubtful.

use super::fold::granted;
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
const LABEL: u16 = 18;
const VALUE: u16 = 27;

/// Draw it.
pub fn draw(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect, own: &Own) {
    let asked = own.kind.asked();
    let columns = body.width.min(104);
    let usual: Vec<Vec<String>> = (0..asked.len()).map(|n| usual(app, own, n, columns)).collect();
    let told = told(app, own, columns.saturating_sub(2));
    let lines: usize = usual.iter().map(Vec::len).sum();
    // No higher than what is asked and said, so that the plan stays in sight beside it.
    let height = (lines + told.len() + 5) as u16;
    let inner = over(app, view, frame, body, (columns, height), "A part of your own, from its data sheet");
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
    // What is usual goes on below where it is long and lines are to spare.
    let spare = usize::from(inner.height).saturating_sub(1 + asked.len() + told.len());
    let heights = granted(usual.iter().map(Vec::len).collect(), spare);
    let mut y = 1;
    for (n, (((one, input), usual), high)) in asked.iter().zip(&own.typed).zip(&usual).zip(heights).enumerate() {
        let at = line(y);
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
            lists::input(app, frame, value(at), input, false);
        } else {
            frame.render_widget(Span::styled(cut(&text, VALUE - 1), style), value(at));
        }
        let last = usual.get(high - 1..).unwrap_or_default().join(" ");
        for (k, words) in usual.iter().take(high - 1).chain([&last]).enumerate() {
            let at = after(line(y + k as u16));
            frame.render_widget(Span::styled(cut(words, at.width), app.theme.style(Role::Muted)), at);
        }
        view.mark(at, Target::Choice(n + 1));
        y += high as u16;
    }
    let top = y + u16::from(usize::from(inner.height) > usize::from(y) + told.len());
    let below = Rect { y: inner.y + top, height: inner.height.saturating_sub(top), ..inner }.intersection(inner);
    for (n, (text, role)) in told.into_iter().take(usize::from(below.height)).enumerate() {
        let here = Rect { y: below.y + n as u16, height: 1, ..below }.intersection(below);
        frame.render_widget(Line::styled(text, app.theme.style(role)), here);
    }
}

/// What a line usually says, or what its word means, in the columns behind its value.
fn usual(app: &App, own: &Own, n: usize, columns: u16) -> Vec<String> {
    let (Some(one), Some(input)) = (own.kind.asked().get(n), own.typed.get(n)) else { return vec![String::new()] };
    let means = one.options(&app.catalogue).into_iter().find(|(key, _)| key == input.value()).map(|(_, means)| means);
    let words =
        means.unwrap_or_else(|| if one.usual.is_empty() { String::new() } else { format!("usual: {}", one.usual) });
    wrap(&words, columns.saturating_sub(2 + LABEL + VALUE))
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
