//! Where does everything stand, in millimetres?
//!
//! Columns by depth, each as wide as its widest symbol or word; rows by strips:
//! a subtree takes the strip its parts need, and no other part may enter it.

use super::tree::{Kind, Node, Wire};
use crate::papers::clean::clean;
use crate::papers::columns::wrap;
use crate::papers::pen::LETTER;
use unicode_width::UnicodeWidthStr;

/// Height of the letters' line, and of a line of small ones.
pub const LINE: f64 = 3.3;
/// Edge of a device symbol.
pub const SYMBOL: f64 = 10.0;
/// A fuse symbol with its margins.
pub const FUSE: f64 = 8.0;
/// Longest line of a node's words, in letters.
const WORDS: usize = 16;
/// Air between two strips.
pub const AIR: f64 = 1.2;
/// Air between two pieces on a sheet.
pub const BETWEEN: f64 = 4.0;

/// What is drawn where; y downward.
#[derive(Clone, Debug)]
pub struct Placed {
    /// Depth in the tree.
    pub column: usize,
    /// Left edge of its symbol.
    pub x: f64,
    /// Height of its connecting line.
    pub y: f64,
    /// Its symbol and words.
    pub extent: Span,
    /// The box of its loads.
    pub loads: Option<Span>,
    /// The words and fuses of its run.
    pub label: Option<Span>,
    /// The node, without its children.
    pub node: Node,
    /// Lines of its name.
    pub name: Vec<String>,
    /// Where its wire begins: x of the vertical line of its parent.
    pub wire_from: Option<(f64, f64)>,
    /// Where lines to its children begin.
    pub out_x: f64,
    /// Lowest child's height, where the vertical line ends.
    pub trunk_to: Option<f64>,
}

/// A rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Span {
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
}

impl Placed {
    /// Width that the words and fuses of its run need.
    pub fn words_need(&self) -> f64 {
        let wire = self.node.wire.as_ref().filter(|w| w.has_words());
        wire.map_or(0.0, |w| wire_length(w) - 0.5)
    }
}

/// A placed drawing and its size.
#[derive(Clone, Debug, Default)]
pub struct Placement {
    /// All nodes.
    pub placed: Vec<Placed>,
    /// Width of the drawing.
    pub width: f64,
    /// Height of the drawing.
    pub height: f64,
}

/// Place trees below one another.
pub fn place(trees: &[Node]) -> Placement {
    let mut placement = Placement::default();
    let mut top = 0.0;
    for tree in trees {
        let tree = Sized::of(tree);
        let mut columns = Columns::default();
        columns.measure(&tree, 0);
        put(&tree, 0, top + tree.strip.up, None, &columns, &mut placement.placed);
        top += tree.strip.up + tree.strip.down + BETWEEN;
    }
    placement.height = top;
    placement.width = placement
        .placed
        .iter()
        .map(|p| p.loads.map_or(p.extent.right, |l| l.right.max(p.extent.right)))
        .fold(0.0, f64::max);
    placement
}

/// Height of a tree, without placing it.
pub fn height(node: &Node) -> f64 {
    let strip = Sized::of(node).strip;
    strip.up + strip.down
}

/// Width of a tree.
pub fn width(node: &Node) -> f64 {
    widths(node).last().copied().unwrap_or(0.0)
}

/// Width of a tree when nothing is drawn beyond the nodes of each depth, themselves without loads; the whole tree's
/// is the last.
pub fn widths(node: &Node) -> Vec<f64> {
    let mut columns = Columns::default();
    columns.measure(&Sized::of(node), 0);
    let (mut all, mut so_far, mut left) = (Vec::new(), 0.0f64, 0.0);
    for depth in 0..columns.node.len() {
        all.push(so_far.max(left + columns.own[depth]));
        let loads = columns.leaf_loads[depth].max(columns.node[depth] + columns.inner_loads[depth]);
        so_far = so_far.max(left + columns.own[depth].max(loads));
        left += columns.node[depth] + columns.wire.get(depth + 1).copied().unwrap_or(0.0) + 1.0;
    }
    all.push(so_far);
    all
}

/// Width of one line of words.
pub fn words_width(text: &str) -> f64 {
    // 0.6 of the letter size is the mean of a plain sans-serif face; capitals and m are wider.
    text.width() as f64 * LETTER * 0.62
}

/// The words in lines of at most [`WORDS`] letters.
pub fn words(text: &str) -> Vec<String> {
    wrap(&clean(text), WORDS)
}

/// What a node needs to the left of its lines to the children, and above and below.
struct Own {
    width: f64,
    up: f64,
    down: f64,
}

fn own(node: &Node) -> Own {
    let name = words(&node.name);
    let text = |lines: &[String]| lines.iter().map(|l| words_width(l)).fold(0.0, f64::max);
    let details: Vec<String> = node.said().iter().flat_map(|d| words(d)).collect();
    let symbol_up = match node.kind {
        Kind::Point | Kind::Continued => 1.5,
        Kind::Battery => 1.5,
        Kind::CutOff => 9.0,
        _ => SYMBOL / 2.0,
    };
    let up = symbol_up + name.len() as f64 * LINE + 0.4;
    let beside = if node.kind == Kind::Battery { SYMBOL } else { 0.0 };
    let down = match node.kind {
        Kind::Battery => 14.0f64.max(2.0 + details.len() as f64 * LINE),
        Kind::Point | Kind::Continued => 1.5 + details.len() as f64 * LINE,
        Kind::CutOff => 2.0 + details.len() as f64 * LINE,
        _ => SYMBOL / 2.0 + 0.5 + details.len() as f64 * LINE,
    };
    let symbol = if matches!(node.kind, Kind::Point | Kind::Continued) { 2.0 } else { SYMBOL };
    Own { width: symbol.max(text(&name)).max(beside + text(&details)) + 1.5, up, down }
}

/// Longest line of a load, in letters.
const LOAD: usize = 32;

/// The loads, each on a line of its own; a long one goes on on the next, set in.
pub fn load_lines(node: &Node) -> Vec<String> {
    let lines = |load: &String| {
        let wrapped = wrap(&clean(load), LOAD);
        wrapped.into_iter().enumerate().map(|(n, l)| if n == 0 { l } else { format!("\u{a0}\u{a0}{l}") })
    };
    node.loads.iter().flat_map(lines).collect()
}

/// Size of the box of loads.
fn loads_box(node: &Node) -> Option<(f64, f64)> {
    let lines = load_lines(node);
    let widest = lines.iter().map(|l| words_width(l)).fold(0.0, f64::max);
    (!lines.is_empty()).then_some((widest + 3.0, lines.len() as f64 * LINE + 1.5))
}

/// How long the line of a run must be for its words and fuses.
pub fn wire_length(wire: &Wire) -> f64 {
    let [above, below] = wire.words().map(|w| words_width(&w));
    let fuses = [&wire.fuse_left, &wire.fuse_right].into_iter().flatten().count() as f64 * FUSE;
    if !wire.has_words() { 6.0 } else { above.max(below) + fuses + 3.5 }
}

/// How far a subtree reaches above and below its first line.
struct Strip {
    up: f64,
    down: f64,
}

/// A node with all that it and those below need, worked out once.
struct Sized<'a> {
    node: &'a Node,
    own: Own,
    loads: Option<(f64, f64)>,
    strip: Strip,
    children: Vec<Sized<'a>>,
}

impl<'a> Sized<'a> {
    fn of(node: &'a Node) -> Self {
        let children: Vec<Sized<'a>> = node.children.iter().map(Sized::of).collect();
        let (own, loads) = (own(node), loads_box(node));
        let strip = strip(&own, loads, &children);
        Sized { node, own, loads, strip, children }
    }
}

fn strip(own: &Own, loads: Option<(f64, f64)>, children: &[Sized<'_>]) -> Strip {
    let mut up = own.up;
    let mut below: f64 = 0.0;
    let mut first = true;
    if let Some((_, height)) = loads {
        below = height - 2.2;
        first = false;
    }
    for Sized { strip: s, .. } in children {
        if first {
            up = up.max(s.up);
            below = s.down;
            first = false;
        } else {
            below += AIR + s.up + s.down;
        }
    }
    // Fuse ratings and run words stand above and below the node's own line.
    up = up.max(LINE + 1.5);
    Strip { up, down: own.down.max(below).max(LINE + 0.8) }
}

/// Left edges and widths by depth.
#[derive(Default)]
struct Columns {
    node: Vec<f64>,
    wire: Vec<f64>,
    /// The widest symbol with its words, whether or not lines go on from it.
    own: Vec<f64>,
    /// How far loads reach: from the left edge where no line goes on, else from where the lines begin.
    leaf_loads: Vec<f64>,
    inner_loads: Vec<f64>,
}

impl Columns {
    fn measure(&mut self, sized: &Sized<'_>, depth: usize) {
        let all = [&mut self.node, &mut self.wire, &mut self.own, &mut self.leaf_loads, &mut self.inner_loads];
        for column in all {
            column.resize(column.len().max(depth + 1), 0.0);
        }
        let most = |column: &mut Vec<f64>, width: f64| column[depth] = column[depth].max(width);
        let width = sized.own.width;
        most(&mut self.own, width);
        let loads = sized.loads.map(|(width, _)| 3.0 + width);
        // What is alone at the end of its line pushes nothing to the right.
        if sized.children.is_empty() {
            most(&mut self.leaf_loads, loads.map_or(0.0, |loads| width + loads));
        } else {
            most(&mut self.node, width);
            most(&mut self.inner_loads, loads.unwrap_or(0.0));
        }
        if let Some(wire) = &sized.node.wire {
            most(&mut self.wire, wire_length(wire));
        }
        sized.children.iter().for_each(|c| self.measure(c, depth + 1));
    }

    fn left(&self, depth: usize) -> f64 {
        (0..depth).map(|d| self.node[d] + self.wire.get(d + 1).copied().unwrap_or(0.0) + 1.0).sum()
    }

    /// Where the lines to the children begin.
    fn out(&self, depth: usize) -> f64 {
        self.left(depth) + self.node[depth]
    }
}

/// What the words and fuses of a run need above and below its line.
fn label(node: &Node, from: Option<(f64, f64)>, x: f64, y: f64) -> Option<Span> {
    node.wire.as_ref().filter(|w| w.has_words())?;
    let (left, _) = from?;
    Some(Span { left, top: y - 4.4, right: x, bottom: y + 3.6 })
}

fn put(sized: &Sized<'_>, depth: usize, y: f64, from: Option<(f64, f64)>, columns: &Columns, out: &mut Vec<Placed>) {
    let (Sized { node, own, .. }, x) = (sized, columns.left(depth));
    let out_x = if node.children.is_empty() { x + own.width } else { columns.out(depth) };
    let index = out.len();
    let extent = Span { left: x, top: y - own.up, right: x + own.width, bottom: y + own.down };
    let loads = sized.loads.map(|(width, height)| {
        let (left, top) = (out_x + 3.0, y - 2.2);
        Span { left, top, right: left + width, bottom: top + height }
    });
    out.push(Placed {
        column: depth,
        x,
        y,
        extent,
        loads,
        label: label(node, from, x, y),
        name: words(&node.name),
        node: node.bare(),
        wire_from: from,
        out_x,
        trunk_to: None,
    });
    let mut next = loads.map(|l| l.bottom + AIR);
    let mut last = None;
    for child in &sized.children {
        let s = &child.strip;
        let child_y = next.map_or(y, |top| top + s.up);
        put(child, depth + 1, child_y, Some((out_x, child_y)), columns, out);
        next = Some(child_y + s.down + AIR);
        last = Some(child_y);
    }
    if let Some(placed) = out.get_mut(index) {
        placed.trunk_to = last;
    }
}
