//! The real binary on a pseudo-terminal: keys in, the emulated window out.

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};
use std::io::{Read, Write};
use std::num::NonZero;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

/// How long a thing may take before the test gives up.
const PATIENCE: Duration = Duration::from_secs(20);

/// The binary, its terminal, and what it wrote so far.
pub struct Pty {
    master: Option<Box<dyn MasterPty + Send>>,
    writer: Box<dyn Write + Send>,
    pub child: Box<dyn Child + Send + Sync>,
    parser: Arc<Mutex<vt100::Parser>>,
    raw: Arc<Mutex<Vec<u8>>>,
    deaf: Arc<AtomicBool>,
    /// Keys pressed so far.
    pub keys: usize,
}

fn lines(n: u16) -> NonZero<u16> {
    NonZero::new(n).unwrap()
}

impl Pty {
    /// Start in a folder that also holds the recovery files.
    pub fn start(folder: &Path, arguments: &[&str], variables: &[(&str, &str)]) -> Pty {
        Pty::run(env!("CARGO_BIN_EXE_loomwright"), folder, arguments, variables)
    }

    /// Start another program in such a folder.
    pub fn run(program: &str, folder: &Path, arguments: &[&str], variables: &[(&str, &str)]) -> Pty {
        let size = PtySize { rows: 24, cols: 80, pixel_width: 0, pixel_height: 0 };
        let pair = native_pty_system().openpty(size).unwrap();
        let mut command = CommandBuilder::new(program);
        command.args(arguments);
        command.cwd(folder);
        command.env_clear();
        command.env("TERM", "xterm-256color");
        command.env("LANG", "C.UTF-8");
        command.env("HOME", folder);
        command.env("XDG_STATE_HOME", folder.join("state"));
        command.env("XDG_CONFIG_HOME", folder.join("config"));
        for (name, value) in variables {
            command.env(name, value);
        }
        let child = pair.slave.spawn_command(command).unwrap();
        drop(pair.slave);
        let parser = Arc::new(Mutex::new(vt100::Parser::new(lines(24), lines(80), 0)));
        let raw = Arc::new(Mutex::new(Vec::new()));
        let mut reader = pair.master.try_clone_reader().unwrap();
        let deaf = Arc::new(AtomicBool::new(false));
        let (into, bytes, stop) = (Arc::clone(&parser), Arc::clone(&raw), Arc::clone(&deaf));
        std::thread::spawn(move || {
            let mut buffer = [0; 65536];
            while let Ok(n) = reader.read(&mut buffer) {
                if n == 0 {
                    return;
                }
                into.lock().unwrap().process(&buffer[..n]);
                bytes.lock().unwrap().extend_from_slice(&buffer[..n]);
                if stop.load(Ordering::SeqCst) {
                    return;
                }
            }
        });
        let writer = pair.master.take_writer().unwrap();
        Pty { master: Some(pair.master), writer, child, parser, raw, deaf, keys: 0 }
    }

    /// From the first question to the example plan.
    #[track_caller]
    pub fn example(&mut self) -> &mut Self {
        self.wait("look at the example").send("e");
        self.wait_for("the example", |window| window.contains("Bird-ringing van") && !window.contains("look at"))
    }

    /// Send bytes as a keyboard would.
    pub fn send(&mut self, keys: &str) -> &mut Self {
        // A key that is no letter comes as an escape sequence of three.
        self.keys += keys.chars().count() - 2 * keys.matches("\x1b[").count();
        self.writer.write_all(keys.as_bytes()).unwrap();
        self.writer.flush().unwrap();
        self
    }

    /// Send bytes to a program that may be gone already.
    pub fn try_send(&mut self, keys: &[u8]) {
        let _ = self.writer.write_all(keys);
        let _ = self.writer.flush();
    }

    pub fn resize(&mut self, cols: u16, rows: u16) -> &mut Self {
        let size = PtySize { rows, cols, pixel_width: 0, pixel_height: 0 };
        self.parser.lock().unwrap().screen_mut().set_size(lines(rows), lines(cols));
        self.master.as_ref().unwrap().resize(size).unwrap();
        self
    }

    /// The window as text.
    pub fn window(&self) -> String {
        self.parser.lock().unwrap().screen().contents()
    }

    /// All bytes so far.
    pub fn bytes(&self) -> Vec<u8> {
        self.raw.lock().unwrap().clone()
    }

    /// Wait until a text is on the window.
    #[track_caller]
    pub fn wait(&mut self, text: &str) -> &mut Self {
        self.wait_for(text, |window| window.contains(text))
    }

    /// Wait until something is true of the window.
    #[track_caller]
    pub fn wait_for(&mut self, what: &str, seen: impl Fn(&str) -> bool) -> &mut Self {
        let start = Instant::now();
        loop {
            let window = self.window();
            if seen(&window) {
                return self;
            }
            assert!(start.elapsed() < PATIENCE, "`{what}` did not come:\n{window}");
            std::thread::sleep(Duration::from_millis(2));
        }
    }

    /// Wait for the end, and give whether it was a good one.
    #[track_caller]
    pub fn end(&mut self) -> bool {
        let start = Instant::now();
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                // What it wrote last may still be on its way.
                std::thread::sleep(Duration::from_millis(50));
                return status.success();
            }
            assert!(start.elapsed() < PATIENCE, "it did not end:\n{}", self.window());
            std::thread::sleep(Duration::from_millis(2));
        }
    }

    /// Wait for the end, and give the signal that it died of.
    #[track_caller]
    pub fn ended_by(&mut self) -> Option<String> {
        self.end();
        self.child.try_wait().unwrap().unwrap().signal().map(str::to_string)
    }

    /// The terminal takes nothing any more, as one that is stopped; it is still there.
    pub fn stall(&mut self) {
        self.deaf.store(true, Ordering::SeqCst);
    }

    #[cfg(unix)]
    pub fn signal(&self, name: &str) {
        let id = self.child.process_id().unwrap().to_string();
        let sent = std::process::Command::new("kill").args(["-s", name, &id]).status().unwrap();
        assert!(sent.success());
    }

    /// Close the terminal under the program. The reader lets go of it after the next frame.
    pub fn hang_up(&mut self) {
        self.deaf.store(true, Ordering::SeqCst);
        self.try_send(b"S");
        std::thread::sleep(Duration::from_millis(200));
        self.master = None;
        self.writer = Box::new(std::io::sink());
    }

    /// Everything is as it was before: cursor shown, main screen, no mouse, no paste marks.
    #[track_caller]
    pub fn is_restored(&self) {
        let parser = self.parser.lock().unwrap();
        let screen = parser.screen();
        assert!(!screen.alternate_screen(), "still on the alternate screen");
        assert!(!screen.hide_cursor(), "the cursor is hidden");
        assert!(!screen.bracketed_paste(), "bracketed paste is on");
        assert_eq!(screen.mouse_protocol_mode(), vt100::MouseProtocolMode::None, "the mouse is listened to");
    }
}
