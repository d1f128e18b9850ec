//! From battery to load: which voltage stands at each point of the way?

use crate::engine::design::Design;
use crate::engine::installation::Installation;
use crate::engine::installation::circuits::Side;
use crate::plan::point;
use crate::quantity::*;

/// One point of the way.
#[derive(Clone, Debug, PartialEq)]
pub struct Stop {
    /// Its name.
    pub point: String,
    /// The run that leads to it; `None` for the battery.
    pub run: Option<usize>,
    /// Voltage there, all steady loads on.
    pub voltage: Volts,
    /// Lost in the run that leads to it.
    pub lost: Volts,
}

/// The way to the far end of a run, the battery first; empty for a run that hangs on nothing.
pub fn voltage_strip(site: &Installation, design: &Design, run: usize) -> Vec<Stop> {
    let Some(branch) = design.runs.get(run).and_then(|r| r.branch) else { return Vec::new() };
    let path = design.installation.circuits.path_of(branch);
    let mut stops = Vec::with_capacity(path.len() + 1);
    for index in path {
        let Some(branch) = design.installation.circuits.branches.get(index) else { continue };
        let Some(sized) = design.runs.get(branch.run) else { continue };
        if stops.is_empty() {
            let battery = if branch.side == Side::Service { point::SERVICE_BATTERY } else { point::STARTER_BATTERY };
            let voltage = sized.near_voltage;
            stops.push(Stop { point: battery.into(), run: None, voltage, lost: Volts::ZERO });
        }
        stops.push(Stop {
            point: branch.far.clone(),
            run: Some(branch.run).filter(|r| *r < site.runs.len()),
            voltage: sized.far_voltage,
            lost: sized.near_voltage - sized.far_voltage,
        });
    }
    stops
}
