//! The netlist that the papers have, solved by ngspice, gives the voltages of the report.
//!
//! Twenty generated plans and the examples, every point to 0.1 mV. Without `ngspice` nothing is
//! compared, and the test says so.

use crate::check::{Source, check, simulator};
use crate::generated_boards::boards;
use crate::ngspice::{output, version};
use crate::program::design;
use loomwright::catalogue::Catalogue;
use loomwright::papers::{Job, Look, Stamp, bundle};
use loomwright::plan::{examples, read};
use std::collections::BTreeMap;

crate::tests![the_papers_netlist_gives_the_reports_voltages];

const SOURCE: Source = simulator("ngspice 39 on the netlist that is written with the papers");
const VOLTS: f64 = 1e-4;

fn the_papers_netlist_gives_the_reports_voltages() {
    if version().is_none() {
        eprintln!("ngspice is not here: no netlist of the papers was solved");
        return;
    }
    let catalogue = Catalogue::embedded().unwrap();
    let generated = (0..20).map(|seed| (format!("plan {seed}"), boards(seed, seed % 4 == 0)));
    let plans = examples().iter().map(|e| (e.name.to_string(), e.text.to_string())).chain(generated);
    let (mut worst, mut points) = (0.0f64, 0);
    for (name, text) in plans {
        let plan = read(&text, &catalogue).plan;
        let design = design(&plan, &catalogue);
        let job = Job { plan: &plan, catalogue: &catalogue, design: &design, beside: &[] };
        let files = bundle(&job, &Look::default(), &Stamp::default());
        let netlist = files.iter().find(|f| f.name == "circuit.cir").unwrap();
        let said = output(netlist.text());
        let found: BTreeMap<&str, f64> = said
            .lines()
            .filter_map(|l| l.split_once('='))
            .filter_map(|(n, v)| Some((n.trim(), v.trim().parse().ok()?)))
            .collect();
        for (n, branch) in design.installation.circuits.branches.iter().enumerate() {
            let volts = *found.get(format!("n{}", n + 1).as_str()).unwrap_or_else(|| panic!("{name}: {said}"));
            let got = design.runs[branch.run].settled.far.get();
            check(SOURCE, &format!("{name}, {}, V", branch.far), volts, got, VOLTS);
            (worst, points) = (worst.max((volts - got).abs()), points + 1);
        }
    }
    eprintln!("{points} points of the papers' netlists by ngspice: worst {worst:.1e} V");
}
