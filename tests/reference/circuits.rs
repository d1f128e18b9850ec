//! Whole plans against ngspice, on netlists that a script writes of the plan by a way of its own.
//!
//! The script (`scripts/circuit_of_plan.py`) takes of the program only what was
//! chosen; resistances, warming and topology it has from the publications it
//! names. So this judges the model, while the comparison of generated networks
//! judges the solver. The plans in `data/plans/` have all sizes and fuses given,
//! and their voltages are stored in `data/ngspice/plans.txt`; where `ngspice`
//! and `python3` are at hand they are worked out anew, and those of the example
//! plans too. To store: `LOOMWRIGHT_STORE_NGSPICE=1 cargo test --test reference circuits`.

use crate::check::{Source, check, simulator};
use crate::ngspice::{output, version};
use crate::program::design;
use loomwright::catalogue::Catalogue;
use loomwright::plan::{Run, examples, point, read};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

crate::tests![plans_agree_with_an_independent_netlist];

const SOURCE: Source = simulator("ngspice 39 on netlists written from the plans by scripts/circuit_of_plan.py");
const PLANS: [(&str, &str); 3] = [
    ("mobile-library", include_str!("data/plans/mobile-library.toml")),
    ("seed-drill-cart", include_str!("data/plans/seed-drill-cart.toml")),
    ("pump-skiff", include_str!("data/plans/pump-skiff.toml")),
];
/// Largest difference allowed: 2 mV and 1 % of what is lost on the way from the battery.
const VOLTS: f64 = 0.002;
const SHARE: f64 = 0.01;

pub fn here(file: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference").join(file)
}

/// Voltages by node, worked out now; `None` where the simulator or Python is missing.
fn simulate(text: &str) -> Option<BTreeMap<String, f64>> {
    version()?;
    Command::new("python3").arg("--version").output().ok().filter(|o| o.status.success())?;
    let folder = tempfile::tempdir().unwrap();
    let (plan, report) = (folder.path().join("plan.toml"), folder.path().join("report.json"));
    std::fs::write(&plan, text).unwrap();
    let said = |command: &mut Command| {
        let output = command.output().unwrap();
        let errors = String::from_utf8_lossy(&output.stderr);
        assert!(!output.stdout.is_empty(), "{command:?}: {errors}");
        output.stdout
    };
    let program = Path::new(env!("CARGO_BIN_EXE_loomwright"));
    std::fs::write(&report, said(Command::new(program).args(["report", "--json"]).arg(&plan))).unwrap();
    let script = here("scripts/circuit_of_plan.py");
    let netlist = said(Command::new("python3").arg(script).arg(&plan).arg(&report));
    let found = voltages(&output(&String::from_utf8(netlist).unwrap()));
    assert!(!found.is_empty(), "ngspice printed no voltage");
    Some(found)
}

/// Lines `v(s_panel) = 11.39`.
fn voltages(text: &str) -> BTreeMap<String, f64> {
    let lines = text.lines().filter_map(|l| l.split_once('='));
    let pairs = lines.filter_map(|(name, value)| {
        Some((name.trim().strip_prefix("v(")?.strip_suffix(')')?.to_string(), value.trim().parse().ok()?))
    });
    pairs.collect()
}

/// Stored voltages by plan.
fn stored() -> BTreeMap<String, BTreeMap<String, f64>> {
    let text = std::fs::read_to_string(here("data/ngspice/plans.txt")).unwrap();
    let parts = text.split("plan ").skip(1);
    parts.map(|part| (part.lines().next().unwrap().trim().to_string(), voltages(part))).collect()
}

/// The node of a run's far end: `s_` beyond the service battery, `f_` beyond the starter battery.
fn node(runs: &[Run], run: usize) -> String {
    let (mut from, mut steps) = (runs[run].from.as_str(), 0);
    // The charger is the end of both circuits, so no run is followed back through it.
    while let Some(before) = runs.iter().find(|r| r.to == from && from != point::CHARGER && steps < 99) {
        (from, steps) = (&before.from, steps + 1);
    }
    let side = if from == point::STARTER_BATTERY { "f_" } else { "s_" };
    let plain = |c: char| if c.is_ascii_lowercase() || c.is_ascii_digit() { c } else { '_' };
    side.to_string() + &runs[run].to.to_lowercase().chars().map(plain).collect::<String>()
}

fn compare(name: &str, text: &str, catalogue: &Catalogue, answers: &BTreeMap<String, f64>) {
    let plan = read(text, catalogue).plan;
    let design = design(&plan, catalogue);
    let runs = &design.installation.runs;
    let posts = |run: usize| {
        let side = &node(runs, run)[..2];
        let first = (0..runs.len()).find(|n| node(runs, *n).starts_with(side) && runs[*n].from.contains("battery"));
        design.runs[first.unwrap()].settled.near.get()
    };
    for (n, run) in design.runs.iter().enumerate() {
        let (node, got) = (node(runs, n), run.settled.far.get());
        let lost = posts(n) - got;
        check(SOURCE, &format!("{name}, R{}, {node}, V", n + 1), answers[&node], got, VOLTS + SHARE * lost.abs());
    }
}

fn plans_agree_with_an_independent_netlist() {
    let catalogue = Catalogue::embedded().unwrap();
    let (mut text, stored) = (String::new(), stored());
    let storing = std::env::var_os("LOOMWRIGHT_STORE_NGSPICE").is_some();
    for (name, plan) in PLANS {
        // What is about to be stored anew need not agree with what stood there.
        if !storing {
            compare(name, plan, &catalogue, &stored[name]);
        }
        let Some(now) = simulate(plan) else { continue };
        compare(name, plan, &catalogue, &now);
        writeln!(text, "plan {name}").unwrap();
        now.iter().for_each(|(node, volts)| writeln!(text, "v({node}) = {volts:.6}").unwrap());
    }
    if let Some(version) = version().filter(|_| storing) {
        let head = format!(
            "# Voltages by {version} (Debian package ngspice) of the plans in data/plans, netlists by scripts/circuit_of_plan.py\n"
        );
        std::fs::write(here("data/ngspice/plans.txt"), head + &text).unwrap();
    }
    for example in examples() {
        if let Some(now) = simulate(example.text) {
            compare(example.name, example.text, &catalogue, &now);
        }
    }
}
