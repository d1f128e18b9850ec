//! The screens without a terminal: keys in, the drawn window out.

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use loomwright::catalogue::Catalogue;
use loomwright::plan;
use loomwright::screens::{Action, App, Event, Flow, Mode, View, actions, apart, draw, update};
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use std::rc::Rc;

/// An app, its window and what drawing left behind.
pub struct Driver {
    pub app: App,
    pub view: View,
    terminal: Terminal<TestBackend>,
    pub ended: bool,
}

pub fn catalogue() -> Rc<Catalogue> {
    thread_local! {
        static CATALOGUE: Rc<Catalogue> = Rc::new(Catalogue::embedded().unwrap());
    }
    CATALOGUE.with(Rc::clone)
}

impl Driver {
    /// The default example in a window of this size.
    pub fn new(width: u16, height: u16) -> Driver {
        Driver::on(plan::default_example().text, width, height)
    }

    /// A plan in a window of this size.
    pub fn on(text: &str, width: u16, height: u16) -> Driver {
        let app = App::new(text, catalogue()).unwrap();
        let terminal = Terminal::new(TestBackend::new(width, height)).unwrap();
        let mut driver = Driver { app, view: View::default(), terminal, ended: false };
        driver.draw();
        driver
    }

    pub fn draw(&mut self) {
        let (app, view) = (&self.app, &mut self.view);
        self.terminal.draw(|frame| draw(app, view, frame)).unwrap();
    }

    /// Whether an action takes a line of a list, or an answer.
    pub fn chooses(&self, action: &Action) -> bool {
        matches!(action, Action::Commit | Action::Open)
            && self.app.editing.is_none()
            && matches!(self.app.here().mode, Mode::Menu | Mode::Asking)
    }

    pub fn resize(&mut self, width: u16, height: u16) -> &mut Self {
        self.terminal.backend_mut().resize(width, height);
        self.draw();
        self
    }

    pub fn event(&mut self, event: Event) {
        for event in apart(event) {
            for action in actions(&self.app, &mut self.view, &event) {
                self.ended |= update(&mut self.app, action) == Flow::Quit;
            }
        }
    }

    /// Keys by name, separated by blanks; `'text'` is typed letter by letter;
    /// `Down*3` is pressed three times; `C-x` is with Ctrl.
    pub fn keys(&mut self, keys: &str) -> &mut Self {
        for word in words(keys) {
            match word.strip_prefix('\'') {
                Some(text) => text.trim_end_matches('\'').chars().for_each(|c| self.key(KeyCode::Char(c))),
                None => {
                    let (name, times) = word.split_once('*').unwrap_or((&word, "1"));
                    for _ in 0..times.parse().unwrap() {
                        self.named(name);
                    }
                }
            }
        }
        self.draw();
        self
    }

    fn named(&mut self, name: &str) {
        let code = match name {
            "Enter" => KeyCode::Enter,
            "Esc" => KeyCode::Esc,
            "Tab" => KeyCode::Tab,
            "Up" => KeyCode::Up,
            "Down" => KeyCode::Down,
            "Left" => KeyCode::Left,
            "Right" => KeyCode::Right,
            "Home" => KeyCode::Home,
            "End" => KeyCode::End,
            "PgDn" => KeyCode::PageDown,
            "Space" => KeyCode::Char(' '),
            "Backspace" => KeyCode::Backspace,
            name => match name.strip_prefix("C-") {
                Some(c) => {
                    let code = KeyCode::Char(c.chars().next().unwrap());
                    return self.event(Event::Key(KeyEvent::new(code, KeyModifiers::CONTROL)));
                }
                None => KeyCode::Char(name.chars().next().unwrap()),
            },
        };
        self.key(code);
    }

    fn key(&mut self, code: KeyCode) {
        self.event(Event::Key(KeyEvent::new(code, KeyModifiers::NONE)));
    }

    /// The window as text.
    pub fn screen(&self) -> String {
        let buffer = self.terminal.backend().buffer();
        let area = buffer.area();
        let row = |y: u16| {
            let mut line = String::new();
            let mut x = 0;
            while x < area.width {
                let symbol = buffer[(x, y)].symbol();
                line.push_str(symbol);
                x += unicode_width::UnicodeWidthStr::width(symbol).max(1) as u16;
            }
            line.trim_end().to_string()
        };
        (0..area.height).map(row).collect::<Vec<_>>().join("\n")
    }

    pub fn buffer(&self) -> &ratatui::buffer::Buffer {
        self.terminal.backend().buffer()
    }

    /// The line next to the last: what is said.
    pub fn said(&self) -> String {
        let screen = self.screen();
        let lines: Vec<&str> = screen.lines().collect();
        lines[lines.len() - 2].trim().to_string()
    }

    #[track_caller]
    pub fn sees(&self, text: &str) -> &Self {
        assert!(self.screen().contains(text), "`{text}` is not on:\n{}", self.screen());
        self
    }

    #[track_caller]
    pub fn sees_not(&self, text: &str) -> &Self {
        assert!(!self.screen().contains(text), "`{text}` is on:\n{}", self.screen());
        self
    }
}

fn words(keys: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut rest = keys.trim_start();
    while !rest.is_empty() {
        let end = if rest.len() > 1 && rest.starts_with('\'') {
            rest[1..].find('\'').map_or(rest.len(), |i| i + 2)
        } else {
            rest.find(' ').unwrap_or(rest.len())
        };
        words.push(rest[..end].to_string());
        rest = rest[end..].trim_start();
    }
    words
}

/// Whether an action would reach a file, or takes long in a build for tests; the mouse can press such
/// buttons too.
pub fn left_out(action: &Action) -> bool {
    match action {
        Action::Simulate(_) | Action::DrawChances(_) => true,
        Action::Save | Action::SaveAs | Action::SaveOver | Action::SaveTo(_) | Action::SaveAndQuit => true,
        Action::AskOpen | Action::OpenPlan(_) | Action::OpenExample(_) | Action::Walk | Action::DropChanges => true,
        Action::KeepRow => true,
        Action::Choose(inner) => left_out(inner),
        _ => false,
    }
}
