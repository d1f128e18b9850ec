//! What guards a run against the sources at its far end?
//!
//! A run is fed from both ends when a charger, a solar controller, a mains
//! charger or the other battery stands at or beyond its far end. There it needs
//! a fuse of its own, unless
//! - a fuse between it and that source already opens below what it carries:
//!   the one at the other battery's post, or of a run farther out; or
//! - all that stands there limits itself to less than it carries, so that no
//!   fuse would ever open (IEC 60364-4-43 clause 436, from memory).

use crate::engine::choose::fuse::pick::Fuse;
use crate::engine::installation::circuits::Side;
use crate::engine::simulate::circuit::result::FarEnd;
use crate::engine::simulate::fault::ground::Ground;
use crate::quantity::*;

/// Current that may come from beyond for ever, and what limits it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Inflow {
    amps: Amps,
    /// The run whose fuse is the largest part of it.
    guard: Option<(usize, Amps)>,
}

impl Inflow {
    fn add(&mut self, limit: Amps, guard: Option<(usize, Amps)>) {
        match guard {
            Some((run, rating)) if rating.get() < limit.get() => {
                self.amps += rating;
                if self.guard.is_none_or(|(_, r)| r.get() < rating.get()) {
                    self.guard = Some((run, rating));
                }
            }
            _ => self.amps += limit,
        }
    }
}

impl Ground<'_> {
    /// What guards a branch at its far end, given the near-end fuses of all.
    pub fn far_end(&self, branch: usize, near: &[Option<Fuse>]) -> FarEnd {
        let (Some(b), Some(link)) = (self.branch(branch), self.link(branch)) else { return FarEnd::Dead };
        if !b.source_beyond {
            return FarEnd::Dead;
        }
        let inflow = self.inflow(branch, b.side, near);
        let carries = self.rules.at_most(link.ampacity);
        if inflow.amps.get() <= carries.get() {
            return match inflow.guard {
                Some((run, rating)) => FarEnd::Guarded { run, rating },
                None => FarEnd::Limited(inflow.amps),
            };
        }
        if self.run(branch).is_some_and(|r| r.own_fuse) { FarEnd::Fused } else { FarEnd::Open }
    }

    fn inflow(&self, branch: usize, side: Side, near: &[Option<Fuse>]) -> Inflow {
        let mut inflow = Inflow::default();
        if side == Side::Service {
            for source in &self.sources.limited {
                let Some(&at) = self.site.circuits.to_point.get(source.at) else { continue };
                if self.is_beyond(at, branch) {
                    let between = self.upward(at).take_while(|&b| b != branch);
                    inflow.add(source.amps, self.smallest(between, near));
                }
            }
        }
        if let Some(relay) = self.branch_of_relay(side).filter(|&r| self.is_beyond(r, branch)) {
            let other = if side == Side::Service { Side::Feed } else { Side::Service };
            let own_way = self.upward(relay).take_while(|&b| b != branch);
            let other_way = self.branch_of_relay(other).into_iter().flat_map(|b| self.upward(b));
            let guard = self.smallest(own_way.chain(other_way), near);
            inflow.add(Amps::new(f64::INFINITY), guard);
        }
        inflow
    }

    /// The smallest fuse on a way.
    fn smallest(&self, way: impl Iterator<Item = usize>, near: &[Option<Fuse>]) -> Option<(usize, Amps)> {
        let rated = |b: usize| {
            let fuse = near.get(b)?.as_ref()?;
            Some((self.branch(b)?.run, fuse.rating?))
        };
        way.filter_map(rated).min_by(|a, b| a.1.get().total_cmp(&b.1.get()))
    }
}
