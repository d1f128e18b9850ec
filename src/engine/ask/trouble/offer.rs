//! Which measurements are there, and what is the trouble of each?
//!
//! Trouble is counted in readings taken standing in the cabin: a place under the vehicle, a lead that must reach from
//! one end of a run to the other, or an evening's discharge count as more. Common practice, no source.

use crate::engine::ask::trouble::symptom::Symptom;
use crate::engine::installation::circuits::Side;
use crate::engine::simulate::trouble::predict::{Measurement, Probe};
use crate::engine::simulate::trouble::state::On;
use crate::engine::simulate::trouble::wired::{PartKind, Pole, Spot, Wired};
use crate::quantity::*;

/// A measurement with its trouble.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offer {
    /// What.
    pub what: Measurement,
    /// In readings taken in the cabin.
    pub trouble: f64,
}

/// All that can be measured about a symptom.
pub fn offers(wired: &Wired<'_>, symptom: Symptom, load: Option<usize>) -> Vec<Offer> {
    let mut all = Vec::new();
    let way = load.and_then(|l| Some((On::Load(l), wired.way_to(l)?)));
    if let Some((on, way)) = &way {
        on_way(wired, *on, way, &mut all);
        all.push(Offer { what: Measurement { on: *on, probe: Probe::Battery }, trouble: 1.5 });
    }
    let charging = match symptom {
        Symptom::Dark | Symptom::Weak | Symptom::FuseGone | Symptom::Warm => Vec::new(),
        _ => [wired.feed_way(), wired.charge_way()].into_iter().flatten().flatten().copied().collect(),
    };
    // Of a fuse that nobody says more of it is first asked what has no voltage behind it.
    let any = if symptom == Symptom::FuseGone && load.is_none() { wired.site.circuits.branches.len() } else { 0 };
    for branch in 0..any {
        if let (Some(plus), Some(minus)) = (wired.far_end(branch, Pole::Plus), wired.far_end(branch, Pole::Minus)) {
            put(wired, On::Rest, (plus, minus), &mut all);
        }
    }
    let any: Vec<usize> = (0..any).collect();
    for branch in way.iter().flat_map(|(_, way)| *way).chain(&charging).chain(&any) {
        for part in wired.chain(*branch, Pole::Plus) {
            if wired.parts[*part].kind == PartKind::Fuse {
                let on = On::Rest;
                all.push(Offer { what: Measurement { on, probe: Probe::Printed(*part) }, trouble: 1.3 });
                all.push(Offer { what: Measurement { on, probe: Probe::ToBody(*branch) }, trouble: 2.0 });
            }
        }
    }
    supply(wired, symptom, &mut all);
    // Against the other post of the battery, which two breaks in the way leave as they are.
    for branch in way.iter().flat_map(|(_, way)| *way) {
        let ends = [Pole::Plus, Pole::Minus].map(|pole| wired.far_end(*branch, pole));
        let ([Some(plus), Some(minus)], Some((on, _))) = (ends, &way) else { continue };
        let post = |pole| Wired::post(plus.side, pole);
        put(wired, *on, (plus, post(Pole::Minus)), &mut all);
        put(wired, *on, (post(Pole::Plus), minus), &mut all);
    }
    all
}

/// What tells of battery, charging and cut-off.
fn supply(wired: &Wired<'_>, symptom: Symptom, all: &mut Vec<Offer>) {
    let posts = |side| Probe::Between(Wired::post(side, Pole::Plus), Wired::post(side, Pole::Minus));
    let mut put = |on, probe, trouble| all.push(Offer { what: Measurement { on, probe }, trouble });
    put(On::Rest, posts(Side::Service), 1.2);
    put(On::Rest, Probe::Sense, 1.5);
    if matches!(symptom, Symptom::Dark | Symptom::Weak) {
        return;
    }
    put(On::Rest, Probe::Battery, 1.5);
    put(On::Rest, Probe::Setting, 1.2);
    put(On::Rest, Probe::Capacity, 8.0);
    for load in 0..wired.site.loads.len() {
        if let Some(branch) = wired.way_to(load).and_then(|way| way.last().copied()) {
            put(On::Rest, Probe::Lead(branch), 1.8);
        }
    }
    if wired.site.solar.array > Watts::ZERO {
        put(On::Rest, Probe::Panel, 1.5);
    }
    put(On::Engine, posts(Side::Feed), 1.6);
    put(On::Engine, Probe::Battery, 1.8);
    put(On::Engine, Probe::Enable, 1.8);
    put(On::Full, posts(Side::Service), 4.0);
    for way in [wired.feed_way(), wired.charge_way()].into_iter().flatten() {
        on_way(wired, On::Engine, way, all);
    }
}

/// Across each part, from each end of a run, and from the battery to each point.
fn on_way(wired: &Wired<'_>, on: On, way: &[usize], all: &mut Vec<Offer>) {
    let circuits = &wired.site.circuits;
    for branch in way {
        let Some(side) = circuits.branches.get(*branch).map(|b| b.side) else { continue };
        let spot = |pole, after| Spot { side, pole, branch: Some(*branch), after };
        for pole in [Pole::Plus, Pole::Minus] {
            let count = wired.chain(*branch, pole).len();
            let other = if pole == Pole::Plus { Pole::Minus } else { Pole::Plus };
            let cable = wired.chain(*branch, pole).iter().position(|p| crosses(wired, *p)).unwrap_or(0);
            for from in 0..=count {
                for to in from + 1..=count {
                    let (near, far) = (spot(pole, from), spot(pole, to));
                    // The red probe where the plus is, so that a sound way shows a small drop.
                    let pair = if pole == Pole::Plus { (near, far) } else { (far, near) };
                    put(wired, on, pair, all);
                }
                // Against the other pole of the same point.
                let across = if from <= cable { 0 } else { wired.chain(*branch, other).len() };
                let (one, two) = (spot(pole, from), spot(other, across));
                if pole == Pole::Plus {
                    put(wired, on, (one, two), all);
                } else if from != 0 && from != count {
                    put(wired, on, (two, one), all);
                }
            }
            let post = Wired::post(side, pole);
            let end = spot(pole, count);
            if circuits.branches[*branch].parent.is_some() {
                put(wired, on, if pole == Pole::Plus { (post, end) } else { (end, post) }, all);
            }
        }
    }
}

fn put(wired: &Wired<'_>, on: On, (red, black): (Spot, Spot), all: &mut Vec<Offer>) {
    let engine = if matches!(on, On::Engine | On::Full) { 0.4 } else { 0.0 };
    let far_apart = if wired.where_is(red) == wired.where_is(black) { 0.0 } else { 0.5 };
    let hidden = [red, black].map(|s| if wired.is_inside(s) { 0.15 } else { 0.0 }).iter().sum::<f64>();
    let place = wired.reach(red).max(wired.reach(black));
    let what = Measurement { on, probe: Probe::Between(red, black) };
    all.push(Offer { what, trouble: 1.0 + engine + far_apart + hidden + place });
}

fn crosses(wired: &Wired<'_>, part: usize) -> bool {
    matches!(wired.parts[part].kind, PartKind::Cable | PartKind::Earth)
}

impl Wired<'_> {
    /// The point at which a spot is.
    pub fn where_is(&self, spot: Spot) -> &str {
        let branch = spot.branch.and_then(|b| Some((b, self.site.circuits.branches.get(b)?)));
        let Some((index, branch)) = branch else { return spot.side.battery() };
        let chain = self.chain(index, spot.pole);
        let beyond = chain.iter().take(spot.after).any(|p| crosses(self, *p));
        if beyond { &branch.far } else { &branch.near }
    }

    /// Whether a spot is no terminal of a point.
    fn is_inside(&self, spot: Spot) -> bool {
        spot.branch.is_some_and(|b| spot.after > 0 && spot.after < self.chain(b, spot.pole).len())
    }

    /// Trouble of getting to a spot.
    fn reach(&self, spot: Spot) -> f64 {
        let run = spot.branch.and_then(|b| self.site.runs.get(self.site.circuits.branches.get(b)?.run));
        match run.map_or("battery-box", |r| r.surroundings.as_str()) {
            "under-vehicle" | "trailer-drawbar" => 0.6,
            "engine-bay" | "engine-bay-tube" => 0.3,
            "cabin" | "loom-tube" | "conduit" => 0.0,
            _ => 0.15,
        }
    }
}
