//! Killed without warning while it writes: what is on the disk is the old file or the new one, whole.
//!
//! Fifty kills for each kind of file in every run; `LOOMWRIGHT_KILLS=1000` for more.

use crate::pty::Pty;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

const SMALL: &str = include_str!("../everyday/plans/fridge-and-light.toml");
const PAPERS: &str = "van-papers";

fn rounds() -> u32 {
    std::env::var("LOOMWRIGHT_KILLS").ok().and_then(|n| n.parse().ok()).unwrap_or(50)
}

/// The plan with another title, by which its files are told apart.
fn plan(title: &str) -> String {
    let at = SMALL.find("title = \"").unwrap() + "title = \"".len();
    format!("{}{title}{}", &SMALL[..at], &SMALL[at + SMALL[at..].find('"').unwrap()..])
}

fn start(folder: &Path, arguments: &[&str]) -> Child {
    let mut command = Command::new(env!("CARGO_BIN_EXE_loomwright"));
    command.args(arguments).current_dir(folder).env("HOME", folder).env("XDG_CONFIG_HOME", folder.join("config"));
    command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
}

/// Every file below a folder by its name there, hidden ones left out.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut all = BTreeMap::new();
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name().into_string().unwrap();
        if name.starts_with('.') {
            continue;
        }
        if entry.path().is_dir() {
            all.extend(files(&entry.path()).into_iter().map(|(inner, bytes)| (format!("{name}/{inner}"), bytes)));
        } else {
            all.insert(name, fs::read(entry.path()).unwrap());
        }
    }
    all
}

/// Kill a command again and again, at moments spread over its last two thirds; what it leaves must stand the look.
fn kill_often(folder: &Path, arguments: &[&str], prepare: impl Fn(), look: impl Fn(u32)) {
    prepare();
    let begin = Instant::now();
    assert!(start(folder, arguments).wait().is_ok());
    let whole = begin.elapsed();
    for round in 0..rounds() {
        prepare();
        let mut child = start(folder, arguments);
        std::thread::sleep(whole.mul_f64(0.35 + 0.7 * f64::from(round % 50) / 50.0));
        let _ = child.kill();
        child.wait().unwrap();
        look(round);
    }
}

/// A command that writes one file: it is the old one or the new one.
fn one_file(folder: &Path, name: &str, old: &str, arguments: &[&str]) {
    let path = folder.join(name);
    fs::write(&path, old).unwrap();
    assert!(start(folder, arguments).wait().is_ok());
    let new = fs::read_to_string(&path).unwrap();
    assert_ne!(new, old, "{arguments:?} writes nothing");
    let look = |round| {
        let left = fs::read_to_string(&path).unwrap();
        assert!(left == old || left == new, "{arguments:?}, round {round} left something else:\n{left}");
    };
    kill_often(folder, arguments, || fs::write(&path, old).unwrap(), look);
}

#[test]
fn a_list_taken_from_a_spreadsheet() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("van.toml"), plan("old")).unwrap();
    let sheet = "name,at,power_w\nlamp,panel,10\n";
    fs::write(folder.path().join("loads.csv"), sheet).unwrap();
    let arguments = ["table", "loads", "van.toml", "--from", "loads.csv", "--to", "new.toml"];
    one_file(folder.path(), "new.toml", &plan("old"), &arguments);
}

/// Mended over a file that was there.
#[test]
fn a_plan_that_is_mended() {
    let folder = tempfile::tempdir().unwrap();
    let length = SMALL.lines().find(|l| l.starts_with("length_m = ")).unwrap();
    let wrong = SMALL.replacen(length, &format!("{length}\nsize = \"0.5 mm2\""), 1);
    fs::write(folder.path().join("van.toml"), wrong).unwrap();
    one_file(folder.path(), "mended.toml", &plan("old"), &["check", "van.toml", "--mend", "mended.toml"]);
}

/// Taken from a log into the very plan that was read.
#[test]
fn what_is_taken_from_a_log() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("week.csv"), include_str!("../reference/data/logs/lead.csv")).unwrap();
    let old = include_str!("../reference/data/logs/van.toml");
    one_file(folder.path(), "van.toml", old, &["log", "van.toml", "week.csv", "--take", "all"]);
}

/// The papers of a plan over those of another: each is a whole one of either; none is lost, it lies aside at the worst;
/// a mixture is told; and the next run makes it good.
#[test]
fn papers_over_papers() {
    let folder = tempfile::tempdir().unwrap();
    let (root, papers) = (folder.path(), folder.path().join(PAPERS));
    let set = |name: &str, text: &str| {
        fs::write(root.join(name), text).unwrap();
        let into = format!("{name}-set");
        assert!(start(root, &["papers", name, &into]).wait().unwrap().success());
        files(&root.join(into))
    };
    let (old, new) = (set("old.toml", &plan("old")), set("new.toml", &plan("new")));
    assert!(old.len() > 10 && old.keys().eq(new.keys()) && old != new);
    let prepare = || {
        let _ = fs::remove_dir_all(&papers);
        for (name, bytes) in &old {
            fs::create_dir_all(papers.join(name).parent().unwrap()).unwrap();
            fs::write(papers.join(name), bytes).unwrap();
        }
    };
    let arguments = ["papers", "new.toml", PAPERS, "--replace"];
    let look = |round: u32| {
        let left = files(&papers);
        for (name, bytes) in &left {
            let whole = old.get(name) == Some(bytes) || new.get(name) == Some(bytes);
            assert!(whole, "round {round}: {name} is neither the old paper nor the new one");
        }
        for name in old.keys().filter(|name| !left.contains_key(*name)) {
            let aside = [".loomwright-old", ".loomwright-new"].map(|aside| papers.join(aside).join(name));
            assert!(aside.iter().any(|path| path.is_file()), "round {round}: {name} is lost");
        }
        if left != old && left != new {
            let told = start(root, &["papers", "new.toml", "--check", PAPERS]).wait().unwrap();
            assert!(!told.success(), "round {round}: a mixture is taken for the papers of the plan");
            assert!(start(root, &arguments).wait().unwrap().success());
            assert!(files(&papers) == new && fs::read_dir(&papers).unwrap().count() > 0);
            assert!(!papers.join(".loomwright-old").exists(), "round {round}: leftovers");
        }
    };
    kill_often(root, &arguments, prepare, look);
}

/// Saving again and again on the screens: the plan, its backup, the versions kept and the recovery file are whole.
#[test]
fn saving_on_the_screens() {
    let folder = tempfile::tempdir().unwrap();
    let plan = folder.path().join("van.toml");
    let text = loomwright::plan::default_example().text;
    let whole = |watts: u32| text.replacen("power_w = 45", &format!("power_w = {watts}"), 1);
    let known: Vec<Vec<u8>> = (45..60).map(|watts| whole(watts).into_bytes()).collect();
    for round in 0..rounds() {
        let _ = fs::remove_dir_all(folder.path().join("state"));
        let _ = fs::remove_file(folder.path().join("van.toml.bak"));
        fs::write(&plan, text).unwrap();
        let mut pty = Pty::start(folder.path(), &["van.toml"], &[]);
        pty.wait("Bird-ringing van").send("\x1b[C\x1b[C\x1b[C");
        for watts in 46..60 {
            pty.try_send(format!("\r{watts} W\rs").as_bytes());
        }
        std::thread::sleep(Duration::from_micros(u64::from(round % 200) * 2_800));
        pty.child.kill().unwrap();
        pty.end();
        for (name, bytes) in files(folder.path()) {
            let is_plan = name.ends_with(".toml") || name.ends_with(".bak");
            let good = !is_plan || known.contains(&bytes);
            assert!(good, "round {round}: {name} is something else:\n{}", String::from_utf8_lossy(&bytes));
        }
    }
}

/// A part of one's own: there whole, or not there.
#[test]
fn keeping_a_row_of_ones_own() {
    let folder = tempfile::tempdir().unwrap();
    let rows = folder.path().join("config/loomwright/profiles");
    let keep = || {
        let _ = fs::remove_dir_all(&rows);
        let mut pty = Pty::start(folder.path(), &[], &[]);
        pty.example().send("y").wait("from its data sheet").send("Shelf\r\r80\r").wait("Ctrl+S keeps it");
        pty.try_send(b"\x13");
        pty
    };
    let mut pty = keep();
    pty.wait("Is this plan to use");
    pty.child.kill().unwrap();
    let whole = files(&rows);
    assert_eq!(whole.len(), 1);
    for round in 0..rounds() {
        let mut pty = keep();
        std::thread::sleep(Duration::from_micros(u64::from(round % 50) * 1_500));
        pty.child.kill().unwrap();
        pty.end();
        let left = files(&rows);
        assert!(left.is_empty() || left == whole, "round {round}: {left:?}");
    }
}
