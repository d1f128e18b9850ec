//! What can push current into a fault?
//!
//! Each battery: its full resting voltage behind its least resistance for the
//! largest current; its resting voltage at the reserve, cold, behind its worst
//! resistance for the smallest. Alternator, charger, solar controller and mains
//! charger limit themselves; they count with `limited-source-times` of their
//! rated current for the largest and with nothing for the smallest.
//!
//! Left out: the first milliseconds, in which inductance and the capacitors of
//! chargers and inverters matter; the electronic switch inside a lithium
//! block, which may open before any fuse and may also weld shut.

use crate::catalogue::{Chemistry, FuseStyle};
use crate::engine::installation::Installation;
use crate::engine::installation::battery::reserve_of;
use crate::engine::installation::place::coldest;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::store::{Age, Store, TABLE_AIR, resting_voltage, scaled};
use crate::engine::physics::fuse_link::rating::{breaking, styles};
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::plan::{ChargerKind, point};
use crate::quantity::*;

/// A battery as a source of fault current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Emf {
    /// Full resting voltage.
    pub full: Volts,
    /// Least internal resistance.
    pub least: Ohms,
    /// Usual internal resistance of a full, warm one.
    pub likely: Ohms,
    /// Resting voltage at the reserve in the cold.
    pub low: Volts,
    /// Internal resistance then, aged.
    pub worst: Ohms,
}

/// A source that limits its own current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limited<'a> {
    /// What it is.
    pub name: &'static str,
    /// The point it feeds, on the service side.
    pub at: &'a str,
    /// The most it gives for long.
    pub amps: Amps,
}

/// Devices of their own between the blocks of the service bank and the bar that joins them.
#[derive(Clone, Copy, Debug)]
pub struct BlockFuses<'a> {
    /// How many blocks.
    pub count: f64,
    /// The style that has the rating and breaks what each block gives, at the least what it is likely to.
    pub style: &'a FuseStyle,
    /// The rating, as given.
    pub rating: Amps,
}

/// All of them.
#[derive(Clone, Debug)]
pub struct Sources<'a> {
    /// Service battery; `None` while it has no size.
    pub service: Option<Emf>,
    /// Starter battery; `None` when its chemistry is not known.
    pub starter: Option<Emf>,
    /// Alternator, at the starter battery.
    pub alternator: Amps,
    /// The others, on the service side.
    pub limited: Vec<Limited<'a>>,
    /// How many blocks the service bank has; 0 while it has no size.
    pub in_parallel: u32,
    /// Devices of the blocks of the service bank, where they have any that break what a block gives.
    pub blocks: Option<BlockFuses<'a>>,
    /// Whether a relay joins both batteries.
    pub joined: bool,
    /// Highest voltage of the circuits.
    pub highest: Volts,
}

impl<'a> Sources<'a> {
    /// Of a plan with battery and charger as sized.
    pub fn of(site: &'a Installation, battery: &BatteryDesign, charger: &ChargerDesign) -> Self {
        let times = site.catalogue.rules.limited_source.value;
        let dc_dc = match site.charger.kind {
            ChargerKind::DcDc => charger.current.or(site.charger.current).unwrap_or(Amps::ZERO),
            ChargerKind::Relay | ChargerKind::None => Amps::ZERO,
        };
        let solar = site.solar.array / Volts::new(12.0);
        let limited = [
            Limited { name: "charger", at: point::CHARGER, amps: dc_dc * times },
            Limited { name: "solar", at: &site.solar.at, amps: solar * times },
            Limited { name: "mains charger", at: &site.mains.at, amps: site.mains.current * times },
        ];
        Sources {
            service: service(site, battery),
            in_parallel: battery.bank.as_ref().map_or(0, |bank| bank.blocks),
            blocks: battery.bank.as_ref().and_then(|bank| block_fuses(site, bank)),
            starter: site.catalogue.chemistry(&site.starter_battery.chemistry).map(|c| starter(site, c)),
            alternator: site.vehicle.alternator_rating * times,
            limited: limited.into_iter().filter(|l| l.amps.get() > 0.0).collect(),
            joined: site.charger.kind == ChargerKind::Relay,
            highest: highest(site),
        }
    }
}

/// The highest voltage that any charging brings onto the circuits.
pub fn highest(site: &Installation) -> Volts {
    [&site.service_battery.chemistry, &site.starter_battery.chemistry]
        .into_iter()
        .filter_map(|key| site.catalogue.chemistry(key))
        .map(|c| c.charge.max)
        .fold(site.vehicle.alternator_voltage, Volts::max)
}

/// The devices of the blocks as given, in the first style that has the rating and breaks the most of one block, or
/// else its likely current.
pub fn block_fuses<'a>(site: &'a Installation, bank: &Bank) -> Option<BlockFuses<'a>> {
    let rating = site.service_battery.block_fuse.filter(|_| bank.blocks > 1)?;
    let count = f64::from(bank.blocks);
    let made = || styles(&site.catalogue, None).filter(|s| s.ratings.contains(&rating));
    let breaks = |current: Amps| made().find(|s| breaking(s, highest(site)) >= current / count);
    let style = breaks(bank.fault).or_else(|| breaks(bank.fault_likely))?;
    Some(BlockFuses { count, style, rating })
}

fn service(site: &Installation, battery: &BatteryDesign) -> Option<Emf> {
    let bank = battery.bank.as_ref()?;
    let chemistry = site.catalogue.chemistry(&bank.chemistry)?;
    let reserve = reserve_of(site, chemistry);
    Some(Emf {
        full: bank.fault * bank.resistance_fault,
        least: bank.resistance_fault,
        likely: bank.resistance_likely,
        low: resting_voltage(chemistry, reserve, coldest(site)),
        worst: bank.resistance_worst,
    })
}

fn starter(site: &Installation, chemistry: &Chemistry) -> Emf {
    let battery = &site.starter_battery;
    let capacity = battery.capacity.max(AmpHours::new(1.0));
    let store = Store::new(chemistry, capacity, battery.resistance_mohm);
    let least = scaled(chemistry.resistance.starter(), capacity);
    let usual = chemistry.resistance.likely() * chemistry.resistance.starter() / chemistry.resistance.fault_mohm;
    let measured = battery.resistance_mohm.map(Ohms::from);
    let coldest = site.surroundings.coldest;
    Emf {
        full: store.resting_most(Share::FULL, TABLE_AIR),
        least: measured.map_or(least, |m| least.min(m)),
        likely: measured.unwrap_or_else(|| scaled(usual, capacity)),
        low: store.resting(battery.keep, coldest),
        worst: store.resistance(battery.keep, coldest, Age::EndOfLife).max(store.base),
    }
}
