//! Which current flows through each run when one thing is switched on?
//!
//! The network solution of the runs on its way (or of the whole side, with all
//! loads on), fed by the posts at the voltage a healthy battery shows. Copper
//! is held at the air of the test: it is over before the cable warms.

use crate::engine::installation::Installation;
use crate::engine::installation::circuits::Side;
use crate::engine::installation::load::efficiency;
use crate::engine::physics::network;
use crate::engine::physics::network::circuit::{Branch, Network, Point, Source};
use crate::engine::physics::network::warming::Warming;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::test_sheet::segment::Segment;
use crate::plan::point;
use crate::quantity::*;

/// What is on, as written into a reading's `with`.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum On {
    Nothing,
    /// All loads of the service side.
    All,
    Load(usize),
    /// The inverter with all that is plugged in.
    Inverter,
    /// The charger draws from the starter battery.
    ChargerInput,
    /// The charger feeds the service battery.
    Charging,
    /// A test load at a point.
    TestLoad(String, Side),
}

/// The word for everything on at once.
pub(crate) const ALL: &str = "all loads";
/// The word for the inverter.
pub(crate) const INVERTER: &str = "inverter";

/// Currents by branch of the topology; zero where nothing flows, negative towards the battery.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Flow {
    pub side: Side,
    pub currents: Vec<f64>,
    /// At the battery's posts.
    pub total: Amps,
    /// Posts it was worked out for.
    pub posts: Volts,
    /// Branches that carry it, nearest the battery first.
    pub way: Vec<usize>,
}

/// The plan with what is known of its runs.
pub(crate) struct Wiring<'a> {
    pub site: &'a Installation,
    /// By branch; `None` where a run has no size.
    pub segments: &'a [Option<Segment>],
    pub charger: &'a ChargerDesign,
    pub air: Celsius,
    /// What the posts show with little on: service battery, starter side.
    pub posts: (Volts, Volts),
}

impl Wiring<'_> {
    /// The run of a branch.
    pub(crate) fn run_of(&self, branch: usize) -> Option<usize> {
        self.site.circuits.branches.get(branch).map(|b| b.run)
    }

    /// What a `with` means.
    pub(crate) fn on(&self, with: &str) -> Result<On, String> {
        let word = with.trim();
        let plan = self.site;
        let load = plan.loads.iter().position(|l| l.name.eq_ignore_ascii_case(word));
        match word {
            "" => Ok(On::Nothing),
            _ if load.is_some() => Ok(load.map_or(On::Nothing, On::Load)),
            ALL => Ok(On::All),
            INVERTER if plan.inverter.rating > Watts::ZERO => Ok(On::Inverter),
            point::CHARGER => Ok(On::ChargerInput),
            point::CHARGING => Ok(On::Charging),
            _ if self.site.circuits.to_point.contains_key(word) => Ok(On::TestLoad(word.into(), Side::Service)),
            _ if self.site.circuits.to_feed_point.contains_key(word) => Ok(On::TestLoad(word.into(), Side::Feed)),
            _ => Err(format!("`{word}` is neither a load nor a point of the plan")),
        }
    }

    /// Everything that can be switched on, with the word for it.
    pub(crate) fn all_on(&self) -> Vec<(String, On)> {
        let plan = self.site;
        let loads = plan.loads.iter().enumerate().filter(|(_, l)| l.power > Watts::ZERO && !l.name.is_empty());
        let mut all: Vec<_> = loads.map(|(i, l)| (l.name.clone(), On::Load(i))).collect();
        if plan.inverter.rating > Watts::ZERO {
            all.push((INVERTER.into(), On::Inverter));
        }
        all.push((point::CHARGER.into(), On::ChargerInput));
        all.push((point::CHARGING.into(), On::Charging));
        all.push((ALL.into(), On::All));
        all
    }

    /// The currents; `None` when it draws nothing, no run leads there, or a run on the way has no size.
    pub(crate) fn flow(&self, on: &On, measured: Option<Amps>) -> Option<Flow> {
        let flow = match on {
            On::Nothing => None,
            On::All => self.everything(),
            On::Load(index) => {
                let load = self.site.loads.get(*index)?;
                if load.inverter { self.at_inverter(load.power) } else { self.one(&load.at, load.law) }
            }
            On::Inverter => self.at_inverter(self.site.loads.iter().filter(|l| l.inverter).map(|l| l.power).sum()),
            On::ChargerInput => {
                let way = self.site.circuits.feed_path()?;
                let power = self.charge_power()? / self.site.charger.efficiency.get().clamp(0.05, 1.0);
                self.solve(Side::Feed, way, &[(point::CHARGER, network::load::Load::Power(power))])
            }
            On::Charging => {
                let current = measured.or(self.charger.current)?;
                self.one(point::CHARGER, network::load::Load::Current(-current))
            }
            On::TestLoad(at, side) => {
                let way = match side {
                    Side::Service => self.site.circuits.path_to(at)?,
                    Side::Feed => self.site.circuits.path_of(*self.site.circuits.to_feed_point.get(at)?),
                };
                self.solve(*side, way, &[(at, network::load::Load::Current(measured?))])
            }
        }?;
        Some(match measured {
            // Runs on the way carry shares of the total, which the clamp meter knows better.
            Some(amps) if flow.total.abs() > Amps::new(1e-6) => {
                let by = amps.abs() / flow.total.abs();
                flow.scaled(by)
            }
            _ => flow,
        })
    }

    fn charge_power(&self) -> Option<Watts> {
        let current = self.charger.current.filter(|i| *i > Amps::ZERO)?;
        let volts = if self.charger.output > Volts::ZERO { self.charger.output } else { self.posts.1 };
        Some(volts * current)
    }

    fn at_inverter(&self, plugged: Watts) -> Option<Flow> {
        let inverter = &self.site.inverter;
        let power = plugged / efficiency(inverter).get() + inverter.idle_draw;
        self.one(&inverter.at, network::load::Load::Power(power))
    }

    /// One load alone, on whichever side its point is.
    fn one(&self, at: &str, load: network::load::Load) -> Option<Flow> {
        match self.site.circuits.path_to(at) {
            Some(way) => self.solve(Side::Service, way, &[(at, load)]),
            None => {
                let way = self.site.circuits.path_of(*self.site.circuits.to_feed_point.get(at)?);
                self.solve(Side::Feed, way, &[(at, load)])
            }
        }
    }

    /// All loads of the service side; of those that never run together the first.
    fn everything(&self) -> Option<Flow> {
        let mut groups: Vec<usize> = Vec::new();
        let mut loads: Vec<(&str, network::load::Load)> = Vec::new();
        for load in self.site.loads.iter().filter(|l| !l.inverter && self.site.circuits.has_point(&l.at)) {
            match load.group {
                Some(group) if groups.contains(&group) => continue,
                Some(group) => groups.push(group),
                None => {}
            }
            loads.push((&load.at, load.law));
        }
        let sized = |b: &usize| self.site.circuits.branches.get(*b).is_some_and(|b| b.side == Side::Service);
        let way = (0..self.site.circuits.branches.len()).filter(sized).collect();
        self.solve(Side::Service, way, &loads)
    }

    /// Solve the branches of `way` (parents first, from the posts on) with these loads.
    fn solve(&self, side: Side, way: Vec<usize>, loads: &[(&str, network::load::Load)]) -> Option<Flow> {
        let posts = if side == Side::Service { self.posts.0 } else { self.posts.1 };
        let mut network = Network {
            source: Source { voltage: posts, internal: Ohms::ZERO },
            loads: Vec::new(),
            branches: Vec::new(),
        };
        for branch in &way {
            let segment = self.segments.get(*branch)?.as_ref()?;
            let parent = self.site.circuits.branches.get(*branch)?.parent;
            let from = match parent {
                Some(parent) => Point::End(way.iter().position(|b| *b == parent)?),
                None => Point::Terminals,
            };
            let warming = Warming::Held(self.air);
            network.branches.push(Branch {
                from,
                copper: segment.copper,
                fixed: segment.fixed,
                warming,
                loads: Vec::new(),
            });
        }
        for (at, load) in loads {
            let here = way.iter().position(|b| self.site.circuits.branches.get(*b).is_some_and(|b| b.far == *at));
            match here.and_then(|i| network.branches.get_mut(i)) {
                Some(branch) => branch.loads.push(*load),
                None => network.loads.push(*load),
            }
        }
        let solved = network.solve().ok()?;
        let mut currents = vec![0.0; self.site.circuits.branches.len()];
        for (branch, state) in way.iter().zip(&solved.branches) {
            currents[*branch] = state.current.get();
        }
        (solved.current.abs() > Amps::new(1e-6)).then_some(Flow { side, currents, total: solved.current, posts, way })
    }
}

impl Flow {
    fn scaled(mut self, by: f64) -> Self {
        self.currents.iter_mut().for_each(|c| *c *= by);
        self.total = self.total * by;
        self
    }

    /// Currents on the way from the posts to a point that `path` leads to; zero elsewhere.
    pub(crate) fn along(&self, path: &[usize]) -> Vec<f64> {
        let mut seen = vec![0.0; self.currents.len()];
        for branch in path {
            if let (Some(to), Some(from)) = (seen.get_mut(*branch), self.currents.get(*branch)) {
                *to = *from;
            }
        }
        seen
    }
}
