//! Whose time is it, and until when?
//!
//! Times begin and end a few times a day; between two such minutes the same loads are looked at, and those that do not
//! cycle draw the same.

use crate::engine::simulate::days::demand::{Does, Steady};
use crate::engine::simulate::days::run::State;
use crate::engine::simulate::days::scenario::SteadyLoad;

impl State<'_> {
    /// From this minute on other loads have their time.
    pub(super) fn begins(&mut self, minute: u16, drives: bool, times: f64) {
        let (s, now) = (self.scenario, &mut self.now);
        now.until = s.edges.after(minute).unwrap_or(1440);
        now.steady.clear();
        let has_time = |l: &SteadyLoad| l.allowed.has(minute) && (drives || !l.only_driving);
        now.steady.extend((0..s.steady_loads.len()).filter(|load| has_time(&s.steady_loads[*load])));
        now.draws = Steady::default();
        now.draws.behind.add(&s.standing.behind, times);
        now.draws.before.add(&s.standing.before, times);
        for load in now.steady.iter().map(|load| &s.steady_loads[*load]) {
            let side = if load.before { &mut now.draws.before } else { &mut now.draws.behind };
            side.add(&load.draw, times);
        }
        now.turns.clear();
        now.turns.extend((0..self.turns.len()).filter(|turn| self.today[*turn].has(minute)));
        self.turns.iter_mut().for_each(|turn| turn.does = Does::Nothing);
    }
}
