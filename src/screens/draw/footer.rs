//! The two lines at the bottom: what is said about the cell in hand, and the few keys of this place.
//! What is longer than a line takes both: why something failed, or the whole of
//! a text that is cut in its pane, matters more than the keys.

use super::width::{cut, width, wrap};
use crate::plan::field_at;
use crate::screens::app::App;
use crate::screens::overlay::Overlay;
use crate::screens::pane::{Cell, Offer};
use crate::screens::supply::capital;
use crate::screens::theme::Role;
use crate::screens::view::{Target, View};
use crate::screens::{changes, form, keymap};
use itertools::Itertools;
use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

/// Draw both.
pub fn draw(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect) {
    let line = |y: u16| Rect { y: area.y + y, height: 1, ..area };
    let room = area.width.saturating_sub(2);
    let (text, role) = said(app, view, room);
    let style = app.theme.style(role);
    if (role == Role::Stop || role == Role::Text) && width(&text) > room {
        let mut lines = wrap(&text, room).into_iter();
        let first = lines.next().unwrap_or_default();
        let rest = cut(&lines.collect::<Vec<_>>().join(" "), room);
        frame.render_widget(Line::styled(format!(" {first}"), style), line(0));
        frame.render_widget(Line::styled(format!(" {rest}"), style), line(1));
        return;
    }
    frame.render_widget(Line::styled(format!(" {}", cut(&text, room)), style), line(0));
    keys(app, view, frame, line(1));
}

/// The last message, what is wrong with the typing, or help for the field in hand, in so many columns where it can be.
fn said(app: &App, view: &View, room: u16) -> (String, Role) {
    if let Some(edit) = &app.editing {
        let Some(field) = field_at(edit.place) else { return (String::new(), Role::Text) };
        return match &edit.error {
            Some(reason) => (reason.clone(), Role::Stop),
            None => (format!("{}: {}", field.label, field.help), Role::Text),
        };
    }
    if let (Some(Overlay::Bench(bench)), None) = (&app.overlay, &app.message) {
        return (bench.about(), Role::Muted);
    }
    if let (Some(Overlay::Log(log)), None) = (&app.overlay, &app.message) {
        return (log.about(), Role::Muted);
    }
    if let (Some(Overlay::Own(own)), None) = (&app.overlay, &app.message) {
        return (own.about(), Role::Muted);
    }
    if let Some(Overlay::Probing(probing)) = &app.overlay {
        return match &probing.error {
            Some(why) => (why.clone(), Role::Stop),
            None => ("Nothing here changes the plan; isolate first what is named under First".into(), Role::Muted),
        };
    }
    if let Some(message) = &app.message {
        return (message.text.clone(), message.role);
    }
    if let Some(cut) = view.cut.as_ref().filter(|_| app.overlay.is_none()) {
        return (cut.clone(), Role::Text);
    }
    let Some(cell) = app.cell() else { return (app.screen.question().to_string(), Role::Muted) };
    let was = was(app).map_or_else(String::new, |old| format!("  (was {old})"));
    // What stands beside the cell anyway is left out first.
    let words = about(app, &cell);
    let whole = |words: &String| width(words) + width(&was) <= room;
    let words = words.iter().find(|w| whole(w)).or(words.last()).cloned().unwrap_or_default();
    (format!("{words}{was}"), Role::Muted)
}

/// What is said of a cell, the longest first.
fn about(app: &App, cell: &Cell) -> Vec<String> {
    match (&cell.offer, cell.place.and_then(field_at)) {
        (Some(Offer::Put { words, .. } | Offer::Do { words, .. }), _) => {
            let why = if cell.why.is_empty() { "" } else { "; w: why" };
            vec![format!("Enter: {words}{why}")]
        }
        (Some(Offer::Go(_)), _) => vec!["Enter: go to the field that mends it".into()],
        (None, Some(field)) => {
            let origin = cell.place.map_or("", |place| form::origin(&app.scene(), place, cell));
            let (label, help) = (field.label, field.help);
            vec![format!("{label} ({origin}): {help}"), format!("{label}: {help}"), help.to_string()]
        }
        (None, None) if !cell.help.is_empty() || cell.topic.is_some() => {
            let hows: &[&str] = match (&cell.topic, cell.why.is_empty()) {
                (Some(_), _) => &["worked out by the program; w shows how", "w shows how"],
                (None, false) => &["w: why"],
                (None, true) => &[""],
            };
            let both = |how: &&str| {
                // The JSON's null is shown as a dash.
                let parts = [capital(&cell.help.replace("null ", "– ")), (*how).to_string()];
                parts.into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join(" · ")
            };
            hows.iter().map(both).collect()
        }
        (None, None) => vec![app.screen.question().to_string()],
    }
}

/// What the cell in hand showed before.
fn was(app: &App) -> Option<String> {
    let panes = app.all_panes();
    let earlier = changes::earlier(app);
    let table = panes.get(app.pane())?.as_table()?;
    let old = earlier.get(app.pane())?.as_table()?;
    let spot = app.spot(app.pane(), table);
    let row = table.at(spot.row)?;
    let twin = changes::twin(old, spot.row, &row)?;
    let (new, old) = (row.cells.get(spot.column)?, twin.cells.get(spot.column)?);
    (new.text != old.text).then(|| old.text.clone())
}

fn keys(app: &App, view: &mut View, frame: &mut Frame<'_>, area: Rect) {
    let mut x = area.x + 1;
    let shown = keymap::here(app.here()).filter(|b| !b.hint.is_empty());
    let mut hints: Vec<_> = shown.unique_by(|b| b.keys.first()).collect();
    let total = |hints: &[&keymap::Binding]| hints.iter().map(|b| hint_width(b)).sum::<u16>();
    while total(&hints) > area.width.saturating_sub(1) && hints.len() > 2 {
        hints.remove(hints.len() - 3);
    }
    for binding in hints {
        let key = binding.keys.first().map(|k| k.words()).unwrap_or_default();
        let here = Rect { x, width: hint_width(binding).min(area.right().saturating_sub(x)), ..area };
        let spans = vec![
            Span::styled(key, app.theme.style(Role::Key)),
            Span::styled(format!(" {}", binding.hint), app.theme.style(Role::Muted)),
        ];
        frame.render_widget(Line::from(spans), here);
        view.mark(here, Target::Button(binding.action.clone()));
        x = here.right();
    }
}

fn hint_width(binding: &keymap::Binding) -> u16 {
    let key = binding.keys.first().map(|k| k.words()).unwrap_or_default();
    width(&key) + 1 + width(binding.hint) + 2
}
