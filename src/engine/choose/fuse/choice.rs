//! Which style where none breaks the fault current?

use crate::engine::judge::fuse::limits::{FuseChoice, FuseLimits};
use crate::engine::physics::fuse_link::rating::breaking;
use crate::engine::simulate::fault::fuse::FuseNeed;
use crate::quantity::*;

/// The fuse of the style that breaks most, where none breaks the fault current at its place: the least
/// more resistance before it makes it good. `None` when no rating of any style fits.
pub fn strongest_for_cable<'c>(limits: &FuseLimits<'c>, pin: Option<&str>, need: &FuseNeed) -> Option<FuseChoice<'c>> {
    let calm = FuseNeed { prospective: Amps::ZERO, ..*need };
    strongest(limits.fitting(pin, &calm), |c| breaking(c.style, need.circuit))
}

/// The first of those that break most.
pub(crate) fn strongest<T>(all: impl Iterator<Item = T>, breaks: impl Fn(&T) -> Amps) -> Option<T> {
    all.reduce(|best, next| if breaks(&next).get() > breaks(&best).get() { next } else { best })
}
