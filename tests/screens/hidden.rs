//! Signs that nobody sees, or that turn the reading direction, never reach the terminal.
//!
//! Unicode's report on security lists them among what makes a text say something else than it
//! does: Unicode Technical Report 36, `Unicode Security Considerations`, section 2.5.

use crate::driver::Driver;
use unicode_width::UnicodeWidthStr;

/// Controls of C0 and C1, of direction, of zero width, tags.
const HIDDEN: [char; 16] = [
    '\u{1b}',
    '\u{7f}',
    '\u{85}',
    '\u{9b}',
    '\u{61c}',
    '\u{200b}',
    '\u{200d}',
    '\u{200f}',
    '\u{202a}',
    '\u{202e}',
    '\u{2060}',
    '\u{2066}',
    '\u{2069}',
    '\u{feff}',
    '\u{e0041}',
    '\u{2028}',
];

fn plan() -> String {
    // TOML has an escape for what must not stand in it bare.
    let hidden: String = HIDDEN.iter().map(|c| format!("x\\U{:08X}", u32::from(*c))).collect();
    let text = loomwright::plan::default_example().text;
    let mut text = text.replacen("name = \"fridge\"", &format!("name = \"frid{hidden}ge\""), 1);
    for (key, old) in
        [("title", "Bird-ringing van"), ("at", "rear panel"), ("to", "rear panel"), ("from", "rear panel")]
    {
        text = text.replace(&format!("{key} = \"{old}\""), &format!("{key} = \"{old}{hidden}\""));
    }
    text
}

#[track_caller]
fn nothing_hidden(d: &Driver, place: &str) {
    for cell in d.buffer().content() {
        let symbol = cell.symbol();
        assert!(!symbol.contains(HIDDEN), "{place}: {symbol:?}\n{}", d.screen());
        assert!(symbol.width() <= 2, "{place}: {symbol:?} is wider than its cell");
    }
}

/// Whoever looks sees that something stands there: in a cell, in the title and in a drawing.
#[test]
fn a_mark_stands_for_each_hidden_sign() {
    let (name, mark) = ("name = \"fridge\"", "name = \"fr\\u202eid\\u200bge\"");
    let title = ("title = \"Bird-ringing van", "title = \"Bird\\u2066ringing");
    let text = loomwright::plan::default_example().text.replacen(name, mark, 1).replacen(title.0, title.1, 1);
    let mut d = Driver::on(&text, 160, 50);
    d.keys("L").sees("fr\u{fffd}id\u{fffd}ge").sees("Bird\u{fffd}ringing");
    d.keys("G").sees("fr\u{fffd}id\u{fffd}ge");
}

#[test]
fn no_hidden_sign_is_drawn() {
    let mut d = Driver::on(&plan(), 160, 50);
    for key in ["L", "S", "B", "R", "C", "D", "G", "H", "F", "T", "1", "2", "3", "4", "5", "6", "7", "8", "9", "0"] {
        d.keys(key);
        nothing_hidden(&d, key);
    }
    d.keys("1 Enter");
    nothing_hidden(&d, "the field that is edited");
    d.keys("Esc w");
    nothing_hidden(&d, "a working");
    d.keys("Esc q");
    nothing_hidden(&d, "a question");
}
