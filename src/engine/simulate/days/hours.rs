//! How long did each load want to draw, and when did it stand without power?

use crate::engine::simulate::days::demand::Does;
use crate::engine::simulate::days::record::Record;
use crate::engine::simulate::days::result::Outage;
use crate::engine::simulate::days::run::State;
use crate::quantity::*;

impl State<'_> {
    /// After so many minutes from one on; `open`, `dead`: as cut-off and battery stood at their beginning.
    pub(super) fn pass(
        &mut self,
        (minute, minutes): (u16, u16),
        drives: bool,
        (open, dead): (bool, bool),
        record: &mut Record,
    ) {
        let length = f64::from(minutes);
        for (turn, cycling) in self.turns.iter_mut().zip(&self.scenario.cycling) {
            let lacks = turn.does == Does::Lack;
            turn.pass(length);
            if lacks {
                record.without(&cycling.loads, minutes);
            }
        }
        for (hours, steady) in self.steady.iter_mut().zip(&self.scenario.steady_loads) {
            if steady.allowed.has(minute) && (drives || !steady.only_driving) {
                hours.wanted += Hours::new(length / 60.0);
                if dead || (open && !steady.before) {
                    hours.unserved += Hours::new(length / 60.0);
                    record.without(&steady.loads, minutes);
                }
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
