//! A paper as Markdown (the common dialect with pipe tables).
//!
//! Signs that Markdown would read as its own are escaped, so that a load named
//! `*fridge*` stays one.

use super::document::*;
use super::plain::Look;

/// The whole paper.
pub fn markdown(document: &Document, look: &Look) -> String {
    let look = &look.of(document);
    let ink = |text: &str| escape(&look.ink(text));
    let mut out = format!("# {}\n", ink(&document.title));
    for block in &document.blocks {
        out.push('\n');
        match block {
            Block::Heading(level, text) => {
                out.push_str(&format!("{} {}\n", "#".repeat(usize::from(*level) + 1), ink(text)))
            }
            Block::Paragraph(text) => out.push_str(&format!("{}\n", ink(text))),
            Block::List(points) => points.iter().for_each(|p| out.push_str(&format!("- {}\n", ink(p.trim())))),
            Block::Steps(steps) => {
                for (n, step) in steps.iter().enumerate() {
                    out.push_str(&format!("{}. {}\n", n + 1, ink(step)));
                }
            }
            Block::Facts(facts) => {
                facts.iter().for_each(|(l, v)| out.push_str(&format!("- **{}:** {}\n", ink(l), ink(v))))
            }
            Block::Table(t) => table(&mut out, t, look),
            Block::Notice(n) => notice(&mut out, n, look),
            Block::Drawing(d) => drawing(&mut out, d, look),
            Block::Entry(head, below) => {
                out.push_str(&format!("**{}**", ink(head)));
                below.iter().for_each(|l| out.push_str(&format!("  \n{}", ink(l))));
                out.push('\n');
            }
        }
    }
    out
}

fn notice(out: &mut String, notice: &Notice, look: &Look) {
    out.push_str(&format!("> **{}:** {}\n", notice.severity.word(), escape(&look.ink(&notice.text))));
    for (label, text) in &notice.lines {
        out.push_str(&format!(">\n> *{}:* {}\n", escape(&look.ink(label)), escape(&look.ink(text))));
    }
}

/// Indented, so that no sign in it can end the drawing.
fn drawing(out: &mut String, drawing: &Drawing, look: &Look) {
    if drawing.text.is_empty() {
        out.pop();
        return;
    }
    out.push_str(&format!("## {}\n\n", escape(&look.ink(&drawing.caption))));
    for line in drawing.text.lines() {
        out.push_str(&format!("    {}\n", look.ink(line).trim_end()));
    }
}

fn table(out: &mut String, table: &Table, look: &Look) {
    if !table.caption.is_empty() {
        out.push_str(&format!("{}\n\n", escape(&look.ink(&table.caption))));
    }
    let row = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    out.push_str(&row(table.columns.iter().map(|c| escape(&look.ink(c.head))).collect()));
    out.push_str(&row(table.columns.iter().map(|c| if c.unit.is_some() { "---:" } else { "---" }.into()).collect()));
    for (n, cells) in table.rows.iter().enumerate() {
        let strong = table.total && n + 1 == table.rows.len();
        let cell = |c: &Cell| {
            let text = escape(&look.cell(c));
            if strong && !text.is_empty() { format!("**{text}**") } else { text }
        };
        out.push_str(&row(cells.iter().map(cell).collect()));
    }
}

/// With a backslash before each sign that Markdown could take for its own.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let start = text.len() - text.trim_start().len();
    for (n, c) in text.char_indices() {
        let always = matches!(c, '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '~' | '&');
        let at_start = n == start && matches!(c, '#' | '+' | '-' | '=');
        let before = text.get(start..n).unwrap_or_default();
        let next = text.get(n + 1..).and_then(|t| t.chars().next());
        let ordinal = matches!(c, '.' | ')')
            && !before.is_empty()
            && before.bytes().all(|b| b.is_ascii_digit())
            && next.is_none_or(char::is_whitespace);
        // `______` is a blank to fill in; between blanks Markdown leaves `_` alone.
        if (always && !(c == '_' && text.trim_matches('_').is_empty())) || at_start || ordinal {
            out.push('\\');
        }
        out.push(c);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_plan_says_is_no_markup() {
        assert_eq!(escape("*fridge* | <b>"), "\\*fridge\\* \\| \\<b\\>");
        assert_eq!(escape("# 1"), "\\# 1");
        assert_eq!(escape("1. pump"), "1\\. pump");
        assert_eq!(escape("-5 °C at 12.5 V"), "\\-5 °C at 12.5 V");
        assert_eq!(escape("______"), "______");
    }
}
