//! Which charge current, what feeds it, how long to recover.
//!
//! The current lies between what puts the draw back in the time driven and
//! what battery and alternator bear; the smallest standard current that fits
//! is chosen. Recovery is constant current until the battery takes less, then
//! falling to the tail current. After the cables are sized, the input current
//! is solved again with the feed's own drop. Left out: alternators that get
//! hotter the longer they work; their hot figures are used throughout.

pub mod working;

use crate::engine::installation::alternator::{spare_idle, spare_road};
use crate::engine::installation::charger::{charge_voltage, charge_voltage_at, lowest_input};
use crate::engine::installation::sources::{solar_a_day, sun_hours};
use crate::engine::installation::{Installation, sources};
use crate::engine::judge::charger::checks;
use crate::engine::physics::cell::recovery::{charge_after, hours_to};
use crate::engine::simulate::charger::bounds::bounds;
use crate::engine::simulate::charger::feed::input_current;
use crate::engine::simulate::charger::result::{ChargerDesign, Recovery};
use crate::engine::simulate::charger::{balance, rush};

use crate::catalogue::Chemistry;
use crate::engine::installation::battery::planned_depth;
use crate::engine::judge::book::Book;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::budget::Budget;
use crate::plan::ChargerKind;
use crate::quantity::*;

/// The charge current of a plan with this chemistry and capacity: given, or chosen. `None` without a charger.
pub fn current_for(site: &Installation, chemistry: &Chemistry, capacity: AmpHours, day: &Budget) -> Option<Amps> {
    if site.charger.kind == ChargerKind::None {
        return None;
    }
    site.charger.current.or_else(|| bounds(site, chemistry, capacity, day).choose(site))
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
    let (Some(chemistry), Some(bank)) = (site.chemistry(), battery.bank.as_ref()) else {
        return out;
    };
    let day = budget;
    let bounds = bounds(site, chemistry, bank.capacity, day);
    out.capacity = bank.capacity;
    out.output = charge_voltage(site, chemistry);
    out.output_highest = charge_voltage_at(site, chemistry, site.surroundings.coldest).max(out.output);
    out.solar_a_day = solar_a_day(site, chemistry);
    out.solar_stored = out.solar_a_day / bounds.factor;
    out.solar_share = if day.charge.get() > 0.0 { Share::new(out.solar_stored / day.charge) } else { Share::ZERO };
    out.mains_a_day = sources::mains_a_day(site, chemistry, bank.capacity);
    out.to_put_back = bounds.put_back;
    out.current = current_for(site, chemistry, bank.capacity, day);
    out.steady = out.current.unwrap_or(Amps::ZERO);
    if site.charger.kind == ChargerKind::Relay {
        // Cables are sized for what it may pass; the day is reckoned with what battery and hot alternator bear.
        out.steady = bounds.choose(site).unwrap_or(Amps::ZERO);
        out.current = Some(rush::design_current(site, chemistry, bank.capacity, book));
    }
    let from = Share::FULL - planned_depth(site, chemistry);
    if let Some(current) = out.current {
        let net = out.steady - day.driving_current;
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
    out.balance = balance::balance(site, day, &bounds, &out, book);
    working::record(site, chemistry, bank, day, &bounds, &out, book);
    checks::check(site, chemistry, battery, &bounds, &out, book);
    out
}
