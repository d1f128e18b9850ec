//! Which is the worst use of each link so far?

use super::metal::Metal;
use super::result::{Link, LinkUse};
use crate::engine::physics::steel::shock::Thrown;
use crate::engine::simulate::hold_down::fixing::Fixing;
use crate::engine::simulate::hold_down::result::{ShockCase, Strength};
use crate::quantity::*;

/// A carrier while its battery is thrown one way.
#[derive(Clone, Copy)]
pub(crate) struct Throw<'a> {
    pub given: &'a Fixing<'a>,
    pub strength: &'a Strength,
    pub case: &'a ShockCase,
    pub metal: &'a Metal,
}

/// What a link is used by a stud's pull: a use that lasts, and what each newton adds to it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Clamped {
    /// At least this, whatever pulls.
    pub least: f64,
    /// Where the pull comes on top.
    pub lasts: f64,
    /// For each newton of pull.
    pub each: f64,
}

impl Clamped {
    /// Without any pull.
    pub fn lasting(&self) -> f64 {
        self.least.max(self.lasts)
    }

    /// With it.
    pub fn used(&self, pull: f64) -> f64 {
        self.least.max(self.lasts + self.each * pull)
    }

    /// How many times the pull it stands.
    pub fn stands(&self, pull: f64) -> f64 {
        if self.lasting() > 1.0 { 0.0 } else { (1.0 - self.lasts) / (self.each * pull).max(1e-9) }
    }
}

/// Links as they are found, the worst of each kept.
pub(crate) struct Found {
    pub links: Vec<LinkUse>,
}

impl Found {
    /// A link used so far by an even load and by one at the corners; both grow with the mass.
    pub(crate) fn add(&mut self, link: Link, thrown: Thrown, even: f64, corners: f64) {
        let (even, corners) = (share(even), share(corners));
        let used = even.max(corners);
        let stands = 1.0 / used.get().max(LEAST);
        self.keep(LinkUse { link, used, lasting: Share::ZERO, stands, thrown, even, corners });
    }

    /// A link that is used by tightening too, which does not grow with the mass.
    pub(crate) fn add_clamped(&mut self, link: Link, thrown: Thrown, clamped: Clamped, pulls: Pulls) {
        let (even, corners) = (share(clamped.used(pulls.0)), share(clamped.used(pulls.1)));
        let stands = clamped.stands(pulls.0.max(pulls.1)).clamp(0.0, 1.0 / LEAST);
        let lasting = share(clamped.lasting());
        self.keep(LinkUse { link, used: even.max(corners), lasting, stands, thrown, even, corners });
    }

    /// The worse of both, the one that stands less where they are used alike.
    fn keep(&mut self, next: LinkUse) {
        let worse = |known: &LinkUse| next.used > known.used || (next.used == known.used && next.stands < known.stands);
        match self.links.iter_mut().find(|l| l.link == next.link) {
            Some(known) if !worse(known) => {}
            Some(known) => *known = next,
            None => self.links.push(next),
        }
    }
}

/// A use that can be shown.
fn share(used: f64) -> Share {
    Share::new(if used.is_finite() { used.clamp(0.0, 1e6) } else { 1e6 })
}

/// What is used less counts as used so far: no link stands more than a thousand times its load.
const LEAST: f64 = 1e-3;

/// Pull of the worst stud under an even load and under one at the corners.
pub(crate) type Pulls = (f64, f64);

/// The largest of forces.
pub(crate) fn most(forces: &[Newtons]) -> f64 {
    forces.iter().fold(0.0, |a, f| a.max(f.get()))
}
