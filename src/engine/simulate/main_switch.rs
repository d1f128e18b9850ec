//! What stays live when the main switch is open?
//!
//! All that is not behind it, up to the switch itself; and what is behind it while
//! a source of its own is there, such as the sun or a charger.

use crate::engine::installation::Installation;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::plan::{ChargerKind, point};
use crate::quantity::Amps;

/// A run that stays live.
#[derive(Clone, Debug, PartialEq)]
pub struct Live {
    /// Index of the run.
    pub run: usize,
    /// What keeps it live.
    pub by: &'static str,
    /// The device at its near end, or the nearest one before it; `None` where nothing opens.
    pub device: Option<Amps>,
}

/// The branches that the main switch parts from their battery.
pub fn parted(site: &Installation) -> Vec<usize> {
    let at = &site.main_switch.at;
    let branches = &site.circuits.branches;
    let from_it = |b: usize| site.circuits.path_of(b).iter().any(|p| branches[*p].near == *at);
    (0..branches.len()).filter(|b| from_it(*b)).collect()
}

/// Every run that stays live; nothing where no main switch is planned.
pub fn stays_live(site: &Installation, runs: &[RunDesign]) -> Vec<Live> {
    if site.main_switch.rating.is_none() {
        return Vec::new();
    }
    let parted = parted(site);
    let behind = |at: &str| site.circuits.to_point.get(at).is_some_and(|b| parted.contains(b));
    let own = [
        ("the sun", site.solar.array.get() > 0.0 && behind(&site.solar.at)),
        ("the mains charger", site.mains.current.get() > 0.0 && behind(&site.mains.at)),
        ("the charger", site.charger.kind != ChargerKind::None && behind(point::CHARGER)),
    ];
    let source = own.into_iter().find(|(_, there)| *there).map(|(by, _)| by);
    let near = |b: &usize| {
        let design = runs.get(site.circuits.branches[*b].run)?;
        design.fuses.iter().find(|f| !f.far_end)?.rating
    };
    let live = |branch: usize| {
        let by = if parted.contains(&branch) { source? } else { "its battery" };
        let device = site.circuits.path_of(branch).iter().rev().find_map(near);
        Some(Live { run: site.circuits.branches[branch].run, by, device })
    };
    (0..site.circuits.branches.len()).filter_map(live).collect()
}
