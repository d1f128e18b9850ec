//! The circuit as it was solved, as a netlist in the common SPICE language.
//!
//! One voltage source for each battery, one resistor for each run, out and back, as warm as
//! it gets, with joints, fuse and contacts; and what draws. Whoever doubts the voltages of
//! the report has them worked out by a simulator: `ngspice -b circuit.cir`.

use super::clean::clean;
use super::job::Job;
use crate::engine::physics::network::load::Load as Law;
use crate::engine::simulate::circuit::result::Drawn;
use crate::engine::{Branch, Side};
use crate::quantity::{Quantity, Volts};
use std::fmt::Write;

/// A simulator makes a milliohm of nothing at all; this is nearer to it.
const NO_OHM: f64 = 1e-9;
/// Below this a constant power draws no more, so that the simulator starts at all.
const STARTS: f64 = 1.0;

/// The netlist of a design.
pub fn netlist(job: &Job) -> String {
    let levels = &job.design.levels;
    let mut out = format!(
        "* {}\n* volts, amps, ohms; each run out and back; all loads on that may be on together, batteries at their \
         lowest\n",
        clean(job.title()).replace(['\n', '\r'], " ")
    );
    for (side, volts) in [(Side::Service, levels.lowest), (Side::Feed, levels.feed)] {
        if volts > Volts::ZERO {
            line(&mut out, format!("V{0} {0} 0 dc {1}", post(side), volts.number()), side.battery());
        }
    }
    let branches = &job.design.installation.circuits.branches;
    for (n, branch) in branches.iter().enumerate() {
        let from = branch.parent.map_or_else(|| post(branch.side).to_string(), node);
        let ohms = job.design.runs.get(branch.run).map_or(0.0, |r| r.settled.resistance.number()).max(NO_OHM);
        let number = job.design.installation.run_number(branch.run);
        let start = if branch.side == Side::Service { levels.lowest } else { levels.feed };
        let _ = writeln!(out, ".nodeset v({})={}", node(n), start.number());
        line(&mut out, format!("{number} {from} {} {ohms}", node(n)), &format!("{} to {}", branch.near, branch.far));
    }
    let loads = job.design.installation.loads.iter().zip(&job.design.loads).map(|(l, s)| (&l.name, &l.at, &s.drawn));
    for (n, (name, at, drawn)) in loads.enumerate() {
        draws(&mut out, branches, &format!("L{}", n + 1), at, drawn, name);
    }
    for (n, device) in job.design.devices.iter().enumerate() {
        let words = device.drawn.end.map_or("", |end| end.words());
        draws(&mut out, branches, &format!("D{}", n + 1), &device.at, &device.drawn, words);
    }
    out.push_str(
        ".options reltol=1e-7 abstol=1e-9 vntol=1e-9 itl1=1000\n.control\nop\nset numdgt=12\nprint all\n.endc\n.end\n",
    );
    out
}

/// What draws at a point; of what is off only a remark.
fn draws(out: &mut String, branches: &[Branch], name: &str, at: &str, drawn: &Drawn, words: &str) {
    let Some((law, side)) = drawn.law.zip(drawn.side) else { return };
    let here = branches.iter().position(|b| b.side == side && b.far == at).map_or_else(|| post(side).to_string(), node);
    let off = if drawn.on { "" } else { "* off: " };
    let element = match law {
        Law::Current(amps) => format!("{off}I{name} {here} 0 dc {}", amps.number()),
        Law::Power(watts) => {
            let (p, v) = (watts.number(), format!("v({here})"));
            format!("{off}B{name} {here} 0 i = {p}/max({v}, {STARTS})")
        }
        Law::Resistance { rated, nominal } if rated.number() > 0.0 => {
            format!("{off}R{name} {here} 0 {}", nominal.number() * nominal.number() / rated.number())
        }
        Law::Resistance { .. } => return,
    };
    line(out, element, &format!("{words} at {at}"));
}

/// An element, with what it is behind it.
fn line(out: &mut String, element: String, what: &str) {
    let _ = writeln!(out, "{element} ; {}", clean(what).replace(['\n', '\r'], " "));
}

fn post(side: Side) -> &'static str {
    match side {
        Side::Service => "service",
        Side::Feed => "starter",
    }
}

/// The far end of a branch.
fn node(branch: usize) -> String {
    format!("n{}", branch + 1)
}
