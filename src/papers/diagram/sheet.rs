//! What is drawn below what, and on which sheet, so that letters stay large on paper?
//!
//! A sheet is at most [`WIDEST`] by [`TALLEST`]: printed on an upright A4 or
//! Letter page its letters are then at least 7 points. A tree that is too wide
//! is cut at a point (at the service battery, if it can be) and goes on below, from the
//! same point; one that is too high leaves its last branches to a further
//! piece. The point left behind says where to look. Pieces stand in the order
//! in which one reads them.

use super::place::{AIR, BETWEEN, height, width, widths};
use super::tree::{Kind, Layout, Next, Node};
use crate::plan::point;
use std::cmp::Reverse;

/// Width of what is drawn on a sheet in millimetres.
const WIDEST: f64 = 191.0;
/// Height of what is drawn on a sheet in millimetres.
const TALLEST: f64 = 205.0;

/// Height that the first sheet leaves to the words above it, so that no page has words alone.
const ABOVE: f64 = 60.0;

/// One sheet.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// What is drawn on it, from top to bottom.
    pub trees: Vec<Node>,
}

/// The sheets of a drawing, the first with the batteries.
pub fn split(layout: &Layout) -> Vec<Sheet> {
    let mut pieces = Pieces::default();
    for tree in &layout.trees {
        pieces.add(tree.clone());
    }
    let mut sheets: Vec<Sheet> = Vec::new();
    let mut used = 0.0;
    for piece in pieces.done {
        let high = height(&piece) + BETWEEN;
        let room = if sheets.len() == 1 { TALLEST - ABOVE } else { TALLEST };
        match sheets.last_mut() {
            Some(sheet) if used + high <= room => {
                used += high;
                sheet.trees.push(piece);
            }
            _ => {
                used = high;
                sheets.push(Sheet { trees: vec![piece] });
            }
        }
    }
    say_where(&mut sheets);
    sheets
}

/// Pieces that fit a sheet, in reading order.
#[derive(Default)]
struct Pieces {
    done: Vec<Node>,
    keys: usize,
}

impl Pieces {
    fn add(&mut self, mut tree: Node) {
        let mut later = Vec::new();
        while width(&tree) > WIDEST && self.narrow(&mut tree, &mut later) {}
        self.lower(&mut tree, &mut later);
        // The words that say where it goes on may have made it wider.
        while width(&tree) > WIDEST && self.narrow(&mut tree, &mut later) {}
        later.sort_by_key(first_run);
        self.done.push(tree);
        later.into_iter().for_each(|piece| self.add(piece));
    }

    /// Cut at the depth that leaves the fewest pieces and fits, best at the
    /// service battery, else as deep as can be. Whether anything was cut.
    fn narrow(&mut self, tree: &mut Node, later: &mut Vec<Node>) -> bool {
        let depths = 1..tree.depth().saturating_sub(1);
        let widths = widths(tree);
        let fits = |depth: &usize| widths.get(*depth).is_some_and(|width| *width <= WIDEST);
        let score = |depth: &usize| {
            let (mut count, mut battery) = (0, false);
            seen_at(tree, *depth, &mut |n| {
                count += usize::from(!n.children.is_empty());
                battery |= n.name == point::SERVICE_BATTERY;
            });
            (count, !battery, Reverse(*depth))
        };
        // Where nothing fits, the first line alone is too wide: it must be.
        let depth = depths.clone().filter(fits).min_by_key(score).or(depths.clone().next());
        let Some(depth) = depth else { return false };
        let before = later.len();
        at_depth(tree, depth, &mut |n| {
            if !n.children.is_empty() {
                let (children, loads) = (std::mem::take(&mut n.children), std::mem::take(&mut n.loads));
                later.push(self.goes_on(n, children, loads));
            }
        });
        later.len() > before
    }

    /// Make a subtree low enough by moving the last of its children to a later piece.
    fn lower(&mut self, node: &mut Node, later: &mut Vec<Node>) {
        for child in &mut node.children {
            self.lower(child, later);
        }
        let mut moved: Vec<Node> = Vec::new();
        let room = TALLEST - ROOM - if self.done.is_empty() { ABOVE } else { 0.0 };
        while height(node) > room && node.children.len() > 1 {
            moved.extend(node.children.pop());
        }
        // Each piece says by itself where it stands, so that nobody is sent from sheet to sheet.
        let (mut piece, mut high) = (Vec::new(), 0.0);
        while let Some(child) = moved.pop() {
            let more = height(&child) + AIR;
            if !piece.is_empty() && high + more > TALLEST - ROOM {
                later.push(self.goes_on(node, std::mem::take(&mut piece), Vec::new()));
                high = 0.0;
            }
            high += more;
            piece.push(child);
        }
        if !piece.is_empty() {
            later.push(self.goes_on(node, piece, Vec::new()));
        }
    }

    /// The same point once more, with what was taken from it.
    fn goes_on(&mut self, node: &mut Node, children: Vec<Node>, loads: Vec<String>) -> Node {
        self.keys += 1;
        let numbers: Vec<&str> = children
            .iter()
            .filter_map(|c| c.wire.as_ref())
            .map(|w| w.number.as_str())
            .filter(|n| !n.is_empty())
            .collect();
        node.next.push(Next { what: range(&numbers), key: self.keys, place: "on sheet 00".into() });
        Node {
            details: vec!["continued".into()],
            children,
            loads,
            key: self.keys,
            ..Node::new(Kind::Continued, &node.name)
        }
    }
}

/// For the words that say where it goes on.
const ROOM: f64 = 14.0;

/// Every node so deep in the tree.
fn at_depth(node: &mut Node, depth: usize, with: &mut impl FnMut(&mut Node)) {
    match depth {
        0 => with(node),
        _ => node.children.iter_mut().for_each(|c| at_depth(c, depth - 1, with)),
    }
}

/// The same, only to look at.
fn seen_at(node: &Node, depth: usize, with: &mut impl FnMut(&Node)) {
    match depth {
        0 => with(node),
        _ => node.children.iter().for_each(|c| seen_at(c, depth - 1, with)),
    }
}

fn first_run(piece: &Node) -> usize {
    piece.children.iter().filter_map(|c| c.wire.as_ref()?.run).min().unwrap_or(usize::MAX)
}

/// Write into each point where it goes on, now that this is known.
fn say_where(sheets: &mut [Sheet]) {
    let keys: Vec<Vec<usize>> = sheets.iter().map(|s| s.trees.iter().map(|t| t.key).collect()).collect();
    for (n, sheet) in sheets.iter_mut().enumerate() {
        for tree in &mut sheet.trees {
            each(tree, &mut |node| {
                for next in &mut node.next {
                    let at = keys.iter().position(|k| k.contains(&next.key)).unwrap_or(n);
                    next.place = if at == n { "below".into() } else { format!("on sheet {}", at + 1) };
                }
            });
        }
    }
}

fn each(node: &mut Node, with: &mut impl FnMut(&mut Node)) {
    with(node);
    node.children.iter_mut().for_each(|c| each(c, with));
}

/// `R7, R9`; after six of them only how many more.
fn range(numbers: &[&str]) -> String {
    let named = numbers.iter().take(6).copied().collect::<Vec<_>>().join(", ");
    match numbers.len() {
        0 => "more".into(),
        1..=6 => named,
        n => format!("{named} and {} more", n - 6),
    }
}
