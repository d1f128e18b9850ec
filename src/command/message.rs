//! How is a problem of a file shown: what, where, what is accepted, what to do?
//!
//! Each with the line itself and carets under the place. Long lines are cut
//! around it; tabs and wide characters keep the carets in their place.

use crate::papers::Look;
use crate::papers::columns::{hanging, wrap};
use crate::plan::{Problem, without_mark};
use crate::quantity::counted;
use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// Problems told one by one; a file with more is no plan, or broken in one way everywhere.
const MOST_TOLD: usize = 50;
/// Characters of a sentence that are shown: a dozen lines.
const LONGEST: usize = 700;

const RED: &str = "\x1b[1;31m";
const BLUE: &str = "\x1b[1;34m";
const BOLD: &str = "\x1b[1m";
const PLAIN: &str = "\x1b[0m";

/// All problems of a file, and how many there are.
pub fn problems(file: &str, text: &str, problems: &[Problem], look: &Look) -> String {
    let mut out = String::new();
    for problem in problems.iter().take(MOST_TOLD) {
        out.push_str(&one(file, text, problem, look));
        out.push('\n');
    }
    let count = counted(problems.len(), "problem");
    let first = if problems.len() > MOST_TOLD { format!("; these are the first {MOST_TOLD}") } else { String::new() };
    out.push_str(&format!("{count} in {}{first}\n", look.ink(&cut(file))));
    out
}

/// A sentence cut at a sensible length; who typed a page knows what it said.
pub(super) fn cut(text: &str) -> String {
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_string(),
    }
}

/// A message without a place in a file.
pub fn error(what: &str, help: &str, look: &Look) -> String {
    let mut out = heading(&look.ink(&cut(what)), look);
    if !help.is_empty() {
        labelled(&mut out, "  ", "help", help, look);
    }
    out
}

/// Something to know that stops nothing.
pub fn note(what: &str, look: &Look) -> String {
    hanging("note: ", "      ", &look.ink(&cut(what)), look.width.saturating_sub(6))
}

fn heading(what: &str, look: &Look) -> String {
    let mut out = String::new();
    for (n, line) in wrap(what, look.width.saturating_sub(7)).iter().enumerate() {
        let first = format!("{RED}error{PLAIN}{BOLD}: ");
        out.push_str(&format!("{}{line}{PLAIN}\n", if n == 0 { first } else { format!("{BOLD}       ") }));
    }
    out
}

fn one(file: &str, text: &str, problem: &Problem, look: &Look) -> String {
    let mut out = heading(&look.ink(&cut(&problem.what)), look);
    let margin = problem.line.to_string().len().max(2);
    let blank = " ".repeat(margin);
    let source = text.lines().nth(problem.line.saturating_sub(1)).filter(|_| !text.trim().is_empty());
    if source.is_none() || problem.span == (0..0) && problem.label.is_empty() {
        out.push_str(&format!("{blank}{BLUE}-->{PLAIN} {}\n", look.ink(&cut(file))));
    } else if let Some(source) = source {
        out.push_str(&format!(
            "{blank}{BLUE}-->{PLAIN} {}:{}:{}\n{blank} {BLUE}|{PLAIN}\n",
            look.ink(&cut(file)),
            problem.line,
            problem.column
        ));
        let excerpt = Excerpt::of(source, text, problem, look.width.saturating_sub(margin + 3), look);
        out.push_str(&format!("{BLUE}{:>margin$} |{PLAIN} {}\n", problem.line, excerpt.line));
        out.push_str(&format!("{blank} {BLUE}|{PLAIN} {}{RED}{}{PLAIN}\n", excerpt.before, excerpt.carets));
        if !problem.label.is_empty() {
            labelled(&mut out, &blank, "accepted", &problem.label, look);
        }
    }
    labelled(&mut out, &blank, "help", &problem.help, look);
    out
}

fn labelled(out: &mut String, blank: &str, label: &str, text: &str, look: &Look) {
    let indent = blank.len() + 3 + label.len() + 2;
    let first = format!("{blank} {BLUE}={PLAIN} {BOLD}{label}{PLAIN}: ");
    let text = look.ink(&cut(text));
    out.push_str(&hanging(&first, &" ".repeat(indent), &text, look.width.saturating_sub(indent)));
}

/// A source line cut to the room there is, and the carets below it.
struct Excerpt {
    line: String,
    before: String,
    carets: String,
}

impl Excerpt {
    fn of(source: &str, text: &str, problem: &Problem, room: usize, look: &Look) -> Excerpt {
        let marked = text.get(problem.span.clone()).unwrap_or("").lines().next().unwrap_or("").chars().count().max(1);
        let from = problem.column.saturating_sub(1);
        let signs = signs(without_mark(source), look);
        // Signs of several characters are marked whole.
        let begin = signs.partition_point(|s| s.end <= from);
        let end = signs.partition_point(|s| s.end < from + marked).max(begin) + 1;
        let width = |from: usize, to: usize| -> usize {
            signs.get(from.min(to)..to.min(signs.len())).unwrap_or(&[]).iter().map(|s| s.width).sum()
        };
        // The first sign shown: the line's own, unless the place would be out of the room.
        let mut needed = width(begin, end.min(begin + room / 2)) + 1;
        let mut first = begin;
        while let Some(sign) = first.checked_sub(1).and_then(|n| signs.get(n)) {
            needed += sign.width;
            if needed > room {
                break;
            }
            first -= 1;
        }
        let dots = if first > 0 { "..." } else { "" };
        let first = if first > 0 { (first + 3).min(begin) } else { 0 };
        let (mut line, mut used) = (dots.to_string(), dots.len());
        for sign in signs.iter().skip(first) {
            if used + sign.width > room {
                break;
            }
            line.push_str(&sign.ink);
            used += sign.width;
        }
        let before = dots.len() + width(first, begin);
        let carets = width(begin, end).clamp(1, room.saturating_sub(before).max(1));
        Excerpt { line: line.trim_end().to_string(), before: " ".repeat(before), carets: "^".repeat(carets) }
    }
}

/// What a terminal draws as one sign: a letter with its accents, an emoji with its modifiers.
struct Sign {
    ink: String,
    width: usize,
    /// Characters of the line up to and with it.
    end: usize,
}

fn signs(source: &str, look: &Look) -> Vec<Sign> {
    let mut end = 0;
    let sign = |sign: &str| {
        end += sign.chars().count();
        let ink = if sign == "\t" { "    ".to_string() } else { look.ink(sign) };
        Sign { width: ink.width(), ink, end }
    };
    source.graphemes(true).map(sign).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Lines;

    fn excerpt(source: &str, word: &str, room: usize) -> (String, String) {
        let at = source.find(word).unwrap();
        let problem = Problem::at(&Lines::of(source), at..at + word.len(), String::new(), String::new(), String::new());
        let e = Excerpt::of(source, source, &problem, room, &Look::default());
        (e.line, format!("{}{}", e.before, e.carets))
    }

    #[test]
    fn carets_stand_under_the_place() {
        assert_eq!(excerpt("lenght_m = 6", "lenght_m", 70), ("lenght_m = 6".into(), "^^^^^^^^".into()));
        assert_eq!(excerpt("\tname = 5", "5", 70), ("    name = 5".into(), "           ^".into()));
        assert_eq!(excerpt("name = \"冷蔵庫\" # x", "# x", 70).1, "                ^^^".to_string());
    }

    /// Signs of several characters are as wide as a terminal draws them.
    #[test]
    fn carets_stand_under_the_place_behind_joined_signs() {
        for before in ["☀\u{fe0f}☀\u{fe0f}", "e\u{301}a", "👍🏽", "🇳🇴", "\t冷\t", "a\u{202e}b", "\u{1100}\u{1161}"]
        {
            let source = format!("{before} = here");
            let (line, carets) = excerpt(&source, "here", 70);
            let (shown, _) = line.split_once("here").unwrap();
            assert_eq!(carets, format!("{}^^^^", " ".repeat(shown.width())), "{before:?}");
        }
    }

    #[test]
    fn a_message_is_cut_at_a_sensible_length() {
        let said = error(&"x".repeat(100_000), &"y ".repeat(50_000), &Look::default());
        assert!(said.chars().count() < 2_000, "{} characters", said.chars().count());
    }

    #[test]
    fn a_long_line_is_cut_around_the_place() {
        let long = format!("notes = \"{}\" nonsense = 1", "x".repeat(3000));
        let (line, carets) = excerpt(&long, "nonsense", 70);
        assert!(line.len() <= 70 && line.contains("nonsense"), "{line}");
        assert_eq!(line.find("nonsense"), carets.find('^'));
        let longest = format!("notes = \"{}\" nonsense = 1", "x".repeat(1_900_000));
        assert!(excerpt(&longest, "nonsense", 70).0.contains("nonsense"));
    }
}
