//! Between which currents the charger must lie.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::{lowest_driving_voltage, spare_idle, spare_road};
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::charger::charge_voltage_at;
use crate::engine::installation::sources;
use crate::engine::parts::charger::Bound;
use crate::engine::physics::cell::recovery::{charge_after, put_back_factor};
use crate::engine::simulate::budget::Budget;
use crate::plan::ChargerKind;
use crate::quantity::*;

/// The bounds with all that went in.
#[derive(Clone, Debug)]
pub(crate) struct Bounds {
    /// Hours of driving on a driving day.
    pub hours: Hours,
    /// Days' draw that one day of driving has to put back.
    pub weeks_share: f64,
    /// Charge to put back on a driving day.
    pub put_back: AmpHours,
    /// Charge put in per charge stored.
    pub factor: f64,
    /// Mean load while driving.
    pub load: Amps,
    /// Mean of the offered current that is really taken, as a share: less than 1 where taper begins.
    pub taken: Share,
    /// Whether any current puts it back in time.
    pub reachable: bool,
    pub by_draw: Amps,
    pub least: Amps,
    pub upper: Vec<Bound>,
}

pub(crate) fn bounds(site: &Installation, chemistry: &Chemistry, capacity: AmpHours, day: &Budget) -> Bounds {
    let hours = Hours::new(f64::from(site.driving.count()) / 60.0);
    let weeks_share = days_per_drive(site);
    let put_back = day.charge - day.driving + day.standing_day * (weeks_share - 1.0);
    let factor = put_back_factor(&site.catalogue, chemistry);
    let load = day.driving_current;
    let mut out = Bounds {
        hours,
        weeks_share,
        put_back,
        factor,
        load,
        taken: Share::FULL,
        reachable: hours.get() > 0.0,
        by_draw: Amps::ZERO,
        least: Amps::new(chemistry.charge.min_c * capacity.get()),
        upper: uppers(site, chemistry, capacity),
    };
    if hours.get() > 0.0 {
        out.solve(site, chemistry, capacity);
    }
    out
}

/// Days whose draw one day of driving has to put back: seven days less those
/// with mains, over the driving days; at least one.
fn days_per_drive(site: &Installation) -> f64 {
    let driving = site.vehicle.driving_days.count();
    let mains = if sources::has_mains(site) { site.mains.weekdays.count() } else { 0 };
    if driving == 0 { 1.0 } else { (f64::from(7 - mains.min(7)) / f64::from(driving)).max(1.0) }
}

impl Bounds {
    /// What driving has to put back: all of it, less what the sun stores over the days between drives.
    pub fn left_by_sun(&self, solar_stored: AmpHours) -> AmpHours {
        (self.put_back - solar_stored * self.weeks_share.max(1.0)).max(AmpHours::ZERO)
    }

    /// Current that is enough for a part of what is to be put back. Twice the current stores at most twice
    /// the charge, so in proportion it is never too little.
    pub fn asked_for(&self, part: AmpHours) -> Amps {
        let share = if self.put_back.get() > 0.0 { (part / self.put_back).clamp(0.0, 1.0) } else { 0.0 };
        self.load + (self.by_draw - self.load).max(Amps::ZERO) * share
    }

    /// The current that stores `put_back` in the hours driven, beginning at the planned depth.
    fn solve(&mut self, site: &Installation, chemistry: &Chemistry, capacity: AmpHours) {
        let ideal = Amps::new(self.put_back.get() * self.factor / self.hours.get());
        let from = Share::FULL - planned_depth(site, chemistry);
        let back = |net: Amps| {
            capacity * (charge_after(&site.catalogue, chemistry, capacity, net, from, self.hours) - from).get()
        };
        // More than the planned depth is never missing at the start.
        let target = self.put_back.min(capacity * planned_depth(site, chemistry).get()).get() - 1e-6;
        let most = Amps::new(chemistry.charge.max_c * capacity.get()).max(ideal);
        let mut net = ideal;
        if back(ideal).get() < target {
            self.reachable = back(most).get() >= target;
            let (mut low, mut high) = (ideal, most);
            for _ in 0..40 {
                let middle = (low + high) / 2.0;
                if back(middle).get() < target { low = middle } else { high = middle }
            }
            net = high;
        }
        self.taken = if net.get() > 0.0 { Share::new(ideal / net) } else { Share::FULL };
        self.by_draw = net + self.load;
    }

    pub fn lowers(&self) -> Vec<Bound> {
        vec![
            Bound { name: "day's draw", amps: self.by_draw, advice: false },
            Bound { name: "least useful", amps: self.least, advice: true },
        ]
    }

    pub fn lower(&self) -> Bound {
        let all = self.lowers();
        let higher = all.into_iter().reduce(|a, b| if b.amps.get() > a.amps.get() { b } else { a });
        higher.unwrap_or_default()
    }

    /// The tightest of the upper bounds that count.
    pub fn tightest(&self) -> Option<&Bound> {
        self.upper.iter().filter(|b| !b.advice).min_by(|a, b| a.amps.get().total_cmp(&b.amps.get()))
    }

    /// The smallest standard current between the bounds; else the largest
    /// under the upper ones; else the smallest sold.
    pub fn choose(&self, site: &Installation) -> Option<Amps> {
        let most = self.tightest().map_or(Amps::ZERO, |b| b.amps);
        if site.charger.kind == ChargerKind::Relay {
            return Some(most.max(Amps::ZERO));
        }
        let mut sizes = site.catalogue.devices.chargers.sizes.clone();
        sizes.sort_by(|a, b| a.get().total_cmp(&b.get()));
        let under: Vec<Amps> = sizes.iter().copied().filter(|s| s.get() <= most.get() + 1e-9).collect();
        let enough = under.iter().copied().find(|s| s.get() >= self.lower().amps.get() - 1e-9);
        enough.or(under.last().copied()).or(sizes.first().copied())
    }

    /// Whether a standard current lies between the bounds.
    pub fn fits(&self, current: Amps) -> bool {
        let most = self.tightest().map_or(Amps::ZERO, |b| b.amps);
        self.reachable && current.get() >= self.by_draw.get() - 1e-9 && current.get() <= most.get() + 1e-9
    }
}

/// Output current that the alternator's spare feeds: I = S U e / V.
pub(crate) fn output_of(spare: Amps, source: Volts, efficiency: Share, output: Volts) -> Amps {
    if output.get() > 0.0 { Amps::new((spare * source).get() * efficiency.get() / output.get()) } else { Amps::ZERO }
}

fn uppers(site: &Installation, chemistry: &Chemistry, capacity: AmpHours) -> Vec<Bound> {
    let (road, idle) = (spare_road(site), spare_idle(site));
    let idling = site.vehicle.idling.get();
    let over_drive = road * (1.0 - idling) + idle * idling;
    // A vehicle that uses more than the alternator gives leaves nothing, not less than nothing.
    let output = |spare: Amps| match site.charger.kind {
        ChargerKind::Relay => spare.max(Amps::ZERO),
        _ => output_of(
            spare.max(Amps::ZERO),
            lowest_driving_voltage(site),
            site.charger.efficiency,
            charge_voltage_at(site, chemistry, site.surroundings.coldest),
        ),
    };
    vec![
        Bound { name: "battery", amps: Amps::new(chemistry.charge.max_c * capacity.get()), advice: false },
        Bound { name: "alternator on the road", amps: output(road), advice: false },
        Bound { name: "alternator over the drive", amps: output(over_drive), advice: false },
        Bound { name: "alternator at idle", amps: output(idle), advice: true },
    ]
}
