//! Which characters of a plan may reach a page, a terminal or a file?
//!
//! Text from a plan can hold escape sequences, or marks that turn the reading
//! direction and so make a line say something else than it does. They become a
//! visible replacement character. With `ascii` the signs of the trade are
//! spelt out for terminals and printers that have no others.

use crate::plan::{is_hidden, marked};

/// Without control, direction and zero-width characters; tabs and line ends become blanks.
pub fn clean(text: &str) -> String {
    marked(text).into_owned()
}

/// JSON in which hidden characters stand as escapes: the same text for whoever reads it by program,
/// and no other for whoever looks at it. They can only stand within strings, line ends aside.
pub fn json_text(value: &serde_json::Value) -> String {
    let json = format!("{value:#}\n");
    let mut out = String::with_capacity(json.len());
    for c in json.chars() {
        if is_hidden(c) && c != '\n' {
            let mut units = [0; 2];
            out.extend(c.encode_utf16(&mut units).iter().map(|unit| format!("\\u{unit:04x}")));
        } else {
            out.push(c);
        }
    }
    out
}

/// Only ASCII: trade signs spelt out, everything else as `?`.
pub fn ascii(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '²' => out.push('2'),
            '³' => out.push('3'),
            'Ω' => out.push_str("ohm"),
            'µ' | 'μ' => out.push('u'),
            '°' => {}
            '×' | '·' => out.push('x'),
            '–' | '—' | '−' | '─' | '━' | '═' => out.push('-'),
            '│' | '┃' | '║' => out.push('|'),
            '┌' | '┐' | '└' | '┘' | '├' | '┤' | '┬' | '┴' | '┼' | '╔' | '╗' | '╚' | '╝' => {
                out.push('+')
            }
            '→' => out.push_str("->"),
            '←' => out.push_str("<-"),
            '≤' => out.push_str("<="),
            '≥' => out.push_str(">="),
            '≈' => out.push('~'),
            '±' => out.push_str("+/-"),
            '√' => out.push_str("sqrt"),
            '…' => out.push_str("..."),
            '•' | '▪' | '●' => out.push('*'),
            '‘' | '’' => out.push('\''),
            '“' | '”' => out.push('"'),
            '█' | '▇' | '▆' | '▅' => out.push('#'),
            '▄' | '▃' | '▂' | '▁' => out.push('.'),
            'Δ' => out.push('d'),
            'ρ' => out.push_str("rho"),
            c if c.is_ascii() => out.push(c),
            _ => out.push('?'),
        }
    }
    out
}

/// [`ascii`] for text of several lines.
pub fn ascii_lines(text: &str) -> String {
    text.split('\n').map(ascii).collect::<Vec<_>>().join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_in_a_plan_can_steer_a_terminal() {
        assert_eq!(clean("a\u{1b}[31mb"), "a\u{fffd}[31mb");
        assert_eq!(clean("fridge\u{202e}egdirf\u{9b}2J\0"), "fridge\u{fffd}egdirf\u{fffd}2J\u{fffd}");
        assert_eq!(clean("two\nlines\tand a tab"), "two lines and a tab");
        assert_eq!(clean("Kühlbox 6 mm² 冷蔵庫 → 5 Ω"), "Kühlbox 6 mm² 冷蔵庫 → 5 Ω");
    }

    #[test]
    fn ascii_spells_the_signs_out() {
        assert_eq!(ascii("R1 a → b, 6 mm² at 45 °C, 3 mΩ"), "R1 a -> b, 6 mm2 at 45 C, 3 mohm");
        assert!(ascii("│ ├─ 冷 é").is_ascii());
    }
}
