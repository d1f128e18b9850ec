//! What lies over the screen: opening it, moving in it, choosing from it.

use super::flow::Flow;
use super::{bench, card, files, logging, own, probing};
use crate::engine::Severity;
use crate::papers::{Job, parts_list};
use crate::quantity::{UnitSystem, counted};
use crate::screens::action::{Action, Way};
use crate::screens::app::App;
use crate::screens::bench::Question;
use crate::screens::edit::type_over;
use crate::screens::overlay::{Ask, Menu, Other, Overlay};
use crate::screens::sheet;
use crate::screens::{changes as differences, theme::Role};
use std::rc::Rc;
use tui_input::InputRequest;

/// Actions that an overlay takes for itself.
pub fn takes(action: &Action) -> bool {
    matches!(
        action,
        Action::Move(_)
            | Action::Open
            | Action::Commit
            | Action::Cancel
            | Action::Type(_)
            | Action::Paste(_)
            | Action::TakeAnswer
            | Action::KeepRow
    )
}

/// Do an action in the overlay.
pub fn update(app: &mut App, action: Action) -> Flow {
    match (&mut app.overlay, action) {
        (Some(Overlay::Bench(_)), action) => {
            if let Some(Overlay::Bench(bench)) = app.overlay.take() {
                bench::update(app, bench, action);
            }
        }
        (Some(Overlay::Own(_)), action) => {
            if let Some(Overlay::Own(form)) = app.overlay.take() {
                own::update(app, form, action);
            }
        }
        (Some(Overlay::Probing(_)), action) => {
            if let Some(Overlay::Probing(own)) = app.overlay.take() {
                probing::update(app, own, action);
            }
        }
        (Some(Overlay::Log(_)), action) => {
            if let Some(Overlay::Log(own)) = app.overlay.take() {
                logging::update(app, own, action);
            }
        }
        (_, Action::Cancel) => {
            app.overlay = None;
            app.then = None;
        }
        (Some(Overlay::Help { scroll } | Overlay::Text { scroll, .. }), Action::Move(way)) => scroll_by(scroll, way),
        (Some(Overlay::Card(_)), Action::Move(way)) => card::step(app, way),
        (Some(Overlay::Card(_)), Action::Open) => card::into(app),
        (Some(Overlay::Menu(menu)), Action::Move(way)) => {
            let last = menu.choices().len().saturating_sub(1);
            menu.pick = moved(menu.pick, way, last);
        }
        (Some(Overlay::Menu(menu)), Action::Type(request)) => type_in(menu, request),
        (Some(Overlay::Menu(menu)), Action::Paste(text)) => {
            first_line(&text).for_each(|request| type_in(menu, request));
        }
        (Some(Overlay::Menu(menu)), Action::Commit | Action::Open) => match menu.chosen() {
            Some(action) => return choose(app, action),
            None => menu.error = Some("nothing matches; Esc closes".into()),
        },
        (Some(Overlay::Ask(ask)), Action::Move(way)) => {
            ask.pick = moved(ask.pick, way, ask.choices.len().saturating_sub(1));
        }
        (Some(Overlay::Ask(ask)), Action::Commit | Action::Open) => {
            if let Some((_, _, action)) = ask.choices.get(ask.pick).cloned() {
                return choose(app, action);
            }
        }
        _ => {}
    }
    Flow::On
}

/// Close the overlay and do what was chosen in it.
pub fn choose(app: &mut App, action: Action) -> Flow {
    app.overlay = None;
    Flow::Then(action)
}

fn type_in(menu: &mut Menu, request: InputRequest) {
    type_over(&mut menu.input, menu.fresh, request);
    menu.fresh = false;
    menu.pick = 0;
    menu.error = None;
    let typed = files::at_home(std::path::Path::new(menu.input.value().trim()));
    menu.own_first = matches!(menu.other, Some(Other::Open | Other::Log)) && typed.is_file();
}

/// A pasted text, as if typed.
pub fn first_line(text: &str) -> impl Iterator<Item = InputRequest> {
    text.lines().next().unwrap_or_default().chars().take(1000).map(InputRequest::InsertChar)
}

pub fn moved(pick: usize, way: Way, last: usize) -> usize {
    match way {
        Way::Up => pick.saturating_sub(1),
        Way::Down => (pick + 1).min(last),
        Way::PageUp => pick.saturating_sub(10),
        Way::PageDown => (pick + 10).min(last),
        _ => pick,
    }
}

fn scroll_by(scroll: &mut usize, way: Way) {
    *scroll = moved(*scroll, way, 10_000);
}

/// The keys of where you are.
pub fn help(app: &mut App) {
    // It speaks of keys of the screens.
    app.message = None;
    app.overlay = Some(Overlay::Help { scroll: 0 });
}

/// What the last edit changed, or what differs from the pinned design.
pub fn changes(app: &mut App) {
    let Some(baseline) = app.baseline() else { return app.say("nothing has changed yet") };
    let found = differences::between(app, baseline);
    let title = if app.pinned.is_some() { "Before (pinned) and after" } else { "What the last edit changed" };
    let mut lines = Vec::new();
    let mut screen = "";
    for change in found {
        if change.screen != screen {
            screen = change.screen;
            lines.push((screen.to_string(), Role::Heading));
        }
        lines.push((format!("  {}: {} → {}", change.what, change.old, change.new), Role::Text));
    }
    if lines.is_empty() {
        lines.push(("no number differs".into(), Role::Muted));
    }
    app.overlay = Some(Overlay::Text { title: title.into(), lines, scroll: 0, saves: false });
}

/// Keep this design to compare with, or stop.
pub fn pin(app: &mut App) {
    if app.pinned.take().is_some() {
        app.say("no longer comparing with the pinned design");
    } else {
        app.pinned = Some(Rc::clone(&app.now));
        app.say("pinned: numbers now show before → after; v lists them, p stops");
    }
}

/// What to buy, and whether something stands against it.
pub fn to_buy(app: &mut App) {
    let state = &app.now;
    let job = Job { plan: &state.plan, catalogue: &state.catalogue, design: &state.design, beside: &[] };
    let paper = sheet::lines(app, &parts_list(&job), sheet::PAGE);
    let count = |severity| state.design.findings.iter().filter(|f| f.severity == severity).count();
    let (word, role) = match (count(Severity::Stop), count(Severity::Caution)) {
        (0, 0) => ("Nothing speaks against it.".to_string(), Role::Text),
        (0, n) => (format!("{}; F shows them.", counted(n, "caution")), Role::Caution),
        (n, _) => (format!("{n} STOP: do not buy yet; F shows why, and what mends it."), Role::Stop),
    };
    let lines = paper.into_iter().map(|l| (l, Role::Text));
    let lines = [(word, role), (String::new(), Role::Text)].into_iter().chain(lines).collect();
    app.overlay = Some(Overlay::Text { title: "What to buy".into(), lines, scroll: 0, saves: true });
}

/// Metric or US units.
pub fn units(app: &mut App) {
    let (units, words) = match app.units {
        UnitSystem::Metric => (UnitSystem::Us, "feet, pounds and °F are shown; the plan keeps its metric values"),
        UnitSystem::Us => (UnitSystem::Metric, "metres, kilograms and °C are shown"),
    };
    app.units = units;
    app.say(words);
}

/// Mouse on or off.
pub fn mouse(app: &mut App) {
    app.mouse = !app.mouse;
    app.say(if app.mouse { "mouse on" } else { "mouse off: the terminal's own text selection works again" });
}

/// Draw how sure the simulated days are.
pub fn draw_chances(app: &mut App, count: u32) {
    let state = Rc::clone(&app.now);
    app.days.draw(&state, count, app.listener.as_ref());
    // The pane that tells them.
    app.seconds.insert(app.screen, 3);
}

/// The three everyday uses, and the example that lies under them.
pub fn welcome(app: &mut App) {
    let lines = ["What is to be done? Esc shows an example plan, to look at and to change.".to_string()];
    let choices = [
        ('n', "plan a fit-out, question by question", Action::Walk),
        ('c', "check a cable", Action::Bench(Question::Cable)),
        ('k', "pick a cut-off", Action::Bench(Question::CutOff)),
        ('o', "open a plan of your own", Action::AskOpen),
        ('e', "look at the example", Action::Cancel),
        ('q', "leave", Action::Quit),
    ];
    app.overlay = Some(Overlay::Ask(Ask::new("Loomwright", &lines, &choices)));
}
