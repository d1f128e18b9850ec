//! A paper as one HTML page that needs nothing else and prints well.
//!
//! No script, no font, no picture from elsewhere. Black on white; the words
//! STOP, caution and note carry the meaning, a bar beside them only helps. On paper each
//! page has at its foot what it is made from, and its number.

use super::document::*;
use super::plain::Look;
use super::stamp::Stamp;
use super::whole::whole;
use crate::engine::Severity;
use maud::{DOCTYPE, Markup, PreEscaped, html};

const STYLE: &str = include_str!("page.css");

/// A table of so many rows is not torn apart by a page's end.
const SHORT: usize = 14;
/// A paper of so many parts begins with a list of them.
const LONG: usize = 8;
/// A title longer than this is cut short in the foot, where all of it stands in one line.
const LONGEST_TITLE: usize = 48;

/// The whole page; several papers one behind the other, each on a new page.
pub fn html_page(title: &str, papers: &[Document], look: &Look, stamp: &Stamp) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="generator" content=(concat!("loomwright ", env!("CARGO_PKG_VERSION")));
                title { (look.ink(title)) }
                style { (PreEscaped(STYLE)) (PreEscaped(foot(&look.ink(title), &look.ink(&stamp.words())))) }
            }
            body {
                @for paper in papers {
                    article class=[paper.card.then_some("card")] {
                        h1 { (whole(&look.ink(&paper.title))) }
                        (contents(paper, look))
                        (blocks(&paper.blocks, &look.of(paper)))
                    }
                }
            }
        }
    };
    page.into_string()
}

/// The foot of each printed page: title, what it is made from, page of pages.
fn foot(title: &str, made_from: &str) -> String {
    format!(
        "@page {{ @bottom-left {{ content: \"{}\" }} @bottom-center {{ content: \"{}\" }} \
         @bottom-right {{ content: \"page \" counter(page) \" of \" counter(pages) }} }}",
        quoted(&title.chars().take(LONGEST_TITLE).collect::<String>()),
        quoted(made_from)
    )
}

/// Text within a string of CSS: whatever could end it, or the style, is written as its number.
fn quoted(text: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || " .,:;-–()".contains(c);
    text.chars().map(|c| if plain(c) { c.to_string() } else { format!("\\{:x} ", u32::from(c)) }).collect()
}

/// The parts of a long paper, each a link.
fn contents(paper: &Document, look: &Look) -> Markup {
    let parts: Vec<&str> = paper.parts().collect();
    html! {
        @if parts.len() >= LONG {
            ol.contents {
                @for part in parts { li { a href={ "#" (place(part)) } { (whole(&look.ink(part))) } } }
            }
        }
    }
}

/// Name of a part's place in the page.
fn place(part: &str) -> String {
    part.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' }).collect()
}

/// All blocks; entries that follow one another stand in two columns.
fn blocks(blocks: &[Block], look: &Look) -> Markup {
    let is_entry = |b: &Block| matches!(b, Block::Entry(..));
    html! {
        @for part in blocks.chunk_by(|a, b| is_entry(a) == is_entry(b)) {
            @if part.first().is_some_and(is_entry) {
                div.entries { @for b in part { (block(b, look)) } }
            } @else {
                @for b in part { (block(b, look)) }
            }
        }
    }
}

fn block(block: &Block, look: &Look) -> Markup {
    let ink = |text: &str| whole(&look.ink(text));
    html! {
        @match block {
            Block::Heading(1, text) => { h2 id=(place(text)) { (ink(text)) } }
            Block::Heading(_, text) => { h3 { (ink(text)) } }
            Block::Paragraph(text) => { p { (ink(text)) } }
            Block::List(points) => { ul { @for p in points { li { (ink(p)) } } } }
            Block::Steps(steps) => { ol { @for s in steps { li { (ink(s)) } } } }
            Block::Facts(facts) => {
                dl class=[(facts.len() > 8).then_some("many")] { @for (label, value) in facts { div { dt { (ink(label)) } dd { (ink(value)) } } } }
            }
            Block::Table(t) => { (table(t, look)) }
            Block::Notice(n) => { (notice(n, look)) }
            Block::Drawing(d) => {
                figure { h2 { (ink(&d.caption)) } @if let Some(picture) = &d.picture { (PreEscaped(picture.svg())) } }
            }
            Block::Entry(head, below) => {
                p { strong { (ink(head)) } @for l in below { br; (ink(l)) } }
            }
        }
    }
}

fn notice(notice: &Notice, look: &Look) -> Markup {
    let class = match notice.severity {
        Severity::Stop => "notice stop",
        Severity::Caution => "notice caution",
        Severity::Note => "notice note",
    };
    html! {
        div class=(class) {
            p { strong { (notice.severity.word()) ": " } (whole(&look.ink(&notice.text))) }
            @for (label, text) in &notice.lines {
                p.line { span.label { (whole(&look.ink(label))) ": " } (whole(&look.ink(text))) }
            }
        }
    }
}

fn table(table: &Table, look: &Look) -> Markup {
    let class = |n: usize| table.columns.get(n).filter(|c| c.unit.is_some()).map(|_| "number");
    html! {
        @if !table.caption.is_empty() { p.caption { (whole(&look.ink(&table.caption))) } }
        div class=[(table.rows.len() > SHORT).then_some("long")] { table class=[(table.rows.len() <= SHORT).then_some("short")] {
            thead { tr {
                @for (n, c) in table.columns.iter().enumerate() { th class=[class(n)] { (whole(&look.ink(c.head))) } }
            } }
            tbody {
                @for (r, row) in table.rows.iter().enumerate() {
                    @let total = table.total && r + 1 == table.rows.len();
                    tr class=[if total { Some("total") } else { table.goes_on(row).then_some("goes-on") }] {
                        @for (n, cell) in row.iter().enumerate() {
                            td class=[class(n)] {
                                @if *cell == Cell::ToFill { span.blank {} } @else { (whole(&look.cell(cell))) }
                            }
                        }
                    }
                }
            }
        } }
    }
}
