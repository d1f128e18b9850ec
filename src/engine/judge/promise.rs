//! Does the design hold what it promises?

use crate::engine::installation::Installation;
use crate::engine::installation::climate::cold_air;
use crate::engine::installation::cut_off::Device;
use crate::engine::installation::place::{air_there, heater};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::judge::demand::Demand;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::bank::Job;
use crate::engine::simulate::battery::{BatteryDesign, SizedBy};
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::engine::simulate::promise::{Promise, Trial};
use crate::plan::{CutOffBy, Place, Section, Value};
use crate::quantity::*;

const RULE: &str =
    "stepped through from switching to switching with these very settings; approximation, see the days of use";

/// A cut-off that opens with so much of what lies above the reserve still left, at so many times the usual current,
/// opens for a heavy load, not for an empty battery. Common practice, no source.
const HEAVY: (f64, f64) = (0.5, 2.0);

/// Cables are sized by the cut-off where it is given, so what it senses moves by so much with it.
const CABLES: Volts = Volts::new(0.03);

/// What the trials show.
pub(crate) fn check(
    site: &Installation,
    day: &Budget,
    battery: &BatteryDesign,
    cut_off: &CutOffDesign,
    promise: &Promise,
) -> Vec<Finding> {
    let tried = Tried { site, day, battery, cut_off, promise };
    let broken = promise.broken().map(|trial| tried.broken(trial));
    // Days without charge that fail make the usual weeks fail as well: said once.
    let usual = promise.unusual().filter(|_| promise.held()).map(|trial| tried.usual(trial));
    broken.into_iter().chain(usual).collect()
}

/// A bank that is small by the sizing of its days and lasts them all the same, when tried, is no stop.
pub(crate) fn ease(findings: &mut [Finding], battery: &BatteryDesign, promise: &Promise) {
    let Some(bank) = &battery.bank else { return };
    let of_days = |by| matches!(by, SizedBy::Days | SizedBy::SummerDays | SizedBy::Rate | SizedBy::Inverter);
    let bears = battery.criteria.iter().all(|c| of_days(c.by) || c.needed <= bank.capacity);
    if !(bears && promise.held() && promise.unusual().is_none()) {
        return;
    }
    for finding in findings.iter_mut().filter(|f| f.kind == Kind::BatterySmall && f.severity == Severity::Stop) {
        finding.severity = Severity::Caution;
        finding
            .text
            .push_str("; tried with these very settings it lasts all the same, with less to spare than is usual");
    }
}

/// The least that a counter can be set to.
const LEAST_COUNTED: f64 = 0.02;

struct Tried<'a> {
    site: &'a Installation,
    day: &'a Budget,
    battery: &'a BatteryDesign,
    cut_off: &'a CutOffDesign,
    promise: &'a Promise,
}

fn service(key: &'static str) -> Place {
    Place::of(Section::ServiceBattery, key)
}

impl Tried<'_> {
    fn broken(&self, trial: &Trial) -> Finding {
        let lasts = trial.failed_at.unwrap_or(Hours::ZERO);
        let text = format!(
            "{}, power fails after {lasts} of the {} without charge: {}{}",
            trial.conditions.words(),
            trial.tried,
            self.reason(trial),
            self.stood(trial)
        );
        let finding = Finding::new(Kind::PromiseBroken, Subject::ServiceBattery, text)
            .rule(RULE)
            .at(service("capacity_ah"))
            .between([self.asked(trial), self.against(trial)]);
        self.remedies(finding, trial)
    }

    fn remedies(&self, mut finding: Finding, trial: &Trial) -> Finding {
        let (site, lasts) = (self.site, trial.failed_at.unwrap_or(Hours::ZERO));
        let chemistry = site.chemistry().filter(|_| lasts > Hours::ZERO && self.heavy(trial).is_none());
        if let (Some(chemistry), Some(bank)) = (chemistry, &self.battery.bank) {
            let needed = self.needed(bank.capacity, trial.tried / lasts, trial.conditions.cold);
            let job = Job { site, chemistry, own: true, subject: Subject::ServiceBattery };
            if let Some(enough) =
                needed.and_then(|needed| job.standard(needed, site.service_battery.in_parallel, &mut Notes::unkept()))
            {
                let words = format!("about {} last that long", enough.capacity);
                finding = finding.remedy_number(words, service("capacity_ah"), enough.capacity.get());
            }
        }
        if let Some(days) = lasting(trial) {
            let words = format!("or plan {days} without charge");
            finding = finding.remedy_number(words, service("days_without_charge"), days.get());
        }
        if site.cut_off.cut.is_some() && site.cut_off.acts_by == CutOffBy::Voltage {
            let words = "or leave the cut-off voltage out, so that it is chosen to last";
            finding = finding.remedy_edit(words, Place::of(Section::CutOff, "cut_v"), None);
        }
        finding.remedy("or use less, or keep a smaller reserve")
    }

    /// The bank that lasts so many times as long. A heater pad grows with the bank that it keeps warm, and takes its
    /// part of what a larger one holds; `None` where it takes all of that.
    fn needed(&self, capacity: AmpHours, longer: f64, cold: bool) -> Option<AmpHours> {
        let site = self.site;
        if !cold || !site.service_battery.heated {
            return Some(capacity * longer);
        }
        let air = air_there(site, cold_air(&site.surroundings));
        let volts = self.day.mean_voltage.max(Volts::new(1.0));
        let takes = |bank: AmpHours| (heater(site, bank, air) / volts).get();
        let loads = (self.day.standing_day - self.day.heater).get() / 24.0;
        // What it gives in an hour of the trial, per ampere-hour of bank.
        let gives = (loads + takes(capacity)) / capacity.get().max(1e-9) / longer;
        let sizes = (0..=40).map(|n| capacity * longer * 1.1f64.powi(n));
        sizes.into_iter().find(|bank| gives * bank.get() >= loads + takes(*bank) - 1e-9)
    }

    fn usual(&self, trial: &Trial) -> Finding {
        let failed = trial.failed_at.unwrap_or(Hours::ZERO);
        let text = format!(
            "in a usual week {}, power fails on day {:.0}{}{}",
            trial.conditions.words(),
            (failed.get() / 24.0).floor() + 1.0,
            self.opened(trial),
            self.stood(trial)
        );
        let finding =
            Finding::new(Kind::UsualWeeks, Subject::ServiceBattery, text).rule(RULE).at(service("days_without_charge"));
        if self.heavy(trial).is_some() {
            let against = Demand::new(format!("a cut-off at {}", self.cut_off.opens()));
            return finding
                .as_severity(Severity::Stop)
                .between([self.asked(trial), against])
                .remedy(
                    "feed the heavy load from the posts by a fused run of its own, switched by the cut-off's signal",
                )
                .remedy("or a longer delay, or a larger battery");
        }
        finding
            .remedy("bring in more: drive longer or on more days, a larger charger, more sun, the mains")
            .remedy("or plan as many days without charge as the longest gap has, for a larger battery")
    }

    /// What gave out.
    fn reason(&self, trial: &Trial) -> String {
        if trial.opened_with.is_some() {
            format!("the cut-off at {} opens{}", self.cut_off.opens(), self.opened(trial))
        } else if trial.dead > Hours::ZERO {
            "the battery itself gives no more".into()
        } else {
            "a load switches itself off for low voltage".into()
        }
    }

    /// With how much charge the cut-off opened, where that is far above the reserve.
    fn opened(&self, trial: &Trial) -> String {
        let heavy = self.heavy(trial);
        heavy.map_or(String::new(), |(left, current)| format!(" at {current} with {left} of the charge left"))
    }

    fn stood(&self, trial: &Trial) -> String {
        let worst = trial.worst.and_then(|(load, hours)| Some((self.site.loads.get(load)?, hours)));
        worst.map_or(String::new(), |(load, hours)| {
            format!("; {} stands without power for {hours} of {}", load.name, trial.tried)
        })
    }

    /// Whether the cut-off opened for a heavy load, with far more than the reserve left.
    fn heavy(&self, trial: &Trial) -> Option<(Share, Amps)> {
        let usual = self.cut_off.at_usual().map_or(Amps::ZERO, |usual| usual.current);
        let ((part, times), reserve) = (HEAVY, self.cut_off.reserve);
        let much = reserve + (Share::FULL - reserve) * part;
        trial.opened_with.filter(|(left, current)| *left > much && *current > usual * times)
    }

    /// What is asked: the days, or the heavy load that opens the cut-off long before they are over.
    fn asked(&self, trial: &Trial) -> Demand {
        if let Some((_, current)) = self.heavy(trial) {
            return Demand::new(format!("{current} at once for longer than {}", self.cut_off.delay));
        }
        let days = Demand::new(format!("{} without charge", self.site.days_without_charge));
        match lasting(trial) {
            Some(lasts) => days.by(service("days_without_charge"), Some(Value::Number(lasts.get()))),
            None => days,
        }
    }

    /// What stands against it: the one of these without which the days would hold.
    fn against(&self, trial: &Trial) -> Demand {
        let (site, cut_off) = (self.site, self.cut_off);
        let device = Device::of(&site.cut_off);
        let harm = site.chemistry().map_or(Volts::ZERO, |c| c.low.floor().0);
        if let Some(counter) = cut_off.counter.filter(|_| self.promise.kept_by.is_some()) {
            let words = format!("a reserve of {} kept by a counter that may be {} off", cut_off.reserve, counter.error);
            return Demand::new(words).by(Place::of(Section::CutOff, "opens_at"), Some(Value::Number(LEAST_COUNTED)));
        }
        let kept = self.promise.kept_by.map(|kept| device.step_down(kept - CABLES));
        if let Some(kept) = kept.filter(|kept| *kept >= device.lowest && *kept > harm) {
            let words = match site.cut_off.cut {
                Some(given) => format!("a cut-off given at {given}"),
                None => format!("a reserve of {} kept by a voltage", cut_off.reserve),
            };
            return Demand::new(words).by(Place::of(Section::CutOff, "cut_v"), Some(Value::Number(kept.get())));
        }
        let own = if trial.dead > Hours::ZERO || kept.is_some() { None } else { self.own_cut(trial) };
        own.unwrap_or_else(|| self.bank())
    }

    /// A load, or the inverter, that switches itself off.
    fn own_cut(&self, trial: &Trial) -> Option<Demand> {
        let (index, _) = trial.worst?;
        let load = self.site.loads.get(index)?;
        let at = Place::load(index, "own_cut_v");
        let own = load.own_cut.map(|own| Demand::new(format!("{} off by itself at {own}", load.name)).by(at, None));
        let inverter = &self.site.inverter;
        let at_inverter = || Demand::new(format!("the inverter off by itself at {}", inverter.own_cut));
        own.or_else(|| load.inverter.then(at_inverter))
    }

    fn bank(&self) -> Demand {
        let battery = &self.site.service_battery;
        let bank = self.battery.bank.as_ref().map_or(AmpHours::ZERO, |bank| bank.capacity);
        match (battery.capacity, battery.in_parallel) {
            (Some(given), _) => Demand::new(format!("a bank given as {given}")).by(service("capacity_ah"), None),
            (None, Some(blocks)) => {
                Demand::new(format!("{blocks} blocks in parallel, {bank}")).by(service("in_parallel"), None)
            }
            (None, None) => Demand::new(format!("a bank of {bank}, larger ones tried too")),
        }
    }
}

/// How long it lasts, in days and tenths; `None` for less than a tenth.
fn lasting(trial: &Trial) -> Option<Days> {
    let lasts = trial.failed_at.unwrap_or(Hours::ZERO);
    let days = Days::new((lasts.get() / 24.0 * 10.0).floor() / 10.0);
    (days.get() >= 0.1).then_some(days)
}
