//! A paper as plain text: aligned, at most so many columns wide.
//!
//! Colours are written as escape sequences always; the caller's stream takes
//! them out where they are not wanted, so that alignment cannot depend on them.

use super::clean::{ascii, clean};
use super::columns::{fit, hanging, pad, wrap};
use super::document::*;
use crate::engine::Severity;
use crate::quantity::{Names, UnitSystem, in_units_but};

/// Sheets that papers are printed on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PageSize {
    /// 210 by 297 mm.
    #[default]
    A4,
    /// 8.5 by 11 inches.
    Letter,
}

/// How text for people looks, and tables for spreadsheets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Look {
    /// Widest line.
    pub width: usize,
    /// Only ASCII characters.
    pub ascii: bool,
    /// Units of length, mass, temperature and torque.
    pub system: UnitSystem,
    /// What reads like a value and is a name.
    pub names: Names,
    /// In CSV `;` between cells and `,` in numbers.
    pub decimal_comma: bool,
    /// CSV begins with a byte order mark.
    pub bom: bool,
    /// Sheets of the PDF.
    pub page: PageSize,
}

impl Default for Look {
    fn default() -> Self {
        Look {
            width: 80,
            ascii: false,
            system: UnitSystem::Metric,
            names: Names::default(),
            decimal_comma: false,
            bom: false,
            page: PageSize::A4,
        }
    }
}

impl Look {
    /// As a paper has it: some stay metric.
    pub fn of(&self, paper: &Document) -> Look {
        Look { system: if paper.metric { UnitSystem::Metric } else { self.system }, ..self.clone() }
    }

    /// Safe to print, in the units wanted, and in ASCII if so wanted.
    pub fn ink(&self, text: &str) -> String {
        let text = in_units_but(&clean(text), self.system, &self.names).into_owned();
        if self.ascii { ascii(&text) } else { text }
    }

    /// [`Look::ink`] for text of several lines.
    pub fn ink_lines(&self, text: &str) -> String {
        text.split('\n').map(|line| self.ink(line)).collect::<Vec<_>>().join("\n")
    }

    /// A cell in words.
    pub fn cell(&self, cell: &Cell) -> String {
        match cell {
            Cell::Text(t) => self.ink(t),
            Cell::Number(figure) => self.ink(&figure.show(self.system)),
            Cell::Limit(figure) => self.ink(&figure.show_at_most(self.system)),
            Cell::Absent => self.ink("–"),
            Cell::ToFill => "______".into(),
        }
    }
}

const BOLD: &str = "\x1b[1m";
const PLAIN: &str = "\x1b[0m";

/// The escape sequence of a severity.
pub fn colour(severity: Severity) -> &'static str {
    match severity {
        Severity::Stop => "\x1b[1;31m",
        Severity::Caution => "\x1b[33m",
        Severity::Note => "\x1b[36m",
    }
}

/// The whole paper.
pub fn plain(document: &Document, look: &Look) -> String {
    let look = &look.of(document);
    let mut out = String::new();
    title(&mut out, &look.ink(&document.title), if look.ascii { '=' } else { '═' });
    for block in &document.blocks {
        out.push('\n');
        match block {
            Block::Heading(1, text) => title(&mut out, &look.ink(text), if look.ascii { '-' } else { '─' }),
            Block::Heading(_, text) => out.push_str(&format!("{BOLD}{}{PLAIN}\n", look.ink(text))),
            Block::Paragraph(text) => lines(&mut out, "", "", &look.ink(text), look.width),
            Block::List(points) => points.iter().for_each(|p| lines(&mut out, "- ", "  ", &look.ink(p), look.width)),
            Block::Steps(steps) => {
                for (n, step) in steps.iter().enumerate() {
                    lines(&mut out, &format!("{:>2}. ", n + 1), "    ", &look.ink(step), look.width);
                }
            }
            Block::Facts(facts) => self::facts(&mut out, facts, look),
            Block::Table(t) => table(&mut out, t, look),
            Block::Notice(n) => notice(&mut out, n, look),
            Block::Drawing(d) => drawing(&mut out, d, look),
            Block::Entry(head, below) => {
                lines(&mut out, "", "  ", &look.ink(head), look.width);
                below.iter().for_each(|l| lines(&mut out, "  ", "  ", &look.ink(l), look.width));
            }
        }
    }
    out
}

fn title(out: &mut String, text: &str, rule: char) {
    let width = unicode_width::UnicodeWidthStr::width(text).min(80);
    out.push_str(&format!("{BOLD}{text}{PLAIN}\n{}\n", rule.to_string().repeat(width)));
}

fn lines(out: &mut String, first: &str, rest: &str, text: &str, width: usize) {
    out.push_str(&hanging(first, rest, text, width.saturating_sub(first.len())));
}

fn facts(out: &mut String, facts: &[(String, String)], look: &Look) {
    let label = |l: &str| look.ink(l);
    let widest = facts.iter().map(|(l, _)| unicode_width::UnicodeWidthStr::width(label(l).as_str())).max().unwrap_or(0);
    for (l, value) in facts {
        let first = format!("{}  ", pad(&label(l), widest, false));
        lines(out, &first, &" ".repeat(widest + 2), &look.ink(value), look.width);
    }
}

fn drawing(out: &mut String, drawing: &Drawing, look: &Look) {
    if drawing.text.is_empty() {
        out.pop();
        return;
    }
    title(out, &look.ink(&drawing.caption), if look.ascii { '-' } else { '─' });
    out.push('\n');
    for line in drawing.text.lines() {
        out.push_str(look.ink(line).trim_end());
        out.push('\n');
    }
}

/// A finding or a caution, its word first: `STOP`, `caution`, `note`.
pub fn notice(out: &mut String, notice: &Notice, look: &Look) {
    let word = notice.severity.word();
    let indent = " ".repeat(9);
    let first = format!("{}{word}{PLAIN}{}", colour(notice.severity), " ".repeat(9 - word.len().min(8)));
    out.push_str(&hanging(&first, &indent, &look.ink(&notice.text), look.width.saturating_sub(9)));
    for (label, text) in &notice.lines {
        let first = format!("{indent}{}", pad(&look.ink(label), 8, false));
        lines(out, &first, &" ".repeat(17), &look.ink(text), look.width);
    }
}

fn table(out: &mut String, table: &Table, look: &Look) {
    if !table.caption.is_empty() {
        lines(out, "", "", &look.ink(&table.caption), look.width);
    }
    let heads: Vec<String> = table.columns.iter().map(|c| look.ink(c.head)).collect();
    let cells: Vec<Vec<String>> =
        table.rows.iter().map(|row| row.iter().map(|cell| look.cell(cell)).collect()).collect();
    let right: Vec<bool> = table.columns.iter().map(|c| c.unit.is_some()).collect();
    let widths = fit(&heads, &cells, &right, look.width);
    let rule = if look.ascii { "-" } else { "─" };
    row(out, &heads, &widths, &right);
    let line: Vec<String> = widths.iter().map(|w| rule.repeat(*w)).collect();
    row(out, &line, &widths, &right);
    for (n, cells) in cells.iter().enumerate() {
        if table.total && n + 1 == table.rows.len() {
            row(out, &line, &widths, &right);
        }
        row(out, cells, &widths, &right);
    }
}

/// One row; cells too wide for their column go on in the lines below.
fn row(out: &mut String, cells: &[String], widths: &[usize], right: &[bool]) {
    let wrapped: Vec<Vec<String>> = cells.iter().zip(widths).map(|(cell, w)| wrap(cell, *w)).collect();
    let height = wrapped.iter().map(Vec::len).max().unwrap_or(0);
    for n in 0..height {
        let mut line = String::new();
        for (i, part) in wrapped.iter().enumerate() {
            let text = part.get(n).map_or("", String::as_str);
            let (width, right) = (widths.get(i).copied().unwrap_or(0), right.get(i).copied().unwrap_or(false));
            if i > 0 {
                line.push_str("  ");
            }
            line.push_str(&pad(text, width, right));
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
}
