//! Opening and saving: nothing is ever lost without being asked about.

use crate::driver::Driver;
use std::fs;

/// A driver on a saved copy of the default example.
fn saved(folder: &tempfile::TempDir) -> (Driver, std::path::PathBuf) {
    let mut d = Driver::new(80, 24);
    let path = folder.path().join("van.toml");
    d.keys("A");
    clear_and_type(&mut d, &path.display().to_string());
    d.keys("Enter");
    assert!(d.said().starts_with("saved as van.toml"), "{}", d.screen());
    (d, path)
}

fn clear_and_type(d: &mut Driver, text: &str) {
    d.keys("C-u");
    d.keys(&format!("'{text}'"));
}

/// Behind the last question lies what to buy; `s`, as the line below says, saves the plan from there.
#[test]
fn a_new_plan_is_saved_from_what_to_buy() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mine.toml");
    let mut d = Driver::new(80, 24);
    d.keys("N Enter Enter Enter Enter Enter Enter Enter Enter Enter").sees("What to buy").sees("s saves it");
    d.keys("s").sees("Save as");
    d.keys(&format!("'{}' Enter", path.display()));
    assert!(fs::read_to_string(&path).unwrap().contains("title = \"My van\""));
    d.keys("m").sees("What to buy");
    d.keys("Esc").sees_not("What to buy");
}

/// Only there, where the foot of the window names the key: in any other text to read it does nothing.
#[test]
fn a_text_to_read_saves_only_where_it_says_so() {
    let mut d = Driver::new(80, 24);
    d.keys("N Enter Enter Enter Enter Enter Enter Enter Enter Enter").sees("s save");
    d.keys("Esc ?").sees_not("s save");
    d.keys("s").sees_not("Save as");
    d.keys("Esc s").sees("Save as");
}

/// What stands in a prompt is replaced by what is typed or pasted first, in the questions of a new plan and in the names
/// of files alike; whoever moves in it first changes it.
#[test]
fn typing_replaces_what_stands_in_a_prompt() {
    for (open, stood) in [("A", "bird-ringing-van.toml"), ("P", "bird-ringing-van-papers"), ("N", "My van")] {
        let mut fresh = Driver::new(80, 24);
        fresh.keys(open).sees(stood);
        let typed = |keys: &str| {
            let mut d = Driver::new(80, 24);
            d.keys(open).keys(keys);
            d
        };
        typed("'zz 2'").sees("┃zz 2 ").sees_not(stood);
        typed("Backspace").sees_not(stood);
        typed("End z").sees(&format!("{stood}z"));
        typed("Left z").sees(&format!("{}z{}", &stood[..stood.len() - 1], &stood[stood.len() - 1..]));
    }
}

const EDIT: &str = "Right*3 Enter '60 W' Enter";

/// Every save keeps a version; one is compared with the plan now and taken back, and undo undoes that.
#[test]
fn saved_versions_are_kept_compared_and_taken_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut d = Driver::new(80, 24);
    d.keys("h").sees("no saved versions yet");
    d.app.keeper = loomwright::screens::Keeper::new(Some(folder.path().join("state")));
    d.keys("A");
    clear_and_type(&mut d, &folder.path().join("van.toml").display().to_string());
    d.keys("Enter").sees("saved as van.toml");
    d.keys(EDIT).keys("s").sees("saved as van.toml");
    d.keys("h").sees("Saved versions").sees("power_w = 60").sees("the first that is kept");
    d.keys("Down Enter").sees("then: power_w = 45").sees("now: power_w = 60");
    d.keys("t").sees("taken back");
    assert_eq!(d.app.now.plan.loads[0].power.unwrap().get(), 45.0);
    d.keys("u");
    assert_eq!(d.app.now.plan.loads[0].power.unwrap().get(), 60.0);
}

#[test]
fn saving_keeps_comments_and_one_backup() {
    let folder = tempfile::tempdir().unwrap();
    let (mut d, path) = saved(&folder);
    assert_eq!(fs::read_to_string(&path).unwrap(), loomwright::plan::default_example().text);
    d.keys(EDIT).sees("not saved");
    d.keys("s").sees("saved as van.toml").sees("van.toml, saved");
    let now = fs::read_to_string(&path).unwrap();
    assert!(now.contains("power_w = 60") && now.contains("# the compressor gives up below"));
    let backup = fs::read_to_string(folder.path().join("van.toml.bak")).unwrap();
    assert_eq!(backup, loomwright::plan::default_example().text);
}

/// What a plan of an earlier format says otherwise today is told, can be undone, and costs nobody the old file.
#[test]
fn an_earlier_format_is_an_unsaved_change_and_the_old_file_is_kept() {
    const OLD: &str = "format = 1 # mine\n[service_battery]\nchemistry = \"agm\"\n[carrier]\nstyle = \"tray\"\n";
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("old.toml");
    fs::write(&path, OLD).unwrap();
    let mut d = Driver::new(80, 24);
    d.keys("o");
    clear_and_type(&mut d, &path.display().to_string());
    d.keys("Enter").sees("An earlier format").sees("`[carrier]` is now `[hold_down]`");
    d.keys("g").sees("not saved");
    assert_eq!(fs::read_to_string(&path).unwrap(), OLD);
    d.keys("u");
    assert!(d.said().contains("undone") && d.screen().contains("old.toml, saved"), "{}", d.screen());
    d.keys("r").sees("not saved");
    d.keys("s").sees("saved as old.toml");
    d.keys("n Enter s").sees("saved as old.toml");
    assert_eq!(fs::read_to_string(folder.path().join("old.toml.format-1")).unwrap(), OLD);
    assert!(fs::read_to_string(&path).unwrap().starts_with("format = 2 # mine\n"));
}

#[test]
fn leaving_asks_only_if_something_would_be_lost() {
    let mut d = Driver::new(80, 24);
    d.keys("q");
    assert!(d.ended);
    let mut d = Driver::new(80, 24);
    d.keys(EDIT).keys("q").sees("Leave?");
    d.keys("Esc");
    assert!(!d.ended);
    d.keys("q d");
    assert!(d.ended);
}

#[test]
fn save_and_leave_asks_for_a_name_first_where_there_is_none() {
    let folder = tempfile::tempdir().unwrap();
    let mut d = Driver::new(80, 24);
    d.keys(EDIT).keys("q s").sees("Save as");
    assert!(!d.ended);
    let path = folder.path().join("new");
    clear_and_type(&mut d, &path.display().to_string());
    d.keys("Enter");
    assert!(d.ended);
    assert!(fs::read_to_string(path.with_extension("toml")).unwrap().contains("power_w = 60"));
}

#[test]
fn a_cancelled_name_does_not_leave_later() {
    let folder = tempfile::tempdir().unwrap();
    let mut d = Driver::new(80, 24);
    d.keys(EDIT).keys("q s Esc A");
    clear_and_type(&mut d, &folder.path().join("a.toml").display().to_string());
    d.keys("Enter").sees("saved as a.toml");
    assert!(!d.ended);
}

#[test]
fn an_existing_file_is_not_replaced_unasked() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("other.toml");
    fs::write(&path, "format = 2\n# theirs\n").unwrap();
    let mut d = Driver::new(80, 24);
    d.keys("A");
    clear_and_type(&mut d, &path.display().to_string());
    d.keys("Enter").sees("exists already");
    d.keys("Esc");
    assert_eq!(fs::read_to_string(&path).unwrap(), "format = 2\n# theirs\n");
    // The plan has no name yet, so it is asked for again.
    d.keys("s").sees("Save as");
    clear_and_type(&mut d, &path.display().to_string());
    d.keys("Enter o").sees("saved as other.toml");
    assert_eq!(fs::read_to_string(folder.path().join("other.toml.bak")).unwrap(), "format = 2\n# theirs\n");
}

/// A plan without changes follows its file when another screen is shown.
#[test]
fn a_change_by_another_program_is_read_in_passing() {
    let folder = tempfile::tempdir().unwrap();
    let (mut d, path) = saved(&folder);
    let theirs = loomwright::plan::default_example().text.replace("power_w = 45", "power_w = 50");
    fs::write(&path, &theirs).unwrap();
    d.keys("S").sees("read again from the file");
    d.keys("L").sees("50 W");
}

/// A name that could not be written to is not the plan's name.
#[test]
fn a_failed_save_as_keeps_the_old_name() {
    let folder = tempfile::tempdir().unwrap();
    let (mut d, path) = saved(&folder);
    let nowhere = folder.path().join("no such folder").join("b.toml");
    d.keys("A");
    clear_and_type(&mut d, &nowhere.display().to_string());
    d.keys("Enter").sees("cannot save");
    assert_eq!(d.app.file.as_ref().unwrap().path(), path);
    d.keys(EDIT).keys("s");
    assert!(fs::read_to_string(&path).unwrap().contains("power_w = 60"));
}

#[test]
fn a_change_by_another_program_is_asked_about() {
    let folder = tempfile::tempdir().unwrap();
    let (mut d, path) = saved(&folder);
    let theirs = loomwright::plan::default_example().text.replace("power_w = 45", "power_w = 50");
    fs::write(&path, &theirs).unwrap();
    d.keys(EDIT).keys("s").sees("The file changed on disk");
    d.keys("Esc");
    assert_eq!(fs::read_to_string(&path).unwrap(), theirs);
    d.keys("s r").sees("read again from the file").sees("50 W");
    d.keys("u").sees("60 W");
}

#[test]
fn a_change_by_another_program_is_seen_when_the_window_is_given_back() {
    let folder = tempfile::tempdir().unwrap();
    let (mut d, path) = saved(&folder);
    let theirs = loomwright::plan::default_example().text.replace("power_w = 45", "power_w = 50");
    fs::write(&path, &theirs).unwrap();
    d.event(loomwright::screens::Event::Focus);
    d.draw();
    d.sees("read again from the file").sees("50 W");
    assert!(!d.app.unsaved());
}

#[test]
fn a_plan_with_problems_is_not_opened_and_all_of_them_are_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("bad.toml");
    let bad = "format = 2\n[service_battery]\nchemistry = \"agm\"\n[[run]]\nfrom = \"a\"\nto = \"b\"\nlenght_m = 3\n\
               [[load]]\nname = \"x\"\npower_w = -5\n";
    fs::write(&path, bad).unwrap();
    let mut d = Driver::new(80, 24);
    d.keys("o");
    clear_and_type(&mut d, &path.display().to_string());
    d.keys("Enter").sees("was not opened").sees("lenght_m").sees("line 10");
    assert_eq!(&*d.app.now.text, loomwright::plan::default_example().text);
    d.keys("Esc o");
    clear_and_type(&mut d, "/no/such/file.toml");
    d.keys("Enter").sees("there is no such file or folder");
}

#[test]
fn opening_asks_before_unsaved_changes_are_dropped() {
    let mut d = Driver::new(80, 24);
    d.keys(EDIT).keys("o 'beekeeper' Enter").sees("Unsaved changes");
    d.keys("Esc").sees("Bird-ringing van");
    d.keys("o 'beekeeper' Enter d").sees_not("Bird-ringing van");
    assert!(!d.app.unsaved());
}

#[cfg(unix)]
#[test]
fn a_folder_that_cannot_be_written_keeps_the_work() {
    let mut d = Driver::new(80, 24);
    d.keys(EDIT).keys("A");
    clear_and_type(&mut d, "/proc/no/van.toml");
    d.keys("Enter").sees("cannot save").sees("not saved");
    assert!(d.app.unsaved());
}

/// Who is asked sees what differs: the lines that only one of the two has.
#[test]
fn both_versions_are_shown_before_one_is_overwritten() {
    let folder = tempfile::tempdir().unwrap();
    let (mut d, path) = saved(&folder);
    let theirs = loomwright::plan::default_example().text.replace("power_w = 45", "power_w = 50");
    fs::write(&path, &theirs).unwrap();
    d.keys(EDIT).keys("s").sees("The file changed on disk");
    d.sees("theirs: power_w = 50").sees("mine: power_w = 60");
}

/// A plan whose drive vanished is not written into the empty folder below it unasked, and keeps its changes.
#[test]
fn a_file_that_vanished_is_asked_about() {
    let folder = tempfile::tempdir().unwrap();
    let (mut d, path) = saved(&folder);
    fs::remove_file(&path).unwrap();
    d.keys(EDIT).keys("s").sees("The file is gone");
    d.keys("Esc");
    assert!(d.app.unsaved() && !path.exists());
    d.keys("s o").sees("saved as van.toml");
    assert!(fs::read_to_string(&path).unwrap().contains("power_w = 60"));
}

/// Pipes and links to nothing in the folder stop nothing, and are no place to save to.
#[cfg(unix)]
#[test]
fn what_is_no_file_is_neither_offered_nor_written() {
    let folder = tempfile::tempdir().unwrap();
    let (mut d, path) = saved(&folder);
    let pipe = folder.path().join("pipe.toml");
    assert!(std::process::Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    d.keys("o").sees("van.toml").sees_not("pipe.toml");
    d.keys("Esc");
    let link = folder.path().join("link.toml");
    std::os::unix::fs::symlink("nowhere", &link).unwrap();
    for name in [&pipe, &link] {
        d.keys("A");
        clear_and_type(&mut d, &name.display().to_string());
        d.keys("Enter").sees("cannot save");
    }
    assert!(link.is_symlink());
    assert_eq!(d.app.file.as_ref().unwrap().path(), path);
}

/// Where no recovery file can be kept the user is told so, once, and can work all the same.
#[cfg(unix)]
#[test]
fn a_state_folder_that_cannot_be_made_is_told_of() {
    let folder = tempfile::tempdir().unwrap();
    let plan = folder.path().join("van.toml");
    fs::write(&plan, loomwright::plan::default_example().text).unwrap();
    fs::write(folder.path().join("state"), "a file where the folder should be").unwrap();
    let mut d = Driver::new(80, 24);
    d.app.keeper = loomwright::screens::Keeper::new(Some(folder.path().join("state/kept")));
    loomwright::screens::update(&mut d.app, loomwright::screens::Action::OpenPlan(plan));
    d.draw();
    d.sees("no recovery file can be kept");
}

/// So is one that vanishes meanwhile; what was done is said again from the next edit on.
#[cfg(unix)]
#[test]
fn a_state_folder_that_goes_away_is_told_of_once() {
    let folder = tempfile::tempdir().unwrap();
    let (mut d, _) = saved(&folder);
    let state = folder.path().join("state");
    d.app.keeper = loomwright::screens::Keeper::new(Some(state.clone()));
    d.app.keeper.open(None);
    fs::remove_dir_all(&state).unwrap();
    d.keys("d").sees("the recovery file cannot be written, so save often");
    d.keys("d").sees("deleted: ").sees_not("recovery");
}

/// A kept text that is older than the file says what it would undo.
#[test]
fn a_kept_text_older_than_the_file_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let plan = folder.path().join("van.toml");
    let text = loomwright::plan::default_example().text;
    fs::write(&plan, text).unwrap();
    let state = Some(folder.path().join("state"));
    let mut crashed = loomwright::screens::Keeper::new(state.clone());
    crashed.open(Some(&plan));
    crashed.keep(Some(&text.replace("power_w = 45", "power_w = 50"))).unwrap();
    crashed.leave();
    std::thread::sleep(std::time::Duration::from_millis(20));
    fs::write(&plan, text.replace("power_w = 45", "power_w = 77")).unwrap();
    let mut d = Driver::new(120, 40);
    d.app.keeper = loomwright::screens::Keeper::new(state);
    loomwright::screens::update(&mut d.app, loomwright::screens::Action::OpenPlan(plan));
    d.draw();
    d.sees("Recovered changes").sees("changed after that").sees("theirs: power_w = 77").sees("mine: power_w = 50");
}
