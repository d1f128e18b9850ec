//! The list of what else would do: read whole, up to four pinned side by side, or one taken over, as one step.

use crate::engine::ask::rivals::cross::Rivals;
use crate::engine::ask::rivals::variant::{Sums, Variant};
use crate::papers::{Job, MOST_BESIDE, beside_paper, rivals_paper};
use crate::quantity::counted;
use crate::screens::action::Action;
use crate::screens::app::App;
use crate::screens::overlay::{Ask, Entry, Menu, Overlay};
use crate::screens::sheet;
use crate::screens::theme::Role;
use crate::screens::tried::What;
use std::rc::Rc;

pub const TITLE: &str = "Rivals: what else would do";

/// So many are listed.
const LISTED: usize = 20;

/// Look for them.
pub fn open(app: &mut App) {
    let state = Rc::clone(&app.now);
    let mut menu = Menu::new(TITLE, Vec::new());
    menu.error = Some("being designed; Esc stops".into());
    app.overlay = Some(Overlay::Menu(menu));
    if let Some(What::Compared(found)) = app.mends.compare(&state, app.listener.as_ref()) {
        list(app, *found);
    }
}

/// Those found, the plan in hand before them.
pub fn list(app: &mut App, found: Rivals) {
    app.mends.compared = Some(found);
    show(app, 0);
}

/// The list, with one of its entries in hand.
fn show(app: &mut App, pick: usize) {
    let Some(found) = app.mends.compared.as_ref() else { return };
    let state = &app.now;
    let job = Job { plan: &state.plan, catalogue: &state.catalogue, design: &state.design, beside: &[] };
    let pinned = &app.mends.pinned;
    let numbers: Vec<usize> = pinned.iter().map(|n| n + 1).collect();
    let lines = sheet::lines(app, &rivals_paper(&job, found, &numbers), sheet::PAGE);
    let words = "read it all: to decide, one step more or less, what matters most";
    let all = Entry { words: words.into(), extra: String::new(), action: Action::Read { title: "To decide", lines } };
    let mut entries = vec![all];
    if !pinned.is_empty() {
        let designs: Vec<&Variant> = pinned.iter().filter_map(|n| found.designs.get(*n)).collect();
        let lines = sheet::lines(app, &beside_paper(&job, &designs), sheet::PAGE);
        let words = format!("side by side: {} pinned", counted(pinned.len(), "design"));
        let action = Action::Read { title: "Side by side", lines };
        entries.push(Entry { words, extra: String::new(), action });
    }
    entries.extend(found.designs.iter().enumerate().take(LISTED).map(|(n, v)| entry(app, n, v)));
    let mut menu = Menu::new(TITLE, entries);
    menu.pick = pick;
    app.overlay = Some(Overlay::Menu(menu));
}

fn entry(app: &App, number: usize, variant: &Variant) -> Entry {
    let words = app.scene().plain(variant.words.clone());
    let extra = app.scene().plain(sums(&variant.sums));
    let pinned = if app.mends.pinned.contains(&number) { "pinned: " } else { "" };
    let best = if variant.unbeaten { " (nothing beats it)" } else { "" };
    Entry { words: format!("{pinned}{words}{best}"), extra, action: Action::Rival(number) }
}

/// What shall become of one of them?
pub fn ask(app: &mut App, number: usize) {
    let Some(variant) = app.mends.compared.as_ref().and_then(|found| found.designs.get(number)) else { return };
    let words = app.scene().plain(variant.words.clone());
    let lines = [words.clone(), app.scene().plain(sums(&variant.sums))];
    let pin = match app.mends.pinned.contains(&number) {
        true => "pin it no more",
        false => "pin it: up to four are seen side by side",
    };
    let mut choices = vec![('p', pin, Action::PinRival(number))];
    if !variant.edits.is_empty() {
        let edits = variant.edits.clone();
        choices.push(('t', "take it into the plan; u takes it back", Action::PutAll { edits, words }));
    }
    choices.push(('b', "back to the list", Action::Rivals));
    app.overlay = Some(Overlay::Ask(Ask::new("One of the rivals", &lines, &choices)));
}

/// Pin it, or pin it no more.
pub fn pin(app: &mut App, number: usize) {
    let pinned = &mut app.mends.pinned;
    match pinned.iter().position(|n| *n == number) {
        Some(at) => drop(pinned.remove(at)),
        None if pinned.len() >= MOST_BESIDE => app.say("four are pinned already: pin one of them no more"),
        None => pinned.push(number),
    }
    again(app);
}

/// The list once more.
pub fn again(app: &mut App) {
    // On the row that sees them side by side, where there is one.
    show(app, usize::from(!app.mends.pinned.is_empty()));
}

/// What cannot be built first: the line may be cut at its end.
fn sums(sums: &Sums) -> String {
    let price = sums.price.map_or(String::new(), |p| format!(", battery {p} by your prices"));
    format!("{}, {}, {}, lasts {}{price}", sums.findings(), sums.capacity, sums.mass, sums.years)
}

/// A page to read.
pub fn read(app: &mut App, title: &'static str, lines: Vec<String>) {
    let lines = lines.into_iter().map(|l| (l, Role::Text)).collect();
    app.overlay = Some(Overlay::Text { title: title.into(), lines, scroll: 0, saves: false });
}
