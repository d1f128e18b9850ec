//! Text in columns: display width, cutting, aligning.

use crate::plan::marked;
use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm};
use unicode_truncate::{Alignment, UnicodeTruncateStr};
use unicode_width::UnicodeWidthStr;

/// Columns a text takes.
pub fn width(text: &str) -> u16 {
    u16::try_from(marked(text).width()).unwrap_or(u16::MAX)
}

/// Columns from which on a text that is cut is a sentence and ends at a word; of a name each letter tells something.
const SENTENCE: u16 = 30;

/// The text in at most so many columns, with marks for what is hidden in it; what is cut off is told by `…`, which a
/// sentence has behind a word.
pub fn cut(text: &str, most: u16) -> String {
    let text = &*marked(text);
    if width(text) <= most {
        return text.to_string();
    }
    let dots = if most > 0 { "…" } else { "" };
    let cut = text.unicode_truncate(usize::from(most.saturating_sub(1))).0;
    let within_word = !text[cut.len()..].starts_with(' ');
    let end = if within_word { cut.rfind(' ') } else { Some(cut.len()) };
    let whole = end.filter(|_| most >= SENTENCE && !text.contains(['─', '│']));
    // No number stands there without what it is of, and no sign that leads on to what is not there.
    let bare = |c: char| c.is_ascii_digit() || " .,;:·(–".contains(c);
    let words = whole.map(|end| cut[..end].trim_end_matches(bare)).filter(|words| width(words) >= most / 3 * 2);
    format!("{}{dots}", words.unwrap_or(cut))
}

/// The text in exactly so many columns.
pub fn fit(text: &str, columns: u16, right: bool) -> String {
    let align = if right { Alignment::Right } else { Alignment::Left };
    cut(text, columns).unicode_pad(usize::from(columns), align, true).into_owned()
}

/// Lines of at most so many columns, broken at blanks where possible; a number stays with its unit.
pub fn wrap(text: &str, columns: u16) -> Vec<String> {
    let options = Options::new(usize::from(columns.max(1)))
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation)
        .wrap_algorithm(WrapAlgorithm::FirstFit);
    let glued = glue(marked(text).trim_start());
    textwrap::wrap(&glued, options).into_iter().map(|line| line.replace(GLUE, " ")).collect()
}

/// A blank at which no line ends.
const GLUE: char = '\u{a0}';
/// No unit is longer.
const UNIT: usize = 5;

/// The blank between a number and the short word after it, which may be its unit, holds both together.
fn glue(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(' ') {
        let (word, after) = rest.split_at(at);
        let next = after[1..].split(' ').next().unwrap_or_default();
        let short = !next.is_empty() && next.chars().count() <= UNIT && !next.starts_with(|c: char| c.is_ascii_digit());
        out.push_str(word);
        out.push(if word.ends_with(|c: char| c.is_ascii_digit()) && short { GLUE } else { ' ' });
        rest = &after[1..];
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_columns_not_letters() {
        assert_eq!(fit("mm²", 5, true), "  mm²");
        assert_eq!(fit("冷蔵庫", 8, false), "冷蔵庫  ");
        assert_eq!(cut("冷蔵庫", 5), "冷蔵…");
        assert_eq!(cut("abc", 0), "");
        assert_eq!(cut("fridge", 4), "fri…");
        let sentence = "the resistance is larger than it should be";
        assert_eq!(cut(sentence, 32), "the resistance is larger than…");
        assert_eq!(cut("a minus lead of so very thin 4.5 mm²", 34), "a minus lead of so very thin…");
        assert_eq!(
            cut("it held 12.40 V at 24 h, cut 12.20 V; 81.9 % then", 43),
            "it held 12.40 V at 24 h, cut 12.20 V…"
        );
        assert_eq!(cut("up to 38.1 kA, likely 15.2 kA, can flow there", 33), "up to 38.1 kA, likely 15.2 kA…");
        assert_eq!(cut(sentence, 20), "the resistance is l…");
    }

    #[test]
    fn wraps_at_blanks_and_never_forever() {
        assert_eq!(wrap("one two three", 7), ["one two", "three"]);
        assert_eq!(wrap("abcdefgh ij", 3), ["abc", "def", "gh", "ij"]);
        assert_eq!(wrap("", 3), [""]);
        assert_eq!(wrap("冷蔵庫", 1).len(), 3);
        assert_eq!(wrap("it breaks 20 kA at 14.80 V", 12), ["it breaks", "20 kA at", "14.80 V"]);
    }
}
