//! The three everyday uses, each finished with keys alone at 80x24.

use crate::pty::Pty;

const DOWN: &str = "\x1b[B";
const RIGHT: &str = "\x1b[C";

/// Plan a dual-battery fit-out: from nothing to a saved plan of four loads without a stop, and its papers.
#[test]
fn plan_a_fit_out() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.wait("plan a fit-out").send("n").wait("question 1 of 9").send("\x15Small camper\r");
    pty.wait("question 2 of 9").send("ceiling\r").wait("[x] Ceiling").send("pump\r").wait("[x] Pressure pump");
    pty.send("phone\r").wait("[x] Phone").send("\r").wait("question 3 of 9").send("\r");
    pty.wait("question 4 of 9").send("\x155 m\r").wait("question 5 of 9").send("3\r");
    pty.wait("question 6 of 9").send("2h\r").wait("question 7 of 9").send("\r").wait("question 8 of 9").send("\r");
    pty.wait("question 9 of 9").send("\r");
    pty.wait("What to buy").wait("fuse box").send("\x1b").wait("Small camper");
    assert!(!pty.window().contains("STOP"), "{}", pty.window());
    pty.send("s").wait("Save as").send("\r").wait("saved as small-camper.toml");
    pty.send("P").wait("folder to write them into").send("\r").wait("papers in").send("q");
    assert!(pty.end());
    assert!(pty.keys <= 110, "{} keys", pty.keys);
    assert!(folder.path().join("small-camper.toml").exists());
    assert!(folder.path().join("small-camper-papers/report.html").exists());
}

/// Check the cable for a long rear run, without a plan: 20 A over 7 m below the floor.
#[test]
fn check_a_cable() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.wait("check a cable").send("c").wait("Take").send("20\r7\r\rfloor").wait("25 mm² (voltage drop)");
    assert!(pty.keys <= 25, "{} keys", pty.keys);
    pty.send("\x1b").wait_for("no question", |w| !w.contains("Without a plan")).send("q");
    assert!(pty.end());
}

/// Pick a cut-off for a battery, without a plan: 100 Ah of AGM, usually 8 A.
#[test]
fn pick_a_cut_off() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.wait("pick a cut-off").send("k").wait("Acts at").send("agm\r100\r8").wait("open at 12.20 V, close at 12.50 V");
    assert!(pty.keys <= 25, "{} keys", pty.keys);
    pty.send("\x1b").wait_for("no question", |w| !w.contains("Without a plan")).send("q");
    assert!(pty.end());
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

/// A battery from its data sheet: entered, kept in the user's own folder, taken into the plan, there at the next start,
/// and printed for somebody else.
#[test]
fn enter_a_battery_from_its_data_sheet() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.example().send("y").wait("from its data sheet").send("Shelf 80\r\r80 Ah\r21 kg\r").wait("Ctrl+S keeps it");
    pty.send("\x13")
        .wait("Is this plan to use the battery shelf-80?")
        .send("t")
        .wait_for("no question", |w| !w.contains("Is this"));
    pty.send("q").wait("Leave?").send("d");
    assert!(pty.end());
    let file = folder.path().join("config/loomwright/profiles/chemistries/shelf-80.toml");
    let said = std::fs::read_to_string(file).unwrap();
    let shell = |arguments: &[&str]| {
        let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_loomwright"));
        let command =
            command.args(arguments).env("HOME", folder.path()).env("XDG_CONFIG_HOME", folder.path().join("config"));
        String::from_utf8(command.output().unwrap().stdout).unwrap()
    };
    assert!(shell(&["cut-off", "shelf-80", "80Ah", "5A"]).contains("Cut-off for 80 Ah of Shelf 80"));
    assert!(shell(&["catalogue", "own"]).contains("shelf-80"));
    assert_eq!(shell(&["catalogue", "own", "shelf-80"]), said);
}
