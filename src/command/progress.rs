//! How far has a question come that takes many designs? Said on a terminal only.

use std::cell::Cell;
use std::io::IsTerminal;

/// So many designs between two words.
const EVERY: u32 = 10;

/// The designs made.
#[derive(Debug, Default)]
pub struct Progress(Cell<u32>);

impl Progress {
    /// One more is begun; it never ends the work: Ctrl-C does.
    pub fn one_more(&self) -> bool {
        self.0.set(self.0.get() + 1);
        if self.0.get().is_multiple_of(EVERY) && std::io::stderr().is_terminal() {
            eprint!("\r{} designs", self.0.get());
        }
        true
    }

    /// Take the words away.
    pub fn end(&self) {
        if self.0.get() >= EVERY && std::io::stderr().is_terminal() {
            eprint!("\r\x1b[K");
        }
    }
}
