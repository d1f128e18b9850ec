//! Which voltages do the sources have at their worst?
//!
//! Lowest at the service battery's posts while loads run: the cut-off setting
//! when the plan gives one, since the loads are off below it. Else the resting
//! voltage at the reserve that the cut-off keeps, in the coldest air, less the
//! drop inside the aged, cold battery while everything is on that may be on
//! together, the inverter at its whole rating; but not below where harm begins
//! or where the inverter switches itself off, and not above the highest that the cut-off can be set to. The cut-off itself
//! is set later, by the usual current in mean air and rounded up, so never
//! below that. Under a counter of charge the reserve, or what a counter set lower may leave, stands before the setting, which
//! is a floor only. All is taken as constant power, which draws the more the lower
//! the voltage, P / V: with the resting voltage E and the resistance R
//! V = (E + √(E² - 4 R P)) / 2, on the safe side for the other kinds. Lowest at the starter battery while driving and highest while
//! charging: as the charger's part has them. Left out: sagging of the starter
//! battery at idle with everything on.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::lowest_driving_voltage;
use crate::engine::installation::battery::{counter, reserve_of};
use crate::engine::installation::circuits::Side;
use crate::engine::installation::cut_off::Device;
use crate::engine::installation::load::{NOMINAL, efficiency, power_together};
use crate::engine::installation::place::coldest;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::store::resting_voltage;
use crate::engine::physics::reckon::Reckoned;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::plan::{CutOffBy, System};
use crate::quantity::*;
use crate::reckon;

/// The sources at their worst.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Levels {
    /// Lowest steady voltage at the service battery's posts.
    pub lowest: Volts,
    /// Lowest steady voltage at the starter battery's posts while driving.
    pub feed: Volts,
    /// Highest voltage at a charging source.
    pub charging: Volts,
    /// What `lowest` follows from; `None` where the plan gives the cut-off's setting.
    pub sag: Option<Sag>,
}

/// The service battery at its reserve, with everything on.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sag {
    /// Resting voltage at the reserve, in the coldest air.
    pub resting: Volts,
    /// Resistance inside, aged and cold.
    pub inside: Ohms,
    /// Power of all that may be on together.
    pub power: Watts,
    /// Where harm begins, under a counter whose floor is free the least that it is set to, or where the inverter switches
    /// itself off if that is higher.
    pub floor: Volts,
    /// The highest that the cut-off can be set to.
    pub highest_setting: Volts,
}

impl Sag {
    /// Voltage at the posts; where the battery cannot give the power, that at the most it gives. Within what a
    /// 12 V system can have.
    pub fn posts(&self) -> Reckoned<Volts, 5> {
        reckon!(Volts: min(max(min(max((E + sqrt(max(E * E - 4.0 * R * P, 0.0))) / 2.0, D), H), 6.0), 20.0),
            E: "resting voltage at the reserve, in the coldest air" = self.resting,
            R: "resistance inside, aged and cold" = self.inside,
            P: "all that may be on together, the inverter at its whole rating" = self.power,
            D: "voltage at which harm begins, under a free counter the least floor that is set, or at which the inverter switches itself off" = self.floor,
            H: "highest that the cut-off can be set to" = self.highest_setting)
    }
}

impl Levels {
    /// Of a plan with battery and charger as sized; `peak` is the current of all that is on together.
    pub fn of(site: &Installation, battery: &BatteryDesign, charger: &ChargerDesign, peak: Amps) -> Self {
        let chemistry = site.catalogue.chemistry(&site.service_battery.chemistry);
        let cut = site.cut_off.cut;
        // Under a counter a voltage is a floor, whoever has set it: the loads are off before, or go that low.
        let asked = |_: &&Chemistry| cut.is_none() || site.cut_off.acts_by == CutOffBy::Charge;
        let sag = chemistry.filter(asked).map(|c| sag(site, c, battery.bank.as_ref(), peak));
        let sag = sag.filter(|sag| cut.is_none_or(|floor| sag.posts().value >= floor));
        let lowest = sag.map(|s| s.posts().value).or(cut);
        let charging = charger.output_highest.max(site.charger.output_voltage.unwrap_or(Volts::ZERO));
        // Of a vehicle of 24 V the alternator does not reach this side.
        let own = site.vehicle.system == System::V12;
        let beside = || chemistry.filter(|_| !own).map_or(site.vehicle.alternator_voltage, |c| c.charge.absorption);
        let charging = if charging > Volts::ZERO { charging } else { beside() };
        let sound = |v: Volts| v.max(Volts::new(6.0)).min(Volts::new(20.0));
        let feed = lowest_driving_voltage(site);
        Levels {
            lowest: sound(lowest.unwrap_or(Volts::new(11.0))),
            feed: if own { sound(feed) } else { feed.max(Volts::new(6.0)).min(Volts::new(32.0)) },
            charging: sound(charging),
            sag,
        }
    }
}

impl Levels {
    /// Where the lowest voltage of a side comes from, in words.
    pub fn source(&self, side: Side) -> &'static str {
        match side {
            Side::Service => {
                "the cut-off setting, or the battery at its reserve, aged and cold, with all on that may be on together"
            }
            Side::Feed => "lowest steady voltage at the starter battery while driving",
        }
    }
}

/// What all that may be on together pulls the posts of a bank to, at the reserve, aged and in the cold.
pub(crate) fn pulled_to(site: &Installation, chemistry: &Chemistry, bank: &Bank, peak: Amps) -> Volts {
    sag(site, chemistry, Some(bank), peak).posts().value
}

fn sag(site: &Installation, chemistry: &Chemistry, bank: Option<&Bank>, peak: Amps) -> Sag {
    let reserve = reserve_of(site, chemistry);
    let left = counter(site, chemistry).map_or(reserve, |counter| counter.acts_between().0.min(reserve));
    let resting = resting_voltage(chemistry, left, coldest(site));
    let inside = bank.map_or(Ohms::ZERO, |bank| bank.resistance_worst);
    // Below its own cut the inverter is off, and what is left pulls the posts no lower than this.
    let inverter = inverter_power(site);
    let without = Sag {
        resting,
        inside,
        power: together(site) - inverter,
        floor: Volts::ZERO,
        highest_setting: site.inverter.own_cut,
    };
    let own_cut = if inverter > Watts::ZERO { without.posts().value } else { Volts::ZERO };
    Sag {
        resting,
        inside,
        power: (peak * NOMINAL).max(together(site)),
        floor: least_floor(site, chemistry).max(own_cut),
        highest_setting: site.cut_off.highest_setting,
    }
}

/// Where harm begins; under a counter whose floor is free the least that it is set to, a step above that. A given one may
/// be lower.
fn least_floor(site: &Installation, chemistry: &Chemistry) -> Volts {
    let free = site.cut_off.acts_by == CutOffBy::Charge && site.cut_off.cut.is_none();
    if free { Device::of(&site.cut_off).least_floor(chemistry) } else { chemistry.low.damage }
}

/// Power of all that may be on together; the inverter with its whole rating, whatever is plugged in today.
fn together(site: &Installation) -> Watts {
    power_together(&site.loads, |l| !l.inverter) + inverter_power(site)
}

/// Power that the inverter may take from the battery: its rating, or all that is plugged in where that is more.
pub(crate) fn inverter_power(site: &Installation) -> Watts {
    let plugged: Watts = site.loads.iter().filter(|l| l.inverter).map(|l| l.power).sum();
    if site.inverter.rating <= Watts::ZERO {
        return Watts::ZERO;
    }
    site.inverter.rating.max(plugged) / efficiency(&site.inverter).get()
}

#[cfg(test)]
mod tests {
    use crate::catalogue::Catalogue;
    use crate::engine::design;
    use crate::plan::read;

    /// Loads that pull the posts to where harm begins: under a counter that sets its own floor they are off a step above
    /// that, under a lower floor that is given they are not.
    #[test]
    fn a_given_floor_under_a_counter_may_be_lower() {
        let catalogue = Catalogue::embedded().unwrap();
        let lowest = |more: &str| {
            let text = format!(
                "format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 20\n[cut_off]\nacts_by = \"charge\"\n{more}\
                 [[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 0.5\n\
                 [[run]]\nfrom = \"cut-off\"\nto = \"panel\"\nlength_m = 1\n\
                 [[load]]\nname = \"winch\"\nat = \"panel\"\npower_w = 3000\nduty.hours_a_day = 0.1\n"
            );
            let read = read(&text, &catalogue);
            assert!(read.problems.is_empty(), "{:?}", read.problems);
            design(&read.plan, &catalogue).levels.lowest
        };
        let harm = catalogue.chemistry("agm").unwrap().low.damage;
        let free = lowest("");
        assert!(free > harm, "{free} above {harm}");
        assert_eq!(lowest("cut_v = 9.6\n"), harm);
        assert_eq!(lowest(&format!("cut_v = {}\n", free.get())), free);
    }
}
