//! A counter of charge that opens the cut-off: what does it show, and when was it last set right?
//!
//! It is taken to be off to the low side, by as much as the plan states, so that what lasts here lasts
//! with a better one. What it shows is counted from a full battery, in the capacity that is set in it.

use crate::engine::installation::counter::FULL;
use crate::engine::simulate::days::scenario::Counted;
use crate::quantity::*;

/// Where it stands.
#[derive(Clone, Copy, Debug)]
pub(super) struct Counting {
    settings: Counted,
    /// Capacity set in it over what the battery has.
    times: f64,
    /// Hours since the battery was last full.
    since: f64,
    /// The longest that it was not.
    pub longest: f64,
}

impl Counting {
    /// Of a full battery that has so much.
    pub fn new(settings: Counted, has: AmpHours) -> Self {
        Counting { settings, times: settings.counts_on / has.get().max(1e-6), since: 0.0, longest: 0.0 }
    }

    /// The true state of charge at which it shows so much, after so many more hours.
    fn charge(&self, shown: f64, more: f64) -> f64 {
        let off = self.settings.reset + self.settings.drift_an_hour * (self.since + more);
        (1.0 - (1.0 - shown - off) * self.times).min(FULL.get())
    }

    /// Whether it opens the cut-off at such a state of charge, so many seconds from now.
    pub fn opens(&self, charge: Share, seconds: f64) -> bool {
        charge.get() < self.charge(self.settings.opens, seconds / 3600.0)
    }

    /// Whether it closes it.
    pub fn closes(&self, charge: Share) -> bool {
        charge.get() >= self.charge(self.settings.closes, 0.0)
    }

    /// After so many seconds, at the end of which the battery stands at such a charge.
    pub fn pass(&mut self, seconds: f64, charge: Share) {
        self.since += seconds / 3600.0;
        self.longest = self.longest.max(self.since);
        if charge >= FULL {
            self.since = 0.0;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked on paper: set to 24 % of 80 Ah in a battery that has 100 Ah, off by 2 % and 1 % a day. New from full it
    /// opens when (1 - 0.24 - 0.02) x 80 = 59.2 Ah have gone, at 40.8 %; after two days 1.6 Ah sooner; a full battery
    /// sets it right.
    #[test]
    fn it_opens_sooner_the_longer_it_was_not_full() {
        let settings = Counted { opens: 0.24, closes: 0.34, counts_on: 80.0, reset: 0.02, drift_an_hour: 0.01 / 24.0 };
        let mut counting = Counting::new(settings, AmpHours::new(100.0));
        let opens = |c: &Counting, at: f64| c.opens(Share::new(at), 0.0);
        assert!(opens(&counting, 0.407) && !opens(&counting, 0.409));
        counting.pass(2.0 * 86400.0, Share::new(0.5));
        assert!(opens(&counting, 0.423) && !opens(&counting, 0.425));
        assert_eq!(counting.longest, 48.0);
        counting.pass(60.0, Share::FULL);
        assert!(!opens(&counting, 0.409));
        assert!(counting.closes(Share::new(0.49)) && !counting.closes(Share::new(0.48)));
    }
}
