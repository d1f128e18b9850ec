//! How is this network written for a circuit simulator?
//!
//! A netlist in the common SPICE language: resistors, current sources, and one
//! behavioural source for each load of constant power, so that anybody can
//! check or extend the network with a program that shares nothing with ours.
//!
//! Nodes: `src` is the source's inner voltage, `n0` its terminals, `n1` the far
//! end of branch 0, and so on. The current into each branch is that of the
//! zero-volt source `vm1`, `vm2`, …; `vm0` carries the source's. The start
//! values are the source's voltage, so that the simulator comes from above and
//! finds the higher solution. Left out: collapse, which a simulator shows only
//! as a failure to converge or as a meaningless lower solution.

use crate::engine::physics::copper::{INFERRED_ZERO, REFERENCE, warmed};
use crate::engine::physics::network::load::Load;
use crate::engine::physics::network::solution::Solution;
use crate::engine::physics::network::warming::Warming;
use crate::engine::physics::network::{Branch, Network, Point};
use crate::quantity::{Amps, Ohms};
use std::fmt::Write;

/// How the copper's temperature goes into the netlist.
#[derive(Clone, Copy, Debug)]
pub enum SpiceHeat<'a> {
    /// Each branch has the resistance it has in this solution of the same network.
    Solved(&'a Solution),
    /// The simulator solves linear warming itself, on a thermal node `t1`,
    /// `t2`, … whose voltage is the rise in kelvins. A branch with a
    /// [`super::HeatBalance`] gets the resistance it has without current, and
    /// a comment that says so.
    Coupled,
}

impl Network {
    /// The network as a SPICE netlist that solves its operating point and
    /// prints every voltage and current (`ngspice -b FILE`).
    pub fn to_spice(&self, heat: SpiceHeat) -> String {
        let mut text = String::from("* direct-current network: volts, amps, ohms\n");
        self.write(&mut text, heat).ok(); // writing to a String cannot fail
        text
    }

    fn write(&self, out: &mut String, heat: SpiceHeat) -> std::fmt::Result {
        writeln!(out, "vsrc src 0 dc {}", self.source.voltage.get())?;
        self.resistor(out, 0, "src", self.source.internal)?;
        self.loads(out, 0, &self.loads)?;
        for (index, branch) in self.branches.iter().enumerate() {
            self.write_branch(out, heat, index, branch)?;
            self.loads(out, index + 1, &branch.loads)?;
        }
        self.write_end(out)
    }

    fn write_branch(&self, out: &mut String, heat: SpiceHeat, index: usize, branch: &Branch) -> std::fmt::Result {
        let number = index + 1;
        let near = match branch.from {
            Point::Terminals => "n0".to_string(),
            Point::End(from) => format!("n{}", from + 1),
        };
        let copper = match (heat, &branch.warming) {
            (SpiceHeat::Coupled, Warming::Linear { air, rise, at_loss }) if branch.copper > Ohms::ZERO => {
                let per_k = branch.copper.get() / (REFERENCE - INFERRED_ZERO).get();
                let copper = format!("{per_k}*({}+v(t{number}))", (*air - INFERRED_ZERO).get());
                writeln!(out, "vm{number} {near} m{number} dc 0")?;
                self.start(out, &format!("m{number}"))?;
                writeln!(out, "b{number} m{number} n{number} v=i(vm{number})*({}+{copper})", branch.fixed.get())?;
                // Without a start at no rise the simulator can end at a temperature of negative resistance.
                writeln!(out, ".nodeset v(t{number})=0")?;
                writeln!(out, "bt{number} 0 t{number} i=i(vm{number})*i(vm{number})*{copper}")?;
                return writeln!(out, "rt{number} t{number} 0 {}", (rise.get() / at_loss.get()).max(1e-12));
            }
            (SpiceHeat::Solved(solution), _) => solution.branches.get(index).map(|state| state.copper),
            (SpiceHeat::Coupled, Warming::Balance(_)) => {
                writeln!(out, "* branch {number}: heat balance left out, resistance without current")?;
                None
            }
            (SpiceHeat::Coupled, _) => None,
        };
        let unloaded = || warmed(branch.copper, branch.warming.temperature(branch.copper, Amps::ZERO));
        self.resistor(out, number, &near, branch.fixed + copper.unwrap_or_else(unloaded))
    }

    fn write_end(&self, out: &mut String) -> std::fmt::Result {
        writeln!(out, ".options reltol=1e-9 abstol=1e-12 vntol=1e-12 itl1=1000")?;
        writeln!(out, ".control\nop\nset numdgt=12\nprint all\n.endc\n.end")
    }

    /// A start value near the source's voltage, so that the simulator comes from above.
    fn start(&self, out: &mut String, node: &str) -> std::fmt::Result {
        writeln!(out, ".nodeset v({node})={}", self.source.voltage.get())
    }

    /// A resistor with the ammeter in front of it; only the ammeter when it has no resistance.
    fn resistor(&self, out: &mut String, number: usize, near: &str, resistance: Ohms) -> std::fmt::Result {
        if resistance > Ohms::ZERO {
            writeln!(out, "vm{number} {near} m{number} dc 0")?;
            self.start(out, &format!("m{number}"))?;
            writeln!(out, "r{number} m{number} n{number} {}", resistance.get())
        } else {
            writeln!(out, "vm{number} {near} n{number} dc 0")
        }
    }

    fn loads(&self, out: &mut String, node: usize, loads: &[Load]) -> std::fmt::Result {
        self.start(out, &format!("n{node}"))?;
        for (k, load) in loads.iter().enumerate() {
            match *load {
                Load::Power(power) => writeln!(out, "bl{node}_{k} n{node} 0 i={}/v(n{node})", power.get())?,
                Load::Current(current) => writeln!(out, "il{node}_{k} n{node} 0 dc {}", current.get())?,
                Load::Resistance { .. } => {
                    if let Some(resistance) = load.resistance() {
                        writeln!(out, "rl{node}_{k} n{node} 0 {}", resistance.get())?;
                    }
                }
            }
        }
        Ok(())
    }
}
