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

/// Links as they are found, the worst of each kept.
pub(crate) struct Found {
    pub links: Vec<LinkUse>,
}

impl Found {
    /// A link used so far by an even load and by one at the corners.
    pub(crate) fn add(&mut self, link: Link, thrown: Thrown, even: f64, corners: f64) {
        let share = |used: f64| Share::new(if used.is_finite() { used.clamp(0.0, 1e6) } else { 1e6 });
        let (even, corners) = (share(even), share(corners));
        let next = LinkUse { link, used: even.max(corners), thrown, even, corners };
        match self.links.iter_mut().find(|l| l.link == link) {
            Some(known) if known.used >= next.used => {}
            Some(known) => *known = next,
            None => self.links.push(next),
        }
    }
}

/// Pull of the worst stud under an even load and under one at the corners.
pub(crate) type Pulls = (f64, f64);

/// The largest of forces.
pub(crate) fn most(forces: &[Newtons]) -> f64 {
    forces.iter().fold(0.0, |a, f| a.max(f.get()))
}
