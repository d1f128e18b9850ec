//! What comes in over a usual week, and what is used?
//!
//! Averaged over the seven days of a week: what the loads use, driving or not,
//! against what sun, mains and driving store and what the charger feeds straight
//! to the loads on the way. Ampere-hours of sun and mains count divided by the
//! charge put in per charge stored. Left out: self-discharge, sun that finds the
//! battery full, and seasons; the simulation of days of use has them.

use crate::engine::installation::load::Load;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::installation::{Installation, sources};
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::charger::bounds::Bounds;
use crate::engine::simulate::charger::result::{Balance, ChargerDesign};
use crate::plan::ChargerKind;
use crate::quantity::*;
use crate::reckon;

/// By how much the loads with days of their own draw less, on average, than over the days without charge.
fn seldom(site: &Installation, day: &Budget) -> AmpHours {
    let less = |load: &Load| if load.often.get() > 0.0 { 1.0 - load.on_average.get() / load.often.get() } else { 0.0 };
    site.loads
        .iter()
        .zip(&day.loads)
        .filter(|(load, _)| !load.only_driving() && !load.on_starter)
        .map(|(l, b)| b.charge * less(l))
        .sum()
}

pub(crate) fn balance(
    site: &Installation,
    day: &Budget,
    bounds: &Bounds,
    out: &ChargerDesign,
    notes: &mut Notes,
) -> Balance {
    let drives = Figure::number(if bounds.hours.get() > 0.0 { site.vehicle.driving_days.a_week() } else { 0.0 });
    let plugged = Figure::number(if sources::has_mains(site) { site.mains.weekdays.a_week() } else { 0.0 });
    let given = out.fed * bounds.hours;
    let direct = if site.charger.kind == ChargerKind::None { AmpHours::ZERO } else { day.driving.min(given) };
    let used = reckon!(AmpHours: max((n * Q + (7.0 - n) * S) / 7.0 - L, 0.0),
        n: "driving days a week" = drives,
        Q: "charge of a driving day" = day.charge,
        S: "charge of a day without driving" = day.standing_day,
        L: "less by loads that are not used every day" = seldom(site, day));
    let used = notes.reckon(&Subject::Charger, "used on average", used, |r| {
        r.working("charge used on an average day of the week")
            .from("Q", Subject::Budget, "charge a day")
            .source("average over seven days")
    });
    let driving = reckon!(AmpHours: n * (a + d) / 7.0,
        n: "driving days a week" = drives,
        a: "put back on a day of driving" = out.a_day,
        d: "used while driving and fed directly" = direct);
    let driving = notes.reckon(&Subject::Charger, "driving on average", driving, |r| {
        r.working("charge that driving brings on an average day of the week").source("average over seven days")
    });
    let mains = reckon!(AmpHours: m * M / 7.0,
        m: "days a week with mains" = plugged, M: "stored from the mains on such a day" = out.mains_a_day);
    let mains = notes.reckon(&Subject::Mains, "on average", mains, |r| {
        r.working("charge that the mains bring on an average day of the week").source("average over seven days")
    });
    let missing = reckon!(AmpHours: max(U - (s + M + d), 0.0),
        U: "used" = used,
        s: "stored from the sun" = out.solar_stored,
        M: "stored from the mains" = mains,
        d: "stored by driving and fed directly on the way" = driving);
    let missing = notes.reckon(&Subject::Charger, "missing on average", missing, |r| {
        r.working("charge that an average day lacks")
            .from("U", Subject::Charger, "used on average")
            .from("M", Subject::Mains, "on average")
            .from("d", Subject::Charger, "driving on average")
            .source("over a week as much must come in as goes out")
    });
    Balance { used, sun: out.solar_stored, mains, driving, missing }
}
