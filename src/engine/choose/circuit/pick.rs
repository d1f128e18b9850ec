//! The sizes of all runs together: candidates, limits, the optimum, the usual way beside it.

use crate::engine::choose::circuit::optimum::{Choice, Node};
use crate::engine::choose::circuit::share::Weight;
use crate::engine::choose::circuit::{assortment, fuse_room, optimum, share};
use crate::engine::choose::fuse::grow::grow_for_fuses;
use crate::engine::choose::fuse::prospective_currents;
use crate::engine::installation::Installation;
use crate::engine::installation::circuits::Topology;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::candidate::{Asked, Candidate, Shelf};
use crate::engine::simulate::circuit::demand::{Demand, Terminal};
use crate::engine::simulate::circuit::fuse_room::FuseRoom;
use crate::engine::simulate::circuit::levels::Levels;
use crate::engine::simulate::circuit::picked::{Picked, PickedRun, free, tried_limit};
use crate::engine::simulate::circuit::result::{RunDesign, SizeRow};
use crate::engine::simulate::fault::fuse::FuseNeed;
use crate::quantity::*;

/// What sizing rests on.
#[derive(Clone, Copy, Debug)]
pub struct Given<'a, 'b> {
    /// The plan.
    pub site: &'a Installation,
    /// The battery as sized, for fault currents.
    pub battery: &'b BatteryDesign,
    /// The charger as sized, for fault currents.
    pub charger: &'b ChargerDesign,
    /// Currents and limits.
    pub demand: &'b Demand,
    /// Voltages of the sources.
    pub levels: Levels,
}

/// Most times that sizes and fuses, which depend on each other, are gone through.
const MOST_ROUNDS: usize = 6;

/// Choose the sizes; `None` when the catalogue has no insulation or no conductor.
///
/// A fuse must break the fault current at its place, which depends on the
/// sizes before it, and a fault at the far end must open it, which depends on
/// its own: sizes are chosen, the protection asked which fuses then come into
/// question and which cables must grow for them, and chosen again until it
/// asks for nothing more. Cables only grow from round to round.
pub fn pick<'a>(given: &Given<'a, '_>) -> Option<Picked<'a>> {
    let Given { site, demand, .. } = *given;
    let topology = &site.circuits;
    let mut shelf = Shelf::of(site);
    if shelf.family == 0 {
        return None;
    }
    let mut runs: Vec<PickedRun> = Vec::with_capacity(topology.branches.len());
    for (index, (branch, flow)) in topology.branches.iter().zip(&demand.flows).enumerate() {
        let run = site.runs.get(branch.run)?;
        let mut asked = Asked {
            run,
            laid: site.laid(run)?,
            current: flow.current,
            surge: flow.surge,
            starts: flow.starts,
            fuses: FuseRoom::none(),
            joints: site.joints(run),
            others: site.switches(run, &branch.far),
            link: Ohms::ZERO,
            least_for_fuse: SquareMillimetres::ZERO,
            smallest: site.smallest_size(),
        };
        asked.with_fuses(given.room(index, asked.laid.air, Amps::ZERO, &runs));
        let pinned = run.size.as_deref().and_then(|label| shelf.find(label));
        let (lay, candidates) = shelf.candidates(&asked, pinned);
        let pinned = pinned.and_then(|cable| candidates.iter().position(|c| c.cable == cable));
        runs.push(PickedRun {
            asked,
            lay,
            candidates,
            pinned,
            used: 0,
            shared: 0,
            share: None,
            left: None,
            short: None,
            stands: true,
        });
    }
    let mut picked = decide(site, shelf, runs, demand);
    let mut designs = picked.designs(given);
    let mut least = vec![SquareMillimetres::ZERO; site.runs.len()];
    for _ in 0..MOST_ROUNDS {
        let Given { battery, charger, .. } = *given;
        let mut again = picked.look_for_fuses(given, &designs);
        if grow_for_fuses(site, battery, charger, &designs, &mut least) {
            picked.grow(topology, &least);
            again = true;
        }
        if !again {
            break;
        }
        picked = decide(site, picked.shelf, picked.runs, demand);
        picked.use_in(topology, &mut designs);
    }
    Some(picked)
}

impl<'a> Given<'a, '_> {
    /// Fuses that come into question for a branch with this fault current at its place; `before` has its parents.
    fn room(&self, branch: usize, air: Celsius, fault: Amps, before: &[PickedRun<'a>]) -> FuseRoom<'a> {
        let own = &self.site.circuits.branches[branch];
        let (Some(run), Some(flow)) = (self.site.runs.get(own.run), self.demand.flows.get(branch)) else {
            return FuseRoom::none();
        };
        if !run.own_fuse {
            let parent = own.parent.and_then(|p| before.get(p));
            return parent.map_or_else(FuseRoom::none, |r| r.asked.fuses.shared());
        }
        let need = fuse_room::need(self.site, air, flow, self.levels.charging);
        fuse_room::fuse_room(&self.site.catalogue, run, &FuseNeed { prospective: fault, ..need })
    }
}

impl<'a> Picked<'a> {
    /// The runs as the protection needs to see them.
    fn designs(&self, given: &Given) -> Vec<RunDesign> {
        let mut designs: Vec<RunDesign> = vec![RunDesign::default(); given.site.runs.len()];
        for (branch, run) in given.site.circuits.branches.iter().zip(&self.runs) {
            let row = |c: &Candidate| {
                let cable = &self.shelf.cables[c.cable];
                let (label, area) = (cable.label().to_string(), cable.conductor.area);
                SizeRow { label, area, ampacity: c.ampacity.used(), ..SizeRow::default() }
            };
            let Some(design) = designs.get_mut(branch.run) else { continue };
            design.air = run.asked.laid.air;
            design.current = run.asked.current;
            design.surge = run.asked.surge;
            design.starts = run.asked.starts;
            design.sizes = run.candidates.iter().map(row).collect();
        }
        self.use_in(&given.site.circuits, &mut designs);
        designs
    }

    /// Note the sizes used.
    fn use_in(&self, topology: &Topology, designs: &mut [RunDesign]) {
        for (branch, run) in topology.branches.iter().zip(&self.runs) {
            if let Some(design) = designs.get_mut(branch.run) {
                design.size = design.sizes.get(run.used).cloned();
            }
        }
    }

    /// Fuses that break the fault currents with the sizes used; whether any run has others in question than before.
    fn look_for_fuses(&mut self, given: &Given<'a, '_>, designs: &[RunDesign]) -> bool {
        let Given { site, battery, charger, .. } = *given;
        let faults = prospective_currents(site, battery, charger, designs);
        let mut changed = false;
        for branch in 0..self.runs.len() {
            let air = self.runs[branch].asked.laid.air;
            let room = given.room(branch, air, faults.get(branch).copied().unwrap_or(Amps::ZERO), &self.runs);
            let run = &mut self.runs[branch];
            // A place that no style can break is the protection's to report, not a reason for more copper.
            if room.first().is_some() && !room.same(&run.asked.fuses) {
                changed = true;
                run.asked.with_fuses(room);
                run.refuse(&self.shelf);
            }
        }
        changed
    }

    /// No size under what the fuses ask for.
    fn grow(&mut self, topology: &Topology, least: &[SquareMillimetres]) {
        for (branch, run) in topology.branches.iter().zip(&mut self.runs) {
            let least = least.get(branch.run).copied().unwrap_or(SquareMillimetres::ZERO);
            if least > run.asked.least_for_fuse {
                run.asked.least_for_fuse = least;
                run.refuse(&self.shelf);
            }
        }
    }
}

impl PickedRun<'_> {
    /// Judge every size again after the fuses in question have changed.
    fn refuse(&mut self, shelf: &Shelf) {
        for candidate in &mut self.candidates {
            candidate.fused(&self.asked, shelf.cables[candidate.cable].conductor.area);
        }
    }
}

/// Branches as the optimum sees them, with the candidate each option stands for.
pub(crate) struct Question {
    pub nodes: Vec<Node>,
    of_option: Vec<Vec<usize>>,
}

impl Question {
    /// Which cable of the shelf each option is.
    pub fn labels(&self, runs: &[PickedRun]) -> Vec<Vec<usize>> {
        let of = |(options, run): (&Vec<usize>, &PickedRun)| options.iter().map(|c| run.candidates[*c].cable).collect();
        self.of_option.iter().zip(runs).map(of).collect()
    }
}

fn decide<'a>(site: &Installation, shelf: Shelf<'a>, runs: Vec<PickedRun<'a>>, demand: &Demand) -> Picked<'a> {
    let mut runs = runs;
    for run in &mut runs {
        run.stands = run.candidates.iter().any(Candidate::stands);
        run.left = None;
        run.short = None;
    }
    let (question, hopeless) = question(&runs, &site.circuits, demand);
    let weights: Vec<Weight> = runs
        .iter()
        .map(|r| Weight {
            metre_amps: r.asked.run.length.get() * r.asked.current.get(),
            fixed: r.asked.current * r.asked.fixed_at_most(),
        })
        .collect();
    let allowed = share::allowances(&question.nodes, &weights);
    let shared = share::choose(&question.nodes, &allowed);
    let shared_mass = optimum::mass_if_kept(&question.nodes, &shared);
    let wanted = site.rules.most_sizes.map(|n| n.max(1) as usize);
    let best = optimum::lightest(&question.nodes, shared_mass);
    let labels = question.labels(&runs);
    let few = wanted.zip(best.as_ref()).map(|(most, best)| assortment::at_most(&question.nodes, &labels, best, most));
    let few_enough = few.as_ref().is_none_or(Option::is_some);
    let best = few.flatten().or(best);
    // With hopeless ends left out, the sizes with the least drop always keep the rest.
    let (choice, exact) = best.map_or_else(|| (shared.clone(), false), |a| (a.choice, a.exact));
    let mut picked = Picked { shelf, runs, hopeless, mass: Kilograms::ZERO, shared_mass, exact, few_enough };
    for (branch, run) in picked.runs.iter_mut().enumerate() {
        run.used = question.of_option[branch][choice[branch]];
        run.shared = question.of_option[branch][shared[branch]];
        run.share = allowed[branch];
    }
    picked.mass = picked.runs.iter().map(|r| r.chosen().mass).sum();
    picked.leave(&site.circuits, demand);
    picked
}

pub(crate) fn question(runs: &[PickedRun], topology: &Topology, demand: &Demand) -> (Question, Vec<bool>) {
    let of_option: Vec<Vec<usize>> = runs.iter().map(free).collect();
    let least = |branch: usize| {
        let drops = of_option[branch].iter().map(|c| runs[branch].candidates[*c].drop);
        drops.fold(Volts::new(f64::INFINITY), Volts::min)
    };
    let mut reach: Vec<Volts> = Vec::with_capacity(runs.len());
    for (index, branch) in topology.branches.iter().enumerate() {
        let before = branch.parent.and_then(|p| reach.get(p)).copied().unwrap_or(Volts::ZERO);
        reach.push(before + least(index));
    }
    let limit = |t: &Terminal| tried_limit(t, t.branch.map_or(Volts::ZERO, |b| reach[b]));
    let over = |t: &Terminal| t.branch.is_some_and(|b| reach[b].get() > limit(t).get() + 1e-12);
    let hopeless: Vec<bool> = demand.terminals.iter().map(over).collect();
    let mut room: Vec<Option<Volts>> = vec![None; runs.len()];
    // Whether an end that can be served lies beyond, and whether any end does.
    let mut beyond = vec![(false, false); runs.len()];
    for (terminal, hopeless) in demand.terminals.iter().zip(&hopeless) {
        if let Some(branch) = terminal.branch {
            if !hopeless {
                let own = limit(terminal);
                room[branch] = Some(room[branch].map_or(own, |r| r.min(own)));
            }
            for b in topology.path_of(branch) {
                beyond[b] = (beyond[b].0 || !hopeless, true);
            }
        }
    }
    let mut of_option = of_option;
    let mut nodes = Vec::with_capacity(runs.len());
    for (index, run) in runs.iter().enumerate() {
        if beyond[index] == (false, true) {
            // Only what cannot be served lies beyond: the best that can be had.
            of_option[index] = of_option[index].iter().copied().last().into_iter().collect();
        }
        let choice = |c: &usize| Choice { drop: run.candidates[*c].drop, mass: run.candidates[*c].mass };
        let options = of_option[index].iter().map(choice).collect();
        nodes.push(Node { parent: topology.branches[index].parent, room: room[index], options });
    }
    (Question { nodes, of_option }, hopeless)
}

impl Picked<'_> {
    /// What each branch's tightest end has left.
    fn leave(&mut self, topology: &Topology, demand: &Demand) {
        for (terminal, hopeless) in demand.terminals.iter().zip(self.hopeless.clone()) {
            let Some(branch) = terminal.branch else { continue };
            let left = terminal.limit - self.drop_to(topology, branch);
            for b in topology.path_of(branch) {
                let run = &mut self.runs[b];
                let tightest = if hopeless { &mut run.short } else { &mut run.left };
                *tightest = Some(tightest.map_or(left, |l| l.min(left)));
            }
        }
    }
}
