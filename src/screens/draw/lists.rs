//! Lists, questions and texts over the panes.

use super::fold::granted;
use super::frame::over;
use super::width::{cut, fit, width, wrap};
use crate::quantity::in_units_but;
use crate::screens::app::App;
use crate::screens::overlay::{Ask, Entry, Menu};
use crate::screens::theme::Role;
use crate::screens::view::{Target, View};
use crate::screens::walk::{Question, Walk};
use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use ratatui::text::{Line, Span};
use tui_input::Input;

/// A text to read.
pub fn text(
    app: &App,
    view: &mut View,
    frame: &mut Frame<'_>,
    body: Rect,
    title: &str,
    lines: &[(String, Role)],
    scroll: usize,
) {
    let columns = body.width.saturating_sub(4).min(100);
    let wrapped: Vec<(String, Role)> = lines
        .iter()
        .flat_map(|(line, role)| {
            let line = &*in_units_but(line, app.units, &app.now.names);
            // What fits keeps its own blanks, the columns of a paper; what does not keeps those it begins with.
            let room = columns.saturating_sub(2);
            let text = line.trim_start();
            let blanks = &line[..line.len() - text.len()];
            let parts =
                if width(line) <= room { vec![text.into()] } else { wrap(text, room - width(blanks).min(room)) };
            parts.into_iter().map(|l: String| (format!("{blanks}{l}"), *role)).collect::<Vec<_>>()
        })
        .collect();
    let inner = over(app, view, frame, body, (columns, (wrapped.len() as u16).saturating_add(2)), title);
    scrolled(app, frame, inner, &wrapped, scroll);
}

/// Lines from one of them on; where more follow, a mark on the border below says so.
pub fn scrolled(app: &App, frame: &mut Frame<'_>, area: Rect, lines: &[(String, Role)], scroll: usize) {
    let last = lines.len().saturating_sub(usize::from(area.height));
    let first = scroll.min(last);
    for (n, (line, role)) in lines.iter().skip(first).take(usize::from(area.height)).enumerate() {
        let here = Rect { y: area.y + n as u16, height: 1, ..area };
        frame.render_widget(Line::styled(cut(line, area.width), app.theme.style(*role)), here);
    }
    if first < last {
        more(app, frame, area);
    }
}

/// Said on the border below an area.
fn more(app: &App, frame: &mut Frame<'_>, area: Rect) {
    if area.height > 0 {
        let corner = Rect { x: area.right().saturating_sub(8), y: area.bottom(), width: 8, height: 1 };
        frame.render_widget(Span::styled(" ↓ more ", app.theme.style(Role::Key)), corner.intersection(frame.area()));
    }
}

/// One line of typing with its cursor; what the first letter replaces is as in hand.
pub fn input(app: &App, frame: &mut Frame<'_>, area: Rect, input: &Input, fresh: bool) {
    let room = area.width.saturating_sub(1);
    let scroll = input.visual_scroll(usize::from(room));
    let shown: String = input.value().chars().skip(scroll).collect();
    frame.render_widget(Line::styled(fit(&shown, area.width, false), app.theme.input()), area);
    if fresh {
        let typed = Rect { width: width(&shown).min(area.width), ..area };
        frame.buffer_mut().set_style(typed, app.theme.focus());
    }
    let at = u16::try_from(input.visual_cursor().saturating_sub(scroll)).unwrap_or(0).min(room);
    frame.set_cursor_position(Position { x: area.x + at, y: area.y });
}

/// A list to choose from is at least so wide and may be so high in any window; in a larger one it leaves a margin.
const WIDE: u16 = 76;
const HIGH: u16 = 24;
const MARGIN: u16 = 2;

/// A list to choose from.
pub fn menu(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect, menu: &Menu) {
    let most = body.height.saturating_sub(2 * MARGIN).max(HIGH);
    let height = (menu.entries.len() as u16).saturating_add(4).clamp(5, most);
    // As wide as its longest row, also of those that a search leaves out: else it would jump with each letter.
    let row = |e: &Entry| width(&e.words).saturating_add(width(&e.extra)).saturating_add(3);
    let wanted = menu.entries.iter().map(row).max().unwrap_or(0);
    let columns = wanted.clamp(WIDE, body.width.saturating_sub(2 * MARGIN).max(WIDE));
    let inner = over(app, view, frame, body, (columns, height), &menu.title);
    if inner.height < 2 {
        return;
    }
    input(app, frame, Rect { height: 1, ..inner }, &menu.input, menu.fresh);
    let list = Rect { y: inner.y + 1, height: inner.height - 1, ..inner };
    if let Some(error) = &menu.error {
        frame.render_widget(Span::styled(error.clone(), app.theme.style(Role::Muted)), list);
        return;
    }
    let rows: Vec<(String, String)> = menu.choices().into_iter().map(|c| (c.words, c.extra)).collect();
    if rows.is_empty() {
        let words = format!("nothing found for “{}”", menu.input.value().trim());
        frame.render_widget(Span::styled(cut(&words, list.width), app.theme.style(Role::Muted)), list);
    }
    rows_of(app, view, frame, list, &rows, menu.pick);
}

/// Rows with words on the left and on the right, one of them in hand; where lines are to spare, words that are too long
/// for one go on below.
fn rows_of(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect, rows: &[(String, String)], pick: usize) {
    let height = usize::from(area.height);
    let first = View::follow(0, pick, height);
    let shown: Vec<(u16, Vec<String>, String)> =
        rows.iter().skip(first).take(height).map(|r| row_of(r, area)).collect();
    let wanted = shown.iter().map(|(_, lines, _)| lines.len()).collect();
    let heights = granted(wanted, height.saturating_sub(rows.len()));
    let mut y = area.y;
    for (n, ((left, lines, extra), high)) in shown.into_iter().zip(heights).enumerate() {
        let here = Rect { y, height: high as u16, ..area }.intersection(area);
        let style = if first + n == pick { app.theme.focus() } else { ratatui::style::Style::new() };
        // What no line is left for stands behind the last, and is cut there.
        let last = lines.get(high - 1..).unwrap_or_default().join(" ");
        let begin = lines.iter().take(high - 1).cloned();
        for (k, line) in begin.chain(std::iter::once(last)).enumerate() {
            let at = Rect { y: y + k as u16, height: 1, ..area }.intersection(area);
            let extra = if k == 0 { extra.as_str() } else { "" };
            let text = format!("{} {}", fit(&line, left, false), fit(extra, area.width.saturating_sub(left + 1), true));
            frame.render_widget(Line::styled(text, style), at);
        }
        view.mark(here, Target::Choice(first + n));
        y += high as u16;
    }
    if first + height < rows.len() {
        more(app, frame, area);
    }
}

/// A row in so many columns: those of the words on the left, their lines, and the words on the right, which take what
/// the left can do without, and half at least.
fn row_of((words, extra): &(String, String), area: Rect) -> (u16, Vec<String>, String) {
    let extra = cut(extra, area.width.saturating_sub(width(words) + 1).max(area.width / 2));
    let left = area.width.saturating_sub(width(&extra) + 1);
    let lines = if width(words) > left { wrap(words, left) } else { vec![words.clone()] };
    (left, lines, extra)
}

/// A question.
pub fn ask(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect, ask: &Ask) {
    let columns = body.width.saturating_sub(4).min(70);
    let lines: Vec<String> = ask.lines.iter().flat_map(|l| wrap(l, columns.saturating_sub(2))).collect();
    let height = (lines.len() + ask.choices.len() + 3) as u16;
    let inner = over(app, view, frame, body, (columns, height), &ask.title);
    let mut y = inner.y;
    for line in lines {
        frame.render_widget(Span::raw(line), Rect { y, height: 1, ..inner }.intersection(inner));
        y += 1;
    }
    y += 1;
    for (n, (key, words, _)) in ask.choices.iter().enumerate() {
        let here = Rect { y, height: 1, ..inner }.intersection(inner);
        let style = if n == ask.pick { app.theme.focus() } else { ratatui::style::Style::new() };
        let key = Span::styled(format!(" {key} "), app.theme.style(Role::Key));
        let line = Line::from(vec![key, Span::raw(fit(words, here.width.saturating_sub(4), false))]);
        frame.render_widget(line.style(style), here);
        view.mark(here, Target::Choice(n));
        y += 1;
    }
}

/// Columns of a question of the walk-through.
const WALK: u16 = 76;

/// A question of the walk-through.
pub fn walk(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect, walk: &Walk) {
    let (question, how) = walk.words();
    let title = format!("A new plan · question {} of {}", walk.question.number(), Question::ALL.len());
    let columns = WALK.min(body.width).saturating_sub(2);
    let how: Vec<String> = how.iter().flat_map(|words| wrap(words, columns)).collect();
    let height = if walk.is_list() { body.height } else { 7 + how.len() as u16 };
    let inner = over(app, view, frame, body, (WALK, height), &title);
    let mut y = inner.y;
    let mut line = |frame: &mut Frame<'_>, text: &str, role: Role| {
        let here = Rect { y, height: 1, ..inner }.intersection(inner);
        frame.render_widget(Span::styled(cut(text, inner.width), app.theme.style(role)), here);
        y += 1;
    };
    line(frame, question, Role::Heading);
    how.iter().for_each(|words| line(frame, words, Role::Muted));
    match &walk.error {
        Some(how_far) if walk.waits() => line(frame, how_far, Role::Muted),
        Some(error) => line(frame, error, Role::Stop),
        None => line(frame, "", Role::Text),
    }
    let at = Rect { y, height: 1, ..inner }.intersection(inner);
    input(app, frame, at, &walk.input, walk.fresh);
    if walk.is_list() {
        let list = Rect { y: y + 1, height: inner.bottom().saturating_sub(y + 1), ..inner };
        let several = walk.question == Question::Loads && walk.clash.is_none();
        let row = |(_, words, taken): (usize, String, bool)| {
            let mark = match (several, taken) {
                (true, true) => "[x] ",
                (true, false) => "[ ] ",
                (false, _) => "",
            };
            (format!("{mark}{words}"), String::new())
        };
        let rows: Vec<(String, String)> = walk.rows(&app.catalogue).into_iter().map(row).collect();
        rows_of(app, view, frame, list, &rows, walk.pick);
    }
}
