//! Which starts must a run let pass, and how long does each last?
//!
//! The largest start is not always the hardest: 60 A more for 0.2 s passes a
//! link that 52 A more for 30 s opens. So all are kept that no other exceeds
//! in both current and time. Past a few, neighbours are taken together as one
//! with the larger current and the longer time, which is on the safe side.
//! Left out: two starts at once (common practice, no source).

use crate::quantity::*;

/// Most starts that are told apart.
const KEPT: usize = 6;

/// A current that flows for a short time.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Start {
    /// How much.
    pub current: Amps,
    /// How long, each time.
    pub lasts: Seconds,
}

/// Starts of which none exceeds another in both current and time: by falling current and growing time.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Starts {
    kept: [Start; KEPT],
    count: usize,
}

impl Starts {
    /// No start.
    pub const NONE: Starts = Starts { kept: [Start { current: Amps::ZERO, lasts: Seconds::ZERO }; KEPT], count: 0 };

    /// One start; none where it has no current or no time.
    pub fn one(current: Amps, lasts: Seconds) -> Self {
        let mut starts = Starts::NONE;
        starts.add(Start { current, lasts });
        starts
    }

    /// All, by falling current and growing time.
    pub fn iter(&self) -> impl Iterator<Item = Start> + '_ {
        self.kept.iter().take(self.count).copied()
    }

    /// The one with the largest current.
    pub fn largest(&self) -> Option<Start> {
        self.iter().next()
    }

    /// With one more.
    pub fn add(&mut self, start: Start) {
        let exceeds = |a: &Start, b: &Start| a.current.get() >= b.current.get() && a.lasts.get() >= b.lasts.get();
        let nothing = start.current.get() <= 0.0 || start.lasts.get() <= 0.0;
        if nothing || self.iter().any(|known| exceeds(&known, &start)) {
            return;
        }
        let mut all = [Start::default(); KEPT + 1];
        let mut count = 0;
        let smaller = |known: &Start| known.current.get() < start.current.get();
        let (before, after) = (self.iter().filter(|k| !smaller(k)), self.iter().filter(smaller));
        for one in before.chain([start]).chain(after.filter(|k| !exceeds(&start, k))) {
            if let Some(place) = all.get_mut(count) {
                *place = one;
                count += 1;
            }
        }
        if count > KEPT {
            join(&mut all);
            count = KEPT;
        }
        self.kept.copy_from_slice(&all[..KEPT]);
        self.count = count;
    }

    /// With all of another.
    pub fn extend(&mut self, other: &Starts) {
        other.iter().for_each(|start| self.add(start));
    }

    /// Each on top of a steady current.
    pub fn on_top_of(&self, rest: Amps) -> Self {
        let mut raised = *self;
        raised.kept.iter_mut().take(raised.count).for_each(|start| start.current += rest);
        raised
    }
}

/// Two neighbours become one, where the currents differ least.
fn join(all: &mut [Start; KEPT + 1]) {
    let apart = |pair: &[Start]| pair[0].current.get() / pair[1].current.get();
    let pairs = all.windows(2).enumerate();
    let closest = pairs.min_by(|a, b| apart(a.1).total_cmp(&apart(b.1))).map_or(0, |(at, _)| at);
    all[closest].lasts = all[closest + 1].lasts;
    all.copy_within(closest + 2.., closest + 1);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(all: &[(f64, f64)]) -> Starts {
        let mut starts = Starts::NONE;
        all.iter().for_each(|(i, t)| starts.add(Start { current: Amps::new(*i), lasts: Seconds::new(*t) }));
        starts
    }

    fn pairs(starts: &Starts) -> Vec<(f64, f64)> {
        starts.iter().map(|s| (s.current.get(), s.lasts.get())).collect()
    }

    #[test]
    fn only_what_another_exceeds_in_both_is_left_out() {
        assert_eq!(pairs(&of(&[(60.0, 0.2), (52.0, 30.0)])), [(60.0, 0.2), (52.0, 30.0)]);
        assert_eq!(pairs(&of(&[(52.0, 30.0), (60.0, 0.2), (50.0, 29.0)])), [(60.0, 0.2), (52.0, 30.0)]);
        assert_eq!(pairs(&of(&[(52.0, 30.0), (40.0, 60.0), (55.0, 90.0)])), [(55.0, 90.0)]);
        assert_eq!(pairs(&of(&[(0.0, 30.0), (40.0, 0.0)])), []);
    }

    /// Whatever is added, each start is still met by one with at least its current and its time.
    #[test]
    fn joining_is_on_the_safe_side() {
        let all: Vec<(f64, f64)> =
            (0..40).map(|i| (100.0 - f64::from(i * 7 % 40), f64::from(1 + i * 7 % 40))).collect();
        let starts = of(&all);
        assert_eq!(starts.iter().count(), KEPT);
        for (i, t) in all {
            assert!(starts.iter().any(|s| s.current.get() >= i && s.lasts.get() >= t), "{i} A for {t} s");
        }
        assert_eq!(pairs(&of(&[(60.0, 0.2)]).on_top_of(Amps::new(15.0))), [(75.0, 0.2)]);
    }
}
