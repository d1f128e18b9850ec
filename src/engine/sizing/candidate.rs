//! What does each size mean for one run?
//!
//! Every size of the family is worked out at the run's own current:
//! temperature by heat balance, resistance at that temperature, drop, ampacity
//! both ways, mass; and what it fails whatever the other runs do: heat, fuse,
//! smallest size. Only the voltage drop couples the runs of a path.

use super::fuse_room::FuseRoom;
use crate::catalogue::{Catalogue, Family};
use crate::engine::conductor::{Ampacity, Cable, HeatPath, Laid, TableFactors, Warmth};
use crate::engine::copper;
use crate::plan::{Plan, ReturnPath, Run, SizeFamily, point};
use crate::quantity::*;

/// A rule that a size fails by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fails {
    /// Carries less than the current, or a start warms it beyond its insulation.
    Heat,
    /// No standard fuse fits between load and cable.
    Fuse,
    /// Thinner than the smallest wanted.
    Thin,
    /// Drops more than the path has left.
    Drop,
}

impl Fails {
    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Fails::Heat => "heat",
            Fails::Fuse => "fuse",
            Fails::Thin => "smallest size",
            Fails::Drop => "voltage drop",
        }
    }
}

/// One size for one run.
#[derive(Clone, Debug)]
pub struct Candidate {
    /// Which cable of the shelf.
    pub cable: usize,
    /// Copper of the whole run at 20 °C.
    pub cold: Ohms,
    /// Copper at its temperature, with all that is fixed.
    pub resistance: Ohms,
    /// Drop at the run's current.
    pub drop: Volts,
    /// Conductor at the run's current, steady.
    pub temperature: Celsius,
    /// Conductor after the worst start.
    pub after_start: Celsius,
    /// Steady ampacity.
    pub ampacity: Ampacity,
    /// Fuse that would protect it, if it has one of its own and one fits.
    pub fuse: Option<Amps>,
    /// Copper, out and back.
    pub mass: Kilograms,
    /// Rules failed by itself, without the drop.
    pub fails: [Option<Fails>; 3],
}

impl Candidate {
    /// Whether it may be used as far as heat, fuse and smallest size go.
    pub fn stands(&self) -> bool {
        self.fails.iter().all(Option::is_none)
    }
}

/// The cables to choose from, with what the tables say of them.
#[derive(Debug)]
pub struct Shelf<'a> {
    catalogue: &'a Catalogue,
    /// The family's sizes by growing area; pinned labels that are none of them behind.
    pub cables: Vec<Cable<'a>>,
    /// How many of them are the family's.
    pub family: usize,
    laid: Vec<(Laid<'a>, TableFactors, Vec<Ampacity>)>,
}

/// What a run is like apart from its size.
#[derive(Clone, Debug)]
pub struct Asked<'a> {
    /// The run.
    pub run: &'a Run,
    /// How it lies.
    pub laid: Laid<'a>,
    /// Largest steady current.
    pub current: Amps,
    /// Largest short current, and how long.
    pub surge: (Amps, Seconds),
    /// Which fuse ratings would do.
    pub fuses: FuseRoom<'a>,
    /// Joints, switches, fuse-link, chassis.
    pub fixed: Ohms,
    /// Of that, fuse-link and holder.
    pub link: Ohms,
    /// Smallest size that the fuses ask for.
    pub least_for_fuse: SquareMillimetres,
    /// Smallest nominal size wanted.
    pub smallest: SquareMillimetres,
}

impl<'a> Shelf<'a> {
    /// Of a plan: its family and every label it pins.
    pub fn of(plan: &Plan, catalogue: &'a Catalogue) -> Self {
        let family = match plan.rules.sizes {
            SizeFamily::Metric => Family::Metric,
            SizeFamily::Awg => Family::Awg,
        };
        Shelf::new(catalogue, family, plan.runs.iter().filter_map(|r| r.size.as_deref()))
    }

    /// A family's sizes and some labels more.
    pub fn new<'b>(catalogue: &'a Catalogue, family: Family, labels: impl Iterator<Item = &'b str>) -> Self {
        let mut cables: Vec<Cable> = catalogue.sizes(family).map(Cable::of).collect();
        let count = cables.len();
        for label in labels {
            if !cables.iter().any(|c| c.label() == label) {
                cables.extend(Cable::labelled(catalogue, label));
            }
        }
        Shelf { catalogue, cables, family: count, laid: Vec::new() }
    }

    /// The catalogue it was filled from.
    pub fn catalogue(&self) -> &'a Catalogue {
        self.catalogue
    }

    /// The bundle's factor for a way of laying.
    pub fn bundle(&self, laid: &Laid) -> f64 {
        self.catalogue.ampacity.bundle_factor(laid.conductors).value
    }

    /// The table's value of a cable at its own ambient.
    pub fn base(&self, laid: &Laid, cable: usize) -> Option<Amps> {
        let conductor = &self.cables.get(cable)?.conductor;
        self.catalogue.ampacity.base_of(conductor, laid.insulation.column).map(|c| c.value)
    }

    /// The cable with a label.
    pub fn find(&self, label: &str) -> Option<usize> {
        self.cables.iter().position(|c| c.label() == label)
    }

    /// Ampacities of all cables laid so, worked out once.
    fn ampacities(&mut self, laid: &Laid<'a>) -> usize {
        if let Some(known) = self.laid.iter().position(|(l, _, _)| l.same(laid)) {
            return known;
        }
        let table = &self.catalogue.ampacity;
        let factors = TableFactors::of(table, laid);
        let of = |cable: &Cable| {
            let base = table.base_of(&cable.conductor, laid.insulation.column).map(|c| c.value);
            factors.ampacity(cable, laid, base)
        };
        let all = self.cables.iter().map(of).collect();
        self.laid.push((*laid, factors, all));
        self.laid.len() - 1
    }

    /// Every size of the family for a run, by growing area; with a pinned label that is none of them among them.
    pub fn candidates(&mut self, asked: &Asked<'a>, pinned: Option<usize>) -> Vec<Candidate> {
        let known = self.ampacities(&asked.laid);
        let (_, factors, ampacities) = &self.laid[known];
        let mut which: Vec<usize> = (0..self.family).collect();
        if let Some(extra) = pinned.filter(|p| *p >= self.family) {
            let area = self.cables[extra].conductor.area;
            let place = which.iter().position(|c| self.cables[*c].conductor.area > area).unwrap_or(which.len());
            which.insert(place, extra);
        }
        let of = |cable: usize| candidate(asked, &self.cables[cable], cable, ampacities[cable], factors.bundle.value);
        which.into_iter().map(of).collect()
    }
}

fn candidate(asked: &Asked, cable: &Cable, index: usize, ampacity: Ampacity, bundle: f64) -> Candidate {
    let ways = if asked.run.return_path == ReturnPath::Cable { 2.0 } else { 1.0 };
    let wire = asked.run.length * ways;
    let cold = cable.conductor.resistance * wire;
    let path = HeatPath::new(cable, &asked.laid, bundle);
    let temperature = path.temperature(asked.current);
    let (surge, lasts) = asked.surge;
    let after_start = if surge > asked.current && lasts > Seconds::ZERO {
        Warmth::of_copper(&path, asked.laid.insulation.max, ampacity.heat).after_surge(temperature, surge, lasts)
    } else {
        temperature
    };
    let resistance = copper::warmed(cold, temperature) + asked.fixed;
    let hottest = asked.laid.insulation.max;
    let hot = ampacity.used() < asked.current || after_start > hottest;
    let fused = asked.fuses.fits(ampacity.used()) && cable.conductor.area >= asked.least_for_fuse;
    Candidate {
        cable: index,
        cold,
        resistance,
        drop: asked.current * resistance,
        temperature,
        after_start,
        ampacity,
        fuse: asked.fuses.for_ampacity(ampacity.used()).filter(|_| asked.run.own_fuse),
        mass: cable.conductor.copper_mass() * wire,
        fails: [
            hot.then_some(Fails::Heat),
            (!hot && !fused).then_some(Fails::Fuse),
            (cable.conductor.area.get() < asked.smallest.get() * (1.0 - 1e-9)).then_some(Fails::Thin),
        ],
    }
}

/// What a run's resistance has besides its copper: joints, switches, the cut-off's contact, the body.
pub fn fixed_resistance(plan: &Plan, catalogue: &Catalogue, run: &Run, far: &str) -> Ohms {
    let rules = &catalogue.rules;
    let joints = Ohms::from_milli(rules.number("joint-mohm")) * f64::from(run.joints);
    let contact = contact_resistance(catalogue, far);
    let body = if run.return_path == ReturnPath::Chassis { plan.vehicle.chassis_mohm.into() } else { Ohms::ZERO };
    joints + contact + run.switch_mohm.into() + body
}

/// The cut-off's contact counts with the run that leads to it.
pub fn contact_resistance(catalogue: &Catalogue, far: &str) -> Ohms {
    if far == point::CUT_OFF { Ohms::from_milli(catalogue.rules.number("switch-mohm")) } else { Ohms::ZERO }
}
