//! Text in columns: display width, cutting, aligning.

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// Columns a text takes.
pub fn width(text: &str) -> u16 {
    u16::try_from(text.width()).unwrap_or(u16::MAX)
}

/// The text in at most so many columns; what is cut off is told by `…`.
pub fn cut(text: &str, most: u16) -> String {
    if width(text) <= most {
        return text.to_string();
    }
    let mut short = String::new();
    let mut used = 0;
    for c in text.chars() {
        let w = c.width().unwrap_or(0) as u16;
        if used + w + 1 > most {
            break;
        }
        used += w;
        short.push(c);
    }
    if most > 0 {
        short.push('…');
    }
    short
}

/// The text in exactly so many columns.
pub fn fit(text: &str, columns: u16, right: bool) -> String {
    let text = cut(text, columns);
    let gap = " ".repeat(usize::from(columns.saturating_sub(width(&text))));
    if right { format!("{gap}{text}") } else { format!("{text}{gap}") }
}

/// Lines of at most so many columns, broken at blanks where possible.
pub fn wrap(text: &str, columns: u16) -> Vec<String> {
    let columns = columns.max(1);
    let mut lines = Vec::new();
    for paragraph in text.split('\n') {
        let before = lines.len();
        let mut line = String::new();
        for word in paragraph.split(' ') {
            let mut word = word.to_string();
            while width(&word) > columns {
                if !line.is_empty() {
                    lines.push(std::mem::take(&mut line));
                }
                let head = head(&word, columns);
                word = word.get(head.len()..).unwrap_or_default().to_string();
                lines.push(head);
            }
            let blank = u16::from(!line.is_empty());
            if width(&line) + blank + width(&word) > columns && !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            } else if blank == 1 {
                line.push(' ');
            }
            line.push_str(&word);
        }
        // A word cut to its last letter leaves nothing over; an empty paragraph is one empty line.
        if !line.is_empty() || lines.len() == before {
            lines.push(line);
        }
    }
    lines
}

/// As many whole characters as fit, at least one.
fn head(word: &str, columns: u16) -> String {
    let mut out = String::new();
    for c in word.chars() {
        if !out.is_empty() && width(&out) + c.width().unwrap_or(0) as u16 > columns {
            break;
        }
        out.push(c);
    }
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
    }

    #[test]
    fn wraps_at_blanks_and_never_forever() {
        assert_eq!(wrap("one two three", 7), ["one two", "three"]);
        assert_eq!(wrap("abcdefgh ij", 3), ["abc", "def", "gh", "ij"]);
        assert_eq!(wrap("", 3), [""]);
        assert_eq!(wrap("冷蔵庫", 1).len(), 3);
    }
}
