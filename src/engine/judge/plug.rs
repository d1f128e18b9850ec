//! Do the contacts of a plug take the cable and the current, and what is live when it is pulled?

use crate::catalogue::PlugKind;
use crate::engine::installation::Installation;
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::circuit::result::RunDesign;
use crate::plan::{ChargerKind, Place, Section, Value};
use crate::quantity::*;

/// Each plug of the plan.
pub(crate) fn check(site: &Installation, runs: &[RunDesign]) -> Vec<Finding> {
    let mut found = Vec::new();
    for (index, plug) in site.plugs.iter().enumerate() {
        let Some(kind) = site.catalogue.workshop.plug(&plug.kind) else { continue };
        let check = Check { site, runs, index, name: &plug.name, kind };
        let joined: Vec<usize> = check.joined().collect();
        if joined.is_empty() {
            found.push(check.loose());
        }
        found.extend(joined.iter().find_map(|&branch| check.thick(branch)));
        found.extend(joined.iter().find_map(|&branch| check.strong(branch)));
        found.extend(check.live());
    }
    found
}

struct Check<'a> {
    site: &'a Installation,
    runs: &'a [RunDesign],
    index: usize,
    name: &'a str,
    kind: &'a PlugKind,
}

impl Check<'_> {
    /// The branches that end in it, on either half.
    fn joined(&self) -> impl Iterator<Item = usize> + '_ {
        let branches = self.site.circuits.branches.iter().enumerate();
        branches.filter(|(_, b)| b.near == self.name || b.far == self.name).map(|(n, _)| n)
    }

    fn run(&self, branch: usize) -> Option<&RunDesign> {
        self.runs.get(self.site.circuits.branches.get(branch)?.run)
    }

    fn find(&self, kind: Kind, text: String, rule: String) -> Finding {
        let place = Place { section: Section::Plug, index: self.index, key: "kind" };
        Finding::new(kind, Subject::Point(self.name.into()), text).rule(rule).at(place)
    }

    /// Another plug that takes this much, where there is one; else in words.
    fn with_larger(&self, finding: Finding, area: SquareMillimetres, fuse: Amps) -> Finding {
        let takes = |k: &&PlugKind| k.largest >= area && k.most >= fuse;
        let place = Place { section: Section::Plug, index: self.index, key: "kind" };
        match self.site.catalogue.workshop.plugs.iter().find(takes) {
            Some(k) => {
                let words = format!("a {}, which takes {} and {}", k.name, k.largest, k.most);
                finding.remedy_edit(words, place, Some(Value::Text(k.key.clone())))
            }
            None => finding.remedy(format!("a plug of its own for {area} and {fuse}")),
        }
    }

    fn loose(&self) -> Finding {
        let text = format!("no run leads to the plug `{}`", self.name);
        self.find(Kind::PlugLoose, text, "a plug joins the run before it and the one behind it".into())
            .remedy(format!("let one run end at `{}` and another begin there", self.name))
    }

    /// What goes into the contacts.
    fn thick(&self, branch: usize) -> Option<Finding> {
        let (run, size) = (self.run(branch)?, self.run(branch)?.size.as_ref()?);
        if size.area <= self.kind.largest {
            return None;
        }
        let text = format!(
            "{} is {}; a contact of `{}` takes {} at most",
            run_name(&self.site.runs, run.run),
            size.label,
            self.name,
            self.kind.largest
        );
        let finding = self.find(Kind::PlugSmall, text, self.kind.from.largest.words());
        Some(self.with_larger(finding, size.area, self.fuse(branch).unwrap_or(run.current)))
    }

    /// The fuse before a branch: its own, or the nearest upstream.
    fn fuse(&self, branch: usize) -> Option<Amps> {
        let path = self.site.circuits.path_of(branch);
        path.into_iter().rev().find_map(|b| self.run(b)?.fuses.iter().find(|f| !f.far_end)?.rating)
    }

    /// What the contacts are fused at, or carry.
    fn strong(&self, branch: usize) -> Option<Finding> {
        let near = self.site.circuits.branches.get(branch)?.far == self.name;
        let run = self.run(branch).filter(|_| near)?;
        let fuse = self.fuse(branch).unwrap_or(run.current).max(run.current);
        if fuse <= self.kind.most {
            return None;
        }
        let name = run_name(&self.site.runs, run.run);
        let text = format!(
            "{name} is fused for {fuse} and carries {}; the contacts of `{}` take {} at most",
            run.current, self.name, self.kind.most
        );
        let area = run.size.as_ref().map_or(SquareMillimetres::ZERO, |s| s.area);
        Some(self.with_larger(self.find(Kind::PlugSmall, text, self.kind.from.most.words()), area, fuse))
    }

    /// A relay joins the batteries: what is pulled out is fed by the trailer's.
    fn live(&self) -> Option<Finding> {
        if self.site.charger.kind != ChargerKind::Relay || self.joined().next().is_none() {
            return None;
        }
        let text = format!(
            "pulled while its relay is closed, the trailer's half of `{}` has the {} of the service battery on its contacts",
            self.name, self.site.vehicle.alternator_voltage
        );
        let rule =
            "what is live when a plug is pulled is covered or fused at its own source (common practice, no source)";
        let place = Place::of(Section::Charger, "kind");
        Some(
            self.find(Kind::PlugLive, text, rule.into())
                .remedy("a fuse at the service battery's end of this run, and a cap over the plug")
                .remedy_edit("a DC-DC charger passes nothing back", place, Some(Value::Text("dc-dc".into()))),
        )
    }
}
