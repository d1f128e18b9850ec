//! Where does a line end, so that no value is torn in two?

use super::face::{Face, Faces};
use crate::papers::whole::values;

/// Breaks text into lines.
#[derive(Clone, Copy)]
pub struct Breaker<'a> {
    /// Widths.
    pub faces: &'a Faces,
    /// Of the letters.
    pub face: Face,
    /// In points.
    pub size: f64,
}

/// A longer word may break within: a name without a blank, a web address.
const LONGEST: usize = 18;

impl Breaker<'_> {
    /// Width of words.
    pub fn width(&self, text: &str) -> f64 {
        self.faces.width(text, self.face, self.size)
    }

    /// The widest piece that must stay whole, and the width of all of it in one line.
    pub fn needs(&self, text: &str) -> (f64, f64) {
        let least = |value: &str| match value.char_indices().nth(LONGEST) {
            Some((end, _)) if !value.contains(' ') => self.width(&value[..end]),
            _ => self.width(value),
        };
        (values(text).map(least).fold(0.0, f64::max), self.width(text))
    }

    /// Lines of at most this width; what is wider than a line by itself is cut.
    pub fn lines(&self, text: &str, width: f64) -> Vec<String> {
        let blank = self.width(" ");
        let (mut lines, mut line, mut used) = (Vec::new(), String::new(), 0.0);
        for value in values(text) {
            let wide = self.width(value);
            if !line.is_empty() && used + blank + wide <= width + SLACK {
                line.push(' ');
                line.push_str(value);
                used += blank + wide;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            let mut rest = value;
            while let Some((piece, after)) = self.cut(rest, width) {
                lines.push(piece.trim_end().to_string());
                rest = after;
            }
            line.push_str(rest);
            used = self.width(rest);
        }
        if !line.is_empty() || lines.is_empty() {
            lines.push(line);
        }
        lines
    }

    /// As much of a word as a line holds, and the rest; none where all of it fits.
    fn cut<'t>(&self, word: &'t str, width: f64) -> Option<(&'t str, &'t str)> {
        if self.width(word) <= width + SLACK {
            return None;
        }
        let mut used = 0.0;
        let too_much = |(_, c): &(usize, char)| {
            used += self.width(c.encode_utf8(&mut [0; 4]));
            used > width
        };
        let mut at = word.char_indices().find(too_much).map(|(at, _)| at)?;
        // At a blank if there is one, and never without a letter.
        at = word[..at].rfind(' ').map_or(at, |blank| blank + 1);
        if at == 0 {
            at = word.chars().next().map_or(0, char::len_utf8);
        }
        let (piece, rest) = word.split_at_checked(at).filter(|(piece, rest)| !piece.is_empty() && !rest.is_empty())?;
        Some((piece, rest))
    }
}

/// Sums of widths differ in their last digits.
const SLACK: f64 = 0.01;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_stays_in_its_line() {
        let breaker = Breaker { faces: Faces::get().unwrap(), face: Face::Plain, size: 10.0 };
        let text = "a fuse of 20 A before 35 mm² of cable, 4 AWG or 2 × 100 Ah at -18 °C";
        for width in (40..300).step_by(3) {
            let lines = breaker.lines(text, f64::from(width));
            assert_eq!(lines.join(" "), text, "{width}");
            for value in ["20 A", "35 mm²", "4 AWG", "-18 °C"] {
                assert!(lines.iter().any(|l| l.contains(value)), "{width}: {value} in {lines:?}");
            }
            assert!(lines.iter().all(|l| breaker.width(l) <= f64::from(width).max(60.0) + SLACK), "{width}: {lines:?}");
        }
    }

    #[test]
    fn a_word_without_end_is_cut() {
        let breaker = Breaker { faces: Faces::get().unwrap(), face: Face::Bold, size: 10.0 };
        let lines = breaker.lines(&"x".repeat(100), 60.0);
        assert!(lines.len() > 8 && lines.iter().all(|l| breaker.width(l) <= 60.0), "{lines:?}");
        assert_eq!(lines.concat(), "x".repeat(100));
        assert_eq!(breaker.lines("冷", 0.0), ["冷"]);
        assert_eq!(breaker.lines("", 10.0), [""]);
    }
}
