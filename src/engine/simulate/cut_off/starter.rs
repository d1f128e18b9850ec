//! Can the engine always be started? Where the charger or relay engages and releases.
//!
//! Without an enable wire the charger goes by the voltage at its own input. It
//! must start only at voltages that a running engine brings, and with the
//! engine off stop while the starter battery still has what it needs: the
//! release voltage and the drop in feed and battery together are the resting
//! voltage that is left. Left out:
//! the minutes in which a starter battery's surface charge fades.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::physics::cell::store::{Age, Store, TABLE_AIR, resting_charge};
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::quantity::*;
use crate::reckon;

/// How far above a full starter battery the charger should engage. Common practice, no source.
const ABOVE_FULL: Volts = Volts::new(0.3);

/// What is left to start with.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StarterGuard {
    /// A wire tells the charger that the engine runs, so that voltages do not matter.
    pub by_wire: bool,
    /// Full starter battery at rest, 25 °C.
    pub full: Volts,
    /// Lowest voltage at which the charger may engage.
    pub engage_at_least: Volts,
    /// What the charger draws from the starter battery with the engine off.
    pub draws: Amps,
    /// Resting voltage that the release leaves.
    pub leaves_volts: Volts,
    /// Charge that the release leaves.
    pub leaves: Share,
    /// Lowest release that leaves what starting needs.
    pub release_at_least: Volts,
}

/// The guard of the starter battery; `None` without a charger or its chemistry.
pub(crate) fn starter(site: &Installation, charger: &ChargerDesign, notes: &mut Notes) -> Option<StarterGuard> {
    let chemistry = site.catalogue.chemistry(&site.starter_battery.chemistry)?;
    charger.current?;
    let (battery, about) = (&site.starter_battery, &Subject::StarterBattery);
    let air = site.surroundings.coldest;
    let store = Store::new(chemistry, battery.capacity, battery.resistance_mohm);
    let full = store.resting_most(Share::FULL, TABLE_AIR);
    let path = charger.feed + store.resistance(battery.keep, air, Age::New);
    let (by_wire, draws) = (site.charger.enable_signal, charger.input);
    let needless = |working: Working| {
        if by_wire { working.note("not needed: the enable wire stops it with the engine") } else { working }
    };
    let left = reckon!(Volts: V + I * R,
        V: "release voltage at the charger's input" = site.charger.releases_at,
        I: "drawn with the engine off" = draws,
        R: "feed and starter battery" = path);
    let leaves_volts = notes.reckon(about, "left at release", left, |r| {
        let source = format!("Ohm's law; {}", chemistry.resistance.words(battery.resistance_mohm, false));
        needless(r.working("resting voltage that the release leaves").source(source))
    });
    let release = reckon!(Volts: ceil((V - I * R) * 10.0 - 0.000001) / 10.0,
        V: "resting voltage of what starting needs, coldest" = store.resting_most(battery.keep, air),
        I: "drawn with the engine off" = draws,
        R: "feed and starter battery" = path);
    let release_at_least = notes.reckon(about, "release at least", release, |r| {
        let words = "lowest release that leaves what starting needs";
        needless(r.working(words).source(format!("rounded up to 0.1 V; {}", chemistry.resting.words())))
    });
    let engage = reckon!(Volts: ceil((F + a) * 10.0 - 0.000001) / 10.0,
        F: "full starter battery at rest" = full,
        a: "above it" = ABOVE_FULL);
    let engage_at_least = notes.reckon(about, "engage at least", engage, |r| {
        r.working("lowest voltage at which the charger may engage")
            .source("rounded up to 0.1 V; common practice, no source")
    });
    let leaves = if leaves_volts >= store.resting_most(Share::FULL, air) {
        Share::FULL
    } else {
        resting_charge(chemistry, leaves_volts, air)
    };
    Some(StarterGuard { by_wire, full, engage_at_least, draws, leaves_volts, leaves, release_at_least })
}
