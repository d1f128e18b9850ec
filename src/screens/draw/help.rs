//! Help: the field in hand, the keys of where you are, the mouse, a plan in six steps, the words of the trade.

use super::lists;
use crate::plan::field_at;
use crate::screens::app::App;
use crate::screens::guide;
use crate::screens::keymap::{self, BINDINGS, Binding, Mode, When};
use crate::screens::screen::Screen;
use crate::screens::theme::Role;
use crate::screens::view::View;
use ratatui::Frame;
use ratatui::layout::Rect;

/// Draw it.
pub fn draw(app: &App, view: &mut View, frame: &mut Frame<'_>, body: Rect, scroll: usize) {
    let title = format!("Keys: {}", app.screen.title());
    lists::text(app, view, frame, body, &title, &lines(app), scroll);
}

/// The text of it.
pub fn lines(app: &App) -> Vec<(String, Role)> {
    let mut out = vec![(app.screen.question().to_string(), Role::Text), (String::new(), Role::Text)];
    out.extend(field(app));
    let (findings, diagram) = (app.screen == Screen::Findings, app.screen == Screen::Diagram);
    // What the cell under the help allows is not known while the help lies over it: say all.
    let browse = keymap::Where {
        mode: Mode::Browse,
        list: true,
        adds: true,
        field: true,
        number: true,
        offer: true,
        findings,
        diagram,
        saves: false,
    };
    let everywhere = |b: &Binding| matches!(b.when, When::Anywhere | When::In(Mode::Browse));
    let group = |out: &mut Vec<(String, Role)>, title: &str, wanted: &dyn Fn(&Binding) -> bool| {
        out.push((title.to_string(), Role::Heading));
        for b in BINDINGS.iter().filter(|b| wanted(b)) {
            let keys: Vec<String> = b.keys.iter().map(|k| k.words()).collect();
            out.push((format!("  {:<24} {}", keys.join(", "), b.words), Role::Text));
        }
        out.push((String::new(), Role::Text));
    };
    group(&mut out, "On the row or cell in hand", &|b| !everywhere(b) && b.when.holds(browse));
    group(&mut out, "Everywhere", &everywhere);
    group(&mut out, "While editing a field", &|b| b.when == When::In(Mode::Editing));
    group(&mut out, "In a working", &|b| b.when == When::In(Mode::Card));
    out.push(("Mouse (all of it can be done by keys too)".into(), Role::Heading));
    for (what, does) in [
        ("click", "stand on a cell; again to edit it; press what is in the footer or the header"),
        ("wheel", "move in the pane under it"),
        ("drag a row", "move it, in Loads and in Runs"),
    ] {
        out.push((format!("  {what:<24} {does}"), Role::Text));
    }
    out.push((String::new(), Role::Text));
    out.push(("Signs".into(), Role::Heading));
    for (what, does) in [
        ("given, usual, chosen", "entered by you; the usual value; worked out by the program"),
        ("=  before a value", "entered by you, where the program would choose or no word says so"),
        ("*  and  old → new", "changed by the last edit, or different from the pinned design"),
        ("STOP, caution, note", "do not build this; think about it; good to know"),
    ] {
        out.push((format!("  {what:<24} {does}"), Role::Text));
    }
    out.push((String::new(), Role::Text));
    out.push(("Values are taken as people write them".into(), Role::Heading));
    out.push(("  25mm², 4 AWG, 6.2m, 20 ft, 45W, 3.5A, 1h30, 90 min, 40%, -5, 23 °F".into(), Role::Text));
    out.push((String::new(), Role::Text));
    out.extend(guide::lines());
    out
}

/// The field in hand: what it is, what it takes, where its value is found.
fn field(app: &App) -> Vec<(String, Role)> {
    let Some(field) = app.cell().and_then(|c| c.place).and_then(field_at) else { return Vec::new() };
    let accepts = field.accepted(&app.catalogue);
    let mut out = vec![
        (format!("In hand: {}", field.label), Role::Heading),
        (format!("  {}", field.help), Role::Text),
        (format!("  Takes {accepts}."), Role::Text),
    ];
    out.extend(field.find_out().map(|words| (format!("  To find it: {words}."), Role::Text)));
    out.push((String::new(), Role::Text));
    out
}
