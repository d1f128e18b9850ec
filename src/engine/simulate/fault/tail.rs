//! What would a load's own cable, which is not in the plan, bear of the device before it?
//!
//! Nobody has said what it is, so it is taken as it is usually made: two metres
//! of the thinnest size that carries the load, laid like the run that reaches
//! its point. A fault at its far end must open the device before the copper has
//! taken k² S², reckoned as for every run: low battery, hot copper.

use crate::engine::physics::copper::warmed;
use crate::engine::physics::fuse_link::gates::latest;
use crate::engine::physics::fuse_link::let_through::{cable_stands, lasts};
use crate::engine::simulate::circuit::result::SizeRow;
use crate::engine::simulate::fault::current::short_circuit;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::{ReturnPath, Run};
use crate::quantity::*;

/// How long a cable is taken to be whose length nobody gave (common practice, no source).
pub const LENGTH: Metres = Metres::new(2.0);

/// A load's own cable, as it is usually made.
#[derive(Clone, Debug)]
pub struct Tail<'a, 'c> {
    /// Which load.
    pub load: usize,
    /// What it draws.
    pub draws: Amps,
    /// The size that carries that.
    pub size: &'a SizeRow,
    /// The device before it.
    pub device: &'a Fuse<'c>,
    /// Least current of a fault at its far end.
    pub fault: Amps,
    /// The device opens then after so long at the latest; `None` where nothing promises it.
    pub opens: Option<Seconds>,
    /// How long its copper stands that current.
    pub stands: Seconds,
}

impl Tail<'_, '_> {
    /// Whether its insulation outlasts a fault at its far end.
    pub fn outlasts(&self) -> bool {
        self.opens.is_some_and(|opens| opens <= self.stands)
    }
}

impl<'a, 'r> FaultLoops<'a, 'r> {
    /// The cable of a load that hangs at the end of a branch; `None` where no device is before it, or no size carries
    /// the load there.
    pub fn tail<'s, 'c>(&'s self, load: usize, branch: usize, near: &'s [Option<Fuse<'c>>]) -> Option<Tail<'s, 'c>> {
        let own = self.site.loads.get(load)?;
        let draws = own.socket.unwrap_or(Amps::ZERO).max(own.running());
        let smallest = self.site.smallest_size();
        let carries = |s: &&SizeRow| s.area >= smallest && s.for_ever() >= draws;
        let size = self.design(branch)?.sizes.iter().find(carries)?;
        let device = near.get(branch)?.as_ref().or_else(|| self.upstream(branch, near))?;
        let (style, rating) = device.fitted()?;
        let links = device.clearing.links_before + style.warm_resistance(rating);
        let here = self.far_fault(branch, links)?;
        let (insulation, run) = (self.link(branch)?, self.run(branch)?);
        let fault = short_circuit(here.emf, here.internal + here.path + self.loop_of(run, size));
        let carried = rating * device.clearing.slow.max(1.0);
        Some(Tail {
            load,
            draws,
            size,
            device,
            fault,
            opens: latest(&style.gates, fault / carried),
            stands: lasts(cable_stands(insulation.adiabatic_k, size.area), fault),
        })
    }

    /// Out and back, as hot as the insulation stands.
    fn loop_of(&self, before: &Run, size: &SizeRow) -> Ohms {
        let run = Run { length: LENGTH, return_path: ReturnPath::Cable, joints: 0, ..before.clone() };
        let link = Link::with_size(self.site, &run, "", Some(size));
        warmed(link.copper, link.hottest)
    }
}
