//! What is there? The plan made definite: circuits as trees, times, places, names.

pub mod alternator;
pub mod battery;
pub mod charger;
pub mod circuits;
pub mod climate;
pub mod cut_off;
pub mod lead;
pub mod load;
pub mod minutes;
pub mod run;
pub mod sources;
pub mod subject;
pub mod working;

use crate::catalogue::{Catalogue, Chemistry};
use crate::plan::{
    Alternator, Board, BoardKind, Bond, Charger, CutOff, HoldDown, Inverter, MainSwitch, Mains, Meter, Place, Plan,
    PlanRules, Plug, Price, Reading, Run, ServiceBattery, Solar, StarterBattery, Stud, Surroundings, Vehicle,
};
use circuits::Topology;
use load::Load;
use minutes::{Minutes, driving_minutes};

/// A plan with its catalogue, made definite. All other rooms read this and never the plan.
#[derive(Clone, Debug, Default)]
pub struct Installation {
    /// What the plan is for.
    pub title: String,
    /// The rows there are to choose from.
    pub catalogue: Catalogue,
    /// Air and sun.
    pub surroundings: Surroundings,
    /// The vehicle's own electrics.
    pub vehicle: Vehicle,
    /// The battery that starts the engine.
    pub starter_battery: StarterBattery,
    /// The battery being planned, as far as it is given.
    pub service_battery: ServiceBattery,
    /// What charges it while driving, as far as it is given.
    pub charger: Charger,
    /// The low-voltage disconnect, as far as it is given.
    pub cut_off: CutOff,
    /// Solar array.
    pub solar: Solar,
    /// Charger from the mains.
    pub mains: Mains,
    /// Inverter.
    pub inverter: Inverter,
    /// What holds the service battery, as far as it is given.
    pub hold_down: HoldDown,
    /// Meters used for the readings.
    pub meter: Meter,
    /// House rules.
    pub rules: PlanRules,
    /// What uses energy.
    pub loads: Vec<Load>,
    /// Fuse boxes, breaker panels, bus bars.
    pub boards: Vec<Board>,
    /// Plugs to a trailer.
    pub plugs: Vec<Plug>,
    /// Minus of the service battery to the body, as far as it is given.
    pub bond: Bond,
    /// Isolator of a battery.
    pub main_switch: MainSwitch,
    /// Cables, as far as they are given: the plan's runs, then the leads of its loads.
    pub runs: Vec<Run>,
    /// What each run beyond the plan's own is.
    pub beyond: Vec<lead::Beyond>,
    /// Studs of what holds the battery, by position.
    pub studs: Vec<Stud>,
    /// What was measured.
    pub readings: Vec<Reading>,
    /// What batteries cost.
    pub prices: Vec<Price>,
    /// Which run feeds what.
    pub circuits: Topology,
    /// Minutes with the engine running on a driving day.
    pub driving: Minutes,
}

impl Installation {
    /// Of a plan.
    pub fn of(plan: &Plan, catalogue: &Catalogue) -> Self {
        let lead::Wired { runs, loads, beyond } = lead::wired(plan);
        let plan = &Plan { runs, loads, ..plan.clone() };
        let driving = driving_minutes(&plan.vehicle);
        Installation {
            title: plan.job.title.clone(),
            catalogue: catalogue.clone(),
            surroundings: plan.surroundings.clone(),
            vehicle: plan.vehicle.clone(),
            starter_battery: plan.starter_battery.clone(),
            service_battery: plan.service_battery.clone(),
            charger: plan.charger.clone(),
            cut_off: plan.cut_off.clone(),
            solar: plan.solar.clone(),
            mains: plan.mains.clone(),
            inverter: plan.inverter.clone(),
            hold_down: plan.hold_down.clone(),
            meter: plan.meter.clone(),
            rules: plan.rules.clone(),
            loads: load::loads(plan, driving),
            boards: plan.boards.clone(),
            plugs: plan.plugs.clone(),
            bond: plan.bond.clone(),
            main_switch: plan.main_switch.clone(),
            runs: plan.runs.clone(),
            studs: plan.studs.clone(),
            readings: plan.readings.clone(),
            prices: plan.prices.clone(),
            beyond,
            circuits: circuits::grow::topology(plan),
            driving,
        }
    }

    /// How many of the runs stand in the plan as runs; those behind them are leads and the ways they share.
    pub fn own_runs(&self) -> usize {
        self.runs.len() - self.beyond.len()
    }

    /// The run that is the lead of a load.
    pub fn lead_of(&self, load: usize) -> Option<usize> {
        Some(self.own_runs() + self.beyond.iter().position(|b| *b == lead::Beyond::Lead(load))?)
    }

    /// The load with which a run is entered: of its lead, or the first of a shared way.
    pub fn load_of(&self, run: usize) -> Option<usize> {
        self.beyond.get(run.checked_sub(self.own_runs())?).map(|b| b.load())
    }

    /// Whether a run is no cable but the device of a way that several leads share.
    pub fn is_way(&self, run: usize) -> bool {
        let beyond = run.checked_sub(self.own_runs()).and_then(|n| self.beyond.get(n));
        matches!(beyond, Some(lead::Beyond::Way(_)))
    }

    /// A point as it is called in the workshop: what lies behind a shared way is at its board.
    pub fn board_of<'a>(&'a self, point: &'a str) -> &'a str {
        let way = |n: usize| self.is_way(n).then(|| &self.runs[n]).filter(|r| r.to == point);
        (self.own_runs()..self.runs.len()).find_map(way).map_or(point, |r| &r.from)
    }

    /// Where a place of a run stands in the plan: a lead's fields stand with its load.
    pub fn place_of(&self, place: Place) -> Option<Place> {
        lead::place_of(&self.beyond, self.own_runs(), place)
    }

    /// Whether the minus post of the starter battery carries a current sensor: as the plan says, or as is usual.
    pub fn minus_sensor(&self) -> bool {
        self.vehicle.minus_sensor.unwrap_or(self.vehicle.alternator == Alternator::Variable)
    }

    /// Whether the device of a run sits in a way of its board; beside a bar it has a holder of its own.
    pub fn in_way(&self, run: usize) -> bool {
        let near = || self.circuits.branches.iter().find(|b| b.run == run).map(|b| b.near.as_str());
        let board = |point: &str| self.boards.iter().find(|b| b.name == point);
        near().and_then(board).is_some_and(|b| b.kind != BoardKind::BusBar)
    }

    /// How many circuits begin at a point: each takes a way of a board.
    pub fn circuits_at(&self, point: &str) -> usize {
        self.circuits.branches.iter().filter(|b| b.near == point).count()
    }

    /// The runs as they are listed: each of the plan's own, and under it what is led from the board at its end.
    pub fn listed_runs(&self) -> Vec<usize> {
        let beyond = self.own_runs()..self.runs.len();
        let mut listed = Vec::with_capacity(self.runs.len());
        for own in 0..self.own_runs() {
            listed.push(own);
            listed.extend(beyond.clone().filter(|&r| self.board_of(&self.runs[r].from) == self.runs[own].to));
        }
        let mut seen = vec![false; self.runs.len()];
        listed.retain(|&run| !std::mem::replace(&mut seen[run], true));
        listed.extend(beyond.filter(|&run| !seen[run]));
        listed
    }

    /// A subject in the words of the plan.
    pub fn name_of(&self, subject: &subject::Subject) -> String {
        subject.named(|i| self.loads.get(i).map(|l| l.name.clone()), &self.runs)
    }

    /// The chemistry of the service battery; `None` where the catalogue does not have it.
    pub fn chemistry(&self) -> Option<&Chemistry> {
        self.catalogue.chemistry(&self.service_battery.chemistry)
    }
}
