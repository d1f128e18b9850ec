//! In which order are the pairs of a branch tried?
//!
//! By the least that each and all beyond it may come to. That is worked out only
//! of those whose turn comes: a device counts first with its lightest cable and
//! nothing wrong, then with what must be wrong with it here, then each of its
//! cables with what must be beyond.

use crate::engine::choose::circuit::offer::Pair;
use crate::engine::choose::circuit::standing::{Standing, There};
use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// How much is known of an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Known {
    /// What it and all beyond it may come to.
    All,
    /// What must be beyond whichever cable it has.
    Behind,
    /// What must be wrong with its device.
    Wrong,
    /// What must be wrong with its device and between it and the one before it, with all that stands before the branch.
    Parted,
    /// What must be wrong with its device, and beyond it, wherever all stand.
    Apart,
    /// Its copper.
    Copper,
}

/// A pair, and what it and all beyond it may come to at the least.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    pub pair: Pair,
    /// What of that is beyond.
    pub beyond: f64,
    least: f64,
    wrong: f64,
    known: Known,
}

/// The pairs of one branch.
pub(super) struct Queue<'c, 'a> {
    branch: usize,
    children: &'c [usize],
    before: f64,
    /// What any pair has beyond it; known at the first.
    floor: Option<f64>,
    /// What holds there whichever device it has; known at the first.
    there: Option<Option<There<'a>>>,
    waiting: BinaryHeap<Entry>,
    /// The first device that does not wait yet.
    next: usize,
}

impl<'c, 'a> Queue<'c, 'a> {
    /// With so much drop before the branch.
    pub fn new(branch: usize, children: &'c [usize], before: f64) -> Self {
        Queue { branch, children, before, floor: None, there: None, waiting: BinaryHeap::new(), next: 0 }
    }

    /// The next pair that may come to less than `most`.
    pub fn next(&mut self, standing: &mut Standing<'_, 'a, '_>, most: f64) -> Option<Entry> {
        let floor = *self.floor.get_or_insert_with(|| standing.floor_beyond(self.branch, self.children, self.before));
        loop {
            self.line_up(standing, floor, most);
            let entry = self.waiting.pop().filter(|e| e.least < most)?;
            match entry.known {
                Known::All => return Some(entry),
                Known::Copper => {
                    let pair = entry.pair;
                    if let Some((wrong, beyond)) = standing.wherever(self.branch, pair.device, self.before, most) {
                        let least = standing.offers[self.branch].cost(pair) + wrong + beyond;
                        self.push(Entry { wrong, beyond, least, known: Known::Apart, ..entry }, most);
                    }
                }
                Known::Apart => {
                    let there = self.there.get_or_insert_with(|| standing.there(self.branch));
                    let parted = there.map(|there| standing.parted(self.branch, entry.pair.device, &there));
                    let wrong = parted.map_or(entry.wrong, |wrong| wrong.max(entry.wrong));
                    let least = entry.least - entry.wrong + wrong;
                    self.push(Entry { wrong, least, known: Known::Parted, ..entry }, most);
                }
                Known::Parted => {
                    let wrong = standing.least_wrong(self.branch, entry.pair.device).max(entry.wrong);
                    let least = entry.least - entry.wrong + wrong;
                    self.push(Entry { wrong, least, known: Known::Wrong, ..entry }, most);
                }
                Known::Wrong => self.with_all_behind(standing, entry, most),
                Known::Behind => self.spread(standing, entry, most),
            }
        }
    }

    fn push(&mut self, entry: Entry, most: f64) {
        if entry.least < most {
            self.waiting.push(entry);
        }
    }

    /// Every device that may come before the first that waits.
    fn line_up(&mut self, standing: &Standing, floor: f64, most: f64) {
        let offer = &standing.offers[self.branch];
        while let Some(device) = offer.devices.get(self.next) {
            let least = device.least + floor;
            if least >= most || self.waiting.peek().is_some_and(|first| first.least < least) {
                return;
            }
            let pair = offer.next(self.next, 0);
            self.next += 1;
            let known = Known::Copper;
            pair.into_iter()
                .for_each(|pair| self.waiting.push(Entry { pair, beyond: floor, least, wrong: 0.0, known }));
        }
    }

    /// A device in the cable that loses least: what must be beyond it whichever it has.
    fn with_all_behind(&mut self, standing: &mut Standing, entry: Entry, most: f64) {
        let Entry { pair, wrong, .. } = entry;
        let beyond = standing.least_behind(self.branch, pair, self.before);
        let least = standing.offers[self.branch].cost(pair) + wrong + beyond;
        self.push(Entry { beyond, least, known: Known::Behind, ..entry }, most);
    }

    /// A device in one of its cables, and in the next.
    fn spread(&mut self, standing: &mut Standing, entry: Entry, most: f64) {
        let offer = &standing.offers[self.branch];
        let Entry { pair, wrong, beyond, .. } = entry;
        if let Some(next) = offer.next(pair.device, pair.cable + 1) {
            self.push(Entry { pair: next, least: offer.cost(next) + wrong + beyond, ..entry }, most);
        }
        let beyond = standing.least_beyond(self.branch, pair, self.before);
        let least = standing.offers[self.branch].cost(pair) + wrong + beyond;
        self.push(Entry { beyond, least, known: Known::All, ..entry }, most);
    }
}

impl Ord for Entry {
    /// The least comes out first; of equals the one that is known best.
    fn cmp(&self, other: &Self) -> Ordering {
        let order = |e: &Entry| (e.known, e.pair.device, e.pair.cable);
        other.least.total_cmp(&self.least).then_with(|| order(other).cmp(&order(self)))
    }
}

impl PartialOrd for Entry {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Entry {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Entry {}
