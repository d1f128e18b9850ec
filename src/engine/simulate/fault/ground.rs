//! What every rule of this folder looks at: the runs as links, the sources, what lies behind a fuse.

use crate::catalogue::Placement;
use crate::engine::choose::fuse::choice::ChoiceRules;
use crate::engine::installation::Installation;
use crate::engine::installation::circuits::{Branch, Topology};
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::sources::Sources;
use crate::plan::Run;
use crate::quantity::*;

/// Plan, catalogue and what was sized, as the rules need it.
pub(crate) struct Ground<'a> {
    pub site: &'a Installation,
    pub runs: &'a [RunDesign],
    pub sources: Sources<'a>,
    /// One for each branch.
    pub links: Vec<Link>,
    /// Cold resistance from the battery to the near end of each branch.
    pub cold_to: Vec<Ohms>,
    pub rules: ChoiceRules,
    /// Steady current over rating.
    pub loading: Share,
    /// Air at fuse holders above the air along the run.
    pub holder_warmer: Kelvins,
    /// Longest that a far-end fault may last.
    pub fault_open: Seconds,
    /// How far a fuse may sit from its source.
    pub placement: Option<&'a Placement>,
}

impl<'a> Ground<'a> {
    pub fn new(
        site: &'a Installation,
        battery: &BatteryDesign,
        charger: &ChargerDesign,
        runs: &'a [RunDesign],
    ) -> Self {
        let rules = &site.catalogue.rules;
        let nothing = Run::default();
        let link = |b: &Branch| {
            let size = runs.get(b.run).and_then(|r| r.size.as_ref());
            Link::with_size(site, site.runs.get(b.run).unwrap_or(&nothing), &b.far, size)
        };
        let links: Vec<Link> = site.circuits.branches.iter().map(link).collect();
        let cold_to = cold_to(&site.circuits, &links, site.surroundings.coldest);
        let wanted = site.rules.placement.as_deref();
        let placement =
            rules.placement.iter().find(|p| wanted == Some(p.key.as_str())).or_else(|| rules.placement.first());
        Ground {
            site,
            runs,
            sources: Sources::of(site, battery, charger),
            links,
            cold_to,
            rules: ChoiceRules::of(&site.catalogue),
            loading: site.rules.fuse_loading.unwrap_or(rules.fuse_loading.value),
            holder_warmer: rules.fuse_air.value,
            fault_open: rules.fault_open.value,
            placement,
        }
    }

    pub fn branch(&self, index: usize) -> Option<&'a Branch> {
        self.site.circuits.branches.get(index)
    }

    pub fn run(&self, index: usize) -> Option<&'a Run> {
        self.site.runs.get(self.branch(index)?.run)
    }

    pub fn design(&self, index: usize) -> Option<&'a RunDesign> {
        self.runs.get(self.branch(index)?.run)
    }

    pub fn link(&self, index: usize) -> Option<&Link> {
        self.links.get(index)
    }

    /// The branch and those that feed it, from itself to the battery.
    pub fn upward(&self, branch: usize) -> impl Iterator<Item = usize> + '_ {
        std::iter::successors(Some(branch), |&b| self.site.circuits.branches.get(b).and_then(|b| b.parent))
    }

    /// Whether a branch lies at or beyond another.
    pub fn is_beyond(&self, branch: usize, of: usize) -> bool {
        self.upward(branch).any(|b| b == of)
    }

    /// What one fuse at the near end of a branch protects: the branch and every
    /// run beyond it that has no fuse of its own.
    pub fn zone(&self, branch: usize) -> Vec<usize> {
        let mut zone = vec![branch];
        let mut next = 0;
        while let Some(&b) = zone.get(next) {
            let children = self.branch(b).map_or(&[][..], |b| &b.children);
            zone.extend(children.iter().filter(|&&c| self.run(c).is_some_and(|r| !r.own_fuse)));
            next += 1;
        }
        zone
    }
}

/// Parents come before their children, so one pass does.
fn cold_to(topology: &Topology, links: &[Link], coldest: Celsius) -> Vec<Ohms> {
    let mut sums: Vec<Ohms> = Vec::with_capacity(links.len());
    for branch in &topology.branches {
        let parent = branch.parent.and_then(|p| Some(*sums.get(p)? + links.get(p)?.cold(coldest)));
        sums.push(parent.unwrap_or(Ohms::ZERO));
    }
    sums
}
