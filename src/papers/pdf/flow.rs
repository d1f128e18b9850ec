//! On which page does each slab stand?
//!
//! From top to bottom, column by column. What must stay together goes on to the next column
//! as one; what is higher than a page breaks between its slabs.

use super::slab::{GUTTER, Item, Slab, Strip, column};

/// What a page leaves to its slabs.
#[derive(Clone, Copy, Debug)]
pub struct Frame {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// Where everything of a page stands.
pub type Page<'a> = Vec<Item<'a>>;

/// All pages of a paper.
pub fn pages<'a>(strips: Vec<Strip<'a>>, frame: Frame) -> Vec<Page<'a>> {
    let (pages, bottom) = (vec![Vec::new()], frame.height);
    let mut flow = Flow { frame, pages, top: 0.0, y: 0.0, lowest: 0.0, columns: 1, column: 0, bottom };
    for strip in strips {
        flow.strip(strip);
    }
    flow.pages
}

struct Flow<'a> {
    frame: Frame,
    pages: Vec<Page<'a>>,
    /// Where the columns of this strip begin on this page.
    top: f64,
    /// Where the next slab goes.
    y: f64,
    /// Where the longest column ends.
    lowest: f64,
    /// How many, and which of them.
    columns: usize,
    column: usize,
    /// Where columns end.
    bottom: f64,
}

impl<'a> Flow<'a> {
    fn strip(&mut self, strip: Strip<'a>) {
        (self.top, self.y, self.columns, self.column) = (self.lowest, self.lowest, strip.columns, 0);
        self.bottom = self.frame.height;
        if strip.columns > 1 {
            self.top += strip.slabs.first().map_or(0.0, |s| s.above);
            self.y = self.top;
            if let Some(height) = even(&strip, self.frame.height - self.top) {
                self.bottom = self.top + height;
            }
        }
        let mut slabs = strip.slabs.into_iter().peekable();
        while slabs.peek().is_some() {
            let mut group = Vec::new();
            for slab in slabs.by_ref() {
                let last = !slab.keep;
                group.push(slab);
                if last {
                    break;
                }
            }
            self.group(group);
        }
    }

    fn group(&mut self, group: Vec<Slab<'a>>) {
        let height = height(&group, self.at_top());
        if self.y + height > self.bottom + SLACK && !self.at_top() {
            // A group higher than a page need not begin on a new one.
            let whole = self::height(&group, true) <= self.frame.height;
            if whole || self.y > self.frame.height / 2.0 {
                self.next_column();
            }
        }
        for slab in group {
            let above = if self.at_top() { 0.0 } else { slab.above };
            if self.y + above + slab.height > self.bottom + SLACK && !self.at_top() {
                self.next_column();
            }
            self.put(slab);
        }
    }

    fn at_top(&self) -> bool {
        self.y <= self.top + SLACK && (self.top <= SLACK || self.columns > 1)
    }

    fn next_column(&mut self) {
        self.column += 1;
        if self.column >= self.columns {
            self.pages.push(Vec::new());
            (self.column, self.top, self.lowest, self.bottom) = (0, 0.0, 0.0, self.frame.height);
        }
        self.y = self.top;
    }

    fn put(&mut self, mut slab: Slab<'a>) {
        if self.at_top()
            && let Some(again) = slab.again.take()
        {
            self.put((*again).clone());
        } else if !self.at_top() {
            self.y += slab.above;
        }
        let x = self.frame.left + self.column as f64 * (column(self.frame.width, self.columns) + GUTTER);
        let y = self.frame.top + self.y;
        if let Some(page) = self.pages.last_mut() {
            page.extend(slab.items.into_iter().map(|item| item.moved(x, y)));
        }
        self.y += slab.height;
        self.lowest = self.lowest.max(self.y);
    }
}

/// Sums of heights differ in their last digits.
const SLACK: f64 = 0.01;

fn height(slabs: &[Slab<'_>], at_top: bool) -> f64 {
    let all: f64 = slabs.iter().map(|s| s.above + s.height).sum();
    if at_top { all - slabs.first().map_or(0.0, |s| s.above) } else { all }
}

/// The least height in which a strip's columns hold all of it; none where they do not within this one.
fn even(strip: &Strip<'_>, most: f64) -> Option<f64> {
    let fits = |height: f64| {
        let (mut column, mut y) = (1, 0.0);
        for slab in &strip.slabs {
            let above = if y <= 0.0 { 0.0 } else { slab.above };
            if y > 0.0 && y + above + slab.height > height {
                column += 1;
                y = slab.again.as_ref().map_or(0.0, |again| again.height) + slab.height;
            } else {
                y += above + slab.height;
            }
        }
        column <= strip.columns && y <= height
    };
    let least = height(&strip.slabs, true) / strip.columns as f64;
    let steps = (0..200).map(|n| least * (1.0 + f64::from(n) / 100.0));
    steps.take_while(|height| *height <= most).find(|height| fits(*height))
}
