//! The mouse: what is under it decides what it does.

use super::action::{Action, Way};
use super::app::App;
use super::overlay::Overlay;
use super::view::{Target, View};
use crossterm::event::{MouseButton, MouseEvent, MouseEventKind};

/// What the mouse asks for, in order.
pub fn actions(app: &App, view: &mut View, event: &MouseEvent) -> Vec<Action> {
    let under = view.at(event.column, event.row).cloned();
    match event.kind {
        MouseEventKind::Down(MouseButton::Left) => {
            view.grabbed = under.clone();
            under.map_or_else(Vec::new, |target| press(app, target))
        }
        MouseEventKind::Up(MouseButton::Left) => drop_on(view.grabbed.take(), under),
        MouseEventKind::ScrollUp => wheel(app, under, Way::Up),
        MouseEventKind::ScrollDown => wheel(app, under, Way::Down),
        MouseEventKind::ScrollLeft => wheel(app, under, Way::Left),
        MouseEventKind::ScrollRight => wheel(app, under, Way::Right),
        _ => Vec::new(),
    }
}

fn press(app: &App, target: Target) -> Vec<Action> {
    match target {
        Target::Button(action) => vec![action],
        Target::Cell { pane, row, column } if app.editing.is_some() => {
            vec![Action::Commit, Action::Stand { pane, row, column }]
        }
        Target::Cell { pane, row, column } => {
            let panes = app.all_panes();
            let table = panes.get(pane).and_then(|p| p.as_table());
            let there = table.is_some_and(|t| {
                let spot = app.spot(pane, t);
                app.pane() == pane && spot.row == row && spot.column == column
            });
            if there { vec![Action::Open] } else { vec![Action::Stand { pane, row, column }] }
        }
        Target::Pane(pane) => {
            let spot = app.spots.get(&(app.screen, pane)).copied().unwrap_or_default();
            vec![Action::Stand { pane, row: spot.row, column: spot.column }]
        }
        Target::Choice(n) => choice(app, n),
        Target::Overlay => Vec::new(),
    }
}

/// A row of a list: stand on it and choose it.
fn choice(app: &App, n: usize) -> Vec<Action> {
    let at = match (&app.editing, &app.overlay) {
        (Some(edit), _) => edit.pick,
        (None, Some(Overlay::Menu(menu))) => Some(menu.pick),
        (None, Some(Overlay::Ask(ask))) => Some(ask.pick),
        (None, Some(Overlay::Walk(walk))) => Some(walk.pick),
        (None, Some(Overlay::Card(card))) => Some(card.pick),
        (None, Some(Overlay::Bench(bench))) => Some(bench.pick),
        (None, Some(Overlay::Log(log))) => Some(log.pick()),
        (None, Some(Overlay::Own(own))) => Some(own.pick),
        _ => return Vec::new(),
    };
    // Before the first: Down stands on it.
    let mut actions = match at {
        Some(at) if n >= at => vec![Action::Move(Way::Down); n - at],
        Some(at) => vec![Action::Move(Way::Up); at - n],
        None => vec![Action::Move(Way::Down); n + 1],
    };
    if matches!(&app.overlay, Some(Overlay::Bench(_) | Overlay::Own(_) | Overlay::Probing(_) | Overlay::Log(_))) {
        return actions;
    }
    actions.push(match &app.overlay {
        // A load is taken in or out, a card stepped into; everything else is the answer.
        Some(Overlay::Card(_) | Overlay::Walk(_)) => Action::Open,
        _ => Action::Commit,
    });
    actions
}

fn wheel(app: &App, under: Option<Target>, way: Way) -> Vec<Action> {
    let pane = match under {
        _ if app.overlay.is_some() || app.editing.is_some() => return vec![Action::Move(way)],
        Some(Target::Cell { pane, .. } | Target::Pane(pane)) => pane,
        _ => return Vec::new(),
    };
    if pane == app.pane() {
        return vec![Action::Move(way)];
    }
    let spot = app.spots.get(&(app.screen, pane)).copied().unwrap_or_default();
    vec![Action::Stand { pane, row: spot.row, column: spot.column }, Action::Move(way)]
}

/// A row let go on another one of the same list.
fn drop_on(grabbed: Option<Target>, under: Option<Target>) -> Vec<Action> {
    match (grabbed, under) {
        (Some(Target::Cell { pane: 0, row: from, .. }), Some(Target::Cell { pane: 0, row: to, .. })) if from != to => {
            vec![Action::Drag { from, to }]
        }
        _ => Vec::new(),
    }
}
