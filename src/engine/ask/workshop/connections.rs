//! What is joined with what: the whole circuit wire by wire, device by device and stud by stud?
//!
//! Wires are the pieces of the cut list, each with the terminals on which its ends
//! sit; everything else that carries current from one terminal to another is a
//! [`Joint`]. Both together are the circuit, and nothing but them: whoever has
//! this list can lay the wiring out again. All studs of a bar are one point, and all points of the body.

use crate::engine::ask::workshop::besides::{ARRAY_SIDE, PANELS, PANELS_DEVICE};
use crate::engine::ask::workshop::control::control_wires;
use crate::engine::ask::workshop::cut::{cut_list, device_in_minus};
use crate::engine::ask::workshop::piece::{BAR, Cut, Lug, block, earth_by};
use crate::engine::ask::workshop::places::{MAIN_SWITCH, Places};
use crate::engine::design::Design;
use crate::engine::installation::Installation;
use crate::engine::installation::circuits::{Branch, Side};
use crate::engine::parts::terminal::{Part, Polarity, Terminal};
use crate::engine::simulate::circuit::result::{FuseDesign, RunDesign};
use crate::plan::{ChargerKind, ReturnPath, point};
use crate::quantity::*;
use std::collections::{BTreeMap, BTreeSet};

/// The circuit.
#[derive(Clone, Debug, Default)]
pub struct Connections {
    /// Every piece of cable.
    pub wires: Vec<Wire>,
    /// Everything else between terminals.
    pub joints: Vec<Joint>,
}

/// A piece of cable with its name.
#[derive(Clone, Debug)]
pub struct Wire {
    /// `R3 + 1`: run, conductor, and which piece where there are several.
    pub name: String,
    /// The piece.
    pub cut: Cut,
}

/// What a joint is to the circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joins {
    /// It carries current from its first terminal to its last while closed or whole.
    Closes,
    /// The vehicle has it already.
    Vehicle,
    /// It gives current.
    Source,
    /// It takes current.
    Load,
}

impl Joins {
    /// The word on papers.
    pub fn word(self) -> &'static str {
        match self {
            Joins::Closes => "closes",
            Joins::Vehicle => "vehicle's own",
            Joins::Source => "source",
            Joins::Load => "load",
        }
    }
}

/// Something between terminals that is no cable of the list.
#[derive(Clone, Debug)]
pub struct Joint {
    /// `F3`, `cut-off`, or the name of the load.
    pub name: String,
    /// What it is, with its rating.
    pub what: String,
    /// What it is to the circuit.
    pub joins: Joins,
    /// The run whose it is.
    pub run: Option<usize>,
    /// Thread of the stud on which it sits, where it has no leads.
    pub thread: Option<String>,
    /// Its terminals.
    pub terminals: Vec<Terminal>,
}

/// A terminal and all that sits on it.
#[derive(Clone, Debug)]
pub struct Stud {
    /// Which.
    pub terminal: Terminal,
    /// Its thread, as the lugs on it are chosen; `None` where neither a ring nor a fuse asks for one.
    pub thread: Option<String>,
    /// Wires that end on it, by their place in [`Connections::wires`].
    pub wires: Vec<usize>,
    /// Joints that sit on it, by their place in [`Connections::joints`].
    pub joints: Vec<usize>,
}

/// The circuit of a design.
pub fn connections(design: &Design) -> Connections {
    let wires: Vec<Wire> = cut_list(design).cuts.into_iter().map(|cut| Wire { name: cut.name.clone(), cut }).collect();
    let touched: BTreeSet<&Terminal> = wires.iter().flat_map(|w| &w.cut.ends).collect();
    let join = Join { design, site: &design.installation, places: Places::of(&design.installation), touched };
    let joints = join.all();
    Connections { wires, joints }
}

impl Connections {
    /// Terminal by terminal, those of one device together.
    pub fn studs(&self) -> Vec<Stud> {
        let mut studs: Vec<Stud> = Vec::new();
        let mut place: BTreeMap<Terminal, usize> = BTreeMap::new();
        let mut stud = |studs: &mut Vec<Stud>, terminal: &Terminal| {
            *place.entry(terminal.clone()).or_insert_with(|| {
                studs.push(Stud { terminal: terminal.clone(), thread: None, wires: vec![], joints: vec![] });
                studs.len() - 1
            })
        };
        for (n, joint) in self.joints.iter().enumerate() {
            for terminal in &joint.terminals {
                let at = stud(&mut studs, terminal);
                studs[at].joints.push(n);
                // Its own other side has what its lug has.
                if joint.thread.is_some() && terminal.at != joint.name {
                    studs[at].thread.clone_from(&joint.thread);
                }
            }
        }
        for (n, wire) in self.wires.iter().enumerate() {
            for (terminal, lug) in wire.cut.ends.iter().zip([&wire.cut.lug_from, &wire.cut.lug_to]) {
                let at = stud(&mut studs, terminal);
                studs[at].wires.push(n);
                if let Lug::Ring(thread) = lug {
                    studs[at].thread = Some(thread.clone());
                }
            }
        }
        let mut met: Vec<String> = Vec::new();
        for stud in studs.iter().filter(|s| s.terminal.part != Part::Earth) {
            if !met.contains(&stud.terminal.at) {
                met.push(stud.terminal.at.clone());
            }
        }
        // The body is the last.
        studs.sort_by_cached_key(|s| met.iter().position(|at| *at == s.terminal.at).unwrap_or(met.len()));
        studs
    }
}

struct Join<'a> {
    design: &'a Design,
    site: &'a Installation,
    places: Places<'a>,
    /// Terminals on which a wire ends.
    touched: BTreeSet<&'a Terminal>,
}

impl Join<'_> {
    fn all(&self) -> Vec<Joint> {
        let mut all = self.batteries();
        all.extend(self.switches());
        all.extend(self.charger());
        for run in &self.design.runs {
            all.extend(self.devices(run));
        }
        all.extend(self.plugs());
        all.extend(self.fed());
        all.extend(self.panels());
        all
    }

    fn touches(&self, at: &str) -> bool {
        self.touched.iter().any(|t| t.at == at)
    }

    fn batteries(&self) -> Vec<Joint> {
        let site = self.site;
        let posts = |at: &str| vec![Terminal::plus(at, Part::Post), Terminal::minus(at, Part::Post)];
        let mut all = self.blocks();
        if site.circuits.branches.iter().any(|b| b.side == Side::Feed) {
            let what = format!("{}, the vehicle's own", site.starter_battery.capacity);
            all.push(joint(point::STARTER_BATTERY, what, Joins::Source, posts(point::STARTER_BATTERY)));
            let strap = vec![Terminal::minus(point::STARTER_BATTERY, Part::Post), earth_by(point::STARTER_BATTERY)];
            all.push(joint("body strap", "joins the starter battery to the body".into(), Joins::Vehicle, strap));
        }
        all
    }

    /// The service battery, block by block where it has several.
    fn blocks(&self) -> Vec<Joint> {
        let site = self.site;
        let source = |name: String, what: String, plus: &str, minus: &str| {
            let ends = vec![Terminal::plus(plus, Part::Post), Terminal::minus(minus, Part::Post)];
            joint(name, what, Joins::Source, ends)
        };
        let own = point::SERVICE_BATTERY;
        let Some(bank) = &self.design.battery.bank else {
            return vec![source(own.into(), "without a size: see findings".into(), own, own)];
        };
        let chemistry = bank.chemistry.replace('-', " ");
        if bank.blocks < 2 {
            return vec![source(own.into(), format!("{chemistry}, {}", bank.capacity), own, own)];
        }
        let fuse = site.service_battery.block_fuse;
        let fuse = fuse.map_or_else(String::new, |a| format!(", behind a device of {a} at its plus"));
        let each = |n: u32| {
            let at = block(n);
            let plus = if n == 1 { own } else { at.as_str() };
            let minus = if n == bank.blocks { own } else { at.as_str() };
            let part = match n {
                1 => ", its plus is the bank's",
                n if n == bank.blocks => ", its minus is the bank's",
                _ => "",
            };
            let what = format!("{chemistry}, {} of {}{part}{fuse}", bank.block, bank.capacity);
            source(at.clone(), what, plus, minus)
        };
        (1..=bank.blocks).map(each).collect()
    }

    /// Panels and the device in their cable.
    fn panels(&self) -> Vec<Joint> {
        let solar = &self.site.solar;
        if solar.array <= Watts::ZERO {
            return Vec::new();
        }
        let strings = match (solar.strings, solar.in_series) {
            (1, 1) => String::new(),
            (strings, series) => format!(", {strings} × {series} in series"),
        };
        let cable = self.design.charger.array_cable.as_ref().filter(|_| self.touches(PANELS));
        let (at, not) = if cable.is_some() { (PANELS, "") } else { (ARRAY_SIDE, ", by a cable that is not planned") };
        let ends = vec![Terminal::plus(at, Part::Post), Terminal::minus(at, Part::Post)];
        let mut all = vec![joint(PANELS, format!("{}{strings}{not}", solar.array), Joins::Source, ends)];
        if let Some(device) = cable.and_then(|c| c.device) {
            let ends = [Part::In, Part::Out].map(|part| Terminal::plus(PANELS_DEVICE, part)).to_vec();
            let what = format!("{device}, for direct current at the panels' voltage");
            all.push(joint(PANELS_DEVICE, what, Joins::Closes, ends));
        }
        all
    }

    /// The main switch and the cut-off.
    fn switches(&self) -> Vec<Joint> {
        let site = self.site;
        let mut all = Vec::new();
        if let Some(rating) = site.main_switch.rating {
            let (at, in_minus) = (&site.main_switch.at, site.main_switch.in_minus);
            let ends = if in_minus {
                vec![self.places.back(at, true), Terminal::minus(MAIN_SWITCH, Part::Out)]
            } else {
                vec![self.hang(at), Terminal::plus(MAIN_SWITCH, Part::Out)]
            };
            let where_ = if in_minus { ", in the minus" } else { "" };
            all.push(joint(MAIN_SWITCH, format!("{rating}, on the stud of its point{where_}"), Joins::Closes, ends));
        }
        if self.touches(point::CUT_OFF) {
            let out = &self.design.cut_off;
            let rating = out.rating.map_or_else(String::new, |r| format!("{r}, "));
            let senses = match site.cut_off.senses_at.as_str() {
                point::CUT_OFF => String::new(),
                at => format!(", senses at {at} by a thin wire of its own"),
            };
            let in_minus = site.cut_off.in_minus;
            let polarity = if in_minus { Polarity::Negative } else { Polarity::Positive };
            let terminal = |at: &str, part| Terminal { at: at.into(), polarity, part };
            let begins = if site.circuits.cut_off_at_posts {
                terminal(point::SERVICE_BATTERY, Part::Post)
            } else {
                terminal(point::CUT_OFF, Part::In)
            };
            let ends = vec![begins, terminal(point::CUT_OFF, Part::Out)];
            let where_ = if in_minus { ", in the minus" } else { "" };
            let what = format!("{rating}opens at {}, closes at {}{senses}{where_}", out.cut, out.reconnect);
            all.push(joint(point::CUT_OFF, what, Joins::Closes, ends));
        }
        all
    }

    fn charger(&self) -> Option<Joint> {
        let kind = self.site.charger.kind;
        if kind == ChargerKind::None || !self.touches(point::CHARGER) {
            return None;
        }
        let current = self.design.charger.current.map_or_else(String::new, |c| format!(", {c}"));
        let [side_in, side_out] = [Part::In, Part::Out].map(|part| Terminal::plus(point::CHARGER, part));
        Some(if kind == ChargerKind::Relay {
            joint(point::CHARGER, format!("relay{current}"), Joins::Closes, vec![side_in, side_out])
        } else {
            let told = control_wires(self.design).iter().any(|w| w.device == point::CHARGER);
            let enable = if told { ", with an enable wire" } else { "" };
            let ends = vec![side_in, side_out, Terminal::minus(point::CHARGER, Part::Post)];
            joint(point::CHARGER, format!("DC-DC{current}{enable}"), Joins::Source, ends)
        })
    }

    /// The fuses and breakers of a run, each between the terminals that it joins.
    fn devices(&self, run: &RunDesign) -> Vec<Joint> {
        let way = self.site.is_way(run.run);
        let Some(branch) = run.branch.and_then(|b| self.site.circuits.branches.get(b)) else { return Vec::new() };
        if run.size.is_none() && !way {
            return Vec::new();
        }
        let mut all: Vec<Joint> = run.fuses.iter().map(|fuse| self.device(run, branch, fuse)).collect();
        // A way without a device is a plain bridge.
        let in_minus = device_in_minus(self.site, run.run);
        let bare = (in_minus || !run.fuses.iter().any(|f| !f.far_end)) && (way || self.site.in_way(run.run));
        if bare {
            let ends = self.near_ends(run.run, branch, true);
            let name = format!("way of {}", self.site.run_number(run.run));
            all.push(Joint { run: Some(run.run), ..joint(name, "no device".into(), Joins::Closes, ends) });
        }
        all
    }

    fn device(&self, run: &RunDesign, branch: &Branch, fuse: &FuseDesign) -> Joint {
        let on_stud = self.site.catalogue.fuse_style(&fuse.style).is_some_and(|s| s.on_the_stud);
        let side = |part| self.places.fuse_side(run.run, fuse.far_end, part);
        if device_in_minus(self.site, run.run) {
            return self.device_of_minus(run, branch, fuse, on_stud);
        }
        let ends = match (fuse.far_end, on_stud) {
            (true, true) => vec![side(Part::In), self.places.ends(branch)],
            (true, false) => vec![side(Part::In), side(Part::Out)],
            (false, on_stud) => self.near_ends(run.run, branch, on_stud),
        };
        self.fuse(run, fuse, ends)
    }

    /// The same in the minus.
    fn device_of_minus(&self, run: &RunDesign, branch: &Branch, fuse: &FuseDesign, on_stud: bool) -> Joint {
        let side =
            |part| Terminal { polarity: Polarity::Negative, ..self.places.fuse_side(run.run, fuse.far_end, part) };
        let ends = match (fuse.far_end, on_stud) {
            (true, true) => vec![side(Part::In), self.minus(&branch.far)],
            (false, true) => vec![self.comes_back_to(run.run, branch), side(Part::Out)],
            (_, false) => vec![side(Part::In), side(Part::Out)],
        };
        self.fuse(run, fuse, ends)
    }

    fn fuse(&self, run: &RunDesign, fuse: &FuseDesign, ends: Vec<Terminal>) -> Joint {
        let rating = fuse.rating.map_or_else(|| "none fits: see findings".into(), |r: Amps| r.to_string());
        let style = self.site.catalogue.fuse_style(&fuse.style);
        Joint {
            run: Some(run.run),
            thread: style.filter(|s| s.on_the_stud).and_then(|s| s.stud.clone()),
            ..joint(
                self.places.fuse_name(run.run, fuse.far_end),
                format!("{rating}, {}", fuse.style_name),
                Joins::Closes,
                ends,
            )
        }
    }

    /// Where the minus of a run ends toward the battery.
    fn comes_back_to(&self, run: usize, branch: &Branch) -> Terminal {
        match self.site.runs.get(run).map(|r| r.return_path) {
            Some(ReturnPath::Chassis) => earth_by(&branch.far),
            _ => self.minus(&branch.near),
        }
    }

    /// What the device at the beginning of a run joins.
    fn near_ends(&self, run: usize, branch: &Branch, on_stud: bool) -> Vec<Terminal> {
        let out = self.places.fuse_side(run, false, Part::Out);
        if self.site.in_way(run) {
            vec![self.places.bar_of(branch), self.places.begins(branch)]
        } else if on_stud || self.site.is_way(run) {
            vec![self.places.begins(branch), out]
        } else {
            vec![self.places.fuse_side(run, false, Part::In), out]
        }
    }

    /// The two halves of each plug, both ways.
    fn plugs(&self) -> Vec<Joint> {
        let mut all = Vec::new();
        for plug in &self.site.plugs {
            let kind = self.site.catalogue.workshop.plug(&plug.kind).map_or(plug.kind.as_str(), |k| &k.name);
            for polarity in [Polarity::Positive, Polarity::Negative] {
                let ends = [Part::In, Part::Out].map(|part| Terminal { at: plug.name.clone(), polarity, part });
                if ends.iter().all(|end| self.touched.contains(end)) {
                    all.push(joint(plug.name.clone(), kind.to_string(), Joins::Closes, ends.to_vec()));
                }
            }
        }
        all
    }

    /// Loads, inverter, sun and mains: between plus and minus of their point.
    fn fed(&self) -> Vec<Joint> {
        let site = self.site;
        let mut all = Vec::new();
        let known = |at: &str| at == point::STARTER_BATTERY || site.circuits.has_point(at) || feed(site, at);
        let mut add = |name: &str, what: String, joins, at: &str| {
            if known(at) {
                all.push(joint(name, what, joins, vec![self.hang(at), self.minus(at)]));
            }
        };
        for (n, load) in site.loads.iter().enumerate().filter(|(_, l)| !l.inverter && l.count > 0) {
            let count = if load.count > 1 { format!("{} ×, together ", load.count) } else { String::new() };
            let own = if site.has_cable(n) { "" } else { ", by its own leads, not planned" };
            add(&load.name, format!("{count}{}{own}", load.power), Joins::Load, &load.at);
        }
        let (inverter, solar, mains) = (&site.inverter, &site.solar, &site.mains);
        if inverter.rating > Watts::ZERO {
            add("inverter", inverter.rating.to_string(), Joins::Load, &inverter.at);
        }
        let own = "by its own leads, not planned";
        if solar.array > Watts::ZERO {
            add("solar controller", format!("for {}, {own}", solar.array), Joins::Source, &solar.at);
        }
        if mains.current > Amps::ZERO {
            add("mains charger", format!("{}, {own}", mains.current), Joins::Source, &mains.at);
        }
        all
    }

    /// The positive terminal on which hangs what is fed at a point: behind the cut-off, before a main switch.
    fn hang(&self, at: &str) -> Terminal {
        match at {
            point::CUT_OFF if !self.places.cut_off_in_minus() => Terminal::plus(at, Part::Out),
            _ => self.places.feed(at, if feed(self.site, at) { Side::Feed } else { Side::Service }),
        }
    }

    /// Where the minus is at a point: its bar where several meet, else the end of its own return.
    fn minus(&self, at: &str) -> Terminal {
        if at == point::CUT_OFF && self.places.cut_off_in_minus() {
            return Terminal::minus(at, Part::Out);
        }
        let bar = format!("{BAR}{at}");
        if self.touches(&bar) {
            return Terminal::minus(bar, Part::Post);
        }
        let own = [self.places.back(at, true), self.places.back(at, false)];
        let none = || {
            let battery = if feed(self.site, at) { point::STARTER_BATTERY } else { point::SERVICE_BATTERY };
            Terminal::minus(battery, Part::Post)
        };
        own.into_iter().find(|end| self.touched.contains(end)).unwrap_or_else(none)
    }
}

/// Whether a point is known on the starter battery's side only.
fn feed(site: &Installation, at: &str) -> bool {
    at == point::STARTER_BATTERY || !site.circuits.has_point(at) && site.circuits.to_feed_point.contains_key(at)
}

fn joint(name: impl Into<String>, what: String, joins: Joins, terminals: Vec<Terminal>) -> Joint {
    Joint { name: name.into(), what, joins, run: None, thread: None, terminals }
}
