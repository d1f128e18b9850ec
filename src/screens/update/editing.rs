//! Editing one field, and undo.

use crate::plan::{self, Place, Value, field_at};
use crate::screens::action::Way;
use crate::screens::app::App;
use crate::screens::edit::{Edit, Typed};
use crate::screens::pane::Offer;
use crate::screens::update::flow::Flow;
use crate::screens::update::{moving, numbers};
use tui_input::InputRequest;

/// Longest paste that is looked at.
const LONGEST_PASTE: usize = 4000;

/// Enter on the cell in hand.
pub fn open(app: &mut App) -> Flow {
    match app.cell().and_then(|c| c.offer) {
        Some(Offer::Put { place, value, words }) => put(app, place, value.as_ref(), words),
        Some(Offer::Go(place)) => moving::go(app, place),
        Some(Offer::Do { action, .. }) => return Flow::Then(*action),
        None => begin_here(app),
    }
    Flow::On
}

/// Edit the field in hand.
pub fn begin_here(app: &mut App) {
    if let Some(place) = app.cell().and_then(|c| c.place) {
        begin(app, place);
    }
}

/// Edit the field in hand, its value replaced by what is typed.
pub fn begin_with(app: &mut App, letter: char) {
    begin_here(app);
    if app.editing.is_some() {
        type_in(app, InputRequest::InsertChar(letter));
    } else {
        app.say("nothing can be typed here: it is worked out by the program");
    }
}

/// Edit a field.
pub fn begin(app: &mut App, place: Place) {
    app.editing = Edit::new(&app.scene(), place);
    app.message = None;
}

/// Move in the options of the field being edited.
pub fn move_pick(app: &mut App, way: Way) {
    if let Some(edit) = &mut app.editing {
        edit.move_pick(match way {
            Way::Up => -1,
            Way::Down => 1,
            Way::PageUp => -8,
            Way::PageDown => 8,
            _ => return,
        });
        look_ahead(app);
    }
}

/// Change what is typed.
pub fn type_in(app: &mut App, request: InputRequest) {
    if let Some(edit) = &mut app.editing {
        edit.type_in(request);
        look_ahead(app);
    }
}

/// Have the plan designed with what stands in the cell, beside the keys.
fn look_ahead(app: &mut App) {
    let (Some(edit), Some(_)) = (&app.editing, &app.listener) else { return };
    if numbers::renumbers(edit.place) {
        return;
    }
    if let Ok(Typed::Value(value)) = edit.value(&app.catalogue, app.units) {
        app.ahead.ask(&app.now, edit.place, value);
    }
}

/// Insert a text into what is typed; outside a field it would be taken for keys, so it is not.
pub fn paste(app: &mut App, text: &str) {
    let Some(edit) = &mut app.editing else {
        return app.say("a paste goes into a field; press Enter on one first");
    };
    let line = text.lines().find(|l| !l.trim().is_empty()).unwrap_or_default();
    for c in line.trim().chars().take(LONGEST_PASTE) {
        edit.type_in(InputRequest::InsertChar(c));
    }
    look_ahead(app);
}

/// Take what was typed; what is refused stays in the cell with the reason.
pub fn commit(app: &mut App) {
    let Some(edit) = &app.editing else { return };
    let (place, value) = (edit.place, edit.value(&app.catalogue, app.units));
    let done = match value {
        Ok(Typed::Same) => Ok(()),
        Ok(Typed::Nothing) => change(app, place, None, None),
        Ok(Typed::Value(value)) => change(app, place, Some(&value), None),
        Err(reason) => Err(reason),
    };
    match (done, &mut app.editing) {
        (Ok(()), _) => app.editing = None,
        (Err(reason), Some(edit)) => edit.error = Some(reason),
        (Err(_), None) => {}
    }
}

/// Take what was typed and edit the field to the right, or below in a form.
pub fn commit_next(app: &mut App) {
    commit(app);
    if app.editing.is_some() {
        return;
    }
    let here = app.cell().and_then(|c| c.place);
    for way in [Way::Right, Way::Down] {
        moving::step(app, way);
        let place = app.cell().and_then(|c| c.place);
        if place.is_some() && place != here {
            return begin_here(app);
        }
    }
}

/// Leave the field in hand to its default or to the engine.
pub fn clear(app: &mut App) {
    let Some(place) = app.cell().and_then(|c| c.place) else { return };
    if !app.now.given.contains(&place) {
        return app.say("this field is empty already: the program fills it in");
    }
    if let Err(reason) = change(app, place, None, None) {
        app.refuse(reason);
    }
}

/// Put a value at a place.
pub fn put(app: &mut App, place: Place, value: Option<&Value>, words: String) {
    match change(app, place, value, Some(words)) {
        Ok(()) => {}
        Err(reason) => app.refuse(reason),
    }
}

/// One edit of one field: a step of history, or the reason why not.
fn change(app: &mut App, place: Place, value: Option<&Value>, words: Option<String>) -> Result<(), String> {
    let text = plan::set(&app.now.text, place, value).map_err(|e| e.to_string())?;
    let text = if numbers::renumbers(place) {
        let moved = |old: Place| (old != place).then_some(old.index);
        numbers::kept(app, text, moved)
    } else {
        text
    };
    let title = match words {
        Some(words) => words,
        None => title(app, place, value),
    };
    app.apply(text, title, Some(place))
}

/// `fridge, power: 45 W → 60 W`.
pub fn title(app: &App, place: Place, value: Option<&Value>) -> String {
    let scene = app.scene();
    let Some(field) = field_at(place) else { return String::new() };
    let who = match place.section {
        plan::Section::Load => scene.words(&crate::engine::installation::subject::Subject::Load(place.index)),
        plan::Section::Run => scene.words(&crate::engine::installation::subject::Subject::Run(place.index)),
        section if section.is_list() => format!("{} {}", section.title(), place.index + 1),
        section => section.title().to_string(),
    };
    let show = |v: &Value| scene.plain(field.show(v, scene.units));
    let old = field.get(scene.plan(), place.index).filter(|_| scene.is_given(place));
    let old = old.map_or_else(|| "left out".to_string(), |v| show(&v));
    let new = value.map_or_else(|| "left out".to_string(), show);
    format!("{who}, {}: {old} → {new}", field.words())
}

/// Take back the last edit.
pub fn undo(app: &mut App) {
    let Some(step) = app.history.undo().cloned() else { return app.say("nothing to undo") };
    let text = std::rc::Rc::clone(app.history.text());
    // The text was good when it was made, with the same catalogue.
    if app.take(text).is_ok() {
        app.say(format!("undone: {}", step.title));
        back_to(app, step.place);
    }
}

/// Do it again.
pub fn redo(app: &mut App) {
    let Some(step) = app.history.redo().cloned() else { return app.say("nothing to redo") };
    let text = std::rc::Rc::clone(app.history.text());
    if app.take(text).is_ok() {
        app.say(format!("redone: {}", step.title));
        back_to(app, step.place);
    }
}

/// Show what an undo changed, unless it is in sight already.
fn back_to(app: &mut App, place: Option<Place>) {
    let Some(place) = place else { return };
    if app.screen != moving::screen_of(place.section) {
        moving::go(app, place);
    }
}
