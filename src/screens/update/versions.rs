//! Saved versions of the plan: which there are, what differs from now, and taking one back.

use crate::plan::shorten;
use crate::quantity::counted;
use crate::screens::action::Action;
use crate::screens::app::App;
use crate::screens::overlay::{Ask, Entry, Menu, Overlay};
use crate::screens::shelf::{self, Version, ago, apart};
use std::time::SystemTime;

/// Lines of each side that are shown when two versions differ; the question must fit a small window.
const SHOWN: usize = 4;

/// The saved versions of this plan, newest first.
fn all(app: &App) -> Vec<Version> {
    match (app.keeper.folder(), &app.file) {
        (Some(state), Some(file)) => shelf::versions(state, file.path()),
        _ => Vec::new(),
    }
}

/// Keep the version that was just saved.
pub fn keep(app: &mut App) {
    if let (Some(state), Some(file)) = (app.keeper.folder(), &app.file)
        && let Err(e) = shelf::keep(state, file.path(), &app.saved, SystemTime::now())
    {
        app.say(format!("saved; its version cannot be kept: {}", crate::plan::reason(&e)));
    }
}

/// Show them, each with its time and what it changed.
pub fn open(app: &mut App) {
    let versions = all(app);
    if versions.is_empty() {
        return app.say("no saved versions yet: each save keeps one");
    }
    let now = SystemTime::now();
    let entry = |(n, version): (usize, &Version)| {
        let before = versions.get(n + 1).map_or("", |v| v.text.as_str());
        let changed = if before.is_empty() { "the first that is kept".into() } else { changed(&version.text, before) };
        Entry { words: ago(version.at, now), extra: changed, action: Action::LookAtVersion(n) }
    };
    let entries = versions.iter().enumerate().map(entry).collect();
    app.overlay = Some(Overlay::Menu(Menu::new("Saved versions of this plan: Enter compares", entries)));
}

/// What a version changed, in a few words: what it says anew, else what is gone.
fn changed(text: &str, before: &str) -> String {
    let (new, old) = apart(text, before);
    // A number that only keeps a label true tells nobody what was done.
    let kept = |line: &&&str| ["number = ", "lead_number = ", "way_number = "].iter().any(|key| line.starts_with(key));
    let said = new.iter().find(|line| !kept(line)).map(|line| (shorten(line), new.len().max(old.len())));
    let gone = || old.iter().find(|line| line.starts_with("name = ")).or(old.first());
    let gone = || gone().map(|line| (format!("gone: {}", shorten(line)), old.len()));
    let numbered = || new.first().map(|line| (shorten(line), new.len()));
    let Some((first, lines)) = said.or_else(gone).or_else(numbered) else { return "order or blanks".into() };
    if lines > 1 { format!("{first} and {} more", counted(lines - 1, "line")) } else { first }
}

/// The first lines that only one side has, and how many more.
pub fn told(whose: &str, lines: &[&str]) -> Vec<String> {
    let more = lines.len().saturating_sub(SHOWN);
    let mut out: Vec<String> = lines.iter().take(SHOWN).map(|l| format!("{whose}: {}", shorten(l))).collect();
    if more > 0 {
        out.push(format!("{whose}: {more} more lines"));
    }
    out
}

/// What differs between a version and the plan now, and whether to take it back.
pub fn look_at(app: &mut App, n: usize) {
    let versions = all(app);
    let Some(version) = versions.get(n) else { return };
    let (then, now) = apart(&version.text, &app.now.text);
    if then.is_empty() && now.is_empty() {
        return app.say("this version says what the plan says now");
    }
    let lines = [told("then", &then), told("now", &now)].concat();
    let choices = [('b', "back to the list", Action::Versions), ('t', "take it back", Action::TakeVersion(n))];
    let title = format!("Saved {}", ago(version.at, SystemTime::now()));
    app.overlay = Some(Overlay::Ask(Ask::new(&title, &lines, &choices)));
}

/// Make a version the plan: one step of history.
pub fn take(app: &mut App, n: usize) {
    let Some(version) = all(app).into_iter().nth(n) else { return };
    match app.apply(version.text, format!("the version saved {}", ago(version.at, SystemTime::now())), None) {
        Ok(()) => app.say("taken back; u undoes it, s saves it"),
        Err(reason) => app.refuse(format!("this version cannot be read any more: {reason}")),
    }
}
