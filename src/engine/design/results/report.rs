//! Results of a whole design.

use super::fact::{Asked, At, Many, One, Thing, Version, facts, many, one};
use super::finding::{Counts, Worked};
use super::pointers::pointers;
use crate::engine::design::Design;
use crate::engine::design::which_fuse::{WhichFuse, which_fuses};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Workings;
use crate::engine::judge::finding::Finding;
use crate::engine::parts::bond::Bond;
use crate::engine::simulate::battery::BySheets;
use crate::engine::simulate::battery::{BatteryDesign, NearBank};
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::levels::Levels;
use crate::engine::simulate::circuit::result::{CopperDesign, Device, LoadSupply, RunDesign};
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::engine::simulate::hold_down::result::{CarrierDesign, MountedDesign};
use crate::engine::simulate::promise::Promise;
use crate::engine::simulate::standing::Standing;
use crate::engine::simulate::test_sheet::result::TestSheet;

/// All workings of an answer, where they are asked for.
pub fn workings<T: Thing>(answer: &T, all: fn(&T) -> &Workings, at: &At<'_>) -> Asked<Many<Worked>> {
    let worked = || {
        let mut results = pointers(answer, at);
        let worked = all(answer).iter().map(|(topic, working)| Worked {
            topic: topic.clone(),
            working: working.clone(),
            results: results.remove(topic).unwrap_or_default(),
        });
        worked.collect::<Vec<_>>()
    };
    Asked(at.workings.then(|| many(&worked(), at)))
}

facts! { Design, "report", "what `report --json` prints: the whole design of a plan", |_, _| Subject::Plan;
    VERSION: Version = "version", "Version", "grows when a name goes or changes its meaning", |_, _| Version;
    TITLE: String = "title", "Title", "title of the plan", |_, at| at.site.title.clone();
    COUNTS: One<Counts> = "counts", "Findings", "how many findings of each severity", |d, at| one(&Counts::of(&d.findings), at);
    FINDINGS: Many<Finding> = "findings", "Findings", "worst first", |d, at| many(&d.findings, at);
    BUDGET: One<Budget> = "budget", "Energy budget", "a day's energy", |d, at| one(&d.budget, at);
    BATTERY: One<BatteryDesign> = "battery", "Service battery", "the service battery", |d, at| one(&d.battery, at);
    NEAR_BANKS: Many<NearBank> = "near_banks", "Smaller banks", "smaller banks of equal blocks that nearly last the days without charge; none where the bank is given", |d, at| many(d.near_banks(), at);
    BY_SHEETS: Option<One<BySheets>> = "by_sheets", "By cell sheets", "what they say at a high current, where that is more than the model that sizes; null where they do not", |d, at| d.by_sheets().map(|s| one(s, at));
    CHARGER: One<ChargerDesign> = "charger", "Charging", "the charger and its bounds", |d, at| one(&d.charger, at);
    COPPER: One<CopperDesign> = "copper", "Copper", "copper of all runs", |d, at| one(&d.copper, at);
    RUNS: Many<RunDesign> = "runs", "Runs", "one for each run, in the plan's order", |d, at| many(&d.runs, at);
    WHICH_FUSES: Many<WhichFuse> = "which_fuses", "Which fuse", "why each device is the one it is", |d, at| many(&which_fuses(d), at);
    BOND: One<Bond> = "bond", "Bond to the body", "the conductor from the service battery's minus to the body", |d, at| one(&d.bond, at);
    LOADS: Many<LoadSupply> = "loads", "Loads", "what each load gets, in the plan's order", |d, at| many(&d.loads, at);
    DEVICES: Many<Device> = "devices", "Devices", "what draws or feeds besides the loads", |d, at| many(&d.devices, at);
    SOURCES: One<Levels> = "sources", "Sources", "the voltages that feed the circuit", |d, at| one(&d.levels, at);
    CUT_OFF: One<CutOffDesign> = "cut_off", "Cut-off", "the low-voltage disconnect", |d, at| one(&d.cut_off, at);
    PROMISE: One<Promise> = "promise", "Promise", "the days without charge and the usual week, tried with these very settings", |d, at| one(&d.promise, at);
    STANDING: Option<One<Standing>> = "standing", "Left standing", "the service battery without use; null without a bank", |d, at| d.standing.as_ref().map(|s| one(s, at));
    CARRIER: Option<One<CarrierDesign>> = "hold_down", "Hold-down", "what holds the battery; null when none is planned", |d, at| d.carrier.as_ref().map(|c| one(c, at));
    MOUNTED: Many<MountedDesign> = "mounted", "Mounted devices", "charger and cut-off that hang by the battery, with a hold-down or without", |d, at| many(&d.mounted, at);
    TEST_SHEET: One<TestSheet> = "test_sheet", "Test sheet", "what the finished wiring should measure", |d, at| one(d.test_sheet(), at);
    WORKINGS: Asked<Many<Worked>> = "workings", "Workings", "with --workings: how each number came about", |d, at| workings(d, Design::workings, at);
}
