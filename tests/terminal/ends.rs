//! Every way out puts the terminal back, and loses nothing.

use crate::pty::Pty;

const EDIT: &str = "\x1b[C\x1b[C\x1b[C\r60 W\r";

#[test]
fn a_normal_end() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.example().send("q");
    assert!(pty.end());
    pty.is_restored();
}

#[test]
fn control_c_asks_once_if_there_is_unsaved_work() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.example().send(EDIT).wait("45 W → 60 W").send("\x03").wait("Leave?").send("d");
    assert!(pty.end());
    pty.is_restored();
}

#[test]
fn signals_end_it_and_the_next_start_offers_the_work() {
    for signal in ["TERM", "HUP", "INT"] {
        let folder = tempfile::tempdir().unwrap();
        let mut pty = Pty::start(folder.path(), &[], &[]);
        pty.example().send(EDIT).wait("45 W → 60 W").signal(signal);
        // Who started it sees that a signal ended it, and which.
        let named = match signal {
            "TERM" => "Terminated",
            "HUP" => "Hangup",
            _ => "Interrupt",
        };
        assert_eq!(pty.ended_by().as_deref(), Some(named));
        pty.is_restored();
        assert!(!String::from_utf8_lossy(&pty.bytes()).contains("panicked"));
        let mut next = Pty::start(folder.path(), &[], &[]);
        next.wait("Recovered changes").send("r").wait("60 W").wait("recovered; u takes it back");
        next.send("u").wait("45 W").send("q");
        assert!(next.end());
    }
}

#[test]
fn a_closed_terminal_ends_it_and_the_next_start_offers_the_work() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.example().send(EDIT).wait("45 W → 60 W");
    pty.hang_up();
    assert_eq!(pty.ended_by().as_deref(), Some("Hangup"));
    let mut next = Pty::start(folder.path(), &[], &[]);
    next.wait("Recovered changes").send("d").wait("thrown away").send("q");
    assert!(next.end());
    let mut last = Pty::start(folder.path(), &[], &[]);
    last.example().wait_for("no question", |w| !w.contains("Recovered")).send("q");
    assert!(last.end());
}

/// A terminal that takes no output any more holds up neither a signal nor the work.
#[test]
fn a_signal_ends_it_in_a_terminal_that_takes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.example().send(EDIT).wait("45 W → 60 W");
    pty.stall();
    for _ in 0..60 {
        pty.try_send(b"234567891");
    }
    std::thread::sleep(std::time::Duration::from_millis(500));
    pty.signal("TERM");
    assert_eq!(pty.ended_by().as_deref(), Some("Terminated"));
    let mut next = Pty::start(folder.path(), &[], &[]);
    next.wait("Recovered changes").send("r").wait("60 W").send("q").wait("Leave?").send("d");
    assert!(next.end());
}

/// This terminal answers no query at all, and says it has no size: neither is waited for.
#[test]
fn a_terminal_that_answers_nothing_is_no_hindrance() {
    let folder = tempfile::tempdir().unwrap();
    let begun = std::time::Instant::now();
    let no_size = format!("stty rows 0 cols 0; exec {}", env!("CARGO_BIN_EXE_loomwright"));
    let mut pty = Pty::run("/bin/sh", folder.path(), &["-c", &no_size], &[("PATH", "/usr/bin:/bin")]);
    std::thread::sleep(std::time::Duration::from_millis(300));
    pty.resize(80, 24);
    pty.example().send("q");
    assert!(pty.end());
    assert!(begun.elapsed() < std::time::Duration::from_secs(10));
    pty.is_restored();
}

#[test]
fn without_colour_no_colour_is_written_and_the_cell_in_hand_is_still_marked() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[("NO_COLOR", "1")]);
    pty.example().send("F").wait("Remedies").send("q");
    assert!(pty.end());
    let text = String::from_utf8_lossy(&pty.bytes()).into_owned();
    let colours: Vec<&str> = text
        .split("\x1b[")
        .skip(1)
        .filter_map(|s| s.split_once('m'))
        .map(|(code, _)| code)
        .filter(|code| {
            code.split(';')
                .any(|n| n.parse::<u8>().is_ok_and(|n| (30..=38).contains(&n) || (40..=48).contains(&n) || n >= 90))
        })
        .collect();
    assert!(colours.is_empty(), "colours written: {colours:?}");
    assert!(text.contains("\x1b[7m"), "nothing is reversed");
}

#[test]
fn a_terminal_that_cannot_show_screens_is_told_so() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[("TERM", "dumb")]);
    assert!(!pty.end());
    pty.wait("loomwright report");
}

#[test]
fn a_locale_without_utf8_gets_ascii() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[("LANG", "C")]);
    pty.example().send("q");
    assert!(pty.end());
    assert!(pty.bytes().is_ascii());
}

#[test]
fn a_plan_with_problems_is_told_with_its_lines() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("bad.toml"), "format = 2\n[[load]]\npwer_w = 5\n").unwrap();
    let mut pty = Pty::start(folder.path(), &["bad.toml"], &[]);
    assert!(!pty.end());
    pty.wait("pwer_w").wait("power_w");
    pty.is_restored();
}

#[test]
fn a_plan_that_is_not_there_yet_is_begun() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &["mine.toml"], &[]);
    pty.wait("question 1 of 9")
        .send(&"\r".repeat(9))
        .wait("your plan")
        .send("\x1b")
        .wait("What it adds up to")
        .send("s")
        .wait("saved as mine.toml")
        .send("q");
    assert!(pty.end());
    let text = std::fs::read_to_string(folder.path().join("mine.toml")).unwrap();
    assert!(text.starts_with("format = 2") && text.contains("[[run]]"));
}

/// No terminal here answers where its cursor is; drawing anew must not ask.
#[test]
fn control_l_draws_everything_again_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::start(folder.path(), &[], &[]);
    pty.example().wait("quit");
    let before = pty.bytes().len();
    pty.send("\x0c");
    let start = std::time::Instant::now();
    while pty.bytes().len() < before + 2000 {
        assert!(start.elapsed().as_secs() < 20, "not drawn again:\n{}", pty.window());
        std::thread::sleep(std::time::Duration::from_millis(2));
    }
    assert!(!String::from_utf8_lossy(&pty.bytes()).contains("\x1b[6n"), "it asked for the cursor");
    pty.send("\x1b[B").wait("fridge").send("q");
    assert!(pty.end());
    pty.is_restored();
}

/// Stopped and continued by a shell, as any program.
#[cfg(unix)]
#[test]
fn control_z_stops_it_and_fg_brings_it_back_whole() {
    let folder = tempfile::tempdir().unwrap();
    let mut pty = Pty::run("/bin/sh", folder.path(), &["-i"], &[("PS1", "ready> ")]);
    pty.wait("ready>").send(&format!("set -m; {}\n", env!("CARGO_BIN_EXE_loomwright")));
    pty.example().send(EDIT).wait("45 W → 60 W").send("\x1a");
    // Only a prompt more says that the shell is the one that reads again.
    pty.wait_for("the shell", |w| w.matches("ready>").count() == 2);
    pty.is_restored();
    pty.send("fg\n").wait("Bird-ringing van").wait("60 W").send("u").wait("45 W").send("q");
    pty.wait_for("the shell again", |w| w.matches("ready>").count() == 3);
    pty.is_restored();
    pty.send("exit\n");
    pty.end();
}
