//! All sizes chosen, with what follows from them.

use crate::engine::choose::circuit::basis::Basis;
use crate::engine::choose::circuit::chosen::Chosen;
use crate::engine::choose::circuit::pick::pick_after;
use crate::engine::choose::circuit::workings;
use crate::engine::installation::Installation;
use crate::engine::installation::working::Notes;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::cases::cases;
use crate::engine::simulate::circuit::demand::Demand;
use crate::engine::simulate::circuit::levels::Levels;
use crate::engine::simulate::circuit::loss::mean_squares;
use crate::engine::simulate::circuit::result::{CopperDesign, LoadSupply, RunDesign};
use crate::engine::simulate::circuit::sized::{SizedRuns, Sizing};
use std::sync::Arc;

/// All runs sized, with all that is known of them and how they were found, where there are any.
type Sized<'a> = (Sizing, Option<(SizedRuns<'a>, Arc<Chosen>)>);

/// Size every run and see what every load gets. `former`: what was found for an installation that is the same in all
/// that cables rest on.
pub fn size_runs<'a>(
    site: &'a Installation,
    budget: &Budget,
    battery: &BatteryDesign,
    charger: &ChargerDesign,
    former: Option<&Arc<Chosen>>,
    notes: &mut Notes,
) -> Sized<'a> {
    let levels = Levels::of(site, battery, charger, budget.peak);
    let demand = Demand::of(site, &levels, charger);
    let given = Basis { site, battery, charger, demand: &demand, levels };
    let Some((picked, chosen)) = pick_after(&given, former) else {
        let runs = (0..site.runs.len()).map(|run| RunDesign { run, ..RunDesign::default() }).collect();
        let loads = vec![LoadSupply::default(); site.loads.len()];
        return (Sizing { levels, runs, loads, devices: Vec::new(), copper: CopperDesign::default() }, None);
    };
    let cases = cases(&site.circuits, &demand, &levels, &picked);
    let squares = mean_squares(site, budget, &demand.terminals);
    let known = SizedRuns { site, levels, demand, picked, cases, squares };
    let sizing = Sizing {
        levels,
        devices: known.devices(),
        runs: known.runs(),
        loads: (0..site.loads.len()).map(|load| known.load(load)).collect(),
        copper: known.copper(),
    };
    if notes.are_kept() {
        workings::write(&known, &sizing, notes);
    }
    (sizing, Some((known, chosen)))
}
