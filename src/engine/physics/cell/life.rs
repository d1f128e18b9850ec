//! How many years a battery lasts.
//!
//! Wear by cycles (the chemistry's table of cycles by daily depth) and by
//! calendar add up: 1/years = 1/years by cycles + 1/years by calendar. The
//! calendar life halves for every 10 K above 25 °C and is not lengthened
//! below. Left out: wear by standing part charged, which for lead-acid can
//! rule over both.

use crate::catalogue::Chemistry;
use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// Years that stand for 'as long as you like'.
pub const LONG: Years = Years::new(99.0);

/// Years by cycles alone: cycles at the daily depth over days in use a year; at most 99. `None` where it is
/// not used at all.
pub fn cycle_life(chemistry: &Chemistry, daily_depth: Share, days_a_year: f64) -> Option<Reckoned<Years, 2>> {
    let cycles = chemistry.life.cycles.at(daily_depth).unwrap_or(CycleCount::ZERO);
    (days_a_year > 0.0 && daily_depth.get() > 0.0).then(|| {
        reckon!(Years: min(99.0, n / d),
            n: "cycles at that depth" = cycles, d: "days in use a year" = Figure::number(days_a_year))
    })
}

/// Years by calendar alone at a mean temperature: halved for every 10 K above 25 °C.
pub fn calendar_life(chemistry: &Chemistry, mean: Celsius) -> Years {
    let above = (mean.get() - 25.0).max(0.0);
    chemistry.life.calendar * 0.5f64.powf(above / 10.0)
}

/// Years by both together: the wear of both adds up.
pub fn years_of(cycles: Years, calendar: Years) -> Reckoned<Years, 2> {
    reckon!(Years: a * b / max(a + b, 0.000001),
        a: "years by cycles" = cycles, b: "years by calendar at the mean air" = calendar)
}
