//! Taking in a logger's file: which one, whether it is read rightly, and what of it goes into the plan.

use super::files::at_home;
use crate::log::{head, taken};
use crate::plan::reason;
use crate::screens::action::{Action, Way};
use crate::screens::app::App;
use crate::screens::logging::{Beside, Logging, Page, Stage};
use crate::screens::lognews::{LogNews, LogWhat};
use crate::screens::logs::Source;
use crate::screens::overlay::{Entry, Menu, Other, Overlay};
use crate::screens::pane::PLACES;
use std::path::Path;
use std::rc::Rc;
use std::sync::Arc;

/// Endings of files that loggers write.
const ENDINGS: [&str; 4] = ["csv", "tsv", "txt", "log"];

/// Which file? Those of the plan's folder, or a name.
pub fn ask(app: &mut App) {
    app.message = None;
    let folder = app.file.as_ref().and_then(|f| f.path().parent()).filter(|p| !p.as_os_str().is_empty());
    let files = std::fs::read_dir(folder.unwrap_or(Path::new("."))).into_iter().flatten().flatten().map(|e| e.path());
    let is_log = |p: &std::path::PathBuf| {
        let ending = p.extension().map(|e| e.to_string_lossy().to_lowercase());
        ending.is_some_and(|e| ENDINGS.contains(&e.as_str())) && p.is_file()
    };
    let mut entries: Vec<Entry> = files
        .filter(is_log)
        .map(|path| Entry {
            words: path.file_name().unwrap_or_default().to_string_lossy().into_owned(),
            extra: "in the plan's folder".into(),
            action: Action::OpenLog(path),
        })
        .collect();
    entries.sort_by(|a, b| a.words.cmp(&b.words));
    if let Some(kept) = &app.logging {
        let words = format!("go on with {}", kept.name());
        entries.insert(0, Entry { words, extra: "read already".into(), action: Action::GoOnLogging });
    }
    let menu = Menu::new("A logger's file: choose, or type its name", entries).or(Other::Log, "");
    app.overlay = Some(Overlay::Menu(menu));
}

/// How is it written?
pub fn open(app: &mut App, path: &Path) {
    let path = at_home(path);
    match head(&path) {
        Ok(head) => app.overlay = Some(Overlay::Log(Box::new(Logging::new(&path, &head)))),
        Err(e) => app.refuse(format!("{} cannot be read: {}", path.display(), reason(&e))),
    }
}

/// Go on where it was left.
pub fn go_on(app: &mut App) {
    app.overlay = app.logging.take().map(Overlay::Log);
    // The plan may have changed meanwhile, or was still being held against it.
    hold(app);
}

/// Do an action there.
pub fn update(app: &mut App, mut logging: Box<Logging>, action: Action) {
    let way = if let Action::Move(way) = action { Some(way) } else { None };
    match (&mut logging.stage, &action) {
        (Stage::Asking(_), Action::Cancel) => return,
        (Stage::Asking(pick), Action::Move(Way::Up)) => *pick = pick.saturating_sub(1),
        (Stage::Asking(_), Action::Move(Way::Down)) => {
            let last = logging.rows().len().saturating_sub(1);
            logging.stage = Stage::Asking((logging.pick() + 1).min(last));
        }
        (Stage::Asking(_), Action::Move(Way::Left)) => logging.turn(-1),
        (Stage::Asking(_), Action::Move(Way::Right)) => logging.turn(1),
        (Stage::Asking(_), Action::Move(Way::Start)) => logging.forget(),
        (Stage::Asking(_), Action::Commit) => return read(app, logging),
        (Stage::Reading(_), Action::Cancel) => {
            app.logs.renew();
            logging.stage = Stage::Asking(0);
        }
        (Stage::Beside(_), Action::Cancel) => {
            app.logging = Some(logging);
            return;
        }
        (Stage::Beside(beside), Action::Commit) => take_one(app, beside),
        (Stage::Beside(beside), Action::TakeAnswer) => {
            let all: Vec<String> = beside.offered().into_iter().map(String::from).collect();
            take(app, beside, &all);
        }
        (Stage::Beside(beside), Action::Move(_)) => step(beside, way),
        _ => {}
    }
    app.overlay = Some(Overlay::Log(logging));
}

fn step(beside: &mut Beside, way: Option<Way>) {
    let curves = beside.page == Page::Curves;
    match way {
        Some(Way::End) => beside.next_page(),
        Some(Way::Left) if curves => beside.place = beside.place.saturating_sub(1),
        Some(Way::Right) if curves => beside.place = (beside.place + 1).min(PLACES),
        Some(Way::Up) => beside.step(-1),
        Some(Way::Down) => beside.step(1),
        Some(Way::PageUp) => beside.step(-8),
        Some(Way::PageDown) => beside.step(8),
        _ => {}
    }
}

/// Read it as it is shown.
fn read(app: &mut App, mut logging: Box<Logging>) {
    let layout = match &logging.layout {
        Ok(layout) => layout.clone(),
        Err(why) => {
            app.refuse(why.clone());
            app.overlay = Some(Overlay::Log(logging));
            return;
        }
    };
    logging.stage = Stage::Reading(0);
    let source = Source::File(logging.path.clone(), layout);
    app.overlay = Some(Overlay::Log(logging));
    let state = Rc::clone(&app.now);
    if let Some(what) = app.logs.work(&state, source, app.listener.as_ref()) {
        stand(app, what);
    }
}

/// News of the worker.
pub fn hear(app: &mut App, news: LogNews) {
    if app.logs.waits_for(&news) {
        stand(app, news.what);
    }
}

/// Take in how far it has come.
fn stand(app: &mut App, what: LogWhat) {
    let now = Rc::clone(&app.now);
    let Some(Overlay::Log(logging)) = &mut app.overlay else { return };
    let (pick, page, place) = match &logging.stage {
        Stage::Beside(b) => (b.pick, b.page, b.place),
        _ => (0, Page::Table, 0),
    };
    match what {
        LogWhat::Rows(rows) => logging.stage = Stage::Reading(rows),
        LogWhat::Beside(logged, answer) => {
            let pick = pick.min(answer.lines.len().saturating_sub(1));
            logging.stage = Stage::Beside(Beside { of: now, logged, answer, pick, page, place });
        }
        LogWhat::Failed(why) => {
            logging.stage = Stage::Asking(0);
            app.refuse(why);
        }
    }
}

/// Beside another plan than before it is held against that one: after something was taken, or taken back.
pub fn follow(app: &mut App) {
    let beside = match &app.overlay {
        Some(Overlay::Log(logging)) => &logging.stage,
        _ => return,
    };
    if matches!(beside, Stage::Beside(beside) if !Rc::ptr_eq(&beside.of, &app.now)) {
        hold(app);
    }
}

/// Hold what was read against the plan now.
fn hold(app: &mut App) {
    let Some(Overlay::Log(logging)) = &mut app.overlay else { return };
    let Stage::Beside(beside) = &mut logging.stage else { return };
    beside.of = Rc::clone(&app.now);
    let source = Source::Kept(Arc::clone(&beside.logged));
    let state = Rc::clone(&app.now);
    if let Some(what) = app.logs.work(&state, source, app.listener.as_ref()) {
        stand(app, what);
    }
}

/// The line in hand.
fn take_one(app: &mut App, beside: &Beside) {
    let Some(line) = beside.answer.lines.get(beside.pick) else { return };
    if beside.offered().contains(&line.key.as_str()) {
        return take(app, beside, std::slice::from_ref(&line.key));
    }
    app.say(match (line.planned, line.measured) {
        (_, None) => "there is nothing to take: the log cannot tell",
        (None, _) => "there is nothing to take: the plan has no such number",
        _ => "there is nothing to take: the plan lies within what was measured, or follows from other numbers",
    });
}

/// One step of history.
fn take(app: &mut App, beside: &Beside, keys: &[String]) {
    if keys.is_empty() {
        return app.say("nothing differs from the plan beyond what was measured");
    }
    let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
    let words = format!("taken from the log: {}", keys.join(", "));
    let text = taken(&app.now.text, &beside.answer, &keys).map_err(|e| e.to_string());
    match text.and_then(|text| app.apply(text, words.clone(), None)) {
        Ok(()) => app.say(format!("{words}; u takes it back")),
        Err(why) => app.refuse(why),
    }
}
