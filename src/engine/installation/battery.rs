//! What is given about the service battery: how deep it may be used, and how old.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::counter::{Counter, Said};
use crate::plan::{CutOffBy, Measured};
use crate::quantity::*;

/// Charge kept in the battery at the cut-off: the plan's, or the chemistry's,
/// or what a deeper depth chosen in the plan leaves.
pub fn reserve_of(site: &Installation, chemistry: &Chemistry) -> Share {
    let by_depth = site.service_battery.depth.map_or(Share::FULL, |d| Share::FULL - d);
    site.cut_off.reserve.unwrap_or_else(|| chemistry.low.reserve.min(by_depth)).max(Share::ZERO)
}

/// The counter of a plan; `None` where its cut-off acts by something else.
pub(crate) fn counter(site: &Installation, chemistry: &Chemistry) -> Option<Counter> {
    let said = (site.cut_off.acts_by == CutOffBy::Charge).then(|| Said::of(site))?;
    Some(said.counter(reserve_of(site, chemistry), end_of_life(site, chemistry)))
}

/// The most that may be left in it when the cut-off opens: the reserve; of a counter what it is set to, and what it may
/// be off on top.
pub fn left_when_opened(site: &Installation, chemistry: &Chemistry) -> Share {
    counter(site, chemistry).map_or_else(|| reserve_of(site, chemistry), |counter| counter.acts_between().1)
}

/// Depth of discharge to plan with: the plan's or the chemistry's, never
/// deeper than what is left when the cut-off opens; at least 1 %.
pub fn planned_depth(site: &Installation, chemistry: &Chemistry) -> Share {
    let wanted = site.service_battery.depth.unwrap_or(chemistry.life.depth);
    wanted.min(Share::FULL - left_when_opened(site, chemistry)).max(Share::new(0.01))
}

/// Capacity left, as a share of the rated, when it is replaced: of a used bank that is worse already what it has.
pub fn end_of_life(site: &Installation, chemistry: &Chemistry) -> Share {
    site.service_battery.end_of_life.unwrap_or(chemistry.life.end_of_life).min(health(site))
}

/// Capacity that it has now, as a share of the rated: all of it, or what was last found. What a measurement with its
/// month found counts before a test without one: it is known when that was.
pub fn health(site: &Installation) -> Share {
    let battery = &site.service_battery;
    let found = last_found(site).and_then(|m| m.capacity).or(battery.tested);
    let share = found.zip(battery.capacity).map(|(found, rated)| Share::new(found / rated));
    share.map_or(Share::FULL, |found| found.min(Share::FULL).max(Share::new(0.05)))
}

/// The last measurement of its capacity.
pub fn last_found(site: &Installation) -> Option<&Measured> {
    site.measured.iter().filter(|m| m.capacity.is_some()).max_by_key(|m| (m.year, m.month))
}
