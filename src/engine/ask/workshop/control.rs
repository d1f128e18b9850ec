//! Which thin wires carry a signal, and how long are they?
//!
//! One switches the charger on with the engine; one lets the cut-off see the voltage somewhere else than where it
//! sits. Nothing sizes them here: a thin wire with a small fuse of its own where it leaves its source is common
//! practice, and it is as long as the runs beside which it lies.

use crate::engine::ask::workshop::piece::slack;
use crate::engine::design::Design;
use crate::plan::{ChargerKind, point};
use crate::quantity::*;

/// A wire for a signal.
#[derive(Clone, Debug, PartialEq)]
pub struct ControlWire {
    /// `enable`, `sense`.
    pub name: &'static str,
    /// The device that it tells something.
    pub device: &'static str,
    /// Where it begins.
    pub from: String,
    /// The terminal of the device.
    pub to: String,
    /// Way along the loom.
    pub along: Metres,
    /// Length to cut.
    pub length: Metres,
    /// Copper, by common practice.
    pub area: SquareMillimetres,
    /// Fuse where it leaves its source, by common practice.
    pub fuse: Amps,
}

/// All of them.
pub fn control_wires(design: &Design) -> Vec<ControlWire> {
    enable(design).into_iter().chain(sense(design)).collect()
}

/// `None` where no charger is switched on by a wire, or no feed leads to it.
fn enable(design: &Design) -> Option<ControlWire> {
    let site = &design.installation;
    if site.charger.kind == ChargerKind::None || !site.charger.enable_signal {
        return None;
    }
    let along = length_of(design, &site.circuits.feed_path()?);
    Some(wire(design, "enable", point::CHARGER, "engine-running signal".into(), along))
}

/// `None` where the cut-off senses at itself, or what it watches hangs on nothing.
fn sense(design: &Design) -> Option<ControlWire> {
    let site = &design.installation;
    let at = &site.cut_off.senses_at;
    if at == point::CUT_OFF || design.cut_off.rating.is_none() {
        return None;
    }
    let [watched, own] = [at.as_str(), point::CUT_OFF].map(|at| site.circuits.path_to(at));
    let (watched, own) = (watched?, own?);
    let between: Vec<usize> = watched
        .iter()
        .filter(|b| !own.contains(b))
        .chain(own.iter().filter(|b| !watched.contains(b)))
        .copied()
        .collect();
    Some(wire(design, "sense", point::CUT_OFF, format!("{at} plus"), length_of(design, &between)))
}

fn length_of(design: &Design, branches: &[usize]) -> Metres {
    let site = &design.installation;
    let runs = branches.iter().filter_map(|b| site.circuits.branches.get(*b)).filter_map(|b| site.runs.get(b.run));
    runs.map(|r| r.length).sum()
}

fn wire(design: &Design, name: &'static str, device: &'static str, from: String, along: Metres) -> ControlWire {
    let rules = &design.installation.catalogue.rules;
    ControlWire {
        name,
        device,
        from,
        to: format!("{device} {name}"),
        along,
        length: slack(rules, along),
        area: rules.enable_wire.value,
        fuse: rules.enable_fuse.value,
    }
}
