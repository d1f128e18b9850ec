//! How big a battery, and of which chemistry.
//!
//! Each criterion asks for a capacity; the biggest rules. Energy over the days
//! without charge by the method of IEEE Std 1013 and SAND87-7023 (charge x
//! days / depth, corrected for cold, end of life and margin as in IEEE Std
//! 485); then rate (Peukert), discharge current, short load, charge current.
//! Left out: cells that differ from each other in a bank, and warming by its
//! own losses, which would help in the cold.

pub mod ahead;
pub mod candidates;
pub mod criteria;
pub mod kept_warm;
pub mod lasting;

use crate::catalogue::Chemistry;
use crate::engine::choose::battery::criteria::{Sizing, sizing};
use crate::engine::installation::Installation;
use crate::engine::installation::battery::left_when_opened;
use crate::engine::installation::place::{coldest, place};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::physics::cell::formula::depth_reached;
use crate::engine::physics::cell::gas::{vent_air, vent_opening};
use crate::engine::simulate::bank::Job;
use crate::engine::simulate::battery::{BatteryDesign, Criterion, SizedBy, usable};
use crate::engine::simulate::budget::Budget;
use crate::quantity::*;

const SERVICE: Subject = Subject::ServiceBattery;

/// Size the service battery; `asked`: what the promise asks for, once tried.
pub fn battery(site: &Installation, budget: &Budget, asked: AmpHours, notes: &mut Notes) -> BatteryDesign {
    let mut out = BatteryDesign { place: place(site), ..BatteryDesign::default() };
    let Some(chemistry) = site.chemistry() else { return out };
    let mut sizing = sizing(site, chemistry, notes);
    sizing.criteria.extend(tried(asked, notes));
    basics(site, chemistry, &sizing, notes);
    notes.add(SERVICE, "needed", || sizing.needed_working(true));
    out.depth = sizing.depth;
    out.needed = sizing.needed();
    out.ruling = sizing.ruling().map(|c| c.by);
    out.bank = Job { site, chemistry, own: true, subject: SERVICE }.bank(out.needed, notes);
    if let Some(bank) = &out.bank {
        out.usable = notes.reckon(&SERVICE, "usable energy", usable(chemistry, bank.capacity, out.depth), |r| {
            r.working("usable energy, new, 25 °C")
                .from("C", SERVICE, "capacity")
                .from("d", SERVICE, "depth")
                .source("energy = charge x voltage")
        });
        let days = site.days_without_charge;
        let reached = depth_reached(budget.standing_day, days, bank.capacity, sizing.cold, sizing.end_of_life);
        out.depth_reached = reached.map_or(Share::FULL, |reached| {
            notes.reckon(&SERVICE, "depth reached", reached, |r| {
                r.working("depth after the days without charge, coldest, at end of life")
                    .from("Q", Subject::Budget, "charge of a standing day")
                    .from("C", SERVICE, "capacity")
                    .from("c", SERVICE, "cold factor")
                    .source("the method of sizing turned round")
            })
        });
    }
    vent(chemistry, &mut out, notes);
    out.criteria = sizing.criteria;
    out
}

/// What carries the gas off that it gives while it is charged.
fn vent(chemistry: &Chemistry, out: &mut BatteryDesign, notes: &mut Notes) {
    let (Some(bank), Some(gas)) = (&out.bank, chemistry.charge.gas) else { return };
    let air = vent_air(chemistry.cells, gas, bank.capacity);
    out.vent_air = notes.reckon(&SERVICE, "vent air", air, |r| {
        r.working("air to be changed while it is charged")
            .from("C", SERVICE, "capacity")
            .source(format!("IEC 62485-2; {}", chemistry.charge.from.gas.words()))
    });
    out.vent_opening = notes.reckon(&SERVICE, "vent opening", vent_opening(out.vent_air), |r| {
        r.working("inlet low down, and as much of an outlet high up, to the outside")
            .from("Q", SERVICE, "vent air")
            .source("IEC 62485-2, air that moves by itself; written for rooms, used here by analogy")
    });
}

fn basics(site: &Installation, chemistry: &Chemistry, sizing: &Sizing, notes: &mut Notes) {
    notes.add(SERVICE, "depth", || {
        let (given, usual) = (site.service_battery.depth, &chemistry.life);
        Working::new("depth of discharge planned with", "max(min(d, 1 - r), 0.01)", sizing.depth)
            .with("d", "wanted depth", given.unwrap_or(usual.depth))
            .with("r", "left when the cut-off opens, at most", left_when_opened(site, chemistry))
            .source(given.map_or_else(|| usual.from.depth.words(), |_| "plan".into()))
    });
    notes.add(SERVICE, "mean voltage", || {
        Working::new("mean resting voltage over the depth, 25 °C", "", sizing.mean)
            .with("d", "depth", sizing.depth)
            .source(format!("area under the resting curve; {}", chemistry.resting.words()))
    });
    notes.add(SERVICE, "cold factor", || {
        Working::new("share of the capacity left at the coldest", "", sizing.cold)
            .with("T", "coldest air", coldest(site))
            .source(chemistry.cold.from.capacity.words())
    });
}

/// The capacity that the promise asks for, where one without it was tried and did not last.
fn tried(asked: AmpHours, notes: &mut Notes) -> Option<Criterion> {
    let criterion = (asked > AmpHours::ZERO).then_some(Criterion { by: SizedBy::Promise, needed: asked })?;
    notes.add(SERVICE, criterion.by.name(), || {
        Working::new("capacity to try next for the days without charge", "", asked)
            .source("a tenth more than the bank that did not last, stepped through with its own settings")
    });
    Some(criterion)
}
