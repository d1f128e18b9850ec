//! The three everyday uses, each finished with keys alone at 80x24.

use crate::pty::Pty;

const DOWN: &str = "\x1b[B";
const RIGHT: &str = "\x1b[C";

/// Plan a dual-battery fit-out: from nothing to a saved plan with a sized battery.
#[test]
fn plan_a_fit_out() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.wait("plan a fit-out").send("n").wait("question 1 of 5").send("\x15Small camper\r");
    pty.wait("question 2 of 5").send("light\r").wait("[x]").send("\r");
    pty.wait("question 3 of 5").send("\r").wait("question 4 of 5").send("\x155 m\r");
    pty.wait("question 5 of 5").send("\r").wait("your plan").wait("Small camper");
    pty.send("B").wait("Chemistries side by side").wait("Needed");
    pty.send("s").wait("Save as").send("\r").wait("saved as small-camper.toml").send("q");
    assert!(pty.end());
    assert!(folder.path().join("small-camper.toml").exists());
}

/// Check the gauge for a long rear run: every size side by side, and the deciding rule in words.
#[test]
fn check_the_gauge_of_a_long_run() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.example().send("R").wait("R1").send(&DOWN.repeat(8)).wait("Every size for R5");
    pty.send("\t").wait("decides").send(&format!("{RIGHT}w")).wait("Source:");
    pty.send("\x1b").wait("Every size for R5").send("q");
    assert!(pty.end());
}

/// Pick a cut-off voltage: the curve, each current, the setting.
#[test]
fn pick_a_cut_off_voltage() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.example().send("C").wait("usual decides").wait("State of charge");
    pty.send("\r12.9\r").wait("12.90 V").send("q").wait("Leave?").send("d");
    assert!(pty.end());
}

/// The papers for the workshop, from the screens; those that are there are replaced only after asking.
#[test]
fn write_the_papers() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.example().send("P").wait("folder to write them into").send("\r").wait("papers in");
    let papers = folder.path().join("bird-ringing-van-papers");
    assert!(papers.join("report.html").exists());
    pty.send("P").wait("folder to write them into").send("\r").wait("There are papers already").send("o");
    pty.wait("papers in").send("q");
    assert!(pty.end());
}
