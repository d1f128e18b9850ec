//! What is there? The plan made definite: circuits as trees, times, places, names.

pub mod alternator;
pub mod battery;
mod blocks;
pub mod charger;
pub mod circuits;
pub mod climate;
pub mod counter;
pub mod cut_off;
pub mod gap;
pub mod lead;
pub mod load;
pub mod minutes;
pub mod number;
pub mod own_cut;
pub mod pair;
pub mod place;
pub mod price;
pub mod run;
pub mod sources;
pub mod subject;
pub mod times;
pub mod working;

use crate::catalogue::{Catalogue, Chemistry};
use crate::plan::{Alternator, BoardKind, Outfit, Place, Plan, ReturnPath, Run, System, point};
use crate::quantity::{AmpHours, Days, Volts};
use circuits::{Branch, Side, Topology};
use load::Load;
use minutes::{Minutes, driving_minutes};
use std::ops::Deref;
use times::Times;

/// A plan with its catalogue, made definite. All other rooms read this and never the plan.
#[derive(Clone, Debug, Default)]
pub struct Installation {
    /// What the plan is for.
    pub title: String,
    /// The rows there are to choose from.
    pub catalogue: Catalogue,
    /// Battery, charger and all else besides loads and cables, as far as it is given.
    pub outfit: Outfit,
    /// What uses energy.
    pub loads: Vec<Load>,
    /// Cables, as far as they are given: the plan's runs, then the leads of its loads.
    pub runs: Vec<Run>,
    /// What each run beyond the plan's own is.
    pub beyond: Vec<lead::Beyond>,
    /// Which run feeds what.
    pub circuits: Topology,
    /// Minutes with the engine running on a driving day.
    pub driving: Minutes,
    /// The same by the days.
    pub drives: Times,
    /// When the mains are plugged in.
    pub plugged: Times,
    /// How long it must last with nothing coming in: as given, or the longest gap of the plan's fortnight.
    pub days_without_charge: Days,
    /// The bank that a heater pad keeps warm, where its capacity is not given, once it is known.
    pub(crate) kept_warm: Option<AmpHours>,
}

impl Deref for Installation {
    type Target = Outfit;
    fn deref(&self) -> &Outfit {
        &self.outfit
    }
}

impl Installation {
    /// Of a plan.
    pub fn of(plan: &Plan, catalogue: &Catalogue) -> Self {
        let lead::Wired { runs, loads, beyond } = lead::wired(plan);
        let mut plan = Plan { job: plan.job.clone(), outfit: plan.outfit.clone(), loads, runs };
        blocks::of_blocks(&mut plan.outfit);
        let mut catalogue = at_hand(catalogue, &plan.outfit.rules.styles_at_hand);
        own_cut::of_this_battery(&mut catalogue, &plan.outfit.service_battery);
        own_cut::by_signal(&mut plan.outfit, &catalogue);
        pair::of_24_volts(&mut plan.outfit, &mut catalogue);
        let driving = driving_minutes(&plan.vehicle);
        let drives = Times::new(&plan.vehicle.driving, plan.vehicle.driving_days);
        let plugged = Times::new(&plan.mains.windows, plan.mains.weekdays);
        let days_without_charge =
            plan.service_battery.days_without_charge.unwrap_or_else(|| gap(&plan, drives, plugged));
        let circuits = circuits::grow::topology(&plan);
        let mut loads = load::loads(&plan, driving, days_without_charge);
        for load in &mut loads {
            let fed = circuits.to_feed_point.contains_key(&load.at) && !circuits.has_point(&load.at);
            load.on_starter = fed && !load.inverter;
            if load.on_starter {
                load.made_for(pair::nominal(plan.vehicle.system));
            }
        }
        Installation {
            title: plan.job.title,
            catalogue,
            outfit: plan.outfit,
            loads,
            runs: plan.runs,
            beyond,
            circuits,
            driving,
            drives,
            plugged,
            days_without_charge,
            kept_warm: None,
        }
    }

    /// Voltage that what hangs on a side is made for, and of which a loss on the way there is a share.
    pub(crate) fn nominal(&self, side: Side) -> Volts {
        match side {
            Side::Service => load::NOMINAL,
            Side::Feed => pair::nominal(self.vehicle.system),
        }
    }

    /// Of what the losses of all runs are shares, as the head of a column.
    pub fn share_of(&self) -> &'static str {
        match self.vehicle.system {
            System::V12 => "of 12 V",
            System::V24 => "of 12/24 V",
        }
    }

    /// Number of a run on papers, drawings, labels and screens: `R3`.
    pub fn run_number(&self, run: usize) -> String {
        number::run_number(&self.runs, run)
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

    /// Whether added minus cables end on the minus post of the starter battery: as the plan says, else unless a sensor
    /// sits there.
    pub fn minus_on_post(&self) -> bool {
        self.vehicle.minus_on_post.unwrap_or(!self.minus_sensor())
    }

    /// The first cable whose return is added where the starter battery's minus carries a sensor.
    pub fn minus_at_sensor(&self) -> Option<&Branch> {
        let added = |b: &&Branch| {
            let cable = self.runs.get(b.run).is_some_and(|r| r.return_path == ReturnPath::Cable);
            b.near == point::STARTER_BATTERY && cable
        };
        self.circuits.branches.iter().find(added).filter(|_| self.minus_sensor())
    }

    /// The branch that ends at a point, of whichever battery.
    pub fn branch_to(&self, point: &str) -> Option<usize> {
        self.circuits.to_point.get(point).or_else(|| self.circuits.to_feed_point.get(point)).copied()
    }

    /// Whether the cable to a load's own terminals stands in the plan: its lead, or a run that ends at a point of its
    /// name.
    pub fn has_cable(&self, load: usize) -> bool {
        self.lead_of(load).is_some() || self.loads.get(load).is_some_and(|l| l.at == l.name)
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

    /// Points that are no board though several circuits begin or several loads hang there.
    pub fn plain_points(&self) -> Vec<&str> {
        let set = [point::SERVICE_BATTERY, point::STARTER_BATTERY, point::CHARGER, point::CUT_OFF];
        let known = |at: &str| {
            set.contains(&at) || self.boards.iter().any(|b| b.name == at) || self.plugs.iter().any(|p| p.name == at)
        };
        let shared = |at: &str| {
            let loads = self.loads.iter().filter(|l| !l.inverter && l.count > 0 && l.at == at).count();
            self.circuits_at(at) + loads > 1
        };
        let own = self.circuits.branches.iter().filter(|b| b.run < self.own_runs()).map(|b| b.far.as_str());
        own.filter(|at| !known(at) && shared(at)).collect()
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

/// The catalogue with only those fuse styles to choose from that the plan says are at hand: all usual ones where it
/// says nothing, or names none that there is.
fn at_hand(catalogue: &Catalogue, keys: &str) -> Catalogue {
    let named: Vec<&str> = keys.split(',').map(str::trim).filter(|key| catalogue.fuse_style(key).is_some()).collect();
    let mut catalogue = catalogue.clone();
    if !named.is_empty() {
        for style in &mut catalogue.fuse_styles {
            style.only_asked = !named.contains(&style.key.as_str());
        }
    }
    catalogue
}

/// The longest gap between two chances to charge in a plan's fortnight.
fn gap(plan: &Plan, drives: Times, plugged: Times) -> Days {
    let mut chances = vec![drives];
    if plan.mains.current.get() > 0.0 {
        chances.push(plugged);
    }
    if plan.solar.array.get() > 0.0 {
        chances.push(Times::daily(Minutes::DAY));
    }
    gap::longest_gap(&chances)
}
