//! What burns of the cables that nobody planned: from a point to each load without a lead, and from the posts?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::simulate::fault::fuse::Fuses;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::engine::simulate::fault::tail::{LENGTH, Tail};
use crate::plan::{Place, Section, Value, point};
use crate::quantity::Amps;
use std::collections::BTreeMap;

/// What hangs on a point or on the posts by a cable that is not in the plan.
pub(crate) fn check(loops: &FaultLoops, fuses: &Fuses) -> Vec<Finding> {
    let site = loops.site;
    let mut at: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (load, own) in site.loads.iter().enumerate() {
        if !own.inverter && own.count > 0 && own.tail_fuse.is_none() && !site.has_cable(load) {
            at.entry(&own.at).or_default().push(load);
        }
    }
    let mut found = posts(site);
    for (point, loads) in at {
        let Some(branch) = site.branch_to(point) else { continue };
        let before = fuses.near.get(branch).and_then(Option::as_ref).or_else(|| loops.upstream(branch, &fuses.near));
        match before {
            None => found.extend(loads.iter().map(|&load| bare(site, load, point))),
            Some(_) => found.extend(Behind { loops, fuses, point, branch, loads }.check()),
        }
    }
    found
}

const RULE: &str = "a fuse wherever a cable becomes thinner, as at every end with a source: 33 CFR 183.455";

/// No device at all before a load's cable.
fn bare(site: &Installation, load: usize, point: &str) -> Finding {
    let name = &site.loads[load].name;
    let text = format!("{name} hangs on `{point}` by a cable that is not in this plan, and no fuse is before it");
    planned(Finding::new(Kind::LeadsUnplanned, Subject::Load(load), text).rule(RULE), load)
}

/// The remedies of a load whose cable is not planned.
fn planned(finding: Finding, load: usize) -> Finding {
    let place = Place::load(load, "lead_m");
    let words = format!("enter how long its cable is, {LENGTH} or as it is: then it is sized and fused");
    finding
        .at(place)
        .remedy_edit(words, place, Some(Value::Number(LENGTH.get())))
        .remedy("or its own fuse, such as 5 A, where its maker has put one into its leads")
}

/// The loads of one point behind one device.
struct Behind<'a, 'l> {
    loops: &'a FaultLoops<'l, 'a>,
    fuses: &'a Fuses<'l>,
    point: &'a str,
    branch: usize,
    loads: Vec<usize>,
}

impl Behind<'_, '_> {
    fn check(&self) -> Option<Finding> {
        let tails = || self.loads.iter().filter_map(|&load| self.loops.tail(load, self.branch, &self.fuses.near));
        let limits = FuseLimits::of(&self.loops.site.catalogue);
        let over = |t: &Tail| self.reach(t) > limits.at_most(t.size.for_ever());
        // The one that stands its fault for the shortest time burns first.
        let worst = tails()
            .filter(over)
            .min_by(|a, b| a.outlasts().cmp(&b.outlasts()).then(a.stands.get().total_cmp(&b.stands.get())));
        match worst {
            Some(tail) => Some(self.burns(&tail)),
            None if self.loads.len() > 1 => tails().next().map(|tail| self.told(&tail)),
            None => None,
        }
    }

    /// What may flow into it for ever: the device, and what joins behind it.
    fn reach(&self, tail: &Tail) -> Amps {
        tail.device.rating.unwrap_or(Amps::ZERO) + self.loops.joined_before(tail.device.branch, self.branch)
    }

    /// How many there are, and what is before them.
    fn cables(&self, tail: &Tail) -> String {
        let (_, run) = self.loops.run_of(tail.device.branch);
        let rating = tail.device.rating.unwrap_or(Amps::ZERO);
        let name = &self.loops.site.loads[tail.load].name;
        match self.loads.len() {
            1 => format!("the cable from `{}` to {name} is not in this plan, behind the {rating} of {run}", self.point),
            n => format!(
                "the cables from `{}` to its {n} loads are not in this plan, behind the {rating} of {run}",
                self.point
            ),
        }
    }

    fn run(&self) -> String {
        self.loops.run_of(self.branch).1
    }

    fn burns(&self, tail: &Tail) -> Finding {
        let name = &self.loops.site.loads[tail.load].name;
        let (severity, opens) = match tail.opens {
            Some(opens) if tail.outlasts() => (Severity::Caution, format!("is ended within {opens}")),
            Some(opens) => (Severity::Stop, format!("may last {opens}")),
            None => (Severity::Stop, "may never be ended".into()),
        };
        let text = format!(
            "{}: {} would do for the {} of {name} and carries {}; a fault of {} at its end {opens}, and it stands that for {}",
            self.cables(tail),
            tail.size.label,
            tail.draws,
            tail.size.for_ever(),
            tail.fault,
            tail.stands
        );
        let insulation = self.loops.run(self.branch).and_then(|run| self.loops.site.insulation_of(run));
        let k = insulation.map_or_else(String::new, |i| i.from.adiabatic_k.words());
        let promised = tail.device.style.filter(|_| tail.opens.is_some());
        let times = promised.map_or_else(String::new, |s| format!("; operating times: {}", s.gates_words()));
        let rule = format!(
            "{RULE}; I²t ≤ k²S², k: {k}{times}; taken as {LENGTH} of the thinnest size that carries the load (common \
             practice, no source)"
        );
        let finding = Finding::new(Kind::PanelFuses, self.subject(tail), text).as_severity(severity).rule(rule);
        let finding = planned(finding, tail.load);
        match self.loads.len() {
            1 => finding.remedy(format!("or call the point `{name}`, where {} ends on its own terminals", self.run())),
            n if !self.loops.site.boards.iter().any(|b| b.name == self.point) => finding.remedy(format!(
                "or make `{}` a board of {n} ways, among the boards beside the runs, and give each load its cable",
                self.point
            )),
            _ => finding,
        }
    }

    fn told(&self, tail: &Tail) -> Finding {
        let text = format!("{}: {} and more carries what it lets through", self.cables(tail), tail.size.label);
        let finding = Finding::new(Kind::PanelFuses, self.subject(tail), text).as_severity(Severity::Note).rule(RULE);
        planned(finding, tail.load)
    }

    fn subject(&self, tail: &Tail) -> Subject {
        if self.loads.len() > 1 { Subject::Point(self.point.into()) } else { Subject::Load(tail.load) }
    }
}

/// A stop for each thing that hangs on the service battery without a run: its leads have no fuse.
fn posts(site: &Installation) -> Vec<Finding> {
    let mut findings = Vec::new();
    let posts = |at: &str, tail: Option<Amps>| at == point::SERVICE_BATTERY && tail.is_none();
    let near = FuseLimits::of(&site.catalogue).placement(site);
    let within = near.map_or(String::new(), |p| format!(" within {} of the post", p.bare));
    let rule = near.map_or_else(
        || "a fuse at every source end".into(),
        |p| format!("a fuse at every source end: {}", p.from.bare.words()),
    );
    let mut found = |subject: Subject, what: &str, place: Place| {
        let text = format!(
            "{what} hangs on the battery's posts by its own leads, which have no size in this plan, and no fuse{within}"
        );
        let remedy = format!(
            "add a run from `{}` to a point of its own and connect it there; then cable and fuse are sized",
            point::SERVICE_BATTERY
        );
        let finding = Finding::new(Kind::LeadsUnplanned, subject, text).rule(rule.clone()).at(place).remedy(remedy);
        findings.push(finding.remedy("or enter the rating of its own fuse, such as 10 A, where its leads have one"));
    };
    let loads = site.loads.iter().enumerate().filter(|(n, l)| !l.inverter && l.count > 0 && site.lead_of(*n).is_none());
    for (i, load) in loads.filter(|(_, l)| posts(&l.at, l.tail_fuse)) {
        found(Subject::Load(i), &load.name, Place::load(i, "at"));
    }
    let (inverter, solar, mains) = (&site.inverter, &site.solar, &site.mains);
    for (there, at, tail, subject, what, section) in [
        (inverter.rating.get(), &inverter.at, inverter.tail_fuse, Subject::Inverter, "the inverter", Section::Inverter),
        (solar.array.get(), &solar.at, solar.tail_fuse, Subject::Solar, "the solar controller", Section::Solar),
        (mains.current.get(), &mains.at, mains.tail_fuse, Subject::Mains, "the mains charger", Section::Mains),
    ] {
        if there > 0.0 && posts(at, tail) {
            found(subject, what, Place::of(section, "at"));
        }
    }
    findings
}
