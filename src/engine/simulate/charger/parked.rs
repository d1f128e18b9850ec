//! How long may the vehicle be parked until the engine may not start?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::simulate::budget::Budget;
use crate::quantity::*;
use crate::reckon;

/// Days from full until the starter battery has less than starting needs; `None` where nothing draws.
pub(crate) fn starts_for(site: &Installation, day: &Budget, notes: &mut Notes) -> Option<Days> {
    let battery = &site.starter_battery;
    let chemistry = site.catalogue.chemistry(&battery.chemistry)?;
    let hanging = site.loads.iter().zip(&day.loads).filter(|(load, _)| load.on_starter && !load.only_driving());
    let loads: AmpHours = hanging.map(|(_, load)| load.charge).sum();
    let leak = chemistry.life.self_discharge;
    let a_day = site.vehicle.parked_draw * Hours::new(24.0) + loads + battery.capacity * (leak.get() / 30.0);
    if a_day.get() <= 0.0 {
        return None;
    }
    let days = reckon!(Days: C * (1.0 - k) / (24.0 * P + L + C * s / 30.0),
        C: "capacity of the starter battery" = battery.capacity,
        k: "charge that starting needs" = battery.keep,
        P: "draw while parked" = site.vehicle.parked_draw,
        L: "loads on it, a day" = loads,
        s: "self-discharge in a month of 30 days" = leak);
    Some(notes.reckon(&Subject::StarterBattery, "starts for", days, |r| {
        let source = format!("charge over what draws; {}", chemistry.life.from.self_discharge.words());
        r.working("parked until the starter battery may not start the engine").source(source)
    }))
}
