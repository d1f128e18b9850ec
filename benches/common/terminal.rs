//! The screens in a pseudo-terminal, as a user sees them.

use crate::process::peak;
use portable_pty::{CommandBuilder, PtySize, native_pty_system};
use std::io::{Read, Write};
use std::path::Path;
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

/// The program in a terminal of 80 by 24.
pub struct Pty {
    writer: Box<dyn Write + Send>,
    pub output: Receiver<Vec<u8>>,
    pub child: Box<dyn portable_pty::Child + Send + Sync>,
    _master: Box<dyn portable_pty::MasterPty + Send>,
}

pub fn start(folder: &Path, plan: Option<&str>) -> Pty {
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
    /// Type without waiting.
    pub fn send(&mut self, keys: &str) {
        self.writer.write_all(keys.as_bytes()).unwrap();
        self.writer.flush().unwrap();
    }

    /// From a key to the last byte of the frame that answers it.
    pub fn press(&mut self, keys: &str) -> Duration {
        while self.output.try_recv().is_ok() {}
        let begin = Instant::now();
        self.send(keys);
        self.output.recv_timeout(Duration::from_secs(5)).unwrap();
        let mut end = begin.elapsed();
        while self.output.recv_timeout(Duration::from_millis(3)).is_ok() {
            end = begin.elapsed();
        }
        end
    }

    /// Peak memory, in kB.
    pub fn peak(&self) -> u64 {
        self.child.process_id().map_or(0, peak)
    }

    /// Leave it, whatever is unsaved.
    pub fn leave(mut self) {
        self.press("q");
        self.send("d");
        self.child.wait().unwrap();
    }
}

/// Median, 99 of 100 and the longest.
pub fn report(name: &str, mut times: Vec<Duration>) {
    times.sort();
    let at = |share: f64| times[((times.len() - 1) as f64 * share) as usize];
    println!("{name:<40} median {:>9.2?}   99 % {:>9.2?}   worst {:>9.2?}", at(0.5), at(0.99), at(1.0));
}

/// From the start to the first frame, twenty times.
pub fn first_frame(folder: &Path) {
    let mut first = Vec::new();
    for _ in 0..20 {
        let begin = Instant::now();
        let mut pty = start(folder, None);
        let mut seen = Vec::new();
        while !String::from_utf8_lossy(&seen).contains("leave") {
            seen.extend(pty.output.recv_timeout(Duration::from_secs(5)).unwrap());
        }
        first.push(begin.elapsed());
        pty.press("q");
        pty.child.wait().unwrap();
    }
    report("start to first frame", first);
}
