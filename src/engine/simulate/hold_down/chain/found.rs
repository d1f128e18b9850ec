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

/// What a link is used by a mass whose ears are held by a deck that bears only so much of what holds them.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Eased {
    /// With ears that the deck holds.
    pub held: f64,
    /// With ears that turn freely.
    pub loose: f64,
    /// How many times what holds the ears the deck bears.
    pub bears: f64,
}

impl Eased {
    /// The deck bears on with what it bears; the rest of what held the ears turns them.
    pub fn used(self) -> f64 {
        let held = self.bears.clamp(0.0, 1.0);
        self.held.max(self.held * held + self.loose * (1.0 - held))
    }

    /// How many times its mass it stands: the use grows as `held` until the deck gives, and as `loose` from there on.
    pub fn stands(self) -> f64 {
        let held = 1.0 / self.held.max(LEAST);
        if self.loose <= self.held || held <= self.bears {
            return held;
        }
        (1.0 + self.bears * (self.loose - self.held)) / self.loose
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

    /// A link that is used more where wood under the ears gives way; not so much sooner than `held` and `loose` say alone.
    pub(crate) fn add_eased(&mut self, link: Link, thrown: Thrown, even: Eased, corners: Eased) {
        let stands = even.stands().min(corners.stands()).clamp(0.0, 1.0 / LEAST);
        let (even, corners) = (share(even.used()), share(corners.used()));
        self.keep(LinkUse { link, used: even.max(corners), lasting: Share::ZERO, stands, thrown, even, corners });
    }

    /// A link that is used by tightening too, which does not grow with the mass.
    pub(crate) fn add_clamped(&mut self, link: Link, thrown: Thrown, clamped: Clamped, pulls: Pulls) {
        let (even, corners) = (share(clamped.used(pulls.0)), share(clamped.used(pulls.1)));
        let stands = clamped.stands(pulls.0.max(pulls.1)).clamp(0.0, 1.0 / LEAST);
        let lasting = share(clamped.lasting());
        self.keep(LinkUse { link, used: even.max(corners), lasting, stands, thrown, even, corners });
    }

    /// The worse of both; it stands no more than either of them, as what eases may be used less now and stand less.
    fn keep(&mut self, next: LinkUse) {
        let Some(known) = self.links.iter_mut().find(|l| l.link == next.link) else {
            self.links.push(next);
            return;
        };
        let stands = known.stands.min(next.stands);
        if next.used > known.used {
            *known = next;
        }
        known.stands = stands;
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
