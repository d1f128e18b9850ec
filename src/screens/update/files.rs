//! Plan files: open, save, save as, and what is asked before anything could be lost.

use super::flow::Flow;
use super::versions;
use crate::plan::{self, FileError, PlanFile, Problem};
use crate::screens::action::Action;
use crate::screens::app::{App, first};
use crate::screens::history::History;
use crate::screens::overlay::{Ask, Entry, Menu, Other, Overlay};
use crate::screens::screen::Screen;
use crate::screens::shelf::apart;
use crate::screens::theme::Role;
use std::path::{Path, PathBuf};
use std::rc::Rc;

/// Save, asking where if there is no file yet.
pub fn save(app: &mut App) -> Flow {
    let file = app.file.clone();
    save_into(app, file, PlanFile::save)
}

/// Save whatever is on disk: under the name just asked about, or the plan's own.
pub fn save_over(app: &mut App) -> Flow {
    let file = app.saving_to.take().or_else(|| app.file.clone());
    save_into(app, file, PlanFile::save_over)
}

fn save_into(app: &mut App, file: Option<PlanFile>, how: fn(&mut PlanFile, &str) -> Result<(), FileError>) -> Flow {
    match file {
        Some(file) => write(app, file, how),
        None => {
            ask_save_as(app);
            Flow::On
        }
    }
}

/// Write the plan into a file, which becomes the plan's own once that has worked and not before.
fn write(app: &mut App, mut file: PlanFile, how: fn(&mut PlanFile, &str) -> Result<(), FileError>) -> Flow {
    let text = Rc::clone(&app.now.text);
    match how(&mut file, &text) {
        Ok(()) => {
            if app.file.as_ref().is_none_or(|f| f.path() != file.path()) {
                app.keeper.open(Some(file.path()));
            }
            app.file = Some(file);
            return saved(app);
        }
        Err(FileError::ChangedOnDisk(_)) => {
            app.saving_to = Some(file);
            ask_changed(app);
        }
        Err(FileError::Vanished(_)) => {
            app.saving_to = Some(file);
            ask_vanished(app);
        }
        Err(FileError::Exists(_)) => {
            let name = file.path().display().to_string();
            app.saving_to = Some(file);
            ask_exists(app, &name);
        }
        Err(e) => {
            app.then = None;
            app.refuse(e.to_string());
        }
    }
    Flow::On
}

/// Then what was asked for before saving.
fn saved(app: &mut App) -> Flow {
    app.saved = Rc::clone(&app.now.text);
    // The recovery file is not needed any more; where it cannot be removed it does no harm.
    let _ = app.keeper.keep(None);
    app.say(format!("saved as {}", app.file_name()));
    versions::keep(app);
    go_on(app)
}

/// What had to wait for a question; leaving waits until nothing lies over the screen.
fn go_on(app: &mut App) -> Flow {
    match app.then.take_if(|then| *then != Action::QuitNow) {
        Some(then) => Flow::Then(then),
        None => Flow::On,
    }
}

/// Ask for a name.
pub fn ask_save_as(app: &mut App) {
    let name = match &app.file {
        Some(file) => file.path().display().to_string(),
        None => format!("{}.toml", slug(&app.now.plan.job.title)),
    };
    let menu = Menu::new("Save as: name of the file", Vec::new()).or(Other::SaveTo, name);
    app.overlay = Some(Overlay::Menu(menu));
}

/// A title as part of a file's name.
pub fn slug(title: &str) -> String {
    let letters: String = title.to_lowercase().chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    let words: Vec<&str> = letters.split('-').filter(|w| !w.is_empty()).collect();
    if words.is_empty() { "plan".into() } else { words.join("-").chars().take(60).collect() }
}

/// Save under a name; an existing file is asked about.
pub fn save_to(app: &mut App, path: &Path) -> Flow {
    let path = at_home(path);
    let path = if path.extension().is_none() { path.with_extension("toml") } else { path };
    let own = app.file.clone().filter(|f| f.path() == path);
    write(app, own.unwrap_or_else(|| PlanFile::new(&path)), PlanFile::save)
}

/// `~/van.toml` in the user's home folder, as a shell would read it.
pub fn at_home(path: &Path) -> PathBuf {
    match (path.strip_prefix("~"), std::env::home_dir()) {
        (Ok(rest), Some(home)) => home.join(rest),
        _ => path.to_path_buf(),
    }
}

fn ask_changed(app: &mut App) {
    let mut lines = vec![
        format!("{} was changed by another program since it was read.", app.file_name()),
        "Saving over it keeps theirs beside it, with the ending .bak.".to_string(),
    ];
    if let Some(theirs) = app.file.as_ref().and_then(|f| plan::read_file(f.path()).ok()) {
        lines.extend(differences(&String::from_utf8_lossy(&theirs), &app.now.text));
    }
    let choices = [
        ('a', "save mine under another name", Action::SaveAs),
        ('o', "save mine over theirs", Action::SaveOver),
        ('r', "read theirs and drop my changes (undo brings mine back)", Action::Reload),
    ];
    app.overlay = Some(Overlay::Ask(Ask::new("The file changed on disk", &lines, &choices)));
}

/// The lines that only one of two versions has, the first few of each.
fn differences(theirs: &str, mine: &str) -> Vec<String> {
    let (theirs, mine) = apart(theirs, mine);
    [versions::told("theirs", &theirs), versions::told("mine", &mine)].concat()
}

fn ask_vanished(app: &mut App) {
    let lines = [
        format!("{} is not there any more: it was removed, or its drive is gone.", app.file_name()),
        "Your changes are kept here, and in the recovery file.".to_string(),
    ];
    let choices =
        [('a', "save under another name", Action::SaveAs), ('o', "write it anew in its old place", Action::SaveOver)];
    app.overlay = Some(Overlay::Ask(Ask::new("The file is gone", &lines, &choices)));
}

fn ask_exists(app: &mut App, name: &str) {
    let lines = [format!("{name} exists already.")];
    let choices = [
        ('a', "save under another name", Action::SaveAs),
        ('o', "replace it; what was in it is kept with the ending .bak", Action::SaveOver),
    ];
    app.overlay = Some(Overlay::Ask(Ask::new("The file exists", &lines, &choices)));
}

/// Ask which plan to open: the files of this folder, the examples, or a name.
pub fn ask_open(app: &mut App) {
    let folder = app.file.as_ref().and_then(|f| f.path().parent()).filter(|p| !p.as_os_str().is_empty());
    let folder = folder.unwrap_or(Path::new(".")).to_path_buf();
    let mut entries: Vec<Entry> = std::fs::read_dir(&folder)
        .into_iter()
        .flatten()
        .flatten()
        .map(|e| e.path())
        .filter(|p| p.extension().is_some_and(|e| e == "toml") && is_plan(p))
        .map(|p| {
            let words = p.file_name().unwrap_or_default().to_string_lossy().into_owned();
            Entry { words, extra: "plan file".into(), action: Action::OpenPlan(p) }
        })
        .collect();
    entries.sort_by(|a, b| a.words.cmp(&b.words));
    for (n, example) in plan::examples().iter().enumerate() {
        let action = Action::OpenExample(n);
        entries.push(Entry { words: example.name.into(), extra: "example".into(), action });
    }
    let menu = Menu::new("Open: choose, or type the name of a file", entries).or(Other::Open, "");
    app.overlay = Some(Overlay::Menu(menu));
}

/// Whether a file begins like a plan; other TOML files of a folder are not offered.
fn is_plan(path: &Path) -> bool {
    let start = plan::read_file(path);
    start.is_ok_and(|bytes| {
        String::from_utf8_lossy(bytes.get(..4096).unwrap_or(&bytes))
            .lines()
            .any(|l| l.trim_start().starts_with("format"))
    })
}

/// Ask before unsaved changes would be lost; true when nothing would be.
fn free_to(app: &mut App, then: Action) -> bool {
    if !app.unsaved() {
        return true;
    }
    app.then = Some(then);
    let lines = [format!("“{}” has changes that are not saved.", app.now.plan.job.title)];
    let choices = [('s', "save them first", Action::Save), ('d', "drop them and go on", Action::DropChanges)];
    app.overlay = Some(Overlay::Ask(Ask::new("Unsaved changes", &lines, &choices)));
    false
}

/// Open a plan file.
pub fn open(app: &mut App, path: &Path) {
    let path = &at_home(path);
    if !free_to(app, Action::OpenPlan(path.to_path_buf())) {
        return;
    }
    let (file, bytes) = match PlanFile::open(path) {
        Ok(opened) => opened,
        Err(e) => return app.refuse(e.to_string()),
    };
    let read = plan::read_bytes(&bytes, &app.catalogue);
    let text = String::from_utf8_lossy(&bytes).into_owned();
    if !read.problems.is_empty() {
        return show_problems(app, path, &read.problems);
    }
    match begin(app, text) {
        Ok(()) => {
            app.file = Some(file);
            opened(app, Some(path));
        }
        Err(reason) => app.refuse(reason),
    }
}

/// Open an example plan, as a new one without a file.
pub fn open_example(app: &mut App, n: usize) {
    if !free_to(app, Action::OpenExample(n)) {
        return;
    }
    let Some(example) = plan::examples().get(n) else { return };
    match begin(app, example.text.to_string()) {
        Ok(()) => {
            app.file = None;
            opened(app, None);
            app.say("an example; A saves it under a name of yours");
        }
        Err(reason) => app.refuse(reason),
    }
}

/// Begin with the text of the walk-through: a new plan that is not saved yet.
pub fn begin_new(app: &mut App, text: String) -> Result<(), String> {
    begin(app, text)?;
    // A file named on the command line that does not exist yet keeps its name.
    app.file = app.file.take().filter(|f| !f.path().exists());
    app.saved = Rc::from("");
    let path = app.file.as_ref().map(|f| f.path().to_path_buf());
    app.keeper.open(path.as_deref());
    let text = Rc::clone(&app.now.text);
    let _ = app.keeper.keep(Some(&text));
    Ok(())
}

/// A fresh start with a text.
fn begin(app: &mut App, text: String) -> Result<(), String> {
    let text: Rc<str> = text.into();
    app.take(Rc::clone(&text)).map_err(|p| first(&p))?;
    app.history = History::new(Rc::clone(&text));
    app.saved = text;
    app.before = None;
    app.pinned = None;
    app.spots.clear();
    app.panes.clear();
    app.seconds.clear();
    app.finding = None;
    app.screen = Screen::Loads;
    Ok(())
}

/// Take a plan of an earlier format up in today's words, as one step that undo takes back; the file stays as it is
/// until it is saved.
fn modernise(app: &mut App) {
    let Some(modern) = plan::modern(&app.now.text) else { return };
    if let Err(reason) = app.apply(modern.text, format!("written in format {}", plan::FORMAT), None) {
        return app.refuse(reason);
    }
    let mut lines = vec!["This plan is of an earlier format. Nothing is saved yet; what is changed:".to_string()];
    lines.extend(modern.changes.into_iter().map(|change| format!("  {change}")));
    lines.push("Undo takes it back. Saving keeps the old file beside it, with its format as ending.".into());
    let choices = [('g', "go on", Action::Look)];
    app.overlay = Some(Overlay::Ask(Ask::new("An earlier format", &lines, &choices)));
}

/// Take a slot for the plan; say if another copy has it, offer what a bad end left.
pub fn opened(app: &mut App, path: Option<&Path>) {
    let found = app.keeper.open(path);
    modernise(app);
    if let Some(reason) = &found.unkept {
        app.say(format!("no recovery file can be kept, so save often: {reason}"));
    }
    if let Some(left) = found.left_over.filter(|l| *l.text != *app.now.text) {
        let kept = plan::read(&left.text, &app.catalogue).plan;
        let mut lines = vec![
            "The program ended before this plan was saved; its text was kept:".to_string(),
            format!("“{}”, {} loads, {} runs", kept.job.title, kept.loads.len(), kept.runs.len()),
        ];
        let changed = path.and_then(|path| std::fs::metadata(path).and_then(|m| m.modified()).ok());
        if changed.is_some_and(|changed| changed > left.at) {
            // Taken up and saved without a word, it would undo what somebody else has done since.
            lines.push("The file was changed after that. Taken up, the kept text stands in place of:".to_string());
            lines.extend(differences(&app.now.text, &left.text));
        }
        let choices = [('r', "take it up again", Action::Recover), ('d', "throw it away", Action::ForgetRecovered)];
        app.keeper.offered = Some(left);
        app.overlay = Some(Overlay::Ask(Ask::new("Recovered changes", &lines, &choices)));
    } else if found.open_elsewhere {
        let lines = [
            format!("{} is open in another copy of this program.", app.file_name()),
            "Both can go on; whoever saves second is asked before anything is lost.".to_string(),
        ];
        let choices = [('g', "go on", Action::Look)];
        app.overlay = Some(Overlay::Ask(Ask::new("Open twice", &lines, &choices)));
    }
}

/// Take the text kept when the program ended badly, as one step that undo takes back.
pub fn recover(app: &mut App) {
    let Some(left) = app.keeper.offered.take() else { return };
    match app.apply(left.text.clone(), "recovered changes".into(), None) {
        Ok(()) => {
            left.forget();
            app.say("recovered; u takes it back, s saves it");
        }
        Err(reason) => {
            app.refuse(format!("the kept text cannot be read: {reason}"));
        }
    }
}

/// Throw the offered text away.
pub fn forget(app: &mut App) {
    if let Some(left) = app.keeper.offered.take() {
        left.forget();
        app.say("thrown away");
    }
}

/// Drop unsaved changes and go on with what was asked for.
pub fn drop_changes(app: &mut App) -> Flow {
    app.saved = Rc::clone(&app.now.text);
    let _ = app.keeper.keep(None);
    go_on(app)
}

/// Read the file again; one step that undo takes back.
pub fn reload(app: &mut App) {
    let Some(path) = app.file.as_ref().map(|f| f.path().to_path_buf()) else { return };
    let (file, bytes) = match PlanFile::open(&path) {
        Ok(opened) => opened,
        Err(e) => return app.refuse(e.to_string()),
    };
    let read = plan::read_bytes(&bytes, &app.catalogue);
    if !read.problems.is_empty() {
        return show_problems(app, &path, &read.problems);
    }
    let text = String::from_utf8_lossy(&bytes).into_owned();
    app.saved = text.as_str().into();
    app.file = Some(file);
    match app.apply(text, "read again from the file".into(), None) {
        Ok(()) => {
            app.say("read again from the file; u brings yours back");
            modernise(app);
        }
        Err(reason) => app.refuse(reason),
    }
}

/// Whether another program changed the file; said once, asked about when it matters.
pub fn look(app: &mut App) {
    if app.editing.is_none() && app.overlay.is_none() && app.file.as_ref().is_some_and(PlanFile::changed_on_disk) {
        if app.unsaved() {
            app.saving_to = None;
            ask_changed(app);
        } else {
            reload(app);
        }
    }
}

/// The same when another screen is shown, for terminals that do not tell when they are looked at
/// again: only a plan without changes is read anew; one with changes is asked about when it is saved.
pub fn look_in_passing(app: &mut App) {
    if !app.unsaved() {
        look(app);
    }
}

fn show_problems(app: &mut App, path: &Path, problems: &[Problem]) {
    let mut lines = vec![
        (format!("{} was not opened; nothing is changed.", path.display()), Role::Stop),
        ("Mend these lines in a text editor, then open it again:".to_string(), Role::Text),
    ];
    for p in problems {
        lines.push((String::new(), Role::Text));
        lines.push((format!("line {}, column {}: {}", p.line, p.column, p.what), Role::Heading));
        if !p.label.is_empty() {
            lines.push((format!("  accepted: {}", p.label), Role::Text));
        }
        lines.push((format!("  help: {}", p.help), Role::Text));
    }
    app.overlay = Some(Overlay::Text { title: "Problems of the file".into(), lines, scroll: 0, saves: false });
}

/// Leave, asking only if something would be lost.
pub fn quit(app: &mut App) -> Flow {
    app.editing = None;
    if !app.unsaved() {
        return Flow::Quit;
    }
    let lines = [format!("“{}” has changes that are not saved.", app.now.plan.job.title)];
    let choices = [('s', "save and leave", Action::SaveAndQuit), ('d', "leave without saving", Action::QuitNow)];
    app.overlay = Some(Overlay::Ask(Ask::new("Leave?", &lines, &choices)));
    Flow::On
}

/// Save, then leave if that worked.
pub fn save_and_quit(app: &mut App) -> Flow {
    app.then = Some(Action::QuitNow);
    save(app)
}
