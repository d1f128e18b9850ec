//! What must be wrong at and beyond a branch, whatever is chosen there?
//!
//! Of two devices in a row either the upper is so much the larger or slower, or
//! it may open too; some open on a start wherever they stand; some open too late
//! on a fault at the far end even with the best cable behind the best others.
//! The least of it at and beyond a branch, for each device that may stand before
//! it, is worked out when it is asked for, and kept. What depends on the
//! cables is taken at its best: what is found is never more than there will be.

use crate::engine::choose::circuit::offer::{Offer, Offered};
use crate::engine::choose::fuse::options::{Device, RISES, SERVICE, STOP, base_need, unbroken, weight};
use crate::engine::judge::fuse::faults::far_grade;
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::physics::fuse_link::let_through::cable_stands;
use crate::engine::simulate::fault::backer::{Backer, Backup};
use crate::engine::simulate::fault::current::{FarFault, Prospective};
use crate::engine::simulate::fault::fuse::{Fuse, FuseNeed};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::engine::simulate::fault::selectivity::{ChainLink, never_part};
use crate::quantity::*;

/// The faults of a branch at their best: the least as large, the largest as small as any choice makes them.
#[derive(Clone, Copy, Debug, Default)]
struct Faults {
    /// The way of the one at the far end, hot, the link of the device that clears it left out.
    way: Ohms,
    /// At the near end.
    near: Prospective,
}

/// The faults of all branches, parents first.
fn faults(loops: &FaultLoops, offers: &[Offer]) -> Vec<Faults> {
    let coldest = loops.site.surroundings.coldest;
    // Before each branch: hot copper and warm links at the least, cold copper and cold links at the most.
    let mut before: Vec<[Ohms; 4]> = Vec::with_capacity(offers.len());
    let mut out = Vec::with_capacity(offers.len());
    for (branch, offer) in offers.iter().enumerate() {
        let parent = loops.branch(branch).and_then(|b| b.parent);
        let here = parent.map_or([Ohms::ZERO; 4], |parent| {
            let [hot, warm, cold, links] = before[parent];
            let (least, most) = offers[parent].links();
            [hot + offers[parent].best.hot(), warm + least, cold + offers[parent].coldest(coldest), links + most]
        });
        before.push(here);
        let clears = loops.upward(branch).find(|&b| offers[b].fused).unwrap_or(branch);
        let way = here[0] + offer.best.hot() + before[clears][1];
        out.push(Faults { way, near: loops.prospective_behind(branch, (here[2], here[3])) });
    }
    out
}

/// The far-end fault of a branch at its largest, with such a device to clear it.
fn far_with(loops: &FaultLoops, branch: usize, faults: Faults, (style, rating): Device) -> Option<FarFault> {
    loops.far_fault_over(branch, faults.way + style.warm_resistance(rating))
}

/// Beyond the near end of each branch, by which of the devices stands at the nearest branch before it that has one.
#[derive(Clone, Debug)]
pub struct Unavoidable<'a> {
    needs: Vec<Option<FuseNeed>>,
    faults: Vec<Faults>,
    /// The nearest branch before with a fuse of its own, and whether that feeds anything else.
    before: Vec<Option<(usize, bool)>>,
    /// Whichever device stands before it.
    floor: Vec<f64>,
    least: Vec<Vec<Option<f64>>>,
    own: Vec<Vec<Option<f64>>>,
    /// By branch, for each device before it and each of its own, what is wrong between the two; not a number until
    /// asked for.
    pairs: Vec<Vec<f64>>,
    offers: &'a [Offer<'a>],
}

impl<'a> Unavoidable<'a> {
    /// `offers` has what each branch may have.
    pub fn of(loops: &FaultLoops, offers: &'a [Offer<'a>]) -> Self {
        let mut out = Unavoidable {
            needs: (0..offers.len()).map(|branch| base_need(loops, branch)).collect(),
            faults: faults(loops, offers),
            before: Vec::with_capacity(offers.len()),
            floor: vec![0.0; offers.len()],
            least: Vec::with_capacity(offers.len()),
            pairs: vec![Vec::new(); offers.len()],
            own: offers.iter().map(|offer| vec![None; offer.devices.len()]).collect(),
            offers,
        };
        for branch in 0..offers.len() {
            let before = loops.upward(branch).skip(1).find(|&b| offers[b].fused);
            out.before.push(before.map(|b| (b, loops.cuts_off(b, branch))));
            out.least.push(vec![None; before.map_or(1, |b| offers[b].devices.len())]);
        }
        for branch in (0..offers.len()).rev() {
            let beyond: f64 = loops.branch(branch).into_iter().flat_map(|b| &b.children).map(|&c| out.floor[c]).sum();
            let fits = offers[branch].devices.iter().any(|d| d.device.is_some());
            out.floor[branch] = beyond + if offers[branch].fused && !fits { STOP } else { 0.0 };
        }
        out
    }

    /// At and beyond a branch whichever device stands before it.
    pub fn floor(&self, branch: usize) -> f64 {
        self.floor[branch]
    }

    /// At and beyond a branch, with such a device before it.
    pub fn least(&mut self, loops: &FaultLoops, branch: usize, state: usize) -> f64 {
        if let Some(known) = self.least[branch].get(state).copied().flatten() {
            return known;
        }
        let offers = self.offers;
        let children = loops.branch(branch).map_or(&[][..], |b| &b.children);
        let mut best = f64::INFINITY;
        if offers[branch].fused {
            for kind in 0..offers[branch].devices.len() {
                let mut sum = self.own(loops, branch, kind);
                if sum < best {
                    sum += self.apart(loops, branch, state, kind);
                }
                for &child in children {
                    if sum < best {
                        sum += self.least(loops, child, kind);
                    }
                }
                best = best.min(sum);
                if best <= 0.0 {
                    break;
                }
            }
        } else {
            best = self.here(loops, branch, state, 0);
            for &child in children {
                best += self.least(loops, child, state);
            }
        }
        if let Some(known) = self.least[branch].get_mut(state) {
            *known = Some(best);
        }
        best
    }

    /// At a branch with one of its devices, with such a one before it.
    pub fn here(&mut self, loops: &FaultLoops, branch: usize, state: usize, kind: usize) -> f64 {
        if self.offers[branch].fused {
            return self.own(loops, branch, kind) + self.apart(loops, branch, state, kind);
        }
        self.kept(branch, state, 0, |all| all.without(loops, branch, state))
    }

    /// Between a device and the one before it.
    fn apart(&mut self, loops: &FaultLoops, branch: usize, state: usize, kind: usize) -> f64 {
        self.kept(branch, state, kind, |all| {
            let down = all.offers[branch].devices[kind].device;
            all.between(loops, branch, all.device_before(branch, state), down, None)
        })
    }

    /// Worked out once for each device and each before it.
    fn kept(&mut self, branch: usize, state: usize, kind: usize, of: impl Fn(&Self) -> f64) -> f64 {
        let own = self.offers[branch].devices.len();
        let rows = &mut self.pairs[branch];
        if rows.len() < (state + 1) * own {
            rows.resize(self.least[branch].len().max(state + 1) * own, f64::NAN);
        }
        let at = state * own + kind;
        if rows[at].is_nan() {
            let found = of(self);
            self.pairs[branch][at] = found;
        }
        self.pairs[branch][at]
    }

    fn device_before(&self, branch: usize, state: usize) -> Option<Device<'a>> {
        let (before, _) = self.before.get(branch).copied().flatten()?;
        self.offers[before].devices.get(state)?.device
    }

    /// What is wrong between a device and the one before it wherever they stand; `near`: the largest fault there, where
    /// that is known better.
    pub fn between(
        &self,
        loops: &FaultLoops,
        branch: usize,
        up: Option<Device>,
        down: Option<Device>,
        near: Option<(Option<FarFault>, Amps)>,
    ) -> f64 {
        let (Some(up), Some(down)) = (up, down) else { return 0.0 };
        let rising = if down.1 > up.1 { RISES } else { 0.0 };
        if !self.before[branch].is_some_and(|(_, others)| others) {
            return rising;
        }
        let faults = self.faults[branch];
        let (far, most) = near.unwrap_or_else(|| (far_with(loops, branch, faults, down), faults.near.amps));
        let least = far.map_or(down.1, |f| f.amps);
        let link = |(style, rating)| ChainLink { style, rating };
        let ratio = FuseLimits::of(&loops.site.catalogue).selectivity();
        let apart = !never_part(link(up), link(down), ratio, least, most);
        rising + if apart { 0.0 } else { SERVICE }
    }

    /// What is wrong with a device whatever else is chosen.
    pub fn own(&mut self, loops: &FaultLoops, branch: usize, kind: usize) -> f64 {
        if let Some(known) = self.own[branch][kind] {
            return known;
        }
        let offered = &self.offers[branch].devices[kind];
        let found = self.alone(loops, branch, offered).unwrap_or(STOP);
        self.own[branch][kind] = Some(found);
        found
    }

    /// With the best cable behind the best others: a start, a fault that it does not break, one at the far end.
    fn alone(&self, loops: &FaultLoops, branch: usize, offered: &Offered<'a>) -> Option<f64> {
        let ((style, rating), faults) = (offered.device?, self.faults[branch]);
        let best = &self.offers[branch].best;
        let (near, far) = (faults.near, far_with(loops, branch, faults, (style, rating)));
        let stands = cable_stands(best.adiabatic_k, best.area);
        // One upstream may break it for this one.
        let backed = self.before[branch].is_some() || loops.sources.blocks.is_some();
        let nothing = Seconds::ZERO;
        let backer =
            Backup { by: Backer::Blocks, style, rating, clears: nothing, certain: true, remaining: Amps::ZERO };
        let fuse = Fuse {
            branch,
            far_end: false,
            need: FuseNeed { prospective: near.amps, likely: near.likely, ..self.needs[branch]? },
            prospective: near,
            backup: backed.then_some(backer),
            style: Some(style),
            rating: Some(rating),
            pinned: loops.run(branch).is_some_and(|r| r.fuse.is_some()),
            ruling: "",
            clearing: loops.cleared(style, rating, near.amps, far, stands),
        };
        let late: f64 = far_grade(loops, &fuse).map(weight).sum();
        Some(offered.own + unbroken(loops, &fuse) + late)
    }

    /// What is wrong with a branch without a device of its own, with such a one before it.
    fn without(&self, loops: &FaultLoops, branch: usize, state: usize) -> f64 {
        let Some((before, _)) = self.before[branch] else { return STOP };
        let Some((style, rating)) = self.device_before(branch, state) else { return 0.0 };
        let best = &self.offers[branch].best;
        let carries = FuseLimits::of(&loops.site.catalogue).at_most(best.ampacity);
        if rating + loops.joined_before(before, branch) > carries {
            return STOP;
        }
        let far = far_with(loops, branch, self.faults[branch], (style, rating));
        let stands = cable_stands(best.adiabatic_k, best.area);
        let fuse = Fuse {
            branch: before,
            far_end: false,
            need: FuseNeed::default(),
            prospective: Prospective::default(),
            backup: None,
            style: Some(style),
            rating: Some(rating),
            pinned: false,
            ruling: "",
            clearing: loops.cleared(style, rating, self.faults[before].near.amps, far, stands),
        };
        far_grade(loops, &fuse).map(weight).sum()
    }
}
