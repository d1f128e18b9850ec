//! Can the engine always be started? Where the charger or relay engages and releases.
//!
//! Without an enable wire the charger goes by the voltage at its own input. It
//! must start only at voltages that a running engine brings, and with the
//! engine off stop while the starter battery still has what it needs: the
//! release voltage and the drop in feed and battery together are the resting
//! voltage that is left. Left out:
//! the minutes in which a starter battery's surface charge fades.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::lowest_driving_voltage;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::physics::cell::store::{Age, Store, TABLE_AIR, resting_charge};
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::plan::{Place, Section, Value};
use crate::quantity::*;

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
pub(crate) fn starter(site: &Installation, charger: &ChargerDesign, book: &mut Book) -> Option<StarterGuard> {
    let chemistry = site.catalogue.chemistry(&site.starter_battery.chemistry)?;
    charger.current?;
    let battery = &site.starter_battery;
    let air = site.surroundings.coldest;
    let store = Store::new(chemistry, battery.capacity, battery.resistance_mohm);
    let full = store.resting_most(Share::FULL, TABLE_AIR);
    let inner = store.resistance(battery.keep, air, Age::New);
    let path = charger.feed + inner;
    let leaves_volts = site.charger.releases_at + charger.input * path;
    let leaves = if leaves_volts.get() >= store.resting_most(Share::FULL, air).get() {
        Share::FULL
    } else {
        resting_charge(chemistry, leaves_volts, air)
    };
    let needed = store.resting_most(battery.keep, air) - charger.input * path;
    let up = |volts: Volts| Volts::new((volts.get() * 10.0 - 1e-6).ceil() / 10.0);
    let guard = StarterGuard {
        by_wire: site.charger.enable_signal,
        full,
        engage_at_least: up(full + ABOVE_FULL),
        draws: charger.input,
        leaves_volts,
        leaves,
        release_at_least: up(needed),
    };
    record(site, chemistry, &guard, path, book);
    if !guard.by_wire {
        release(site, chemistry, &guard, book);
        engage(site, chemistry, &guard, book);
    }
    Some(guard)
}

fn record(site: &Installation, chemistry: &Chemistry, guard: &StarterGuard, path: Ohms, book: &mut Book) {
    let subject = Subject::StarterBattery;
    let release = Working::new("resting voltage that the release leaves", "V + I * R", guard.leaves_volts)
        .with("V", "release voltage at the charger's input", site.charger.releases_at)
        .with("I", "drawn with the engine off", guard.draws)
        .with("R", "feed and starter battery", path)
        .source(format!("Ohm's law; {}", chemistry.resistance.words(site.starter_battery.resistance_mohm, false)));
    let release =
        if guard.by_wire { release.note("not needed: the enable wire stops it with the engine") } else { release };
    book.work(subject.clone(), "left at release", release);
    book.work(
        subject,
        "engage at least",
        Working::new(
            "lowest voltage at which the charger may engage",
            "ceil((F + a) * 10) / 10",
            guard.engage_at_least,
        )
        .with("F", "full starter battery at rest", guard.full - Volts::new(1e-7))
        .with("a", "above it", ABOVE_FULL)
        .source("rounded up to 0.1 V; common practice, no source"),
    );
}

fn release(site: &Installation, chemistry: &Chemistry, guard: &StarterGuard, book: &mut Book) {
    let keep = site.starter_battery.keep;
    if guard.leaves.get() >= keep.get() - 1e-9 {
        return;
    }
    let text = format!(
        "with the engine off the charger draws {} until {}, which leaves the starter battery {}; {keep} are needed to start",
        guard.draws, site.charger.releases_at, guard.leaves
    );
    book.find(
        Finding::new(Kind::StarterLow, Subject::StarterBattery, text)
            .rule(format!("resting voltage less current x resistance; {}", chemistry.resting.words()))
            .at(Place::of(Section::Charger, "releases_v"))
            .remedy_edit(
                "1 enable wire from an engine-running signal stops it with the engine",
                Place::of(Section::Charger, "enable_signal"),
                Some(Value::Flag(true)),
            )
            .remedy_number(
                format!("or release at {} or more", guard.release_at_least),
                Place::of(Section::Charger, "releases_v"),
                guard.release_at_least.get(),
            ),
    );
}

fn engage(site: &Installation, chemistry: &Chemistry, guard: &StarterGuard, book: &mut Book) {
    let engage = site.charger.engages_at;
    if engage.get() > guard.full.get() {
        return;
    }
    let low = lowest_driving_voltage(site);
    let (full, good) = (guard.full, guard.engage_at_least);
    let text = format!("the charger engages at {engage}, which a full starter battery shows at rest ({full})");
    book.find(
        Finding::new(Kind::StarterLow, Subject::StarterBattery, text)
            .rule(format!(
                "without an enable wire the charger must start only at voltages that a running engine brings; {}",
                chemistry.resting.words()
            ))
            .at(Place::of(Section::Charger, "engages_v"))
            .remedy_number(
                format!("engage at {good}; the alternator brings at least {low}"),
                Place::of(Section::Charger, "engages_v"),
                good.get(),
            ),
    );
}
