//! How wide is each column of a table, and where do its words break?
//!
//! Width is that of the display: a wide character counts two, a combining one
//! none.

use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};
use unicode_width::UnicodeWidthStr;

/// Blanks between two columns.
const GAP: usize = 2;
/// No column is squeezed below this.
const NARROWEST: usize = 6;

/// Widths that make the table fit into `width`, as far as words can be broken:
/// the widest column gives way first.
pub fn fit(heads: &[String], rows: &[Vec<String>], numbers: &[bool], width: usize) -> Vec<usize> {
    let mut widths: Vec<usize> =
        heads.iter().map(|h| words(h).map(UnicodeWidthStr::width).max().unwrap_or(0)).collect();
    let mut least = widths.clone();
    for row in rows {
        for (i, cell) in row.iter().enumerate().take(widths.len()) {
            widths[i] = widths[i].max(cell.width());
            // A number must not be parted from its unit; a phrase may be broken.
            let whole = numbers.get(i).copied().unwrap_or(false);
            let keep = if whole { cell.width() } else { words(cell).map(UnicodeWidthStr::width).max().unwrap_or(0) };
            least[i] = least[i].max(keep.min(24));
        }
    }
    let free = width.saturating_sub(GAP * widths.len().saturating_sub(1));
    while widths.iter().sum::<usize>() > free {
        let next = (0..widths.len())
            .filter(|&i| widths[i] > least[i].max(NARROWEST.min(widths[i])))
            .max_by_key(|&i| widths[i]);
        match next {
            Some(i) => widths[i] -= 1,
            None => break,
        }
    }
    widths
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(' ')
}

/// The text with blanks to a width, before it (`right`) or behind.
pub fn pad(text: &str, width: usize, right: bool) -> String {
    let blanks = " ".repeat(width.saturating_sub(text.width()));
    if right { format!("{blanks}{text}") } else { format!("{text}{blanks}") }
}

/// The text in lines of at most `width`, broken between words, and within a
/// word only when it is longer than a line. A number stays with its unit.
pub fn wrap(text: &str, width: usize) -> Vec<String> {
    let options = Options::new(width.max(1))
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation)
        .wrap_algorithm(WrapAlgorithm::FirstFit);
    textwrap::wrap(&glued(text), options).into_iter().map(|line| line.replace(GLUE, " ")).collect()
}

/// Stands for the blank between a number and its unit, at which no line is broken.
const GLUE: char = '\u{a0}';

fn glued(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut before = "";
    for word in text.split_whitespace() {
        if !out.is_empty() {
            out.push(if is_number(before) && is_unit(word) { GLUE } else { ' ' });
        }
        out.push_str(word);
        before = word;
    }
    out
}

/// The text in lines of at most `room`, the first behind `first`, the others behind `rest`.
pub fn hanging(first: &str, rest: &str, text: &str, room: usize) -> String {
    let line = |(n, line): (usize, &String)| format!("{}{line}\n", if n == 0 { first } else { rest });
    wrap(text, room).iter().enumerate().map(line).collect()
}

fn is_number(word: &str) -> bool {
    let digits = word.trim_start_matches(['(', '-', '−', '≤', '≥']);
    digits.starts_with(|c: char| c.is_ascii_digit())
        && digits.chars().all(|c| c.is_ascii_digit() || c == '.' || c == ',')
}

const UNITS: &[&str] = &[
    "V", "A", "Ω", "mΩ", "W", "Wh", "Ah", "m", "mm", "mm²", "mm2", "°C", "C", "K", "h", "s", "ms", "%", "kg", "N",
    "Nm", "MPa", "d", "a", "kA", "min", "g", "AWG",
];

fn is_unit(word: &str) -> bool {
    let word = word.trim_end_matches([',', '.', ')', ';', ':']);
    UNITS.contains(&word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_keep_their_width_and_every_word() {
        let text = "the drop of 0.34 V along 6.2 m of 10 mm² is more than 3 % of 12 V";
        for width in 1..90 {
            let lines = wrap(text, width);
            assert!(lines.iter().all(|l| l.width() <= width), "{width}: {lines:?}");
            let letters = |t: &str| t.replace(' ', "");
            assert_eq!(letters(&lines.concat()), letters(text));
        }
        assert_eq!(wrap("a drop of 0.34 V", 13), ["a drop of", "0.34 V"], "number and unit stay together");
        assert_eq!(wrap("", 10), [""]);
        assert_eq!(wrap("冷蔵庫の電線", 5), ["冷蔵", "庫の", "電線"]);
    }

    #[test]
    fn the_widest_column_gives_way() {
        let heads = ["Run".to_string(), "What".to_string()];
        let rows = vec![vec!["R1".to_string(), "a long text of many words that does not fit".to_string()]];
        let widths = fit(&heads, &rows, &[], 30);
        assert_eq!(widths, [3, 25]);
        assert_eq!(fit(&heads, &rows, &[], 80), [3, 43]);
    }
}
