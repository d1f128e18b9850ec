//! For the size in hand: how long, how strong, how warm may the run become, and what stops it?
//!
//! The other runs and loads stay as they are. Longest: the length at which the
//! drop reaches what the tightest load beyond leaves. Biggest: the current at
//! which the first of drop, ampacity and largest fitting fuse is reached.
//! Warmest: the air at which the first of ampacity, fuse and drop is reached.

use crate::engine::physics::conductor::ampacity::ampacity;
use crate::engine::physics::conductor::heat::HeatPath;
use crate::engine::physics::conductor::laid::Laid;
use crate::engine::physics::copper::warmed;
use crate::engine::physics::reckon::Reckoned;
use crate::engine::simulate::circuit::candidate::{Asked, Candidate, Shelf};
use crate::engine::simulate::circuit::picked::PickedRun;
use crate::quantity::*;
use crate::reckon;

const DROP: &str = "voltage drop";
const HEAT: &str = "heat";
const FUSE: &str = "fuse";

/// The answers for one run; each with what stops it.
#[derive(Clone, Copy, Debug, Default)]
pub struct Inverse {
    /// One way.
    pub longest: Option<(Metres, &'static str)>,
    /// Steady.
    pub biggest: Option<(Amps, &'static str)>,
    /// Along it.
    pub warmest: Option<(Celsius, &'static str)>,
}

pub(crate) struct Turned<'a> {
    shelf: &'a Shelf<'a>,
    run: &'a PickedRun<'a>,
    chosen: &'a Candidate,
    allowed: Option<Volts>,
    loading: Share,
}

impl<'a> Turned<'a> {
    pub fn new(shelf: &'a Shelf<'a>, run: &'a PickedRun<'a>, loading: Share) -> Self {
        let chosen = run.chosen();
        Turned { shelf, run, chosen, allowed: run.allowed().map(|a| a.value), loading }
    }

    pub fn all(&self) -> Inverse {
        let longest = self.longest().map(|longest| (longest.value, DROP));
        Inverse { longest, biggest: self.biggest(), warmest: self.warmest() }
    }

    fn asked(&self) -> &Asked<'a> {
        &self.run.asked
    }

    /// What does not warm with the copper, of the size in hand.
    fn fixed(&self) -> Ohms {
        self.asked().fixed(self.shelf.cables[self.chosen.cable].conductor.area).value
    }

    /// One way, until the drop is all that is allowed.
    pub fn longest(&self) -> Option<Reckoned<Metres, 4>> {
        let (allowed, length, current) = (self.allowed?, self.asked().run.length, self.asked().current);
        if current <= Amps::ZERO || length <= Metres::ZERO {
            return None;
        }
        let per_metre = (self.chosen.resistance - self.fixed()) / length.get();
        (per_metre > Ohms::ZERO).then(|| {
            reckon!(Metres: max((U / I - F) / r, 0.0),
                U: "drop it may have" = allowed,
                I: "largest steady current" = current,
                F: "what does not grow with it" = self.fixed(),
                r: "hot copper out and back, for each metre" = per_metre)
        })
    }

    fn path(&self, air: Celsius, bundle: f64) -> HeatPath {
        let laid = Laid { air, ..self.asked().laid };
        HeatPath::new(&self.shelf.cables[self.chosen.cable], &laid, bundle)
    }

    fn bundle(&self) -> f64 {
        self.shelf.factors(self.run.lay).bundle.value
    }

    /// The smallest of ampacity, fuse and drop.
    fn biggest(&self) -> Option<(Amps, &'static str)> {
        let asked = self.asked();
        let ampacity = self.chosen.ampacity.used();
        let mut most = (ampacity, HEAT);
        if let Some(fuse) = self.largest_fuse(ampacity)
            && fuse < most.0
        {
            most = (fuse, FUSE);
        }
        let Some(allowed) = self.allowed else { return Some(most) };
        let path = self.shelf.path(self.run.lay, self.chosen.cable);
        let warmth = |i: Amps| asked.warmth(path, self.chosen.ampacity, i);
        let drop = |i: Amps| i * (warmed(self.chosen.cold, warmth(i)) + self.fixed());
        if drop(most.0) > allowed {
            // Resistance hardly moves with the current: I = U / R(I) settles in a few turns.
            let mut amps = most.0;
            for _ in 0..12 {
                let before = amps;
                amps = (allowed / (drop(amps) / amps.max(Amps::new(1e-9)))).min(most.0);
                if (amps - before).abs() <= amps * 1e-9 {
                    break;
                }
            }
            most = (amps, DROP);
        }
        Some(most)
    }

    /// Steady current that the largest fuse within the ampacity may carry: rating × loading × re-rating.
    fn largest_fuse(&self, ampacity: Amps) -> Option<Amps> {
        // Of loads that come and go the whole rating may flow.
        let loading = self.asked().pulsed.map_or(self.loading, |_| Share::FULL);
        self.asked().fuses.most_carried(ampacity, loading)
    }

    /// To 1 K and on the safe side: begun where it should be, else by halving.
    fn warmest(&self) -> Option<(Celsius, &'static str)> {
        let asked = self.asked();
        let fails = |air: f64| self.fails_in(Celsius::new(air));
        let (mut low, mut high) = (asked.laid.air.get(), asked.laid.insulation.max.get());
        if fails(low).is_some() {
            (low, high) = (-40.0, low);
            fails(high)?;
            if fails(low).is_some() {
                return None;
            }
        }
        if high <= low {
            return None;
        }
        let parts = 1u32 << (high - low).log2().ceil().clamp(0.0, 16.0) as u32;
        let width = (high - low) / f64::from(parts);
        let at = |part: u32| low + width * f64::from(part);
        let guess = ((self.warmest_about() - low) / width).clamp(1.0, f64::from(parts)) as u32;
        let mut near = [guess, guess + 1, guess.saturating_sub(1), guess + 2].into_iter();
        let (mut under, mut over, mut stop) = (0, parts, HEAT);
        while over - under > 1 {
            let part = near.find(|part| (under + 1..over).contains(part)).unwrap_or((under + over) / 2);
            match fails(at(part)) {
                Some(rule) => (over, stop) = (part, rule),
                None => under = part,
            }
        }
        Some((Celsius::new(at(under)), stop))
    }

    /// Where that will be if heat is given off by the kelvin, so that it need not be looked for from both ends.
    fn warmest_about(&self) -> f64 {
        let (asked, chosen) = (self.asked(), self.chosen);
        let (air, most, has) = (asked.laid.air.get(), asked.laid.insulation.max.get(), chosen.ampacity.used());
        let carries = |amps: Amps| most - (most - air) * (amps / has.max(Amps::new(1e-9))).powi(2);
        let fuse = asked.fuses.least().filter(|_| !asked.fuses.free).map(|least| carries(least / asked.fuses.share));
        let drop = self.allowed.filter(|_| asked.current > Amps::ZERO).map(|allowed| {
            let cold = chosen.cold.max(Ohms::new(1e-9));
            let per_kelvin = (warmed(cold, Celsius::new(120.0)) - warmed(cold, Celsius::new(20.0))).get() / 100.0;
            let at = 20.0 + (allowed / asked.current - self.fixed() - cold).get() / per_kelvin;
            at - (chosen.temperature.get() - air)
        });
        [fuse, drop].into_iter().flatten().fold(carries(asked.current), f64::min)
    }

    /// The first rule that the chosen size breaks in this air.
    fn fails_in(&self, air: Celsius) -> Option<&'static str> {
        let asked = self.asked();
        let (laid, bundle) = (Laid { air, ..asked.laid }, self.bundle());
        let factor = self.shelf.catalogue().ampacity.ambient_value(laid.insulation.column, air);
        let base = self.shelf.base(&laid, self.chosen.cable);
        let path = self.path(air, bundle);
        let ampacity = asked.pulsing(&path, ampacity(&path, laid.insulation.max, base, factor, bundle));
        if ampacity.used() < asked.current {
            return Some(HEAT);
        }
        if !asked.fuses.fits(ampacity.used()) {
            return Some(FUSE);
        }
        let at = asked.warmth(&path, ampacity, asked.current);
        let drop = asked.current * (warmed(self.chosen.cold, at) + self.fixed());
        self.allowed.filter(|allowed| drop > *allowed * (1.0 + 1e-9)).map(|_| DROP)
    }
}
