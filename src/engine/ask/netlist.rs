//! A plan as circuits: what is solved for it, to hand to a circuit simulator.

use crate::catalogue::Catalogue;
use crate::engine::choose::battery::battery;
use crate::engine::choose::charger::charge_current;
use crate::engine::choose::circuit::pick::{Given, pick};
use crate::engine::installation::Installation;
use crate::engine::installation::circuits::Side;
use crate::engine::installation::working::Notes;
use crate::engine::physics::network::circuit::Network;
use crate::engine::simulate::budget::budget;
use crate::engine::simulate::circuit::cases::networks;
use crate::engine::simulate::circuit::demand::Demand;
use crate::engine::simulate::circuit::levels::Levels;
use crate::plan::Plan;

/// The circuit of one side of a plan, all steady loads on, its source at the lowest voltage.
#[derive(Clone, Debug)]
pub struct PlanNetwork {
    /// Which battery feeds it.
    pub side: Side,
    /// Run of the plan of each branch.
    pub runs: Vec<usize>,
    /// The circuit with the sizes of the design; [`Network::to_spice`] writes it as a netlist.
    pub network: Network,
}

/// The circuits of a plan, sized as in its design. Loads that the cables cannot
/// feed are left out, as there. Empty when no run hangs together with a battery.
pub fn plan_networks(plan: &Plan, catalogue: &Catalogue) -> Vec<PlanNetwork> {
    let site = &Installation::of(plan, catalogue);
    let notes = &mut Notes::unkept();
    let budget = budget(site, notes);
    let battery = battery(site, &budget, notes);
    let charger = charge_current(site, &budget, &battery, notes);
    let levels = Levels::of(site, &battery, &charger, budget.peak);
    let demand = Demand::of(site, &levels, &charger);
    let (battery, charger) = (&battery, &charger);
    let given = Given { site, battery, charger, demand: &demand, levels };
    let Some(picked) = pick(&given) else { return Vec::new() };
    let all = networks(&site.circuits, &demand, &levels, &picked);
    all.into_iter().map(|(side, runs, network)| PlanNetwork { side, runs, network }).collect()
}
