//! Of which parts does each circuit consist, in the order the current meets them?
//!
//! A run is its lug, fuse, cable and lug on the plus side, with what switches it at its far end, and lug, cable
//! and lug on the minus side, or the body. Together they have the resistance that the test sheet expects of the run.
//! A probe reaches every spot between two parts. Left out: what hides inside a load or a device.

use crate::engine::installation::Installation;
use crate::engine::installation::circuits::Side;
use crate::engine::installation::load::Load;
use crate::engine::physics::copper::warmed;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::engine::simulate::test_sheet::segment::Segment;
use crate::plan::{ReturnPath, point};
use crate::quantity::*;

/// Plus or minus side of a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pole {
    /// Plus.
    Plus,
    /// Minus.
    Minus,
}

/// What a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartKind {
    /// The lug at the end nearer the battery.
    NearJoint,
    /// A fuse in its holder.
    Fuse,
    /// The conductor.
    Cable,
    /// The lug at the end away from the battery.
    FarJoint,
    /// A switch or the contact of a plug.
    Contact,
    /// The contact of the cut-off.
    CutOff,
    /// The earth point and the body behind it.
    Earth,
}

/// One part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Index of its branch in the topology.
    pub branch: usize,
    /// Which side.
    pub pole: Pole,
    /// What it is.
    pub kind: PartKind,
    /// When sound, in the air of the test.
    pub resistance: Ohms,
    /// What a fuse is rated for.
    pub rating: Option<Amps>,
}

/// A spot that a probe reaches: after so many parts of a branch, seen from the battery.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot {
    /// Which battery's circuits.
    pub side: Side,
    /// Which side of them.
    pub pole: Pole,
    /// The branch; `None` for the battery's own post.
    pub branch: Option<usize>,
    /// How many of its parts lie before the spot.
    pub after: usize,
}

/// The ways that the cases need, from a battery outwards; `None` where there is none.
#[derive(Clone, Debug)]
struct Ways {
    loads: Vec<Option<Vec<usize>>>,
    feed: Option<Vec<usize>>,
    charge: Option<Vec<usize>>,
    sensed: Vec<usize>,
}

impl Ways {
    fn of(site: &Installation) -> Self {
        let circuits = &site.circuits;
        let at = |load: &Load| circuits.path_to(if load.inverter { &site.inverter.at } else { &load.at });
        Ways {
            loads: site.loads.iter().map(at).collect(),
            feed: circuits.feed_path(),
            charge: circuits.path_to(point::CHARGER),
            sensed: circuits.path_to(&site.cut_off.senses_at).unwrap_or_default(),
        }
    }
}

/// Ohms of some parts together, and their squares.
#[derive(Clone, Copy, Debug, Default)]
pub struct Sums {
    /// Together.
    pub ohms: f64,
    /// Sum of the squares of each.
    pub squares: f64,
}

/// The circuit that was built.
#[derive(Clone, Debug)]
pub struct Wired<'a> {
    /// What is there.
    pub site: &'a Installation,
    /// What charges.
    pub charger: &'a ChargerDesign,
    /// All parts.
    pub parts: Vec<Part>,
    /// By branch: indices of its parts on the plus side, and on the minus side; from the battery outwards.
    pub chains: Vec<[Vec<usize>; 2]>,
    /// By branch and pole: what all its parts before each of its spots have together when sound.
    sums: Vec<[Vec<Sums>; 2]>,
    ways: Ways,
    /// Within the service battery.
    pub internal: Ohms,
    /// Rest voltage of the service battery, charged.
    pub rest: Volts,
    /// Posts of the starter battery with the engine running.
    pub running: Volts,
    /// What the cut-off is set to.
    pub cut: Volts,
    /// The body as a way back for the feed beside its own minus cable; `None` where there is none.
    pub body: Option<Ohms>,
}

/// Charge at which the rest voltage is taken.
const CHARGED: Share = Share::new(0.8);
/// Posts of a 12 V battery of unknown chemistry at rest.
const AT_REST: Volts = Volts::new(12.6);

impl<'a> Wired<'a> {
    /// Of a plan whose runs have sizes; a run without a size has no parts.
    pub fn of(
        site: &'a Installation,
        runs: &[RunDesign],
        charger: &'a ChargerDesign,
        (internal, cut): (Ohms, Volts),
    ) -> Self {
        let air = site.meter.air.unwrap_or(site.surroundings.mean);
        let mut parts = Vec::new();
        let mut chains = Vec::new();
        for (index, branch) in site.circuits.branches.iter().enumerate() {
            let design = runs.iter().find(|r| r.run == branch.run);
            let mut chain = [Vec::new(), Vec::new()];
            for part in design.and_then(|d| of_run(site, d, index, air)).unwrap_or_default() {
                chain[usize::from(part.pole == Pole::Minus)].push(parts.len());
                parts.push(part);
            }
            chains.push(chain);
        }
        let sums = chains.iter().map(|c: &[Vec<usize>; 2]| c.each_ref().map(|chain| summed(&parts, chain))).collect();
        let resting = site.chemistry().and_then(|c| c.resting.least(CHARGED));
        let ways = Ways::of(site);
        let body = ways.feed.is_some().then(|| site.vehicle.chassis_mohm.into());
        Wired {
            site,
            charger,
            parts,
            chains,
            sums,
            ways,
            internal,
            rest: resting.unwrap_or(AT_REST),
            running: site.vehicle.alternator_voltage,
            cut,
            body,
        }
    }

    /// Parts of a branch on one side.
    pub fn chain(&self, branch: usize, pole: Pole) -> &[usize] {
        self.chains.get(branch).map_or(&[], |c| &c[usize::from(pole == Pole::Minus)])
    }

    /// What the sound parts of a branch before a spot of it have together; all of them where it names more.
    pub fn sums(&self, spot: Spot) -> Sums {
        let side = usize::from(spot.pole == Pole::Minus);
        let sums = spot.branch.and_then(|b| self.sums.get(b)).map(|s| &s[side]);
        sums.and_then(|s| s.get(spot.after).or(s.last())).copied().unwrap_or_default()
    }

    /// The far end of a branch.
    pub fn far_end(&self, branch: usize, pole: Pole) -> Option<Spot> {
        let side = self.site.circuits.branches.get(branch)?.side;
        Some(Spot { side, pole, branch: Some(branch), after: self.chain(branch, pole).len() })
    }

    /// A post of a battery.
    pub fn post(side: Side, pole: Pole) -> Spot {
        Spot { side, pole, branch: None, after: 0 }
    }

    /// Branches that lead to a load, the inverter's for what is plugged into it.
    pub fn way_to(&self, load: usize) -> Option<&[usize]> {
        self.ways.loads.get(load)?.as_deref()
    }

    /// Branches from the starter battery to the charger.
    pub fn feed_way(&self) -> Option<&[usize]> {
        self.ways.feed.as_deref()
    }

    /// Branches from the service battery to the charger.
    pub fn charge_way(&self) -> Option<&[usize]> {
        self.ways.charge.as_deref()
    }

    /// Branches from the service battery to where the cut-off senses; none where that is its posts.
    pub fn sensed_way(&self) -> &[usize] {
        &self.ways.sensed
    }
}

fn summed(parts: &[Part], chain: &[usize]) -> Vec<Sums> {
    let mut sums = vec![Sums::default()];
    let mut so_far = Sums::default();
    for part in chain {
        let ohms = parts[*part].resistance.get();
        so_far = Sums { ohms: so_far.ohms + ohms, squares: so_far.squares + ohms * ohms };
        sums.push(so_far);
    }
    sums
}

fn of_run(site: &Installation, design: &RunDesign, branch: usize, air: Celsius) -> Option<Vec<Part>> {
    let here = site.circuits.branches.get(branch)?;
    let (run, size) = (site.runs.get(design.run)?, design.size.as_ref()?);
    let segment = Segment::of(site, design, &here.far, air)?;
    let besides = site.besides_copper(run, &here.far, size.area);
    let links = (segment.fixed - besides).max(Ohms::ZERO);
    let own_way_back = run.return_path == ReturnPath::Cable;
    let joint = site.joints(run).of(size.area).value / if own_way_back { 4.0 } else { 2.0 };
    let copper = warmed(segment.copper, air) / if own_way_back { 2.0 } else { 1.0 };
    let contact = site.contact(&here.far) + run.switch_mohm.into();
    let plug = site.plugs.iter().any(|p| p.name == here.far);
    let plus_contact = if plug { contact / 2.0 } else { contact };
    let rating = design.fuses.iter().find_map(|f| f.rating).filter(|_| run.own_fuse);
    let part = |pole, kind, resistance| {
        let rating = rating.filter(|_| kind == PartKind::Fuse);
        Part { branch, pole, kind, resistance, rating }
    };
    let mut parts = vec![part(Pole::Plus, PartKind::NearJoint, joint)];
    if rating.is_some() {
        parts.push(part(Pole::Plus, PartKind::Fuse, links));
    }
    parts.push(part(Pole::Plus, PartKind::Cable, copper));
    parts.push(part(Pole::Plus, PartKind::FarJoint, joint));
    if here.far == point::CUT_OFF {
        parts.push(part(Pole::Plus, PartKind::CutOff, contact));
    } else if contact > Ohms::ZERO {
        parts.push(part(Pole::Plus, PartKind::Contact, plus_contact));
    }
    if own_way_back {
        parts.push(part(Pole::Minus, PartKind::NearJoint, joint));
        parts.push(part(Pole::Minus, PartKind::Cable, copper));
        parts.push(part(Pole::Minus, PartKind::FarJoint, joint));
        if plug {
            parts.push(part(Pole::Minus, PartKind::Contact, plus_contact));
        }
    } else {
        parts.push(part(Pole::Minus, PartKind::Earth, site.body(run)));
    }
    Some(parts)
}
