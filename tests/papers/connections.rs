//! The circuit, written back from the connection table as a builder has it, is that of the plan.
//!
//! Reads the CSV alone: wires with two ends, devices between terminals, bars whose studs are one point and
//! a body that is one. What it finds is compared with the runs, leads and loads of the plan, and with the sizes and fuses of the design.

use crate::generated_boards::boards;
use crate::generated_everything::everything;
use crate::generated_many::plans;
use crate::generated_plan::plan as generated;
use crate::plans::{CATALOGUE, all_examples, designed};
use loomwright::engine::{Design, control_wires, design};
use loomwright::papers::{Job, Look, Stamp, bundle};
use loomwright::plan::{Plan, ReturnPath};
use std::collections::{BTreeMap, BTreeSet};

pub type Row = BTreeMap<String, String>;

/// One conductor of a run, laid out.
struct Chain {
    ends: BTreeSet<String>,
    metres: f64,
    sizes: BTreeSet<String>,
    fuses: Vec<String>,
}

/// A table of the papers as CSV.
pub fn rows(files: &BTreeMap<String, String>, name: &str) -> Vec<Row> {
    let Some(text) = files.get(&format!("csv/{name}.csv")) else { return Vec::new() };
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let heads: Vec<String> = reader.headers().unwrap().iter().map(String::from).collect();
    let row = |r: csv::StringRecord| heads.iter().cloned().zip(r.iter().map(String::from)).collect();
    reader.records().map(|r| row(r.unwrap())).collect()
}

/// What joins two terminals.
struct Edge {
    name: String,
    ends: [String; 2],
    metres: f64,
    size: String,
    wire: bool,
}

/// The circuit as the table tells it.
struct Circuit {
    edges: Vec<Edge>,
    /// Name, plus and minus of loads and sources.
    hanging: Vec<(String, String, String)>,
}

/// All studs of a bar are one point, and all points of the body.
fn node(terminal: &str) -> String {
    if terminal.starts_with("body by the ") {
        return "body".into();
    }
    match terminal.rsplit_once(" stud ") {
        Some((bar, _)) => bar.into(),
        None => terminal
            .strip_prefix("negative bar")
            .map_or(terminal.into(), |_| terminal.trim_end_matches(" minus").into()),
    }
}

fn circuit(plan: &Plan, design: &Design) -> Circuit {
    let job = Job { plan, catalogue: &CATALOGUE, design, beside: &[] };
    let files = bundle(&job, &Look::default(), &Stamp::default())
        .into_iter()
        .map(|f| (f.name.clone(), f.text().to_string()))
        .collect();
    let mut circuit = Circuit { edges: Vec::new(), hanging: Vec::new() };
    let signals: Vec<&str> = control_wires(design).iter().map(|w| w.name).collect();
    let told = rows(&files, "connections");
    for wire in control_wires(design) {
        let row = told.iter().find(|r| r["wire"] == wire.name).unwrap_or_else(|| panic!("no {} wire", wire.name));
        assert!(row["from"].starts_with(&wire.from) && row["to"] == wire.to, "{row:?}");
    }
    for row in told.into_iter().filter(|r| !signals.contains(&r["wire"].as_str())) {
        let end = |side: &str| node(&row[side]);
        circuit.edges.push(Edge {
            name: row["wire"].clone(),
            ends: [end("from"), end("to")],
            metres: row["length_m"].parse().unwrap(),
            size: row["size"].clone(),
            wire: true,
        });
    }
    for row in rows(&files, "joints") {
        let ends = [node(&row["from"]), node(&row["to"])];
        match row["joins"].as_str() {
            "closes" | "vehicle's own" => {
                circuit.edges.push(Edge {
                    name: row["joint"].clone(),
                    ends,
                    metres: 0.0,
                    size: row["what"].clone(),
                    wire: false,
                });
            }
            _ => {
                let last = if row["third"].is_empty() { &row["to"] } else { &row["third"] };
                circuit.hanging.push((row["joint"].clone(), ends[0].clone(), node(last)));
            }
        }
    }
    circuit
}

impl Circuit {
    /// All that hangs together with these nodes over such edges.
    fn reached(&self, from: &[&str], over: impl Fn(&Edge) -> bool) -> BTreeSet<String> {
        let mut reached: BTreeSet<String> = from.iter().map(ToString::to_string).collect();
        loop {
            let before = reached.len();
            for edge in self.edges.iter().filter(|e| over(e)) {
                if edge.ends.iter().any(|end| reached.contains(end)) {
                    reached.extend(edge.ends.iter().cloned());
                }
            }
            if reached.len() == before {
                return reached;
            }
        }
    }

    /// All that hangs together with a node once one thing is taken away.
    fn without(&self, name: &str, from: &[&str]) -> BTreeSet<String> {
        self.reached(from, |e| e.wire || e.name != name)
    }

    /// The wires and fuses of one conductor of a run.
    fn chain(&self, number: &str, sign: &str) -> Option<Chain> {
        let stem = format!("{number} {sign}");
        let digits = &number[1..];
        let own = [format!("F{digits}"), format!("F{digits}b"), format!("way of {number}")];
        // A device sits in the conductor whose wire ends on it.
        let ends_of: BTreeSet<&String> =
            self.edges.iter().filter(|e| e.wire && of(&e.name, &stem)).flat_map(|e| &e.ends).collect();
        let mine = |e: &&Edge| {
            if e.wire {
                of(&e.name, &stem)
            } else {
                own.contains(&e.name) && e.ends.iter().any(|end| ends_of.contains(end))
            }
        };
        let edges: Vec<&Edge> = self.edges.iter().filter(mine).collect();
        let mut degree: BTreeMap<&String, usize> = BTreeMap::new();
        edges.iter().flat_map(|e| &e.ends).for_each(|end| *degree.entry(end).or_default() += 1);
        assert!(degree.values().all(|d| *d <= 2), "{stem} is no chain: {degree:?}");
        let ends: BTreeSet<String> = degree.iter().filter(|(_, d)| **d == 1).map(|(end, _)| (*end).clone()).collect();
        let metres: f64 = edges.iter().map(|e| e.metres).sum();
        let sizes: BTreeSet<String> = edges.iter().filter(|e| e.wire).map(|e| e.size.clone()).collect();
        let fuses: Vec<String> = edges.iter().filter(|e| e.name.starts_with('F')).map(|e| e.size.clone()).collect();
        (!edges.is_empty()).then_some(Chain { ends, metres, sizes, fuses })
    }
}

/// Whether a wire is a piece of this conductor.
fn of(wire: &str, stem: &str) -> bool {
    wire == stem || wire.strip_prefix(stem).is_some_and(|rest| rest.starts_with(' '))
}

/// The point of a terminal: what stands before its mark.
fn point(terminal: &str) -> &str {
    let plain = terminal.strip_prefix("negative bar at ").unwrap_or(terminal);
    let way = plain.rsplit_once(" way ").map(|(point, _)| point);
    let minus = plain
        .trim_end_matches(" minus")
        .trim_end_matches(" plus")
        .trim_end_matches(" IN")
        .trim_end_matches(" OUT")
        .trim_end_matches(" earth");
    way.unwrap_or(minus)
}

fn compare(name: &str, plan: &Plan, design: &Design) {
    let circuit = circuit(plan, design);
    let site = &design.installation;
    let mut runs = 0;
    for run in design.runs.iter().filter(|r| r.size.is_some() && !site.is_way(r.run)) {
        let planned = &site.runs[run.run];
        let size = &run.size.as_ref().unwrap().label;
        let near = site.circuits.branch_of(run.run).map_or(&planned.from, |b| &b.near);
        let far = if near == &planned.from { &planned.to } else { &planned.from };
        let at = |terminal: &String| point(terminal).to_string();
        let number = site.run_number(run.run);
        let what = format!("{name}: {number}");
        let Chain { ends, metres, sizes, fuses } =
            circuit.chain(&number, "+").unwrap_or_else(|| panic!("{what} is not there"));
        let points: BTreeSet<String> = ends.iter().map(at).collect();
        // What begins behind a shared way, or behind the main switch, begins at that.
        let behind = |p: &String| {
            (p == "main switch" && site.main_switch.at == *near) || p.starts_with('F') && near.contains(": ")
        };
        let expected = BTreeSet::from([site.board_of(near).to_string(), far.clone()]);
        let same = points == expected || points.contains(far) && points.iter().any(behind);
        assert!(same, "{what}: from {ends:?}, planned {expected:?}");
        assert!((metres - planned.length.get()).abs() < 1e-5 * metres.max(1.0), "{what}: {metres} m");
        assert_eq!(sizes, BTreeSet::from([size.clone()]), "{what}");
        let rated =
            |f: &loomwright::engine::FuseDesign| f.rating.map_or("none fits: see findings".into(), |r| r.to_string());
        let expected: BTreeSet<String> = run.fuses.iter().map(|f| format!("{}, {}", rated(f), f.style_name)).collect();
        let back = circuit.chain(&number, "–").unwrap_or_else(|| panic!("{what}: no way back"));
        let (here, there) = if planned.fuse_in_minus { (&back.fuses, &fuses) } else { (&fuses, &back.fuses) };
        assert_eq!(here.iter().cloned().collect::<BTreeSet<_>>(), expected, "{what}");
        assert_eq!((here.len(), there.len()), (run.fuses.len(), 0), "{what}");
        let Chain { ends, metres, sizes, .. } = back;
        let points: BTreeSet<String> = ends.iter().map(at).collect();
        let cable = planned.return_path == ReturnPath::Cable;
        let back = if cable { site.board_of(near).to_string() } else { "body".into() };
        let switched = points.contains("main switch") && site.main_switch.at == back;
        let sensed = points.contains("body") && back == "starter battery";
        let comes = points.contains(&back) || switched || sensed;
        assert!(points.contains(far) && comes, "{what} comes back from {points:?}");
        assert!(!cable || (metres - planned.length.get()).abs() < 1e-5 * metres.max(1.0), "{what}: {metres} m back");
        assert_eq!(sizes, BTreeSet::from([size.clone()]), "{what}");
        runs += 1;
    }
    let wires = circuit.edges.iter().filter(|e| e.wire);
    let stems: BTreeSet<&str> = wires.map(|e| e.name.split(' ').next().unwrap()).collect();
    assert_eq!(stems.iter().filter(|s| s.starts_with('R')).count(), runs, "{name}: {stems:?}");
    closes(name, &circuit, design);
    parts(name, &circuit, design);
    blocks(name, &circuit, design);
    panels(name, &circuit, plan, design);
}

/// Whether every cable on the way to a point has a size, so that it is in the table.
fn laid(design: &Design, path: &[usize]) -> bool {
    let site = &design.installation;
    let run = |b: &usize| site.circuits.branches[*b].run;
    path.iter().all(|b| design.runs[run(b)].size.is_some() || site.is_way(run(b)))
}

/// A switch parts what lies beyond it; in the minus only where nothing comes back by the body.
fn parts(name: &str, circuit: &Circuit, design: &Design) {
    let site = &design.installation;
    let main =
        site.main_switch.rating.map(|_| ("main switch", site.main_switch.at.as_str(), site.main_switch.in_minus));
    let cut_off = ("cut-off", "cut-off", site.cut_off.in_minus);
    // The bond joins the body to the minus before any switch.
    let by_body = site.runs.iter().any(|r| r.return_path == ReturnPath::Chassis);
    for (switch, at, in_minus) in main.into_iter().chain([cut_off]) {
        let edge = circuit.edges.iter().find(|e| !e.wire && e.name == switch);
        assert!(edge.is_none_or(|e| e.ends[0] != e.ends[1]), "{name}: {switch} joins one terminal with itself");
        let pole = if in_minus { "minus" } else { "plus" };
        let live = circuit.without(switch, &[&format!("service battery {pole}")]);
        for load in site.loads.iter().filter(|l| !l.inverter && l.count > 0) {
            let Some(path) = site.circuits.to_point.get(&load.at).map(|b| site.circuits.path_of(*b)) else { continue };
            let beyond = path.iter().any(|b| site.circuits.branches[*b].near == at);
            if !beyond || edge.is_none() || !laid(design, &path) || in_minus && by_body {
                continue;
            }
            let (_, plus, minus) = circuit.hanging.iter().find(|h| h.0 == load.name).unwrap();
            let end = if in_minus { minus } else { plus };
            assert!(!live.contains(end), "{name}: {switch} at {at} does not part {}", load.name);
        }
    }
}

/// Blocks in parallel: the way through each has as many links, and each hangs between the bank's posts.
fn blocks(name: &str, circuit: &Circuit, design: &Design) {
    let Some(bank) = design.battery.bank.as_ref().filter(|b| b.blocks > 1) else { return };
    if !design.runs.iter().any(|r| r.size.is_some()) {
        return;
    }
    let far = |from: &str, to: &str| {
        let mut reached = BTreeSet::from([from.to_string()]);
        (0..).find(|_| {
            let found = reached.contains(to);
            let more: Vec<String> = circuit
                .edges
                .iter()
                .filter(|e| e.name.starts_with("link ") && e.ends.iter().any(|end| reached.contains(end)))
                .flat_map(|e| e.ends.clone())
                .collect();
            assert!(found || more.iter().any(|m| !reached.contains(m)), "{name}: {to} hangs on no link");
            reached.extend(more);
            found
        })
    };
    for n in 1..=bank.blocks {
        let (_, plus, minus) = circuit.hanging.iter().find(|h| h.0 == format!("service battery block {n}")).unwrap();
        let ways = far("service battery plus", plus).unwrap() + far("service battery minus", minus).unwrap();
        assert_eq!(ways, bank.blocks - 1, "{name}: block {n}");
    }
}

/// Panels join their controller array side and nothing else, by the cable that is planned.
fn panels(name: &str, circuit: &Circuit, plan: &Plan, design: &Design) {
    if plan.solar.array.get() <= 0.0 {
        return;
    }
    let (_, plus, minus) =
        circuit.hanging.iter().find(|h| h.0 == "panels").unwrap_or_else(|| panic!("{name}: no panels"));
    let Some(cable) = design.charger.array_cable.as_ref().filter(|c| c.size.is_some()) else {
        assert!(plus.contains("array side") && minus.contains("array side"), "{name}: {plus}, {minus}");
        return;
    };
    for (from, pole) in [(plus, "plus"), (minus, "minus")] {
        let reached = circuit.reached(&[from], |_| true);
        assert!(reached.contains(&format!("controller array side {pole}")), "{name}: {reached:?}");
        assert!(!reached.iter().any(|r| r.starts_with("service battery")), "{name}: {reached:?}");
        let own = || circuit.edges.iter().filter(|e| e.wire && e.ends.iter().all(|end| reached.contains(end)));
        assert!((own().map(|e| e.metres).sum::<f64>() - cable.length.get()).abs() < 1e-5, "{name}: {pole}");
        assert!(own().all(|e| Some(&e.size) == cable.size.as_ref()), "{name}: {pole}");
        let device = circuit.edges.iter().find(|e| e.name == "panels device" && reached.contains(&e.ends[0]));
        let rated = cable.device.filter(|_| pole == "plus").map(|a| a.to_string());
        assert_eq!(device.map(|d| d.size.split(',').next().unwrap_or_default().to_string()), rated, "{name}: {pole}");
    }
}

/// Every load hangs between a plus and a minus that reach a battery, and nothing but loads joins plus and minus.
fn closes(name: &str, circuit: &Circuit, design: &Design) {
    let site = &design.installation;
    let plus = circuit.reached(&["service battery plus", "starter battery plus"], |_| true);
    let minus = circuit.reached(&["service battery minus", "starter battery minus"], |_| true);
    assert!(plus.is_disjoint(&minus), "{name}: a wire joins plus and minus");
    for load in site.loads.iter().filter(|l| !l.inverter && l.count > 0) {
        let fed = site.circuits.to_point.get(&load.at).or(site.circuits.to_feed_point.get(&load.at));
        let sized = |b: &usize| {
            design.runs[site.circuits.branches[*b].run].size.is_some() || site.is_way(site.circuits.branches[*b].run)
        };
        if !fed.is_some_and(|b| site.circuits.path_of(*b).iter().all(sized)) {
            continue;
        }
        let (_, p, m) =
            circuit.hanging.iter().find(|h| h.0 == load.name).unwrap_or_else(|| panic!("{name}: no {}", load.name));
        assert!(plus.contains(p) && minus.contains(m), "{name}: {} hangs between {p} and {m}", load.name);
    }
    // Two ways of a board have nothing in common but its bar.
    for fuse in circuit.edges.iter().filter(|e| !e.wire && e.name.starts_with('F') && !e.name.ends_with('b')) {
        let behind = circuit.reached(&[&fuse.ends[1]], |e| e.wire);
        assert!(!behind.contains(&fuse.ends[0]) || fuse.ends[0] == fuse.ends[1], "{name}: {} is bridged", fuse.name);
    }
}

#[test]
fn the_circuit_of_each_example_comes_back_from_its_table() {
    for (name, text) in all_examples() {
        let (plan, design) = designed(text);
        compare(name, &plan, &design);
    }
}

/// A few each run; `LOOMWRIGHT_PLANS=300` tries more.
#[test]
fn the_circuit_of_generated_plans_comes_back_from_their_tables() {
    let draws = plans(6);
    for seed in 0..draws {
        let (plan, design) = designed(&boards(seed, seed % 2 == 0));
        compare(&format!("boards {seed}"), &plan, &design);
        let text = everything(seed);
        println!("# everything {seed}\n{text}");
        let (plan, design) = designed(&text);
        compare(&format!("everything {seed}"), &plan, &design);
        let plan = generated(seed, 4 + seed as usize % 9, seed % 3 == 0, &CATALOGUE);
        compare(&format!("plan {seed}"), &plan, &design_of(&plan));
    }
}

fn design_of(plan: &Plan) -> Design {
    design(plan, &CATALOGUE)
}
