//! Rough handling: resize storms, long pastes, two copies, killed while saving.

use crate::pty::Pty;
use std::fs;

#[test]
fn a_storm_of_resizes_while_typing() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.example().send("\r").wait("Load:");
    for n in 0..120u16 {
        pty.resize(1 + n * 37 % 300, 1 + n * 13 % 100);
        pty.send("x");
    }
    pty.resize(80, 24);
    pty.wait("Load:").send("\x1b").wait("fridge").send("q");
    assert!(pty.end());
    pty.is_restored();
}

/// Each screen and what lies over it survives a window of one cell, and is whole again afterwards.
#[test]
fn a_window_of_one_cell_and_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.example();
    let moment = || std::thread::sleep(std::time::Duration::from_millis(100));
    for keys in ["S", "B", "R", "C", "D", "G", "H", "F", "T", "?", "\x1b", "o"] {
        pty.send(keys).resize(1, 1);
        moment();
        pty.send("\x1b[B").resize(80, 24);
        pty.wait("Bird-ringing van").wait("Loads");
    }
    // A key that came while nothing was to be seen did nothing: what lies over the screen is not known.
    for _ in 0..2 {
        moment();
        pty.send("\x1b");
    }
    pty.send("L").wait("What it adds up to").send("\r").wait("Esc put back").send("\x1b").wait("fridge").send("q");
    assert!(pty.end());
    pty.is_restored();
}

#[test]
fn a_paste_of_100_kb_does_nothing_outside_a_field_and_is_cut_inside() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    let paste = format!("\x1b[200~{}\x1b[201~", "dq\n".repeat(33_000));
    pty.example().send(&paste).wait("a paste goes into a field");
    pty.send("\r").send(&paste).wait("dq").send("\x1b").wait("fridge").send("q");
    assert!(pty.end());
}

#[test]
fn two_copies_on_one_plan_know_of_each_other() {
    let folder = tempfile::tempdir().unwrap();
    let plan = folder.path().join("van.toml");
    fs::write(&plan, loomwright::plan::default_example().text).unwrap();
    let mut one = Pty::start(folder.path(), &["van.toml"], &[]);
    one.wait("Bird-ringing van");
    let mut two = Pty::start(folder.path(), &["van.toml"], &[]);
    two.wait("open in another copy").send("g").wait("fridge");
    two.send("\x1b[C\x1b[C\x1b[C\r50 W\r").wait("45 W → 50 W").send("s").wait("saved as van.toml").send("q");
    assert!(two.end());
    one.send("\x1b[C\x1b[C\x1b[C\r60 W\r").wait("45 W → 60 W").send("s").wait("The file changed on disk");
    one.send("o").wait("saved as van.toml").send("q");
    assert!(one.end());
    assert!(fs::read_to_string(&plan).unwrap().contains("power_w = 60"));
    assert!(fs::read_to_string(folder.path().join("van.toml.bak")).unwrap().contains("power_w = 50"));
}
