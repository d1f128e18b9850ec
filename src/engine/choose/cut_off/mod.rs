//! Where to disconnect and reconnect.
//!
//! A cut-off sees voltage and is meant to keep charge. Between the two stand
//! the current of the moment (through the battery's resistance and the cable to
//! the sensing point), the hours it has flowed (kinetic battery model), the
//! temperature and age. The setting is chosen for the usual current at the mean
//! air; what it means at light and at heavy current is shown beside it. Left
//! out: age, which makes it act sooner, and the loop between charging and
//! discharging.

pub mod settings;
pub mod working;

use crate::engine::installation::Installation;
use crate::engine::judge::cut_off::checks;
use crate::engine::simulate::cut_off::starter::StarterGuard;
use crate::engine::simulate::cut_off::{rest, starter};

use crate::catalogue::Chemistry;
use crate::engine::installation::battery::reserve_of;
use crate::engine::installation::charger::standing_current;
use crate::engine::judge::book::Book;
use crate::engine::physics::cell::store::{Store, TABLE_AIR};
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::quantity::*;

/// The cut-off.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutOffDesign {
    /// Setting at the sensing point, in the device's steps: as given or as chosen.
    pub cut: Volts,
    /// The same before rounding to steps: voltage at the sensing point at the reserve with the usual current.
    pub exact: Volts,
    /// Setting where it reconnects.
    pub reconnect: Volts,
    /// Least distance from cut to reconnect that does not chatter.
    pub hysteresis_needed: Volts,
    /// Delay before it opens.
    pub delay: Seconds,
    /// Delay that the worst start needs at the reserve; zero when it does not reach the setting.
    pub delay_needed: Seconds,
    /// Charge kept in the battery.
    pub reserve: Share,
    /// Resistance between the posts and the sensing point that the current through it sees.
    pub between: Ohms,
    /// Voltage at the posts at the reserve, before rounding to steps, for each current.
    pub at_currents: Vec<AtCurrent>,
    /// Index in `at_currents` of the usual current, by which it is chosen.
    pub usual: usize,
    /// Voltage by state of charge, resting and at each current.
    pub curve: Vec<CurvePoint>,
    /// Posts after the loads have gone, whatever current tripped it: how far it rebounds.
    pub rebound: Volts,
    /// Voltage that charging reaches at the sensing point.
    pub charging: Volts,
    /// Voltage at the sensing point when the worst start happens at the reserve.
    pub surge_voltage: Volts,
    /// What is drawn after it has opened, self-discharge included.
    pub after: Amps,
    /// Days from the cut-off to harm, by standing draws and self-discharge.
    pub days_to_harm: Option<Days>,
    /// What acts at which voltage, highest first.
    pub order: Vec<Acts>,
    /// Whether the engine can always be started; `None` without a charger.
    pub starter: Option<StarterGuard>,
    /// Current through it, steady, at the cut-off voltage.
    pub current: Amps,
    /// Rating chosen or given.
    pub rating: Option<Amps>,
}

/// The cut-off seen at one current.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AtCurrent {
    /// `light`, `usual`, `heavy`.
    pub name: &'static str,
    /// The current.
    pub current: Amps,
    /// How long it has flowed.
    pub held: Hours,
    /// Voltage at the posts at the reserve.
    pub posts: Volts,
    /// Voltage at the sensing point at the reserve.
    pub sensing: Volts,
    /// State of charge at which the setting trips with this current; `None` when never before empty.
    pub trips_at: Option<Share>,
}

/// Something that acts at a voltage.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Acts {
    /// What.
    pub what: String,
    /// At which voltage.
    pub at: Volts,
}

impl Acts {
    /// What acts, and at which voltage.
    pub fn new(what: impl Into<String>, at: Volts) -> Self {
        Acts { what: what.into(), at }
    }
}

/// One point of the discharge curve at the posts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CurvePoint {
    /// State of charge.
    pub charge: Share,
    /// Resting.
    pub resting: Volts,
    /// At the sensing point under each current of `at_currents`.
    pub sensing: Vec<Volts>,
}

/// What the network between the battery and the sensing point contributes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SensingPath {
    /// Resistance from the posts to the sensing point, out and back.
    pub resistance: Ohms,
    /// Share of the battery's current that flows through it.
    pub share: Share,
    /// Largest steady current that the runs through the cut-off are sized for: an
    /// inverter counts with its rating there, whatever is plugged in today.
    pub through: Amps,
    /// Smallest fuse between the battery and the cut-off: what it lets flow for
    /// hours the cut-off must stand too.
    pub fuse: Option<Amps>,
}

impl Default for SensingPath {
    /// Sensing at the posts.
    fn default() -> Self {
        SensingPath { resistance: Ohms::ZERO, share: Share::FULL, through: Amps::ZERO, fuse: None }
    }
}

/// All that the settings follow from, for a plan or a bare question.
#[derive(Clone, Debug)]
pub(crate) struct Case<'a> {
    pub store: Store<'a>,
    /// Its internal resistance, where the plan says it.
    pub measured: Option<Milliohms>,
    pub reserve: Share,
    pub air: Celsius,
    pub path: SensingPath,
    /// Name, current, how long it has flowed.
    pub currents: [(&'static str, Amps, Hours); 3],
    pub surge: Amps,
    pub start: Seconds,
    pub after: Amps,
    pub charging: Volts,
    pub device: Device,
}

/// What can be set.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Device {
    pub step: Volts,
    pub lowest: Volts,
    pub highest: Volts,
    pub longest_delay: Seconds,
    pub cut: Option<Volts>,
    pub reconnect: Option<Volts>,
    pub delay: Option<Seconds>,
}

/// Index of the usual current in `at_currents`.
pub(crate) const USUAL: usize = 1;

impl Case<'_> {
    /// Voltage at the posts.
    pub fn posts(&self, charge: Share, current: Amps, held: Hours) -> Volts {
        self.store.held(charge, current, held, self.air, crate::engine::physics::cell::store::Age::New)
    }

    /// Voltage at the sensing point: posts less current x share x resistance of the path.
    pub fn sensing(&self, charge: Share, current: Amps, held: Hours) -> Volts {
        self.posts(charge, current, held) - current * self.path.share.get() * self.path.resistance
    }
}

/// How long the three currents have flowed when the cut-off may act: a light one
/// all night, the usual one for hours, a heavy one for minutes. Common practice, no source. Never for longer than
/// it takes from full to the reserve: what has not been drawn cannot be missing at hand.
pub(crate) fn currents(
    light: Amps,
    usual: Amps,
    heavy: Amps,
    capacity: AmpHours,
    reserve: Share,
) -> [(&'static str, Amps, Hours); 3] {
    let drawn = capacity * (Share::FULL - reserve).max(Share::ZERO).get();
    let held = |current: Amps, hours: f64| {
        let most = if current.get() > 0.0 { (drawn / current).get() } else { hours };
        Hours::new(hours.min(most))
    };
    [("light", light, held(light, 12.0)), ("usual", usual, held(usual, 4.0)), ("heavy", heavy, held(heavy, 0.25))]
}

/// Choose or check the cut-off's settings.
#[allow(clippy::too_many_arguments)]
pub fn cut_off(
    site: &Installation,
    budget: &Budget,
    battery: &BatteryDesign,
    charger: &ChargerDesign,
    path: SensingPath,
    book: &mut Book,
) -> CutOffDesign {
    let (Some(chemistry), Some(bank)) = (site.chemistry(), battery.bank.as_ref()) else {
        return CutOffDesign::default();
    };
    let store = bank.store(chemistry);
    let usual = budget.usual;
    let case = Case {
        store,
        measured: site.service_battery.resistance_mohm,
        reserve: reserve_of(site, chemistry),
        air: site.surroundings.mean,
        path,
        currents: currents(
            budget.light.min(usual),
            usual,
            budget.peak.max(usual),
            bank.capacity,
            reserve_of(site, chemistry),
        ),
        surge: budget.surge,
        start: site
            .loads
            .iter()
            .filter(|l| l.count > 0 && l.start.times > 1.0)
            .map(|l| l.start.lasts)
            .fold(Seconds::ZERO, Seconds::max),
        after: rest::after(site, budget, chemistry, bank.capacity),
        charging: charging(site, chemistry, charger, usual, path),
        device: Device {
            step: site.cut_off.step,
            lowest: site.cut_off.lowest_setting,
            highest: site.cut_off.highest_setting,
            longest_delay: site.cut_off.longest_delay,
            cut: site.cut_off.cut,
            reconnect: site.cut_off.reconnect,
            delay: site.cut_off.delay,
        },
    };
    let mut out = settings::settle(&case);
    out.order = rest::order(site, chemistry, &out);
    out.current = rest::current(site, budget, charger, &out).max(path.through);
    let guarded = out.current.max(path.fuse.unwrap_or(Amps::ZERO));
    let chosen = rest::rating(&site.catalogue, guarded).or_else(|| rest::rating(&site.catalogue, out.current));
    out.rating = site.cut_off.rating.or(chosen);
    working::record(&case, chemistry, &out, book);
    working::rating(site, &out, book);
    checks::check(site, chemistry, budget, &case, &out, book);
    out.starter = starter::starter(site, charger, book);
    out
}

/// Voltage that charging reaches at the sensing point: the charge voltage at
/// the hottest air (the lowest it is compensated to), less the drop of the usual loads.
fn charging(
    site: &Installation,
    chemistry: &Chemistry,
    charger: &ChargerDesign,
    usual: Amps,
    path: SensingPath,
) -> Volts {
    // Compensation lowers the voltage only above 25 °C.
    let hottest = Celsius::new(site.surroundings.hottest.get().max(TABLE_AIR.get()));
    let device = if charger.current.is_some() {
        crate::engine::installation::charger::charge_voltage_at(site, chemistry, hottest)
    } else {
        crate::engine::physics::cell::formula::compensated(
            chemistry.charge.absorption,
            chemistry.charge.v_per_k,
            hottest,
        )
    };
    device - usual * path.share.get() * path.resistance
}

/// Standing draws of the plan's devices while the cut-off is open.
pub(crate) fn standing(site: &Installation) -> Amps {
    standing_current(site).value
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
            let all = currents(Amps::new(amps), Amps::new(amps), Amps::new(amps), capacity, reserve);
            for ((_, current, held), usual) in all.into_iter().zip([12.0, 4.0, 0.25]) {
                assert!((current * held).get() <= 50.0 + 1e-9, "{current} for {held}");
                let lasts = if amps > 0.0 { 50.0 / amps } else { f64::INFINITY };
                assert!((held.get() - lasts.min(usual)).abs() < 1e-9, "{current} for {held}");
            }
        }
    }
}
