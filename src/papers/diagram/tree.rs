//! What hangs on what: the runs as one tree from the starter battery outward.

use crate::engine::{Design, Side, Topology, run_name};
use crate::plan::{ChargerKind, Load, Plan, ReturnPath, point};
use crate::quantity::{Amps, UnitSystem, Watts, in_units};
use itertools::Itertools;
use std::collections::BTreeSet;

/// What a node is, and so which symbol it gets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Kind {
    Alternator,
    Battery,
    DcDc,
    Relay,
    CutOff,
    Point,
    Inverter,
    Solar,
    Mains,
    /// A point drawn before, from which the drawing goes on.
    Continued,
}

/// A point or a device.
#[derive(Clone, Debug)]
pub struct Node {
    /// What it is.
    pub kind: Kind,
    /// Its name.
    pub name: String,
    /// A few words more.
    pub details: Vec<String>,
    /// Loads that hang on it, one line each.
    pub loads: Vec<String>,
    /// The line that leads to it.
    pub wire: Option<Wire>,
    /// What hangs on it.
    pub children: Vec<Node>,
    /// What hangs on it and is drawn elsewhere.
    pub next: Vec<Next>,
    /// The [`Next::key`] that leads here; 0 for a tree that begins.
    pub key: usize,
}

/// Where a drawing goes on.
#[derive(Clone, Debug)]
pub struct Next {
    /// Numbers of the runs.
    pub what: String,
    /// Which piece.
    pub key: usize,
    /// `below`, `on sheet 2`.
    pub place: String,
}

/// The line of a run.
#[derive(Clone, Debug)]
pub struct Wire {
    /// Index of the run in the plan; `None` for what the vehicle has already.
    pub run: Option<usize>,
    /// `R3`, or empty.
    pub number: String,
    /// Conductor size.
    pub size: String,
    /// Length one way.
    pub length: String,
    /// Steady current.
    pub current: String,
    /// Rating of the fuse at the left end.
    pub fuse_left: Option<String>,
    /// Rating of the fuse at the right end.
    pub fuse_right: Option<String>,
    /// The vehicle's body is the way back.
    pub chassis: bool,
    /// Words above and below the line of a source's own leads, which are not planned.
    pub own_leads: Option<[&'static str; 2]>,
}

/// The wiring as plain data, ready to be drawn.
#[derive(Clone, Debug, Default)]
pub struct Layout {
    /// Title of the plan.
    pub title: String,
    /// The trees: usually one, two when the charger does not join them.
    pub trees: Vec<Node>,
    /// Runs that hang together with nothing, in words.
    pub loose: Vec<String>,
}

/// Lay out the wiring of a design.
pub fn layout(plan: &Plan, design: &Design) -> Layout {
    let mut grow = Grow { plan, design, topology: &design.installation.circuits, done: BTreeSet::new() };
    let mut trees = Vec::new();
    let fed = design.installation.circuits.branches.iter().any(|b| b.side == Side::Feed);
    if fed {
        trees.push(grow.starter());
    }
    let service_drawn = grow
        .done
        .iter()
        .any(|&b| design.installation.circuits.branches.get(b).is_some_and(|b| b.side == Side::Service));
    if !service_drawn {
        trees.push(grow.node(Side::Service, point::SERVICE_BATTERY, None));
    }
    let loose = (0..design.installation.runs.len())
        .filter(|run| design.installation.circuits.index_of(*run).is_none())
        .map(|run| run_name(&design.installation.runs, run))
        .collect();
    let system = plan.job.units.system();
    trees.iter_mut().for_each(|tree| tell_in(tree, system));
    Layout { title: plan.job.title.clone(), trees, loose }
}

/// Words of a tree in other units; what is named keeps its name.
fn tell_in(node: &mut Node, system: UnitSystem) {
    if system == UnitSystem::Metric {
        return;
    }
    let words = node.details.iter_mut().chain(node.wire.iter_mut().map(|wire| &mut wire.length));
    words.for_each(|words| *words = in_units(words, system).into_owned());
    node.children.iter_mut().for_each(|child| tell_in(child, system));
}

struct Grow<'a> {
    plan: &'a Plan,
    design: &'a Design,
    topology: &'a Topology,
    /// Branches already drawn.
    done: BTreeSet<usize>,
}

impl Grow<'_> {
    /// The alternator, and the starter battery behind a line that is there already.
    fn starter(&mut self) -> Node {
        let mut battery = self.node(Side::Feed, point::STARTER_BATTERY, None);
        let alternator = self.plan.vehicle.alternator_rating;
        if alternator <= Amps::ZERO {
            return battery;
        }
        battery.wire = Some(Wire::existing());
        Node {
            details: vec![alternator.to_string()],
            children: vec![battery],
            ..Node::new(Kind::Alternator, "alternator")
        }
    }

    /// A point and everything beyond it that is not drawn yet.
    fn node(&mut self, side: Side, name: &str, wire: Option<Wire>) -> Node {
        let mut node = self.described(side, name);
        node.wire = wire;
        // The charger joins both trees: what lies on its other side goes on from it.
        let both = name == point::CHARGER;
        let next: Vec<(usize, bool)> = self
            .topology
            .branches
            .iter()
            .enumerate()
            .filter(|(n, b)| !self.done.contains(n) && (both || b.side == side))
            .filter_map(|(n, b)| if b.near == name { Some((n, true)) } else { (b.far == name).then_some((n, false)) })
            .collect();
        for (branch, outward) in next {
            if self.done.insert(branch) {
                let b = &self.topology.branches[branch];
                let (other, side) = (if outward { b.far.clone() } else { b.near.clone() }, b.side);
                let wire = self.wire(branch, outward);
                let child = self.node(side, &other, Some(wire));
                node.children.push(child);
            }
        }
        // The longest chain first: it is the straight line at the top.
        node.children.sort_by_key(|c| std::cmp::Reverse(c.depth()));
        if side == Side::Service {
            self.sources(name, &mut node);
        }
        node
    }

    /// Symbol and words of a point.
    fn described(&self, side: Side, name: &str) -> Node {
        let plan = self.plan;
        let kind = match name {
            point::SERVICE_BATTERY | point::STARTER_BATTERY => Kind::Battery,
            point::CHARGER if plan.charger.kind == ChargerKind::Relay => Kind::Relay,
            point::CHARGER => Kind::DcDc,
            point::CUT_OFF => Kind::CutOff,
            _ if side == Side::Service && plan.inverter.rating > Watts::ZERO && plan.inverter.at == name => {
                Kind::Inverter
            }
            _ if side == Side::Service && self.is_mains_charger(name) => Kind::Mains,
            _ => Kind::Point,
        };
        let mut node = Node::new(kind, name);
        match (kind, name) {
            (Kind::Battery, point::SERVICE_BATTERY) => {
                if let Some(bank) = &self.design.battery.bank {
                    node.details = vec![bank.chemistry.replace('-', " "), bank.capacity.to_string()];
                }
                node.details.extend(self.design.bond.size.as_ref().map(|size| format!("minus to body {size}")));
            }
            (Kind::Battery, _) => {
                let chemistry = plan.starter_battery.chemistry.replace('-', " ");
                node.details = vec![chemistry, plan.starter_battery.capacity.to_string()];
                let site = &self.design.installation;
                let on_post = if site.minus_on_post() { "STOP: minus on sensor" } else { "minus to the body" };
                node.details.extend(site.minus_at_sensor().map(|_| on_post.into()));
            }
            (Kind::DcDc | Kind::Relay, _) => {
                node.details.extend(self.design.charger.current.map(|c| c.to_string()));
                if plan.charger.enable_signal {
                    node.details.push("enable wire".into());
                }
            }
            (Kind::CutOff, _) => {
                let set = &self.design.cut_off;
                node.details.push(match set.counter {
                    Some(counter) => format!("{} / {} counted", counter.opens, counter.closes),
                    None => format!("{} / {}", set.cut, set.reconnect),
                });
                if plan.cut_off.senses_at != point::CUT_OFF {
                    node.details.push(format!("senses at {}", plan.cut_off.senses_at));
                }
                node.details.extend(plan.cut_off.in_minus.then(|| "in the minus".into()));
            }
            (Kind::Mains, _) => node.details.push(plan.mains.current.to_string()),
            (Kind::Inverter, _) => node.details.push(plan.inverter.rating.to_string()),
            (Kind::Point, _) if side == Side::Service => node.details.extend(self.led_to(name)),
            _ => {}
        }
        if let Some(rating) = plan.main_switch.rating.filter(|_| plan.main_switch.at == name) {
            let where_ = if plan.main_switch.in_minus { " in the minus" } else { "" };
            node.details.push(format!("main switch {rating}{where_}"));
        }
        node.loads = self.loads(name, kind == Kind::Inverter);
        node
    }

    /// A run of its own leads to the mains charger: the end of that run is the charger.
    fn is_mains_charger(&self, name: &str) -> bool {
        let plan = self.plan;
        plan.mains.current > Amps::ZERO
            && plan.mains.at == name
            && plan.solar.at != name
            && !plan.loads.iter().any(|l| l.at == name)
            && !self.topology.branches.iter().any(|b| b.near == name)
    }

    /// `2 × cabin lamps 4 W`, for each load of a point, those of the inverter at the inverter. One with a lead of its own
    /// is the end of that line and stands there alone.
    fn loads(&self, name: &str, inverter: bool) -> Vec<String> {
        let site = &self.design.installation;
        let here = |(n, l): &(usize, &Load)| {
            if l.inverter { inverter } else { l.at == name && site.lead_of(*n).is_none() }
        };
        let words = |l: &Load| [counted(l), l.name.clone(), draw(l)].iter().filter(|w| !w.is_empty()).join(" ");
        self.plan.loads.iter().enumerate().filter(here).map(|(_, load)| words(load)).collect()
    }

    /// What the load at the end of a lead draws: `2 × 4 W`.
    fn led_to(&self, name: &str) -> Option<String> {
        let site = &self.design.installation;
        let (_, load) = self.plan.loads.iter().enumerate().find(|(n, _)| {
            let end = site.lead_of(*n).and_then(|run| site.runs.get(run));
            end.is_some_and(|run| run.to == name)
        })?;
        Some([counted(load), draw(load)].iter().filter(|w| !w.is_empty()).join(" ")).filter(|w| !w.is_empty())
    }

    /// Solar and mains at the point they feed.
    fn sources(&self, name: &str, node: &mut Node) {
        let (solar, mains) = (&self.plan.solar, &self.plan.mains);
        let at = name;
        let mains_here = node.kind == Kind::Mains;
        let mut add = |kind, name: &str, detail: String| {
            node.children.push(Node {
                details: vec![detail],
                wire: Some(Wire::own_leads(at)),
                ..Node::new(kind, name)
            });
        };
        if solar.array > Watts::ZERO && solar.at == name {
            add(Kind::Solar, "solar", solar.array.to_string());
        }
        if mains.current > Amps::ZERO && mains.at == name && !mains_here {
            add(Kind::Mains, "mains charger", mains.current.to_string());
        }
    }

    /// The line of a branch; `outward` when it is drawn from its battery's end.
    fn wire(&self, branch: usize, outward: bool) -> Wire {
        let b = &self.topology.branches[branch];
        let planned = self.design.installation.runs.get(b.run);
        let run = self.design.runs.iter().find(|r| r.run == b.run);
        let (mut near, mut far) = (None, None);
        for fuse in run.map(|r| r.fuses.as_slice()).unwrap_or_default() {
            let rating = fuse.rating.map_or("?".to_string(), |r| r.to_string());
            // The one line stands for both poles.
            let rating = if planned.is_some_and(|p| p.fuse_in_minus) { format!("{rating} in –") } else { rating };
            if fuse.far_end { far = Some(rating) } else { near = Some(rating) }
        }
        let (fuse_left, fuse_right) = if outward { (near, far) } else { (far, near) };
        Wire {
            run: Some(b.run),
            number: self.design.installation.run_number(b.run),
            size: run.and_then(|r| r.size.as_ref()).map(|s| s.label.clone()).unwrap_or_default(),
            length: planned.map(|p| p.length.to_string()).unwrap_or_default(),
            current: run.filter(|r| r.current > Amps::ZERO).map(|r| r.current.to_string()).unwrap_or_default(),
            fuse_left,
            fuse_right,
            own_leads: None,
            chassis: planned.is_some_and(|p| p.return_path == ReturnPath::Chassis),
        }
    }
}

/// `2 ×` where there are several of a load.
fn counted(load: &Load) -> String {
    if load.count == 1 { String::new() } else { format!("{} ×", load.count) }
}

/// What one of it draws, as the plan says it.
fn draw(load: &Load) -> String {
    load.power.map(|p| p.to_string()).or(load.current.map(|c| c.to_string())).unwrap_or_default()
}

impl Node {
    /// A node with nothing on it.
    pub fn new(kind: Kind, name: &str) -> Node {
        let (details, loads, children) = (Vec::new(), Vec::new(), Vec::new());
        Node { kind, name: name.into(), details, loads, wire: None, children, next: Vec::new(), key: 0 }
    }

    /// The node without its children.
    pub fn bare(&self) -> Node {
        Node {
            details: self.details.clone(),
            loads: self.loads.clone(),
            wire: self.wire.clone(),
            next: self.next.clone(),
            key: self.key,
            ..Node::new(self.kind, &self.name)
        }
    }

    /// Its details, and where what is not drawn here goes on.
    pub fn said(&self) -> Vec<String> {
        let next = self.next.iter().map(|n| format!("{} {}", n.what, n.place));
        self.details.iter().cloned().chain(next).collect()
    }

    /// Nodes from here to the farthest leaf.
    pub fn depth(&self) -> usize {
        1 + self.children.iter().map(Node::depth).max().unwrap_or(0)
    }
}

impl Wire {
    /// A line that the vehicle has already, or that belongs to a device.
    fn existing() -> Wire {
        Wire {
            run: None,
            number: String::new(),
            size: String::new(),
            length: String::new(),
            current: String::new(),
            fuse_left: None,
            fuse_right: None,
            chassis: false,
            own_leads: None,
        }
    }

    /// The leads that a source brings along, to the point it feeds: no run of
    /// the plan, so nothing sizes or fuses them.
    fn own_leads(at: &str) -> Wire {
        let words = match at {
            point::SERVICE_BATTERY | point::STARTER_BATTERY => ["own leads, fuse", "at the post: not planned"],
            _ => ["own leads:", "not planned"],
        };
        Wire { own_leads: Some(words), ..Wire::existing() }
    }

    /// Whether words stand at its line.
    pub fn has_words(&self) -> bool {
        self.run.is_some() || self.own_leads.is_some()
    }

    /// What stands above and below its line.
    pub fn words(&self) -> [String; 2] {
        match self.own_leads {
            Some([above, below]) => [above.into(), below.into()],
            None => [format!("{} {}", self.number, self.size), format!("{} {}", self.length, self.current)],
        }
    }
}
