//! The terminal: taken and put back. The only file that knows its modes.
//!
//! It is put back by a normal end, by an error (the guard's `Drop`), by a panic
//! (the hook, before the message is printed) and by a termination signal,
//! which comes in as an event.

use crossterm::event::{
    DisableBracketedPaste, DisableFocusChange, DisableMouseCapture, EnableBracketedPaste, EnableFocusChange,
    EnableMouseCapture,
};
use crossterm::terminal::{EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode};
use crossterm::{cursor::Show, execute};
use std::io::{self, BufWriter, Stdout, Write};
use std::sync::Once;

/// The terminal while the screens are up; dropping it puts everything back.
pub struct Taken;

impl Taken {
    /// Take the terminal.
    ///
    /// # Errors
    /// It refuses; everything is put back then.
    pub fn new(mouse: bool) -> io::Result<Taken> {
        static HOOK: Once = Once::new();
        HOOK.call_once(|| {
            let before = std::panic::take_hook();
            std::panic::set_hook(Box::new(move |info| {
                put_back();
                before(info);
            }));
        });
        let taken = Taken;
        take(mouse)?;
        Ok(taken)
    }
}

/// Take the terminal, at the start or again after the program was stopped.
///
/// # Errors
/// It refuses.
pub fn take(mouse: bool) -> io::Result<()> {
    // What the shell did to it in the meantime is not known here.
    disable_raw_mode()?;
    enable_raw_mode()?;
    execute!(io::stdout(), EnterAlternateScreen, EnableBracketedPaste, EnableFocusChange)?;
    if mouse { listen(true) } else { Ok(()) }
}

/// Give the terminal back and stop until the shell continues the program; then take it again. Where
/// no shell could continue it, it does not stop.
///
/// # Errors
/// The terminal is gone.
pub fn suspend(mouse: bool) -> io::Result<()> {
    put_back();
    #[cfg(unix)]
    let _ = signal_hook::low_level::raise(signal_hook::consts::SIGTSTP);
    take(mouse)
}

impl Drop for Taken {
    fn drop(&mut self) {
        put_back();
    }
}

/// Listen to the mouse or not.
///
/// # Errors
/// The terminal is gone.
pub fn listen(mouse: bool) -> io::Result<()> {
    if mouse { execute!(io::stdout(), EnableMouseCapture) } else { execute!(io::stdout(), DisableMouseCapture) }
}

/// Put everything back. What fails cannot be mended here, and the rest is still tried.
fn put_back() {
    let mut out = io::stdout();
    let _ = execute!(out, DisableMouseCapture);
    let _ = execute!(out, DisableFocusChange, DisableBracketedPaste);
    let _ = execute!(out, LeaveAlternateScreen, Show);
    let _ = disable_raw_mode();
    let _ = out.flush();
}

/// Where frames are written: one write for each, so that slow links see whole frames.
pub fn writer() -> BufWriter<Stdout> {
    BufWriter::with_capacity(64 * 1024, io::stdout())
}
