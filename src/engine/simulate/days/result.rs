//! What days of use show: the curve, each day, each load, where the charge went.

use crate::engine::physics::reckon::Reckoned;
use crate::engine::simulate::days::lows::Lows;
use crate::quantity::*;
use crate::reckon;

/// What happened.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Endurance {
    /// How many days were simulated.
    pub days: u32,
    /// The curve, at most about 2,000 points.
    pub points: Vec<EndurancePoint>,
    /// Each day.
    pub by_day: Vec<EnduranceDay>,
    /// Each load of the plan, in its order.
    pub loads: Vec<LoadHours>,
    /// When a load stood without power; kept with the curve.
    pub outages: Vec<Outage>,
    /// Lowest state of charge, and when.
    pub lowest: Share,
    /// Hours after the beginning.
    pub lowest_at: Hours,
    /// Lowest voltages where a cut-off senses, while it was closed.
    pub lows: Lows,
    /// How often the cut-off opened.
    pub cuts: u32,
    /// When a load that should draw first had no power.
    pub first_lack: Option<Hours>,
    /// Hours it was open.
    pub cut_hours: Hours,
    /// When it first opened.
    pub first_cut: Option<Hours>,
    /// The state of charge then, and the current that flowed.
    pub first_cut_with: Option<(Share, Amps)>,
    /// Hours in which the battery gave nothing at all: empty, or its own protection open.
    pub dead_hours: Hours,
    /// The longest that it was not full, where a counter of charge has to be set right by that.
    pub between_full: Option<Hours>,
    /// Hours in which charge was offered and the temperature forbade it.
    pub refused_hours: Hours,
    /// Lowest state of charge of the starter battery.
    pub starter_lowest: Share,
    /// When it first had less than starting needs.
    pub start_lost: Option<Hours>,
    /// Where the charge went.
    pub ledger: Ledger,
    /// Change of the charge over the last whole week; the balance of a week once it has settled.
    pub weekly_balance: AmpHours,
    /// Change of the state of charge a week, after the first: negative when it drifts down.
    pub drift: Share,
    /// Full cycles a year at this use.
    pub cycles_a_year: f64,
    /// Share of its life used by cycles in a year of days like these.
    pub wear_cycles: Share,
    /// Share of its life used by the calendar in a year at this air.
    pub wear_calendar: Share,
}

/// Where the charge came from and went. In = out + change, to rounding.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Ledger {
    /// In the battery at the beginning.
    pub start: AmpHours,
    /// At the end.
    pub end: AmpHours,
    /// Into its posts.
    pub charged: AmpHours,
    /// Out of its posts.
    pub drawn: AmpHours,
    /// Put in and not stored: gassing and heat.
    pub lost: AmpHours,
    /// Self-discharge.
    pub leaked: AmpHours,
    /// Offered by the charger while driving, whether taken or not.
    pub from_driving: AmpHours,
    /// Taken out of the starter battery by the charger, beyond what the alternator gave.
    pub from_starter: AmpHours,
    /// Offered by the sun.
    pub from_sun: AmpHours,
    /// Offered by the mains.
    pub from_mains: AmpHours,
    /// Taken by the loads and standing draws, from the battery or straight from the sources.
    pub used: AmpHours,
    /// Energy into the posts.
    pub energy_in: WattHours,
    /// Energy out of the posts.
    pub energy_out: WattHours,
    /// Energy that became heat in the battery: resistance, levelling of the wells, gassing, self-discharge.
    pub energy_lost: WattHours,
    /// Change of the energy stored: charge times resting voltage, summed over the steps.
    pub energy_stored: WattHours,
}

impl Ledger {
    /// Charge that the books cannot account for; only rounding.
    pub(crate) fn charge_balance(&self) -> Reckoned<AmpHours, 6> {
        reckon!(AmpHours: a + i - o - v - d - e,
            a: "in the battery at the beginning" = self.start,
            i: "into its posts" = self.charged,
            o: "out of its posts" = self.drawn,
            v: "put in and not stored" = self.lost,
            d: "self-discharge" = self.leaked,
            e: "in it at the end" = self.end)
    }
}

/// One point of the curve.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct EndurancePoint {
    /// Hours after the beginning.
    pub at: Hours,
    /// State of charge.
    pub charge: Share,
    /// Voltage at the posts.
    pub volts: Volts,
    /// Out of the battery; negative while it is charged.
    pub current: Amps,
    /// State of charge of the starter battery.
    pub starter: Share,
    /// Air.
    pub air: Celsius,
    /// Whether the cut-off is open.
    pub cut: bool,
}

/// One day.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct EnduranceDay {
    /// Lowest state of charge.
    pub lowest: Share,
    /// At midnight, when it ends.
    pub end: Share,
    /// Into the posts.
    pub charged: AmpHours,
    /// Out of the posts.
    pub drawn: AmpHours,
    /// Hours with the cut-off open.
    pub cut_hours: Hours,
    /// Whether the cut-off was open at any time from 18:00 of the evening before to 06:00, or from 18:00 on.
    pub cut_at_night: bool,
}

/// How long a load was wanted, and how long it stood without power.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LoadHours {
    /// Hours it was meant to draw.
    pub wanted: Hours,
    /// Hours of them it could not.
    pub unserved: Hours,
}

/// A time in which a load that should draw had no power.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Outage {
    /// The load's place in the plan.
    pub load: usize,
    /// Hours after the beginning.
    pub from: Hours,
    /// Likewise.
    pub until: Hours,
}
