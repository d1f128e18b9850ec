//! How low does the voltage go where a cut-off senses, whatever cable lies before it and however long it waits?

use crate::quantity::*;

/// The low moments of some days: each that is the lowest of all for some cable and some delay.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lows(Vec<Low>);

/// A moment: voltage at the posts, current through the cut-off, for how many seconds at least, and when.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Low {
    posts: f64,
    through: f64,
    lasts: f64,
    at: Hours,
}

impl Low {
    fn covers(&self, other: &Low) -> bool {
        self.posts <= other.posts && self.through >= other.through && self.lasts >= other.lasts
    }
}

impl Lows {
    /// Note a moment, in V, A and s.
    pub(crate) fn add(&mut self, posts: f64, through: f64, lasts: f64, at: Hours) {
        let new = Low { posts, through, lasts, at };
        // The last that was the lowest of all is likely to be lower than this.
        if !self.0.iter().rev().any(|low| low.covers(&new)) {
            self.0.retain(|low| !new.covers(low));
            self.0.push(new);
        }
    }

    /// The lowest voltage behind such a resistance that lasts for longer than a delay; `None` while it never was
    /// closed.
    pub fn lowest(&self, between: Ohms, delay: Seconds) -> Option<Volts> {
        self.moment(between, delay).map(|(lowest, _)| lowest)
    }

    /// The same, and how long after the beginning.
    pub fn moment(&self, between: Ohms, delay: Seconds) -> Option<(Volts, Hours)> {
        let lasting = self.0.iter().filter(|low| low.lasts > delay.get());
        let sensed = lasting.map(|low| (Volts::new(low.posts - low.through * between.get()), low.at));
        sensed.reduce(|a, b| if b.0 < a.0 { b } else { a })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ohm's law by hand: 12.0 V at 10 A and 11.9 V at 1 A behind 0 and 20 mΩ; a start of 1 s counts for a delay of
    /// half a second only.
    #[test]
    fn the_lowest_depends_on_cable_and_delay() {
        let mut lows = Lows::default();
        assert_eq!(lows.lowest(Ohms::ZERO, Seconds::ZERO), None);
        for (posts, through, lasts) in
            [(12.5, 1.0, f64::MAX), (12.0, 10.0, f64::MAX), (11.9, 1.0, f64::MAX), (11.0, 30.0, 1.0)]
        {
            lows.add(posts, through, lasts, Hours::new(posts));
        }
        for (between, delay, volts) in [(0.0, 5.0, 11.9), (0.02, 5.0, 11.8), (0.0, 0.5, 11.0), (0.02, 0.5, 10.4)] {
            let lowest = lows.lowest(Ohms::new(between), Seconds::new(delay)).unwrap();
            assert!((lowest.get() - volts).abs() < 1e-12, "{lowest}");
        }
        for (between, delay, at) in [(0.0, 5.0, 11.9), (0.02, 5.0, 12.0), (0.02, 0.5, 11.0)] {
            assert_eq!(lows.moment(Ohms::new(between), Seconds::new(delay)).unwrap().1, Hours::new(at));
        }
        assert_eq!(lows.0.len(), 3);
    }
}
