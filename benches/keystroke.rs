//! What the user waits for, through a pseudo-terminal and the real binary: from a key to the
//! frame that answers it, from the start to the first frame; and what it takes while idle.
//!
//! `cargo bench --bench keystroke`
#![allow(clippy::unwrap_used, clippy::expect_used, dead_code, missing_docs)]

#[path = "../tests/generated/leads.rs"]
mod leads;
#[path = "common/process.rs"]
mod process;
#[path = "common/terminal.rs"]
mod terminal;

use loomwright::screens::Screen;
use std::path::Path;
use std::time::Duration;
use terminal::{Pty, first_frame, report, start};

fn main() {
    let folder = tempfile::tempdir().unwrap();
    first_frame(folder.path());
    for (boards, leads) in [(0, 0), (3, 25), (60, 300)] {
        println!("the default plan with {boards} boards and {leads} leads more");
        keys(folder.path(), &leads::text(boards, leads));
    }
}

/// What a user of this plan waits for.
fn keys(folder: &Path, plan: &str) {
    std::fs::write(folder.join("plan.toml"), plan).unwrap();
    let mut pty = start(folder, Some("plan.toml"));
    std::thread::sleep(Duration::from_millis(500));
    let moves = (0..300).map(|n| pty.press(if n % 10 < 5 { "\x1b[B" } else { "\x1b[A" })).collect();
    report("key to frame: move", moves);
    pty.press("\x1b[C\x1b[C\x1b[C");
    let mut edits = Vec::new();
    for n in 0..200 {
        pty.press(&format!("\r{} W", 40 + n % 20));
        edits.push(pty.press("\r"));
    }
    report("key to frame: Enter on a changed load", edits);
    let screens = Screen::ALL.iter().cycle().take(200).map(|s| pty.press(&s.key().to_string())).collect();
    report("key to frame: another screen", screens);
    idle(&pty);
    pty.leave();
}

/// Wake-ups over three idle seconds, and memory.
fn idle(pty: &Pty) {
    let Some(id) = pty.child.process_id() else { return };
    let switches = || -> u64 {
        let tasks = std::fs::read_dir(format!("/proc/{id}/task")).into_iter().flatten().flatten();
        tasks
            .filter_map(|t| std::fs::read_to_string(t.path().join("status")).ok())
            .flat_map(|s| s.lines().map(String::from).collect::<Vec<_>>())
            .filter(|l| l.contains("ctxt_switches"))
            .filter_map(|l| l.split_whitespace().last()?.parse::<u64>().ok())
            .sum()
    };
    let before = switches();
    std::thread::sleep(Duration::from_secs(3));
    println!("{:<40} {} in 3 s", "wake-ups while idle", switches() - before);
    println!("{:<40} {} kB", "peak memory", pty.peak());
}
