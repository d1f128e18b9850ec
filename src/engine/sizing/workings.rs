//! How the numbers of a run and of what a load gets came about.

use super::candidate::contact_resistance;
use super::demand::{End, Terminal};
use super::levels::NOMINAL;
use super::pick::PickedRun;
use super::rows::{Known, Sizing};
use crate::catalogue::{COPPER_DENSITY, COPPER_OHM_MM2_PER_KM};
use crate::engine::book::Book;
use crate::engine::conductor::{HeatPath, TableFactors};
use crate::engine::run::RunDesign;
use crate::engine::subject::Subject;
use crate::engine::working::Working;
use crate::plan::ReturnPath;
use crate::quantity::*;

const OHM: &str = "Ohm's law";
const NETWORK: &str = "Kirchhoff's laws on the tree of runs, solved by Newton's method";
const BALANCE: &str = "heat balance of one cable in still air: conduction through the insulation, natural convection \
                       (Churchill and Chu 1975, from memory), radiation";

pub(super) fn write(known: &Known, sizing: &Sizing, book: &mut Book) {
    for (index, terminal) in known.demand.terminals.iter().enumerate() {
        terminal_workings(known, index, terminal, book);
    }
    for (branch, run) in known.picked.runs.iter().enumerate() {
        let index = known.topology.branches[branch].run;
        if let Some(design) = sizing.runs.get(index) {
            let at = Of { known, run, design, branch, subject: Subject::Run(index) };
            at.current(book);
            at.resistance(book);
            at.drop(book);
            at.heat(book);
            at.copper(book);
            at.voltages(book);
            at.inverse(book);
        }
    }
}

fn terminal_workings(known: &Known, index: usize, terminal: &Terminal, book: &mut Book) {
    let subject = terminal.end.subject();
    let limit = NOMINAL * terminal.class.get();
    book.work(
        subject.clone(),
        "drop limit",
        Working::new("most that may be lost on the way", "V * c", limit)
            .with("V", "nominal voltage", NOMINAL)
            .with("c", "share of its class", terminal.class)
            .source(terminal.class_source.clone()),
    );
    if let Some(volts) = known.cases.steady[index].filter(|_| !terminal.end.feeds()) {
        let battery = volts + known.cases.drop[index];
        book.work(
            subject.clone(),
            "voltage",
            Working::new("voltage at its terminals, all steady loads on", "V - U", volts)
                .with("V", "lowest voltage of the battery", battery)
                .with_from("U", "lost on the way", known.cases.drop[index], subject.clone(), "drop")
                .source(NETWORK),
        );
        book.work(
            subject.clone(),
            "drop",
            Working::new("lost from the battery to its terminals, out and back", "", known.cases.drop[index])
                .with("V", "lowest voltage of the battery", battery)
                .source(NETWORK)
                .note("solved together with the currents of all loads and the copper's temperatures"),
        );
    }
    if let End::Load(i) = terminal.end {
        let working = match terminal.asks {
            crate::engine::network::Load::Power(power) => {
                Working::new("largest steady current, for sizing", "P / max(V - U, 1)", terminal.current)
                    .with("P", "power of all items", power)
                    .with("V", "lowest voltage of the battery that feeds it", known.low_of(terminal))
                    .with("U", "most it may lose on the way", terminal.limit)
                    .source("power = voltage × current; it cannot get less than its limit leaves")
            }
            crate::engine::network::Load::Resistance { rated, nominal } => {
                Working::new("largest steady current, for sizing", "P / N * max(V / N, 1)", terminal.current)
                    .with("P", "power of all items at the nominal voltage", rated)
                    .with("N", "nominal voltage", nominal)
                    .with("V", "charge voltage", known.levels.charging)
                    .source("a resistance draws most at the highest voltage")
            }
            crate::engine::network::Load::Current(current) => {
                Working::new("largest steady current, for sizing", "I", terminal.current)
                    .with("I", "current of all items", current)
                    .source("it draws the same at any voltage")
            }
        };
        book.work(Subject::Load(i), "largest current", working);
    }
}

struct Of<'a> {
    known: &'a Known<'a>,
    run: &'a PickedRun<'a>,
    design: &'a RunDesign,
    branch: usize,
    subject: Subject,
}

/// Symbols of the terms of a sum.
const TERMS: [&str; 12] = ["I1", "I2", "I3", "I4", "I5", "I6", "I7", "I8", "I9", "I10", "I11", "I12"];

impl Of<'_> {
    fn ways(&self) -> f64 {
        if self.run.asked.run.return_path == ReturnPath::Cable { 2.0 } else { 1.0 }
    }

    fn current(&self, book: &mut Book) {
        let flow = self.known.demand.flows[self.branch];
        if self.run.asked.run.current.is_some() {
            let working = Working::new("largest steady current", "I", flow.current)
                .with("I", "current to size for", flow.current)
                .source("entered by you");
            book.work(self.subject.clone(), "current", working);
            return;
        }
        let beyond: Vec<&Terminal> = self.known.demand.beyond(self.known.topology, self.branch).collect();
        for (feeds, number, name, result) in [
            (false, "current out", "current to the loads beyond", flow.out),
            (true, "current in", "current from the sources beyond", flow.inward),
        ] {
            let counted = counted(&beyond, feeds);
            let formula = if counted.is_empty() || counted.len() > TERMS.len() {
                String::new()
            } else {
                TERMS[..counted.len()].join(" + ")
            };
            let mut working = Working::new(name, formula, result).source("sum at the point (Kirchhoff)");
            for (symbol, terminal) in TERMS.into_iter().zip(&counted) {
                working = working.with(symbol, terminal.end.subject().words(self.known.plan), terminal.current);
            }
            if counted.len() > TERMS.len() {
                working = working.note(format!("sum of {} ends; the first {} are shown", counted.len(), TERMS.len()));
            }
            book.work(self.subject.clone(), number, working);
        }
        let working = Working::new("largest steady current", "max(O, F)", flow.current)
            .with_from("O", "to the loads beyond, all that may be on together", flow.out, self.subject.clone(), "current out")
            .with_from("F", "from the sources beyond", flow.inward, self.subject.clone(), "current in")
            .source("the larger of both directions")
            .note("constant powers at the lowest voltage they may get, resistances at the charge voltage: no design that keeps its classes carries more");
        book.work(self.subject.clone(), "current", working);
    }

    fn resistance(&self, book: &mut Book) {
        let (asked, chosen, known) = (&self.run.asked, self.run.chosen(), self.known);
        let rules = &known.catalogue.rules;
        let far = &known.topology.branches[self.branch].far;
        let cable = &known.picked.shelf.cables[chosen.cable];
        let body: Ohms = known.plan.vehicle.chassis_mohm.into();
        let body = if asked.run.return_path == ReturnPath::Chassis { body } else { Ohms::ZERO };
        book.work(
            self.subject.clone(),
            "fixed resistance",
            Working::new("joints, switches, fuse-link and body", "n * j + s / 1000 + c + f + b", asked.fixed)
                .with("n", "joints in the loop", Figure::new(f64::from(asked.run.joints), Unit::Count))
                .with("j", "one joint", Ohms::from_milli(rules.number("joint-mohm")))
                .with("s", "switches and plugs", asked.run.switch_mohm)
                .with("c", "contact of the cut-off at its far end", contact_resistance(known.catalogue, far))
                .with("f", "fuse-link and holder", asked.link)
                .with("b", "the body as way back", body)
                .source(rules.number_source("joint-mohm")),
        );
        book.work(
            self.subject.clone(),
            "resistance",
            Working::new(
                "resistance of the loop, hot",
                "n * L * R / 1000 * (234.5 + T) / 254.5 + F",
                chosen.resistance,
            )
            .with("n", "conductors, out and back", Figure::new(self.ways(), Unit::Count))
            .with("L", "length one way", asked.run.length)
            .with("R", "resistance of the conductor at 20 °C", cable.conductor.resistance)
            .with_from("T", "temperature of the conductor", chosen.temperature, self.subject.clone(), "temperature")
            .with_from("F", "what does not warm with it", asked.fixed, self.subject.clone(), "fixed resistance")
            .source(format!("{}; warm copper by NBS Handbook 100", cable.conductor.from.words())),
        );
    }

    fn drop(&self, book: &mut Book) {
        let (asked, chosen) = (&self.run.asked, self.run.chosen());
        book.work(
            self.subject.clone(),
            "drop",
            Working::new("drop of the run at its largest current", "I * R", chosen.drop)
                .with_from("I", "largest steady current", asked.current, self.subject.clone(), "current")
                .with_from("R", "resistance of the loop, hot", chosen.resistance, self.subject.clone(), "resistance")
                .source(OHM),
        );
        if let Some(left) = self.run.left {
            let allowed = Working::new(
                "largest drop it may have, the other runs as they are",
                "max(U + X, 0)",
                self.design.drop_allowed,
            )
            .with_from("U", "drop of the run", chosen.drop, self.subject.clone(), "drop")
            .with("X", "left to the tightest load beyond", left)
            .source("each load's class along its whole path");
            book.work(self.subject.clone(), "drop allowed", allowed);
        }
        if let Some(row) = &self.design.size {
            let square = row.loss.get() / 24.0 / row.resistance.get().max(1e-12);
            let loss = Working::new("energy lost in a day", "24 * R * Q", row.loss)
                .with_from("R", "resistance of the loop, hot", row.resistance, self.subject.clone(), "resistance")
                .with("Q", "mean of the squared current over a day, A²", Figure::number(square))
                .source("Joule's law")
                .note("the loads beyond switch on and off independently of each other (an approximation)");
            book.work(self.subject.clone(), "loss", loss);
        }
    }

    fn heat(&self, book: &mut Book) {
        let (asked, chosen, known) = (&self.run.asked, self.run.chosen(), self.known);
        let table = &known.catalogue.ampacity;
        let factors = TableFactors::of(table, &asked.laid);
        let cable = &known.picked.shelf.cables[chosen.cable];
        let path = HeatPath::new(cable, &asked.laid, factors.bundle.value);
        let heat = |name: &'static str, result: Figure| {
            Working::new(name, "", result)
                .with("Ta", "air along it", asked.laid.air)
                .with("R", "resistance of the conductor at 20 °C", path.resistance)
                .with("d", "diameter of the copper", path.copper)
                .with("D", "outside diameter", path.outside)
                .with(
                    "k",
                    "conductivity of the insulation",
                    Figure::new(asked.laid.insulation.conductivity_w_per_mk, Unit::WattPerMetreKelvin),
                )
                .with("e", "emissivity of the surface", Figure::number(path.emissivity))
                .with("F", "cooling left by place and bundle", Figure::number(path.cooling))
                .source(BALANCE)
                .note("an approximation: one cable in still air; the place's factor is common practice")
        };
        book.work(
            self.subject.clone(),
            "temperature",
            heat("conductor at its largest steady current", chosen.temperature.into()).with(
                "I",
                "largest steady current",
                asked.current,
            ),
        );
        book.work(
            self.subject.clone(),
            "ampacity by heat balance",
            heat("current that keeps the conductor at its insulation's limit", chosen.ampacity.heat.into()).with(
                "Tc",
                "hottest the insulation stands",
                asked.laid.insulation.max,
            ),
        );
        let used = chosen.ampacity.used();
        let Some((amps, base)) =
            chosen.ampacity.table.zip(table.base_of(&cable.conductor, asked.laid.insulation.column))
        else {
            let working = Working::new("ampacity", "H", used)
                .with_from(
                    "H",
                    "by heat balance",
                    chosen.ampacity.heat,
                    self.subject.clone(),
                    "ampacity by heat balance",
                )
                .source("the table has no value for this size");
            book.work(self.subject.clone(), "ampacity", working);
            return;
        };
        book.work(
            self.subject.clone(),
            "ampacity by table",
            Working::new("ampacity by table and factors", "B * a * b", amps)
                .with("B", "table", base.value)
                .with("a", "factor for the air", Figure::number(factors.air.value))
                .with("b", "factor for the bundle", Figure::number(factors.bundle.value))
                .source(base.source)
                .note(format!("air: {}", factors.air.source))
                .note(format!("bundle of {} loaded conductors: {}", asked.laid.conductors, factors.bundle.source)),
        );
        book.work(
            self.subject.clone(),
            "ampacity",
            Working::new("ampacity", "min(A, H)", used)
                .with_from("A", "by table and factors", amps, self.subject.clone(), "ampacity by table")
                .with_from(
                    "H",
                    "by heat balance",
                    chosen.ampacity.heat,
                    self.subject.clone(),
                    "ampacity by heat balance",
                )
                .source("where two methods differ the smaller rules"),
        );
    }

    fn copper(&self, book: &mut Book) {
        let (asked, chosen) = (&self.run.asked, self.run.chosen());
        let cable = &self.known.picked.shelf.cables[chosen.cable];
        book.work(
            self.subject.clone(),
            "mass",
            Working::new("mass of copper, out and back", "n * L * r / R * D / 1000000", chosen.mass)
                .with("n", "conductors, out and back", Figure::new(self.ways(), Unit::Count))
                .with("L", "length one way", asked.run.length)
                .with("r", "resistivity of copper, Ω mm²/km", Figure::number(COPPER_OHM_MM2_PER_KM))
                .with("R", "resistance of the conductor at 20 °C", cable.conductor.resistance)
                .with("D", "density of copper, kg/m³", Figure::number(COPPER_DENSITY))
                .source("NBS Handbook 100; the copper that gives the published resistance"),
        );
    }

    fn voltages(&self, book: &mut Book) {
        let (near, far) = self.known.cases.ends[self.branch];
        book.work(
            self.subject.clone(),
            "far voltage",
            Working::new("voltage at its far end, all steady loads on", "N - U", far)
                .with("N", "voltage at its near end", near)
                .with("U", "lost in the run with the currents as they settle", near - far)
                .source(NETWORK),
        );
    }

    fn inverse(&self, book: &mut Book) {
        let (asked, chosen) = (&self.run.asked, self.run.chosen());
        let per_metre = (chosen.resistance - asked.fixed) / asked.run.length.get().max(1e-9);
        if let Some((longest, stop)) = self.design.longest {
            book.work(
                self.subject.clone(),
                "longest",
                Working::new("longest length one way in this size", "max((U / I - F) / r, 0)", longest)
                    .with_from("U", "drop it may have", self.design.drop_allowed, self.subject.clone(), "drop allowed")
                    .with_from("I", "largest steady current", asked.current, self.subject.clone(), "current")
                    .with_from("F", "what does not grow with it", asked.fixed, self.subject.clone(), "fixed resistance")
                    .with("r", "hot copper out and back, for each metre", per_metre)
                    .source(OHM)
                    .note(format!("stopped by: {stop}; the other runs as they are")),
            );
        }
        if let Some((biggest, stop)) = self.design.biggest {
            let mut working = Working::new("biggest steady current on this cable", "", biggest).with_from(
                "A",
                "ampacity",
                chosen.ampacity.used(),
                self.subject.clone(),
                "ampacity",
            );
            if self.run.left.is_some() {
                working = working.with_from(
                    "U",
                    "drop it may have",
                    self.design.drop_allowed,
                    self.subject.clone(),
                    "drop allowed",
                );
            }
            let working = working
                .source("the smallest of ampacity, what the largest fuse within it carries, and allowed drop over hot resistance")
                .note(format!("stopped by: {stop}; the other runs as they are"));
            book.work(self.subject.clone(), "biggest", working);
        }
        if let Some((warmest, stop)) = self.design.warmest {
            book.work(
                self.subject.clone(),
                "warmest",
                Working::new("warmest air along it in this size", "", warmest)
                    .with_from("I", "largest steady current", asked.current, self.subject.clone(), "current")
                    .with("Tc", "hottest the insulation stands", asked.laid.insulation.max)
                    .source("found by halving, to 0.1 K on the safe side, with ampacity, fuse and drop at each air")
                    .note(format!("stopped by: {stop}")),
            );
        }
    }
}

/// Ends whose currents add up: of a group the largest.
fn counted<'a>(beyond: &[&'a Terminal], feeds: bool) -> Vec<&'a Terminal> {
    let largest = |t: &Terminal| {
        let same = beyond.iter().filter(|o| t.group.is_some() && o.group == t.group);
        same.max_by(|a, b| a.current.get().total_cmp(&b.current.get())).is_none_or(|m| m.end == t.end)
    };
    beyond.iter().copied().filter(|t| t.end.feeds() == feeds && largest(t)).collect()
}
