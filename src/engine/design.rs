//! The door: a plan goes in, a design comes out.
//!
//! Always gives a design. What could not be computed is absent, and a finding
//! says why.

use crate::catalogue::Catalogue;
use crate::engine::choose::battery::{BatteryDesign, battery};
use crate::engine::choose::charger::{ChargerDesign, charge_current};
use crate::engine::choose::circuit::rows::size_runs;
use crate::engine::choose::cut_off::{CutOffDesign, cut_off};
use crate::engine::choose::fuse::protect;
use crate::engine::choose::hold_down::carrier;
use crate::engine::installation::circuits::Topology;
use crate::engine::installation::circuits::grow::topology;
use crate::engine::judge::board::{panels, post_leads};
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Severity};
use crate::engine::installation::working::Workings;
use crate::engine::simulate::budget::{Budget, budget};
use crate::engine::simulate::charger::alternator::lowest_driving_voltage;
use crate::engine::simulate::charger::feed::charger_feed;
use crate::engine::simulate::circuit::result::{CopperDesign, LoadSupply, RunDesign};
use crate::engine::simulate::cut_off::path::{feed_resistance, sensing_path};
use crate::engine::simulate::hold_down::result::CarrierDesign;
use crate::engine::simulate::test_sheet::result::TestSheet;
use crate::engine::simulate::test_sheet::test_sheet;
use crate::plan::Plan;

/// What follows from a plan. Never edited.
#[derive(Clone, Debug, Default)]
pub struct Design {
    /// Which run feeds what.
    pub topology: Topology,
    /// Energy and charge a day.
    pub budget: Budget,
    /// The service battery and its rivals.
    pub battery: BatteryDesign,
    /// The charger and its feed.
    pub charger: ChargerDesign,
    /// One for each run of the plan, in its order.
    pub runs: Vec<RunDesign>,
    /// One for each load of the plan, in its order.
    pub loads: Vec<LoadSupply>,
    /// The copper of all runs.
    pub copper: CopperDesign,
    /// The cut-off.
    pub cut_off: CutOffDesign,
    /// What holds the battery; `None` when the plan has no carrier.
    pub carrier: Option<CarrierDesign>,
    /// What the finished wiring should measure, and what the readings say.
    pub test_sheet: TestSheet,
    /// Worst first.
    pub findings: Vec<Finding>,
    /// How each number came about.
    pub workings: Workings,
}

impl Design {
    /// How many findings of a severity.
    pub fn count(&self, severity: Severity) -> usize {
        self.findings.iter().filter(|f| f.severity == severity).count()
    }

    /// Whether something must not be built as planned.
    pub fn has_stop(&self) -> bool {
        self.count(Severity::Stop) > 0
    }
}

/// Size everything.
pub fn design(plan: &Plan, catalogue: &Catalogue) -> Design {
    let (topology, findings) = topology(plan);
    let mut book = Book { findings, ..Book::default() };
    crate::engine::judge::air::check(plan, &mut book);
    let budget = budget(plan, catalogue, &mut book);
    let battery = battery(plan, catalogue, &budget, &mut book);
    let mut charger = charge_current(plan, catalogue, &budget, &battery, &mut book);
    let mut sizing = size_runs(plan, catalogue, &topology, &budget, &battery, &charger, &mut book);
    let feed = feed_resistance(&topology, &sizing.runs);
    charger_feed(&mut charger, plan, catalogue, feed, lowest_driving_voltage(plan, catalogue), &mut book);
    protect(plan, catalogue, &topology, &battery, &charger, &mut sizing.runs, &mut book);
    panels(plan, &topology, &sizing.runs, &budget, &mut book);
    post_leads(plan, &mut book);
    let path = sensing_path(plan, &topology, &sizing.runs, &budget);
    let cut_off = cut_off(plan, catalogue, &topology, &budget, &battery, &charger, path, &mut book);
    let carrier = carrier(plan, catalogue, battery.bank.as_ref(), &mut book);
    let sheet = test_sheet(plan, catalogue, &topology, &sizing.runs, &charger, &mut book);
    let Book { mut findings, workings } = book;
    findings.sort_by(|a, b| a.severity.cmp(&b.severity).then(a.subject.cmp(&b.subject)));
    let (runs, loads, copper) = (sizing.runs, sizing.loads, sizing.copper);
    Design {
        topology,
        budget,
        battery,
        charger,
        runs,
        loads,
        copper,
        cut_off,
        carrier,
        test_sheet: sheet,
        findings,
        workings,
    }
}
