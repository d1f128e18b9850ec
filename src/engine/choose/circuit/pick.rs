//! The sizes of all runs together: candidates, limits, the optimum, the usual way beside it.

use crate::catalogue::FuseStyle;
use crate::engine::choose::circuit::basis::Basis;
use crate::engine::choose::circuit::chosen::Chosen;
use crate::engine::choose::circuit::offer as cables;
use crate::engine::choose::circuit::optimum::{Choice, Node};
use crate::engine::choose::circuit::share::Weight;
use crate::engine::choose::circuit::together::{Found, together};
use crate::engine::choose::circuit::{assortment, fuse_room, optimum, share};
use crate::engine::choose::fuse::near::near_fuses;
use crate::engine::choose::fuse::options::{devices, stands};
use crate::engine::installation::circuits::Topology;
use crate::engine::installation::run::ways;
use crate::engine::physics::copper::hot_loop;
use crate::engine::physics::side_by_side::in_parts;
use crate::engine::simulate::circuit::candidate::{Asked, Candidate, Shelf};
use crate::engine::simulate::circuit::demand::{Demand, End, Terminal};
use crate::engine::simulate::circuit::fuse_room::FuseRoom;
use crate::engine::simulate::circuit::picked::{Picked, PickedRun, fails_drop, free, tried_limit};
use crate::engine::simulate::circuit::result::{Protector, RunDesign};
use crate::engine::simulate::fault::fuse::FuseNeed;
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;
use rustc_hash::FxHashMap;
use std::sync::Arc;

/// Choose the sizes and the devices; `None` when the catalogue has no insulation or no conductor.
///
/// Each run's own rules leave it some sizes; [`together`] chooses among them and among the devices that each
/// takes. What is shown of the others (the usual way beside it, the room that is left, which size fails what) is
/// worked out with the devices chosen.
pub fn pick<'a>(given: &Basis<'a, '_>) -> Option<Picked<'a>> {
    pick_after(given, None).map(|(picked, _)| picked)
}

/// The same, with what the search found: it is not made again where `former` was found for the same in an
/// installation that is the same in all that cables rest on.
pub fn pick_after<'a>(given: &Basis<'a, '_>, former: Option<&Arc<Chosen>>) -> Option<(Picked<'a>, Arc<Chosen>)> {
    let Basis { site, demand, battery, charger, .. } = *given;
    let mut shelf = Shelf::of(site);
    if shelf.family == 0 {
        return None;
    }
    let mut runs = given.runs(&mut shelf)?;
    let designs = designs(given, &runs);
    let mut loops = FaultLoops::new(site, battery, charger, &designs);
    for (branch, run) in runs.iter_mut().enumerate() {
        run.least_drops(&loops, branch, &shelf);
    }
    let (question, _) = question(&runs, &site.circuits, demand);
    let (of_option, asked) = question.asked(&runs, &shelf);
    let again = former.filter(|f| f.rests_on(given)).and_then(|f| Some((f.again(&mut loops, &asked)?, Arc::clone(f))));
    let (found, chosen) = again.or_else(|| {
        let found = together(&mut loops, &asked).or_else(|| {
            let free: Vec<_> = asked.iter().map(|a| cables::Asked { room: None, ..a.clone() }).collect();
            together(&mut loops, &free)
        })?;
        let chosen = Chosen::of(given, &found);
        Some((found, Arc::new(chosen)))
    })?;
    given.settle(&mut runs, &shelf, &mut loops, &of_option, &found);
    let few = given.few(&mut runs, &shelf, &mut loops, (&of_option, &asked), &found);
    let few_enough = few.is_none_or(|few| few);
    let no_less = if found.exact { None } else { optimum::no_less(&question.nodes) };
    let picked = Picked { few_enough, no_less, tried: found.tried, ..given.shown(shelf, runs, found.exact) };
    Some((picked, chosen))
}

impl<'a> Basis<'a, '_> {
    /// Every run with its candidates, no device chosen.
    fn runs(&self, shelf: &mut Shelf<'a>) -> Option<Vec<PickedRun<'a>>> {
        let asked: Option<Vec<Asked>> = (0..self.site.circuits.branches.len()).map(|b| self.asked(b)).collect();
        let asked = asked?;
        let lays: Vec<usize> = asked.iter().map(|one| shelf.lay(&one.laid)).collect();
        let shelf = &*shelf;
        let (alike, firsts) = alike(&asked, &lays);
        let carries = in_parts(firsts.len(), 8, |kind| shelf.carries(&asked[firsts[kind]], lays[firsts[kind]]));
        let run = |branch: usize| {
            let (asked, lay) = (asked[branch].clone(), lays[branch]);
            let pinned = asked.run.size.as_deref().and_then(|label| shelf.find(label));
            let candidates = shelf.candidates(&asked, lay, &carries[alike[branch]], pinned);
            let pinned = pinned.and_then(|cable| candidates.iter().position(|c| c.cable == cable));
            PickedRun {
                asked,
                protector: Protector::Open,
                lay,
                candidates,
                pinned,
                used: 0,
                shared: 0,
                share: None,
                left: None,
                short: None,
                stands: true,
            }
        };
        Some(in_parts(asked.len(), 32, run))
    }

    /// What a branch's run is like apart from its size; any fuse that fits comes into question.
    fn asked(&self, branch: usize) -> Option<Asked<'a>> {
        let (site, flow) = (self.site, self.demand.flows.get(branch)?);
        let branch = &site.circuits.branches[branch];
        let run = site.runs.get(branch.run)?;
        let laid = site.laid(run)?;
        let fuses = match run.own_fuse {
            true => {
                let need = fuse_room::need(site, laid.air, flow, self.levels.charging);
                fuse_room::fuse_room(&site.catalogue, run, &need)
            }
            false => FuseRoom::none(),
        };
        Some(Asked {
            run,
            laid,
            current: flow.current,
            pulsed: flow.pulsed,
            surge: flow.surge,
            starts: flow.starts,
            fuses,
            joints: site.joints(run),
            others: site.switches(run, &branch.far).value,
            link: Ohms::ZERO,
            least_for_fuse: SquareMillimetres::ZERO,
            smallest: site.smallest_size(),
        })
    }

    /// Take what was found: sizes, devices, and what of other sizes follows from them.
    fn settle(
        &self,
        runs: &mut [PickedRun<'a>],
        shelf: &Shelf,
        loops: &mut FaultLoops<'a, '_>,
        of_option: &[Vec<usize>],
        found: &Found<'a>,
    ) {
        let near = near_fuses(loops, &found.device);
        let styles = &self.site.catalogue.fuse_styles;
        for branch in 0..runs.len() {
            let need = near[branch].as_ref().map_or_else(FuseNeed::default, |f| f.need);
            let room = self.room(branch, runs[branch].asked.laid.air, &need, runs);
            let run = &mut runs[branch];
            run.used = of_option[branch][found.cable[branch]];
            let device = found.device[branch];
            let index = |(style, rating): (&FuseStyle, Amps)| {
                styles.iter().position(|s| std::ptr::eq(s, style)).map(|at| Protector::Of(at, rating))
            };
            run.protector = device.and_then(index).unwrap_or(Protector::Missing);
            run.asked.fuses = room;
            run.asked.link = device.map_or(Ohms::ZERO, |(style, rating)| style.warm_resistance(rating));
            run.refuse(shelf);
        }
    }

    /// With no more different sizes than the plan wishes, where that costs no rule; whether it could be done. `None`
    /// without a wish.
    fn few(
        &self,
        runs: &mut [PickedRun<'a>],
        shelf: &Shelf,
        loops: &mut FaultLoops<'a, '_>,
        (of_option, asked): (&[Vec<usize>], &[cables::Asked]),
        found: &Found<'a>,
    ) -> Option<bool> {
        let most = self.site.rules.most_sizes?.max(1) as usize;
        // No size under the one that the devices ask for.
        let mut grown = runs.to_vec();
        for run in &mut grown {
            run.asked.least_for_fuse = shelf.cables[run.chosen().cable].conductor.area;
            run.refuse(shelf);
        }
        let (question, _) = question(&grown, &self.site.circuits, self.demand);
        let labels = question.labels(&grown);
        let best = optimum::lightest(&question.nodes, None)?;
        let Some(answer) = assortment::at_most(&question.nodes, &labels, &best, most) else { return Some(false) };
        let mut sizes: Vec<usize> = labels.iter().zip(&answer.choice).map(|(l, c)| l[*c]).collect();
        sizes.sort_unstable();
        sizes.dedup();
        let mut narrow = Vec::with_capacity(asked.len());
        let mut of_narrow = Vec::with_capacity(asked.len());
        for (branch, asked) in asked.iter().enumerate() {
            let among = |i: &usize| sizes.contains(&runs[branch].candidates[of_option[branch][*i]].cable);
            let kept: Vec<usize> = (0..asked.cables.len()).filter(among).collect();
            of_narrow.push(kept.iter().map(|i| of_option[branch][*i]).collect::<Vec<_>>());
            narrow.push(cables::Asked { cables: kept.iter().map(|i| asked.cables[*i]).collect(), ..*asked });
        }
        match together(loops, &narrow).filter(|few| few.wrong <= found.wrong + 1e-6) {
            Some(few) => {
                self.settle(runs, shelf, loops, &of_narrow, &few);
                Some(true)
            }
            None => Some(false),
        }
    }

    /// All that is shown of the runs as chosen.
    fn shown(&self, shelf: Shelf<'a>, runs: Vec<PickedRun<'a>>, exact: bool) -> Picked<'a> {
        let (site, demand) = (self.site, self.demand);
        let mut runs = runs;
        for run in &mut runs {
            run.stands = run.candidates.iter().any(Candidate::stands);
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
        let mass = runs.iter().map(|r| r.chosen().mass).sum();
        let mut picked =
            Picked { shelf, runs, hopeless, mass, shared_mass, exact, tried: 0, no_less: None, few_enough: true };
        for (branch, run) in picked.runs.iter_mut().enumerate() {
            run.shared = question.of_option[branch][shared[branch]];
            run.share = allowed[branch];
        }
        picked.leave(&site.circuits, demand);
        picked.ask_for_fuses();
        picked
    }

    /// Fuses that come into question for a branch with such a fault at its place; `before` has its parents.
    fn room(&self, branch: usize, air: Celsius, fault: &FuseNeed, before: &[PickedRun<'a>]) -> FuseRoom<'a> {
        let own = &self.site.circuits.branches[branch];
        let (Some(run), Some(flow)) = (self.site.runs.get(own.run), self.demand.flows.get(branch)) else {
            return FuseRoom::none();
        };
        if !run.own_fuse {
            let parent = own.parent.and_then(|p| before.get(p));
            return parent.map_or_else(FuseRoom::none, |r| r.asked.fuses.shared());
        }
        let need = fuse_room::need(self.site, air, flow, self.levels.charging);
        let FuseNeed { prospective, likely, backed, .. } = *fault;
        fuse_room::fuse_room(&self.site.catalogue, run, &FuseNeed { prospective, likely, backed, ..need })
    }
}

/// Which runs are laid alike and carry the same: by branch its kind, and the first branch of each kind.
fn alike(asked: &[Asked], lays: &[usize]) -> (Vec<usize>, Vec<usize>) {
    let mut kinds = FxHashMap::default();
    let mut firsts = Vec::new();
    let of = |branch: usize| {
        let Asked { current, pulsed, .. } = &asked[branch];
        let pulsed = pulsed.map(|p| [p.cycle.on.get(), p.cycle.off.get(), p.rest.get()].map(f64::to_bits));
        *kinds.entry((lays[branch], current.get().to_bits(), pulsed)).or_insert_with(|| {
            firsts.push(branch);
            firsts.len() - 1
        })
    };
    ((0..asked.len()).map(of).collect(), firsts)
}

/// The runs as the protection needs to see them.
fn designs(given: &Basis, runs: &[PickedRun]) -> Vec<RunDesign> {
    let mut designs: Vec<RunDesign> = vec![RunDesign::default(); given.site.runs.len()];
    for (branch, run) in given.site.circuits.branches.iter().zip(runs) {
        let Some(design) = designs.get_mut(branch.run) else { continue };
        design.air = run.asked.laid.air;
        design.current = run.asked.current;
        design.pulsed = run.asked.pulsed;
        design.surge = run.asked.surge;
        design.starts = run.asked.starts;
    }
    designs
}

impl Picked<'_> {
    /// A size that the next smaller one could be, were it not for the devices: no size under it, and they are why.
    fn ask_for_fuses(&mut self) {
        for run in &mut self.runs {
            let below = run.used.checked_sub(1).and_then(|i| run.candidates.get(i));
            let devices = below.is_some_and(|below| below.stands() && !fails_drop(run, below));
            if devices && run.pinned.is_none() && self.few_enough {
                run.asked.least_for_fuse = self.shelf.cables[run.chosen().cable].conductor.area;
                run.refuse(&self.shelf);
            }
        }
    }
}

impl PickedRun<'_> {
    /// Judge every size again after the devices in question have changed.
    fn refuse(&mut self, shelf: &Shelf) {
        for candidate in &mut self.candidates {
            candidate.fused(&self.asked, shelf.cables[candidate.cable].conductor.area);
        }
    }

    /// Each size with the least drop that any device for it leaves.
    fn least_drops(&mut self, loops: &FaultLoops, branch: usize, shelf: &Shelf) {
        self.refuse(shelf);
        if !self.asked.run.own_fuse {
            return;
        }
        let Some(most) = self.candidates.iter().map(|c| c.ampacity.used()).reduce(Amps::max) else { return };
        let all = devices(loops, branch, most);
        for candidate in &mut self.candidates {
            let stands = stands(loops, branch, candidate.ampacity.used());
            let links = all.iter().filter(|d| d.1 <= stands).map(|(style, rating)| style.warm_resistance(*rating));
            let least = links.reduce(Ohms::min).unwrap_or(Ohms::ZERO);
            candidate.drop += self.asked.current * least;
        }
    }

    /// One of its sizes as a conductor of fault current, its device left out of the drop.
    fn cable(&self, candidate: &Candidate, shelf: &Shelf) -> cables::Cable {
        let area = shelf.cables[candidate.cable].conductor.area;
        let insulation = self.asked.laid.insulation;
        let link = Link {
            length: self.asked.run.length,
            ways: ways(self.asked.run),
            copper: candidate.cold,
            fixed: self.asked.joints.of(area).value + self.asked.others,
            hottest: insulation.max,
            adiabatic_k: insulation.adiabatic_k,
            area,
            ampacity: candidate.ampacity.used(),
            for_ever: candidate.ampacity.for_ever(),
        };
        let bare = hot_loop(candidate.cold, candidate.temperature, self.asked.fixed(area).value).value;
        cables::Cable { link, drop: self.asked.current * bare, mass: candidate.mass }
    }
}

/// Branches as the optimum sees them, with the candidate each option stands for.
pub(crate) struct Question {
    pub nodes: Vec<Node>,
    of_option: Vec<Vec<usize>>,
}

impl Question {
    /// The same for sizes and devices together, with the candidate that each cable is.
    fn asked(&self, runs: &[PickedRun], shelf: &Shelf) -> (Vec<Vec<usize>>, Vec<cables::Asked>) {
        let one = |(branch, run): (usize, &PickedRun)| {
            let cable = |c: &usize| run.cable(&run.candidates[*c], shelf);
            cables::Asked { cables: self.of_option[branch].iter().map(cable).collect(), room: self.nodes[branch].room }
        };
        (self.of_option.clone(), runs.iter().enumerate().map(one).collect())
    }

    /// Which cable of the shelf each option is.
    pub fn labels(&self, runs: &[PickedRun]) -> Vec<Vec<usize>> {
        let of = |(options, run): (&Vec<usize>, &PickedRun)| options.iter().map(|c| run.candidates[*c].cable).collect();
        self.of_option.iter().zip(runs).map(of).collect()
    }
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
    for (terminal, _) in demand.terminals.iter().zip(&hopeless).filter(|(_, hopeless)| !**hopeless) {
        if let Some(branch) = terminal.branch {
            let own = limit(terminal);
            room[branch] = Some(room[branch].map_or(own, |r| r.min(own)));
        }
    }
    // An end that no size serves asks nothing of its cables but that they carry it: whoever reads that changes
    // something else. Where a size that is given is in the way the others leave it as much as they can; and a charger
    // is fed as well as can be meanwhile, since what it gives depends on it.
    let helped = |terminal: &Terminal| {
        let given = |branch: usize| topology.path_of(branch).iter().any(|b| runs[*b].pinned.is_some());
        terminal.end == End::ChargerInput || terminal.branch.is_some_and(given)
    };
    let helped: Vec<bool> = demand.terminals.iter().zip(&hopeless).map(|(t, h)| *h && helped(t)).collect();
    let mut of_option = of_option;
    let mut nodes = Vec::with_capacity(runs.len());
    for (index, run) in runs.iter().enumerate() {
        let beyond = &demand.beyond[index];
        if beyond.iter().all(|t| hopeless[*t]) && beyond.iter().any(|t| helped[*t]) {
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
