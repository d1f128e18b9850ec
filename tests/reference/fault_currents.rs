//! Fault currents with the fuse-links upstream, against ngspice.
//!
//! 20 generated plans, two faults for each device: a dead short at its own place, everything cold, the links before it
//! counted; and one at the far end of what it protects, everything as hot as its insulation stands, links and holders
//! warm. The netlist is the whole tree from copper at 20 °C by the linear law of IEC 60228, with the links as resistors
//! of their own; each fault is a copy of the tree with one point shorted. Only the battery's voltage and resistance are
//! the program's. Sources that limit themselves are left out, since the program adds what they give without dividing it.
//! Where ngspice is not at hand nothing is compared, and the test says so.

use crate::check::{Source, check_share, simulator};
use crate::generated_plan::plan;
use crate::ngspice::{output, version};
use crate::program::{Design, Subject, design};
use loomwright::catalogue::Catalogue;
use loomwright::plan::{ChargerKind, ReturnPath};
use loomwright::quantity::*;
use std::fmt::Write as _;

crate::tests![fault_currents_with_links_upstream];

const SOURCE: Source = simulator("ngspice 39, dead shorts in generated plans with the fuse-links upstream");
/// Of the fault current.
const SHARE: f64 = 0.01;

/// 1 + 0.00393 (θ - 20 °C), IEC 60228.
fn warm(at_20: f64, celsius: f64) -> f64 {
    at_20 * (1.0 + 0.00393 * (celsius - 20.0))
}

/// The resistances of one branch: its own link, and all else.
struct Piece {
    link: f64,
    way: f64,
}

fn piece(design: &Design, catalogue: &Catalogue, branch: usize, hot: bool) -> Piece {
    let index = design.installation.circuits.branches[branch].run;
    let (run, shown) = (&design.installation.runs[index], &design.runs[index]);
    let size = shown.size.as_ref().unwrap();
    let ways = if run.return_path == ReturnPath::Cable { 2.0 } else { 1.0 };
    let copper = (catalogue.conductor(&size.label).unwrap().resistance * (run.length * ways)).get();
    let celsius = match hot {
        true => catalogue.insulation(&run.insulation).unwrap().max.get(),
        false => design.installation.surroundings.coldest.get(),
    };
    let near = shown.fuses.iter().find(|f| !f.far_end);
    let link = near.map_or(0.0, |f| {
        let style = catalogue.fuse_style(&f.style).unwrap();
        let volts = if hot { style.drop_at_rating } else { style.cold };
        (volts / f.rating.unwrap()).get()
    });
    Piece { link, way: warm(copper, celsius) + size.made_of.joints.get() + size.made_of.contacts.get() }
}

/// A resistor; a wire where it has none.
fn resistor(out: &mut String, name: &str, a: &str, b: &str, ohms: f64) {
    match ohms > 0.0 {
        true => writeln!(out, "r{name} {a} {b} {ohms:e}").unwrap(),
        false => writeln!(out, "vw{name} {a} {b} dc 0").unwrap(),
    }
}

/// A copy of the tree with one point shorted: the near end of a branch, or its far end.
fn shorted(out: &mut String, n: usize, pieces: &[Piece], parents: &[Option<usize>], source: (f64, f64), at: &str) {
    writeln!(out, "ve{n} e{n} 0 dc {:e}", source.0).unwrap();
    resistor(out, &format!("i{n}"), &format!("e{n}"), &format!("t{n}"), source.1);
    for (branch, piece) in pieces.iter().enumerate() {
        let near = parents[branch].map_or_else(|| format!("t{n}"), |p| format!("f{n}_{p}"));
        resistor(out, &format!("l{n}_{branch}"), &near, &format!("m{n}_{branch}"), piece.link);
        resistor(out, &format!("c{n}_{branch}"), &format!("m{n}_{branch}"), &format!("f{n}_{branch}"), piece.way);
    }
    writeln!(out, "vs{n} {at} 0 dc 0").unwrap();
}

/// A run and what lies beyond it without a fuse of its own.
fn zone(design: &Design, branch: usize) -> Vec<usize> {
    let (branches, runs) = (&design.installation.circuits.branches, &design.installation.runs);
    let mut zone = vec![branch];
    let mut next = 0;
    while let Some(&b) = zone.get(next) {
        zone.extend(branches[b].children.iter().filter(|&&c| !runs[branches[c].run].own_fuse));
        next += 1;
    }
    zone
}

fn fault_currents_with_links_upstream() {
    let Some(_) = version() else {
        println!("ngspice is not at hand: fault currents with links upstream were not compared");
        return;
    };
    let catalogue = Catalogue::embedded().unwrap();
    let (mut plans, mut faults, mut with_links) = (0, 0, 0);
    for seed in 700.. {
        if plans == 20 {
            break;
        }
        let mut plan = plan(seed, 4 + seed as usize % 7, false, &catalogue);
        plan.charger.kind = ChargerKind::None;
        plan.vehicle.alternator_rating = Amps::ZERO;
        // Under 0.1 mΩ in all the program counts 0.1 mΩ.
        plan.service_battery.capacity = Some(AmpHours::new(60.0 + 15.0 * (seed % 10) as f64));
        let design = design(&plan, &catalogue);
        let whole = |r: &loomwright::engine::RunDesign| {
            r.branch.is_none() || r.size.is_some() && r.fuses.iter().all(|f| f.rating.is_some() && !f.far_end)
        };
        if !design.runs.iter().all(whole) || design.battery.bank.is_none() {
            continue;
        }
        plans += 1;
        let circuits = &design.installation.circuits;
        let parents: Vec<Option<usize>> = circuits.branches.iter().map(|b| b.parent).collect();
        let pieces = |hot: bool| (0..parents.len()).map(|b| piece(&design, &catalogue, b, hot)).collect::<Vec<_>>();
        let (cold, hot) = (pieces(false), pieces(true));
        let mut netlist = String::from("* dead shorts\n");
        // Which copies belong to which fault: what it is, what the program says, and the copies of which the least counts.
        let (mut copies, mut asked): (usize, Vec<(String, f64, Vec<usize>)>) = (0, Vec::new());
        for (branch, b) in circuits.branches.iter().enumerate() {
            let Some(fuse) = design.runs[b.run].fuses.first() else { continue };
            let input = |number: &'static str, symbol: &str| {
                let working = design.workings().get(&Subject::Run(b.run), number).unwrap();
                working.inputs.iter().find(|i| i.symbol == symbol).unwrap().value.value
            };
            let near = |n: usize| b.parent.map_or_else(|| format!("t{n}"), |p| format!("f{n}_{p}"));
            let source = (input("prospective", "E"), input("prospective", "r"));
            assert_eq!(input("prospective", "others"), 0.0);
            shorted(&mut netlist, copies, &cold, &parents, source, &near(copies));
            asked.push((format!("seed {seed}, R{}, at its place", b.run + 1), fuse.prospective.get(), vec![copies]));
            copies += 1;
            let source = (input("far fault", "E"), input("far fault", "r"));
            let ends = zone(&design, branch);
            for end in &ends {
                shorted(&mut netlist, copies, &hot, &parents, source, &format!("f{copies}_{end}"));
                copies += 1;
            }
            let own = (copies - ends.len()..copies).collect();
            asked.push((format!("seed {seed}, R{}, far end", b.run + 1), fuse.far_fault.get(), own));
            with_links += usize::from(circuits.path_of(branch).iter().filter(|p| cold[**p].link > 0.0).count() > 1);
        }
        netlist += ".options reltol=1e-9 abstol=1e-12 vntol=1e-12\n.control\nop\nset numdgt=12\nprint all\n.endc\n.end\n";
        let answer = output(&netlist);
        let amps = |n: usize| {
            let line = answer.lines().find_map(|l| l.trim().strip_prefix(&format!("vs{n}#branch = ")));
            line.and_then(|l| l.trim().parse::<f64>().ok()).unwrap_or_else(|| panic!("no vs{n}:\n{answer}")).abs()
        };
        for (what, got, own) in asked {
            let least = own.into_iter().map(amps).fold(f64::INFINITY, f64::min);
            check_share(SOURCE, &what, least, got, SHARE);
            faults += 1;
        }
    }
    println!("{plans} plans, {faults} faults, {with_links} devices with links upstream");
    assert!(with_links >= 40, "{with_links}");
}
