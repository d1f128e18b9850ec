//! The fault loops of a plan: the runs as links in the way of a fault current, the sources, what lies behind a fuse.

use crate::engine::installation::Installation;
use crate::engine::installation::circuits::{Branch, Side, Topology};
use crate::engine::installation::subject::run_name;
use crate::engine::physics::conductor::ampacity::{self, Ampacity};
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::result::{RunDesign, SizeRow};
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::sources::Sources;
use crate::plan::Run;
use crate::quantity::*;
use std::collections::BTreeSet;

/// Runs and sources as a fault current finds them.
pub struct FaultLoops<'a, 'r> {
    /// What is there.
    pub site: &'a Installation,
    /// The runs as sized.
    pub runs: &'r [RunDesign],
    /// What can push current into a fault.
    pub sources: Sources<'a>,
    /// One for each branch.
    pub links: Vec<Link>,
    /// Cold resistance from the battery to the near end of each branch.
    pub cold_to: Vec<Ohms>,
    /// The same as hot as the insulation stands.
    pub hot_to: Vec<Ohms>,
    /// Longest that a far-end fault may last.
    pub fault_open: Seconds,
    /// What limited sources at or beyond the far end of each branch give.
    limited: Vec<Amps>,
    /// Whether more than one thing hangs on the far end of each branch, or a load.
    feeds: Vec<bool>,
}

impl<'a, 'r> FaultLoops<'a, 'r> {
    /// With the sizes of `runs`.
    pub fn new(
        site: &'a Installation,
        battery: &BatteryDesign,
        charger: &ChargerDesign,
        runs: &'r [RunDesign],
    ) -> Self {
        let nothing = Run::default();
        let link = |b: &Branch| {
            let size = runs.get(b.run).and_then(|r| r.size.as_ref());
            Link::with_size(site, site.runs.get(b.run).unwrap_or(&nothing), &b.far, size)
        };
        let links: Vec<Link> = site.circuits.branches.iter().map(link).collect();
        let coldest = site.surroundings.coldest;
        let cold_to = up_to(&site.circuits, &links, |link| link.cold(coldest));
        let hot_to = up_to(&site.circuits, &links, Link::hot);
        let sources = Sources::of(site, battery, charger);
        FaultLoops {
            site,
            runs,
            limited: limited_beyond(&site.circuits, &sources),
            feeds: feeds(site),
            sources,
            links,
            cold_to,
            hot_to,
            fault_open: site.catalogue.rules.fault_open.value,
        }
    }

    /// A branch of the circuits.
    pub fn branch(&self, index: usize) -> Option<&'a Branch> {
        self.site.circuits.branches.get(index)
    }

    /// The run of a branch, as given.
    pub fn run(&self, index: usize) -> Option<&'a Run> {
        self.site.runs.get(self.branch(index)?.run)
    }

    /// The run of a branch, as sized.
    pub fn design(&self, index: usize) -> Option<&'r RunDesign> {
        self.runs.get(self.branch(index)?.run)
    }

    /// Where the ampacity of a branch comes from.
    pub fn carries_words(&self, branch: usize) -> String {
        let laid = self.run(branch).and_then(|run| self.site.laid(run));
        let size = self.design(branch).and_then(|d| d.size.as_ref());
        let (Some(laid), Some(size)) = (laid, size) else { return String::new() };
        let ampacity =
            Ampacity { table: size.ampacity_table, heat: size.ampacity_heat.unwrap_or(size.ampacity), pulsed: None };
        ampacity::words(&self.site.catalogue.ampacity, &laid, ampacity)
    }

    /// A branch as a conductor of fault current.
    pub fn link(&self, index: usize) -> Option<&Link> {
        self.links.get(index)
    }

    /// The branch and those that feed it, from itself to the battery.
    pub fn upward(&self, branch: usize) -> impl Iterator<Item = usize> + '_ {
        std::iter::successors(Some(branch), |&b| self.site.circuits.branches.get(b).and_then(|b| b.parent))
    }

    /// Whether a branch is fed by the service battery.
    pub fn is_service(&self, branch: usize) -> bool {
        self.branch(branch).is_some_and(|b| b.side == Side::Service)
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

    /// The run of a branch, by index and name.
    pub fn run_of(&self, branch: usize) -> (usize, String) {
        let run = self.branch(branch).map_or(0, |b| b.run);
        (run, run_name(&self.site.runs, run))
    }

    /// The point at which a fuse sits.
    pub fn place_of(&self, fuse: &Fuse) -> &str {
        self.branch(fuse.branch).map_or("", |b| if fuse.far_end { &b.far } else { &b.near })
    }

    /// Style that the plan gives the fuse of a branch.
    pub fn style_pin(&self, branch: usize) -> Option<&'a str> {
        self.run(branch).and_then(|r| r.fuse_style.as_deref())
    }

    /// The first bigger size of a run that does.
    pub fn bigger(&self, branch: usize, does: impl Fn(&SizeRow) -> bool) -> Option<&'r SizeRow> {
        let design = self.design(branch)?;
        let area = design.size.as_ref().map_or(SquareMillimetres::ZERO, |s| s.area);
        design.sizes.iter().find(|s| s.area.get() > area.get() && does(s))
    }

    /// The nearest fuse on the way to the battery, this branch's own left out.
    pub fn upstream<'f, 'c>(&self, branch: usize, near: &'f [Option<Fuse<'c>>]) -> Option<&'f Fuse<'c>> {
        self.upward(branch).skip(1).find_map(|b| near.get(b)?.as_ref())
    }

    /// The fuse of a branch, or the nearest on the way to the battery.
    pub fn device<'f, 'c>(&self, branch: usize, near: &'f [Option<Fuse<'c>>]) -> Option<&'f Fuse<'c>> {
        near.get(branch)?.as_ref().or_else(|| self.upstream(branch, near))
    }

    /// Whether the fuse upstream feeds anything but what lies behind `fuse`:
    /// two fuses on one line that feeds nothing on the way need not be parted.
    pub fn cuts_off_others(&self, up: &Fuse, fuse: &Fuse) -> bool {
        self.cuts_off(up.branch, fuse.branch)
    }

    /// The same of fuses at the near ends of two branches.
    pub fn cuts_off(&self, up: usize, branch: usize) -> bool {
        let mut feeds = false;
        for between in self.upward(branch).skip(1) {
            feeds |= self.feeds.get(between) == Some(&true);
            if between == up {
                return feeds;
            }
        }
        false
    }

    /// What limited sources feed into the way from a fuse to a run beyond it.
    pub fn joined_before(&self, fuse: usize, run: usize) -> Amps {
        (self.limited_beyond(fuse) - self.limited_beyond(run)).max(Amps::ZERO)
    }

    /// What limited sources at or beyond the far end of a branch give.
    pub fn limited_beyond(&self, branch: usize) -> Amps {
        self.limited.get(branch).copied().unwrap_or(Amps::ZERO)
    }
}

/// Each limited source counts in every branch on its way to the battery.
fn limited_beyond(topology: &Topology, sources: &Sources) -> Vec<Amps> {
    let mut beyond = vec![Amps::ZERO; topology.branches.len()];
    for source in &sources.limited {
        let path = topology.to_point.get(source.at).map(|&b| topology.path_of(b)).unwrap_or_default();
        path.into_iter().for_each(|b| beyond[b] += source.amps);
    }
    beyond
}

/// By branch, whether its far end feeds anything but one branch more.
fn feeds(site: &Installation) -> Vec<bool> {
    let inverter = (site.inverter.rating.get() > 0.0).then_some(&site.inverter.at);
    let loads = site.loads.iter().filter(|l| !l.inverter).map(|l| &l.at);
    let points: BTreeSet<&str> = loads.chain(inverter).map(String::as_str).collect();
    let branches = site.circuits.branches.iter();
    branches.map(|b| b.children.len() > 1 || points.contains(b.far.as_str())).collect()
}

/// Parents come before their children, so one pass does.
fn up_to(topology: &Topology, links: &[Link], of: impl Fn(&Link) -> Ohms) -> Vec<Ohms> {
    let mut sums: Vec<Ohms> = Vec::with_capacity(links.len());
    for branch in &topology.branches {
        let parent = branch.parent.and_then(|p| Some(*sums.get(p)? + of(links.get(p)?)));
        sums.push(parent.unwrap_or(Ohms::ZERO));
    }
    sums
}
