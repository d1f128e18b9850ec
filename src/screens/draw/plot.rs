//! Curves with axes and units; each curve has its own marker, so that no colour is needed.

use super::axis::{lying, upright};
use super::bars;
use super::width::{cut, width, wrap};
use crate::quantity::{Figure, UnitSystem};
use crate::screens::app::App;
use crate::screens::pane::{PLACES, Plot, Scatter};
use crate::screens::theme::Role;
use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::symbols::Marker;
use ratatui::text::{Line, Span};
use ratatui::widgets::{Axis, Chart, Dataset, GraphType};

/// Letters that mark the curves, each at a few of its points.
const LETTERS: &[char] = &['r', 'l', 'u', 'h', 'a', 'b', 'c', 'd'];

/// Draw it, with the cursor at a place where the pane is in hand.
pub fn draw(app: &App, frame: &mut Frame<'_>, area: Rect, plot: &Plot, cursor: Option<usize>) {
    if plot.curves.iter().all(|(_, points)| points.is_empty()) {
        let words = if plot.empty.is_empty() { "no curve could be computed; see Findings" } else { &plot.empty };
        for (n, line) in wrap(words, area.width.saturating_sub(1)).into_iter().enumerate() {
            let here = Rect { y: area.y + n as u16, height: 1, ..area }.intersection(area);
            frame.render_widget(Span::styled(format!(" {line}"), app.theme.style(Role::Muted)), here);
        }
        return;
    }
    let cursor = cursor.map(|place| plot.x.1 + (plot.x.2 - plot.x.1) * place as f64 / PLACES as f64);
    let legend = legend(app, plot, area.width, cursor);
    let bars = bars::shown(plot, area.height / 3);
    let named = bars.iter().map(|(name, _)| width(name).min(bars::room(area.width))).max().unwrap_or(0);
    let labels = plot.up.iter().map(|(_, words)| width(words)).max().unwrap_or(0).max(named) + 1;
    let lines = |n: usize| Constraint::Length(n as u16);
    let rows = [Constraint::Fill(1), lines(2), lines(bars.len()), lines(legend.len())];
    let [top, axis, strips, below] = Layout::vertical(rows).areas(area);
    let [left, curves] = Layout::horizontal([Constraint::Length(labels), Constraint::Fill(1)]).areas(top);
    let axis = Rect { x: left.right().saturating_sub(1), width: curves.width + 1, ..axis };
    upright(app, frame, left, plot);
    lying(app, frame, axis, plot);
    chart(app, frame, curves, plot, cursor);
    bars::draw(app, frame, Rect { y: strips.y, height: strips.height, ..axis }, labels, plot, &bars);
    for (n, line) in legend.into_iter().enumerate() {
        let here = Rect { y: below.y + n as u16, height: 1, ..below };
        frame.render_widget(line, here.intersection(below));
    }
}

fn chart(app: &App, frame: &mut Frame<'_>, area: Rect, plot: &Plot, cursor: Option<f64>) {
    let marker = if app.ascii { Marker::Custom('.') } else { Marker::Braille };
    let levels: Vec<Vec<(f64, f64)>> = plot
        .levels
        .iter()
        .map(|(_, y)| (0..=400).map(|i| (plot.x.1 + (plot.x.2 - plot.x.1) * f64::from(i) / 400.0, *y)).collect())
        .collect();
    let letters: Vec<Vec<(f64, f64)>> = plot.curves.iter().enumerate().map(|(n, (_, p))| marks(p, n)).collect();
    let upright: Vec<(f64, f64)> = cursor
        .iter()
        .flat_map(|x| (0..=100).map(|i| (*x, plot.y.1 + (plot.y.2 - plot.y.1) * f64::from(i) / 100.0)))
        .collect();
    let mut sets = Vec::new();
    // What lies under a curve comes before it.
    for (n, points) in levels.iter().enumerate() {
        let sign = if n == 0 { Marker::Custom('-') } else { Marker::Custom('=') };
        sets.push(Dataset::default().marker(sign).style(app.theme.style(Role::Muted)).data(points));
    }
    let bar = Marker::Custom(if app.ascii { '|' } else { '│' });
    sets.push(Dataset::default().marker(bar).style(app.theme.style(Role::Key)).data(&upright));
    for (n, (_, points)) in plot.curves.iter().enumerate() {
        let line = Dataset::default().marker(marker).graph_type(GraphType::Line);
        sets.push(line.style(app.theme.curve(n)).data(points));
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
    let axis = |from: f64, to: f64| Axis::default().bounds([from, to]);
    let chart =
        Chart::new(sets).x_axis(axis(plot.x.1, plot.x.2)).y_axis(axis(plot.y.1, plot.y.2)).legend_position(None);
    frame.render_widget(chart, area);
}

/// The value of a curve at a place on the x axis, between the points beside it.
fn at(points: &[(f64, f64)], x: f64) -> Option<f64> {
    let after = points.iter().position(|p| p.0 >= x)?;
    let (b, a) = (points[after], points[after.saturating_sub(1)]);
    let share = if b.0 > a.0 { (x - a.0) / (b.0 - a.0) } else { 1.0 };
    Some(a.1 + (b.1 - a.1) * share)
}

/// What the cursor stands on: the place, and each curve's value there, which may go on below.
fn reading(plot: &Plot, x: f64) -> Vec<String> {
    let number = |v: f64| Figure::number(v).digits(UnitSystem::Metric);
    let place = plot.read.map_or_else(|| format!("{} {}", plot.x.0, number(x)), |read| read(x));
    let values = plot.curves.iter().enumerate().filter_map(|(n, (name, points))| {
        let name = if plot.curves.len() > 1 { letter_of(plot, n).to_string() } else { name.clone() };
        Some(format!("{name} {}", number(at(points, x)?)))
    });
    std::iter::once(place).chain(values).chain(bars::at(plot, x)).collect()
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

/// What the x axis is, which sign is which line, and what the cursor stands on.
fn legend<'a>(app: &App, plot: &Plot, columns: u16, cursor: Option<f64>) -> Vec<Line<'a>> {
    let curve = |(n, (name, _)): (usize, &(String, _))| (format!("{} {name}", letter_of(plot, n)), app.theme.curve(n));
    let level = |(n, (name, _)): (usize, &(String, f64))| {
        let sign = if n == 0 { '-' } else { '=' };
        (format!("{sign} {name}"), app.theme.style(Role::Muted))
    };
    let several = plot.curves.len() > 1;
    let mark = |s: &Scatter| (format!("{} {}", s.sign, s.name), app.theme.style(Role::Stop));
    let all = plot.curves.iter().enumerate().filter(|_| several).map(curve);
    // What the cursor reads begins with the name of the axis.
    let (first, style) = match cursor {
        Some(x) => (reading(plot, x), app.theme.style(Role::Key)),
        None => (vec![plot.x.0.clone()], app.theme.style(Role::Heading)),
    };
    let all = first.into_iter().map(|words| (words, style)).chain(all);
    let out = (!plot.bars.is_empty()).then(|| (format!("{} without power", bars::SIGN), app.theme.style(Role::Stop)));
    let all = all.chain(plot.levels.iter().enumerate().map(level)).chain(plot.marks.iter().map(mark)).chain(out);
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
