//! Does only the nearest fuse open?
//!
//! Two links do when the upstream rating is at least `selectivity-ratio` times
//! the downstream one and the upstream style is not the quicker of the two at
//! twice its rating (styles without gates are taken as alike). They also do
//! when, at every gate of the downstream one within the fault currents there,
//! its latest opening is before the upstream one's earliest, and its energy
//! above its last gate is less than the upstream one's least.

use crate::catalogue::FuseStyle;
use crate::engine::physics::fuse_link::gates::{earliest, latest};
use crate::quantity::*;

/// A fuse-link in a chain.
#[derive(Clone, Copy, Debug)]
pub struct ChainLink<'a> {
    /// Its style.
    pub style: &'a FuseStyle,
    /// Its rating.
    pub rating: Amps,
}

impl ChainLink<'_> {
    fn at(&self, of_rating: f64) -> Amps {
        self.rating * of_rating
    }
}

/// Upstream rating over downstream rating; infinite for a downstream rating of zero.
pub fn ratio(upstream: ChainLink, downstream: ChainLink) -> f64 {
    upstream.rating / downstream.rating
}

/// Whether the rule of ratings holds: enough ratio, and an upstream style that is not the quicker one.
pub fn by_ratio(upstream: ChainLink, downstream: ChainLink, needed: f64) -> bool {
    !is_quicker(upstream.style, downstream.style) && ratio(upstream, downstream) >= needed
}

/// Whether one style opens sooner than another at twice the rating, by the
/// latest times of both; no, where either is not known.
pub fn is_quicker(style: &FuseStyle, than: &FuseStyle) -> bool {
    match (latest(&style.gates, 2.0), latest(&than.gates, 2.0)) {
        (Some(a), Some(b)) => a.get() < b.get(),
        _ => false,
    }
}

/// Whether the gates show that only the downstream link opens for every fault from `least` to `most`.
pub fn by_gates(upstream: ChainLink, downstream: ChainLink, least: Amps, most: Amps) -> bool {
    let (Some(last_up), Some(last_down)) = (upstream.style.gates.last(), downstream.style.gates.last()) else {
        return false;
    };
    let Some(slowest) = last_down.max else { return false };
    let mut judged = false;
    for gate in &downstream.style.gates {
        let (Some(latest), at) = (gate.max, downstream.at(gate.of_rating)) else { continue };
        if at.get() < least.get() || at.get() > most.get() {
            continue;
        }
        judged = true;
        if latest.get() >= earliest(&upstream.style.gates, at / upstream.rating).get() {
            return false;
        }
    }
    let end = downstream.at(last_down.of_rating);
    if most.get() <= end.get() {
        return judged;
    }
    let square = |i: Amps, t: Seconds| i.get() * i.get() * t.get();
    square(end, slowest) < square(upstream.at(last_up.of_rating), last_up.min)
}

/// Whether two links are not selective whatever else is chosen: the least fault is `least` at the most, the largest `most`
/// at the least.
pub fn never_part(upstream: ChainLink, downstream: ChainLink, needed: f64, least: Amps, most: Amps) -> bool {
    if by_ratio(upstream, downstream, needed) {
        return false;
    }
    let (Some(last_up), Some(last_down)) = (upstream.style.gates.last(), downstream.style.gates.last()) else {
        return true;
    };
    let Some(slowest) = last_down.max else { return true };
    let mut any = false;
    for gate in &downstream.style.gates {
        let (Some(latest), at) = (gate.max, downstream.at(gate.of_rating)) else { continue };
        let parts = latest < earliest(&upstream.style.gates, at / upstream.rating);
        if !parts && at >= least && at <= most {
            return true;
        }
        any |= parts;
    }
    let end = downstream.at(last_down.of_rating);
    let square = |i: Amps, t: Seconds| i.get() * i.get() * t.get();
    let by_energy = square(end, slowest) < square(upstream.at(last_up.of_rating), last_up.min);
    // Up to the last gate one that parts them may do, beyond it only the energy.
    !by_energy && (most > end || !any)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;

    #[track_caller]
    fn check(up: (&str, f64), down: (&str, f64), ratio_holds: bool, gates_hold: bool) {
        let catalogue = Catalogue::embedded().unwrap();
        let link = |(key, rating): (&str, f64)| ChainLink {
            style: catalogue.fuse_style(key).unwrap(),
            rating: Amps::new(rating),
        };
        let (up, down) = (link(up), link(down));
        assert_eq!(by_ratio(up, down, 2.0), ratio_holds, "ratio");
        assert_eq!(by_gates(up, down, Amps::new(2.0 * down.rating.get()), Amps::new(900.0)), gates_hold, "gates");
    }

    #[test]
    fn by_ratio_where_the_upstream_style_is_not_quicker_and_by_gates() {
        check(("blade-c", 20.0), ("blade-c", 10.0), true, false);
        check(("blade-c", 15.0), ("blade-c", 10.0), false, false);
        // The data sheet of the large blades lets them open at twice their rating after 0.2 s.
        check(("blade-e", 30.0), ("blade-c", 15.0), true, false);
        check(("blade-c", 30.0), ("blade-e", 15.0), false, false);
        check(("cartridge-t", 150.0), ("blade-c", 15.0), true, false);
        check(("strip-51", 60.0), ("blade-c", 10.0), true, true);
        check(("blade-c", 20.0), ("blade-e", 20.0), false, false);
    }
}
