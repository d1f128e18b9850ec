//! The table of keys: nothing twice, everything in words, help from the same table.

use crate::driver::Driver;
use loomwright::screens::{BINDINGS, Screen, When};

#[test]
fn no_key_means_two_things_in_one_place() {
    for (n, a) in BINDINGS.iter().enumerate() {
        for b in &BINDINGS[n + 1..] {
            let same = a.keys.iter().any(|k| b.keys.contains(k));
            let together = a.when == b.when || a.when == When::Anywhere || b.when == When::Anywhere;
            assert!(!(same && together), "{} and {}", a.words, b.words);
        }
    }
}

#[test]
fn every_key_has_words_and_help_tells_all_of_the_screens() {
    let mut d = Driver::new(100, 200);
    d.keys("?");
    for b in BINDINGS {
        assert!(!b.words.is_empty() && !b.keys.is_empty());
    }
    for words in ["edit the field", "add a row", "undo, without limit", "how this number came about", "drag a row"] {
        d.sees(words);
    }
}

/// A field, a load, a number and a finding are gone to by their names, wherever they stand.
#[test]
fn anything_is_found_and_gone_to() {
    let mut d = Driver::new(80, 24);
    d.keys("/ 'reconnect voltage' Enter").sees("Reconnect voltage");
    assert_eq!(d.app.screen, Screen::CutOff);
    d.keys("/ 'diesel heater' Enter");
    assert_eq!(d.app.screen, Screen::Loads);
    assert_eq!(d.app.cell().unwrap().place.unwrap().index, 4);
    d.keys("/ 'energy a day' Enter w").sees("Source:");
    d.keys("Esc / 'findings' Down Enter").sees("Findings");
    // A field of a list has its name at the head of a column.
    d.keys("/ 'lead fuse' Enter");
    let place = d.app.cell().unwrap().place.unwrap();
    assert_eq!((d.app.screen, place.key), (Screen::Loads, "lead_fuse_a"));
    d.keys("/ 'no such thing'").sees("nothing found for “no such thing”");
    d.keys("Esc");
}

#[test]
fn everything_is_found_by_name() {
    let mut d = Driver::new(80, 24);
    d.keys(": 'us units' Enter");
    assert_eq!(d.app.units, loomwright::quantity::UnitSystem::Us);
    d.keys(": 'runs screen' Enter");
    assert_eq!(d.app.screen, Screen::Runs);
    d.keys(": 'mouse' Enter");
    assert!(!d.app.mouse);
}

#[test]
fn the_mouse_does_what_keys_do() {
    use crossterm::event::{KeyModifiers, MouseButton, MouseEvent, MouseEventKind};
    use loomwright::screens::Event;
    let mut d = Driver::new(80, 24);
    let click = |d: &mut Driver, kind: MouseEventKind, text: &str| {
        let screen = d.screen();
        let (row, line) = screen.lines().enumerate().find(|(_, l)| l.contains(text)).unwrap();
        let column = line[..line.find(text).unwrap()].chars().count() as u16;
        let event = MouseEvent { kind, column, row: row as u16, modifiers: KeyModifiers::NONE };
        d.event(Event::Mouse(event));
        d.draw();
    };
    let (down, up) = (MouseEventKind::Down(MouseButton::Left), MouseEventKind::Up(MouseButton::Left));
    click(&mut d, down, "table lamps");
    click(&mut d, up, "table lamps");
    assert!(d.app.editing.is_none());
    click(&mut d, down, "table lamps");
    click(&mut d, up, "table lamps");
    assert!(d.app.editing.is_some());
    d.keys("Esc");
    click(&mut d, down, "table lamps");
    click(&mut d, up, "fridge");
    assert_eq!(d.app.now.plan.loads[0].name, "table lamps");
    d.keys("Esc*2");
    click(&mut d, down, "Runs");
    assert_eq!(d.app.screen, Screen::Runs);
    click(&mut d, down, "? keys");
    d.sees("Keys: Runs");
    d.keys("Esc");
    click(&mut d, MouseEventKind::ScrollDown, "starter battery");
}

/// `?` says of the field in hand what it is, what it takes and where a person finds it; every figure has its line.
#[test]
fn help_says_where_a_value_is_found() {
    let mut d = Driver::new(100, 40);
    d.keys("L Right*3 ?").sees("In hand: Power").sees("To find it: on its nameplate");
    d.keys("Esc S ?").sees("In hand: Alternator").sees("To find it: on the alternator's label");
    d.resize(120, 220).sees("A plan in six steps").sees("prospective current").sees("sulphation");
    let leave_out = "leave it out where you do not know it";
    for section in loomwright::plan::Section::ALL {
        for field in loomwright::plan::fields_of(*section) {
            let number = matches!(field.kind, loomwright::plan::Kind::Number { .. });
            // A yes or no that a sheet says.
            let on_a_sheet = ["takes_alternator", "pre_charged"].contains(&field.key);
            assert_eq!(field.find_out().is_some(), number || on_a_sheet, "{} {}", section.key(), field.key);
            assert_ne!(
                field.find_out(),
                Some(leave_out),
                "{} {}: nobody is told where to find it",
                section.key(),
                field.key
            );
        }
    }
}
