//! How much of its charge can a battery give at once? The kinetic battery model.
//!
//! Charge stands in two wells. Loads draw from the one at hand; the bound one
//! refills it at a rate k' times the difference of the heads:
//! dy1/dt = -I + k' c (1 - c) (h2 - h1), dy2/dt = -k' c (1 - c) (h2 - h1), with
//! h1 = y1 / c and h2 = y2 / (1 - c). For a constant current both follow in
//! closed form, so a step of any length is exact. It gives what one Peukert
//! exponent cannot: less at once, the rest later. Source: J. F. Manwell and
//! J. G. McGowan, Solar Energy 50 (1993) 399 (equations from memory, checked
//! against an independent integrator and published deliveries in
//! `tests/reference`). Left out: temperature, which moves the floor elsewhere.

use crate::catalogue::Chemistry;
use crate::quantity::*;

/// The two constants of a chemistry.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kinetic {
    /// Share of the charge that is at hand, 0 to 1.
    pub at_hand: Share,
    /// Rate constant k' per hour.
    pub rate_per_h: f64,
}

/// Charge in the two wells.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Wells {
    /// At hand, y1.
    pub at_hand: AmpHours,
    /// Bound, y2.
    pub bound: AmpHours,
}

impl Wells {
    /// All of it.
    pub fn whole(self) -> AmpHours {
        self.at_hand + self.bound
    }
}

/// The closed form for steps of one length.
#[derive(Clone, Copy, Debug)]
pub struct Step {
    c: f64,
    /// e^(-k t).
    decay: f64,
    /// (1 - e^(-k t)) / k.
    first: f64,
    /// (k t - 1 + e^(-k t)) / k.
    second: f64,
}

impl Kinetic {
    /// The constants of a chemistry's profile.
    pub fn of(chemistry: &Chemistry) -> Self {
        Kinetic {
            at_hand: Share::new(chemistry.rate.kinetic_c.clamp(0.01, 1.0)),
            rate_per_h: chemistry.rate.kinetic_k_per_h.max(1e-6),
        }
    }

    /// Share of the whole charge that a constant current delivers in `hours`:
    /// k c H / (1 - e^(-kH) + c (kH - 1 + e^(-kH))).
    pub fn delivered(self, hours: Hours) -> Share {
        let (c, x) = (self.at_hand.get(), self.rate_per_h * hours.get().max(0.0));
        if x < 1e-9 {
            return self.at_hand;
        }
        let decay = (-x).exp();
        Share::new(x * c / (1.0 - decay + c * (x - 1.0 + decay)))
    }

    /// The same speed of levelling with so much more at hand that in `hours` it delivers a share of what it delivers in
    /// `rated` ones: with A = 1 - e^(-x) and B = x - 1 + e^(-x), c = (s X A - x A') / (x B' - s X B).
    pub fn giving(self, hours: Hours, rated: Hours, share: Share) -> Self {
        let (k, s) = (self.rate_per_h, share.get());
        let (x, long) = (k * hours.get(), k * rated.get());
        let (a, b) = (1.0 - (-x).exp(), x - 1.0 + (-x).exp());
        let (a_long, b_long) = (1.0 - (-long).exp(), long - 1.0 + (-long).exp());
        let (over, under) = (s * long * a - x * a_long, x * b_long - s * long * b);
        let at_hand = if under > 1e-9 { over / under } else { 1.0 };
        Kinetic { at_hand: Share::new(at_hand.clamp(self.at_hand.get(), 1.0)), ..self }
    }

    /// The whole charge of a battery that delivers `rated` in `hours`; at least `rated`.
    pub fn whole(self, rated: AmpHours, hours: Hours) -> AmpHours {
        rated / self.delivered(hours).get()
    }

    /// Both wells at one head, holding `charge` together.
    pub fn rested(self, charge: AmpHours) -> Wells {
        Wells { at_hand: charge * self.at_hand.get(), bound: charge * (1.0 - self.at_hand.get()) }
    }

    /// Prepare steps of one length.
    pub fn step(self, length: Hours) -> Step {
        let (k, t) = (self.rate_per_h, length.get());
        let decay = (-k * t).exp();
        // Below a thousandth the difference loses digits, its series does not.
        let x = k * t;
        let second = if x < 1e-3 { t * x * (0.5 - x / 6.0) } else { (x - 1.0 + decay) / k };
        let first = if x < 1e-3 { t * (1.0 - x * (0.5 - x / 6.0)) } else { (1.0 - decay) / k };
        Step { c: self.at_hand.get(), decay, first, second }
    }
}

impl Step {
    /// The wells after the step, with a constant current out of them (negative: in).
    pub fn after(&self, wells: Wells, current: Amps) -> Wells {
        let (y1, y2, i) = (wells.at_hand.get(), wells.bound.get(), current.get());
        let (whole, c) = (y1 + y2, self.c);
        let mixed = whole * (1.0 - self.decay);
        Wells {
            at_hand: AmpHours::new(y1 * self.decay + mixed * c - i * (self.first + c * self.second)),
            bound: AmpHours::new(y2 * self.decay + mixed * (1.0 - c) - i * (1.0 - c) * self.second),
        }
    }

    /// The current that brings the well at hand to `level` at the end of the
    /// step: the most that can be drawn (level 0) or taken in (level c x whole).
    pub fn current_to(&self, wells: Wells, level: AmpHours) -> Amps {
        let idle = self.after(wells, Amps::ZERO).at_hand;
        Amps::new((idle - level).get() / (self.first + self.c * self.second))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn agm() -> Kinetic {
        Kinetic { at_hand: Share::new(0.71), rate_per_h: 0.892 }
    }

    /// Charge is neither made nor lost by a step, of any length.
    #[test]
    fn steps_conserve_charge() {
        for minutes in [0.01, 1.0, 60.0, 6000.0] {
            let hours = Hours::new(minutes / 60.0);
            let before = Wells { at_hand: AmpHours::new(30.0), bound: AmpHours::new(29.0) };
            let after = agm().step(hours).after(before, Amps::new(2.0));
            let drawn = Amps::new(2.0) * hours;
            assert!((before.whole() - after.whole() - drawn).get().abs() < 1e-9, "{minutes} min: {after:?}");
        }
    }

    /// Many short steps end where one long one does.
    #[test]
    fn short_steps_add_up_to_a_long_one() {
        let start = agm().rested(AmpHours::new(100.0));
        let long = agm().step(Hours::new(5.0)).after(start, Amps::new(10.0));
        let short = agm().step(Hours::new(1.0 / 60.0));
        let many = (0..300).fold(start, |w, _| short.after(w, Amps::new(10.0)));
        assert!((long.at_hand - many.at_hand).get().abs() < 1e-9 && (long.bound - many.bound).get().abs() < 1e-9);
    }

    /// A discharge by steps is empty when the closed form for deliveries says so.
    #[test]
    fn deliveries_agree_with_the_steps() {
        let whole = AmpHours::new(100.0);
        for hours in [0.5, 2.0, 10.0, 40.0].map(Hours::new) {
            let gives = whole * agm().delivered(hours).get();
            let end = agm().step(hours).after(agm().rested(whole), gives / hours);
            assert!(end.at_hand.get().abs() < 1e-6, "{hours}: {end:?}");
        }
    }
}
