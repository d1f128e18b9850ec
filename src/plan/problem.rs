//! What is wrong in a plan file: where, what was found, what is accepted, how to mend it.

use std::fmt;
use std::ops::Range;

/// A place in the text of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1; a byte order mark before the text is none.
    pub column: usize,
}

/// The lines of a text, counted once.
pub struct Lines<'a> {
    text: &'a str,
    /// The byte after each line.
    ends: Vec<usize>,
}

impl<'a> Lines<'a> {
    /// Of this text.
    pub fn of(text: &'a str) -> Lines<'a> {
        Lines { text, ends: text.match_indices('\n').map(|(at, _)| at + 1).collect() }
    }

    /// Where a byte of the text is.
    pub fn spot(&self, byte: usize) -> Spot {
        let byte = byte.min(self.text.len());
        let line = self.ends.partition_point(|end| *end <= byte);
        let begin = line.checked_sub(1).map_or(0, |before| self.ends[before]);
        let before = self.text.get(begin..byte).unwrap_or("");
        Spot { line: line + 1, column: without_mark(before).chars().count() + 1 }
    }
}

/// A line without the byte order mark that some editors put before a text.
pub fn without_mark(line: &str) -> &str {
    line.strip_prefix('\u{feff}').unwrap_or(line)
}

/// One problem of a plan file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// What is wrong, one sentence without a full stop.
    pub what: String,
    /// Bytes of the file it is about; empty at the start when it is about the whole file.
    pub span: Range<usize>,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// Short text for the marked place: the accepted range or list.
    pub label: String,
    /// What to do.
    pub help: String,
}

impl Problem {
    /// A problem at a span of a text.
    pub fn at(lines: &Lines, span: Range<usize>, what: String, label: String, help: String) -> Self {
        let last = lines.text.len();
        let start = span.start.min(last);
        let Spot { line, column } = lines.spot(start);
        Problem { what, span: start..span.end.min(last).max(start), line, column, label, help }
    }

    /// A problem with the file as a whole.
    pub fn whole(what: impl Into<String>, help: impl Into<String>) -> Self {
        Problem { what: what.into(), span: 0..0, line: 1, column: 1, label: String::new(), help: help.into() }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}, column {}: {}", self.line, self.column, self.what)?;
        if !self.label.is_empty() {
            write!(f, "; accepted: {}", self.label)?;
        }
        write!(f, "; {}", self.help)
    }
}

/// The known word nearest to a misspelt one, when it is near enough to be meant:
/// at most three slips (Damerau-Levenshtein) and less than half of the word, or
/// one contained in the other. Never for words under three letters.
pub fn nearest<'a>(word: &str, known: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    if word.chars().count() < 3 {
        return None;
    }
    let word = word.to_lowercase();
    let slips = |k: &str| strsim::damerau_levenshtein(&word, k);
    let near = |k: &&str| {
        let n = slips(k);
        (n <= 3 && n * 2 < word.chars().count().max(k.chars().count()))
            || (k.len() > 3 && (k.contains(&word) || word.contains(*k)))
    };
    known.filter(near).min_by_key(|k| slips(k))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn suggests_only_what_is_near() {
        let known = ["length_m", "power_w", "insulation", "at"];
        assert_eq!(nearest("lenght_m", known.into_iter()), Some("length_m"));
        assert_eq!(nearest("length", known.into_iter()), Some("length_m"));
        assert_eq!(nearest("zebra", known.into_iter()), None);
        assert_eq!(nearest("ax", known.into_iter()), None);
    }
}
