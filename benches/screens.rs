//! What the user of the screens waits for, without the terminal: a keystroke that changes the plan, a
//! keystroke that does not, a frame; on the default plan and on one of 200 runs.
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs)]

use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use loomwright::catalogue::Catalogue;
use loomwright::plan;
use loomwright::screens::{App, Event, View, actions, draw, update};
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use std::rc::Rc;

fn main() {
    divan::main();
}

struct Desk {
    app: App,
    view: View,
    terminal: Terminal<TestBackend>,
}

impl Desk {
    fn new(text: &str, width: u16, height: u16) -> Desk {
        let app = App::new(text, Rc::new(Catalogue::embedded().unwrap())).unwrap();
        let terminal = Terminal::new(TestBackend::new(width, height)).unwrap();
        Desk { app, view: View::default(), terminal }
    }

    fn key(&mut self, code: KeyCode) {
        let event = Event::Key(KeyEvent::new(code, KeyModifiers::NONE));
        for action in actions(&self.app, &mut self.view, &event) {
            update(&mut self.app, action);
        }
    }

    fn frame(&mut self) {
        let (app, view) = (&self.app, &mut self.view);
        self.terminal.draw(|frame| draw(app, view, frame)).unwrap();
    }
}

/// The default plan with its rear feed repeated until there are 200 runs.
fn long() -> String {
    let mut text = plan::default_example().text.to_string();
    for n in 0..193 {
        let length = 1.0 + f64::from(n % 7);
        text.push_str(&format!("\n[[run]]\nfrom = \"cut-off\"\nto = \"point {n}\"\nlength_m = {length:.1}\n"));
    }
    text
}

fn edit(desk: &mut Desk, watts: char) {
    for _ in 0..2 {
        desk.key(KeyCode::Right);
    }
    desk.key(KeyCode::Right);
    desk.key(KeyCode::Enter);
    for c in ['4', watts, ' ', 'W'] {
        desk.key(KeyCode::Char(c));
    }
    desk.key(KeyCode::Enter);
    desk.key(KeyCode::Home);
}

/// Enter on a changed load: read, design, compare, draw.
#[divan::bench(args = [(80, 24), (200, 60)])]
fn edit_and_frame_on_the_default_plan(bencher: divan::Bencher<'_, '_>, size: (u16, u16)) {
    let mut desk = Desk::new(plan::default_example().text, size.0, size.1);
    let mut n = 0;
    bencher.bench_local(|| {
        n += 1;
        edit(&mut desk, if n % 2 == 0 { '6' } else { '7' });
        desk.frame();
    });
}

/// The cursor moves by one row.
#[divan::bench(args = [(80, 24), (200, 60)])]
fn move_and_frame_on_the_default_plan(bencher: divan::Bencher<'_, '_>, size: (u16, u16)) {
    let mut desk = Desk::new(plan::default_example().text, size.0, size.1);
    desk.key(KeyCode::Char('R'));
    let mut n = 0;
    bencher.bench_local(|| {
        n += 1;
        desk.key(if n % 10 < 5 { KeyCode::Down } else { KeyCode::Up });
        desk.frame();
    });
}

#[divan::bench]
fn move_and_frame_on_200_runs(bencher: divan::Bencher<'_, '_>) {
    let mut desk = Desk::new(&long(), 200, 60);
    desk.key(KeyCode::Char('R'));
    bencher.bench_local(|| {
        desk.key(KeyCode::Down);
        desk.frame();
    });
}

/// From the text of the plan to the first frame; the catalogue is read already.
#[divan::bench]
fn first_frame(bencher: divan::Bencher<'_, '_>) {
    bencher.bench_local(|| {
        let mut desk = Desk::new(plan::default_example().text, 80, 24);
        desk.frame();
    });
}
