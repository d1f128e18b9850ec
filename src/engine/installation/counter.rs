//! What does a counter of charge open at, and how far may it be off?
//!
//! A shunt counts what flows; a full battery sets it right, and from then on it
//! strays. It is set to the capacity that the battery has when it is replaced,
//! so that an old one is guarded too.

use crate::engine::installation::Installation;
use crate::engine::physics::reckon::Reckoned;
use crate::plan::CutOff;
use crate::quantity::*;
use crate::reckon;

/// It closes again so much above where it opened, where nobody says more: what a battery takes up in an hour of driving.
/// Common practice, no source.
const BACK: Share = Share::new(0.1);
/// A battery that is as full as this sets the counter right: near the end of absorption. Common practice, no source.
pub(crate) const FULL: Share = Share::new(0.98);

/// A cut-off that acts by counted charge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counter {
    /// Counted charge at which it opens.
    pub opens: Share,
    /// Counted charge at which it closes again.
    pub closes: Share,
    /// Capacity to be set in it, as a share of the rated.
    pub counts_on: Share,
    /// How far it may be off after the days without charge.
    pub error: Share,
    /// How far it strays in a day.
    pub drift: Share,
    /// How far it may be off when full.
    pub reset: Share,
}

impl Counter {
    /// How far it may be off so long after a full battery set it right.
    pub fn off_after(&self, days: Days) -> Share {
        self.reset + self.drift * days.get()
    }

    /// Charge that may be left when it opens, from the least to the most, after the days without charge.
    pub fn acts_between(&self) -> (Share, Share) {
        ((self.opens - self.error).max(Share::ZERO), (self.opens + self.error).min(Share::FULL))
    }
}

/// What is said of a counter.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Said {
    pub opens_at: Option<Share>,
    pub closes_at: Option<Share>,
    pub drift: Share,
    pub reset: Share,
    /// Without a full battery.
    pub days: Days,
}

impl Said {
    /// In a plan.
    pub fn of(site: &Installation) -> Self {
        let CutOff { opens_at, closes_at, drift, reset_error, .. } = site.cut_off;
        Said { opens_at, closes_at, drift, reset: reset_error, days: site.days_without_charge }
    }

    /// The counter with such a reserve; `counts_on`: share of the capacity that is left when the battery is replaced.
    pub fn counter(&self, reserve: Share, counts_on: Share) -> Counter {
        let error = self.error().value;
        let opens = self.opens_at.unwrap_or_else(|| set_to(reserve, error).value);
        let closes = self.closes_at.unwrap_or((opens + BACK).min(Share::new(0.99)));
        Counter { opens, closes, counts_on, error, drift: self.drift, reset: self.reset }
    }

    /// How far it may be off after these days.
    pub fn error(&self) -> Reckoned<Share, 3> {
        reckon!(Share: f + s * n,
            f: "off when it takes the battery for full" = self.reset,
            s: "strays in a day" = self.drift,
            n: "days without a full battery" = self.days)
    }
}

/// What it is set to: the reserve is kept even where it shows too much.
pub(crate) fn set_to(reserve: Share, error: Share) -> Reckoned<Share, 2> {
    reckon!(Share: min(ceil((r + e) * 100.0 - 0.000001) / 100.0, 0.95),
        r: "reserve" = reserve,
        e: "how far the counter may be off" = error)
}
