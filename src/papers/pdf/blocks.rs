//! What does each block of a paper become on a sheet?

use super::face::Face;
use super::setter::{Setter, pile};
use super::slab::{Item, MM, Slab, Strip, column};
use super::table;
use crate::engine::Severity;
use crate::papers::document::{Block, Document, Drawing, Notice};

/// A paper of so many parts begins with a list of them.
const LONG: usize = 8;
/// So many facts stand in two columns.
const MANY: usize = 8;
/// An entry of so many lines may go on in the next column.
const TEARS: usize = 9;
/// Width of the label before a fact.
const LABEL: f64 = 42.0 * MM;
const SHORT_LABEL: f64 = 34.0 * MM;
/// What a list is set in by.
const INDENT: f64 = 6.0 * MM;
/// Highest picture, in millimetres: that of Letter below a heading.
const HIGHEST: f64 = 228.0;

/// All of a paper, in order; the number of each part is that of its heading, from 1.
pub fn set<'a>(paper: &'a Document, setter: &Setter<'_>) -> Vec<Strip<'a>> {
    let mut title = setter.heading_line(&setter.look.ink(&paper.title), setter.style.title, 0.6 * MM);
    title.items.push(Item::Begins { part: 0, y: 0.0 });
    let mut strips = vec![Strip { columns: 1, slabs: vec![title] }];
    let parts: Vec<&str> = paper.parts().collect();
    if parts.len() >= LONG {
        strips.push(setter.contents(&parts));
    }
    let mut part = 0;
    let mut above = setter.style.below;
    for block in &paper.blocks {
        let mut strip = setter.block(block, &mut part);
        // A line to sign stays with what it signs.
        if let Block::Facts(facts) = block
            && facts.len() == 1
            && let Some(before) = strips.last_mut().and_then(|strip| strip.slabs.last_mut())
        {
            before.keep = true;
        }
        if let Some(first) = strip.slabs.first_mut() {
            first.above = first.above.max(above);
        }
        above = setter.style.below;
        match strips.last_mut() {
            Some(last) if last.columns == strip.columns => last.slabs.extend(strip.slabs),
            _ => strips.push(strip),
        }
    }
    strips
}

impl Setter<'_> {
    fn ink(&self, text: &str) -> String {
        self.look.ink(text)
    }

    fn block<'a>(&self, block: &'a Block, part: &mut usize) -> Strip<'a> {
        let one = |slabs| Strip { columns: 1, slabs };
        match block {
            Block::Heading(1, text) => {
                *part += 1;
                let mut slab = self.heading_line(&self.ink(text), self.style.heading[0], 0.2 * MM);
                slab.items.push(Item::Begins { part: *part, y: 0.0 });
                one(vec![Slab { above: self.style.above[0], keep: true, ..slab }])
            }
            Block::Heading(_, text) => {
                let slab = self.heading_line(&self.ink(text), self.style.heading[1], 0.0);
                one(vec![Slab { above: self.style.above[1], keep: true, ..slab }])
            }
            Block::Paragraph(text) => one(self.text(&self.ink(text), 0.0, "")),
            Block::List(points) => one(points.iter().flat_map(|p| self.text(&self.ink(p), INDENT, "•")).collect()),
            Block::Steps(steps) => {
                let step = |(n, s): (usize, &String)| self.text(&self.ink(s), INDENT, &format!("{}.", n + 1));
                one(steps.iter().enumerate().flat_map(step).collect())
            }
            Block::Facts(facts) => self.facts(facts),
            Block::Table(t) => table::set(t, self),
            Block::Notice(n) => one(self.notice(n)),
            Block::Drawing(d) => one(self.drawing(d)),
            Block::Entry(head, below) => Strip { columns: 2, slabs: self.entry(head, below) },
        }
    }

    fn heading_line<'a>(&self, text: &str, size: f64, rule: f64) -> Slab<'a> {
        let mut slab = pile(self.lines(text, Face::Bold, size, 1.25, 0.0, self.width));
        if rule > 0.0 {
            let y = slab.height + MM + rule / 2.0;
            slab.items.push(Item::Rule { from: (0.0, y), to: (self.width, y), width: rule, grey: false });
            slab.height = y + rule / 2.0;
        }
        slab
    }

    /// Running text behind a mark: its first two lines stay together, and its last two.
    fn text<'a>(&self, text: &str, indent: f64, mark: &str) -> Vec<Slab<'a>> {
        let (size, leading) = (self.style.text, self.style.leading);
        let mut lines = self.lines(text, Face::Plain, size, leading, indent, self.width - indent);
        let count = lines.len();
        for (n, line) in lines.iter_mut().enumerate() {
            line.keep = n + 1 < count && (n == 0 || n + 2 >= count);
        }
        if let Some(first) = lines.first_mut().filter(|_| !mark.is_empty()) {
            let x = indent - self.breaker(Face::Plain, size).width(mark) - 1.5 * MM;
            first.add(self.line(mark.into(), Face::Plain, size, leading, x), 0.0, 0.0);
        }
        lines
    }

    fn facts<'a>(&self, facts: &[(String, String)]) -> Strip<'a> {
        let columns = if facts.len() > MANY || self.style.dense && facts.len() > 1 { 2 } else { 1 };
        let label = if columns == 1 { LABEL } else { SHORT_LABEL };
        let width = column(self.width, columns);
        let (size, leading) = (self.style.text, self.style.leading);
        let fact = |(name, value): &(String, String)| {
            let mut slab = pile(self.lines(&self.ink(name), Face::Bold, size, leading, 0.0, label - 2.0 * MM));
            slab.add(pile(self.lines(&self.ink(value), Face::Plain, size, leading, label, width - label)), 0.0, 0.0);
            slab.height += if self.style.dense { 0.0 } else { 0.6 * MM };
            slab
        };
        Strip { columns, slabs: facts.iter().map(fact).collect() }
    }

    /// A bar beside it, as heavy as it is severe; the word says it too.
    fn notice<'a>(&self, notice: &Notice) -> Vec<Slab<'a>> {
        let (x, leading) = (4.2 * MM, self.style.leading);
        let width = self.width - x;
        let word = format!("{}: ", notice.severity.word());
        let size = self.style.text;
        let ahead = self.breaker(Face::Bold, size).width(&word);
        let blanks = (ahead / self.breaker(Face::Plain, size).width("\u{a0}")).ceil() as usize;
        let text = format!("{}{}", "\u{a0}".repeat(blanks), self.ink(&notice.text));
        let mut slabs = self.lines(&text, Face::Plain, size, leading, x, width);
        if let Some(first) = slabs.first_mut() {
            first.items.iter_mut().for_each(|item| begin_behind(item, ahead));
            first.add(self.line(word, Face::Bold, size, leading, x), 0.0, 0.0);
        }
        for (label, text) in &notice.lines {
            let text = format!("{}: {}", self.ink(label), self.ink(text));
            slabs.extend(self.lines(&text, Face::Plain, self.style.small, leading, x, width));
        }
        let last = slabs.len().saturating_sub(1);
        for (n, slab) in slabs.iter_mut().enumerate() {
            slab.keep = n < last;
            slab.items.extend(bars(notice.severity, slab.height));
        }
        slabs
    }

    fn drawing<'a>(&self, drawing: &'a Drawing) -> Vec<Slab<'a>> {
        let head = self.heading_line(&self.ink(&drawing.caption), self.style.heading[0], 0.2 * MM);
        let mut slabs = vec![Slab { above: self.style.above[0], keep: true, ..head }];
        if let Some(picture) = &drawing.picture {
            let shrink = (self.width / MM / picture.width.max(1.0)).min(HIGHEST / picture.height.max(1.0)).min(1.0);
            let item = Item::Picture { x: 0.0, y: 0.0, scale: shrink * MM, picture };
            let height = picture.height * shrink * MM;
            slabs.push(Slab { items: vec![item], height, above: 2.0 * MM, ..Slab::default() });
        }
        slabs
    }

    fn entry<'a>(&self, head: &str, below: &[String]) -> Vec<Slab<'a>> {
        let (size, width) = (self.style.entry, column(self.width, 2));
        let mut lines = self.lines(&self.ink(head), Face::Bold, size, 1.25, 0.0, width);
        lines.extend(below.iter().flat_map(|l| self.lines(&self.ink(l), Face::Plain, size, 1.25, 0.0, width)));
        let count = lines.len();
        for (n, line) in lines.iter_mut().enumerate() {
            // Only a long one is torn, and never so that its head or its end stands alone.
            line.keep = n + 1 < count && (count < TEARS || n < 3 || n + 3 >= count);
            line.above = if n == 0 { 1.6 * MM } else { 0.0 };
        }
        lines
    }

    /// The parts of a long paper with their pages.
    fn contents<'a>(&self, parts: &[&str]) -> Strip<'a> {
        let (size, width) = (self.style.small, column(self.width, 3));
        let number = 7.0 * MM;
        let line = |(n, part): (usize, &&str)| {
            let text = format!("{}. {}", n + 1, self.ink(part));
            let mut slab = pile(self.lines(&text, Face::Plain, size, 1.25, 0.0, width - number));
            let y = slab.height - size * 0.35;
            slab.items.push(Item::PageOf { part: n + 1, left: 0.0, right: width, y, size });
            slab
        };
        let mut slabs: Vec<Slab<'a>> = parts.iter().enumerate().map(line).collect();
        if let Some(first) = slabs.first_mut() {
            first.above = self.style.below;
        }
        Strip { columns: 3, slabs }
    }
}

/// Words whose leading blanks keep room for a word in bold: they begin behind it.
fn begin_behind(item: &mut Item<'_>, ahead: f64) {
    if let Item::Words { x, text, .. } = item {
        *x += ahead;
        *text = text.trim_start_matches('\u{a0}').to_string();
    }
}

fn bars<'a>(severity: Severity, height: f64) -> Vec<Item<'a>> {
    let bar = |x: f64, width: f64, grey: bool| Item::Rule {
        from: (x + width / 2.0, 0.0),
        to: (x + width / 2.0, height),
        width,
        grey,
    };
    match severity {
        Severity::Stop => vec![bar(0.0, 1.2 * MM, false)],
        Severity::Caution => vec![bar(0.0, 0.4 * MM, false), bar(0.8 * MM, 0.4 * MM, false)],
        Severity::Note => vec![bar(0.0, 0.4 * MM, true)],
    }
}
