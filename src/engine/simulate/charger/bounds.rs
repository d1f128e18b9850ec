//! Between which currents the charger must lie.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::{lowest_driving_voltage, spare_idle, spare_over_drive, spare_road};
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::charger::charge_voltage_at;
use crate::engine::installation::place::coldest;
use crate::engine::installation::sources;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::parts::charger::{Bound, BoundBy};
use crate::engine::physics::cell::recovery::{charge_after, put_back_factor};
use crate::engine::physics::reckon::Reckoned;
use crate::engine::simulate::budget::Budget;
use crate::plan::ChargerKind;
use crate::quantity::*;
use crate::reckon;

/// The bounds with all that went in.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bounds {
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
    /// Whether any current puts it back in time.
    pub reachable: bool,
    /// Current that puts it back in time; zero where nobody drives.
    pub by_draw: Amps,
    /// Lowest that is of use to the battery.
    pub least: Amps,
    /// What it may not exceed, each by itself.
    pub upper: Vec<Bound>,
}

pub(crate) fn bounds(
    site: &Installation,
    chemistry: &Chemistry,
    capacity: AmpHours,
    day: &Budget,
    notes: &mut Notes,
) -> Bounds {
    let hours = Hours::new(f64::from(site.driving.count()) / 60.0);
    let weeks_share = days_per_drive(site);
    let put_back = reckon!(AmpHours: Q - d + S * (w - 1.0),
        Q: "charge a day" = day.charge,
        d: "of it while driving, fed directly" = day.driving,
        S: "charge of a day without driving" = day.standing_day,
        w: "days' draw for each driving day" = Figure::number(weeks_share));
    let put_back = notes.reckon(&Subject::Charger, "to put back", put_back, |r| {
        r.working("charge to put back on a day of driving")
            .from("Q", Subject::Budget, "charge a day")
            .source("weekly balance: seven days less those with mains, over the driving days")
    });
    let least = reckon!(Amps: c * C,
        c: "multiple of the capacity" = Figure::number(chemistry.charge.min_c), C: "capacity of the bank" = capacity);
    let mut out = Bounds {
        hours,
        weeks_share,
        put_back,
        factor: put_back_factor(&site.catalogue, chemistry),
        load: day.driving_current,
        reachable: hours.get() > 0.0,
        by_draw: Amps::ZERO,
        least: notes.reckon(&Subject::Charger, "least useful", least, |r| {
            r.working("lowest useful charge current").source(chemistry.charge.from.min_c.words())
        }),
        upper: uppers(site, chemistry, capacity, notes),
    };
    if hours.get() > 0.0 {
        out.solve(site, chemistry, capacity, notes);
    }
    out
}

/// Days whose draw one day of driving has to put back: seven days less those
/// with mains, over the driving days; at least one.
fn days_per_drive(site: &Installation) -> f64 {
    let driving = site.vehicle.driving_days.a_week();
    let mains = if sources::has_mains(site) { site.mains.weekdays.a_week() } else { 0.0 };
    if driving == 0.0 { 1.0 } else { ((7.0 - mains) / driving).max(1.0) }
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
    fn solve(&mut self, site: &Installation, chemistry: &Chemistry, capacity: AmpHours, notes: &mut Notes) {
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
        let taken = if net.get() > 0.0 { Share::new(ideal / net) } else { Share::FULL };
        let by_draw = reckon!(Amps: D * f / (h * u) + L,
            D: "charge to put back" = self.put_back,
            f: "charge put in per charge stored" = Figure::number(self.factor),
            h: "driving a day" = self.hours,
            u: "share of the current that is really taken, over that time" = taken,
            L: "mean load while driving" = self.load);
        self.by_draw = notes.reckon(&Subject::Charger, "day's draw", by_draw, |r| {
            r.working("current that puts it back in the time driven")
                .from("D", Subject::Charger, "to put back")
                .source("charge = current x time; taper by the chemistry's end of bulk and tail current")
                .note("begins at the planned depth; the share taken is solved by halving")
        });
    }

    /// What it must reach, each by itself.
    pub fn lowers(&self) -> [Bound; 2] {
        [Bound { by: BoundBy::DaysDraw, amps: self.by_draw }, Bound { by: BoundBy::LeastUseful, amps: self.least }]
    }

    /// The higher of them.
    pub fn lower(&self) -> Bound {
        let [draw, least] = self.lowers();
        if least.amps > draw.amps { least } else { draw }
    }

    /// What one of the upper bounds allows.
    pub fn of(&self, by: BoundBy) -> Option<Amps> {
        self.upper.iter().find(|b| b.by == by).map(|b| b.amps)
    }

    /// What the alternator feeds: on the road, over the drive, at idle.
    pub fn alternator(&self) -> impl Iterator<Item = &Bound> {
        self.upper.iter().filter(|b| b.by != BoundBy::Battery)
    }

    /// The tightest of the upper bounds that count.
    pub fn tightest(&self) -> Option<&Bound> {
        self.upper.iter().filter(|b| !b.advice()).min_by(|a, b| a.amps.get().total_cmp(&b.amps.get()))
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

/// Output current that the alternator's spare feeds. A vehicle that uses more than the alternator gives leaves
/// nothing, not less than nothing.
pub(crate) fn output_of(site: &Installation, chemistry: &Chemistry, spare: Amps) -> Reckoned<Amps, 4> {
    reckon!(Amps: max(S, 0.0) * U * e / V,
        S: "spare" = spare,
        U: "lowest voltage while driving" = lowest_driving_voltage(site),
        e: "efficiency" = site.charger.efficiency,
        V: "highest charge voltage" = charge_voltage_at(site, chemistry, coldest(site)))
}

fn uppers(site: &Installation, chemistry: &Chemistry, capacity: AmpHours, notes: &mut Notes) -> Vec<Bound> {
    let takes = reckon!(Amps: c * C,
        c: "multiple of the capacity" = Figure::number(chemistry.charge.max_c), C: "capacity of the bank" = capacity);
    let takes = notes.reckon(&Subject::Charger, "battery", takes, |r| {
        r.working("most that the battery takes").source(chemistry.charge.from.max_c.words())
    });
    let (road, idle) = (spare_road(site).value, spare_idle(site).value);
    let (idling, over_drive) = (site.vehicle.idling, spare_over_drive(site));
    let mut feeds = |by: BoundBy, spare: Amps| {
        let bound = Bound { by, amps: Amps::ZERO };
        let words = |working: Working| {
            working
                .source("power balance; see the alternator's workings")
                .note(format!("{idling} of the drive at idle; at idle alone the starter battery may have to help"))
        };
        let amps = if site.charger.kind == ChargerKind::Relay {
            let gives = reckon!(Amps: max(S, 0.0), S: "spare" = spare);
            notes.reckon(&Subject::Charger, bound.name(), gives, |r| words(r.working("most that the alternator gives")))
        } else {
            notes.reckon(&Subject::Charger, bound.name(), output_of(site, chemistry, spare), |r| {
                words(r.working("output that the alternator's spare feeds"))
            })
        };
        Bound { amps, ..bound }
    };
    vec![
        Bound { by: BoundBy::Battery, amps: takes },
        feeds(BoundBy::OnTheRoad, road),
        feeds(BoundBy::OverTheDrive, over_drive),
        feeds(BoundBy::AtIdle, idle),
    ]
}
