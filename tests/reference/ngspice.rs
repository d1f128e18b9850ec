//! The network solution against the circuit simulator ngspice (Debian package `ngspice`).
//!
//! 60 generated networks of 2 to 200 branches with loads of every kind, a
//! third of them loaded to 90 to 99.5 % of what they can feed, some with
//! conductor temperature solved by the simulator on a thermal circuit of its
//! own. The program is run when it is there; otherwise the output stored in
//! `data/ngspice/` is read, which names the version that wrote it. Agreement
//! is asked at every point and every branch: 0.1 mV and 0.1 mA, and 0.1 K
//! where temperature is coupled.
//!
//! To store anew: `LOOMWRIGHT_STORE_NGSPICE=1 cargo test --test reference ngspice`.

use crate::check::{Source, check as checked, simulator};
use crate::generated_network::{Recipe, loaded_to, network};
use crate::program::{Network, Warming};
use crate::spice;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

crate::tests![
    every_point_and_branch_agrees_with_ngspice,
    stored_output_still_belongs_to_these_networks,
    networks_cover_every_kind,
];

const NGSPICE: Source = simulator("ngspice 39, generated networks and the networks of the example plans");
const VOLTS: f64 = 1e-4;
const AMPS: f64 = 1e-4;
const KELVINS: f64 = 0.1;

struct Case {
    name: String,
    network: Network,
}

/// The shares of the limit that the networks are loaded to.
const SHARES: [f64; 6] = [0.2, 0.5, 0.75, 0.9, 0.97, 0.995];

fn cases() -> Vec<Case> {
    (0..60u64)
        .map(|seed| {
            let branches = [2, 3, 5, 8, 13, 21, 34, 55, 100, 200][(seed % 10) as usize];
            let share = SHARES[(seed / 10) as usize];
            let recipe = Recipe { seed, branches, warming: seed % 3 == 0, fed_in: seed % 4 == 1 };
            Case { name: format!("{seed}-{branches}-{share}"), network: loaded_to(&network(recipe), share) }
        })
        .collect()
}

impl Case {
    /// Linear warming is solved by ngspice too; held temperatures need no coupling.
    fn netlist(&self) -> String {
        spice::netlist(&self.network, None)
    }
}

/// What ngspice says: voltages of `n0`, `n1`, …; currents of `vm0`, `vm1`, …; rises of `t1`, ….
#[derive(Debug, Default, PartialEq)]
struct Answer {
    volts: Vec<f64>,
    amps: Vec<f64>,
    rises: BTreeMap<usize, f64>,
}

impl Answer {
    /// From the lines `name = value` that `print all` writes.
    fn read(output: &str, branches: usize) -> Option<Self> {
        let mut found: BTreeMap<&str, f64> = BTreeMap::new();
        for line in output.lines() {
            if let Some((name, Ok(value))) = line.split_once('=').map(|(name, value)| (name, value.trim().parse())) {
                found.insert(name.trim(), value);
            }
        }
        let all = |prefix: &str, suffix: &str| {
            (0..=branches)
                .map(|k| found.get(format!("{prefix}{k}{suffix}").as_str()).copied())
                .collect::<Option<Vec<_>>>()
        };
        let rises = (1..=branches).filter_map(|k| Some((k, *found.get(format!("t{k}").as_str())?))).collect();
        Some(Answer { volts: all("n", "")?, amps: all("vm", "#branch")?, rises })
    }
}

/// Version of the ngspice on this machine, or `None`.
pub fn version() -> Option<String> {
    let output = Command::new("ngspice").arg("--version").output().ok()?;
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    text.split_whitespace().find(|word| word.starts_with("ngspice-")).map(str::to_string)
}

/// What ngspice prints for a netlist.
pub fn output(netlist: &str) -> String {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("network.cir");
    std::fs::write(&file, netlist).unwrap();
    let output = Command::new("ngspice").arg("-b").arg(&file).current_dir(folder.path()).output().unwrap();
    let errors = String::from_utf8_lossy(&output.stderr);
    format!("{}\n{errors}", String::from_utf8_lossy(&output.stdout))
}

fn run(netlist: &str, branches: usize) -> Answer {
    let text = output(netlist);
    Answer::read(&text, branches).unwrap_or_else(|| panic!("ngspice has no answer:\n{text}"))
}

fn stored_file() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/data/ngspice/operating_points.txt")
}

/// FNV-1a, so that a stored answer is only ever compared with the netlist it was made from.
pub fn fingerprint(text: &str) -> String {
    let hash = text.bytes().fold(0xcbf2_9ce4_8422_2325u64, |h, b| (h ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3));
    format!("{hash:016x}")
}

fn store(version: &str, answers: &[(String, String, Answer)]) {
    let mut text = format!(
        "# Operating points by {version} (Debian package ngspice) of the generated networks in tests/reference/ngspice.rs.\n\
         # A line each: network and fingerprint of its netlist; v, volts of n0 n1 ...; i, amps of vm0 vm1 ...; t, node:kelvins.\n"
    );
    for (name, print, answer) in answers {
        let join = |values: &[f64]| values.iter().map(|v| format!("{v:.6}")).collect::<Vec<_>>().join(" ");
        let rises: Vec<_> = answer.rises.iter().map(|(k, v)| format!("{k}:{v:.3}")).collect();
        writeln!(
            text,
            "network {name} {print}\nv {}\ni {}\nt {}",
            join(&answer.volts),
            join(&answer.amps),
            rises.join(" ")
        )
        .unwrap();
    }
    std::fs::create_dir_all(stored_file().parent().unwrap()).unwrap();
    std::fs::write(stored_file(), text).unwrap();
}

/// Stored answers by name, with the fingerprint.
fn stored() -> BTreeMap<String, (String, Answer)> {
    let text = std::fs::read_to_string(stored_file()).unwrap();
    let mut answers = BTreeMap::new();
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    let numbers = |line: &str| line[1..].split_whitespace().map(|n| n.parse().unwrap()).collect::<Vec<f64>>();
    while let Some(head) = lines.next() {
        let words: Vec<_> = head.split_whitespace().collect();
        let (volts, amps) = (numbers(lines.next().unwrap()), numbers(lines.next().unwrap()));
        let rises = lines.next().unwrap()[1..].split_whitespace().map(|pair| {
            let (k, rise) = pair.split_once(':').unwrap();
            (k.parse().unwrap(), rise.parse().unwrap())
        });
        let answer = Answer { volts, amps, rises: rises.collect() };
        answers.insert(words[1].to_string(), (words[2].to_string(), answer));
    }
    answers
}

/// The largest differences in V, A and K. Panics where one exceeds what is allowed.
fn compare(case: &Case, answer: &Answer) -> (f64, f64, f64) {
    let ours = case.network.solve().unwrap_or_else(|e| panic!("{}: {e:?}", case.name));
    let mut worst = (0f64, 0f64, 0f64);
    let check = |what: &str, ours: f64, theirs: f64, allowed: f64| {
        checked(NGSPICE, &format!("{}: {what}", case.name), theirs, ours, allowed);
        (ours - theirs).abs()
    };
    assert_eq!(answer.volts.len(), case.network.branches.len() + 1, "{}", case.name);
    worst.0 = worst.0.max(check("terminals", ours.terminals.get(), answer.volts[0], VOLTS));
    worst.1 = worst.1.max(check("source current", ours.current.get(), answer.amps[0], AMPS));
    for (index, state) in ours.branches.iter().enumerate() {
        let k = index + 1;
        worst.0 = worst.0.max(check(&format!("voltage {k}"), state.voltage.get(), answer.volts[k], VOLTS));
        worst.1 = worst.1.max(check(&format!("current {k}"), state.current.get(), answer.amps[k], AMPS));
        if let (Some(rise), Warming::Linear { air, .. }) = (answer.rises.get(&k), &case.network.branches[index].warming)
        {
            worst.2 = worst.2.max(check(&format!("rise {k}"), (state.temperature - *air).get(), *rise, KELVINS));
        }
    }
    worst
}

fn every_point_and_branch_agrees_with_ngspice() {
    let cases = cases();
    let mut worst = (0f64, 0f64, 0f64);
    let mut note = |(v, a, k): (f64, f64, f64)| worst = (worst.0.max(v), worst.1.max(a), worst.2.max(k));
    let from = match version() {
        Some(version) => {
            let mut answers = Vec::new();
            for case in &cases {
                let netlist = case.netlist();
                let answer = run(&netlist, case.network.branches.len());
                note(compare(case, &answer));
                answers.push((case.name.clone(), fingerprint(&netlist), answer));
            }
            if std::env::var_os("LOOMWRIGHT_STORE_NGSPICE").is_some() {
                store(&version, &answers);
            }
            format!("{version}, run now")
        }
        None => {
            note(against_stored(&cases));
            "stored output".to_string()
        }
    };
    println!("{} networks against {from}: worst {:.1e} V, {:.1e} A, {:.1e} K", cases.len(), worst.0, worst.1, worst.2);
}

/// The stored output is checked too when the program is there, so that it can never be out of date.
fn stored_output_still_belongs_to_these_networks() {
    against_stored(&cases());
}

fn against_stored(cases: &[Case]) -> (f64, f64, f64) {
    let stored = stored();
    assert_eq!(stored.len(), cases.len());
    cases.iter().fold((0.0, 0.0, 0.0), |worst, case| {
        let (print, answer) = &stored[&case.name];
        let current = fingerprint(&case.netlist());
        assert_eq!(*print, current, "{}: the stored output is of another netlist; store it anew", case.name);
        let (v, a, k) = compare(case, answer);
        (f64::max(worst.0, v), f64::max(worst.1, a), f64::max(worst.2, k))
    })
}

/// The set covers what it claims: sizes, kinds, temperature, chargers, and nearness to collapse.
fn networks_cover_every_kind() {
    use crate::program::NetworkLoad as Load;
    let cases = cases();
    let loads: Vec<Load> = cases.iter().flat_map(|c| &c.network.branches).flat_map(|b| b.loads.clone()).collect();
    let some = |kind: fn(&Load) -> bool| loads.iter().filter(|load| kind(load)).count() > 20;
    assert!(some(|l| matches!(l, Load::Power(_))) && some(|l| matches!(l, Load::Resistance { .. })));
    assert!(some(|l| matches!(l, Load::Current(i) if i.get() > 0.0)));
    assert!(some(|l| matches!(l, Load::Current(i) if i.get() < 0.0)));
    let near = cases.iter().filter(|case| {
        let more = crate::generated_network::scaled(&case.network, 1.12);
        more.solve().is_err()
    });
    assert!(near.count() >= 15, "networks that collapse with 12 % more load");
    assert!(cases.len() >= 50);
}
