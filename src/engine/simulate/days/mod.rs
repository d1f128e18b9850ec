//! What happens over days of use?
//!
//! The plan is stepped minute by minute, and by five seconds while the cut-off
//! makes up its mind: loads by their times, thermostats by the air, driving by
//! weekday, sun by season and latitude, the battery by its model (`battery::model`),
//! the cut-off with its delay and reconnect. Charge is conserved to rounding
//! and the difference is kept in the result. Left out: what is lost in the
//! cables (under the drop limits), the charger's warming, shade, and people who
//! change their ways when the lamps go dim; see `chance` for that.

mod bay;
mod counter;
pub mod demand;
pub mod feed;
mod hours;
pub mod leap;
pub mod lows;
pub(crate) mod midnight;
mod now;
pub mod of_day;
pub mod record;
pub mod result;
pub mod run;
pub mod scenario;
pub mod span;
pub mod starter;

use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::simulate::days::midnight::run;
use crate::engine::simulate::days::result::Endurance;
use crate::engine::simulate::days::run::Pace;
use crate::engine::simulate::days::scenario::{Scenario, Vary};
use crate::engine::simulate::days::span::{EnduranceError, Span};
use crate::quantity::*;
use crate::reckon;

const METHOD: &str = "minute-by-minute simulation with the kinetic battery model";

/// Step a plan through its days.
///
/// # Errors
/// When the span is outside its ranges.
pub fn endurance(scenario: &Scenario<'_>, span: Span, notes: &mut Notes) -> Result<Endurance, EnduranceError> {
    span.check()?;
    let mut out = run(scenario, span, &Vary::of(span), Pace::Shown);
    let about = &Subject::Endurance;
    out.cycles_a_year = notes
        .reckon(
            about,
            "cycles a year",
            reckon!(CycleCount: o / C / n * u,
                o: "drawn" = out.ledger.drawn,
                C: "capacity of the bank" = scenario.capacity(),
                n: "days simulated" = Figure::number(f64::from(out.days)),
                u: "days in use a year" = Figure::number(f64::from(scenario.site.service_battery.days_in_use))),
            |r| r.working("full cycles a year").source("charge drawn over the capacity"),
        )
        .get();
    notes.reckon(about, "charge missing", out.ledger.charge_balance(), |r| {
        let words = "charge that the books cannot account for";
        r.working(words).source("conservation of charge; only rounding is left")
    });
    note_solved(scenario, &out, notes);
    Ok(out)
}

/// What the stepping itself gives, no formula.
fn note_solved(scenario: &Scenario<'_>, out: &Endurance, notes: &mut Notes) {
    let mut solved = |number, words, value: Figure, source: String| {
        notes.add(Subject::Endurance, number, || Working::new(words, "", value).source(source));
    };
    let wear = format!("each day wears like one cycle of its depth; {}", scenario.chemistry.life.from.cycles.words());
    let calendar = "calendar life halved for every 10 K above 25 °C; common practice, no source";
    solved("wear by cycles", "share of its life used by cycles in a year", out.wear_cycles.into(), wear);
    let words = "share of its life used by the calendar in a year";
    solved("wear by calendar", words, out.wear_calendar.into(), calendar.into());
    solved("weekly balance", "change of charge over the last week", out.weekly_balance.into(), METHOD.into());
    solved("drift", "change of charge a week after the first", out.drift.into(), METHOD.into());
    notes.add(Subject::Endurance, "lowest charge", || {
        Working::new("lowest state of charge", "", out.lowest)
            .with("t", "after", out.lowest_at)
            .with("C", "capacity of the bank", scenario.capacity())
            .source(METHOD)
            .note("approximation: loads run by their times exactly; see the uncertainty for what varies")
    });
}
