//! The list of the fewest edits that mend the plan: all at once or line by line, one step back for each.

use super::{editing, rivals};
use crate::engine::Edit;
use crate::engine::ask::mend::exclude::Exclusion;
use crate::engine::ask::mend::fewest::Mend;
use crate::plan;
use crate::quantity::counted;
use crate::screens::action::Action;
use crate::screens::app::App;
use crate::screens::overlay::{Ask, Entry, Menu, Overlay};
use crate::screens::tried::What;
use std::rc::Rc;

const TITLE: &str = "Mend: the fewest edits after which no STOP is left";

/// Look for them.
pub fn open(app: &mut App) {
    if !app.now.design.has_stop() {
        return app.say("nothing to mend: no finding says STOP");
    }
    let state = Rc::clone(&app.now);
    let mut menu = Menu::new(TITLE, Vec::new());
    menu.error = Some("being tried; Esc stops".into());
    app.overlay = Some(Overlay::Menu(menu));
    if let Some(What::Mended(found)) = app.mends.mend(&state, app.listener.as_ref()) {
        list(app, &found);
    }
}

/// News of the worker: the list is shown where it is still waited for.
pub fn hear(app: &mut App, what: What) {
    let waits = |m: &&mut Menu| m.title == TITLE || m.title == rivals::TITLE;
    let menu = app.overlay.as_mut().and_then(|o| if let Overlay::Menu(menu) = o { Some(menu) } else { None });
    let Some(menu) = menu.filter(waits) else { return app.mends.renew() };
    match what {
        What::Trying(n) => menu.error = Some(format!("{} tried; Esc stops", counted(n, "design"))),
        What::Mended(found) => list(app, &found),
        What::Compared(found) => rivals::list(app, *found),
        What::Remedies(..) | What::Checked(_) | What::Ways(_) => {}
    }
}

fn list(app: &mut App, found: &Mend) {
    let plain = |words: String| app.scene().plain(words);
    let whole: Vec<Edit> = found.steps.iter().map(|s| s.edit.clone()).collect();
    let mut entries = Vec::new();
    if whole.len() > 1 {
        let words = format!("all {} of them", whole.len());
        let extra = plain(found.changes.first().cloned().unwrap_or_default());
        entries.push(Entry { words: words.clone(), extra, action: Action::PutAll { edits: whole, words } });
    }
    entries.extend(found.steps.iter().map(|step| {
        let words = plain(step.words.clone());
        let edits = vec![step.edit.clone()];
        Entry { words: words.clone(), extra: String::new(), action: Action::TakeOne { edits, words } }
    }));
    let left = |e: &Exclusion| {
        let words = plain(format!("not mended: {}", e.sentence()));
        Entry { words, extra: String::new(), action: Action::Cancel }
    };
    entries.extend(found.left.iter().map(left));
    app.overlay = Some(Overlay::Menu(Menu::new(TITLE, entries)));
}

/// Put all values at their places, as one step of history.
pub fn put_all(app: &mut App, edits: &[Edit], words: String) {
    app.overlay = None;
    if let [one] = edits {
        return editing::put(app, one.place, one.value.as_ref(), words);
    }
    let put = |text: String, e: &Edit| plan::put(&text, e.place, e.value.as_ref());
    let text = edits.iter().try_fold(app.now.text.to_string(), put).map_err(|e| e.to_string());
    let place = edits.first().map(|e| e.place);
    if let Err(reason) = text.and_then(|text| app.apply(text, words, place)) {
        app.refuse(reason);
    }
}

/// Take one line of the list and look for what is left.
pub fn take_one(app: &mut App, edits: &[Edit], words: String) {
    put_all(app, edits, words);
    if app.now.design.has_stop() {
        open(app);
    }
}

/// Ask before a remedy changes the plan.
pub fn ask(app: &mut App, edits: Vec<Edit>, words: String) {
    let mut lines = vec![words.clone()];
    lines.extend(edits.iter().map(|e| editing::title(app, e.place, e.value.as_ref())));
    let mut choices = vec![('a', "apply it", Action::PutAll { edits: edits.clone(), words })];
    if let Some(first) = edits.first() {
        choices.insert(0, ('g', "go to the field instead", Action::Go(first.place)));
    }
    app.overlay = Some(Overlay::Ask(Ask::new("Mend it?", &lines, &choices)));
}
