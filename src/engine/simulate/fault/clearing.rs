//! Does a fuse clear every fault behind it in time, and at its place?
//!
//! The smallest fault current, at the far end, must reach a multiple of the
//! rating at which the gates promise opening within `fault-open-s`; where it
//! does not, the cable must at least stand the current until then. In the
//! cold a link carries more than its rating, by the same share per kelvin that
//! warmth takes from it; the coldest air of the plan counts here.

use crate::catalogue::FuseStyle;
use crate::engine::physics::fuse_link::gates::{latest, opens_from};
use crate::engine::physics::fuse_link::let_through::{cable_stands, let_through, worst_wait};
use crate::engine::physics::fuse_link::rating::cold_carrying;
use crate::engine::simulate::fault::current::FarFault;
use crate::engine::simulate::fault::fuse::{Clearing, Fuse};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

impl FaultLoops<'_, '_> {
    /// Judge a fuse at the near end of `branch`, or at its far end, with faults at the far ends of `zone`.
    /// `links_before` is the resistance of the fuse-links between it and its battery.
    #[allow(clippy::too_many_arguments)]
    pub fn clearing(
        &self,
        branch: usize,
        zone: &[usize],
        far_end: bool,
        style: &FuseStyle,
        rating: Amps,
        prospective: Amps,
        links_before: Ohms,
    ) -> Clearing {
        let links = links_before + style.warm_resistance(rating);
        let smallest = |a: &FarFault, b: &FarFault| a.amps.get().total_cmp(&b.amps.get());
        let far = match far_end {
            true => self.far_fault_from_beyond(branch, links),
            false => zone.iter().filter_map(|&b| self.far_fault(b, links)).min_by(smallest),
        };
        let stands = |b: usize| self.link(b).map_or(AmpsSquaredSeconds::ZERO, |l| cable_stands(l.adiabatic_k, l.area));
        let sized = zone.iter().copied().filter(|&b| self.link(b).is_some_and(|l| l.is_sized()));
        let weakest = sized.min_by(|&a, &b| stands(a).get().total_cmp(&stands(b).get())).unwrap_or(branch);
        let stands = stands(weakest);
        Clearing { weakest, links_before, ..self.cleared(style, rating, prospective, far, stands) }
    }

    /// How a fuse does with the faults from `far` to `prospective` in cables that stand so much.
    pub fn cleared(
        &self,
        style: &FuseStyle,
        rating: Amps,
        prospective: Amps,
        far: Option<FarFault>,
        stands: AmpsSquaredSeconds,
    ) -> Clearing {
        let slow = cold_carrying(style, self.site.surroundings.coldest);
        let carried = rating * slow;
        let opens = far.filter(|_| carried.get() > 0.0).and_then(|f| latest(&style.gates, f.amps / carried));
        let late = opens.is_some_and(|t| t > self.fault_open);
        let wait = far.filter(|_| late).and_then(|f| worst_wait(style, rating, slow, f.amps, prospective.max(f.amps)));
        Clearing {
            far,
            slow,
            opens,
            wait,
            needs: opens_from(&style.gates, self.fault_open).map(|multiple| carried * multiple),
            through: far.and_then(|f| let_through(style, rating, slow, f.amps, prospective.max(f.amps))),
            stands,
            ..Clearing::default()
        }
    }

    /// Longest that the run may be for the far-end fault to open its fuse in time:
    /// L = L0 + (E / I - r - R) / R', R' the hot copper of a metre out and back.
    /// `None` where no length is short enough or no gate promises it.
    pub fn longest_in_time(&self, fuse: &Fuse) -> Option<Metres> {
        let (far, needs, link) = (fuse.clearing.far?, fuse.clearing.needs?, self.link(fuse.branch)?);
        let per_metre = link.hot_per_metre();
        if per_metre <= 0.0 || needs.get() <= 0.0 {
            return None;
        }
        let room = far.emf / needs - far.internal - far.path;
        let longest = link.length.get() + room.get() / per_metre;
        (longest > 0.0).then(|| Metres::new(longest))
    }
}
