//! Which voltages stand everywhere in the five cases that matter?
//!
//! 1. All steady loads on, the service battery at its lowest; of loads that never run together one, and for each
//!    load the one that pulls it down most.
//! 2. The same, and a start on top: each start that there is, the worst counts.
//! 3. Charging with little load: the highest voltage at the loads.
//! 4. The charger's feed at the lowest voltage of the starter side.
//! 5. Nothing on: every point has the battery's voltage, nothing to solve.
//!
//! Method: the network solution, with each run's copper warming in proportion
//! to its own heat, fitted to the heat balance at the run's largest current;
//! during a start the copper keeps its working temperature. Loads that the
//! cables cannot feed are taken out, reported, and the rest solved again.

use crate::engine::installation::circuits::{Side, Topology};
use crate::engine::physics::copper::{MELTING, warmed};
use crate::engine::physics::network;
use crate::engine::physics::network::circuit::{Branch, Network, Point, Source};
use crate::engine::physics::network::collapse::Collapse;
use crate::engine::physics::network::solution::BranchState;
use crate::engine::physics::network::solve::NoSolution;
use crate::engine::physics::network::warming::Warming;
use crate::engine::physics::reckon::Reckoned;
use crate::engine::simulate::circuit::demand::{Demand, Terminal};
use crate::engine::simulate::circuit::levels::Levels;
use crate::engine::simulate::circuit::picked::Picked;
use crate::engine::simulate::circuit::result::Settled;
use crate::quantity::*;
use crate::reckon;
use std::collections::{BTreeMap, BTreeSet};

/// Most starts that are solved one by one; the deepest by a first estimate.
const MOST_STARTS: usize = 64;

/// Voltages by branch and by terminal.
#[derive(Clone, Debug, Default)]
pub struct Cases {
    /// Case 1 and 4, by branch.
    pub settled: Vec<Settled>,
    /// Which terminals are on in case 1 and 4: of each group the one that draws most.
    pub on: Vec<bool>,
    /// Case 1 and 4: lowest voltage at each terminal, whichever of each group is on; `None` where it cannot be fed.
    /// For a source its rise or drop counts.
    pub steady: Vec<Option<Volts>>,
    /// Case 2: lowest voltage at each terminal.
    pub start: Vec<Option<Volts>>,
    /// Case 3: highest voltage at each terminal.
    pub charging: Vec<Option<Volts>>,
    /// Drop between each terminal and its battery, case 1, 3 (sources) or 4.
    pub drop: Vec<Volts>,
    /// Terminals that cannot be fed, with the most that can.
    pub collapsed: Vec<(usize, Box<Collapse>)>,
}

impl Cases {
    /// Lowest voltage at a terminal while something starts; `None` where nothing does, or it cannot be fed.
    pub fn at_start(&self, terminal: usize) -> Option<Reckoned<Volts, 2>> {
        let (steady, start) = self.steady[terminal].zip(self.start[terminal])?;
        Some(reckon!(Volts: min(V, S),
            V: "all steady loads on" = steady, S: "lowest of all starts on top of these" = start))
    }
}

/// What is lost between a battery and what it feeds.
pub fn lost(battery: Volts, volts: Volts) -> Reckoned<Volts, 2> {
    reckon!(Volts: V - W,
        V: "lowest voltage of the battery" = battery, W: "voltage at its terminals" = volts)
}

/// Solve all cases.
pub fn cases(topology: &Topology, demand: &Demand, levels: &Levels, picked: &Picked) -> Cases {
    let count = demand.terminals.len();
    let mut out = Cases {
        settled: vec![Settled::default(); topology.branches.len()],
        on: vec![false; count],
        steady: vec![None; count],
        start: vec![None; count],
        charging: vec![None; count],
        drop: vec![Volts::ZERO; count],
        collapsed: Vec::new(),
    };
    for side in [Side::Service, Side::Feed] {
        let mut grid = Grid::new(topology, demand, levels, picked, side);
        grid.steady(&mut out);
        grid.starts(&mut out);
        grid.charging(&mut out);
    }
    out
}

/// The network of one side.
struct Grid<'a> {
    demand: &'a Demand,
    levels: &'a Levels,
    picked: &'a Picked<'a>,
    side: Side,
    /// Topology branch of each network branch, and back.
    branches: Vec<usize>,
    place: Vec<usize>,
    parents: Vec<Option<usize>>,
    network: Network,
    /// Terminals of this side that draw.
    draws: Vec<usize>,
    /// Terminals of this side that feed.
    feeds: Vec<usize>,
    /// Terminals that cannot be fed.
    out: Vec<usize>,
}

impl<'a> Grid<'a> {
    fn new(topology: &Topology, demand: &'a Demand, levels: &'a Levels, picked: &'a Picked<'a>, side: Side) -> Self {
        let branches: Vec<usize> =
            (0..topology.branches.len()).filter(|b| topology.branches[*b].side == side).collect();
        let mut place = vec![usize::MAX; topology.branches.len()];
        branches.iter().enumerate().for_each(|(n, b)| place[*b] = n);
        let parents = branches.iter().map(|b| topology.branches[*b].parent).collect();
        let network = Network {
            source: Source {
                voltage: if side == Side::Service { levels.lowest } else { levels.feed },
                internal: Ohms::ZERO,
            },
            loads: Vec::new(),
            branches: branches
                .iter()
                .map(|b| branch(picked, *b, topology.branches[*b].parent.map(|p| place[p])))
                .collect(),
        };
        let here = |t: &Terminal| match t.branch {
            Some(b) => topology.branches[b].side == side,
            None => side == Side::Service,
        };
        let of = |feeds: bool| {
            let all = demand.terminals.iter().enumerate();
            all.filter(|(_, t)| here(t) && t.end.feeds() == feeds).map(|(i, _)| i).collect()
        };
        let (draws, feeds) = (of(false), of(true));
        Grid { demand, levels, picked, side, branches, place, parents, network, draws, feeds, out: Vec::new() }
    }

    fn terminal(&self, index: usize) -> &'a Terminal {
        &self.demand.terminals[index]
    }

    /// Terminals that are on together, of each group the largest.
    fn together(&self) -> Vec<usize> {
        let current = |i: usize| self.terminal(i).current;
        let largest = |i: usize| {
            let group = self.terminal(i).group;
            let same = self.draws.iter().copied().filter(|d| self.terminal(*d).group == group);
            group.is_none() || same.max_by(|a, b| current(*a).get().total_cmp(&current(*b).get())) == Some(i)
        };
        self.draws.iter().copied().filter(|i| largest(*i) && !self.out.contains(i)).collect()
    }

    fn put(&mut self, terminals: &[usize]) {
        self.network.loads.clear();
        self.network.branches.iter_mut().for_each(|b| b.loads.clear());
        for index in terminals {
            self.add(*index, self.demand.terminals[*index].asks);
        }
    }

    fn add(&mut self, index: usize, load: network::load::Load) {
        match self.demand.terminals[index].branch {
            Some(branch) => self.network.branches[self.place[branch]].loads.push(load),
            None => self.network.loads.push(load),
        }
    }

    /// Each branch of the network, solved.
    fn solve(&mut self, terminals: &[usize], start: Option<usize>) -> Result<Vec<BranchState>, Option<Box<Collapse>>> {
        self.put(terminals);
        if let Some(index) = start {
            let extra = self.terminal(index).extra;
            self.add(index, network::load::Load::Current(extra));
        }
        match self.network.solve() {
            Ok(solution) => Ok(solution.branches),
            Err(NoSolution::Collapse(collapse)) => Err(Some(collapse)),
            Err(_) => Err(None),
        }
    }

    fn voltage(&self, solved: &[BranchState], index: usize) -> Volts {
        match self.terminal(index).branch.and_then(|branch| solved.get(self.place[branch])) {
            Some(state) => state.voltage,
            None => self.network.source.voltage,
        }
    }

    fn steady(&mut self, out: &mut Cases) {
        let solved = self.settle(out);
        for (n, branch) in self.branches.iter().enumerate() {
            out.settled[*branch] = self.settled(&solved, n);
        }
        let on = self.together();
        on.iter().for_each(|i| out.on[*i] = true);
        self.lower(out, &on, &solved);
        // Whoever hangs beside a member of a group has the least when just that one is on.
        let others: BTreeSet<Vec<usize>> =
            self.draws.iter().filter(|i| !self.out.contains(i)).map(|i| self.worst_for(*i)).collect();
        for together in others.into_iter().filter(|together| *together != on) {
            if let Ok(solved) = self.solve(&together, None) {
                self.lower(out, &together, &solved);
            }
        }
    }

    /// Keep the lowest voltage of each of these terminals.
    fn lower(&self, out: &mut Cases, terminals: &[usize], solved: &[BranchState]) {
        for &index in terminals {
            let volts = out.steady[index].map_or(Volts::new(f64::INFINITY), |v| v).min(self.voltage(solved, index));
            out.steady[index] = Some(volts);
            out.drop[index] = lost(self.network.source.voltage, volts).value;
        }
    }

    /// All that is on together, of each group the one that pulls this terminal down most.
    fn worst_for(&self, index: usize) -> Vec<usize> {
        let feeding: BTreeSet<usize> = self.path(index).collect();
        let pull = |other: usize| {
            let shared = self.path(other).filter(|b| feeding.contains(b));
            let ohms: Ohms = shared.map(|b| self.picked.runs[b].chosen().resistance).sum();
            (self.terminal(other).current * ohms, self.terminal(other).current)
        };
        let mut chosen: BTreeMap<usize, usize> = BTreeMap::new();
        for &other in self.draws.iter().filter(|i| !self.out.contains(i)) {
            let Some(group) = self.terminal(other).group else { continue };
            let best = chosen.entry(group).or_insert(other);
            if *best != index && (other == index || pull(other) > pull(*best)) {
                *best = other;
            }
        }
        let on = |i: &usize| !self.out.contains(i) && self.terminal(*i).group.is_none_or(|g| chosen.get(&g) == Some(i));
        self.draws.iter().copied().filter(on).collect()
    }

    /// Branches from a terminal to its battery.
    fn path(&self, index: usize) -> impl Iterator<Item = usize> {
        std::iter::successors(self.terminal(index).branch, |b| self.parents[self.place[*b]])
    }

    /// A branch of the network; without a solution nothing flows in it.
    fn settled(&self, solved: &[BranchState], n: usize) -> Settled {
        let source = self.network.source.voltage;
        let (Some(state), Some(branch)) = (solved.get(n), self.network.branches.get(n)) else {
            return Settled { near: source, far: source, ..Settled::default() };
        };
        let near = self.parents[n].and_then(|p| solved.get(self.place[p])).map_or(source, |s| s.voltage);
        Settled {
            near,
            far: state.voltage,
            current: state.current,
            resistance: warmed(branch.copper, state.temperature) + branch.fixed,
            temperature: state.temperature,
        }
    }

    /// All that can be fed together, solved; what cannot is taken out and noted.
    fn settle(&mut self, out: &mut Cases) -> Vec<BranchState> {
        for _ in 0..=self.draws.len() {
            let on = self.together();
            match self.solve(&on, None) {
                Ok(solved) => return solved,
                Err(Some(collapse)) => {
                    let at = |i: &usize| match (collapse.at, self.terminal(*i).branch) {
                        (Point::End(n), Some(branch)) => self.place[branch] == n,
                        (Point::Terminals, None) => true,
                        _ => false,
                    };
                    let worst = on
                        .iter()
                        .copied()
                        .filter(at)
                        .max_by(|a, b| self.terminal(*a).current.get().total_cmp(&self.terminal(*b).current.get()));
                    let Some(index) = worst.or(on.first().copied()) else { return Vec::new() };
                    self.out.push(index);
                    out.collapsed.push((index, collapse));
                }
                Err(None) => return Vec::new(),
            }
        }
        Vec::new()
    }

    /// A start on top of all that is on, the copper as warm as it works.
    fn starts(&mut self, out: &mut Cases) {
        let mut starts: Vec<(f64, usize)> = self
            .draws
            .iter()
            .filter(|i| self.terminal(**i).extra > Amps::ZERO && !self.out.contains(i))
            .map(|i| (self.dip(*i), *i))
            .collect();
        starts.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        let warming: Vec<Warming> = self.network.branches.iter().map(|b| b.warming).collect();
        for (n, branch) in self.branches.iter().enumerate() {
            self.network.branches[n].warming = Warming::Held(self.picked.runs[*branch].chosen().temperature);
        }
        for (_, index) in starts.into_iter().take(MOST_STARTS) {
            let on = self.worst_for(index);
            let Ok(solved) = self.solve(&on, Some(index)) else { continue };
            for other in on {
                let volts = self.voltage(&solved, other);
                out.start[other] = Some(out.start[other].map_or(volts, |v| v.min(volts)));
            }
        }
        self.network.branches.iter_mut().zip(warming).for_each(|(b, w)| b.warming = w);
    }

    /// First estimate of how far a start pulls its own load down.
    fn dip(&self, index: usize) -> f64 {
        let ohms: Ohms = self.path(index).map(|b| self.picked.runs[b].chosen().resistance).sum();
        (self.terminal(index).extra * ohms).get()
    }

    /// Sources alone: what is lost on the way to the battery, and the highest voltage at the loads.
    fn charging(&mut self, out: &mut Cases) {
        if self.side == Side::Feed || self.feeds.is_empty() {
            return;
        }
        let feeds = self.feeds.clone();
        if let Ok(solved) = self.solve(&feeds, None) {
            for index in feeds {
                let volts = self.voltage(&solved, index);
                out.steady[index] = Some(volts);
                out.drop[index] = volts - self.network.source.voltage;
            }
        }
        // A source holds its own terminals at the charge voltage at most; with little load nothing is lost beyond.
        for index in &self.draws {
            out.charging[*index] = Some(self.levels.charging);
        }
    }
}

fn branch(picked: &Picked, index: usize, parent: Option<usize>) -> Branch {
    let run = &picked.runs[index];
    let (chosen, current) = (run.chosen(), run.asked.current);
    let air = run.asked.laid.air;
    let heat = current * (current * chosen.cold);
    let factor = crate::engine::physics::copper::warm_factor(chosen.temperature);
    let warming = if heat > Watts::new(1e-6) && chosen.temperature < MELTING {
        Warming::Linear { air, rise: (chosen.temperature - air).max(Kelvins::ZERO), at_loss: heat * factor }
    } else {
        Warming::Held(chosen.temperature)
    };
    Branch {
        from: parent.map_or(Point::Terminals, Point::End),
        copper: chosen.cold,
        fixed: run.asked.fixed(picked.shelf.cables[chosen.cable].conductor.area).value,
        warming,
        loads: Vec::new(),
    }
}
