//! Does a fuse clear every fault behind it in time, and at its place?
//!
//! The smallest fault current, at the far end, must reach a multiple of the
//! rating at which the gates promise opening within `fault-open-s`; where it
//! does not, the cable must at least stand the current until then. In the
//! cold a link carries more than its rating, by the same share per kelvin that
//! warmth takes from it; the coldest air of the plan counts here.

use crate::catalogue::FuseStyle;
use crate::engine::choose::fuse::choice::RATED_AIR;
use crate::engine::physics::fuse_link::gates::{latest, opens_from};
use crate::engine::physics::fuse_link::let_through::{LetThrough, cable_stands, energy, let_through};
use crate::engine::simulate::fault::faults::FarFault;
use crate::engine::simulate::fault::ground::Ground;
use crate::quantity::*;

/// How a fuse does with the faults behind it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Clearing {
    /// Smallest fault current; `None` while the battery has no size.
    pub far: Option<FarFault>,
    /// By how much the link carries more than its rating in the cold.
    pub slow: f64,
    /// Latest opening then.
    pub opens: Option<Seconds>,
    /// Fault current that opens it in time; `None` where no gate promises it.
    pub needs: Option<Amps>,
    /// The worst it lets through.
    pub through: Option<LetThrough>,
    /// What the conductors behind it stand.
    pub stands: AmpsSquaredSeconds,
    /// The branch that stands least.
    pub weakest: usize,
    /// Fuse-links between it and its battery.
    pub links_before: Ohms,
}

impl Clearing {
    /// Whether the far-end fault opens it in time.
    pub fn opens_in_time(&self, within: Seconds) -> bool {
        self.far.is_none() || self.opens.is_some_and(|t| t.get() <= within.get())
    }

    /// Whether the conductors stand the far-end fault until the latest opening:
    /// by the adiabatic law, which leaves out the heat that a longer wait lets go.
    pub fn stands_the_wait(&self) -> bool {
        match (self.far, self.opens) {
            (Some(far), Some(time)) => energy(far.amps, time).get() <= self.stands.get(),
            (far, _) => far.is_none(),
        }
    }

    /// Whether the conductors stand what it lets through, as far as is known.
    pub fn is_stood(&self) -> bool {
        self.through.is_none_or(|t| t.energy.get() <= self.stands.get())
    }
}

/// By how much a link carries more than its rating in cold air: 1 + lost per kelvin × (25 °C - air).
pub fn cold_carrying(style: &FuseStyle, air: Celsius) -> f64 {
    1.0 + style.lost_per_k * (RATED_AIR - air).get().max(0.0)
}

impl Ground<'_> {
    /// Judge a fuse at the near end of `branch`, or at its far end. `links_before`
    /// is the resistance of the fuse-links between it and its battery.
    pub fn clearing(
        &self,
        branch: usize,
        far_end: bool,
        style: &FuseStyle,
        rating: Amps,
        prospective: Amps,
        links_before: Ohms,
    ) -> Clearing {
        let links = links_before + style.cold_resistance(rating);
        let zone = if far_end { vec![branch] } else { self.zone(branch) };
        let smallest = |a: &FarFault, b: &FarFault| a.amps.get().total_cmp(&b.amps.get());
        let far = match far_end {
            true => self.far_fault_from_beyond(branch, links),
            false => zone.iter().filter_map(|&b| self.far_fault(b, links)).min_by(smallest),
        };
        let stands = |b: usize| self.link(b).map_or(AmpsSquaredSeconds::ZERO, |l| cable_stands(l.adiabatic_k, l.area));
        let sized = zone.iter().copied().filter(|&b| self.link(b).is_some_and(|l| l.is_sized()));
        let weakest = sized.min_by(|&a, &b| stands(a).get().total_cmp(&stands(b).get())).unwrap_or(branch);
        let slow = cold_carrying(style, self.site.surroundings.coldest);
        let carried = rating * slow;
        let through = far.and_then(|f| let_through(style, rating, slow, f.amps, prospective.max(f.amps)));
        Clearing {
            far,
            slow,
            opens: far.filter(|_| carried.get() > 0.0).and_then(|f| latest(&style.gates, f.amps / carried)),
            needs: opens_from(&style.gates, self.fault_open).map(|multiple| carried * multiple),
            through,
            stands: stands(weakest),
            weakest,
            links_before,
        }
    }
}
