//! What can be set on the cut-off, and which side of it is something on?
//!
//! The wiring decides, not what a load is said to be: a load that is said to
//! stay connected is cut off all the same when its run begins behind the
//! cut-off. The point `cut-off` itself is its load side.

use crate::catalogue::{Catalogue, Chemistry};
use crate::engine::installation::Installation;
use crate::engine::installation::load::Load;
use crate::engine::physics::reckon::Reckoned;
use crate::plan::{CutOff, point};
use crate::quantity::*;
use crate::reckon;

/// What can be set, and what is given.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Device {
    pub step: Volts,
    pub lowest: Volts,
    pub highest: Volts,
    pub longest_delay: Seconds,
    pub cut: Option<Volts>,
    pub reconnect: Option<Volts>,
    pub delay: Option<Seconds>,
}

impl Device {
    /// The plan's.
    pub fn of(given: &CutOff) -> Self {
        Device {
            step: given.step.max(Volts::new(0.001)),
            lowest: given.lowest_setting,
            highest: given.highest_setting,
            longest_delay: given.longest_delay,
            cut: given.cut,
            reconnect: given.reconnect,
            delay: given.delay,
        }
    }

    /// One that can be set as widely as any, where no plan says which it is.
    pub fn widest() -> Self {
        Device { lowest: Volts::new(7.0), highest: Volts::new(16.0), ..Device::of(&CutOff::default()) }
    }

    /// The next step at or below.
    pub fn step_down(&self, volts: Volts) -> Volts {
        tidy(reckon!(Volts: floor(U / d + 0.000001) * d, U: "voltage" = volts, d: "step" = self.step)).value
    }

    /// The next step at or above.
    pub fn step_up(&self, volts: Volts) -> Volts {
        tidy(reckon!(Volts: ceil(U / d - 0.000001) * d, U: "voltage" = volts, d: "step" = self.step)).value
    }

    /// The least that the voltage under a counter of charge is set to: a step above where harm begins.
    pub fn least_floor(&self, chemistry: &Chemistry) -> Volts {
        self.step_up(chemistry.low.floor().0 + self.step)
    }
}

/// Without the dust of binary fractions.
pub(crate) fn tidy<const N: usize>(volts: Reckoned<Volts, N>) -> Reckoned<Volts, N> {
    Reckoned { value: Volts::new((volts.value.get() * 1e9).round() / 1e9), ..volts }
}

/// Whether a point of the service side lies behind the cut-off; `None` for a point that no run reaches.
pub(crate) fn behind(site: &Installation, at: &str) -> Option<bool> {
    let circuits = &site.circuits;
    match at {
        point::SERVICE_BATTERY => Some(false),
        point::CUT_OFF => circuits.has_point(at).then_some(true),
        _ => circuits.to_point.get(at).and_then(|&b| circuits.branches.get(b)).map(|b| b.behind_cut_off),
    }
}

/// Whether a load goes on drawing from the service battery with the cut-off open: by its wiring; where that is not known
/// by what is said. What hangs on the starter battery draws nothing from it.
pub(crate) fn stays_on(site: &Installation, load: &Load) -> bool {
    !load.on_starter && behind(site, point_of(site, load)).map_or(load.before_cut_off, |behind| !behind)
}

/// Whether the inverter goes on drawing with the cut-off open.
pub(crate) fn inverter_stays_on(site: &Installation) -> bool {
    site.inverter.rating.get() > 0.0 && behind(site, &site.inverter.at) == Some(false)
}

/// The point that feeds a load: for an AC load the inverter's.
pub(crate) fn point_of<'a>(site: &'a Installation, load: &'a Load) -> &'a str {
    if load.inverter { &site.inverter.at } else { &load.at }
}

/// The longest start of any load, which the delay must outlast, and whose it is.
pub(crate) fn longest_start(site: &Installation) -> Option<(&Load, Seconds)> {
    let starting = site.loads.iter().filter(|l| l.count > 0 && l.start.times > 1.0);
    starting.map(|l| (l, l.start.lasts)).reduce(|a, b| if b.1 > a.1 { b } else { a })
}

/// The smallest device sold that carries a current.
pub(crate) fn sold_for(catalogue: &Catalogue, current: Amps) -> Option<Amps> {
    let sizes = catalogue.devices.cut_offs.sizes.iter().copied();
    sizes.filter(|s| s.get() >= current.get() - 1e-9).reduce(Amps::min)
}
