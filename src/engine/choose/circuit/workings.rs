//! How the numbers of a run and of what a load gets came about.

use crate::catalogue::Air;
use crate::engine::choose::circuit::size_workings::{OHM, RunInSize};
use crate::engine::installation::circuits::Side;
use crate::engine::installation::load::NOMINAL;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::simulate::circuit::demand::{End, Terminal};
use crate::engine::simulate::circuit::picked::PickedRun;
use crate::engine::simulate::circuit::result::{RunDesign, Settled};
use crate::engine::simulate::circuit::sized::{SizedRuns, Sizing};
use crate::engine::simulate::circuit::warming;
use crate::quantity::*;

const NETWORK: &str = "Kirchhoff's laws on the tree of runs, solved by Newton's method";

/// The lowest voltage at the service battery's posts.
fn lowest(known: &SizedRuns, notes: &mut Notes) {
    let words = "lowest voltage at the posts while loads run";
    let levels = &known.levels;
    let working = match levels.sag {
        Some(sag) => {
            let formula = "min(max((E + sqrt(max(E^2 - 4 * R * P, 0))) / 2, D, 6), H, 20)";
            Working::new(words, formula, levels.lowest)
                .with("E", "resting voltage at the reserve, in the coldest air", sag.resting)
                .with("R", "resistance inside, aged and cold", sag.inside)
                .with("P", "all that may be on together, the inverter at its whole rating", sag.power)
                .with("D", "voltage at which harm begins, or the inverter switches itself off", sag.floor)
                .with("H", "highest that the cut-off can be set to", sag.highest_setting)
                .source("V = E - R P / V; the cut-off is set by the usual current and rounded up, so never below that")
                .note("all loads as constant power, which is on the safe side for the others")
        }
        None => Working::new(words, "C", levels.lowest)
            .with("C", "cut-off setting", levels.lowest)
            .source("below it the loads are off"),
    };
    notes.add(Subject::ServiceBattery, "lowest voltage", || working);
}

pub(crate) fn write(known: &SizedRuns, sizing: &Sizing, notes: &mut Notes) {
    lowest(known, notes);
    for (index, terminal) in known.demand.terminals.iter().enumerate() {
        terminal_workings(known, index, terminal, notes);
    }
    for (branch, run) in known.picked.runs.iter().enumerate() {
        let index = known.site.circuits.branches[branch].run;
        let subject = Subject::Run(index);
        known.of_size(branch, run.chosen(), subject.clone()).write(notes);
        if let Some(design) = sizing.runs.get(index) {
            let at = SizedRun { known, run, design, branch, subject };
            at.air(notes);
            at.current(notes);
            at.drop_allowed(notes);
            at.voltages(notes);
            at.inverse(notes);
            at.equal_share(notes);
            warming::write(&known.picked, run, &design.short_time, &at.subject, notes);
        }
    }
}

impl SizedRuns<'_> {
    /// The workings of one size of a branch.
    pub(crate) fn of_size<'b>(
        &'b self,
        branch: usize,
        candidate: &'b crate::engine::simulate::circuit::candidate::Candidate,
        subject: Subject,
    ) -> RunInSize<'b> {
        RunInSize {
            site: self.site,
            picked: &self.picked,
            run: &self.picked.runs[branch],
            candidate,
            subject,
            owner: Subject::Run(self.site.circuits.branches[branch].run),
            far: &self.site.circuits.branches[branch].far,
            square: self.squares[branch],
        }
    }
}

fn terminal_workings(known: &SizedRuns, index: usize, terminal: &Terminal, notes: &mut Notes) {
    let subject = terminal.end.subject();
    let limit = NOMINAL * terminal.class.get();
    notes.add(subject.clone(), "drop limit", || {
        Working::new("most that may be lost on the way", "V * c", limit)
            .with("V", "nominal voltage", NOMINAL)
            .with("c", "share of its class", terminal.class)
            .source(terminal.class_source.clone())
    });
    if let Some(volts) = known.cases.steady[index].filter(|_| !terminal.end.feeds()) {
        let battery = volts + known.cases.drop[index];
        notes.add(subject.clone(), "voltage", || {
            Working::new("voltage at its terminals, all steady loads on", "V - U", volts)
                .with("V", "lowest voltage of the battery", battery)
                .with_from("U", "lost on the way", known.cases.drop[index], subject.clone(), "drop")
                .source(NETWORK)
        });
        notes.add(subject.clone(), "drop", || {
            Working::new("lost from the battery to its terminals, out and back", "", known.cases.drop[index])
                .with("V", "lowest voltage of the battery", battery)
                .source(NETWORK)
                .note("solved together with the currents of all loads and the copper's temperatures")
        });
    }
    if let (Some(steady), Some(start)) = (known.cases.steady[index], known.cases.start[index]) {
        notes.add(subject.clone(), "voltage at a start", || {
            Working::new("lowest voltage at its terminals while something starts", "min(V, S)", steady.min(start))
                .with("V", "all steady loads on", steady)
                .with("S", "lowest of all starts on top of these", start)
                .source(NETWORK)
        });
    }
    if let Some(charging) = known.cases.charging[index] {
        notes.add(subject.clone(), "voltage while charging", || {
            Working::new("highest voltage at its terminals, charging with little load", "V", charging)
                .with("V", "highest charge voltage", known.levels.charging)
                .source(
                    "a charging source holds its own terminals at no more; with little load nothing is lost on the way",
                )
        });
    }
    if let End::Load(i) = terminal.end {
        let working = match terminal.asks {
            crate::engine::physics::network::load::Load::Power(power) => {
                Working::new("largest steady current, for sizing", "P / max(V - U, 1)", terminal.current)
                    .with("P", "power of all items", power)
                    .with("V", "lowest voltage of the battery that feeds it", known.low_of(terminal))
                    .with("U", "most it may lose on the way", terminal.limit)
                    .source("power = voltage × current; it cannot get less than its limit leaves")
            }
            crate::engine::physics::network::load::Load::Resistance { rated, nominal } => {
                Working::new("largest steady current, for sizing", "P / N * max(V / N, 1)", terminal.current)
                    .with("P", "power of all items at the nominal voltage", rated)
                    .with("N", "nominal voltage", nominal)
                    .with("V", "charge voltage", known.levels.charging)
                    .source("a resistance draws most at the highest voltage")
            }
            crate::engine::physics::network::load::Load::Current(current) => {
                Working::new("largest steady current, for sizing", "I", terminal.current)
                    .with("I", "current of all items", current)
                    .source("it draws the same at any voltage")
            }
        };
        notes.add(Subject::Load(i), "largest current", || working);
    }
}

struct SizedRun<'a> {
    known: &'a SizedRuns<'a>,
    run: &'a PickedRun<'a>,
    design: &'a RunDesign,
    branch: usize,
    subject: Subject,
}

/// Symbols of the terms of a sum.
const TERMS: [&str; 12] = ["I1", "I2", "I3", "I4", "I5", "I6", "I7", "I8", "I9", "I10", "I11", "I12"];

impl SizedRun<'_> {
    fn current(&self, notes: &mut Notes) {
        let flow = self.known.demand.flows[self.branch];
        let surge = Working::new("largest short current", "max(I, O + S)", flow.surge)
            .with_from("I", "largest steady current", flow.current, self.subject.clone(), "current")
            .with("O", "to the loads beyond, all that may be on together", flow.out)
            .with("S", "the worst start beyond on top", flow.start)
            .source("one start at a time (common practice, no source)");
        notes.add(self.subject.clone(), "surge", || surge);
        let demand = &self.known.demand;
        let beyond: Vec<&Terminal> = demand.beyond[self.branch].iter().map(|t| &demand.terminals[*t]).collect();
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
                working = working.with(symbol, self.known.site.name_of(&terminal.end.subject()), terminal.current);
            }
            if counted.len() > TERMS.len() {
                working = working.note(format!("sum of {} ends; the first {} are shown", counted.len(), TERMS.len()));
            }
            notes.add(self.subject.clone(), number, || working);
        }
        let given = self.run.asked.run.current;
        let formula = if given.is_some() { "max(O, F, G)" } else { "max(O, F)" };
        let mut working = Working::new("largest steady current", formula, flow.current)
            .with_from("O", "to the loads beyond, all that may be on together", flow.out, self.subject.clone(), "current out")
            .with_from("F", "from the sources beyond", flow.inward, self.subject.clone(), "current in")
            .source("the larger of both directions")
            .note("constant powers at the lowest voltage they may get, resistances at the charge voltage: no design that keeps its classes carries more");
        if let Some(given) = given {
            working = working.with("G", "current to size for, entered by you", given);
        }
        notes.add(self.subject.clone(), "current", || working);
    }

    fn drop_allowed(&self, notes: &mut Notes) {
        let Some(left) = self.run.left.or(self.run.short) else { return };
        let text = "largest drop it may have, the other runs as they are";
        let allowed = Working::new(text, "max(U + X, 0)", self.design.drop_allowed)
            .with_from("U", "drop of the run", self.run.chosen().drop, self.subject.clone(), "drop")
            .with("X", "left to the tightest load beyond", left)
            .source("each load's class along its whole path");
        notes.add(self.subject.clone(), "drop allowed", || allowed);
    }

    /// By the tightest end: what its limit leaves after joints and fuses, shared by length and current.
    fn equal_share(&self, notes: &mut Notes) {
        let Some(share) = self.run.share else { return };
        let weight = |run: &PickedRun| run.asked.run.length.get() * run.asked.current.get();
        let fixed = |run: &PickedRun| run.asked.current * run.asked.fixed_at_most();
        let (known, runs) = (self.known, &self.known.picked.runs);
        let part = |terminal: &Terminal| {
            let path = known.site.circuits.path_of(terminal.branch?);
            let whole: f64 = path.iter().map(|b| weight(&runs[*b])).sum();
            let all: Volts = path.iter().map(|b| fixed(&runs[*b])).sum();
            let own = if whole > 0.0 { weight(self.run) / whole } else { 0.0 };
            let limit = known.picked.limit_of(&known.site.circuits, terminal);
            Some((fixed(self.run) + (limit - all).max(Volts::ZERO) * own, limit, all, whole))
        };
        let ends = known.demand.beyond[self.branch].iter().filter(|t| !known.picked.hopeless[**t]);
        let parts = ends.filter_map(|t| part(&known.demand.terminals[*t]));
        let Some((_, limit, all, whole)) = parts.min_by(|a, b| a.0.get().total_cmp(&b.0.get())) else { return };
        let working =
            Working::new("drop the usual sharing would allow it", "F + max(U - A, 0) * w / max(W, 0.000001)", share)
                .with("F", "lost in its own joints and fuse-link", fixed(self.run))
                .with("U", "most the tightest load beyond may lose", limit)
                .with("A", "lost in all joints and fuse-links of the path", all)
                .with("w", "its length × current, A m", Figure::number(weight(self.run)))
                .with("W", "the same of the whole path, A m", Figure::number(whole))
                .source("share of the path's drop by length and current (common practice, no source)");
        notes.add(self.subject.clone(), "equal share", || working);
    }

    fn air(&self, notes: &mut Notes) {
        let laid = &self.run.asked.laid;
        let surroundings = &self.known.site.surroundings;
        let working = if self.run.asked.run.air.is_some() {
            Working::new("hottest air along it", "A", laid.air)
                .with("A", "air along it", laid.air)
                .source("entered by you")
        } else {
            let (words, base) = match laid.place.map(|p| p.air) {
                Some(Air::EngineBay) => ("air of the engine bay", surroundings.engine_bay),
                _ => ("hottest air of the plan", surroundings.hottest),
            };
            let source = match laid.place {
                None => "the place is not known".into(),
                Some(place) if place.warmer.get() == 0.0 => "the place is no warmer than the air around it".into(),
                Some(place) => place.from.warmer.words(),
            };
            Working::new("hottest air along it", "A + w", laid.air)
                .with("A", words, base)
                .with("w", "the place is warmer by", laid.place.map_or(Kelvins::ZERO, |p| p.warmer))
                .source(source)
        };
        notes.add(self.subject.clone(), "air", || working);
    }

    fn voltages(&self, notes: &mut Notes) {
        let Settled { near, far, .. } = self.known.cases.settled[self.branch];
        let own = &self.known.site.circuits.branches[self.branch];
        let at_near = match own.parent.and_then(|p| self.known.site.circuits.branches.get(p)) {
            Some(parent) => Working::new("voltage at its near end, all steady loads on", "N", near)
                .with_from(
                    "N",
                    "voltage at the far end of the run before",
                    near,
                    Subject::Run(parent.run),
                    "far voltage",
                )
                .source(NETWORK),
            None if own.side == Side::Service => {
                Working::new("voltage at its near end, all steady loads on", "N", near)
                    .with_from("N", "lowest voltage of the battery", near, Subject::ServiceBattery, "lowest voltage")
                    .source(self.known.levels.source(own.side))
            }
            None => Working::new("voltage at its near end, all steady loads on", "N", near)
                .with("N", "lowest voltage of the battery", near)
                .source(self.known.levels.source(own.side)),
        };
        notes.add(self.subject.clone(), "near voltage", || at_near);
        notes.add(self.subject.clone(), "far voltage", || {
            Working::new("voltage at its far end, all steady loads on", "N - U", far)
                .with_from("N", "voltage at its near end", near, self.subject.clone(), "near voltage")
                .with("U", "lost in the run with the currents as they settle", near - far)
                .source(NETWORK)
        });
    }

    fn inverse(&self, notes: &mut Notes) {
        let (asked, chosen) = (&self.run.asked, self.run.chosen());
        let fixed = asked.fixed(self.known.picked.shelf.cables[chosen.cable].conductor.area);
        let per_metre = (chosen.resistance - fixed) / asked.run.length.get().max(1e-9);
        if let Some((longest, stop)) = self.design.longest {
            notes.add(self.subject.clone(), "longest", || {
                Working::new("longest length one way in this size", "max((U / I - F) / r, 0)", longest)
                    .with_from("U", "drop it may have", self.design.drop_allowed, self.subject.clone(), "drop allowed")
                    .with_from("I", "largest steady current", asked.current, self.subject.clone(), "current")
                    .with_from("F", "what does not grow with it", fixed, self.subject.clone(), "fixed resistance")
                    .with("r", "hot copper out and back, for each metre", per_metre)
                    .source(OHM)
                    .note(format!("stopped by: {stop}; the other runs as they are"))
            });
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
            notes.add(self.subject.clone(), "biggest", || working);
        }
        if let Some((warmest, stop)) = self.design.warmest {
            notes.add(self.subject.clone(), "warmest", || {
                Working::new("warmest air along it in this size", "", warmest)
                    .with_from("I", "largest steady current", asked.current, self.subject.clone(), "current")
                    .with("Tc", "hottest the insulation stands", asked.laid.insulation.max)
                    .source("found by halving, to 0.5 K on the safe side, with ampacity, fuse and drop at each air")
                    .note(format!("stopped by: {stop}"))
            });
        }
    }
}

/// Ends whose currents add up: of a group the largest.
fn counted<'a>(beyond: &[&'a Terminal], feeds: bool) -> Vec<&'a Terminal> {
    let largest = |t: &Terminal| {
        if t.group.is_none() {
            return true;
        }
        let same = beyond.iter().filter(|o| o.group == t.group);
        same.max_by(|a, b| a.current.get().total_cmp(&b.current.get())).is_none_or(|m| m.end == t.end)
    };
    beyond.iter().copied().filter(|t| t.end.feeds() == feeds && largest(t)).collect()
}
