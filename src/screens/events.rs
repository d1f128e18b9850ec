//! What can happen: the terminal's events and termination signals, in one channel.

use super::chances::News;
use super::lognews::LogNews;
use super::tried::Tried;
use crossterm::event::{self, KeyEvent, KeyEventKind, MouseEvent};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::thread;
#[cfg(unix)]
use std::time::Duration;

/// The signal of a terminal that is closed.
pub const HANG_UP: i32 = 1;
/// How long a last frame may take.
#[cfg(unix)]
const PATIENCE: Duration = Duration::from_secs(2);

/// One thing that happened.
#[derive(Clone, Debug, PartialEq)]
pub enum Event {
    /// A key was pressed.
    Key(KeyEvent),
    /// The mouse was moved or pressed.
    Mouse(MouseEvent),
    /// A text was pasted.
    Paste(String),
    /// The window has another size.
    Resize,
    /// The window was given back.
    Focus,
    /// The program was stopped and goes on; the terminal may be another's again.
    Continued,
    /// A worker has got further.
    News(News),
    /// A worker has tried what mends the plan.
    Tried(Tried),
    /// A worker reads a logger's file.
    Log(LogNews),
    /// The system wants the program to end, by the signal of this number; a terminal that is
    /// gone counts as a hang-up.
    End(i32),
}

/// Start listening. Nothing wakes up unless something happens.
pub fn listen() -> (Sender<Event>, Receiver<Event>) {
    let (sender, receiver) = channel();
    let ours = sender.clone();
    signals(sender.clone());
    thread::spawn(move || {
        loop {
            let event = match event::read() {
                Ok(event) => from(event),
                Err(_) => Some(Event::End(HANG_UP)),
            };
            let end = matches!(event, Some(Event::End(_)));
            if event.is_some_and(|e| sender.send(e).is_err()) || end {
                return;
            }
        }
    });
    (ours, receiver)
}

fn from(event: event::Event) -> Option<Event> {
    match event {
        event::Event::Key(key) if key.kind != KeyEventKind::Release => Some(Event::Key(key)),
        event::Event::Key(_) | event::Event::FocusLost => None,
        event::Event::Mouse(mouse) => Some(Event::Mouse(mouse)),
        event::Event::Paste(text) => Some(Event::Paste(text)),
        event::Event::Resize(_, _) => Some(Event::Resize),
        event::Event::FocusGained => Some(Event::Focus),
    }
}

#[cfg(unix)]
fn signals(sender: Sender<Event>) {
    use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGTERM};
    use signal_hook::iterator::Signals;
    // Where signals cannot be listened to, the system's own ending still leaves the recovery file.
    let Ok(mut signals) = Signals::new([SIGTERM, SIGHUP, SIGINT, SIGCONT]) else { return };
    thread::spawn(move || {
        for signal in signals.forever() {
            let event = if signal == SIGCONT { Event::Continued } else { Event::End(signal) };
            if sender.send(event).is_err() {
                return;
            }
            if signal != SIGCONT {
                thread::spawn(move || end_anyway(signal));
            }
        }
    });
}

/// A terminal that takes no output any more holds the drawing up for ever; the recovery file is
/// written by then, since it follows every edit.
#[cfg(unix)]
fn end_anyway(signal: i32) {
    thread::sleep(PATIENCE);
    let _ = crossterm::terminal::disable_raw_mode();
    die_of(signal);
}

/// End as the signal would have ended the program, so that who started it sees what happened.
pub fn die_of(signal: i32) {
    #[cfg(unix)]
    let _ = signal_hook::low_level::emulate_default_handler(signal);
    #[cfg(not(unix))]
    let _ = signal;
}

#[cfg(not(unix))]
fn signals(_: Sender<Event>) {}
