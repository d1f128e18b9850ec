//! A paper as one HTML page that needs nothing else and prints well.
//!
//! No script, no font, no picture from elsewhere. Black on white; the words
//! STOP, caution and note carry the meaning, a bar beside them only helps.

use super::document::*;
use super::plain::Look;
use crate::engine::Severity;
use maud::{DOCTYPE, Markup, PreEscaped, html};

const STYLE: &str = include_str!("page.css");

/// A table of so many rows is not torn apart by a page's end.
const SHORT: usize = 14;

/// The whole page; several papers one behind the other, each on a new page.
pub fn html_page(title: &str, papers: &[Document], look: &Look) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="generator" content=(concat!("loomwright ", env!("CARGO_PKG_VERSION")));
                title { (look.ink(title)) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                @for paper in papers {
                    article {
                        h1 { (look.ink(&paper.title)) }
                        (blocks(&paper.blocks, look))
                    }
                }
            }
        }
    };
    page.into_string()
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
    let ink = |text: &str| look.ink(text);
    html! {
        @match block {
            Block::Heading(1, text) => { h2 { (ink(text)) } }
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
                figure { h2 { (ink(&d.caption)) } (PreEscaped(&d.svg)) }
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
            p { strong { (notice.severity.word()) ": " } (look.ink(&notice.text)) }
            @for (label, text) in &notice.lines {
                p.line { span.label { (look.ink(label)) ": " } (look.ink(text)) }
            }
        }
    }
}

fn table(table: &Table, look: &Look) -> Markup {
    let class = |n: usize| table.columns.get(n).filter(|c| c.unit.is_some()).map(|_| "number");
    html! {
        @if !table.caption.is_empty() { p.caption { (look.ink(&table.caption)) } }
        table class=[(table.rows.len() <= SHORT).then_some("short")] {
            thead { tr {
                @for (n, c) in table.columns.iter().enumerate() { th class=[class(n)] { (look.ink(c.head)) } }
            } }
            tbody {
                @for (r, row) in table.rows.iter().enumerate() {
                    tr class=[(table.total && r + 1 == table.rows.len()).then_some("total")] {
                        @for (n, cell) in row.iter().enumerate() {
                            td class=[class(n)] {
                                @if *cell == Cell::ToFill { span.blank {} } @else { (look.cell(cell)) }
                            }
                        }
                    }
                }
            }
        }
    }
}
