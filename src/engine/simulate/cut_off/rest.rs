//! What stays on after the cut, what acts in which order, and what flows through the device.

use crate::catalogue::{Chemistry, cite};
use crate::engine::installation::Installation;
use crate::engine::installation::charger::standing_current;
use crate::engine::installation::cut_off::{behind, inverter_stays_on, stays_on};
use crate::engine::installation::load::NOMINAL;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::cut_off::result::{Actor, Acts, CutOffDesign};
use crate::plan::{ChargerKind, point};
use crate::quantity::*;
use crate::reckon;

/// What goes on drawing with the cut-off open: standing draws; loads and the idle inverter before it.
pub(crate) fn connected(site: &Installation, budget: &Budget) -> Amps {
    let before = site.loads.iter().zip(&budget.loads).filter(|(l, _)| stays_on(site, l));
    let idle = if inverter_stays_on(site) { budget.inverter_idle } else { AmpHours::ZERO };
    let before: AmpHours = before.map(|(_, b)| b.charge).sum::<AmpHours>() + idle;
    standing_current(site).value + before / Hours::new(24.0)
}

/// What is drawn with the cut-off open: that, the battery's own electronics, self-discharge.
pub(crate) fn after(chemistry: &Chemistry, capacity: AmpHours, connected: Amps, notes: &mut Notes) -> Amps {
    let drawn = reckon!(Amps: b + C / 100.0 * e + C * s / 720.0,
        b: "cut-off, charger, loads and idle inverter connected before it" = connected,
        C: "capacity of the bank" = capacity,
        e: "the battery's own electronics, for each 100 Ah" = chemistry.low.own_draw,
        s: "self-discharge in a month of 720 h" = chemistry.life.self_discharge);
    notes.reckon(&Subject::CutOff, "after", drawn, |r| {
        let electronics = (chemistry.low.own_draw.get() > 0.0).then_some(&chemistry.low.from.own_draw);
        r.working("drawn after the cut-off")
            .source(cite(electronics.into_iter().chain([&chemistry.life.from.self_discharge])))
    })
}

/// What switches off by itself at which voltage, highest first.
pub(crate) fn order(site: &Installation, chemistry: &Chemistry, out: &CutOffDesign) -> Vec<Acts> {
    let mut all = battery_alone(chemistry, out.cut);
    all.extend(site.loads.iter().filter_map(|l| l.own_cut.map(|v| Acts::new(Actor::Load(l.name.clone()), v))));
    all.extend(site.loads.iter().filter_map(|l| l.lowest.map(|v| Acts::new(Actor::Stops(l.name.clone()), v))));
    if site.inverter.rating.get() > 0.0 {
        all.push(Acts::new(Actor::Inverter, site.inverter.own_cut));
    }
    highest_first(all)
}

/// The same with nothing connected.
pub(crate) fn battery_order(chemistry: &Chemistry, out: &CutOffDesign) -> Vec<Acts> {
    highest_first(battery_alone(chemistry, out.cut))
}

fn battery_alone(chemistry: &Chemistry, cut: Volts) -> Vec<Acts> {
    let mut all = vec![Acts::new(Actor::CutOff, cut), Acts::new(Actor::Harm, chemistry.low.damage)];
    all.extend(chemistry.low.own_protection.map(|v| Acts::new(Actor::Protection, v)));
    all
}

fn highest_first(mut all: Vec<Acts>) -> Vec<Acts> {
    all.sort_by(|a, b| b.at.get().total_cmp(&a.at.get()));
    all
}

/// Steady current through the device at the cut-off voltage, where constant
/// power takes the most: what is behind it of the peak, or what the sources
/// behind it give if more; never less than its run is sized for.
pub(crate) fn current(
    site: &Installation,
    budget: &Budget,
    charger: &ChargerDesign,
    out: &CutOffDesign,
    notes: &mut Notes,
) -> Amps {
    let before = site.loads.iter().zip(&budget.loads).filter(|(l, _)| stays_on(site, l));
    let charger = charger.current.filter(|_| site.charger.kind != ChargerKind::None).unwrap_or(Amps::ZERO);
    let sources =
        [(point::CHARGER, charger), (&site.solar.at, site.solar.array / NOMINAL), (&site.mains.at, site.mains.current)];
    let inward: Amps = sources.iter().filter(|(at, _)| behind(site, at) == Some(true)).map(|(_, amps)| *amps).sum();
    let through = reckon!(Amps: max(max(max(P - b, 0.0) * max(N / max(U, 1.0), 1.0), S), R),
        P: "all loads that can be on together, at 12 V" = budget.peak,
        b: "of them connected before it" = before.map(|(_, b)| b.running).sum::<Amps>(),
        N: "voltage that they are given at" = NOMINAL,
        U: "cut-off voltage, where constant power takes the most" = out.cut,
        S: "given by sources that come in behind it" = inward,
        R: "what its run is sized for, an inverter with its full rating" = out.path.through);
    notes.reckon(&Subject::CutOff, "current", through, |r| {
        r.working("steady current through it").from("U", Subject::CutOff, "cut").source("the most of the three")
    })
}
