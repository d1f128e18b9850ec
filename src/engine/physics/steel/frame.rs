//! Which moments and forces go through a strip that is bent into a frame?
//!
//! A plane frame of straight bars in one plane, rigid at its corners: each bar
//! bends and stretches, small deflections, no shear deflection; the stiffness
//! method of every textbook on frames. Supports may hold, or only push (a deck
//! that an ear lifts from). Lengths in millimetres, forces in newtons, moments
//! in newton millimetres. Left out: the roundness of the corners, which takes
//! moment off, and yielding.

/// Where bars meet: how far across and up.
pub(crate) type Node = (f64, f64);

/// A straight bar from one node to another.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bar {
    pub from: usize,
    pub to: usize,
    /// Evenly over its length, in newtons for each millimetre: across and up.
    pub load: (f64, f64),
}

/// How a node is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Hold {
    /// Neither moves nor turns.
    Fixed,
    /// Turns but does not move.
    Pinned,
    /// Cannot go up, and is free to go down.
    Stopped,
}

/// A frame of one section throughout.
#[derive(Clone, Debug, Default)]
pub(crate) struct Frame {
    pub nodes: Vec<Node>,
    pub bars: Vec<Bar>,
    /// Held nodes.
    pub holds: Vec<(usize, Hold)>,
    /// Forces on nodes, across and up.
    pub forces: Vec<(usize, f64, f64)>,
    /// Area of the section, mm².
    pub area: f64,
    /// Second moment of the section, mm⁴.
    pub second: f64,
}

/// Moments at both ends and the greatest between, and the pull, of one bar.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Inside {
    pub from: f64,
    pub to: f64,
    /// Greatest between the ends, without its sign.
    pub between: f64,
    /// Pull positive.
    pub pull: f64,
}

/// What a solved frame has in it.
#[derive(Clone, Debug)]
pub(crate) struct Solved {
    pub bars: Vec<Inside>,
    /// Force that each node gets from its support, across and up, and its moment.
    pub reactions: Vec<[f64; 3]>,
}

/// Rounds of letting go and catching the nodes that are only stopped.
const ROUNDS: usize = 12;
/// Any metal: all bars are of one, so that moments do not depend on it.
const STIFFNESS: f64 = 210_000.0;

impl Frame {
    /// Moments and reactions; `None` when it is no frame (a bar without length, or nothing that holds it).
    pub(crate) fn solve(&self) -> Option<Solved> {
        let stopped = |(node, hold): &(usize, Hold)| (*hold == Hold::Stopped).then_some(*node);
        let stops: Vec<usize> = self.holds.iter().filter_map(stopped).collect();
        let stiff: Vec<Stiff> = self.bars.iter().map(|bar| Stiff::of(self, bar)).collect::<Option<_>>()?;
        let mut active = vec![false; stops.len()];
        for _ in 0..ROUNDS {
            let touching: Vec<usize> = stops.iter().zip(&active).filter_map(|(n, on)| on.then_some(*n)).collect();
            let (moved, solved) = self.with(&stiff, &touching)?;
            let next: Vec<bool> = stops
                .iter()
                .zip(&active)
                .map(|(n, on)| if *on { solved.reactions[*n][1] < 0.0 } else { moved[3 * n + 1] > 1e-9 })
                .collect();
            if next == active {
                return Some(solved);
            }
            active = next;
        }
        let (_, solved) = self.with(&stiff, &[])?;
        Some(solved)
    }

    /// With these of the stopped nodes touching.
    fn with(&self, stiff: &[Stiff], touching: &[usize]) -> Option<(Vec<f64>, Solved)> {
        let size = 3 * self.nodes.len();
        let (mut matrix, mut load) = (vec![vec![0.0; size]; size], vec![0.0; size]);
        for bar in stiff {
            for (i, at) in bar.places.iter().enumerate() {
                load[*at] += bar.load[i];
                for (j, with) in bar.places.iter().enumerate() {
                    matrix[*at][*with] += bar.matrix[i][j];
                }
            }
        }
        for (node, across, up) in &self.forces {
            load[3 * node] += across;
            load[3 * node + 1] += up;
        }
        let held = self.held(touching);
        let free: Vec<usize> = (0..size).filter(|at| !held[*at]).collect();
        let inner = free.iter().map(|i| free.iter().map(|j| matrix[*i][*j]).collect()).collect();
        let answer = gauss(inner, free.iter().map(|i| load[*i]).collect())?;
        let mut moved = vec![0.0; size];
        free.iter().zip(answer).for_each(|(at, value)| moved[*at] = value);
        let push = |at: usize| matrix[at].iter().zip(&moved).map(|(k, d)| k * d).sum::<f64>() - load[at];
        let reaction = |node: usize| [0, 1, 2].map(|n| if held[3 * node + n] { push(3 * node + n) } else { 0.0 });
        let reactions = (0..self.nodes.len()).map(reaction).collect();
        let bars = stiff.iter().map(|bar| bar.inside(&moved)).collect();
        Some((moved, Solved { bars, reactions }))
    }

    fn held(&self, touching: &[usize]) -> Vec<bool> {
        let mut held = vec![false; 3 * self.nodes.len()];
        for (node, hold) in &self.holds {
            let parts = match hold {
                Hold::Fixed => [true, true, true],
                Hold::Pinned => [true, true, false],
                Hold::Stopped => [false, touching.contains(node), false],
            };
            parts.iter().enumerate().for_each(|(n, on)| held[3 * node + n] |= on);
        }
        held
    }
}

/// One bar's stiffness and load in the directions of the frame.
struct Stiff {
    places: [usize; 6],
    matrix: [[f64; 6]; 6],
    load: [f64; 6],
    along: (f64, f64),
    length: f64,
    /// Even load across the bar, to its left.
    across: f64,
}

impl Stiff {
    fn of(frame: &Frame, bar: &Bar) -> Option<Stiff> {
        let (a, b) = (frame.nodes.get(bar.from)?, frame.nodes.get(bar.to)?);
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let l = dx.hypot(dy);
        if l.is_nan() || l < 1e-6 {
            return None;
        }
        let (c, s) = (dx / l, dy / l);
        let (ea, ei) = (STIFFNESS * frame.area / l, STIFFNESS * frame.second / (l * l * l));
        // The stiffness of a bar along and across it, turned into the directions of the frame (any textbook on frames).
        let (along, across, mixed) =
            (ea * c * c + 12.0 * ei * s * s, ea * s * s + 12.0 * ei * c * c, (ea - 12.0 * ei) * c * s);
        let (lean, rise) = (6.0 * ei * l * s, 6.0 * ei * l * c);
        let (near, far) = (4.0 * ei * l * l, 2.0 * ei * l * l);
        let q = bar.load.1 * c - bar.load.0 * s;
        let half = (bar.load.0 * l / 2.0, bar.load.1 * l / 2.0);
        Some(Stiff {
            places: [0, 1, 2, 3, 4, 5].map(|n| if n < 3 { 3 * bar.from + n } else { 3 * bar.to + n - 3 }),
            matrix: [
                [along, mixed, -lean, -along, -mixed, -lean],
                [mixed, across, rise, -mixed, -across, rise],
                [-lean, rise, near, lean, -rise, far],
                [-along, -mixed, lean, along, mixed, lean],
                [-mixed, -across, -rise, mixed, across, -rise],
                [-lean, rise, far, lean, -rise, near],
            ],
            load: [half.0, half.1, q * l * l / 12.0, half.0, half.1, -q * l * l / 12.0],
            along: (c, s),
            length: l,
            across: q,
        })
    }

    /// Forces at its ends, turned back into its own directions.
    fn inside(&self, moved: &[f64]) -> Inside {
        let (c, s) = self.along;
        let at_place = self.places.map(|at| moved[at]);
        let end = |i: usize| self.matrix[i].iter().zip(&at_place).map(|(k, d)| k * d).sum::<f64>() - self.load[i];
        let ends = [0, 1, 2, 3, 4, 5].map(end);
        let pulls = |n: usize| ends[n] * c + ends[n + 1] * s;
        let (shear, from, to) = (ends[1] * c - ends[0] * s, -ends[2], ends[5]);
        // M(x) = M0 + V x + q x² / 2, with its peak where the shear is nothing.
        let peak = if self.across.abs() > 1e-12 { -shear / self.across } else { -1.0 };
        let at = |x: f64| from + shear * x + self.across * x * x / 2.0;
        let between = if peak > 0.0 && peak < self.length { at(peak).abs() } else { 0.0 };
        Inside { from, to, between, pull: (pulls(3) - pulls(0)) / 2.0 }
    }
}

/// Solve by elimination, the largest pivot first.
fn gauss(mut matrix: Vec<Vec<f64>>, mut right: Vec<f64>) -> Option<Vec<f64>> {
    let size = right.len();
    for column in 0..size {
        let pivot = (column..size).max_by(|a, b| matrix[*a][column].abs().total_cmp(&matrix[*b][column].abs()))?;
        if matrix[pivot][column].abs() < 1e-9 || !matrix[pivot][column].is_finite() {
            return None;
        }
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        let (done, below) = matrix.split_at_mut(column + 1);
        let above = &done[column];
        // A bar reaches only its neighbours: the row ends early.
        let end = above.iter().rposition(|value| *value != 0.0).map_or(column, |last| last + 1);
        for (row, values) in below.iter_mut().enumerate() {
            let share = values[column] / above[column];
            if share != 0.0 {
                let kept = values[column..end].iter_mut().zip(&above[column..end]);
                kept.for_each(|(value, over)| *value -= share * over);
                right[column + 1 + row] -= share * right[column];
            }
        }
    }
    for column in (0..size).rev() {
        let known: f64 = (column + 1..size).map(|n| matrix[column][n] * right[n]).sum();
        right[column] = (right[column] - known) / matrix[column][column];
    }
    Some(right)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn portal(width: f64, height: f64, hold: Hold, load: f64, sway: f64) -> Solved {
        let bar = |from, to, load| Bar { from, to, load: (0.0, load) };
        let frame = Frame {
            nodes: vec![(0.0, 0.0), (0.0, height), (width, height), (width, 0.0)],
            bars: vec![bar(0, 1, 0.0), bar(1, 2, -load), bar(2, 3, 0.0)],
            holds: vec![(0, hold), (3, hold)],
            forces: vec![(1, sway, 0.0)],
            // Stiff along, as the handbook's formulas have it.
            area: 1e7,
            second: 100.0,
        };
        frame.solve().unwrap()
    }

    #[track_caller]
    fn near(got: f64, expected: f64) {
        assert!((got.abs() - expected).abs() < 1e-3 * expected.max(1.0), "{got}, expected {expected}");
    }

    /// Portal frame of one section, k = h / l (Kleinlogel, Rahmenformeln, frames 4 and 9, from memory): even load on
    /// the beam: corner q l² / (4 (2 k + 3)) on pins, q l² / (6 (k + 2)) with fixed feet and half of that at the foot;
    /// a push at one corner: corner P h / 2 on pins, P h / 2 × 3 k / (6 k + 1) with fixed feet.
    #[test]
    fn portal_frames_are_as_in_the_handbook() {
        for (l, h) in [(279.0, 242.0), (300.0, 150.0), (200.0, 400.0)] {
            let (q, p, k) = (10.0, 1000.0, h / l);
            let pins = q * l * l / (4.0 * (2.0 * k + 3.0));
            let feet = q * l * l / (6.0 * (k + 2.0));
            let solved = portal(l, h, Hold::Pinned, q, 0.0);
            near(solved.bars[1].from, pins);
            near(solved.bars[1].between, q * l * l / 8.0 - pins);
            near(solved.bars[0].pull, q * l / 2.0);
            let solved = portal(l, h, Hold::Fixed, q, 0.0);
            near(solved.bars[1].to, feet);
            near(solved.bars[0].from, feet / 2.0);
            near(portal(l, h, Hold::Pinned, 0.0, p).bars[1].from, p * h / 2.0);
            near(portal(l, h, Hold::Fixed, 0.0, p).bars[1].from, p * h / 2.0 * 3.0 * k / (6.0 * k + 1.0));
        }
    }

    /// By hand: a bar pinned at 0 and at 30 mm, pulled down with 100 N at 40 mm: 100 × 10 / 30 N down at the first
    /// pin, and the second bears both. Between two pins a stop holds the tip down, and lets go when it is bent down.
    #[test]
    fn an_ear_pries_at_its_tip() {
        let bar = |from, to| Bar { from, to, load: (0.0, 0.0) };
        let mut frame = Frame {
            nodes: vec![(0.0, 0.0), (30.0, 0.0), (40.0, 0.0)],
            bars: vec![bar(0, 1), bar(1, 2)],
            holds: vec![(0, Hold::Pinned), (1, Hold::Pinned)],
            forces: vec![(2, 0.0, -100.0)],
            area: 100.0,
            second: 100.0,
        };
        let solved = frame.solve().unwrap();
        near(solved.reactions[1][1], 100.0 + 100.0 / 3.0);
        near(solved.reactions[0][1], 100.0 / 3.0);
        assert!(solved.reactions[0][1] < 0.0);
        frame.nodes.push((70.0, 0.0));
        frame.bars.push(bar(2, 3));
        frame.holds = vec![(0, Hold::Stopped), (1, Hold::Pinned), (3, Hold::Pinned)];
        assert!(frame.solve().unwrap().reactions[0][1] < 0.0);
        frame.forces[0].2 = 100.0;
        near(frame.solve().unwrap().reactions[0][1], 0.0);
        frame.nodes[2] = frame.nodes[1];
        assert!(frame.solve().is_none());
    }
}
