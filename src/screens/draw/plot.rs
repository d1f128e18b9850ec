//! Curves with axes and units; each curve has its own marker, so that no colour is needed.

use super::width::{cut, width, wrap};
use crate::screens::app::App;
use crate::screens::pane::{Plot, Scatter};
use crate::screens::theme::Role;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::style::Style;
use ratatui::symbols::Marker;
use ratatui::text::{Line, Span};
use ratatui::widgets::{Axis, Chart, Dataset, GraphType};

/// Letters that mark the curves, each at a few of its points.
const LETTERS: &[char] = &['r', 'l', 'u', 'h', 'a', 'b', 'c', 'd'];

/// Draw it.
pub fn draw(app: &App, frame: &mut Frame<'_>, area: Rect, plot: &Plot) {
    if plot.curves.iter().all(|(_, points)| points.is_empty()) {
        let words = if plot.empty.is_empty() { "no curve could be computed; see Findings" } else { &plot.empty };
        for (n, line) in wrap(words, area.width.saturating_sub(1)).into_iter().enumerate() {
            let here = Rect { y: area.y + n as u16, height: 1, ..area }.intersection(area);
            frame.render_widget(Span::styled(format!(" {line}"), app.theme.style(Role::Muted)), here);
        }
        return;
    }
    let legend = legend(app, plot, area.width);
    let [top, below] = Layout::vertical([Constraint::Fill(1), Constraint::Length(legend.len() as u16)]).areas(area);
    chart(app, frame, top, plot);
    for (n, line) in legend.into_iter().enumerate() {
        let here = Rect { y: below.y + n as u16, height: 1, ..below };
        frame.render_widget(line, here.intersection(below));
    }
}

fn chart(app: &App, frame: &mut Frame<'_>, area: Rect, plot: &Plot) {
    let marker = if app.ascii { Marker::Custom('.') } else { Marker::Braille };
    let levels: Vec<Vec<(f64, f64)>> = plot
        .levels
        .iter()
        .map(|(_, y)| (0..=400).map(|i| (plot.x.1 + (plot.x.2 - plot.x.1) * f64::from(i) / 400.0, *y)).collect())
        .collect();
    let letters: Vec<Vec<(f64, f64)>> = plot.curves.iter().enumerate().map(|(n, (_, p))| marks(p, n)).collect();
    let mut sets = Vec::new();
    for (n, (_, points)) in plot.curves.iter().enumerate() {
        let line = Dataset::default().marker(marker).graph_type(GraphType::Line);
        sets.push(line.style(app.theme.curve(n)).data(points));
    }
    for (n, points) in levels.iter().enumerate() {
        let sign = if n == 0 { Marker::Custom('-') } else { Marker::Custom('=') };
        let role = if n == 0 { Role::Stop } else { Role::Good };
        sets.push(Dataset::default().marker(sign).style(app.theme.style(role)).data(points));
    }
    for scatter in &plot.marks {
        let sign = Marker::Custom(scatter.sign);
        sets.push(Dataset::default().marker(sign).style(app.theme.style(Role::Stop)).data(&scatter.points));
    }
    // A single curve needs no letters.
    for (n, points) in letters.iter().enumerate().filter(|_| plot.curves.len() > 1) {
        let letter = letter_of(plot, n);
        sets.push(Dataset::default().marker(Marker::Custom(letter)).style(app.theme.curve(n)).data(points));
    }
    let axis = |title: &str, from: f64, to: f64, ticks: &[String]| {
        Axis::default()
            .title(Span::styled(title.to_string(), app.theme.style(Role::Heading)))
            .bounds([from, to])
            .labels(ticks.to_vec())
            .style(Style::new())
    };
    let chart = Chart::new(sets)
        .x_axis(axis(&plot.x.0, plot.x.1, plot.x.2, &plot.ticks.0))
        .y_axis(axis("", plot.y.1, plot.y.2, &plot.ticks.1))
        .legend_position(None);
    frame.render_widget(chart, area);
}

/// A few points of a curve, not the same ones for each.
fn marks(points: &[(f64, f64)], n: usize) -> Vec<(f64, f64)> {
    let step = (points.len() / 4).max(1);
    points.iter().copied().skip((step / 2 + n * step / 4).min(points.len().saturating_sub(1))).step_by(step).collect()
}

/// The first letter of a curve's name if it is free.
fn letter_of(plot: &Plot, n: usize) -> char {
    let first = |i: usize| plot.curves.get(i).and_then(|(name, _)| name.chars().next());
    match first(n) {
        Some(c) if c.is_ascii_alphabetic() && (0..n).all(|i| first(i) != Some(c)) => c,
        _ => LETTERS.get(n).copied().unwrap_or('x'),
    }
}

/// Which sign is which line.
fn legend<'a>(app: &App, plot: &Plot, columns: u16) -> Vec<Line<'a>> {
    let curve = |(n, (name, _)): (usize, &(String, _))| (format!("{} {name}", letter_of(plot, n)), app.theme.curve(n));
    let level = |(n, (name, _)): (usize, &(String, f64))| {
        let (sign, role) = if n == 0 { ('-', Role::Stop) } else { ('=', Role::Good) };
        (format!("{sign} {name}"), app.theme.style(role))
    };
    let several = plot.curves.len() > 1;
    let mark = |s: &Scatter| (format!("{} {}", s.sign, s.name), app.theme.style(Role::Stop));
    let all = plot.curves.iter().enumerate().filter(|_| several).map(curve);
    let all = all.chain(plot.levels.iter().enumerate().map(level)).chain(plot.marks.iter().map(mark));
    let mut lines = vec![Line::default()];
    let mut used = 0;
    for (text, style) in all {
        let text = cut(&text, columns);
        if used > 0 && used + width(&text) + 2 > columns {
            lines.push(Line::default());
            used = 0;
        }
        used += width(&text) + 2;
        if let Some(line) = lines.last_mut() {
            line.spans.push(Span::styled(format!("{text}  "), style));
        }
    }
    lines
}
