//! Which charge current, what feeds it, how long to recover.
//!
//! The current lies between what puts the draw back in the time driven and
//! what battery and alternator bear; the smallest standard current that fits
//! is chosen. Recovery is constant current until the battery takes less, then
//! falling to the tail current. After the cables are sized, the input current
//! is solved again with the feed's own drop. Left out: alternators that get
//! hotter the longer they work; their hot figures are used throughout.

pub mod bounds;
pub mod working;

use crate::engine::installation::Installation;
use crate::engine::judge::charger::checks;
use crate::engine::physics::cell::recovery::{charge_after, hours_to};
use crate::engine::simulate::charger::alternator::{spare_idle, spare_road};
use crate::engine::simulate::charger::balance::Balance;
use crate::engine::simulate::charger::feed::input_current;
use crate::engine::simulate::charger::relay::RelayComparison;
use crate::engine::simulate::charger::sources::{solar_a_day, sun_hours};
use crate::engine::simulate::charger::{balance, rush, sources};

use crate::catalogue::Chemistry;
use crate::engine::choose::battery::{BatteryDesign, chemistry_of, planned_depth};
use crate::engine::judge::book::Book;
use crate::engine::physics::cell::formula::compensated;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::budget::day::{DayDraw, day_draw};
use crate::plan::ChargerKind;
use crate::quantity::*;

/// The charger.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChargerDesign {
    /// Capacity of the bank it charges.
    pub capacity: AmpHours,
    /// Output current: as given or as chosen; `None` when there is no charger.
    pub current: Option<Amps>,
    /// What it gives for hours: that current; through a relay no more than battery and hot alternator bear. Zero without a charger.
    pub steady: Amps,
    /// Charge voltage at its output, at 25 °C.
    pub output: Volts,
    /// Highest charge voltage: compensated for the coldest air.
    pub output_highest: Volts,
    /// What of it reaches the battery while the loads draw theirs, driving.
    pub net: Amps,
    /// Lowest current that is enough: the higher of `lowers`.
    pub lower: Bound,
    /// What it must reach, each by itself.
    pub lowers: Vec<Bound>,
    /// What it may not exceed, each by itself; those with `advice` only slow things down or drain the starter battery for a while.
    pub upper: Vec<Bound>,
    /// Charge it can put back on a day of driving, beginning at the planned depth.
    pub a_day: AmpHours,
    /// Charge it has to put back on a day of driving.
    pub to_put_back: AmpHours,
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

/// A bound on the charge current.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bound {
    /// Short name, also the working's name: `day's draw`, `battery`, `alternator on the road`, …
    pub name: &'static str,
    /// The current.
    pub amps: Amps,
    /// Only a caution if exceeded.
    pub advice: bool,
}

/// Time to come back to a state of charge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recovery {
    /// State of charge.
    pub to: Share,
    /// Hours of charging; `None` when it is never reached.
    pub hours: Option<Hours>,
}

/// Charge voltage that does not depend on the air: a relay's is the alternator's, a charger's the plan's.
fn fixed_voltage(site: &Installation) -> Option<Volts> {
    match site.charger.kind {
        ChargerKind::Relay => Some(site.vehicle.alternator_voltage),
        ChargerKind::DcDc | ChargerKind::None => site.charger.output_voltage,
    }
}

/// Charge voltage at 25 °C: a relay's, the plan's or the chemistry's.
pub fn charge_voltage(site: &Installation, chemistry: &Chemistry) -> Volts {
    fixed_voltage(site).unwrap_or(chemistry.charge.absorption)
}

/// Charge voltage at an air temperature, never above the chemistry's highest unless plan or relay say so.
pub fn charge_voltage_at(site: &Installation, chemistry: &Chemistry, air: Celsius) -> Volts {
    match fixed_voltage(site) {
        Some(given) => given,
        None => compensated(chemistry.charge.absorption, chemistry.charge.v_per_k, air).min(chemistry.charge.max),
    }
}

/// Lowest voltage at the charger's own input: the plan's or the catalogue's.
pub fn lowest_input(site: &Installation) -> Volts {
    site.charger.lowest_input.unwrap_or(site.catalogue.rules.charger_input_low.value).max(Volts::new(1.0))
}

/// Highest charge current that the plan's given devices can push into the battery together.
pub fn plan_charge_current(site: &Installation, chemistry: &Chemistry) -> Amps {
    let charger = match site.charger.kind {
        ChargerKind::None => Amps::ZERO,
        _ => site.charger.current.unwrap_or(Amps::ZERO),
    };
    charger.max(site.mains.current) + sources::solar_current(site, chemistry)
}

/// Mean current of the loads while driving.
pub fn driving_load(day: &DayDraw) -> Amps {
    let hours = Hours::new(f64::from(day.driving_minutes.count()) / 60.0);
    if hours.get() > 0.0 { day.driving / hours } else { Amps::ZERO }
}

/// The charge current of a plan with this chemistry and capacity: given, or chosen. `None` without a charger.
pub fn current_for(site: &Installation, chemistry: &Chemistry, capacity: AmpHours, day: &DayDraw) -> Option<Amps> {
    if site.charger.kind == ChargerKind::None {
        return None;
    }
    site.charger.current.or_else(|| bounds::bounds(site, chemistry, capacity, day).choose(site))
}

/// Choose or check the charge current.
pub fn charge_current(site: &Installation, budget: &Budget, battery: &BatteryDesign, book: &mut Book) -> ChargerDesign {
    let mut out = ChargerDesign {
        spare_idle: spare_idle(site),
        spare_road: spare_road(site),
        lowest_input: lowest_input(site),
        sun_hours: sun_hours(site),
        ..ChargerDesign::default()
    };
    working::alternator(site, &out, book);
    let (Some(chemistry), Some(bank)) = (chemistry_of(site), battery.bank.as_ref()) else {
        return out;
    };
    let day = day_draw(site, budget.mean_voltage);
    let bounds = bounds::bounds(site, chemistry, bank.capacity, &day);
    out.capacity = bank.capacity;
    out.output = charge_voltage(site, chemistry);
    out.output_highest = charge_voltage_at(site, chemistry, site.surroundings.coldest).max(out.output);
    out.solar_a_day = solar_a_day(site, chemistry);
    out.solar_stored = out.solar_a_day / bounds.factor;
    out.solar_share = if day.charge.get() > 0.0 { Share::new(out.solar_stored / day.charge) } else { Share::ZERO };
    out.mains_a_day = sources::mains_a_day(site, chemistry, bank.capacity);
    out.to_put_back = bounds.put_back;
    out.current = current_for(site, chemistry, bank.capacity, &day);
    out.steady = out.current.unwrap_or(Amps::ZERO);
    if site.charger.kind == ChargerKind::Relay {
        // Cables are sized for what it may pass; the day is reckoned with what battery and hot alternator bear.
        out.steady = bounds.choose(site).unwrap_or(Amps::ZERO);
        out.current = Some(rush::design_current(site, chemistry, bank.capacity, book));
    }
    let from = Share::FULL - planned_depth(site, chemistry);
    if let Some(current) = out.current {
        let net = out.steady - driving_load(&day);
        out.net = net.max(Amps::ZERO);
        let after = charge_after(&site.catalogue, chemistry, bank.capacity, net, from, bounds.hours);
        out.a_day = bank.capacity * (after - from).get();
        out.recovery = [0.8, 0.9, 1.0]
            .map(|to| Recovery {
                to: Share::new(to),
                hours: hours_to(&site.catalogue, chemistry, bank.capacity, net, from, Share::new(to)),
            })
            .into();
        out.lowers = bounds.lowers();
        out.lower = bounds.lower();
        out.upper = bounds.upper.clone();
        out.input_sizing = match site.charger.kind {
            ChargerKind::Relay => current,
            _ => input_current(out.output_highest, current, site.charger.efficiency, out.lowest_input),
        };
        out.input = out.input_sizing;
        out.input_voltage = out.lowest_input;
    }
    out.balance = balance::balance(site, &day, &bounds, &out, book);
    working::record(site, chemistry, bank, &day, &bounds, &out, book);
    checks::check(site, chemistry, battery, &bounds, &out, book);
    out
}
