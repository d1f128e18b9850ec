//! Any sequence of keys: never a panic, and undo to the start gives the plan back byte for byte.

use crate::driver::{Driver, left_out};
use crossterm::event::{KeyCode, KeyEvent, KeyModifiers, MouseButton, MouseEvent, MouseEventKind};
use loomwright::screens::{Action, Event, update};
use proptest::prelude::*;

/// Everything a keyboard and a mouse can send; what would write files is left out.
fn event() -> impl Strategy<Value = Event> {
    let key = prop_oneof![
        8 => prop::sample::select(vec![
            KeyCode::Enter, KeyCode::Esc, KeyCode::Tab, KeyCode::BackTab, KeyCode::Up, KeyCode::Down, KeyCode::Left,
            KeyCode::Right, KeyCode::Home, KeyCode::End, KeyCode::PageUp, KeyCode::PageDown, KeyCode::Backspace,
            KeyCode::Delete, KeyCode::Insert, KeyCode::F(1), KeyCode::F(2),
        ]),
        8 => prop::sample::select("0123456789abcdefghijklmnpqrtuvwxyz?:+-., KJNU²é冷".chars().collect::<Vec<_>>())
            .prop_map(KeyCode::Char),
    ];
    let held = prop_oneof![
        12 => Just(KeyModifiers::NONE),
        1 => Just(KeyModifiers::SHIFT),
        1 => Just(KeyModifiers::ALT),
    ];
    let mouse = (
        0u16..130,
        0u16..45,
        prop::sample::select(vec![
            MouseEventKind::Down(MouseButton::Left),
            MouseEventKind::Up(MouseButton::Left),
            MouseEventKind::ScrollUp,
            MouseEventKind::ScrollDown,
            MouseEventKind::Moved,
        ]),
    );
    prop_oneof![
        20 => (key, held).prop_map(|(code, held)| Event::Key(KeyEvent::new(code, held))),
        3 => mouse.prop_map(|(column, row, kind)| Event::Mouse(MouseEvent {
            kind, column, row, modifiers: KeyModifiers::NONE
        })),
        1 => "[ -~\n]{0,40}".prop_map(Event::Paste),
    ]
}

fn play(driver: &mut Driver, events: &[Event]) {
    for (n, event) in events.iter().enumerate() {
        for event in loomwright::screens::apart(event.clone()) {
            for action in loomwright::screens::actions(&driver.app, &mut driver.view, &event) {
                // A list may hold them too: it is closed instead of chosen from.
                let list = driver.chooses(&action);
                // Enter on a choice of days is such an action too.
                let days = action == Action::Open && driver.app.screen == loomwright::screens::Screen::Endurance;
                if !left_out(&action) && !days {
                    update(&mut driver.app, if list { Action::Cancel } else { action });
                }
            }
        }
        if n % 7 == 0 {
            driver.draw();
        }
    }
    driver.draw();
}

fn undo_all(driver: &mut Driver) {
    update(&mut driver.app, Action::Cancel);
    update(&mut driver.app, Action::Cancel);
    driver.app.editing = None;
    driver.app.overlay = None;
    for _ in 0..20_000 {
        update(&mut driver.app, Action::Undo);
        if driver.app.message.as_ref().is_some_and(|m| m.text == "nothing to undo") {
            return;
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, max_shrink_iters: 300, ..ProptestConfig::default() })]
    #[test]
    fn any_keys_never_panic_and_undo_gives_all_back(events in prop::collection::vec(event(), 1..400)) {
        let text = loomwright::plan::default_example().text;
        let mut driver = Driver::on(text, 120, 40);
        play(&mut driver, &events);
        undo_all(&mut driver);
        prop_assert_eq!(&*driver.app.now.text, text);
    }
}

/// One long sequence: 10,000 events, windows of all sizes between them.
#[test]
fn ten_thousand_events() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let text = loomwright::plan::default_example().text;
    let mut driver = Driver::on(text, 120, 40);
    for round in 0..100u16 {
        let events = prop::collection::vec(event(), 100).new_tree(&mut runner).unwrap().current();
        play(&mut driver, &events);
        driver.resize(1 + round * 7 % 300, 1 + round * 3 % 100);
        driver.resize(120, 40);
    }
    undo_all(&mut driver);
    assert_eq!(&*driver.app.now.text, text);
}
