//! Whole plans with leads, returns and body against ngspice, every conductor by itself.
//!
//! The program counts a loop for each run, out and back; the script
//! (`scripts/whole_circuit.py`) writes plus and minus as two conductors that meet
//! at the boards, and the body as a third. Twenty generated plans agree to 0.1 mV
//! at every point where a run by the body has only cables behind it. Elsewhere the
//! current of a lead by the body does not come back through its board's return, as
//! the loops count it: there the program never gives a load more than the circuit does.
//! Without `ngspice` and `python3` nothing is compared, and the test says so.

use crate::check::{Source, check, check_at_most, simulator};
use crate::circuits::here;
use crate::generated_boards::boards;
use crate::ngspice::{output, version};
use crate::program::design;
use loomwright::catalogue::Catalogue;
use loomwright::plan::read;
use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

crate::tests![each_conductor_by_itself_agrees];

const SOURCE: Source = simulator("ngspice 39 on netlists of both conductors and the body, by scripts/whole_circuit.py");
const VOLTS: f64 = 1e-4;

fn each_conductor_by_itself_agrees() {
    let python = Command::new("python3").arg("--version").output().is_ok_and(|o| o.status.success());
    if version().is_none() || !python {
        eprintln!("ngspice or python3 is not here: no whole circuit was compared");
        return;
    }
    let catalogue = Catalogue::embedded().unwrap();
    let (mut worst, mut points) = (0.0f64, 0);
    for seed in 0..20 {
        compare(&format!("plan {seed}"), &boards(seed, false), &catalogue, |what, volts, got| {
            check(SOURCE, what, volts, got, VOLTS);
            (worst, points) = (worst.max((volts - got).abs()), points + 1);
        });
    }
    eprintln!("20 plans, {points} points, every conductor by itself against ngspice: worst {worst:.1e} V");
    for seed in 20..25 {
        compare(&format!("mixed plan {seed}"), &boards(seed, true), &catalogue, |what, volts, got| {
            check_at_most(SOURCE, what, volts + VOLTS, got);
        });
    }
}

fn compare(name: &str, text: &str, catalogue: &Catalogue, mut agree: impl FnMut(&str, f64, f64)) {
    let plan = read(text, catalogue);
    assert_eq!(plan.problems, [], "{name}:\n{text}");
    let design = design(&plan.plan, catalogue);
    let volts = simulate(text);
    let branches = &design.installation.circuits.branches;
    assert!(branches.len() >= 4, "{name}");
    for branch in branches {
        let got = design.runs[branch.run].settled.far.get();
        let plain = |c: char| if c.is_ascii_lowercase() || c.is_ascii_digit() { c } else { '_' };
        let node: String = branch.far.to_lowercase().chars().map(plain).collect();
        agree(&format!("{name}, {}, V", branch.far), volts[&format!("d_{node}")], got);
    }
}

/// Lines `d_panel = 11.39`.
fn simulate(text: &str) -> BTreeMap<String, f64> {
    let folder = tempfile::tempdir().unwrap();
    let (plan, report) = (folder.path().join("plan.toml"), folder.path().join("report.json"));
    std::fs::write(&plan, text).unwrap();
    let said = |command: &mut Command| {
        let output = command.output().unwrap();
        assert!(!output.stdout.is_empty(), "{command:?}: {}", String::from_utf8_lossy(&output.stderr));
        output.stdout
    };
    let program = Path::new(env!("CARGO_BIN_EXE_loomwright"));
    std::fs::write(&report, said(Command::new(program).args(["report", "--json"]).arg(&plan))).unwrap();
    let script = here("scripts/whole_circuit.py");
    let netlist = said(Command::new("python3").arg("-B").arg(script).arg(&plan).arg(&report));
    let found = output(&String::from_utf8(netlist).unwrap());
    let lines = found.lines().filter_map(|l| l.split_once('='));
    lines.filter_map(|(name, value)| Some((name.trim().to_string(), value.trim().parse().ok()?))).collect()
}
