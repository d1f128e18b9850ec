//! How a number came about: formula, numbers put in, result, source.

use super::frame::{bordered, over as room_over};
use super::width::{fit, width, wrap};
use crate::engine::{Topic, Working};
use crate::plan::{field_at, marked};
use crate::quantity::{Figure, UnitSystem};
use crate::screens::app::App;
use crate::screens::overlay::Card;
use crate::screens::theme::Role;
use crate::screens::view::{Target, View};
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// One line of a card: pieces, and the number put in that it is about.
struct CardLine {
    pieces: Vec<(String, Role)>,
    input: Option<usize>,
}

/// Over the panes.
pub fn over(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect, card: &Card) {
    let Some(topic) = card.stack.last() else { return };
    let Some(working) = app.working(topic) else { return };
    let columns = body.width.saturating_sub(8).min(92);
    let lines = lines(app, topic, working, columns.saturating_sub(2));
    let title = if card.stack.len() > 1 { "Working (Backspace goes back)" } else { "Working" };
    let size = (columns, (lines.len() as u16).saturating_add(2));
    let inner = room_over(app, view, frame, body, size, title);
    let in_hand = lines.iter().position(|l| l.input == Some(card.pick)).unwrap_or(0);
    let first = View::follow(0, in_hand, usize::from(inner.height));
    for (n, line) in lines.iter().skip(first).take(usize::from(inner.height)).enumerate() {
        let here = Rect { y: inner.y + n as u16, height: 1, ..inner };
        let mut shown = styled(app, line);
        if line.input.is_some() && line.input == Some(card.pick) {
            shown = shown.patch_style(app.theme.focus());
        }
        frame.render_widget(shown, here);
        if let Some(input) = line.input {
            view.mark(here, Target::Choice(input));
        }
    }
}

/// Beside the panes, of the number or the field in hand.
pub fn beside(app: &App, frame: &mut Frame<'_>, area: Rect) {
    let block = bordered(app, false)
        .border_style(app.theme.style(Role::Muted))
        .title(Span::styled(" Working ", app.theme.style(Role::Heading)));
    let inner = block.inner(area);
    frame.render_widget(block, area);
    let cell = app.cell();
    let topic = cell.as_ref().and_then(|c| c.topic.as_ref());
    let working = topic.and_then(|t| Some((t, app.working(t)?)));
    let lines = match (working, cell.as_ref().and_then(|c| c.place).and_then(field_at)) {
        (Some((topic, working)), _) => lines(app, topic, working, inner.width),
        (None, Some(field)) => {
            let mut lines = vec![plain(field.label, Role::Heading)];
            lines.extend(wrapped(field.help, inner.width, Role::Text));
            let accepted = app.scene().plain(field.accepted(&app.catalogue));
            lines.extend(wrapped(&format!("It can be {accepted}."), inner.width, Role::Muted));
            let found = field.find_out().map(|words| format!("To find it: {words}."));
            lines.extend(found.into_iter().flat_map(|words| wrapped(&words, inner.width, Role::Muted)));
            lines
        }
        (None, None) => vec![plain("Stand on a number to see how it came about.", Role::Muted)],
    };
    for (n, line) in lines.iter().take(usize::from(inner.height)).enumerate() {
        frame.render_widget(styled(app, line), Rect { y: inner.y + n as u16, height: 1, ..inner });
    }
}

fn styled<'a>(app: &App, line: &CardLine) -> Line<'a> {
    let span = |(t, role): &(String, Role)| Span::styled(marked(t).into_owned(), app.theme.style(*role));
    Line::from(line.pieces.iter().map(span).collect::<Vec<_>>())
}

fn plain(text: &str, role: Role) -> CardLine {
    CardLine { pieces: vec![(text.into(), role)], input: None }
}

fn wrapped(text: &str, columns: u16, role: Role) -> Vec<CardLine> {
    wrap(text, columns).into_iter().map(|l| plain(&l, role)).collect()
}

fn lines(app: &App, topic: &Topic, working: &Working, columns: u16) -> Vec<CardLine> {
    let scene = app.scene();
    let result = scene.show(working.result);
    let about = scene.words(&topic.subject);
    let mut out = wrapped(&format!("{about}: {} = {result}", working.name), columns, Role::Heading);
    out.push(plain("", Role::Text));
    if !working.formula.is_empty() {
        let symbol = working.formula.trim();
        out.extend(wrapped(&format!("= {symbol}"), columns, Role::Text));
        out.extend(wrapped(&format!("= {}", numbers_in(symbol, working)), columns, Role::Muted));
        out.push(plain("", Role::Text));
    }
    let symbols = working.inputs.iter().map(|i| width(i.symbol)).max().unwrap_or(0);
    for (n, input) in working.inputs.iter().enumerate() {
        let symbol = fit(input.symbol, symbols, false);
        let value = scene.show(input.value);
        let deeper = input.from.as_ref().is_some_and(|t| app.working(t).is_some());
        let sign = if deeper { " ›" } else { "" };
        let text = format!("{symbol}  {value}  {}", input.meaning);
        // The lines after the first are set in by four.
        let mut parts = wrap(&text, columns.saturating_sub(4)).into_iter();
        let first = parts.next().unwrap_or_default();
        out.push(CardLine { pieces: vec![(first, Role::Text), (sign.into(), Role::Key)], input: Some(n) });
        out.extend(parts.map(|l| plain(&format!("    {l}"), Role::Text)));
    }
    if !working.inputs.is_empty() {
        out.push(plain("", Role::Text));
    }
    if !working.source.is_empty() {
        out.extend(wrapped(&format!("Source: {}", working.source), columns, Role::Muted));
    }
    for note in &working.notes {
        out.extend(wrapped(&format!("Note: {note}"), columns, Role::Note));
    }
    out
}

/// The formula with the numbers in place of the symbols.
fn numbers_in(formula: &str, working: &Working) -> String {
    let mut out = String::new();
    let mut word = String::new();
    let flush = |word: &mut String, out: &mut String| {
        match working.inputs.iter().find(|i| i.symbol == word) {
            // As the formula reckons: a share of 18.2 % is 0.182, 40 mΩ are 0.04 Ω.
            Some(input) => out.push_str(&Figure::number(input.value.value).digits(UnitSystem::Metric)),
            None => out.push_str(word),
        }
        word.clear();
    };
    for c in formula.chars() {
        if c.is_alphanumeric() || c == '_' {
            word.push(c);
        } else {
            flush(&mut word, &mut out);
            out.push(c);
        }
    }
    flush(&mut word, &mut out);
    out
}
