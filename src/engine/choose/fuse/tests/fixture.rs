//! A small plan with sizes given, as the sizing leaves them.

use crate::catalogue::{Catalogue, Family};
use crate::engine::choose::fuse::protect;
use crate::engine::installation::Installation;
use crate::engine::installation::working::Notes;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::judge::fuse::check;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::starts::Starts;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::result::{FuseDesign, RunDesign, SizeRow};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::{Plan, Run};
use crate::quantity::*;

/// A bench for one plan: change it, then [`Bench::protect`].
pub struct Bench {
    pub plan: Plan,
    pub catalogue: Catalogue,
    /// Steady current of each run.
    pub currents: Vec<f64>,
    /// Largest short current of each run and how long, where it has one.
    pub surges: Vec<Option<(f64, f64)>>,
    /// Size of each run in mm²; zero for none.
    pub sizes: Vec<f64>,
    /// Resistance of the battery in mΩ: least, worst.
    pub battery_mohm: Option<(f64, f64)>,
    /// Its usual resistance in mΩ; the least where it is not said.
    pub likely_mohm: Option<f64>,
    pub charger_a: f64,
}

/// What came out.
pub struct Protected {
    pub runs: Vec<RunDesign>,
    pub findings: Vec<Finding>,
    pub notes: Notes,
}

impl Bench {
    /// A battery of 12 mΩ, a main run of 1 m and 16 mm² to a panel, and a run of 4 m and 4 mm² to a lamp.
    pub fn two_runs() -> Bench {
        let mut bench = Bench::empty();
        bench.add("service battery", "panel", 1.0, 16.0, 30.0);
        bench.add("panel", "lamp", 4.0, 4.0, 8.0);
        bench
    }

    pub fn empty() -> Bench {
        Bench {
            plan: Plan::default(),
            catalogue: Catalogue::embedded().unwrap(),
            currents: Vec::new(),
            surges: Vec::new(),
            sizes: Vec::new(),
            battery_mohm: Some((12.0, 25.0)),
            likely_mohm: None,
            charger_a: 0.0,
        }
    }

    pub fn add(&mut self, from: &str, to: &str, length: f64, mm2: f64, amps: f64) -> &mut Run {
        self.plan.runs.push(Run { from: from.into(), to: to.into(), length: Metres::new(length), ..Run::default() });
        self.currents.push(amps);
        self.surges.push(None);
        self.sizes.push(mm2);
        self.plan.runs.last_mut().unwrap()
    }

    fn bank(&self) -> Option<Bank> {
        let (least, worst) = self.battery_mohm?;
        Some(Bank {
            chemistry: "agm".into(),
            capacity: AmpHours::new(100.0),
            blocks: 1,
            block: AmpHours::new(100.0),
            mass: Kilograms::new(28.0),
            resistance: Ohms::from_milli(least),
            resistance_worst: Ohms::from_milli(worst),
            resistance_fault: Ohms::from_milli(least),
            fault: Volts::new(12.8) / Ohms::from_milli(least),
            resistance_likely: Ohms::from_milli(self.likely_mohm.unwrap_or(least)),
            fault_likely: Volts::new(12.8) / Ohms::from_milli(self.likely_mohm.unwrap_or(least)),
        })
    }

    /// Every metric size with its ampacity in air of 40 °C.
    fn rows(&self, run: &Run) -> Vec<SizeRow> {
        let column = self.catalogue.insulation(&run.insulation).map_or(Celsius::new(60.0), |i| i.column);
        let row = |c: &crate::catalogue::Conductor| {
            Some(SizeRow {
                label: c.label.clone(),
                area: c.area,
                ampacity: self.catalogue.ampacity.base(c.copper(), column)? * 0.9,
                ..SizeRow::default()
            })
        };
        self.catalogue.sizes(Family::Metric).filter_map(row).collect()
    }

    fn designs(&self) -> Vec<RunDesign> {
        let design = |(i, run): (usize, &Run)| {
            let sizes = self.rows(run);
            let current = Amps::new(self.currents[i]);
            let (surge, lasts) = self.surges[i].unwrap_or((self.currents[i], 0.0));
            RunDesign {
                run: i,
                current,
                surge: Amps::new(surge),
                starts: Starts::one(Amps::new(surge), Seconds::new(lasts)),
                air: Celsius::new(40.0),
                size: sizes.iter().find(|s| s.area.get() == self.sizes[i]).cloned(),
                sizes,
                ..RunDesign::default()
            }
        };
        self.plan.runs.iter().enumerate().map(design).collect()
    }

    pub fn protect(&self) -> Protected {
        let site = Installation::of(&self.plan, &self.catalogue);
        let battery = BatteryDesign { bank: self.bank(), ..BatteryDesign::default() };
        let charger = ChargerDesign { current: Some(Amps::new(self.charger_a)), ..ChargerDesign::default() };
        let (mut runs, mut notes) = (self.designs(), Notes::kept());
        let fuses = protect(&site, &battery, &charger, &mut runs, &mut notes);
        let findings = check(&FaultLoops::new(&site, &battery, &charger, &runs), &fuses, &[]);
        Protected { runs, findings, notes }
    }
}

impl Protected {
    pub fn finding(&self, kind: Kind) -> Option<&Finding> {
        self.findings.iter().find(|f| f.kind == kind)
    }

    /// Raised on this run, with a remedy, a rule and a place.
    #[track_caller]
    pub fn raises(&self, kind: Kind, run: usize, severity: Severity) -> &Finding {
        let found = self
            .findings
            .iter()
            .find(|f| f.kind == kind && f.subject == crate::engine::installation::subject::Subject::Run(run));
        let Some(found) = found else { panic!("{kind:?} is not raised: {:#?}", self.findings) };
        assert_eq!(found.severity, severity, "{found:?}");
        assert!(!found.remedies.is_empty(), "{found:?}");
        assert!(!found.rule.is_empty() && found.place.is_some(), "{found:?}");
        assert!(!found.text.contains('–') && !found.text.ends_with('.'), "{found:?}");
        found
    }

    #[track_caller]
    pub fn quiet(&self, kind: Kind) {
        assert_eq!(self.finding(kind), None);
    }

    pub fn fuse(&self, run: usize) -> &FuseDesign {
        &self.runs[run].fuses[0]
    }
}
