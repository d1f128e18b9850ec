//! The loop: sleep until something happens, take all that waits, draw once.

use super::action::Action;
use super::app::App;
use super::draw::draw;
use super::events::{Event, HANG_UP};
use super::keymap::{self, Mode};
use super::overlay::Overlay;
use super::update::{Flow, update};
use super::view::View;
use super::{pointer, terminal};
use crossterm::event::{Event as Input, KeyCode, KeyEvent, KeyModifiers};
use ratatui::Terminal;
use ratatui::backend::Backend;
use std::iter;
use std::sync::mpsc::Receiver;

/// How the loop ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// The user left.
    Left,
    /// The system wanted it, by the signal of this number.
    Stopped(i32),
}

/// Run until the user leaves or the system ends it.
///
/// # Errors
/// The terminal cannot be written.
pub fn run<B: Backend>(app: &mut App, terminal: &mut Terminal<B>, events: &Receiver<Event>) -> Result<Ended, B::Error> {
    let mut view = View::default();
    let mut mouse = app.mouse;
    loop {
        if std::mem::take(&mut app.suspend) {
            let _ = terminal::suspend(app.mouse);
            app.redraw = true;
        }
        if std::mem::take(&mut app.redraw) {
            wipe(terminal)?;
        }
        terminal.draw(|frame| draw(app, &mut view, frame))?;
        let Ok(first) = events.recv() else { return Ok(Ended::Stopped(HANG_UP)) };
        for event in iter::once(first).chain(events.try_iter()) {
            match event {
                Event::End(signal) => return Ok(Ended::Stopped(signal)),
                Event::Continued => {
                    // A terminal that cannot be taken is about to fail at drawing, which says so.
                    let _ = terminal::take(app.mouse);
                    app.redraw = true;
                }
                // Also when it has its old size again: what it lost in between is not known here.
                Event::Resize => app.redraw = true,
                _ => {}
            }
            for event in apart(event) {
                for action in actions(app, &mut view, &event) {
                    if update(app, action) == Flow::Quit {
                        return Ok(Ended::Left);
                    }
                }
            }
        }
        if app.mouse != mouse {
            mouse = app.mouse;
            // A terminal that cannot be told is about to fail at drawing, which says so.
            let _ = terminal::listen(mouse);
        }
    }
}

/// Forget what stands on the window, so that the next frame writes all of it. The terminal's own
/// `clear` would ask for the cursor, and the answer goes to the thread that listens to the keys.
fn wipe<B: Backend>(terminal: &mut Terminal<B>) -> Result<(), B::Error> {
    terminal.backend_mut().clear()?;
    terminal.draw(|_| {})?;
    Ok(())
}

/// Escape followed closely by a letter comes in as that letter with Alt, over
/// slow links above all. No letter has a meaning with Alt here, so it is taken apart again.
pub fn apart(event: Event) -> Vec<Event> {
    match event {
        Event::Key(key)
            if key.modifiers - KeyModifiers::SHIFT == KeyModifiers::ALT && matches!(key.code, KeyCode::Char(_)) =>
        {
            let escape = KeyEvent::new(KeyCode::Esc, KeyModifiers::NONE);
            vec![Event::Key(escape), Event::Key(KeyEvent::new(key.code, KeyModifiers::NONE))]
        }
        event => vec![event],
    }
}

/// What an event asks for.
pub fn actions(app: &App, view: &mut View, event: &Event) -> Vec<Action> {
    match event {
        Event::Key(key) if view.hidden => of_key(app, key).into_iter().filter(|a| is_safe_unseen(app, a)).collect(),
        Event::Mouse(_) | Event::Paste(_) | Event::Focus if view.hidden => Vec::new(),
        Event::Key(key) => of_key(app, key).into_iter().collect(),
        Event::Mouse(mouse) if app.mouse => pointer::actions(app, view, mouse),
        Event::Paste(text) => vec![Action::Paste(text.clone())],
        Event::Focus => vec![Action::Look],
        Event::News(news) => vec![Action::Hear(news.clone())],
        Event::Tried(news) => vec![Action::HearTried(news.clone())],
        Event::Log(news) => vec![Action::HearLog(news.clone())],
        Event::Mouse(_) | Event::Resize | Event::Continued | Event::End(_) => Vec::new(),
    }
}

/// Whether an action is fit for a window in which nothing of the plan is seen.
fn is_safe_unseen(app: &App, action: &Action) -> bool {
    match action {
        Action::Redraw | Action::Suspend => true,
        Action::Quit => !app.unsaved(),
        _ => false,
    }
}

/// A key: by the table, else by letter in a question, else as typing; a number begins on its field by itself.
pub fn of_key(app: &App, key: &KeyEvent) -> Option<Action> {
    let here = app.here();
    if let Some(action) = keymap::action(key, here) {
        return Some(action);
    }
    match (here.mode, key.code, &app.overlay) {
        (Mode::Asking, KeyCode::Char(c), Some(Overlay::Ask(ask))) => ask.answer(c).map(|a| Action::Choose(Box::new(a))),
        (Mode::Browse, KeyCode::Char(c @ ('0'..='9' | '-' | '.' | ',')), _)
            if !key.modifiers.contains(KeyModifiers::CONTROL) =>
        {
            Some(Action::TypeHere(c))
        }
        (Mode::Editing | Mode::Menu | Mode::Typing | Mode::Bench | Mode::Own | Mode::Probing, _, _) => {
            tui_input::backend::crossterm::to_input_request(&Input::Key(*key)).map(Action::Type)
        }
        _ => None,
    }
}
