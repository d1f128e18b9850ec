//! A logger's file over the panes: how it is written, then what it comes to beside the plan.

use super::frame::over;
use super::width::{cut, fit, width, wrap};
use super::{lists, plot};
use crate::engine::LogLine;
use crate::quantity::{Figure, counted};
use crate::screens::app::App;
use crate::screens::logging::{Beside, Logging, Page, Stage};
use crate::screens::theme::Role;
use crate::screens::view::{Target, View};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::{Line, Span};

/// Columns of a number, and of both its bounds.
const NUMBER: u16 = 10;
const BOUNDS: u16 = 22;
/// Lines of what is said about the line in hand, and of curves below the numbers.
const ABOUT: u16 = 5;
const CURVES: u16 = 14;

/// Draw it.
pub fn draw(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect, log: &Logging) {
    let title = match &log.stage {
        Stage::Asking(_) => format!("{}: is it read rightly?", log.name()),
        Stage::Reading(_) => format!("{}: being read", log.name()),
        Stage::Beside(_) => format!("{} beside the plan", log.name()),
    };
    let height = match &log.stage {
        Stage::Asking(_) => (log.rows().len() + log.preview().len() + 4) as u16,
        Stage::Reading(_) => 3,
        Stage::Beside(_) => body.height,
    };
    let inner = over(app, view, frame, body, (body.width.min(120), height), &title);
    match &log.stage {
        Stage::Asking(pick) => asking(app, view, frame, inner, log, *pick),
        Stage::Reading(rows) => {
            let words = format!("{}; Esc stops", counted(usize::try_from(*rows).unwrap_or(0), "row"));
            frame.render_widget(Span::raw(words), Rect { height: 1, ..inner }.intersection(inner));
        }
        Stage::Beside(beside) => match beside.page {
            Page::Table => numbers(app, view, frame, inner, beside),
            Page::Curves => plot::draw(app, frame, inner, &beside.plot(&app.scene()), Some(beside.place)),
            Page::ReadAs => read_as(app, frame, inner, beside),
        },
    }
}

fn line(area: Rect, n: u16) -> Rect {
    Rect { y: area.y + n, height: 1, ..area }.intersection(area)
}

fn asking(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect, log: &Logging, pick: usize) {
    let rows = log.rows();
    let preview = log.preview();
    let foot = preview.len() as u16 + 2;
    let high = usize::from(area.height.saturating_sub(foot));
    let label = rows.iter().map(|(label, _)| width(label)).max().unwrap_or(0).min(area.width / 2);
    let first = View::follow(0, pick, high);
    for (n, (name, value)) in rows.iter().enumerate().skip(first).take(high) {
        let here = line(area, (n - first) as u16);
        let style = if n == pick { app.theme.focus() } else { Style::new() };
        let ends = if n == pick { ("‹ ", " ›") } else { ("  ", "") };
        let spans = vec![
            Span::styled(format!("{}  ", fit(name, label, false)), app.theme.style(Role::Muted)),
            Span::styled(format!("{}{value}{}", ends.0, ends.1), style),
        ];
        frame.render_widget(Line::from(spans), here);
        view.mark(here, Target::Choice(n));
    }
    let below = (rows.len().min(high) as u16) + 1;
    if let Err(why) = &log.layout {
        frame.render_widget(Span::styled(cut(why, area.width), app.theme.style(Role::Stop)), line(area, below - 1));
    }
    for (text, y) in preview.into_iter().zip(below..) {
        let here = line(area, y);
        frame.render_widget(Span::styled(cut(&text, area.width), app.theme.style(Role::Muted)), here);
    }
}

/// Planned, measured, between; the line in hand with what it changes; both curves where there is room.
fn numbers(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect, beside: &Beside) {
    let words = area.width.saturating_sub(2 + 2 * (NUMBER + 1) + BOUNDS + 1);
    let row = |cells: [&str; 5]| {
        let [mark, what, planned, measured, bounds] = cells;
        let (planned, measured) = (fit(planned, NUMBER, true), fit(measured, NUMBER, true));
        format!("{mark} {} {planned} {measured} {}", fit(what, words, false), fit(bounds, BOUNDS, true))
    };
    let head = row([" ", "", "Planned", "Measured", "in 95 of 100 between"]);
    frame.render_widget(Line::styled(head, app.theme.style(Role::Heading)), line(area, 0));
    let lines = &beside.answer.lines;
    let curves = if area.height >= lines.len() as u16 + 1 + ABOUT + CURVES {
        area.height - (lines.len() as u16 + 1 + ABOUT)
    } else {
        0
    };
    let high = usize::from(area.height.saturating_sub(1 + ABOUT + curves));
    let first = View::follow(0, beside.pick, high);
    let offered = beside.offered();
    let show = |f: Option<Figure>| f.map_or("–".to_string(), |f| app.scene().show(f));
    for (n, l) in lines.iter().enumerate().skip(first).take(high) {
        let here = line(area, 1 + (n - first) as u16);
        let mark = if offered.contains(&l.key.as_str()) { ">" } else { " " };
        let bounds = match (l.least, l.most) {
            (None, None) => String::new(),
            (Some(least), None) => format!("at least {}", show(Some(least))),
            (None, Some(most)) => format!("at most {}", show(Some(most))),
            (Some(least), Some(most)) => format!("{} to {}", show(Some(least)), show(Some(most))),
        };
        let text = row([mark, &l.words, &show(l.planned), &show(l.measured), &bounds]);
        let style = if n == beside.pick { app.theme.focus() } else { Style::new() };
        frame.render_widget(Line::styled(app.scene().plain(text), style), here);
        view.mark(here, Target::Choice(n));
    }
    let below = Rect { y: area.y + 1 + high as u16, height: ABOUT, ..area }.intersection(area);
    if let Some(l) = lines.get(beside.pick) {
        about(app, frame, below, l, offered.contains(&l.key.as_str()));
    }
    if curves > 0 {
        let here = Rect { y: below.bottom(), height: curves, ..area }.intersection(area);
        plot::draw(app, frame, here, &beside.plot(&app.scene()), None);
    }
}

/// What is said of one line, and what is different in the plan with it.
fn about(app: &App, frame: &mut Frame<'_>, area: Rect, l: &LogLine, offered: bool) {
    let samples = if l.samples == 0 { String::new() } else { format!("rests on {}; ", counted(l.samples, "sample")) };
    let note = format!("{samples}{}", l.note);
    let mut out: Vec<(String, Role)> = wrap(&note, area.width).into_iter().map(|t| (t, Role::Muted)).collect();
    let begin = if offered { "Enter takes it: " } else { "" };
    let then = l.then.join("; ");
    let words = app
        .scene()
        .plain(format!("{begin}{}", if offered && then.is_empty() { "a new measurement" } else { then.as_str() }));
    out.extend(wrap(&words, area.width).into_iter().filter(|t| !t.is_empty()).map(|t| (t, Role::Text)));
    lists::scrolled(app, frame, Rect { y: area.y + 1, height: area.height.saturating_sub(1), ..area }, &out, 0);
}

fn read_as(app: &App, frame: &mut Frame<'_>, area: Rect, beside: &Beside) {
    let mut out: Vec<(String, Role)> = Vec::new();
    let mut say = |text: &str, role: Role| out.extend(wrap(text, area.width).into_iter().map(|t| (t, role)));
    for (label, words) in beside.logged.read_as() {
        say(&format!("{label}: {words}"), Role::Text);
    }
    let answer = &beside.answer;
    say(&format!("{} over {} count.", counted(answer.rows, "row"), answer.days), Role::Text);
    for words in &beside.logged.left_out {
        say(words, Role::Caution);
    }
    let hours = answer.hours.iter().filter(|h| h.into.get() > 0.05 || h.out.get() > 0.05);
    for hour in hours {
        let text = format!(
            "{:02}:00  in {} a day, out {} a day  {}",
            hour.hour,
            app.scene().show(hour.into),
            app.scene().show(hour.out),
            hour.sources
        );
        say(&text, Role::Muted);
    }
    lists::scrolled(app, frame, area, &out, 0);
}
