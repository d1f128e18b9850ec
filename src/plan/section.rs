//! The sections of a plan file and places in it.

use super::carrier::Stud;
use super::load::Load;
use super::model::Plan;
use super::price::Price;
use super::reading::Reading;
use super::run::Run;

/// A table of the plan file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum Section {
    /// The keys above the first table.
    Job,
    Surroundings,
    Vehicle,
    StarterBattery,
    ServiceBattery,
    Charger,
    CutOff,
    Solar,
    Mains,
    Inverter,
    Carrier,
    Meter,
    Rules,
    Load,
    Run,
    Stud,
    Reading,
    Price,
}

impl Section {
    /// All sections, in the order a new file is written.
    pub const ALL: &'static [Section] = &[
        Section::Job,
        Section::Surroundings,
        Section::Vehicle,
        Section::StarterBattery,
        Section::ServiceBattery,
        Section::Charger,
        Section::CutOff,
        Section::Solar,
        Section::Mains,
        Section::Inverter,
        Section::Carrier,
        Section::Meter,
        Section::Rules,
        Section::Load,
        Section::Run,
        Section::Stud,
        Section::Reading,
        Section::Price,
    ];

    /// Name of the table in the file; empty for the keys above the first table.
    pub fn key(self) -> &'static str {
        match self {
            Section::Job => "",
            Section::Surroundings => "surroundings",
            Section::Vehicle => "vehicle",
            Section::StarterBattery => "starter_battery",
            Section::ServiceBattery => "service_battery",
            Section::Charger => "charger",
            Section::CutOff => "cut_off",
            Section::Solar => "solar",
            Section::Mains => "mains",
            Section::Inverter => "inverter",
            Section::Carrier => "carrier",
            Section::Meter => "meter",
            Section::Rules => "rules",
            Section::Load => "load",
            Section::Run => "run",
            Section::Stud => "stud",
            Section::Reading => "reading",
            Section::Price => "price",
        }
    }

    /// Title for people.
    pub fn title(self) -> &'static str {
        match self {
            Section::Job => "Job",
            Section::Surroundings => "Surroundings",
            Section::Vehicle => "Vehicle",
            Section::StarterBattery => "Starter battery",
            Section::ServiceBattery => "Service battery",
            Section::Charger => "Charger",
            Section::CutOff => "Cut-off",
            Section::Solar => "Solar",
            Section::Mains => "Mains charger",
            Section::Inverter => "Inverter",
            Section::Carrier => "Carrier",
            Section::Meter => "Meter",
            Section::Rules => "Rules",
            Section::Load => "Load",
            Section::Run => "Run",
            Section::Stud => "Stud",
            Section::Reading => "Reading",
            Section::Price => "Price",
        }
    }

    /// Whether there may be many (`[[load]]`).
    pub fn is_list(self) -> bool {
        matches!(self, Section::Load | Section::Run | Section::Stud | Section::Reading | Section::Price)
    }

    /// The section of a table name.
    pub fn from_key(key: &str) -> Option<Section> {
        Section::ALL.iter().copied().find(|s| s.key() == key && *s != Section::Job)
    }

    /// How many of it a plan has; 1 for the sections that are no lists.
    pub fn count(self, plan: &Plan) -> usize {
        match self {
            Section::Load => plan.loads.len(),
            Section::Run => plan.runs.len(),
            Section::Stud => plan.studs.len(),
            Section::Reading => plan.readings.len(),
            Section::Price => plan.prices.len(),
            _ => 1,
        }
    }

    /// Append an empty item to a list.
    pub(super) fn grow(self, plan: &mut Plan) {
        match self {
            Section::Load => plan.loads.push(Load::default()),
            Section::Run => plan.runs.push(Run::default()),
            Section::Stud => plan.studs.push(Stud::default()),
            Section::Reading => plan.readings.push(Reading::default()),
            Section::Price => plan.prices.push(Price::default()),
            _ => {}
        }
    }
}

/// One field of one item: where an error is, where a remedy goes, where the cursor stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Place {
    /// Which table.
    pub section: Section,
    /// Which item of a list; 0 elsewhere.
    pub index: usize,
    /// Which key, dotted for nested ones (`duty.share_on`).
    pub key: &'static str,
}

impl Place {
    /// A field of a section that is no list.
    pub const fn of(section: Section, key: &'static str) -> Self {
        Place { section, index: 0, key }
    }
    /// A field of the load with this index.
    pub const fn load(index: usize, key: &'static str) -> Self {
        Place { section: Section::Load, index, key }
    }
    /// A field of the run with this index.
    pub const fn run(index: usize, key: &'static str) -> Self {
        Place { section: Section::Run, index, key }
    }
}
