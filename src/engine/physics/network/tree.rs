//! Is the network a tree, are its values sound, and in which order are its branches visited?
//!
//! Nodes are numbered so that a parent always comes before its children; node 0
//! is the source's terminals, fed through the internal resistance. Plain `f64`
//! in volts, amps, ohms and watts from here to the solution.

use crate::engine::physics::copper::MELTING;
use crate::engine::physics::network::circuit::{Branch, Network, Point};
use crate::engine::physics::network::fault::Fault;
use crate::engine::physics::network::load::Load;
use crate::engine::physics::network::warming::{Law, Warming};
use crate::quantity::{Celsius, Figure};

/// The network in solving order.
pub(crate) struct Tree<'a> {
    pub network: &'a Network,
    /// Voltage of the source without load.
    pub feed: f64,
    /// One per node.
    pub nodes: Vec<Node>,
    /// Node of each branch's far end.
    pub node_of: Vec<usize>,
}

/// A point and the branch that leads to it.
pub(crate) struct Node {
    /// Node where the branch begins; of no meaning for node 0.
    pub parent: usize,
    /// Drop of the branch.
    pub law: Law,
    /// Sum of constant powers.
    pub power: f64,
    /// Sum of constant currents drawn.
    pub current: f64,
    /// Sum of currents fed in, as a positive figure.
    pub fed_in: f64,
    /// Sum of conductances of constant-resistance loads.
    pub conductance: f64,
}

impl<'a> Tree<'a> {
    pub(crate) fn of(network: &'a Network) -> Result<Self, Fault> {
        let source = &network.source;
        check(Point::Terminals, "source voltage", source.voltage, Accept::AboveZero)?;
        check(Point::Terminals, "internal resistance", source.internal, Accept::ZeroOrMore)?;
        let order = order(&network.branches)?;
        let mut node_of = vec![0; network.branches.len()];
        for (place, index) in order.iter().enumerate() {
            node_of[*index] = place + 1;
        }
        let mut nodes = Vec::with_capacity(order.len() + 1);
        let internal = Law::Straight { resistance: source.internal.get() };
        nodes.push(Node::new(Point::Terminals, 0, internal, &network.loads)?);
        for index in order {
            let branch = &network.branches[index];
            check_branch(index, branch)?;
            let parent = match branch.from {
                Point::Terminals => 0,
                Point::End(from) => node_of[from],
            };
            let law = Law::new(branch.copper, branch.fixed, &branch.warming);
            nodes.push(Node::new(Point::End(index), parent, law, &branch.loads)?);
        }
        Ok(Tree { network, feed: source.voltage.get(), nodes, node_of })
    }

    /// The point of a node.
    pub(crate) fn point(&self, node: usize) -> Point {
        match self.node_of.iter().position(|n| *n == node) {
            Some(index) => Point::End(index),
            None => Point::Terminals,
        }
    }
}

impl Node {
    fn new(at: Point, parent: usize, law: Law, loads: &[Load]) -> Result<Self, Fault> {
        let mut node = Node { parent, law, power: 0.0, current: 0.0, fed_in: 0.0, conductance: 0.0 };
        for load in loads {
            match *load {
                Load::Power(power) => {
                    check(at, "constant power", power, Accept::ZeroOrMore)?;
                    node.power += power.get();
                }
                Load::Current(current) => {
                    check(at, "constant current", current, Accept::Finite)?;
                    node.current += current.get().max(0.0);
                    node.fed_in += (-current.get()).max(0.0);
                }
                Load::Resistance { rated, nominal } => {
                    check(at, "rated power", rated, Accept::ZeroOrMore)?;
                    check(at, "nominal voltage", nominal, Accept::AboveZero)?;
                    node.conductance += rated.get() / nominal.get() / nominal.get();
                }
            }
        }
        Ok(node)
    }
}

/// Branch indices, parents first.
fn order(branches: &[Branch]) -> Result<Vec<usize>, Fault> {
    let count = branches.len();
    // Linked lists of children: first child and next sibling; index `count` stands for the terminals.
    let (mut first, mut next) = (vec![usize::MAX; count + 1], vec![usize::MAX; count]);
    for (index, branch) in branches.iter().enumerate().rev() {
        let from = match branch.from {
            Point::Terminals => count,
            Point::End(from) if from < count => from,
            Point::End(from) => return Err(Fault::NoParent { branch: index, from }),
        };
        next[index] = first[from];
        first[from] = index;
    }
    let mut order = Vec::with_capacity(count);
    let (mut seen, mut at) = (0, count);
    loop {
        let mut child = first[at];
        while child != usize::MAX {
            order.push(child);
            child = next[child];
        }
        match order.get(seen) {
            Some(index) => at = *index,
            None => break,
        }
        seen += 1;
    }
    if order.len() < count {
        let mut reached = vec![false; count];
        order.iter().for_each(|index| reached[*index] = true);
        let branch = reached.iter().position(|r| !r).unwrap_or(0);
        return Err(Fault::Ring { branch });
    }
    Ok(order)
}

fn check_branch(index: usize, branch: &Branch) -> Result<(), Fault> {
    let at = Point::End(index);
    check(at, "copper resistance", branch.copper, Accept::ZeroOrMore)?;
    check(at, "fixed resistance", branch.fixed, Accept::ZeroOrMore)?;
    match &branch.warming {
        Warming::Held(held) => check(at, "conductor temperature", *held, Accept::Copper),
        Warming::Linear { air, rise, at_loss } => {
            check(at, "air temperature", *air, Accept::Copper)?;
            check(at, "temperature rise", *rise, Accept::ZeroOrMore)?;
            check(at, "heat for that rise", *at_loss, Accept::AboveZero)
        }
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Accept {
    Finite,
    ZeroOrMore,
    AboveZero,
    Copper,
}

/// Largest magnitude taken; far beyond any vehicle, small enough that products stay finite.
const LARGEST: f64 = 1e12;

/// Coldest copper the straight line of its resistance is used for.
const COLDEST: Celsius = Celsius::new(-200.0);

fn check(at: Point, what: &'static str, value: impl Into<Figure>, accept: Accept) -> Result<(), Fault> {
    let value = value.into();
    let number = value.value;
    let (fits, accepted) = match accept {
        Accept::Finite => (number.abs() <= LARGEST, "any figure up to 1e12"),
        Accept::ZeroOrMore => ((0.0..=LARGEST).contains(&number), "0 or more, up to 1e12"),
        Accept::AboveZero => ((1e-9..=LARGEST).contains(&number), "above 0 (1e-9 to 1e12)"),
        Accept::Copper => ((COLDEST.get()..=MELTING.get()).contains(&number), "-200 °C to 1,085 °C"),
    };
    if fits { Ok(()) } else { Err(Fault::Range { at, what, value, accepted }) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Ohms, Volts, Watts};

    fn branch(from: Point) -> Branch {
        let warming = Warming::Held(Celsius::new(20.0));
        Branch { from, copper: Ohms::from_milli(10.0), fixed: Ohms::ZERO, warming, loads: vec![] }
    }

    fn network(branches: Vec<Branch>) -> Network {
        let source =
            crate::engine::physics::network::circuit::Source { voltage: Volts::new(12.0), internal: Ohms::ZERO };
        Network { source, loads: vec![], branches }
    }

    #[test]
    fn parents_come_first_whatever_the_order_given() {
        let plan = network(vec![branch(Point::End(2)), branch(Point::End(0)), branch(Point::Terminals)]);
        let tree = Tree::of(&plan).unwrap();
        assert_eq!(tree.node_of, [2, 3, 1]);
        assert_eq!(tree.nodes.iter().map(|n| n.parent).collect::<Vec<_>>(), [0, 0, 1, 2]);
        assert_eq!(tree.point(3), Point::End(1));
        assert_eq!(tree.point(0), Point::Terminals);
    }

    #[test]
    fn a_wrong_network_is_named() {
        let refused = |network: &Network| Tree::of(network).map(|_| ()).unwrap_err();
        assert_eq!(refused(&network(vec![branch(Point::End(7))])), Fault::NoParent { branch: 0, from: 7 });
        let ring = network(vec![branch(Point::Terminals), branch(Point::End(2)), branch(Point::End(1))]);
        assert_eq!(refused(&ring), Fault::Ring { branch: 1 });
        let named = |network: &Network| match refused(network) {
            Fault::Range { at, what, .. } => (at, what),
            other => panic!("{other:?}"),
        };
        let mut plan = network(vec![branch(Point::Terminals)]);
        plan.branches[0].loads.push(Load::Power(Watts::new(-5.0)));
        assert_eq!(named(&plan), (Point::End(0), "constant power"));
        plan.branches[0].loads.clear();
        plan.branches[0].copper = Ohms::new(f64::NAN);
        assert_eq!(named(&plan), (Point::End(0), "copper resistance"));
        plan.source.voltage = Volts::ZERO;
        assert_eq!(named(&plan), (Point::Terminals, "source voltage"));
    }
}
