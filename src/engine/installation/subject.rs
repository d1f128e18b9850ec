//! What a finding or a working is about.

use crate::engine::installation::number::run_number;
use crate::plan::Run;

/// A thing in the plan or the design. Loads and runs by their index.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Subject {
    Plan,
    Budget,
    Load(usize),
    ServiceBattery,
    /// A chemistry as a candidate, by its key.
    Candidate(String),
    Charger,
    Alternator,
    StarterBattery,
    Solar,
    Mains,
    Inverter,
    CutOff,
    Run(usize),
    /// A size as a candidate for a run: run, conductor label.
    Size(usize, String),
    Point(String),
    Bond,
    MainSwitch,
    Carrier,
    Endurance,
    TestSheet,
}

impl Subject {
    /// In words, by the names of the loads, and the runs with their numbers.
    pub(crate) fn named(&self, load: impl Fn(usize) -> Option<String>, runs: &[Run]) -> String {
        match self {
            Subject::Plan => "plan".into(),
            Subject::Budget => "daily budget".into(),
            Subject::Load(i) => load(*i).unwrap_or_else(|| format!("load {}", i + 1)),
            Subject::ServiceBattery => "service battery".into(),
            Subject::Candidate(key) => format!("service battery as {key}"),
            Subject::Charger => "charger".into(),
            Subject::Alternator => "alternator".into(),
            Subject::StarterBattery => "starter battery".into(),
            Subject::Solar => "solar".into(),
            Subject::Mains => "mains charger".into(),
            Subject::Inverter => "inverter".into(),
            Subject::CutOff => "cut-off".into(),
            Subject::Run(i) => run_name(runs, *i),
            Subject::Size(i, label) => format!("{} in {label}", run_name(runs, *i)),
            Subject::Point(name) => format!("point `{name}`"),
            Subject::Bond => "bond to the body".into(),
            Subject::MainSwitch => "main switch".into(),
            Subject::Carrier => "hold-down".into(),
            Subject::Endurance => "days of use".into(),
            Subject::TestSheet => "test sheet".into(),
        }
    }
}

/// `R3 cut-off → rear panel`, or the run's own name.
pub fn run_name(runs: &[Run], index: usize) -> String {
    let number = run_number(runs, index);
    match runs.get(index) {
        Some(run) if !run.name.is_empty() => format!("{number} {}", run.name),
        Some(run) => format!("{number} {} → {}", run.from, run.to),
        None => number,
    }
}
