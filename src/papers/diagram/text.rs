//! The wiring as text: a tree of box-drawing characters, one line a point.
//!
//! It grows downward and never needs more columns than its words do, so that
//! it can be read on any terminal.

use super::tree::{Kind, Layout, Node, Wire};
use crate::papers::clean::clean;

/// Draw all trees.
pub fn draw(layout: &Layout, zoom: u8, ascii: bool) -> String {
    let mut out = String::new();
    for (n, tree) in layout.trees.iter().enumerate() {
        if n > 0 {
            out.push('\n');
        }
        node(&mut out, tree, "", "", zoom);
    }
    for run in &layout.loose {
        out.push_str(&format!("\nnot connected, not drawn: {}\n", clean(run)));
    }
    if ascii { crate::papers::clean::ascii_lines(&out) } else { out }
}

/// `first` stands before the node's own line, `rest` before those below it.
fn node(out: &mut String, node: &Node, first: &str, rest: &str, zoom: u8) {
    let wire = node.wire.as_ref().map(|w| words_of(w, zoom)).unwrap_or_default();
    let details =
        if zoom > 0 && !node.details.is_empty() { format!("  {}", node.details.join(", ")) } else { String::new() };
    out.push_str(&clean(&format!("{first}{wire}{} {}{details}", sign(node.kind), node.name)));
    out.push('\n');
    let last = node.children.len();
    let bar = if last > 0 { "│ " } else { "  " };
    if zoom > 1 {
        for load in &node.loads {
            out.push_str(&clean(&format!("{rest}{bar}  {load}")));
            out.push('\n');
        }
    }
    for (n, child) in node.children.iter().enumerate() {
        let (corner, below) = if n + 1 == last { ("└─", "  ") } else { ("├─", "│ ") };
        self::node(out, child, &format!("{rest}{corner}"), &format!("{rest}{below}"), zoom);
    }
}

/// `R3 10 mm² [40 A] 6.2 m ─ `; a fuse in brackets, on its side of the size.
fn words_of(wire: &Wire, zoom: u8) -> String {
    if let (Some([above, below]), true) = (wire.own_leads, zoom > 0) {
        return format!("({above} {below}) ─ ");
    }
    if wire.run.is_none() {
        return "─ ".into();
    }
    let mut parts = Vec::new();
    if let (Some(fuse), true) = (&wire.fuse_left, zoom > 0) {
        parts.push(format!("[{fuse}]"));
    }
    parts.push(wire.number.clone());
    if zoom > 0 {
        parts.push(wire.size.clone());
    }
    if zoom > 1 {
        parts.push(wire.length.clone());
        parts.push(wire.current.clone());
    }
    if wire.chassis && zoom > 0 {
        parts.push("(body)".into());
    }
    if let (Some(fuse), true) = (&wire.fuse_right, zoom > 0) {
        parts.push(format!("[{fuse}]"));
    }
    parts.retain(|p| !p.is_empty());
    format!("{} ─ ", parts.join(" "))
}

/// A sign for each sort of node.
fn sign(kind: Kind) -> &'static str {
    match kind {
        Kind::Alternator => "(G)",
        Kind::Battery => "[+-]",
        Kind::DcDc => "[=/=]",
        Kind::Relay => "[_/]",
        Kind::CutOff => "[U<]",
        Kind::Inverter => "[=/~]",
        Kind::Mains => "[~/=]",
        Kind::Solar => "[sun]",
        Kind::Point | Kind::Continued => "●",
    }
}
