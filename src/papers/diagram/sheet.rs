//! What goes on which sheet, so that letters stay large enough on paper?
//!
//! A sheet is at most [`TALLEST`] high: printed across an A4 page its letters
//! are then still 2 mm. What does not fit moves to a further sheet that begins
//! with the same point; the line left behind says where to look.

use super::Layout;
use super::place::height;
use super::tree::{Kind, Node};

/// Height of a sheet in millimetres.
const TALLEST: f64 = 225.0;

/// One sheet.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// What is drawn on it.
    pub trees: Vec<Node>,
}

/// The sheets of a drawing, the first with the batteries.
pub fn split(layout: &Layout) -> Vec<Sheet> {
    let all: f64 = layout.trees.iter().map(height).sum();
    if all <= TALLEST {
        return vec![Sheet { trees: layout.trees.clone() }];
    }
    let mut sheets: Vec<Node> = layout.trees.clone();
    for n in 0..layout.trees.len() {
        let mut tree = sheets[n].clone();
        trim(&mut tree, &mut sheets);
        sheets[n] = tree;
    }
    sheets.into_iter().map(|tree| Sheet { trees: vec![tree] }).collect()
}

/// Make a subtree low enough by moving the last of its children to new sheets.
fn trim(node: &mut Node, sheets: &mut Vec<Node>) {
    for child in &mut node.children {
        trim(child, sheets);
    }
    let mut moved: Vec<Node> = Vec::new();
    while height(node) > TALLEST - ROOM && node.children.len() > 1 {
        moved.extend(node.children.pop());
        if moved.iter().map(height).sum::<f64>() > TALLEST - 4.0 * ROOM {
            let last = moved.pop();
            move_away(node, &mut moved, sheets);
            moved.extend(last);
        }
    }
    if !moved.is_empty() {
        move_away(node, &mut moved, sheets);
    }
}

/// For the words that say where it goes on.
const ROOM: f64 = 14.0;

fn move_away(node: &mut Node, moved: &mut Vec<Node>, sheets: &mut Vec<Node>) {
    moved.reverse();
    let numbers: Vec<&str> = moved.iter().filter_map(|m| m.wire.as_ref()).map(|w| w.number.as_str()).collect();
    let sheet = sheets.len() + 1;
    node.details.push(format!("{} on sheet {sheet}", range(&numbers)));
    let continued = Node {
        details: vec!["continued".into()],
        children: std::mem::take(moved),
        ..Node::new(if node.kind == Kind::Point { Kind::OtherSheet(1) } else { node.kind }, &node.name)
    };
    sheets.push(continued);
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
