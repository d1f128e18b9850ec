//! All sizes chosen, with what follows from them.

use crate::engine::choose::circuit::pick::{Basis, pick};
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

/// Size every run and see what every load gets; with all that is known of the runs, where there are any.
pub fn size_runs<'a>(
    site: &'a Installation,
    budget: &Budget,
    battery: &BatteryDesign,
    charger: &ChargerDesign,
    notes: &mut Notes,
) -> (Sizing, Option<SizedRuns<'a>>) {
    let levels = Levels::of(site, battery, charger, budget.peak);
    let demand = Demand::of(site, &levels, charger);
    let given = Basis { site, battery, charger, demand: &demand, levels };
    let Some(picked) = pick(&given) else {
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
    (sizing, Some(known))
}
