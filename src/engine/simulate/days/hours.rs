//! How long did each load want to draw, and when did it stand without power?

use crate::engine::simulate::days::demand::Does;
use crate::engine::simulate::days::record::Record;
use crate::engine::simulate::days::result::Outage;
use crate::engine::simulate::days::run::State;
use crate::quantity::*;

impl State<'_> {
    /// After so many minutes; `open`, `dead`: as cut-off and battery stood at their beginning.
    pub(super) fn pass(&mut self, minutes: u16, hours: Hours, (open, dead): (bool, bool), record: &mut Record) {
        for &place in &self.now.turns {
            let turn = &mut self.turns[place];
            turn.pass(f64::from(minutes), hours);
            if turn.does == Does::Lack {
                record.without(&self.scenario.cycling[place].loads, minutes);
            }
        }
        for &place in &self.now.steady {
            let (of_load, steady) = (&mut self.steady[place], &self.scenario.steady_loads[place]);
            of_load.wanted += hours;
            if dead || (open && !steady.before) {
                of_load.unserved += hours;
                record.without(&steady.loads, minutes);
            }
        }
    }

    /// Each load of the plan had what all had that go with it.
    pub(super) fn loads(&self, record: &mut Record) {
        let turns = self.turns.iter().zip(&self.scenario.cycling).map(|(turn, c)| (turn.hours, &c.loads));
        let steady = self.steady.iter().zip(&self.scenario.steady_loads).map(|(hours, l)| (*hours, &l.loads));
        for (hours, loads) in turns.chain(steady) {
            for &load in loads {
                if let Some(of_load) = record.out.loads.get_mut(load) {
                    *of_load = hours;
                }
            }
        }
    }
}

impl Record {
    /// These loads stood without power in so many minutes from now on.
    fn without(&mut self, loads: &[usize], minutes: u16) {
        if !self.keeps_points() {
            return;
        }
        let (from, until) = (self.now(), self.now() + Hours::new(f64::from(minutes) / 60.0));
        for &load in loads {
            let last = self.out.outages.iter_mut().rev().find(|o| o.load == load);
            match last.filter(|o| (from - o.until).get() < JOINED) {
                Some(outage) => outage.until = until,
                None => self.out.outages.push(Outage { load, from, until }),
            }
        }
    }
}

/// Outages closer together than this, in hours, are one.
const JOINED: f64 = 0.05;
