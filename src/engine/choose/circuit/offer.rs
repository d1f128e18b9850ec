//! Which cables and which devices may a branch have?
//!
//! A pair is a cable and a device that it stands. There are many, so they are
//! not listed: a branch keeps its cables by growing copper and its devices by
//! the least that each costs with the lightest cable that stands it.

use crate::engine::choose::circuit::optimum::{Choice, Node};
use crate::engine::choose::fuse::options::{Device, devices, plainness, stands, wrong_anywhere};
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// One cable that a branch may have.
#[derive(Clone, Copy, Debug)]
pub struct Cable {
    /// As a conductor of fault current.
    pub link: Link,
    /// Drop at the branch's current, its device left out.
    pub drop: Volts,
    /// Its copper.
    pub mass: Kilograms,
}

/// One branch, parents before children.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// What it may have, by growing area.
    pub cables: Vec<Cable>,
    /// Most drop from the battery to its far end that an end there allows.
    pub room: Option<Volts>,
}

/// A device that a branch may have; none where it has no fuse of its own or none fits.
#[derive(Clone, Copy, Debug)]
pub struct Offered<'a> {
    /// Style and rating.
    pub device: Option<Device<'a>>,
    /// Drop over it at the branch's current.
    pub drop: Volts,
    /// What it counts by itself, and for what is wrong with it wherever it stands.
    pub plain: f64,
    /// What of that is wrong.
    pub own: f64,
    /// With the lightest cable that stands it.
    pub least: f64,
}

/// One pair: a cable by its place among those of the branch, and a device by its place among those offered.
#[derive(Clone, Copy, Debug, Default)]
pub struct Pair {
    /// Among the cables by growing copper.
    pub cable: usize,
    /// Among the devices.
    pub device: usize,
}

/// Of a cable what decides whether it comes into question.
#[derive(Clone, Copy, Debug)]
struct Light {
    /// The largest rating that it stands.
    stands: Amps,
    drop: Volts,
    mass: Kilograms,
}

/// What a branch may have.
#[derive(Clone, Debug)]
pub struct Offer<'a> {
    /// Whether it has a fuse of its own.
    pub fused: bool,
    /// Its devices, the cheapest with its cable first; never empty.
    pub devices: Vec<Offered<'a>>,
    /// As good a conductor of fault current as any of its cables, in every regard.
    pub best: Link,
    /// By growing copper, each with where it stands among those asked for.
    cables: Vec<(Cable, usize)>,
    /// What of each is looked at over and over.
    light: Vec<Light>,
    /// What is lost over the largest.
    least_cable: f64,
}

impl<'a> Offer<'a> {
    /// Of a branch; `None` where it has no cable.
    pub fn of(loops: &FaultLoops<'a, '_>, branch: usize, asked: &Asked) -> Option<Self> {
        let fused = loops.run(branch).is_some_and(|r| r.own_fuse);
        let mut cables: Vec<(Cable, usize)> = asked.cables.iter().copied().zip(0..).collect();
        cables.sort_by(|a, b| a.0.mass.get().total_cmp(&b.0.mass.get()));
        let stands = |cable: &Cable| stands(loops, branch, cable.link.ampacity);
        let light = |(c, _): &(Cable, usize)| Light { stands: stands(c), drop: c.drop, mass: c.mass };
        let light: Vec<Light> = cables.iter().map(light).collect();
        let most = asked.cables.iter().map(|c| c.link.ampacity).reduce(Amps::max)?;
        let current = loops.design(branch).map_or(Amps::ZERO, |d| d.current);
        let offered = |device: Device<'a>| {
            let lightest = light.iter().find(|c| device.1 <= c.stands)?.mass;
            let own = wrong_anywhere(loops, branch, device);
            let plain = plainness(device) + own;
            let drop = current * device.0.warm_resistance(device.1);
            Some(Offered { device: Some(device), drop, plain, own, least: lightest.get() + plain })
        };
        let all = if fused { devices(loops, branch, most) } else { Vec::new() };
        let mut all: Vec<Offered> = all.into_iter().filter_map(offered).collect();
        if all.is_empty() {
            // Where it should have one and none fits, the finding says so.
            let lightest = light.first().map_or(0.0, |c| c.mass.get());
            all.push(Offered { device: None, drop: Volts::ZERO, plain: 0.0, own: 0.0, least: lightest });
        }
        all.sort_by(|a, b| a.least.total_cmp(&b.least));
        let best = asked.cables.iter().map(|c| c.link).reduce(better)?;
        let least_cable = light.iter().map(|c| c.drop.get()).fold(f64::INFINITY, f64::min);
        Some(Offer { fused, devices: all, best, cables, light, least_cable })
    }

    /// The first cable at or behind a place that stands a device.
    pub fn next(&self, device: usize, from: usize) -> Option<Pair> {
        let rating = self.devices[device].device.map_or(Amps::ZERO, |d| d.1);
        let found = self.light.get(from..)?.iter().position(|cable| rating <= cable.stands)?;
        Some(Pair { cable: from + found, device })
    }

    /// The cheapest pair of all that loses no more than so much.
    pub fn cheapest(&self, most_drop: f64) -> Option<Pair> {
        let mut best = None;
        let mut least = f64::INFINITY;
        for (device, offered) in self.devices.iter().enumerate() {
            if offered.least >= least {
                break;
            }
            let fits = self.with(device).find(|pair| self.drop(*pair) <= most_drop);
            if let Some(pair) = fits.filter(|pair| self.cost(*pair) < least) {
                (best, least) = (Some(pair), self.cost(pair));
            }
        }
        best
    }

    /// The cable of a pair.
    pub fn cable(&self, pair: Pair) -> &Cable {
        &self.cables[pair.cable].0
    }

    /// Which of the cables asked for it is.
    pub fn index(&self, pair: Pair) -> usize {
        self.cables[pair.cable].1
    }

    /// What is lost over a pair.
    pub fn drop(&self, pair: Pair) -> f64 {
        (self.light[pair.cable].drop + self.devices[pair.device].drop).get()
    }

    /// What is lost over a device and any cable at the least.
    pub fn least_drop(&self, device: usize) -> f64 {
        self.least_cable + self.devices[device].drop.get()
    }

    /// What a pair counts by itself.
    pub fn cost(&self, pair: Pair) -> f64 {
        self.light[pair.cable].mass.get() + self.devices[pair.device].plain
    }

    /// What of that is not wrong: its copper, and how plain its style is.
    pub fn right(&self, pair: Pair) -> f64 {
        self.cost(pair) - self.devices[pair.device].own
    }

    /// The resistance of its fuse-link: warm at the least, cold at the most.
    pub fn links(&self) -> (Ohms, Ohms) {
        let all = || self.devices.iter().filter_map(|d| d.device);
        let least = all().map(|(style, rating)| style.warm_resistance(rating)).reduce(Ohms::min);
        let most = all().map(|(style, rating)| style.least_resistance(rating)).reduce(Ohms::max);
        (least.unwrap_or(Ohms::ZERO), most.unwrap_or(Ohms::ZERO))
    }

    /// The resistance of its cable in the cold, at the most.
    pub fn coldest(&self, air: Celsius) -> Ohms {
        self.cables.iter().map(|c| c.0.link.cold(air)).reduce(Ohms::max).unwrap_or(Ohms::ZERO)
    }

    /// Every pair that has a device.
    pub fn with(&self, device: usize) -> impl Iterator<Item = Pair> + '_ {
        std::iter::successors(self.next(device, 0), move |pair| self.next(device, pair.cable + 1))
    }

    /// The branch as the optimum without the devices' rules sees it: what is dearer with no less drop is left out.
    pub fn node(&self, parent: Option<usize>, room: Option<Volts>) -> Node {
        let mut plain: Vec<(f64, Volts, Amps)> = Vec::with_capacity(self.devices.len());
        plain.extend(self.devices.iter().map(|d| (d.plain - d.own, d.drop, d.device.map_or(Amps::ZERO, |d| d.1))));
        plain.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut options = Vec::new();
        for cable in &self.light {
            let mut least = Volts::new(f64::INFINITY);
            for (cost, drop, _) in plain.iter().filter(|d| d.2 <= cable.stands) {
                if *drop < least {
                    least = *drop;
                    options.push(Choice { drop: cable.drop + *drop, mass: cable.mass + Kilograms::new(*cost) });
                }
            }
        }
        options.sort_by(|a, b| a.mass.get().total_cmp(&b.mass.get()));
        let mut least = Volts::new(f64::INFINITY);
        options.retain(|option| {
            let better = option.drop < least;
            least = least.min(option.drop);
            better
        });
        Node { parent, room, options }
    }
}

/// As good as either of two in every regard.
fn better(a: Link, b: Link) -> Link {
    Link {
        copper: a.copper.min(b.copper),
        fixed: a.fixed.min(b.fixed),
        area: a.area.max(b.area),
        ampacity: a.ampacity.max(b.ampacity),
        for_ever: a.for_ever.max(b.for_ever),
        ..a
    }
}
