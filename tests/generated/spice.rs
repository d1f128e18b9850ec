//! A network as a netlist in the common SPICE language: resistors, current
//! sources, and one behavioural source for each load of constant power.
//!
//! Nodes: `src` is the source's inner voltage, `n0` its terminals, `n1` the far
//! end of branch 0, and so on. The current into each branch is that of the
//! zero-volt source `vm1`, `vm2`, …; `vm0` carries the source's. The start
//! values are the source's voltage, so that the simulator comes from above and
//! finds the higher solution. Left out: collapse, which a simulator shows only
//! as a failure to converge or as a meaningless lower solution.

use loomwright::engine::physics::copper::{INFERRED_ZERO, REFERENCE, warmed};
use loomwright::engine::physics::network::circuit::{Branch, Network, Point};
use loomwright::engine::physics::network::load::Load;
use loomwright::engine::physics::network::solution::Solution;
use loomwright::engine::physics::network::warming::Warming;
use loomwright::quantity::{Amps, Ohms};
use std::fmt::Write;

/// A netlist that solves the operating point and prints every voltage and current (`ngspice -b FILE`).
///
/// Each branch has the resistance it has in `solved`. Without that the simulator solves linear warming
/// itself, on a thermal node `t1`, `t2`, … whose voltage is the rise in kelvins.
pub fn netlist(network: &Network, solved: Option<&Solution>) -> String {
    let mut text = String::from("* direct-current network: volts, amps, ohms\n");
    write(network, &mut text, solved).ok(); // writing to a String cannot fail
    text
}

fn write(network: &Network, out: &mut String, solved: Option<&Solution>) -> std::fmt::Result {
    let feed = network.source.voltage.get();
    writeln!(out, "vsrc src 0 dc {feed}")?;
    resistor(out, feed, 0, "src", network.source.internal)?;
    loads(out, feed, 0, &network.loads)?;
    for (index, branch) in network.branches.iter().enumerate() {
        write_branch(out, feed, solved, index, branch)?;
        loads(out, feed, index + 1, &branch.loads)?;
    }
    writeln!(out, ".options reltol=1e-9 abstol=1e-12 vntol=1e-12 itl1=1000")?;
    writeln!(out, ".control\nop\nset numdgt=12\nprint all\n.endc\n.end")
}

fn write_branch(
    out: &mut String,
    feed: f64,
    solved: Option<&Solution>,
    index: usize,
    branch: &Branch,
) -> std::fmt::Result {
    let number = index + 1;
    let near = match branch.from {
        Point::Terminals => "n0".to_string(),
        Point::End(from) => format!("n{}", from + 1),
    };
    let temperature = match (solved, &branch.warming) {
        (Some(solution), _) => solution.branches[index].temperature,
        (None, Warming::Linear { air, rise, at_loss }) if branch.copper > Ohms::ZERO => {
            let per_k = branch.copper.get() / (REFERENCE - INFERRED_ZERO).get();
            let copper = format!("{per_k}*({}+v(t{number}))", (*air - INFERRED_ZERO).get());
            writeln!(out, "vm{number} {near} m{number} dc 0")?;
            start(out, feed, &format!("m{number}"))?;
            writeln!(out, "b{number} m{number} n{number} v=i(vm{number})*({}+{copper})", branch.fixed.get())?;
            // Without a start at no rise the simulator can end at a temperature of negative resistance.
            writeln!(out, ".nodeset v(t{number})=0")?;
            writeln!(out, "bt{number} 0 t{number} i=i(vm{number})*i(vm{number})*{copper}")?;
            return writeln!(out, "rt{number} t{number} 0 {}", (rise.get() / at_loss.get()).max(1e-12));
        }
        (None, warming) => warming.temperature(branch.copper, Amps::ZERO),
    };
    resistor(out, feed, number, &near, branch.fixed + warmed(branch.copper, temperature))
}

/// A start value near the source's voltage, so that the simulator comes from above.
fn start(out: &mut String, feed: f64, node: &str) -> std::fmt::Result {
    writeln!(out, ".nodeset v({node})={feed}")
}

/// A resistor with the ammeter in front of it; only the ammeter when it has no resistance.
fn resistor(out: &mut String, feed: f64, number: usize, near: &str, resistance: Ohms) -> std::fmt::Result {
    if resistance > Ohms::ZERO {
        writeln!(out, "vm{number} {near} m{number} dc 0")?;
        start(out, feed, &format!("m{number}"))?;
        writeln!(out, "r{number} m{number} n{number} {}", resistance.get())
    } else {
        writeln!(out, "vm{number} {near} n{number} dc 0")
    }
}

fn loads(out: &mut String, feed: f64, node: usize, loads: &[Load]) -> std::fmt::Result {
    start(out, feed, &format!("n{node}"))?;
    for (k, load) in loads.iter().enumerate() {
        match *load {
            Load::Power(power) => writeln!(out, "bl{node}_{k} n{node} 0 i={}/v(n{node})", power.get())?,
            Load::Current(current) => writeln!(out, "il{node}_{k} n{node} 0 dc {}", current.get())?,
            Load::Resistance { rated, nominal } if rated.get() > 0.0 => {
                writeln!(out, "rl{node}_{k} n{node} 0 {}", nominal.get() * nominal.get() / rated.get())?;
            }
            Load::Resistance { .. } => {}
        }
    }
    Ok(())
}
