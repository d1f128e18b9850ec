//! What do the settings follow from: battery, currents, cables?

use crate::catalogue::{Chemistry, cite};
use crate::engine::installation::Installation;
use crate::engine::installation::battery::{counter, reserve_of};
use crate::engine::installation::charger::charge_voltage_at;
use crate::engine::installation::counter::Counter;
use crate::engine::installation::cut_off::{Device, longest_start};
use crate::engine::installation::place::hottest;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::formula::compensated;
use crate::engine::physics::cell::store::{Age, Store, TABLE_AIR};
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::levels::pulled_to;
use crate::engine::simulate::cut_off::path::SensingPath;
use crate::engine::simulate::cut_off::rest;
use crate::engine::simulate::cut_off::result::Draw;
use crate::quantity::*;
use crate::reckon;

/// All that the settings follow from, for a plan or a bare question.
#[derive(Clone, Debug)]
pub(crate) struct Case<'a> {
    pub store: Store<'a>,
    /// Its internal resistance, where the plan says it.
    pub measured: Option<Milliohms>,
    pub reserve: Share,
    pub air: Celsius,
    pub path: SensingPath,
    pub currents: Currents,
    pub surge: Amps,
    /// The longest start.
    pub start: Seconds,
    pub after: Amps,
    pub charging: Volts,
    pub device: Device,
    /// What counts the charge, where that makes it open.
    pub counter: Option<Counter>,
    /// The lowest that all loads together pull the sensing point to at the reserve; unknown for a bare question.
    pub pulled: Option<Volts>,
}

/// A current, and how long it has flowed when the cut-off may act.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Flow {
    pub name: Draw,
    pub current: Amps,
    pub held: Hours,
}

/// The currents at which a setting is looked at.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Currents {
    pub light: Flow,
    pub usual: Flow,
    pub heavy: Flow,
}

impl Currents {
    /// How long they have flowed: a light one all night, the usual one for hours, a heavy one for minutes. Common
    /// practice, no source. Never for longer than it takes from full to the reserve: what has not been drawn
    /// cannot be missing at hand.
    pub fn of(light: Amps, usual: Amps, heavy: Amps, capacity: AmpHours, reserve: Share) -> Self {
        let drawn = capacity * (Share::FULL - reserve).max(Share::ZERO).get();
        let flow = |name, current: Amps, hours: f64| {
            let most = if current.get() > 0.0 { (drawn / current).get() } else { hours };
            Flow { name, current, held: Hours::new(hours.min(most)) }
        };
        Currents {
            light: flow(Draw::Light, light, 12.0),
            usual: flow(Draw::Usual, usual, 4.0),
            heavy: flow(Draw::Heavy, heavy, 0.25),
        }
    }

    /// From the lightest on.
    pub fn all(&self) -> [Flow; 3] {
        [self.light, self.usual, self.heavy]
    }
}

impl<'a> Case<'a> {
    /// A plan's.
    pub fn of(
        site: &'a Installation,
        chemistry: &'a Chemistry,
        budget: &Budget,
        bank: &Bank,
        charger: &ChargerDesign,
        path: SensingPath,
        notes: &mut Notes,
    ) -> Self {
        let (usual, reserve) = (budget.usual, reserve_of(site, chemistry));
        Case {
            store: bank.store(chemistry),
            measured: site.service_battery.resistance_mohm,
            reserve,
            air: site.surroundings.mean,
            path,
            currents: currents(budget, bank.capacity, reserve, notes),
            surge: budget.surge,
            start: longest_start(site).map_or(Seconds::ZERO, |(_, lasts)| lasts),
            after: rest::after(chemistry, bank.capacity, rest::connected(site, budget), notes),
            charging: charging(site, chemistry, charger, usual, path, notes),
            device: Device::of(&site.cut_off),
            counter: counter(site, chemistry),
            pulled: Some(
                pulled_to(site, chemistry, bank, budget.peak) - budget.peak * path.share.get() * path.resistance,
            ),
        }
    }

    /// Voltage at the posts.
    pub fn posts(&self, charge: Share, flow: Flow) -> Volts {
        self.store.held(charge, flow.current, flow.held, self.air, Age::New)
    }

    /// Voltage at the sensing point: posts less current x share x resistance of the path.
    pub fn sensing(&self, charge: Share, flow: Flow) -> Volts {
        self.posts(charge, flow) - flow.current * self.path.share.get() * self.path.resistance
    }
}

/// The currents of a plan: the usual one, and one below and above it.
fn currents(budget: &Budget, capacity: AmpHours, reserve: Share, notes: &mut Notes) -> Currents {
    let (about, of) = (&Subject::CutOff, || Subject::Budget);
    let source = "a light current is no more than the usual one, a heavy one no less";
    let light = reckon!(Amps: min(L, U), L: "least that flows" = budget.light, U: "usual current" = budget.usual);
    let light = notes.reckon(about, "light current", light, |r| {
        let working = r.working("light current").from("L", of(), "light current");
        working.from("U", of(), "usual current").source(source)
    });
    let usual = notes.reckon(about, "usual current", reckon!(Amps: U, U: "usual current" = budget.usual), |r| {
        r.working("usual current").from("U", of(), "usual current").source(source)
    });
    let heavy = reckon!(Amps: max(P, U), P: "all that can be on" = budget.peak, U: "usual current" = budget.usual);
    let heavy = notes.reckon(about, "heavy current", heavy, |r| {
        let working = r.working("heavy current").from("P", of(), "peak current");
        working.from("U", of(), "usual current").source(source)
    });
    Currents::of(light, usual, heavy, capacity, reserve)
}

/// Voltage that charging reaches at the sensing point: the charge voltage at
/// the hottest air (the lowest it is compensated to), less the drop of the usual loads.
fn charging(
    site: &Installation,
    chemistry: &Chemistry,
    charger: &ChargerDesign,
    usual: Amps,
    path: SensingPath,
    notes: &mut Notes,
) -> Volts {
    // Compensation lowers the voltage only above 25 °C.
    let hottest = hottest(site).max(TABLE_AIR);
    let device = if charger.current.is_some() {
        charge_voltage_at(site, chemistry, hottest)
    } else {
        compensated(chemistry.charge.absorption, chemistry.charge.v_per_k, hottest)
    };
    let reached = reckon!(Volts: U - I * s * R,
        U: "charge voltage at the hottest air" = device,
        I: "usual current" = usual,
        s: "share of it that flows between posts and sensing point" = path.share,
        R: "resistance between them, out and back" = path.resistance);
    notes.reckon(&Subject::CutOff, "charging", reached, |r| {
        r.working("voltage that charging reaches at the sensing point")
            .source(cite([&chemistry.charge.from.absorption, &chemistry.charge.from.v_per_k]))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What has flowed is no more than lay between full and the reserve; a current that could flow for longer
    /// is held as long as usual.
    #[test]
    fn no_current_is_held_for_longer_than_its_charge_lasts() {
        let (capacity, reserve) = (AmpHours::new(100.0), Share::new(0.5));
        for amps in [0.0, 0.5, 4.0, 12.5, 20.0, 100.0, 1000.0] {
            let all = Currents::of(Amps::new(amps), Amps::new(amps), Amps::new(amps), capacity, reserve).all();
            for (Flow { current, held, .. }, usual) in all.into_iter().zip([12.0, 4.0, 0.25]) {
                assert!((current * held).get() <= 50.0 + 1e-9, "{current} for {held}");
                let lasts = if amps > 0.0 { 50.0 / amps } else { f64::INFINITY };
                assert!((held.get() - lasts.min(usual)).abs() < 1e-9, "{current} for {held}");
            }
        }
    }
}
