//! How many years a battery lasts.
//!
//! Wear by cycles (the chemistry's table of cycles by daily depth) and by
//! calendar add up: 1/years = 1/years by cycles + 1/years by calendar. The
//! calendar life halves for every 10 K above 25 °C and is not lengthened
//! below. Left out: wear by standing part charged, which for lead-acid can
//! rule over both.

use crate::catalogue::Chemistry;
use crate::quantity::*;

/// Years that stand for 'as long as you like'.
const LONG: f64 = 99.0;

/// Years by cycles alone: cycles at the daily depth over days in use a year; at most 99.
pub fn cycle_life(chemistry: &Chemistry, daily_depth: Share, days_a_year: f64) -> Years {
    let cycles = chemistry.life.cycles.at(daily_depth).map_or(0.0, CycleCount::get);
    if days_a_year <= 0.0 || daily_depth.get() <= 0.0 {
        return Years::new(LONG);
    }
    Years::new((cycles / days_a_year).min(LONG))
}

/// Years by calendar alone at a mean temperature: halved for every 10 K above 25 °C.
pub fn calendar_life(chemistry: &Chemistry, mean: Celsius) -> Years {
    let above = (mean.get() - 25.0).max(0.0);
    chemistry.life.calendar * 0.5f64.powf(above / 10.0)
}

/// Years by both together: a b / (a + b).
pub fn years_of(cycles: Years, calendar: Years) -> Years {
    let sum = cycles + calendar;
    if sum.get() > 0.0 { cycles * (calendar / sum) } else { Years::ZERO }
}
