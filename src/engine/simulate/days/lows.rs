//! How low does the voltage go where a cut-off senses, whatever cable lies before it and however long it waits?

use crate::quantity::*;

/// The low moments of some days: each that is the lowest of all for some cable and some delay.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lows(Vec<Front>);

/// The moments of one length. None is as low as another with as much current: the higher the voltage, the more flows.
#[derive(Clone, Debug, PartialEq)]
struct Front {
    /// For how many seconds at least.
    lasts: f64,
    /// By rising voltage.
    lows: Vec<Low>,
}

/// A moment: voltage at the posts, current through the cut-off, and when.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Low {
    posts: f64,
    through: f64,
    at: Hours,
}

impl Front {
    /// Whether one of them is as low with as much current.
    fn covers(&self, low: &Low) -> bool {
        // Most moments are above all those that matter.
        if let Some(highest) = self.lows.last().filter(|highest| highest.posts <= low.posts) {
            return highest.through >= low.through;
        }
        let as_low = self.lows.partition_point(|known| known.posts <= low.posts);
        as_low.checked_sub(1).is_some_and(|last| self.lows[last].through >= low.through)
    }

    /// Leave out those that one which lasts as long covers; where that one stands.
    fn clear(&mut self, low: &Low) -> usize {
        let from = self.lows.partition_point(|known| known.posts < low.posts);
        let beyond = self.lows[from..].partition_point(|known| known.through <= low.through);
        self.lows.drain(from..from + beyond);
        from
    }
}

impl Lows {
    /// Note a moment, in V, A and s.
    #[inline]
    pub(crate) fn add(&mut self, posts: f64, through: f64, lasts: f64, at: Hours) {
        let low = Low { posts, through, at };
        if !self.0.iter().any(|front| front.lasts >= lasts && front.covers(&low)) {
            self.take(low, lasts);
        }
    }

    fn take(&mut self, low: Low, lasts: f64) {
        let mut stands = false;
        for front in self.0.iter_mut().filter(|front| front.lasts <= lasts) {
            let place = front.clear(&low);
            if front.lasts == lasts {
                front.lows.insert(place, low);
                stands = true;
            }
        }
        if !stands {
            self.0.push(Front { lasts, lows: vec![low] });
        }
    }

    /// The lowest voltage behind such a resistance that lasts for longer than a delay; `None` while it never was
    /// closed.
    pub fn lowest(&self, between: Ohms, delay: Seconds) -> Option<Volts> {
        self.moment(between, delay).map(|(lowest, _)| lowest)
    }

    /// The same, and how long after the beginning.
    pub fn moment(&self, between: Ohms, delay: Seconds) -> Option<(Volts, Hours)> {
        let lasting = self.0.iter().filter(|front| front.lasts > delay.get()).flat_map(|front| &front.lows);
        let sensed = lasting.map(|low| (Volts::new(low.posts - low.through * between.get()), low.at));
        sensed.reduce(|a, b| if b < a { b } else { a })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The same as with all moments kept and each looked at, whatever their order.
    #[test]
    fn none_that_matters_is_left_out() {
        let (mut lows, mut all, mut dice) = (Lows::default(), Vec::new(), 7u64);
        let mut roll = |sides: u64| {
            dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            ((dice >> 33) % sides) as f64
        };
        for hour in 0..400 {
            let (posts, through, lasts) = (11.0 + roll(40) / 20.0, roll(30), [f64::MAX, 1.0, 60.0][roll(3) as usize]);
            lows.add(posts, through, lasts, Hours::new(f64::from(hour)));
            all.push((posts, through, lasts));
            for (between, delay) in [(0.0, 0.0), (0.004, 5.0), (0.03, 0.0), (0.1, 90.0)] {
                let lasting = all.iter().filter(|low| low.2 > delay);
                let least = lasting.map(|low| low.0 - low.1 * between).reduce(f64::min);
                let found = lows.lowest(Ohms::new(between), Seconds::new(delay));
                assert_eq!(found.map(Volts::get), least, "{between} ohm, {delay} s");
            }
        }
    }

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
        assert_eq!(lows.0.iter().map(|front| front.lows.len()).sum::<usize>(), 3);
    }
}
