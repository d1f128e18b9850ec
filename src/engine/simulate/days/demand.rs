//! What the loads want in a minute.
//!
//! A load that is on all through its times is written into a table by minute.
//! One that cycles (a thermostat, or fewer hours than its times allow) runs in
//! turns of a few minutes: each minute adds its share to what it is owed, and
//! it runs when a turn's worth is owed, until nothing is.

use crate::engine::installation::load::{Load, Thermostat};
use crate::engine::installation::minutes::Minutes;
use crate::engine::installation::times::Calendar;
use crate::engine::physics::network::load::Load as Law;
use crate::engine::simulate::days::result::LoadHours;
use crate::quantity::*;

/// What is owed no more, in minutes.
pub(crate) const SETTLED: f64 = 1e-9;
/// Longest turn of a cycling load, in minutes. Common practice, no source.
const LONGEST_TURN: f64 = 8.0;

/// A demand as its three kinds together: power, current, conductance.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Draw {
    pub power: f64,
    pub current: f64,
    pub conductance: f64,
}

impl Draw {
    /// What a load draws while on.
    pub fn of(law: Law) -> Self {
        match law {
            Law::Power(power) => Draw { power: power.get(), ..Draw::default() },
            Law::Current(current) => Draw { current: current.get(), ..Draw::default() },
            Law::Resistance { .. } => Draw { conductance: law.current(Volts::new(1.0)).get(), ..Draw::default() },
        }
    }

    pub fn add(&mut self, other: &Draw, times: f64) {
        self.power += other.power * times;
        self.current += other.current * times;
        self.conductance += other.conductance * times;
    }

    /// Current at a voltage.
    pub fn at(&self, volts: f64) -> f64 {
        self.power / volts.max(1.0) + self.current + self.conductance * volts
    }

    /// Voltage at the posts of a source with E and R that feeds this, from
    /// V = E - R (P/V + I + G V); `None` when it cannot.
    pub fn settle(&self, open: f64, inner: f64) -> Option<f64> {
        let a = 1.0 + self.conductance * inner;
        let b = open - self.current * inner;
        let inside = b * b - 4.0 * a * self.power * inner;
        if inside < 0.0 || b <= 0.0 {
            return None;
        }
        Some((b + inside.sqrt()) / (2.0 * a))
    }
}

/// Loads that cycle alike, and so always together.
#[derive(Clone, Debug)]
pub(crate) struct Cycling {
    /// Their places in the plan.
    pub loads: Vec<usize>,
    pub allowed: Minutes,
    /// On which days and in which months.
    pub calendar: Calendar,
    pub draw: Draw,
    pub before: bool,
    pub only_driving: bool,
    /// What the start of one item adds, of each.
    pub starts: Vec<Rush>,
    pub own_cut: f64,
    /// Length of a turn in minutes.
    pub turn: f64,
    /// Hours asked for over hours its times allow.
    pub switched: f64,
    thermostat: Thermostat,
}

/// What a start adds, in A, and for how many seconds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Rush {
    pub adds: f64,
    pub lasts: f64,
}

impl Cycling {
    /// Share of its minutes that it draws at this air.
    pub fn share(&self, air: Celsius) -> f64 {
        self.thermostat.share(air).value.get() * self.switched
    }

    /// The largest start that outlasts a delay, in A.
    pub fn rush(&self, delay: f64) -> f64 {
        self.starts.iter().filter(|s| s.lasts > delay).map(|s| s.adds).fold(0.0, f64::max)
    }

    /// Take others in that cycle alike; whether these do.
    pub fn takes_in(&mut self, other: &Cycling) -> bool {
        let kind = |c: &Cycling| {
            (c.allowed, c.calendar, c.before, c.only_driving, c.own_cut, c.turn, c.switched, c.thermostat)
        };
        let alike = kind(self) == kind(other);
        if alike {
            self.loads.extend(&other.loads);
            self.draw.add(&other.draw, 1.0);
            let new = other.starts.iter().filter(|s| !self.starts.contains(s));
            self.starts.extend(new.copied().collect::<Vec<_>>());
        }
        alike
    }
}

/// Where cycling loads stand.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Turn {
    pub owed: f64,
    pub on: bool,
    /// They have switched themselves off for low voltage.
    pub tripped: bool,
    /// Share now.
    pub share: f64,
    /// Minutes in which one more is owed, and in which one is no more: 1 over the share, and over the rest.
    owes: f64,
    pays: f64,
    /// What they do in the minute at hand.
    pub does: Does,
    /// How many hours they wanted, and how many of them they stood without power.
    pub hours: LoadHours,
}

/// What cycling loads do in a minute.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Does {
    /// It is not their time.
    #[default]
    Nothing,
    /// They would, and have no power.
    Lack,
    /// They wait until a turn is owed.
    Wait,
    /// They begin a turn.
    Start,
    /// They draw.
    Draw,
}

impl Turn {
    /// Whether they draw now.
    pub fn runs(&self) -> bool {
        matches!(self.does, Does::Start | Does::Draw)
    }

    /// With so much owed already.
    pub fn owing(owed: f64) -> Self {
        Turn { owed, ..Turn::default() }
    }

    /// The share of their minutes from now on.
    pub fn draws_for(&mut self, share: f64) {
        (self.share, self.owes, self.pays) = (share, 1.0 / share, 1.0 / (1.0 - share));
    }

    /// How many minutes go on like the one at hand, at this share and in their times.
    pub fn alike(&self, turn: f64) -> u16 {
        match self.does {
            Does::Nothing => u16::MAX,
            Does::Lack => 1,
            Does::Wait => whole((turn - SETTLED - self.owed) * self.owes).saturating_sub(1),
            Does::Start | Does::Draw => whole((self.owed - SETTLED) * self.pays),
        }
    }

    /// After so many minutes of it.
    pub fn pass(&mut self, minutes: f64, hours: Hours) {
        let hours = hours * self.share;
        self.hours.wanted += hours;
        match self.does {
            Does::Lack => {
                self.hours.unserved += hours;
                self.on = false;
            }
            Does::Wait => self.owed += minutes * self.share,
            _ => {
                self.owed += minutes * (self.share - 1.0);
                self.on = self.owed > SETTLED;
            }
        }
    }
}

/// Rounded up, within a day.
fn whole(minutes: f64) -> u16 {
    let minutes = minutes.clamp(0.0, 1440.0);
    // Without a call of the library, which takes most of a step's rounding.
    let down = minutes as i32;
    (down + i32::from(f64::from(down) < minutes)) as u16
}

/// One minute of the loads that do not cycle.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Steady {
    pub behind: Draw,
    pub before: Draw,
}

/// Whether a load is on all through its times, whatever the air.
pub(crate) fn is_steady(load: &Load) -> bool {
    let all_through = load.hours.get() >= load.hours_allowed().value.get() - 1e-9;
    let always = load.thermostat.per_k == 0.0 && load.thermostat.at_25.get() >= 0.999;
    all_through && always && load.calendar.is_daily() && load.own_cut.is_none() && load.start.times <= 1.0
}

/// A load made ready for cycling; `before`: it goes on with the cut-off open.
pub(crate) fn cycling(index: usize, load: &Load, inverter_cut: Option<Volts>, before: bool) -> Cycling {
    let most = load.hours_allowed().value.get();
    let switched = if most > 0.0 { (load.hours.get() / most).min(1.0) } else { 0.0 };
    let minutes = most * 60.0 * switched * load.thermostat.share(Celsius::new(25.0)).value.get();
    let own_cut = load.own_cut.or(inverter_cut.filter(|_| load.inverter));
    let adds = load.start_current().get();
    Cycling {
        loads: vec![index],
        allowed: load.allowed,
        calendar: load.calendar,
        draw: Draw::of(load.law),
        before,
        only_driving: load.only_driving(),
        starts: if adds > 0.0 { vec![Rush { adds, lasts: load.start.lasts.get() }] } else { Vec::new() },
        own_cut: own_cut.map_or(0.0, Volts::get),
        turn: (minutes / 4.0).clamp(1.0, LONGEST_TURN),
        switched,
        thermostat: load.thermostat,
    }
}
