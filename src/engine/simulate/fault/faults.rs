//! How large and how small can a fault current be?
//!
//! Largest, at a fuse (prospective): I = E / (r + R) + what limited sources
//! add; E the full resting voltage, r the least internal resistance, R the cold
//! path out and back from the battery to the fuse, links and contacts on the way
//! counted; the likely one with the battery's usual resistance. Where a relay joins both
//! batteries each counts along its own path; adding both is on the safe side.
//!
//! Smallest, at the far end of what the fuse protects: I = E / (r + R) with E at
//! the reserve in the cold, r aged and cold, R with every conductor as hot as
//! its insulation stands, joints and fuse-links in it. The fault itself is
//! taken as a dead short: an arc or a chafed strand draws less, and no fuse
//! can be relied on to see it.

use crate::engine::installation::circuits::Side;
use crate::engine::simulate::fault::current::{FarFault, Prospective, short_circuit};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::engine::simulate::fault::sources::Emf;
use crate::plan::point;
use crate::quantity::*;

impl FaultLoops<'_, '_> {
    fn emf(&self, side: Side) -> Option<Emf> {
        match side {
            Side::Service => self.sources.service,
            Side::Feed => self.sources.starter,
        }
    }

    /// Largest fault current on the posts of the service battery, with all that charges it; `None` while it has no size.
    pub fn at_posts(&self) -> Option<Amps> {
        let battery = self.sources.service?;
        Some(short_circuit(battery.full, battery.least) + self.sources.limited.iter().map(|l| l.amps).sum::<Amps>())
    }

    /// Largest fault current through a fuse at the near end of a branch, fed from the battery's side; `links` have
    /// the fuses before it, cold.
    pub fn prospective(&self, branch: usize, links: Ohms) -> Prospective {
        let Some(b) = self.branch(branch) else { return Prospective::default() };
        let path = self.cold_to.get(branch).copied().unwrap_or(Ohms::ZERO);
        self.fed_from_battery(b.side, (path, links), branch, b.parent)
    }

    /// Largest fault current at the far end of a branch, from the battery's side and from what lies beyond.
    pub fn prospective_far(&self, branch: usize, links: Ohms) -> Prospective {
        let Some(b) = self.branch(branch) else { return Prospective::default() };
        let cold = self.link(branch).map_or(Ohms::ZERO, |l| l.cold(self.site.surroundings.coldest));
        let path = self.cold_to.get(branch).copied().unwrap_or(Ohms::ZERO) + cold;
        let near = self.fed_from_battery(b.side, (path, links), branch, Some(branch));
        let other_battery = self.other_battery(b.side, Some(branch));
        let beyond = self.limited_beyond(branch) + other_battery;
        if beyond <= near.amps {
            return near;
        }
        Prospective { amps: beyond, likely: beyond, others: beyond, other_battery, ..Prospective::default() }
    }

    fn fed_from_battery(
        &self,
        side: Side,
        (path, links): (Ohms, Ohms),
        branch: usize,
        place: Option<usize>,
    ) -> Prospective {
        // The other battery comes from beyond when this branch leads to the relay.
        let beyond = self.branch_of_relay(side).is_some_and(|relay| self.is_beyond(relay, branch));
        let other_battery = if beyond { Amps::ZERO } else { self.other_battery(side, place) };
        self.fed(side, (path, links), branch, other_battery)
    }

    fn fed(&self, side: Side, (path, links): (Ohms, Ohms), branch: usize, other_battery: Amps) -> Prospective {
        let Some(emf) = self.emf(side) else { return Prospective::default() };
        let limited: Amps = match side {
            Side::Service => self.sources.limited.iter().map(|l| l.amps).sum::<Amps>() - self.limited_beyond(branch),
            Side::Feed => self.sources.alternator,
        };
        let others = limited.max(Amps::ZERO) + other_battery;
        let (internal, usual) = (emf.least, emf.likely);
        let found = Prospective {
            emf: emf.full,
            internal,
            usual,
            path,
            links,
            others,
            other_battery,
            ..Prospective::default()
        };
        Prospective { amps: found.by_ohm().value, likely: found.with(usual).value, ..found }
    }

    /// The same with such a way before it, cold, its fuse-links apart, and nothing from the other battery: the least
    /// that it may be.
    pub fn prospective_behind(&self, branch: usize, way: (Ohms, Ohms)) -> Prospective {
        self.branch(branch).map_or_else(Prospective::default, |b| self.fed(b.side, way, branch, Amps::ZERO))
    }

    /// The branch of one side that ends at the relay between both batteries.
    pub fn branch_of_relay(&self, side: Side) -> Option<usize> {
        if !self.sources.joined {
            return None;
        }
        let ends = match side {
            Side::Service => &self.site.circuits.to_point,
            Side::Feed => &self.site.circuits.to_feed_point,
        };
        ends.get(point::CHARGER).copied()
    }

    /// What the battery of the other side can push through the relay: along its
    /// own path to the relay and on to `place`, its fuse-links left out, the branch at whose far end the
    /// fuse sits (`None`: at the posts of this side's battery).
    fn other_battery(&self, side: Side, place: Option<usize>) -> Amps {
        let other = if side == Side::Service { Side::Feed } else { Side::Service };
        let (Some(emf), Some(last), Some(relay)) =
            (self.emf(other), self.branch_of_relay(other), self.branch_of_relay(side))
        else {
            return Amps::ZERO;
        };
        let coldest = self.site.surroundings.coldest;
        let cold = |b: usize| self.link(b).map_or(Ohms::ZERO, |l| l.cold(coldest));
        let own: Ohms = self.upward(last).map(cold).sum();
        let leads_to = |b: usize| place.is_some_and(|p| self.is_beyond(p, b));
        let from_relay: Ohms = self.upward(relay).filter(|&b| !leads_to(b)).map(cold).sum();
        let to_place: Ohms =
            place.into_iter().flat_map(|p| self.upward(p)).filter(|&b| !self.is_beyond(relay, b)).map(cold).sum();
        let more = if other == Side::Feed { self.sources.alternator } else { Amps::ZERO };
        short_circuit(emf.full, emf.least + own + from_relay + to_place) + more
    }

    /// Smallest fault current at the far end of a path that ends with `branch`, its fuse-links given.
    pub fn far_fault(&self, branch: usize, fuse_links: Ohms) -> Option<FarFault> {
        let copper = self.hot_to.get(branch).copied()? + self.link(branch)?.hot();
        self.far_fault_over(branch, copper + fuse_links)
    }

    /// The same over such a path, hot, its fuse-links among it.
    pub fn far_fault_over(&self, branch: usize, path: Ohms) -> Option<FarFault> {
        let emf = self.emf(self.branch(branch)?.side)?;
        let amps = short_circuit(emf.low, emf.worst + path);
        Some(FarFault { amps, emf: emf.low, internal: emf.worst, path, branch })
    }

    /// Smallest fault current at the near end of a branch, fed by the other battery through the relay.
    pub fn far_fault_from_beyond(&self, branch: usize, fuse_links: Ohms) -> Option<FarFault> {
        let side = self.branch(branch)?.side;
        let other = if side == Side::Service { Side::Feed } else { Side::Service };
        let emf = self.emf(other)?;
        let relay = self.branch_of_relay(side).filter(|&r| self.is_beyond(r, branch))?;
        let hot = |b: usize| self.link(b).map_or(Ohms::ZERO, |l| l.hot());
        let own: Ohms = self.upward(self.branch_of_relay(other)?).map(hot).sum();
        let on: Ohms = self.upward(relay).take_while(|&b| b != branch).map(hot).sum();
        let path = own + on + hot(branch) + fuse_links;
        let amps = short_circuit(emf.low, emf.worst + path);
        Some(FarFault { amps, emf: emf.low, internal: emf.worst, path, branch })
    }
}
