//! What happens over days of use?
//!
//! The plan is stepped minute by minute, and by five seconds while the cut-off
//! makes up its mind: loads by their times, thermostats by the air, driving by
//! weekday, sun by season and latitude, the battery by its model (`battery::model`),
//! the cut-off with its delay and reconnect. Charge is conserved to rounding
//! and the difference is kept in the result. Left out: what is lost in the
//! cables (under the drop limits), the charger's warming, shade, and people who
//! change their ways when the lamps go dim; see `uncertainty` for that.

pub mod demand;
pub mod record;
pub mod run;
pub mod scenario;
pub mod working;

use crate::engine::judge::days as checks;
use crate::engine::simulate::days::scenario::{Scenario, Vary};

use crate::engine::design::Design;
use crate::engine::judge::book::Book;
use crate::quantity::*;

/// Longest simulation: ten years.
pub const LONGEST: u32 = 3650;

/// What to simulate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// How many days, 1 to 3650; the first is a Monday.
    pub days: u32,
    /// Day of the year it begins on, 1 to 365.
    pub first_day: u32,
    /// State of charge at the beginning, 0 to 1.
    pub from: Share,
    /// Share of the capacity that age has left; 1 for a new battery.
    pub health: Share,
}

impl Default for Span {
    /// A fortnight from mid-April (about the year's mean air), new and full.
    fn default() -> Self {
        Span { days: 14, first_day: 105, from: Share::FULL, health: Share::FULL }
    }
}

/// Why nothing could be simulated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EnduranceError {
    /// No battery is sized, or its capacity is zero.
    NoBattery,
    /// So many days are not simulated.
    Days(u32),
    /// There is no such day of the year.
    FirstDay(u32),
    /// A battery cannot hold that.
    Charge(Share),
    /// It cannot have aged to that.
    Health(Share),
}

impl EnduranceError {
    /// What is wrong, the accepted range and what to do, without a full stop.
    pub fn explain(&self) -> String {
        match self {
            EnduranceError::NoBattery => {
                "there is no battery to simulate; enter a capacity above 0 Ah, or loads from which it can be sized"
                    .into()
            }
            EnduranceError::Days(n) => {
                format!("{n} days cannot be simulated; accepted are 1 to {LONGEST}, for example 14")
            }
            EnduranceError::FirstDay(n) => {
                format!("{n} is no day of the year; accepted are 1 to 365, for example 105 for mid-April")
            }
            EnduranceError::Charge(s) => {
                format!("a battery cannot begin at {s}; accepted are 0 to 100 %, for example 100 %")
            }
            EnduranceError::Health(s) => {
                format!("a battery cannot have {s} of its capacity left; accepted are 10 to 100 %, for example 80 %")
            }
        }
    }
}

/// What happened.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Endurance {
    /// How many days were simulated.
    pub days: u32,
    /// The curve, at most about 2,000 points.
    pub points: Vec<EndurancePoint>,
    /// Each day.
    pub by_day: Vec<EnduranceDay>,
    /// Each load of the plan, in its order.
    pub loads: Vec<LoadHours>,
    /// Lowest state of charge, and when.
    pub lowest: Share,
    /// Hours after the beginning.
    pub lowest_at: Hours,
    /// How often the cut-off opened.
    pub cuts: u32,
    /// Hours it was open.
    pub cut_hours: Hours,
    /// When it first opened.
    pub first_cut: Option<Hours>,
    /// Hours in which the battery gave nothing at all: empty, or its own protection open.
    pub dead_hours: Hours,
    /// Hours in which charge was offered and the temperature forbade it.
    pub refused_hours: Hours,
    /// Where the charge went.
    pub ledger: Ledger,
    /// Change of the charge over the last whole week; the balance of a week once it has settled.
    pub weekly_balance: AmpHours,
    /// Change of the state of charge a week, after the first: negative when it drifts down.
    pub drift: Share,
    /// Full cycles a year at this use.
    pub cycles_a_year: f64,
    /// Share of its life used by cycles in a year of days like these.
    pub wear_cycles: Share,
    /// Share of its life used by the calendar in a year at this air.
    pub wear_calendar: Share,
}

/// Where the charge came from and went. In = out + change, to rounding.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Ledger {
    /// In the battery at the beginning.
    pub start: AmpHours,
    /// At the end.
    pub end: AmpHours,
    /// Into its posts.
    pub charged: AmpHours,
    /// Out of its posts.
    pub drawn: AmpHours,
    /// Put in and not stored: gassing and heat.
    pub lost: AmpHours,
    /// Self-discharge.
    pub leaked: AmpHours,
    /// Offered by the charger while driving, whether taken or not.
    pub from_driving: AmpHours,
    /// Offered by the sun.
    pub from_sun: AmpHours,
    /// Offered by the mains.
    pub from_mains: AmpHours,
    /// Taken by the loads and standing draws, from the battery or straight from the sources.
    pub used: AmpHours,
    /// Energy into the posts.
    pub energy_in: WattHours,
    /// Energy out of the posts.
    pub energy_out: WattHours,
    /// Energy that became heat in the battery: resistance, levelling of the wells, gassing, self-discharge.
    pub energy_lost: WattHours,
    /// Change of the energy stored: charge times resting voltage, summed over the steps.
    pub energy_stored: WattHours,
}

impl Ledger {
    /// Charge that the books cannot account for; only rounding.
    pub fn charge_missing(&self) -> AmpHours {
        self.start + self.charged - self.drawn - self.lost - self.leaked - self.end
    }

    /// Energy that the books cannot account for.
    pub fn energy_missing(&self) -> WattHours {
        self.energy_in - self.energy_out - self.energy_lost - self.energy_stored
    }
}

/// One point of the curve.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct EndurancePoint {
    /// Hours after the beginning.
    pub at: Hours,
    /// State of charge.
    pub charge: Share,
    /// Voltage at the posts.
    pub volts: Volts,
    /// Out of the battery; negative while it is charged.
    pub current: Amps,
    /// Air.
    pub air: Celsius,
    /// Whether the cut-off is open.
    pub cut: bool,
}

/// One day.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct EnduranceDay {
    /// Lowest state of charge.
    pub lowest: Share,
    /// At midnight, when it ends.
    pub end: Share,
    /// Into the posts.
    pub charged: AmpHours,
    /// Out of the posts.
    pub drawn: AmpHours,
    /// Hours with the cut-off open.
    pub cut_hours: Hours,
    /// Whether the cut-off was open at any time from 18:00 of the evening before to 06:00, or from 18:00 on.
    pub cut_at_night: bool,
}

/// How long a load was wanted, and how long it stood without power.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LoadHours {
    /// Hours it was meant to draw.
    pub wanted: Hours,
    /// Hours of them it could not.
    pub unserved: Hours,
}

/// Simulate a plan with its design.
///
/// # Errors
/// When there is no battery, or the span is outside its ranges.
pub fn endurance(design: &Design, span: Span, book: &mut Book) -> Result<Endurance, EnduranceError> {
    let site = &design.installation;
    check_span(span)?;
    let scenario = Scenario::new(site, design).ok_or(EnduranceError::NoBattery)?;
    let out = scenario.run(span, &Vary::of(span), true);
    working::record(site, &scenario, &out, book);
    checks::check(site, design, &out, book);
    Ok(out)
}

/// Whether a span is within its ranges.
pub(crate) fn check_span(span: Span) -> Result<(), EnduranceError> {
    let inside = |s: Share, least: f64| s.get() >= least && s.get() <= 1.0;
    if span.days == 0 || span.days > LONGEST {
        Err(EnduranceError::Days(span.days))
    } else if span.first_day == 0 || span.first_day > 365 {
        Err(EnduranceError::FirstDay(span.first_day))
    } else if !inside(span.from, 0.0) {
        Err(EnduranceError::Charge(span.from))
    } else if !inside(span.health, 0.1) {
        Err(EnduranceError::Health(span.health))
    } else {
        Ok(())
    }
}
