//! What is known of the charger once it is given or chosen.

use crate::engine::parts::array_cable::ArrayCable;
use crate::engine::parts::charger::Bound;
use crate::engine::simulate::charger::array::Array;
use crate::engine::simulate::charger::bounds::Bounds;
use crate::quantity::*;

/// The charger.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChargerDesign {
    /// Capacity of the bank it charges.
    pub capacity: AmpHours,
    /// Output current: as given or as chosen; `None` when there is no charger.
    pub current: Option<Amps>,
    /// What a relay may pass for some minutes at first; zero of a charger that limits itself.
    pub rush: Amps,
    /// What it gives for hours: that current; through a relay no more than battery and hot alternator bear. Zero without a charger.
    pub steady: Amps,
    /// What of it the hot alternator feeds over a drive; the rest comes out of the starter battery, which wants it back.
    pub fed: Amps,
    /// Charge voltage at its output, at 25 °C.
    pub output: Volts,
    /// Highest charge voltage: compensated for the coldest air.
    pub output_highest: Volts,
    /// What of it reaches the battery while the loads draw theirs, driving.
    pub net: Amps,
    /// Between what it lies.
    pub bounds: Bounds,
    /// Charge it can put back on a day of driving, beginning at the planned depth.
    pub a_day: AmpHours,
    /// Input current to size the feed for: at the charger's own lowest input voltage.
    pub input_sizing: Amps,
    /// Resistance of the feed, out and back, once its cables are sized.
    pub feed: Ohms,
    /// Worst-case input current with the feed's drop.
    pub input: Amps,
    /// Voltage at its input terminals then.
    pub input_voltage: Volts,
    /// Lowest voltage it works with at its own input terminals.
    pub lowest_input: Volts,
    /// Hot alternator at idle, less the vehicle's own draw; negative when that alone is too much.
    pub spare_idle: Amps,
    /// Hot alternator on the road, less the vehicle's own draw.
    pub spare_road: Amps,
    /// How long the starter battery may stand, parked, until it has less than starting needs; `None` for ever.
    pub starts_for: Option<Days>,
    /// The array's side of its controller.
    pub array: Array,
    /// Cable and device between panels and controller; `None` where its way is not given.
    pub array_cable: Option<ArrayCable>,
    /// Peak-sun hours of a usual day.
    pub sun_hours: SunHours,
    /// Charge from the sun on a usual day.
    pub solar_a_day: AmpHours,
    /// What of it is stored: less by what a charge takes more than it gives back.
    pub solar_stored: AmpHours,
    /// That as a share of the charge used a day.
    pub solar_share: Share,
    /// Charge from the mains on a usual day with it.
    pub mains_a_day: AmpHours,
    /// What is used and what comes in, averaged over a week.
    pub balance: Balance,
    /// Driving time from the planned depth to each state of charge.
    pub recovery: Vec<Recovery>,
    /// A plain relay instead, where that is possible.
    pub relay: Option<RelayComparison>,
}

impl ChargerDesign {
    /// What its current must reach, each by itself; nothing without a charger.
    pub fn lowers(&self) -> Vec<Bound> {
        self.current.map(|_| self.bounds.lowers().to_vec()).unwrap_or_default()
    }

    /// The higher of them: lowest current that is enough.
    pub fn lower(&self) -> Option<Bound> {
        self.current.map(|_| self.bounds.lower())
    }

    /// What its current may not exceed, each by itself; nothing without a charger.
    pub fn upper(&self) -> &[Bound] {
        self.current.map_or(&[], |_| &self.bounds.upper)
    }
}

/// Time to come back to a state of charge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recovery {
    /// State of charge.
    pub to: Share,
    /// Hours of charging; `None` when it is never reached.
    pub hours: Option<Hours>,
}

/// Averages a day over a usual week.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Balance {
    /// What is used.
    pub used: AmpHours,
    /// What the sun stores.
    pub sun: AmpHours,
    /// What the mains store.
    pub mains: AmpHours,
    /// What driving stores and feeds to the loads.
    pub driving: AmpHours,
    /// What of the use nothing brings; zero when enough comes in.
    pub missing: AmpHours,
}

impl Balance {
    /// All that comes in.
    pub fn coming(&self) -> AmpHours {
        self.sun + self.mains + self.driving
    }
}

/// What a relay would give.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RelayComparison {
    /// Whether the two batteries and the alternator allow it at all.
    pub possible: bool,
    /// Why not, or what to beware of.
    pub why: String,
    /// First rush from a full starter battery into the service battery at the planned depth, engine off.
    pub inrush: Amps,
    /// Charge current at the planned depth with the engine running.
    pub current: Amps,
    /// Driving time from the planned depth to 80 %.
    pub to_80: Option<Hours>,
    /// Highest charge voltage it brings to the service battery, against what that wants.
    pub reaches: Volts,
    /// What the service battery wants.
    pub wants: Volts,
}
