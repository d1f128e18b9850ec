//! What does each size mean for one run?
//!
//! Every size of the family is worked out at the run's own current:
//! temperature by heat balance, resistance at that temperature, drop, ampacity
//! both ways, mass; and what it fails whatever the other runs do: heat, fuse,
//! smallest size. Only the voltage drop couples the runs of a path.

use crate::catalogue::{Catalogue, Family};
use crate::engine::installation::Installation;
use crate::engine::installation::run::ways;
use crate::engine::physics::conductor::ampacity::{Ampacity, TableFactors};
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::conductor::heat::HeatPath;
use crate::engine::physics::conductor::laid::Laid;
use crate::engine::physics::conductor::short_time::{Pulsed, Warmth};
use crate::engine::physics::copper;
use crate::engine::physics::joint::Joints;
use crate::engine::physics::reckon::Reckoned;
use crate::engine::physics::starts::{Start, Starts};
use crate::engine::simulate::circuit::fuse_room::FuseRoom;
use crate::plan::Run;
use crate::quantity::*;
use crate::reckon;

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
    /// Conductor after the start that warms it most.
    pub after_start: Celsius,
    /// That start; nothing where none exceeds the steady current.
    pub worst_start: Start,
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
    /// With the fuses that come into question: what fits, and what the fuse-link adds to the resistance.
    pub fn fused(&mut self, asked: &Asked, area: SquareMillimetres) {
        let used = self.ampacity.used();
        self.fuse = asked.fuses.for_ampacity(used).filter(|_| asked.run.own_fuse);
        self.resistance = copper::hot_loop(self.cold, self.temperature, asked.fixed(area).value).value;
        self.drop = self.dropped(asked).value;
        let hot = self.fails[0].is_some();
        let fits = asked.fuses.fits(used) && area >= asked.least_for_fuse;
        self.fails[1] = (!hot && !fits).then_some(Fails::Fuse);
    }

    /// Drop at the run's current.
    pub fn dropped(&self, asked: &Asked) -> Reckoned<Volts, 2> {
        reckon!(Volts: I * R,
            I: "largest steady current" = asked.current, R: "resistance of the loop, hot" = self.resistance)
    }

    /// Whether it may be used as far as heat, fuse and smallest size go.
    pub fn stands(&self) -> bool {
        self.fails.iter().all(Option::is_none)
    }
}

/// What a cable carries in a run, and how warm it is at the run's current, whatever else the run is.
#[derive(Clone, Copy, Debug)]
pub struct Carries {
    ampacity: Ampacity,
    temperature: Celsius,
}

/// The cables to choose from, with what the tables say of them.
#[derive(Debug)]
pub struct Shelf<'a> {
    catalogue: &'a Catalogue,
    /// The family's sizes by growing area; pinned labels that are none of them behind.
    pub cables: Vec<Cable<'a>>,
    /// How many of them are the family's.
    pub family: usize,
    /// The table's values by column temperature.
    bases: Vec<(Celsius, Vec<Option<Amps>>)>,
    lays: Vec<Lay<'a>>,
}

/// One way of laying.
#[derive(Debug)]
struct Lay<'a> {
    laid: Laid<'a>,
    factors: TableFactors,
    /// Of each cable laid so.
    cables: Vec<(HeatPath, Ampacity)>,
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
    /// Where loads beyond come and go: how, and what stays.
    pub pulsed: Option<Pulsed>,
    /// Largest short current.
    pub surge: Amps,
    /// Every start that no other exceeds in both current and time, the steady rest included.
    pub starts: Starts,
    /// Which fuse ratings would do.
    pub fuses: FuseRoom<'a>,
    /// Lugs, which have the less resistance the larger they are.
    pub joints: Joints,
    /// Switches, the cut-off's contact, the body.
    pub others: Ohms,
    /// Fuse-link and holder.
    pub link: Ohms,
    /// Smallest size that the fuses ask for; zero where any does.
    pub least_for_fuse: SquareMillimetres,
    /// Smallest nominal size wanted.
    pub smallest: SquareMillimetres,
}

impl<'a> Asked<'a> {
    /// With what it carries while loads that come and go are on.
    pub fn pulsing(&self, path: &HeatPath, ampacity: Ampacity) -> Ampacity {
        let hottest = self.laid.insulation.max;
        let carries = |pulsed| Warmth::of_copper(path, hottest, ampacity.for_ever()).pulsed(pulsed, hottest);
        Ampacity { pulsed: self.pulsed.map(carries), ..ampacity }
    }

    /// Conductor at a current: steady, or the peak where it comes and goes.
    pub fn warmth(&self, path: &HeatPath, ampacity: Ampacity, current: Amps) -> Celsius {
        let hottest = self.laid.insulation.max;
        let steady = path.temperature_by(current, ampacity.heat, hottest);
        let peak = |pulsed| Warmth::of_copper(path, hottest, ampacity.for_ever()).peak(pulsed, current).0;
        self.pulsed.map_or(steady, |pulsed| steady.min(peak(pulsed)))
    }

    /// What does not warm with the copper: joints of this size, switches, chassis, fuse-link.
    pub fn fixed(&self, area: SquareMillimetres) -> Reckoned<Ohms, 3> {
        reckon!(Ohms: J + o + f,
            J: "joints" = self.joints.of(area).value,
            o: "switches, contact and body" = self.others,
            f: "fuse-link and holder" = self.link)
    }

    /// Copper of the whole run at 20 °C.
    pub fn cold(&self, cable: &Cable) -> Reckoned<Ohms, 3> {
        reckon!(Ohms: R * (L * n) / 1000.0,
            R: "resistance of the conductor at 20 °C" = cable.conductor.resistance,
            L: "length one way" = self.run.length,
            n: "conductors, out and back" = self.ways())
    }

    /// Copper that gives the published resistance, out and back.
    pub fn mass(&self, cable: &Cable) -> Reckoned<Kilograms, 3> {
        reckon!(Kilograms: m * (L * n) / 1000.0,
            m: "copper that gives the published resistance" = cable.conductor.copper_mass(),
            L: "length one way" = self.run.length,
            n: "conductors, out and back" = self.ways())
    }

    fn ways(&self) -> Figure {
        Figure::new(ways(self.run), Unit::Count)
    }

    /// The same before the size is known: the smallest lugs have most.
    pub fn fixed_at_most(&self) -> Ohms {
        self.fixed(SquareMillimetres::ZERO).value
    }
}

impl<'a> Shelf<'a> {
    /// Of a plan: its family and every label it pins.
    pub fn of(site: &'a Installation) -> Self {
        Shelf::new(&site.catalogue, site.family(), site.runs.iter().filter_map(|r| r.size.as_deref()))
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
        Shelf { catalogue, cables, family: count, bases: Vec::new(), lays: Vec::new() }
    }

    /// The catalogue it was filled from.
    pub fn catalogue(&self) -> &'a Catalogue {
        self.catalogue
    }

    /// The table's factors for a way of laying, by the index that [`Shelf::lay`] gave.
    pub fn factors(&self, lay: usize) -> &TableFactors {
        &self.lays[lay].factors
    }

    /// The way of the heat from a cable laid so.
    pub fn path(&self, lay: usize, cable: usize) -> &HeatPath {
        &self.lays[lay].cables[cable].0
    }

    /// The table's value of a cable at its own ambient.
    pub fn base(&self, laid: &Laid, cable: usize) -> Option<Amps> {
        let (_, all) = self.bases.iter().find(|(column, _)| *column == laid.insulation.column)?;
        *all.get(cable)?
    }

    /// The cable with a label.
    pub fn find(&self, label: &str) -> Option<usize> {
        self.cables.iter().position(|c| c.label() == label)
    }

    /// How a run lies, as an index; the ampacities of all cables laid so are worked out once.
    pub fn lay(&mut self, laid: &Laid<'a>) -> usize {
        if let Some(known) = self.lays.iter().position(|l| l.laid.same(laid)) {
            return known;
        }
        let table = &self.catalogue.ampacity;
        let column = laid.insulation.column;
        if !self.bases.iter().any(|(c, _)| *c == column) {
            let base = |cable: &Cable| table.base_of(&cable.conductor, column).map(|c| c.value);
            self.bases.push((column, self.cables.iter().map(base).collect()));
        }
        let factors = TableFactors::of(table, laid);
        let of = |(index, cable)| {
            let path = HeatPath::new(cable, laid, factors.bundle.value);
            (path, factors.ampacity_by(&path, laid, self.base(laid, index)))
        };
        let cables = self.cables.iter().enumerate().map(of).collect();
        self.lays.push(Lay { laid: *laid, factors, cables });
        self.lays.len() - 1
    }

    /// What each size of the family carries in a run laid as [`Shelf::lay`] numbered it: alike for all runs that are laid
    /// so and carry the same.
    pub fn carries(&self, asked: &Asked<'a>, lay: usize) -> Vec<Carries> {
        (0..self.family).map(|cable| self.carried(asked, lay, cable)).collect()
    }

    fn carried(&self, asked: &Asked<'a>, lay: usize, cable: usize) -> Carries {
        let (path, ampacity) = &self.lays[lay].cables[cable];
        let (ampacity, temperature) = (asked.pulsing(path, *ampacity), asked.warmth(path, *ampacity, asked.current));
        Carries { ampacity, temperature }
    }

    /// Every size of the family for a run by growing area, laid as [`Shelf::lay`] numbered it, with what each carries; a
    /// pinned label that is none of them among them.
    pub fn candidates(
        &self,
        asked: &Asked<'a>,
        lay: usize,
        carries: &[Carries],
        pinned: Option<usize>,
    ) -> Vec<Candidate> {
        let mut which: Vec<usize> = (0..self.family).collect();
        if let Some(extra) = pinned.filter(|p| *p >= self.family) {
            let area = self.cables[extra].conductor.area;
            let place = which.iter().position(|c| self.cables[*c].conductor.area > area).unwrap_or(which.len());
            which.insert(place, extra);
        }
        let of = |cable: usize| {
            let carries = carries.get(cable).copied().unwrap_or_else(|| self.carried(asked, lay, cable));
            candidate(asked, &self.cables[cable], cable, &self.lays[lay].cables[cable].0, carries)
        };
        which.into_iter().map(of).collect()
    }
}

fn candidate(
    asked: &Asked,
    cable: &Cable,
    index: usize,
    path: &HeatPath,
    Carries { ampacity, temperature }: Carries,
) -> Candidate {
    let cold = asked.cold(cable).value;
    let warmed = |start: Start| {
        let copper = Warmth::of_copper(path, asked.laid.insulation.max, ampacity.heat);
        (copper.after_surge(temperature, start.current, start.lasts), start)
    };
    let starts = asked.starts.iter().filter(|s| s.current > asked.current).map(warmed);
    let worst = starts.max_by(|a, b| a.0.get().total_cmp(&b.0.get()));
    let (after_start, worst_start) = worst.unwrap_or((temperature, Start::default()));
    let hot = ampacity.used() < asked.current || after_start > asked.laid.insulation.max;
    let thin = cable.conductor.area.get() < asked.smallest.get() * (1.0 - 1e-9);
    let mut candidate = Candidate {
        cable: index,
        cold,
        resistance: cold,
        drop: Volts::ZERO,
        temperature,
        after_start,
        worst_start,
        ampacity,
        fuse: None,
        mass: asked.mass(cable).value,
        fails: [hot.then_some(Fails::Heat), None, thin.then_some(Fails::Thin)],
    };
    candidate.fused(asked, cable.conductor.area);
    candidate
}
