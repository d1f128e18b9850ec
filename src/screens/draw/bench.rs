//! A question of the bench: its values above, the answer below.

use super::frame::over;
use super::width::{cut, fit};
use super::{field, lists};
use crate::screens::app::App;
use crate::screens::bench::Bench;
use crate::screens::sheet;
use crate::screens::theme::Role;
use crate::screens::view::{Target, View};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// Columns of a label.
const LABEL: u16 = 16;

/// Draw it.
pub fn draw(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect, bench: &Bench) {
    let inner = over(app, view, frame, body, (body.width.min(104), body.height), "Without a plan");
    let line = |y: u16| Rect { y: inner.y + y, height: 1, ..inner }.intersection(inner);
    let other = format!("‹ {} ›", bench.question.words());
    let style = if bench.pick == 0 { app.theme.focus() } else { app.theme.style(Role::Heading) };
    frame.render_widget(Span::styled(fit("Question", LABEL, false), app.theme.style(Role::Muted)), line(0));
    let value = |at: Rect| Rect { x: at.x + LABEL, width: at.width.saturating_sub(LABEL), ..at }.intersection(inner);
    let turns = if bench.pick == 0 { "   ← → the other question" } else { "" };
    frame.render_widget(Line::from(vec![Span::styled(other, style), Span::raw(turns)]), value(line(0)));
    view.mark(line(0), Target::Choice(0));
    // Two columns, read downwards.
    let rows = bench.asked.len().div_ceil(2) as u16;
    // The longest name of a chemistry, and the cursor behind it, fit into the left one.
    let half = (inner.width / 2 + 3).min(inner.width);
    let at = |n: usize| {
        let (column, row) = (n as u16 / rows.max(1), n as u16 % rows.max(1));
        Rect { x: inner.x + column * half, width: half.saturating_sub(1), ..line(1 + row) }.intersection(inner)
    };
    for (n, edit) in bench.asked.iter().enumerate() {
        let here = at(n);
        frame.render_widget(Span::styled(fit(bench.label(n), LABEL, false), app.theme.style(Role::Muted)), here);
        let wrong = matches!(&bench.answer, Err((of, _)) if *of == n);
        let role = if wrong { Role::Stop } else { Role::Given };
        let text = if edit.input.value().is_empty() { bench.unsaid(n) } else { edit.input.value() };
        let here = value(here).intersection(here);
        frame.render_widget(Span::styled(cut(text, here.width), app.theme.style(role)), here);
        view.mark(at(n), Target::Choice(n + 1));
    }
    let top = rows + 2;
    answer(app, frame, Rect { y: inner.y + top, height: inner.height.saturating_sub(top), ..inner }, bench);
    // Last, so that a list of options lies over the answer.
    if let Some((n, edit)) = bench.pick.checked_sub(1).and_then(|n| Some((n, bench.asked.get(n)?))) {
        let area = field::typing(app, frame, value(at(n)).intersection(at(n)), inner, edit);
        // What the answer begins with stays in sight while a list is turned through.
        field::options(app, view, frame, Rect { y: inner.y + top + 1, ..area }, inner, edit);
    }
}

/// The answer in the words of the shell, or why there is none.
fn answer(app: &App, frame: &mut Frame<'_>, area: Rect, bench: &Bench) {
    let lines: Vec<(String, Role)> = match &bench.answer {
        Err((n, why)) => {
            // Which one is meant: the field in hand may be another by now.
            let label = bench.label(*n);
            let named = label.is_empty() || why.starts_with(label);
            vec![(if named { why.clone() } else { format!("{label}: {why}") }, Role::Stop)]
        }
        Ok(answer) => sheet::lines(app, &answer.paper, area.width).into_iter().map(|l| (l, Role::Text)).collect(),
    };
    lists::scrolled(app, frame, area, &lines, bench.scroll);
}
