//! What stays on after the cut, what acts in which order, and what flows through the device.

use crate::catalogue::{Catalogue, Chemistry};
use crate::engine::choose::cut_off::{Acts, Case, CutOffDesign, standing};
use crate::engine::installation::Installation;
use crate::engine::installation::load::NOMINAL;
use crate::engine::judge::cut_off::wiring::{behind, inverter_stays_on, stays_on};
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::plan::{ChargerKind, point};
use crate::quantity::*;

const HOURS_A_MONTH: f64 = 720.0;

/// Self-discharge as a current: C x share a month / 720 h.
pub(crate) fn self_discharge(chemistry: &Chemistry, capacity: AmpHours) -> Amps {
    Amps::new(capacity.get() * chemistry.life.self_discharge.get() / HOURS_A_MONTH)
}

/// The battery's own electronics: current for 100 Ah x C/100.
pub(crate) fn own_draw(chemistry: &Chemistry, capacity: AmpHours) -> Amps {
    chemistry.low.own_draw * (capacity.get() / 100.0)
}

/// What is drawn with the cut-off open: standing draws, loads and the idle
/// inverter before it, the battery's own electronics, self-discharge.
pub(crate) fn after(site: &Installation, budget: &Budget, chemistry: &Chemistry, capacity: AmpHours) -> Amps {
    let before = site.loads.iter().zip(&budget.loads).filter(|(l, _)| stays_on(site, l));
    let idle = if inverter_stays_on(site) { budget.inverter_idle } else { AmpHours::ZERO };
    let before: AmpHours = before.map(|(_, b)| b.charge).sum::<AmpHours>() + idle;
    standing(site) + before / Hours::new(24.0) + own_draw(chemistry, capacity) + self_discharge(chemistry, capacity)
}

/// Days from the cut to where harm begins: empty, or the charge at which the
/// resting voltage is the harmful one.
pub(crate) fn days_to_harm(case: &Case<'_>, trips_at: Option<Share>) -> Option<Days> {
    let low = &case.store.chemistry.low;
    let harm = crate::engine::physics::cell::store::resting_charge(case.store.chemistry, low.damage, case.air);
    let left = (trips_at.unwrap_or(Share::ZERO) - harm).max(Share::ZERO);
    (case.after.get() > 0.0).then(|| Days::new(case.store.capacity.get() * left.get() / (case.after.get() * 24.0)))
}

/// What switches off by itself at which voltage, highest first.
pub(crate) fn order(site: &Installation, chemistry: &Chemistry, out: &CutOffDesign) -> Vec<Acts> {
    let mut all = vec![Acts::new("cut-off", out.cut), Acts::new("harm to the battery", chemistry.low.damage)];
    all.extend(site.loads.iter().filter_map(|l| l.own_cut.map(|v| Acts::new(format!("{} by itself", l.name), v))));
    all.extend(site.loads.iter().filter_map(|l| l.lowest.map(|v| Acts::new(format!("{} stops working", l.name), v))));
    if site.inverter.rating.get() > 0.0 {
        all.push(Acts::new("inverter by itself", site.inverter.own_cut));
    }
    if let Some(v) = chemistry.low.own_protection {
        all.push(Acts::new("battery's own protection", v));
    }
    all.sort_by(|a, b| b.at.get().total_cmp(&a.at.get()));
    all
}

/// Steady current through the device at the cut-off voltage, where constant
/// power takes the most: what is behind it of the peak, or what the sources behind it give if more.
pub(crate) fn current(site: &Installation, budget: &Budget, charger: &ChargerDesign, out: &CutOffDesign) -> Amps {
    let before = site.loads.iter().zip(&budget.loads).filter(|(l, _)| stays_on(site, l));
    let before: Amps = before.map(|(_, b)| b.running).sum();
    let loads = (budget.peak - before).max(Amps::ZERO);
    let rise = (NOMINAL / out.cut.max(Volts::new(1.0))).max(1.0);
    let charger = charger.current.filter(|_| site.charger.kind != ChargerKind::None).unwrap_or(Amps::ZERO);
    let sources =
        [(point::CHARGER, charger), (&site.solar.at, site.solar.array / NOMINAL), (&site.mains.at, site.mains.current)];
    let inward: Amps =
        sources.iter().filter(|(at, _)| behind(&site.circuits, at) == Some(true)).map(|(_, amps)| *amps).sum();
    (loads * rise).max(inward)
}

/// Smallest device sold that carries the current.
pub(crate) fn rating(catalogue: &Catalogue, current: Amps) -> Option<Amps> {
    let sizes = catalogue.devices.cut_offs.sizes.iter().copied();
    sizes.filter(|s| s.get() >= current.get() - 1e-9).reduce(Amps::min)
}
