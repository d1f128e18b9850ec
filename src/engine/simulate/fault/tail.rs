//! What hangs by leads that are not in the plan, and what would such a lead bear of the device before it?
//!
//! Nobody has said what it is, so it is taken as it is usually made: two metres
//! of the thinnest size that carries the load, laid like the run that reaches
//! its point. A fault at its far end must open the device before the copper has
//! taken k² S², reckoned as for every run: low battery, hot copper.

use crate::engine::installation::Installation;
use crate::engine::installation::load::NOMINAL;
use crate::engine::installation::subject::Subject;
use crate::engine::physics::copper::warmed;
use crate::engine::physics::fuse_link::gates::latest;
use crate::engine::physics::fuse_link::let_through::{cable_stands, lasts};
use crate::engine::simulate::circuit::levels::inverter_power;
use crate::engine::simulate::circuit::result::SizeRow;
use crate::engine::simulate::fault::current::short_circuit;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::{Place, ReturnPath, Run, Section, point};
use crate::quantity::*;

/// How long a cable is taken to be whose length nobody gave (common practice, no source).
pub const LENGTH: Metres = Metres::new(2.0);

/// What draws or gives current by leads of its own that are not in the plan.
#[derive(Clone, Debug)]
pub struct Hanging<'a> {
    /// What it is.
    pub subject: Subject,
    /// How it is called in a sentence.
    pub name: &'a str,
    /// The point or the posts it hangs on.
    pub at: &'a str,
    /// What it draws or gives.
    pub current: Amps,
    /// The fuse that its maker put into its leads.
    pub tail_fuse: Option<Amps>,
}

impl Hanging<'_> {
    /// Where the plan says it, by the key of the field.
    pub fn place(&self, key: &'static str) -> Place {
        match self.subject {
            Subject::Load(load) => Place::load(load, key),
            Subject::Inverter => Place::of(Section::Inverter, key),
            Subject::Solar => Place::of(Section::Solar, key),
            _ => Place::of(Section::Mains, key),
        }
    }
}

/// All of it. A run that ends at a point of a load's name, or at a point where nothing else is, ends on the terminals
/// of what is there.
pub fn hanging(site: &Installation) -> Vec<Hanging<'_>> {
    let loads = site.loads.iter().enumerate().filter(|(n, l)| !l.inverter && l.count > 0 && !site.has_cable(*n));
    let mut all: Vec<Hanging> = loads
        .map(|(n, load)| Hanging {
            subject: Subject::Load(n),
            name: &load.name,
            at: &load.at,
            current: load.socket.unwrap_or(Amps::ZERO).max(load.running()),
            tail_fuse: load.tail_fuse,
        })
        .collect();
    let (inverter, solar, mains) = (&site.inverter, &site.solar, &site.mains);
    let draws = inverter_power(site) / inverter.own_cut.max(Volts::new(1.0));
    let others = [
        (inverter.rating > Watts::ZERO, Subject::Inverter, "the inverter", &inverter.at, draws, inverter.tail_fuse),
        (
            solar.array > Watts::ZERO,
            Subject::Solar,
            "the solar controller",
            &solar.at,
            array_current(solar.array),
            solar.tail_fuse,
        ),
        (mains.current > Amps::ZERO, Subject::Mains, "the mains charger", &mains.at, mains.current, mains.tail_fuse),
    ];
    let there = others.into_iter().filter(|(there, _, _, at, ..)| *there && !is_its_own(site, at));
    all.extend(there.map(|(_, subject, name, at, current, tail_fuse)| Hanging {
        subject,
        name,
        at,
        current,
        tail_fuse,
    }));
    all
}

/// The smallest rating of the plainest style that carries such a current for ever, in leads of its own.
pub fn own_fuse(site: &Installation, current: Amps) -> Option<Amps> {
    let needed = current / site.fuse_loading().get();
    let plainest = site.catalogue.fuse_styles.iter().filter(|s| !s.only_asked).min_by_key(|s| s.order)?;
    plainest.ratings.iter().copied().find(|rating| *rating >= needed)
}

/// What an array gives at the battery's nominal voltage.
pub fn array_current(array: Watts) -> Amps {
    array / NOMINAL
}

/// Whether nothing but an inverter or a source can be at a point, so that the run to it ends on its terminals.
fn is_its_own(site: &Installation, at: &str) -> bool {
    let set = [point::SERVICE_BATTERY, point::STARTER_BATTERY, point::CHARGER, point::CUT_OFF];
    let sources = [
        (site.inverter.rating > Watts::ZERO, &site.inverter.at),
        (site.solar.array > Watts::ZERO, &site.solar.at),
        (site.mains.current > Amps::ZERO, &site.mains.at),
    ];
    !set.contains(&at)
        && !site.boards.iter().any(|b| b.name == at)
        && !site.plugs.iter().any(|p| p.name == at)
        && site.circuits_at(at) == 0
        && !site.loads.iter().any(|l| !l.inverter && l.count > 0 && l.at == at)
        && sources.into_iter().filter(|(there, own)| *there && *own == at).count() == 1
}

/// Leads of its own as they are usually made.
#[derive(Clone, Debug)]
pub struct Tail<'a, 'c> {
    /// The size that carries what it draws.
    pub size: &'a SizeRow,
    /// The device before it.
    pub device: &'a Fuse<'c>,
    /// Least current of a fault at its far end.
    pub fault: Amps,
    /// The device opens then after so long at the latest; `None` where nothing promises it.
    pub opens: Option<Seconds>,
    /// How long its copper stands that current.
    pub stands: Seconds,
}

impl Tail<'_, '_> {
    /// Whether its insulation outlasts a fault at its far end.
    pub fn outlasts(&self) -> bool {
        self.opens.is_some_and(|opens| opens <= self.stands)
    }
}

impl<'a, 'r> FaultLoops<'a, 'r> {
    /// The leads of what hangs at the end of a branch; `None` where no device is before them, or no size carries
    /// its current there.
    pub fn tail<'s, 'c>(
        &'s self,
        hanging: &Hanging,
        branch: usize,
        near: &'s [Option<Fuse<'c>>],
    ) -> Option<Tail<'s, 'c>> {
        let smallest = self.site.smallest_size();
        let carries = |s: &&SizeRow| s.area >= smallest && s.for_ever() >= hanging.current;
        let size = self.design(branch)?.sizes.iter().find(carries)?;
        let device = self.device(branch, near)?;
        let (style, rating) = device.fitted()?;
        let links = device.clearing.links_before + style.warm_resistance(rating);
        let here = self.far_fault(branch, links)?;
        let (insulation, run) = (self.link(branch)?, self.run(branch)?);
        let fault = short_circuit(here.emf, here.internal + here.path + self.loop_of(run, size));
        let carried = rating * device.clearing.slow.max(1.0);
        Some(Tail {
            size,
            device,
            fault,
            opens: latest(&style.gates, fault / carried),
            stands: lasts(cable_stands(insulation.adiabatic_k, size.area), fault),
        })
    }

    /// Out and back, as hot as the insulation stands.
    fn loop_of(&self, before: &Run, size: &SizeRow) -> Ohms {
        let run = Run { length: LENGTH, return_path: ReturnPath::Cable, joints: 0, ..before.clone() };
        let link = Link::with_size(self.site, &run, "", Some(size));
        warmed(link.copper, link.hottest)
    }
}
