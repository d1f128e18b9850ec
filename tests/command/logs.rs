//! A log beside its plan from the shell, what of it is taken, and the battery over the years.

use crate::run::{err, out, run, run_with};
use std::path::{Path, PathBuf};

/// A plan and the log of its battery, made by tests/reference/scripts/log_cell.py with its truth in the first line:
/// 92 Ah, a fridge of 4.3 A, 0.15 A with everything off.
fn folder() -> (tempfile::TempDir, PathBuf, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let (plan, log) = (folder.path().join("van.toml"), folder.path().join("week.csv"));
    let data = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/data/logs");
    std::fs::copy(data.join("van.toml"), &plan).unwrap();
    std::fs::copy(data.join("lead.csv"), &log).unwrap();
    (folder, plan, log)
}

fn number(text: &str, key: &str) -> f64 {
    let line = text.lines().find(|l| l.starts_with(key)).unwrap_or_else(|| panic!("no {key} in\n{text}"));
    line.rsplit_once('=').unwrap().1.trim().parse().unwrap()
}

/// The capacity goes in as a measurement with its month, once; the comments of the plan live on.
#[test]
fn the_capacity_is_taken_as_a_measurement() {
    let (_folder, plan, log) = folder();
    let (plan, log) = (plan.to_str().unwrap(), log.to_str().unwrap());
    let done = run(&["log", plan, log, "--take", "capacity"]);
    assert!(done.status.success(), "{}", err(&done));
    assert!(err(&done).contains("taken into") && err(&done).contains("capacity"), "{}", err(&done));
    let text = std::fs::read_to_string(plan).unwrap();
    assert!(text.contains("[[measured]]"), "{text}");
    assert_eq!((number(&text, "year"), number(&text, "month")), (2026.0, 3.0));
    let (least, most) = (number(&text, "least_ah"), number(&text, "most_ah"));
    assert!(least <= 92.0 && 92.0 <= most, "{least} to {most}");
    // The same month again is no new measurement.
    let again = run(&["log", plan, log, "--take", "capacity"]);
    assert!(!again.status.success() && err(&again).contains("the log changes no `capacity`"), "{}", err(&again));
    // The battery's page tells of it, and how the capacity is tested.
    let page = out(&run(&["ageing", plan]));
    for words in ["2026-03", "Capacity test", "Work it out"] {
        assert!(page.contains(words), "no `{words}` in\n{page}");
    }
}

#[test]
fn all_that_differs_is_taken_at_once_and_nothing_differs_then() {
    let (_folder, plan, log) = folder();
    let (plan, log) = (plan.to_str().unwrap(), log.to_str().unwrap());
    let before = std::fs::read_to_string(plan).unwrap();
    let done = run(&["log", plan, log, "--take", "all"]);
    assert!(done.status.success(), "{}", err(&done));
    let after = std::fs::read_to_string(plan).unwrap();
    assert_ne!(before, after);
    let said = err(&done);
    assert!(said.contains("capacity"), "{said}");
    let unknown = run(&["log", plan, log, "--take", "colour"]);
    assert!(!unknown.status.success() && err(&unknown).contains("no `colour`"), "{}", err(&unknown));
}

/// What a pipe brings is read once, and the same follows; two things cannot come by one pipe.
#[test]
fn a_log_comes_by_a_pipe_too() {
    let (_folder, plan, log) = folder();
    let plan = plan.to_str().unwrap();
    let (piped, named) =
        (run_with(&["log", plan, "-"], &std::fs::read(&log).unwrap()), run(&["log", plan, log.to_str().unwrap()]));
    assert!(piped.status.success(), "{}", err(&piped));
    assert_eq!(out(&piped), out(&named));
    let both = run_with(&["log", "-", "-"], b"format = 2\n");
    assert!(err(&both).contains("cannot both be standard input"), "{}", err(&both));
}

/// With everything off nothing can flow in: a trickle of a source, or a zero that is off, is no draw to plan with.
#[test]
fn what_flows_in_is_no_standing_draw() {
    let (_folder, plan, log) = folder();
    let rows = (0..24 * 60).map(|m| format!("2026-03-02 {:02}:{:02}:00,12.90,0.20\n", m / 60, m % 60));
    std::fs::write(&log, format!("time,volts,amps\n{}", rows.collect::<String>())).unwrap();
    let (plan, log) = (plan.to_str().unwrap(), log.to_str().unwrap());
    let said = out(&run(&["log", plan, log, "--positive", "in"]));
    assert!(said.contains("cannot be a draw"), "{said}");
    let taken = run(&["log", plan, log, "--positive", "in", "--take", "standing-draw"]);
    assert!(!taken.status.success() && err(&taken).contains("changes no `standing-draw`"), "{}", err(&taken));
}

/// What is recognised can be said instead; what does not fit the file is refused in words.
#[test]
fn the_file_is_read_as_is_said() {
    let (_folder, plan, log) = folder();
    let (plan, log) = (plan.to_str().unwrap(), log.to_str().unwrap());
    let recognised = out(&run(&["log", plan, log]));
    let said = ["--delimiter", ";", "--decimal", "comma", "--clock", "date", "--date", "day"];
    let columns = ["--columns", "time,time,volts,amps"];
    let told = run(&[&["log", plan, log][..], &said[..], &columns[..]].concat());
    assert!(told.status.success(), "{}", err(&told));
    let numbers = |text: &str| text.lines().filter(|l| l.contains("Ah")).map(String::from).collect::<Vec<_>>();
    assert_eq!(numbers(&recognised), numbers(&out(&told)));
    let wrong = run(&["log", plan, log, "--delimiter", "tab"]);
    assert!(!wrong.status.success() && err(&wrong).contains("no two rows"), "{}", err(&wrong));
    let wrong = run(&["log", plan, log, "--clock", "hours"]);
    assert!(!wrong.status.success() && err(&wrong).contains("for the time"), "{}", err(&wrong));
    let seconds = "t,volts,amps\n0,12.8,0.5\n60,12.7,5.1\n120,12.7,5.0\n180,12.8,0.5\n";
    std::fs::write(log, seconds).unwrap();
    let minutes = out(&run(&["log", plan, log, "--clock", "minutes"]));
    assert!(minutes.contains("60 s each"), "{minutes}");
}
