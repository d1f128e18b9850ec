//! What the user waits for, through a pseudo-terminal and the real binary: from a key to the
//! frame that answers it, from the start to the first frame; and what it takes while idle.
//!
//! `cargo bench --bench keystroke`
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs)]

#[path = "../tests/generated/leads.rs"]
mod leads;

use loomwright::screens::Screen;
use portable_pty::{CommandBuilder, PtySize, native_pty_system};
use std::io::{Read, Write};
use std::path::Path;
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

struct Pty {
    writer: Box<dyn Write + Send>,
    output: Receiver<Vec<u8>>,
    child: Box<dyn portable_pty::Child + Send + Sync>,
    _master: Box<dyn portable_pty::MasterPty + Send>,
}

fn start(folder: &Path, plan: Option<&str>) -> Pty {
    let size = PtySize { rows: 24, cols: 80, pixel_width: 0, pixel_height: 0 };
    let pair = native_pty_system().openpty(size).unwrap();
    let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_loomwright"));
    command.cwd(folder);
    command.args(plan);
    for (name, value) in [("TERM", "xterm-256color"), ("LANG", "C.UTF-8")] {
        command.env(name, value);
    }
    for name in ["HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME"] {
        command.env(name, folder);
    }
    let child = pair.slave.spawn_command(command).unwrap();
    let mut reader = pair.master.try_clone_reader().unwrap();
    let writer = pair.master.take_writer().unwrap();
    let (sender, output) = channel();
    std::thread::spawn(move || {
        let mut buffer = vec![0; 65536];
        while let Ok(n) = reader.read(&mut buffer) {
            if n == 0 || sender.send(buffer[..n].to_vec()).is_err() {
                return;
            }
        }
    });
    Pty { writer, output, child, _master: pair.master }
}

impl Pty {
    /// From a key to the last byte of the frame that answers it.
    fn press(&mut self, keys: &str) -> Duration {
        while self.output.try_recv().is_ok() {}
        let begin = Instant::now();
        self.writer.write_all(keys.as_bytes()).unwrap();
        self.writer.flush().unwrap();
        self.output.recv_timeout(Duration::from_secs(5)).unwrap();
        let mut end = begin.elapsed();
        while self.output.recv_timeout(Duration::from_millis(3)).is_ok() {
            end = begin.elapsed();
        }
        end
    }
}

fn report(name: &str, mut times: Vec<Duration>) {
    times.sort();
    let at = |share: f64| times[((times.len() - 1) as f64 * share) as usize];
    println!("{name:<40} median {:>9.2?}   99 % {:>9.2?}   worst {:>9.2?}", at(0.5), at(0.99), at(1.0));
}

fn main() {
    let folder = tempfile::tempdir().unwrap();
    let mut first = Vec::new();
    for _ in 0..20 {
        let begin = Instant::now();
        let mut pty = start(folder.path(), None);
        let mut seen = Vec::new();
        while !String::from_utf8_lossy(&seen).contains("leave") {
            seen.extend(pty.output.recv_timeout(Duration::from_secs(5)).unwrap());
        }
        first.push(begin.elapsed());
        pty.press("q");
        pty.child.wait().unwrap();
    }
    report("start to first frame", first);
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
    pty.press("q");
    pty.press("d");
    pty.child.wait().unwrap();
}

/// Wake-ups over three idle seconds, and memory.
fn idle(pty: &Pty) {
    let Some(id) = pty.child.process_id() else { return };
    let read = |file: &str| std::fs::read_to_string(format!("/proc/{id}/{file}")).unwrap_or_default();
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
    for line in read("status").lines().filter(|l| l.starts_with("VmHWM")) {
        println!("{:<40} {}", "peak memory", line.trim_start_matches("VmHWM:").trim());
    }
}
