//! Looking for a fault: what is seen, of which load, and then one reading after the other.

use crate::engine::Symptom;
use crate::quantity::counted;
use crate::screens::action::{Action, Way};
use crate::screens::app::App;
use crate::screens::overlay::{Entry, Menu, Overlay};
use crate::screens::probing::Probing;
use tui_input::InputRequest;

/// What is seen?
pub fn open(app: &mut App) {
    app.message = None;
    let entry = |words: String, extra: String, action| Entry { words, extra, action };
    let symptoms =
        Symptom::ALL.map(|s| entry(s.words().into(), String::new(), Action::LookFor { symptom: s, load: None }));
    let under_way = app.probing.as_ref().filter(|p| p.is_of(&app.now) && p.readings() > 0);
    let go_on = under_way.map(|p| {
        let words = format!("go on: {}", p.title());
        entry(words, counted(p.readings(), "reading"), Action::GoOnProbing)
    });
    let entries = go_on.into_iter().chain(symptoms).collect();
    app.overlay = Some(Overlay::Menu(Menu::new("What is wrong?", entries)));
}

/// Begin, or ask first of which load.
pub fn look_for(app: &mut App, symptom: Symptom, load: Option<usize>) {
    if symptom.is_of_a_load() && load.is_none() {
        let loads = app.now.plan.loads.iter().enumerate();
        let entries: Vec<Entry> = loads
            .map(|(n, load)| Entry {
                words: load.name.clone(),
                extra: load.at.clone(),
                action: Action::LookFor { symptom, load: Some(n) },
            })
            .collect();
        if entries.is_empty() {
            return app.refuse("the plan has no load");
        }
        app.overlay = Some(Overlay::Menu(Menu::new("Which load?", entries)));
        return;
    }
    app.overlay = Some(Overlay::Probing(Box::new(Probing::new(&app.now, symptom, load))));
}

/// Go on where it was left.
pub fn go_on(app: &mut App) {
    if let Some(probing) = app.probing.take() {
        app.overlay = Some(Overlay::Probing(probing));
    }
}

/// Do an action there.
pub fn update(app: &mut App, mut probing: Box<Probing>, action: Action) {
    match action {
        // Kept, so that a key pressed in the dark loses nothing.
        Action::Cancel => {
            app.probing = Some(probing);
            return;
        }
        Action::Commit | Action::Open => probing.take(),
        Action::Move(Way::Right) => probing.skip(),
        Action::Move(Way::Up) => probing.scroll = probing.scroll.saturating_sub(1),
        Action::Move(Way::Down) => probing.scroll += 1,
        Action::Move(Way::PageUp) => probing.scroll = probing.scroll.saturating_sub(8),
        Action::Move(Way::PageDown) => probing.scroll += 8,
        Action::Type(InputRequest::DeletePrevChar) if probing.input.value().is_empty() => probing.back(),
        Action::Type(request) => {
            probing.input.handle(request);
            probing.error = None;
        }
        Action::Paste(text) => {
            let line = text.lines().next().unwrap_or_default();
            for c in line.chars().take(20) {
                probing.input.handle(InputRequest::InsertChar(c));
            }
        }
        _ => {}
    }
    app.overlay = Some(Overlay::Probing(probing));
}
