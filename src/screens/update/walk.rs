//! The questions of a new plan, step by step: what takes long is worked out beside the keys.

use super::{files, overlays};
use crate::quantity::counted;
use crate::screens::action::Action;
use crate::screens::app::App;
use crate::screens::overlay::{Ask, Overlay};
use crate::screens::tried::What;
use crate::screens::walk::{self, Next, Walk};
use std::rc::Rc;
use tui_input::InputRequest;

/// A new plan from a few questions.
pub fn open(app: &mut App) {
    if app.unsaved() {
        app.then = Some(Action::Walk);
        let lines = ["The new plan takes the place of this one, which has changes that are not saved.".to_string()];
        let choices =
            [('s', "save this plan first", Action::Save), ('d', "drop the changes and begin", Action::DropChanges)];
        app.overlay = Some(Overlay::Ask(Ask::new("Unsaved changes", &lines, &choices)));
        return;
    }
    app.overlay = Some(Overlay::Walk(Box::new(Walk::new(&app.catalogue))));
}

/// Look for what goes together, where the answers do not.
fn try_ways(app: &mut App) {
    let Some(Overlay::Walk(walk)) = &mut app.overlay else { return };
    let Some(trial) = walk.trial().filter(|_| walk.error.is_none()) else { return };
    let catalogue = Rc::clone(&app.catalogue);
    match app.mends.ways(trial, &catalogue, app.listener.as_ref()) {
        Some(What::Ways(ways)) => walk.take_ways(ways),
        _ => walk.tell(walk::TRYING.into()),
    }
}

/// A key's step in the questions.
pub fn step(app: &mut App, action: Action) {
    let catalogue = Rc::clone(&app.catalogue);
    let Some(Overlay::Walk(walk)) = &mut app.overlay else { return };
    match action {
        Action::Cancel => {
            let asked_before = walk.back();
            app.mends.renew();
            app.overlay = app.overlay.take().filter(|_| asked_before);
        }
        // Who types ahead has the next question in mind.
        action if walk.is_checking() => walk.ahead.push(action),
        Action::Move(way) => {
            let last = walk.rows(&catalogue).len().saturating_sub(1);
            walk.pick = overlays::moved(walk.pick, way, last);
        }
        Action::Type(InputRequest::InsertChar(' ')) if walk.ticks() => walk.toggle(&catalogue),
        Action::Open if walk.question == walk::Question::Loads => walk.toggle(&catalogue),
        Action::Type(request) => walk.type_in(request),
        Action::Paste(text) => overlays::first_line(&text).for_each(|request| walk.type_in(request)),
        Action::Commit | Action::Open => {
            let next = walk.answer(&catalogue);
            go_on(app, next);
        }
        _ => {}
    }
}

/// What follows an answer.
fn go_on(app: &mut App, next: Next) {
    match next {
        Next::Ask => try_ways(app),
        Next::Check(trial) => {
            let catalogue = Rc::clone(&app.catalogue);
            if let Some(what) = app.mends.check(trial, &catalogue, app.listener.as_ref()) {
                hear(app, what);
            }
        }
        Next::Plan(text) => {
            app.overlay = None;
            match text.and_then(|text| files::begin_new(app, text)) {
                Ok(()) => {
                    overlays::to_buy(app);
                    app.say("your plan; look at Runs next: lengths not asked for are assumed. s saves it");
                }
                Err(reason) => app.refuse(reason),
            }
        }
    }
}

/// News of the worker for the questions of a new plan; what was left with Esc is waited for no more.
pub fn hear(app: &mut App, what: What) {
    let Some(Overlay::Walk(walk)) = &mut app.overlay else { return };
    if !walk.waits() {
        return app.mends.renew();
    }
    match what {
        What::Trying(n) => walk.tell(format!("{} tried; Esc goes back", counted(n, "design"))),
        What::Ways(ways) => walk.take_ways(ways),
        What::Checked(checked) => {
            let next = walk.checked(*checked);
            let ahead = std::mem::take(&mut walk.ahead);
            go_on(app, next);
            for action in ahead {
                step(app, action);
            }
        }
        _ => {}
    }
}
