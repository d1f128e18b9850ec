//! The wire that switches the charger on with the engine: how long is it?
//!
//! It carries a signal. Nothing sizes it here: a thin wire with a small fuse of
//! its own is common practice, and it is as long as the feed beside which it lies.

use crate::engine::ask::workshop::cut::slack;
use crate::engine::design::Design;
use crate::plan::ChargerKind;
use crate::quantity::*;

/// The enable wire of a charger.
#[derive(Clone, Debug, PartialEq)]
pub struct EnableWire {
    /// Way along the loom: that of the feed.
    pub along: Metres,
    /// Length to cut.
    pub length: Metres,
    /// Copper, by common practice.
    pub area: SquareMillimetres,
    /// Fuse where it leaves its source, by common practice.
    pub fuse: Amps,
}

/// `None` where no charger is switched on by a wire, or no feed leads to it.
pub fn enable_wire(design: &Design) -> Option<EnableWire> {
    let site = &design.installation;
    if site.charger.kind == ChargerKind::None || !site.charger.enable_signal {
        return None;
    }
    let topology = &design.installation.circuits;
    let feed = topology.feed_path()?;
    let runs = feed.iter().filter_map(|b| topology.branches.get(*b)).filter_map(|b| site.runs.get(b.run));
    let along: Metres = runs.map(|r| r.length).sum();
    Some(EnableWire {
        along,
        length: slack(&site.catalogue.rules, along),
        area: site.catalogue.rules.enable_wire.value,
        fuse: site.catalogue.rules.enable_fuse.value,
    })
}
