//! How much current may come into a run from beyond, for ever, and which fuse limits it?
//!
//! Each limited source at or beyond its far end gives its most, or what the
//! smallest fuse on its way lets through; the other battery, behind a relay,
//! only what a fuse lets through.

use crate::engine::installation::circuits::Side;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// Current that may come from beyond for ever, and what limits it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Inflow {
    /// In all.
    pub amps: Amps,
    /// The run whose fuse is the largest part of it.
    pub guard: Option<(usize, Amps)>,
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

impl FaultLoops<'_, '_> {
    /// What may come into a branch at its far end, given the near-end fuses of all.
    pub fn inflow(&self, branch: usize, near: &[Option<Fuse>]) -> Inflow {
        let mut inflow = Inflow::default();
        let Some(side) = self.branch(branch).map(|b| b.side) else { return inflow };
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
