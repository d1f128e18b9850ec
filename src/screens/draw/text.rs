//! Text: wrapped when it is prose, scrolled both ways when it is a drawing.

use super::width::{width, wrap};
use crate::plan::marked;
use crate::quantity::{UnitSystem, in_units_but};
use crate::screens::app::{App, Spot};
use crate::screens::pane::Text;
use crate::screens::theme::Role;
use crate::screens::view::View;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthChar;

/// Draw it.
pub fn draw(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect, pane: usize, text: &Text) {
    let spot = app.spots.get(&(app.screen, pane)).copied().unwrap_or_default();
    let high = usize::from(area.height);
    let folded = if text.wrap { Vec::new() } else { folded(&text.lines, area.width) };
    let widest = folded.iter().map(|(_, line)| of_pieces(line)).max().unwrap_or(0);
    let spot = Spot { column: spot.column.min(usize::from(widest.saturating_sub(area.width))), ..spot };
    let drawn = !text.runs.is_empty();
    let lines: Vec<Line<'_>> =
        if text.wrap { prose(app, text, area.width) } else { drawing(app, &folded, spot.column) };
    let in_hand = |n: usize| drawn && folded.get(n).is_some_and(|(of, _)| *of == spot.row);
    let last = lines.len().saturating_sub(high);
    // A drawing has a line in hand and moves only as far as that asks for.
    let first = if drawn {
        let before = view.scroll.get(&(app.screen, pane)).map_or(0, |(first, _)| *first);
        let (top, end) =
            (folded.partition_point(|(of, _)| *of < spot.row), folded.partition_point(|(of, _)| *of <= spot.row));
        before.clamp(end.saturating_sub(high).min(top), top).min(last)
    } else {
        spot.row.min(last)
    };
    view.scroll.insert((app.screen, pane), (first, spot.column));
    for (n, line) in lines.into_iter().enumerate().skip(first).take(high) {
        let row = Rect { y: area.y + (n - first) as u16, height: 1, ..area };
        let cut = line.width() > usize::from(area.width);
        let line = if in_hand(n) { line.patch_style(app.theme.in_hand()) } else { line };
        frame.render_widget(line, row);
        if in_hand(n) {
            frame.buffer_mut().set_style(row, app.theme.focus());
        }
        if cut && !text.wrap {
            let end = Rect { x: row.right(), width: 1, ..row }.intersection(frame.area());
            frame.render_widget(Span::styled("›", app.theme.style(Role::Key)), end);
        }
    }
    if first < last && area.height > 0 {
        let corner = Rect { x: area.right(), y: area.bottom() - 1, width: 1, height: 1 }.intersection(frame.area());
        frame.render_widget(Span::styled("↓", app.theme.style(Role::Key)), corner);
    }
}

/// Pieces of a line with their roles.
type Pieces = Vec<(String, Role)>;

fn of_pieces(line: &[(String, Role)]) -> u16 {
    line.iter().map(|(t, _)| width(t)).fold(0, u16::saturating_add)
}

/// Lines of a drawing, each with the one it is of: where the words at its end do not fit they go on below, behind the
/// stems of the line that follows. What has words within, such as a box, stays whole and is moved sideways.
fn folded(lines: &[Pieces], columns: u16) -> Vec<(usize, Pieces)> {
    let mut out = Vec::new();
    for (n, line) in lines.iter().enumerate() {
        let about = line.last().filter(|(t, role)| *role == Role::Text && t.starts_with(' ') && line.len() > 1);
        let Some((words, role)) = about.filter(|_| of_pieces(line) > columns) else {
            out.push((n, line.clone()));
            continue;
        };
        let before = &line[..line.len() - 1];
        let stems = lines.get(n + 1).map_or(Vec::new(), |next| stems(next));
        let indent = format!("{}  ", stems.iter().map(|(t, _)| t.as_str()).collect::<String>());
        let (first, rest) = split(words.trim_start(), columns.saturating_sub(of_pieces(before) + 1));
        let begin = before.iter().cloned().chain((!first.is_empty()).then(|| (format!(" {first}"), *role)));
        out.push((n, begin.collect()));
        let room = columns.saturating_sub(width(&indent)).max(1);
        let below = wrap(&rest, room).into_iter().filter(|l| !l.is_empty());
        out.extend(below.map(|l| (n, vec![(indent.clone(), Role::Muted), (l, *role)])));
    }
    out
}

/// The lines that lead down past a line to what hangs on it and after it.
fn stems(line: &[(String, Role)]) -> Pieces {
    let is_stem = |(t, role): &&(String, Role)| *role == Role::Muted && t.chars().all(|c| " │├└─".contains(c));
    let down = |(t, role): &(String, Role)| (t.replace("├─", "│ ").replace("└─", "│ "), *role);
    line.iter().take_while(is_stem).map(down).collect()
}

/// What of a text goes into so many columns, and what is left.
fn split(text: &str, columns: u16) -> (String, String) {
    if columns == 0 {
        return (String::new(), text.into());
    }
    let mut lines = wrap(text, columns).into_iter();
    let first = lines.next().filter(|l| width(l) <= columns && text.starts_with(l.as_str()) && follows(text, l));
    match first {
        Some(first) => (first.clone(), text[first.len()..].trim_start().to_string()),
        None => (String::new(), text.into()),
    }
}

/// Whether a text goes on with a blank, so that no word is broken.
fn follows(text: &str, begin: &str) -> bool {
    text[begin.len()..].is_empty() || text[begin.len()..].starts_with(' ')
}

fn prose<'a>(app: &App, text: &Text, columns: u16) -> Vec<Line<'a>> {
    let mut lines = Vec::new();
    for line in &text.lines {
        // A formula stays in the units in which it was reckoned.
        let units = if line.iter().any(|(t, _)| t.contains(" = ")) { UnitSystem::Metric } else { app.units };
        let line: Vec<(String, Role)> =
            line.iter().map(|(t, role)| (in_units_but(t, units, &app.now.names).into_owned(), *role)).collect();
        let whole: String = line.iter().map(|(t, _)| t.as_str()).collect();
        if width(&whole) <= columns {
            let span = |(t, role): &(String, Role)| Span::styled(marked(t).into_owned(), app.theme.style(*role));
            lines.push(Line::from(line.iter().map(span).collect::<Vec<_>>()));
        } else {
            let style = line.last().map_or_else(Default::default, |(_, role)| app.theme.style(*role));
            lines.extend(wrap(&whole, columns).into_iter().map(|l| Line::styled(l, style)));
        }
    }
    lines
}

fn drawing<'a>(app: &App, lines: &[(usize, Pieces)], skip: usize) -> Vec<Line<'a>> {
    let line = |(_, pieces): &(usize, Pieces)| {
        let mut left = skip;
        let mut spans = Vec::new();
        for (piece, role) in pieces {
            let mut shown = String::new();
            for c in marked(piece).chars() {
                let w = c.width().unwrap_or(0);
                if left >= w.max(1) {
                    left -= w;
                } else {
                    left = 0;
                    shown.push(c);
                }
            }
            spans.push(Span::styled(shown, app.theme.style(*role)));
        }
        Line::from(spans)
    };
    lines.iter().map(line).collect()
}
