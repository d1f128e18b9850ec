//! How the numbers of a run and of what a load gets came about.

use crate::catalogue::Air;
use crate::engine::choose::circuit::size_workings::{OHM, RunInSize};
use crate::engine::installation::circuits::Side;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working, sum};
use crate::engine::physics::network::load::Load as Law;
use crate::engine::simulate::circuit::cases::lost;
use crate::engine::simulate::circuit::demand::{End, Terminal, by_current, by_power, by_resistance, class_drop};
use crate::engine::simulate::circuit::picked::PickedRun;
use crate::engine::simulate::circuit::result::{RunDesign, Settled};
use crate::engine::simulate::circuit::sized::{SizedRuns, Sizing};
use crate::engine::simulate::circuit::warming;
use crate::quantity::*;
use crate::reckon;

const NETWORK: &str = "Kirchhoff's laws on the tree of runs, solved by Newton's method";

/// The lowest voltage at the service battery's posts.
fn lowest(known: &SizedRuns, notes: &mut Notes) {
    let words = "lowest voltage at the posts while loads run";
    notes.add(Subject::ServiceBattery, "lowest voltage", || match known.levels.sag {
        Some(sag) => sag
            .posts()
            .working(words)
            .source("V = E - R P / V; the cut-off is set by the usual current and rounded up, so never below that")
            .note("all loads as constant power, which is on the safe side for the others"),
        None => reckon!(Volts: C, C: "cut-off setting" = known.levels.lowest)
            .working(words)
            .source("below it the loads are off"),
    });
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
            at.size(notes);
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
            nominal: self.site.nominal(self.site.circuits.branches[branch].side),
            square: self.squares[branch],
        }
    }
}

fn terminal_workings(known: &SizedRuns, index: usize, terminal: &Terminal, notes: &mut Notes) {
    let (subject, cases) = (terminal.end.subject(), &known.cases);
    notes.add(subject.clone(), "drop limit", || {
        class_drop(terminal.class, terminal.nominal)
            .working("most that may be lost on the way")
            .source(terminal.class_source.clone())
    });
    if let Some(volts) = cases.steady[index].filter(|_| !terminal.end.feeds()) {
        let battery = known.low_of(terminal);
        notes.add(subject.clone(), "voltage", || {
            Working::new("lowest voltage at its terminals, all steady loads on", "", volts)
                .with("V", "lowest voltage of the battery", battery)
                .source(NETWORK)
                .note("solved together with the currents of all loads and the copper's temperatures")
        });
        notes.add(subject.clone(), "drop", || {
            lost(battery, volts)
                .working("lost from the battery to its terminals, out and back")
                .from("W", subject.clone(), "voltage")
                .source("difference of both")
        });
    }
    if let Some(lowest) = cases.at_start(index) {
        notes.add(subject.clone(), "voltage at a start", || {
            lowest.working("lowest voltage at its terminals while something starts").source(NETWORK)
        });
    }
    if let Some(charging) = cases.charging[index] {
        notes.add(subject.clone(), "voltage while charging", || {
            reckon!(Volts: V, V: "highest charge voltage" = charging)
                .working("highest voltage at its terminals, charging with little load")
                .source(
                    "a charging source holds its own terminals at no more; with little load nothing is lost on the way",
                )
        });
    }
    if let End::Load(i) = terminal.end {
        notes.add(Subject::Load(i), "largest current", || {
            let (name, lowest) = ("largest steady current, for sizing", known.low_of(terminal));
            match terminal.asks {
                Law::Power(power) => by_power(power, lowest, terminal.limit)
                    .working(name)
                    .source("power = voltage × current; it cannot get less than its limit leaves"),
                Law::Resistance { rated, nominal } => by_resistance(rated, nominal, known.levels.charging)
                    .working(name)
                    .source("a resistance draws most at the highest voltage"),
                Law::Current(current) => by_current(current).working(name).source("it draws the same at any voltage"),
            }
        });
    }
}

struct SizedRun<'a> {
    known: &'a SizedRuns<'a>,
    run: &'a PickedRun<'a>,
    design: &'a RunDesign,
    branch: usize,
    subject: Subject,
}

impl SizedRun<'_> {
    fn own(&self) -> Subject {
        self.subject.clone()
    }

    fn current(&self, notes: &mut Notes) {
        let flow = self.known.demand.flows[self.branch];
        notes.add(self.own(), "surge", || {
            flow.short()
                .working("largest short current")
                .from("I", self.own(), "current")
                .from("O", self.own(), "current out")
                .source("one start at a time (common practice, no source)")
        });
        for (feeds, number, name, result) in [
            (false, "current out", "current to the loads beyond", flow.out),
            (true, "current in", "current from the sources beyond", flow.inward),
        ] {
            notes.add(self.own(), number, || {
                let term = |t: &Terminal| (self.known.site.name_of(&t.end.subject()), t.current.into(), None);
                let terms = self.known.demand.counted(self.branch, feeds).map(term).collect();
                sum(name, result, terms).source("sum at the point (Kirchhoff)")
            });
        }
        notes.add(self.own(), "current", || {
            flow.steady(self.run.asked.run.current.unwrap_or(Amps::ZERO))
                .working("largest steady current")
                .from("O", self.own(), "current out")
                .from("F", self.own(), "current in")
                .source("the larger of both directions")
                .note("constant powers at the lowest voltage they may get, resistances at the charge voltage: no design that keeps its classes carries more")
        });
    }

    fn drop_allowed(&self, notes: &mut Notes) {
        let Some(allowed) = self.run.allowed() else { return };
        notes.add(self.own(), "drop allowed", || {
            allowed
                .working("largest drop it may have, the other runs as they are")
                .from("U", self.own(), "drop")
                .source("each load's class along its whole path")
        });
    }

    /// A size is chosen, not worked out: the least copper of all runs together that keeps these.
    fn size(&self, notes: &mut Notes) {
        let (asked, chosen) = (&self.run.asked, self.run.chosen());
        let own = || self.own();
        notes.add(own(), "size", || {
            let area = self.known.picked.shelf.cables[chosen.cable].conductor.area;
            let mut size = Working::new("copper of the run", "", area)
                .with_from("I", "it carries at least", asked.current, own(), "current")
                .with("S", "no thinner than is wanted", asked.smallest)
                .source(match self.run.pinned {
                    Some(_) => "entered by you",
                    None => "of all sizes that keep these the ones with the least copper, all runs together",
                })
                .note(format!("set by: {}", self.design.ruling));
            if asked.least_for_fuse > SquareMillimetres::ZERO {
                size = size.with("F", "no thinner than its fuses ask for", asked.least_for_fuse);
            }
            if self.run.left.or(self.run.short).is_some() {
                size = size.with_from("U", "it loses at most", self.design.drop_allowed, own(), "drop allowed");
            }
            size
        });
    }

    /// By the tightest end: what its limit leaves after joints and fuses, shared by length and current.
    fn equal_share(&self, notes: &mut Notes) {
        let Some(share) = self.run.share else { return };
        notes.add(self.own(), "equal share", || {
            share
                .working("drop the usual sharing would allow it")
                .source("share of the path's drop by length and current (common practice, no source)")
        });
    }

    fn air(&self, notes: &mut Notes) {
        let (asked, site) = (&self.run.asked, self.known.site);
        notes.add(self.own(), "air", || {
            let working = site.air_along(asked.run).working("hottest air along it");
            let place = asked.laid.place.filter(|_| asked.run.air.is_none());
            let working = working.source(match place {
                _ if asked.run.air.is_some() => "entered by you".into(),
                None => "the place is not known".into(),
                Some(place) if place.warmer.get() == 0.0 => "the place is no warmer than the air around it".into(),
                Some(place) => place.from.warmer.words(),
            });
            match place.map(|p| p.air) {
                Some(Air::EngineBay) => working.note("the air of the engine bay counts here"),
                _ => working,
            }
        });
    }

    fn voltages(&self, notes: &mut Notes) {
        let Settled { near, far, current, resistance, .. } = self.known.cases.settled[self.branch];
        let branches = &self.known.site.circuits.branches;
        notes.add(self.own(), "near voltage", || {
            let working = reckon!(Volts: N, N: "where it begins: the far end of the run before, or the battery" = near)
                .working("voltage at its near end, all steady loads on");
            let own = &branches[self.branch];
            match own.parent.and_then(|p| branches.get(p)) {
                Some(parent) => working.from("N", Subject::Run(parent.run), "far voltage").source(NETWORK),
                None if own.side == Side::Service => working
                    .from("N", Subject::ServiceBattery, "lowest voltage")
                    .source(self.known.levels.source(own.side)),
                None => working.source(self.known.levels.source(own.side)),
            }
        });
        notes.add(self.own(), "far voltage", || {
            Working::new("voltage at its far end, all steady loads on", "", far)
                .with_from("N", "voltage at its near end", near, self.own(), "near voltage")
                .with("I", "current in it, as it settles", current)
                .with("R", "resistance of the loop at that", resistance)
                .source(NETWORK)
                .note("solved together with the currents of all loads and the copper's temperatures")
        });
    }

    fn inverse(&self, notes: &mut Notes) {
        let (asked, chosen) = (&self.run.asked, self.run.chosen());
        if let Some((longest, (_, stop))) = self.known.turned(self.run).longest().zip(self.design.longest) {
            notes.add(self.own(), "longest", || {
                longest
                    .working("longest length one way in this size")
                    .from("U", self.own(), "drop allowed")
                    .from("I", self.own(), "current")
                    .from("F", self.own(), "fixed resistance")
                    .source(OHM)
                    .note(format!("stopped by: {stop}; the other runs as they are"))
            });
        }
        if let Some((biggest, stop)) = self.design.biggest {
            let mut working = Working::new("biggest steady current on this cable", "", biggest).with_from(
                "A",
                "ampacity",
                chosen.ampacity.used(),
                self.own(),
                "ampacity",
            );
            if self.run.left.is_some() {
                working =
                    working.with_from("U", "drop it may have", self.design.drop_allowed, self.own(), "drop allowed");
            }
            let working = working
                .source("the smallest of ampacity, what the largest fuse within it carries, and allowed drop over hot resistance")
                .note(format!("stopped by: {stop}; the other runs as they are"));
            notes.add(self.own(), "biggest", || working);
        }
        if let Some((warmest, stop)) = self.design.warmest {
            notes.add(self.own(), "warmest", || {
                Working::new("warmest air along it in this size", "", warmest)
                    .with_from("I", "largest steady current", asked.current, self.own(), "current")
                    .with("Tc", "hottest the insulation stands", asked.laid.insulation.max)
                    .source("found by halving, to 0.5 K on the safe side, with ampacity, fuse and drop at each air")
                    .note(format!("stopped by: {stop}"))
            });
        }
    }
}
