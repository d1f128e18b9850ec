//! What is given about the loads, made definite: what each takes, when, and what it never runs with.
//!
//! All items of a load count together. Where a label gives power and current
//! the larger counts. An AC load is a constant power on the 12 V side: what
//! the inverter takes for it. A load without times of its own may run all day.

use crate::engine::installation::minutes::Minutes;
use crate::engine::installation::times::{Calendar, Times};
use crate::engine::physics::conductor::short_time::Intermittent;
use crate::engine::physics::network;
use crate::engine::physics::reckon::Reckoned;
use crate::plan::{self, FORTNIGHT, Inverter, LoadKind, Plan, Start, When};
use crate::quantity::*;
use crate::reckon;

/// Voltage at which plans give currents and resistive powers, and to which shares of drop refer: 12 V.
pub const NOMINAL: Volts = Volts::new(12.0);

/// One load of the plan, all its items together.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// As the plan calls it.
    pub name: String,
    /// Point of the 12 V side that feeds it; of an AC load as written, see `inverter`.
    pub at: String,
    /// Fed by the inverter.
    pub inverter: bool,
    /// How many items.
    pub count: u32,
    /// Power of one item as on its label.
    pub label_power: Option<Watts>,
    /// Current of one item at 12 V as on its label.
    pub label_current: Option<Amps>,
    /// Power of all items at 12 V, at their own terminals; of an AC load the AC power.
    pub power: Watts,
    /// What all items take from the 12 V side while on.
    pub law: network::load::Load,
    /// The start of one item.
    pub start: Start,
    /// On for so long, then off for so long; `None` where it may stay on.
    pub cycle: Option<Intermittent>,
    /// Drop class.
    pub drop: String,
    /// Lowest voltage it works at.
    pub lowest: Option<Volts>,
    /// Highest voltage it bears.
    pub highest: Option<Volts>,
    /// It switches itself off below this.
    pub own_cut: Option<Volts>,
    /// It hangs on the starter battery, before the charger.
    pub on_starter: bool,
    /// Stays connected when the cut-off has opened.
    pub before_cut_off: bool,
    /// Loads of the same group never run together.
    pub group: Option<usize>,
    /// It is a socket of this rating.
    pub socket: Option<Amps>,
    /// Device of its lead, as given.
    pub lead_fuse: Option<Amps>,
    /// Fuse within its own leads.
    pub tail_fuse: Option<Amps>,
    /// Voltage of the side that feeds it.
    pub nominal: Volts,
    /// The kind of time it is bound to.
    pub when: When,
    /// Minutes of the day in which it may run.
    pub allowed: Minutes,
    /// On which days and in which months.
    pub calendar: Calendar,
    /// On how many days of the hardest stretch without charge it is used, as a share of them.
    pub often: Share,
    /// On how many days of the fortnight, as a share of them.
    pub on_average: Share,
    /// Hours a day as the plan gives them; may be longer than its times allow.
    pub hours_given: Option<Hours>,
    /// Hours a day switched on: as given, or as long as its times allow; none where those allow nothing.
    pub hours: Hours,
    /// Share of that time it draws.
    pub thermostat: Thermostat,
}

/// The share of the on-time that a load draws, a straight line over the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thermostat {
    /// Share at 25 °C.
    pub at_25: Share,
    /// Added for each kelvin above.
    pub per_k: f64,
}

impl Thermostat {
    /// The share at an air temperature, within 0 and 1.
    pub fn share(self, air: Celsius) -> Reckoned<Share, 3> {
        reckon!(Share: max(0.0, min(1.0, s + k * (T - 25.0))),
            s: "share on at 25 °C" = self.at_25,
            k: "added per kelvin" = Figure::new(self.per_k, Unit::SharePerKelvin),
            T: "mean air" = air)
    }
}

impl Load {
    /// Current at 12 V while on; at 24 V of what the vehicle's own side of that voltage feeds.
    pub fn running(&self) -> Amps {
        self.law.current(self.nominal)
    }

    /// It hangs on a side of such a voltage, and has its power there.
    pub(crate) fn made_for(&mut self, nominal: Volts) {
        if nominal == self.nominal {
            return;
        }
        self.nominal = nominal;
        self.power = self.label().value;
        self.law = match self.law {
            network::load::Load::Power(_) => network::load::Load::Power(self.power),
            network::load::Load::Current(_) => network::load::Load::Current(self.power / nominal),
            network::load::Load::Resistance { .. } => network::load::Load::Resistance { rated: self.power, nominal },
        };
    }

    /// One item's share of what all take.
    pub fn one(&self) -> f64 {
        1.0 / f64::from(self.count.max(1))
    }

    /// What a start adds, in multiples of running.
    pub fn start_adds(&self) -> f64 {
        (self.start.times - 1.0).max(0.0)
    }

    /// Current at 12 V that the start of one item adds.
    pub fn start_current(&self) -> Amps {
        self.running() * self.one() * self.start_adds()
    }

    /// Power of all items at 12 V, at their own terminals, by the label.
    pub fn label(&self) -> Reckoned<Watts, 4> {
        reckon!(Watts: n * max(P, U * I),
            n: "number of items" = Figure::new(f64::from(self.count), Unit::Count),
            P: "power of one" = self.label_power.unwrap_or(Watts::ZERO),
            U: "nominal voltage" = self.nominal,
            I: "current of one" = self.label_current.unwrap_or(Amps::ZERO))
    }

    /// Hours a day that its times allow.
    pub fn hours_allowed(&self) -> Reckoned<Hours, 1> {
        let minutes = Figure::number(f64::from(self.allowed.count()));
        reckon!(Hours: m / 60.0, m: "minutes of its times" = minutes)
    }

    /// Mean current in the minutes in which it is used, at 12 V and at an air temperature.
    pub fn mean_current(&self, air: Celsius) -> Amps {
        let most = self.hours_allowed().value.get();
        let switched = if most > 0.0 { (self.hours.get() / most).min(1.0) } else { 0.0 };
        self.running() * (switched * self.thermostat.share(air).value.get())
    }

    /// Whether it runs only with the engine.
    pub fn only_driving(&self) -> bool {
        self.when == When::Driving
    }
}

/// Efficiency to reckon with: the plan's, between 5 and 100 %.
pub fn efficiency(inverter: &Inverter) -> Share {
    Share::new(inverter.efficiency.get().clamp(0.05, 1.0))
}

/// The loads of a plan, in its order.
pub fn loads(plan: &Plan, driving: Minutes, without_charge: Days) -> Vec<Load> {
    let word = |load: &plan::Load| load.not_with.clone().filter(|word| !word.is_empty());
    // The first load that has the word stands for its group.
    let group =
        |load: &plan::Load| word(load).and_then(|own| plan.loads.iter().position(|l| word(l).as_ref() == Some(&own)));
    let stretch = without_charge.get().ceil().clamp(1.0, FORTNIGHT as f64) as usize;
    plan.loads.iter().map(|load| definite(load, plan, driving, stretch, group(load))).collect()
}

fn definite(load: &plan::Load, plan: &Plan, driving: Minutes, stretch: usize, group: Option<usize>) -> Load {
    let (duty, inverter) = (&load.duty, &plan.inverter);
    let times = match duty.windows.is_empty() {
        true => Times::of(Minutes::ALL, duty.days),
        false => Times::new(&duty.windows, duty.days),
    };
    let calendar = Calendar { times, months: duty.months };
    let driven = duty.when != When::Driving || duty.days.meets(plan.vehicle.driving_days);
    let never = duty.days.is_none() || duty.months.is_none() || !driven;
    let mut out = Load {
        name: load.name.clone(),
        at: load.at.clone(),
        inverter: load.inverter,
        count: load.count,
        label_power: load.power,
        label_current: load.current,
        power: Watts::ZERO,
        law: network::load::Load::Power(Watts::ZERO),
        start: load.start.clone(),
        cycle: load.on.zip(load.off).map(|(on, off)| Intermittent { on, off }).filter(|c| c.on > Seconds::ZERO),
        drop: load.drop.clone(),
        lowest: load.lowest,
        highest: load.highest,
        own_cut: load.own_cut,
        on_starter: false,
        before_cut_off: load.before_cut_off,
        group,
        socket: load.socket,
        lead_fuse: load.lead.fuse,
        tail_fuse: load.tail_fuse,
        nominal: NOMINAL,
        when: duty.when,
        allowed: if never { Minutes::NONE } else { Minutes::allowed(&duty.windows, duty.when, driving) },
        calendar,
        often: Share::new(calendar.most_of(stretch) as f64 / stretch as f64),
        on_average: Share::new(duty.days.a_week() / 7.0),
        hours_given: duty.hours_a_day,
        hours: Hours::ZERO,
        thermostat: Thermostat { at_25: duty.share_on, per_k: duty.share_per_k },
    };
    out.power = out.label().value;
    out.law = match load.kind {
        _ if load.inverter => network::load::Load::Power(out.power / efficiency(inverter).get()),
        LoadKind::ConstantPower => network::load::Load::Power(out.power),
        LoadKind::ConstantCurrent => network::load::Load::Current(out.power / NOMINAL),
        LoadKind::Resistance => network::load::Load::Resistance { rated: out.power, nominal: NOMINAL },
    };
    if out.allowed.count() > 0 {
        // Longer than its times allow is kept as it was said, with a finding: a battery is not sized by the smaller.
        out.hours = duty.hours_a_day.unwrap_or(out.hours_allowed().value);
    }
    out
}

/// Day of the fortnight on which the hardest of so many days in a row begins, by what the loads take; the first of
/// equals.
pub fn hardest_start(loads: &[Load], length: usize) -> usize {
    if loads.iter().all(|load| load.calendar.is_daily()) {
        return 0;
    }
    let takes = |load: &Load| load.running().get() * load.hours.get() * load.thermostat.at_25.get();
    let of_day = |day: usize| loads.iter().filter(|l| l.calendar.times.days().contains(day)).map(takes).sum::<f64>();
    let days: Vec<f64> = (0..FORTNIGHT).map(of_day).collect();
    let stretch = |start: usize| (start..start + length).map(|day| days[day % FORTNIGHT]).sum::<f64>();
    (0..FORTNIGHT).fold(0, |hardest, day| if stretch(day) > stretch(hardest) { day } else { hardest })
}

/// Which loads can be on together, by index: of a group only the one that is largest by `size`, the first of equals.
pub fn together(loads: &[Load], size: impl Fn(&Load) -> f64) -> Vec<usize> {
    let beaten = |i: usize, load: &Load| {
        let others = loads.iter().enumerate().filter(|(_, other)| other.group == load.group);
        load.group.is_some()
            && others.map(|(j, other)| (j, size(other))).any(|(j, it)| it > size(load) || (it == size(load) && j < i))
    };
    loads.iter().enumerate().filter(|(i, load)| !beaten(*i, load)).map(|(i, _)| i).collect()
}

/// Power of the loads of which `counts` holds that can be on together, at their own terminals.
pub fn power_together(loads: &[Load], counts: impl Fn(&Load) -> bool) -> Watts {
    let power = |load: &Load| if counts(load) { load.power } else { Watts::ZERO };
    together(loads, |load| power(load).get()).into_iter().map(|i| power(&loads[i])).sum()
}
