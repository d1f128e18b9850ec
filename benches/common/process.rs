//! What a command takes, as a user waits for it.

use std::fmt;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// Time and most memory of a process.
pub struct Took {
    time: Duration,
    how: &'static str,
    most_kb: u64,
}

/// The exit status of a file that cannot be read.
const REFUSED: i32 = 2;

impl fmt::Display for Took {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{:.1?}, {} MB", self.how, self.time, self.most_kb / 1000)
    }
}

/// Peak memory of a process that is still there, in kB; none where the system does not tell.
pub fn peak(id: u32) -> u64 {
    let status = std::fs::read_to_string(format!("/proc/{id}/status")).unwrap_or_default();
    let line = status.lines().find(|l| l.starts_with("VmHWM"));
    line.and_then(|l| l.split_whitespace().nth(1)?.parse().ok()).unwrap_or(0)
}

/// The program with these words, its output thrown away.
pub fn run(words: &[&str], limit: Duration) -> Took {
    let begin = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_loomwright"))
        .args(words)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut took = Took { time: Duration::ZERO, how: "stopped after ", most_kb: 0 };
    while begin.elapsed() < limit {
        took.most_kb = took.most_kb.max(peak(child.id()));
        if let Some(status) = child.try_wait().unwrap() {
            took.how = if status.code() == Some(REFUSED) { "refused in " } else { "" };
            break;
        }
        std::thread::sleep(Duration::from_micros(300));
    }
    took.time = begin.elapsed();
    // One that has ended cannot be stopped.
    child.kill().ok();
    child.wait().unwrap();
    took
}
