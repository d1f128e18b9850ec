//! One solution of the network's equations for given constant powers and currents.
//!
//! Each step linearises every branch, V_far = V_near - f(I), and every load of
//! constant power, P / V, around the last state. Seen from its near end a
//! branch with all that hangs on it is then I = a + g × V_near; these pairs are
//! made from the leaves to the source, and the voltages from the source to the
//! leaves: linear in time, no matrix.
//!
//! Beginning from the voltages without constant powers, which no solution can
//! exceed, the steps come down to the higher solution without passing it,
//! because P / V is convex (monotone Newton theorem: Ortega and Rheinboldt,
//! *Iterative Solution of Nonlinear Equations in Several Variables*, 13.3,
//! from memory). A pivot 1 + G × slope that is not positive on the way down,
//! or a voltage that is not, then shows that there is no solution. With
//! warming or currents fed in that proof has gaps, which is why a failure is
//! tried again by continuation.

use crate::engine::physics::network::tree::Tree;

/// Voltages and currents by node.
#[derive(Clone)]
pub(crate) struct State {
    pub volts: Vec<f64>,
    pub amps: Vec<f64>,
}

/// What the loads insist on, by node.
#[derive(Clone)]
pub(crate) struct Asked {
    pub power: Vec<f64>,
    /// Net constant current; negative when fed in.
    pub current: Vec<f64>,
}

/// Why the steps ended without a solution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Failed {
    /// A pivot or a voltage is not positive.
    Fallen,
    /// The steps do not become small.
    Wandering,
}

const MOST_STEPS: usize = 120;

/// Share of the highest voltage below which a change counts as small: 1.2 nV at 12 V.
const CLOSE: f64 = 1e-10;

/// Voltages without any constant power: above every solution.
pub(crate) fn ceiling(tree: &Tree, asked: &Asked) -> State {
    let count = tree.nodes.len();
    let mut state = State { volts: vec![tree.feed; count], amps: vec![0.0; count] };
    let without = Asked { power: vec![0.0; count], current: asked.current.clone() };
    let mut work = Work::new(count);
    // Cannot fall: without constant power every pivot is at least 1.
    if work.eliminate(tree, &without, &state) {
        work.substitute(tree, &mut state);
    }
    state
}

/// Newton's method from `state`.
pub(crate) fn solve(tree: &Tree, asked: &Asked, mut state: State) -> Result<State, Failed> {
    // Where no power is held a step may pass through a negative voltage, but no answer may.
    let fallen = |volts: &[f64]| volts.iter().zip(&asked.power).any(|(v, power)| *v <= 0.0 && *power > 0.0);
    if fallen(&state.volts) {
        return Err(Failed::Fallen);
    }
    let mut work = Work::new(tree.nodes.len());
    let (mut near, mut last) = (false, f64::INFINITY);
    for step in 0..MOST_STEPS {
        if !work.eliminate(tree, asked, &state) {
            return Err(Failed::Fallen);
        }
        let change = work.substitute(tree, &mut state);
        if !change.is_finite() || fallen(&state.volts) {
            return Err(Failed::Fallen);
        }
        let close = CLOSE * state.volts.iter().copied().fold(1.0, f64::max);
        // One step more once close: the error is then squared, and rounding is all that is left.
        if near && (change <= close || change >= last) {
            let stands = state.volts.iter().all(|v| *v > 0.0);
            return if stands { Ok(state) } else { Err(Failed::Fallen) };
        }
        near = change <= close;
        last = change;
        // Two states can take turns at the kink where copper melts; the mean breaks that.
        if step >= 40 && step % 8 == 0 {
            work.back_half(&mut state);
        }
    }
    Err(Failed::Wandering)
}

/// Buffers of one step, by node.
struct Work {
    /// I = a + g × V_near of the branch and all behind it.
    a: Vec<f64>,
    g: Vec<f64>,
    /// V_far = V_near - e - slope × I.
    e: Vec<f64>,
    slope: Vec<f64>,
    before: (Vec<f64>, Vec<f64>),
}

impl Work {
    fn new(count: usize) -> Self {
        let zeros = || vec![0.0; count];
        Work { a: zeros(), g: zeros(), e: zeros(), slope: zeros(), before: (Vec::new(), Vec::new()) }
    }

    /// From the leaves to the source. False when a pivot is not positive.
    fn eliminate(&mut self, tree: &Tree, asked: &Asked, state: &State) -> bool {
        for (node, point) in tree.nodes.iter().enumerate() {
            let (power, volts) = (asked.power[node], state.volts[node]);
            let pull = if power > 0.0 { power / volts } else { 0.0 };
            self.a[node] = asked.current[node] + 2.0 * pull;
            self.g[node] = point.conductance - pull / volts;
            let (drop, slope) = point.law.drop(state.amps[node]);
            self.slope[node] = slope;
            self.e[node] = drop - slope * state.amps[node];
        }
        for node in (0..tree.nodes.len()).rev() {
            let (a, g) = (self.a[node], self.g[node]);
            let pivot = 1.0 + g * self.slope[node];
            if pivot.is_nan() || pivot <= 0.0 {
                return false;
            }
            self.a[node] = (a - g * self.e[node]) / pivot;
            self.g[node] = g / pivot;
            if node > 0 {
                let parent = tree.nodes[node].parent;
                self.a[parent] += self.a[node];
                self.g[parent] += self.g[node];
            }
        }
        true
    }

    /// From the source to the leaves. The largest change of a voltage.
    fn substitute(&mut self, tree: &Tree, state: &mut State) -> f64 {
        self.before.0.clone_from(&state.volts);
        self.before.1.clone_from(&state.amps);
        let mut change = 0f64;
        for (node, point) in tree.nodes.iter().enumerate() {
            let near = if node == 0 { tree.feed } else { state.volts[point.parent] };
            let amps = self.a[node] + self.g[node] * near;
            let volts = near - self.e[node] - self.slope[node] * amps;
            let moved = (volts - state.volts[node]).abs();
            change = if moved.is_nan() { f64::NAN } else { change.max(moved) };
            state.amps[node] = amps;
            state.volts[node] = volts;
        }
        change
    }

    /// Half way back to the state before the last step.
    fn back_half(&self, state: &mut State) {
        let halve = |now: &mut [f64], before: &[f64]| {
            now.iter_mut().zip(before).for_each(|(n, b)| *n = (*n + b) / 2.0);
        };
        halve(&mut state.volts, &self.before.0);
        halve(&mut state.amps, &self.before.1);
    }
}
