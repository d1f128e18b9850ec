//! What burns of the cables that nobody planned: from a point to what hangs there by its own leads, and from the posts?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::judge::tail_fuse;
use crate::engine::simulate::fault::fuse::Fuses;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::engine::simulate::fault::tail::{Hanging, LENGTH, Tail, hanging};
use crate::plan::{Value, point};
use crate::quantity::Amps;
use std::collections::BTreeMap;

/// What hangs on a point or on the posts by leads that are not in the plan.
pub(crate) fn check(loops: &FaultLoops, fuses: &Fuses) -> Vec<Finding> {
    let all = hanging(loops.site);
    let mut found: Vec<Finding> = all.iter().flat_map(|h| tail_fuse::check(loops, fuses, h)).collect();
    let bare: Vec<Hanging> = all.into_iter().filter(|h| h.tail_fuse.is_none()).collect();
    let (posts, at_points): (Vec<Hanging>, Vec<Hanging>) =
        bare.into_iter().partition(|h| h.at == point::SERVICE_BATTERY);
    found.extend(posts.iter().map(|h| at_posts(loops.site, h)));
    let mut at: BTreeMap<&str, Vec<Hanging>> = BTreeMap::new();
    at_points.into_iter().for_each(|h| at.entry(h.at).or_default().push(h));
    for (point, there) in at {
        let Some(branch) = loops.site.branch_to(point) else { continue };
        match loops.device(branch, &fuses.near) {
            None => found.extend(there.iter().map(bare_at)),
            Some(_) => found.extend(Behind { loops, fuses, point, branch, there }.check()),
        }
    }
    found
}

const RULE: &str = "a fuse wherever a cable becomes thinner, as at every end with a source: 33 CFR 183.455";

/// No device at all before it.
fn bare_at(hanging: &Hanging) -> Finding {
    let text = format!(
        "{} hangs on `{}` by a cable that is not in this plan, and no fuse is before it",
        hanging.name, hanging.at
    );
    planned(Finding::new(Kind::LeadsUnplanned, hanging.subject.clone(), text).rule(RULE), hanging)
}

/// The remedies of what hangs by leads that are not planned.
fn planned(finding: Finding, hanging: &Hanging) -> Finding {
    let finding = match hanging.subject {
        Subject::Load(_) => {
            let words = format!("enter how long its cable is, {LENGTH} or as it is: then it is sized and fused");
            let place = hanging.place("lead_m");
            finding.at(place).remedy_edit(words, place, Some(Value::Number(LENGTH.get())))
        }
        _ => finding
            .at(hanging.place("at"))
            .remedy(format!("add a run from `{}` to a point of its own and connect it there", hanging.at)),
    };
    finding.remedy("or enter its own fuse, such as 5 A, where its maker has put one into its leads")
}

/// What hangs on one point behind one device.
struct Behind<'a, 'l> {
    loops: &'a FaultLoops<'l, 'a>,
    fuses: &'a Fuses<'l>,
    point: &'a str,
    branch: usize,
    there: Vec<Hanging<'a>>,
}

impl Behind<'_, '_> {
    fn check(&self) -> Option<Finding> {
        let tails = || self.there.iter().filter_map(|h| Some((h, self.loops.tail(h, self.branch, &self.fuses.near)?)));
        let limits = FuseLimits::of(&self.loops.site.catalogue);
        let over = |(_, t): &(&Hanging, Tail)| self.reach(t) > limits.at_most(t.size.for_ever());
        // The one that stands its fault for the shortest time burns first.
        let worst = tails()
            .filter(over)
            .min_by(|(_, a), (_, b)| a.outlasts().cmp(&b.outlasts()).then(a.stands.get().total_cmp(&b.stands.get())));
        match worst {
            Some((hanging, tail)) => Some(self.burns(hanging, &tail)),
            None if self.there.len() > 1 => tails().next().map(|(hanging, tail)| self.told(hanging, &tail)),
            None => None,
        }
    }

    /// What may flow into it for ever: the device, and what joins behind it.
    fn reach(&self, tail: &Tail) -> Amps {
        tail.device.rating.unwrap_or(Amps::ZERO) + self.loops.joined_before(tail.device.branch, self.branch)
    }

    /// How many there are, and what is before them.
    fn cables(&self, hanging: &Hanging, tail: &Tail) -> String {
        let (_, run) = self.loops.run_of(tail.device.branch);
        let rating = tail.device.rating.unwrap_or(Amps::ZERO);
        let (cables, are) = match self.there.len() {
            1 => (format!("the cable from `{}` to {}", self.point, hanging.name), "is"),
            n if self.there.iter().all(|h| matches!(h.subject, Subject::Load(_))) => {
                (format!("the cables from `{}` to its {n} loads", self.point), "are")
            }
            n => (format!("the cables from `{}` to the {n} that hang on it", self.point), "are"),
        };
        format!("{cables} {are} not in this plan, behind the {rating} of {run}")
    }

    fn run(&self) -> String {
        self.loops.run_of(self.branch).1
    }

    fn burns(&self, hanging: &Hanging, tail: &Tail) -> Finding {
        let name = hanging.name;
        let (severity, opens) = match tail.opens {
            Some(opens) if tail.outlasts() => (Severity::Caution, format!("is ended within {opens}")),
            Some(opens) => (Severity::Stop, format!("may last {opens}")),
            None => (Severity::Stop, "may never be ended".into()),
        };
        let text = format!(
            "{}: {} would do for the {} of {name} and carries {}; a fault of {} at its end {opens}, and it stands that for {}",
            self.cables(hanging, tail),
            tail.size.label,
            hanging.current,
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
        let finding = Finding::new(Kind::PanelFuses, self.subject(hanging), text).as_severity(severity).rule(rule);
        let finding = planned(finding, hanging);
        match self.there.len() {
            1 if !matches!(hanging.subject, Subject::Load(_)) => finding,
            1 => finding.remedy(format!("or call the point `{name}`, where {} ends on its own terminals", self.run())),
            n if !self.loops.site.boards.iter().any(|b| b.name == self.point) => finding.remedy(format!(
                "or make `{}` a board of {n} ways, among the boards beside the runs, and give each load its cable",
                self.point
            )),
            _ => finding,
        }
    }

    fn told(&self, hanging: &Hanging, tail: &Tail) -> Finding {
        let text = format!("{}: {} and more carries what it lets through", self.cables(hanging, tail), tail.size.label);
        let finding =
            Finding::new(Kind::PanelFuses, self.subject(hanging), text).as_severity(Severity::Note).rule(RULE);
        planned(finding, hanging)
    }

    fn subject(&self, hanging: &Hanging) -> Subject {
        if self.there.len() > 1 { Subject::Point(self.point.into()) } else { hanging.subject.clone() }
    }
}

/// What hangs on the service battery without a run has no fuse.
fn at_posts(site: &Installation, hanging: &Hanging) -> Finding {
    let near = FuseLimits::of(&site.catalogue).placement(site);
    let within = near.map_or(String::new(), |p| format!(" within {} of the post", p.bare));
    let rule = near.map_or_else(
        || "a fuse at every source end".into(),
        |p| format!("a fuse at every source end: {}", p.from.bare.words()),
    );
    let text = format!(
        "{} hangs on the battery's posts by its own leads, which have no size in this plan, and no fuse{within}",
        hanging.name
    );
    let remedy = format!(
        "add a run from `{}` to a point of its own and connect it there; then cable and fuse are sized",
        point::SERVICE_BATTERY
    );
    Finding::new(Kind::LeadsUnplanned, hanging.subject.clone(), text)
        .rule(rule)
        .at(hanging.place("at"))
        .remedy(remedy)
        .remedy("or enter the rating of its own fuse, such as 10 A, where its leads have one")
}
