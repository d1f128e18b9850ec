//! What does the charger give while driving, and what does that cost the starter battery?

use crate::engine::simulate::days::record::Record;
use crate::engine::simulate::days::run::{Ask, State};
use crate::engine::simulate::days::scenario::Vary;
use crate::quantity::*;

impl State<'_> {
    /// What the charger offers in a minute: nothing without the engine; no more than alternator and starter battery
    /// bear.
    pub(super) fn driving(&mut self, minute: u16, engine: bool, air: Celsius, vary: &Vary) -> f64 {
        let s = self.scenario;
        let wanted = if engine { s.charger * vary.driving } else { 0.0 };
        let Some(starter) = &mut self.starter else { return wanted };
        starter.settles(s.site, minute, engine, air, vary.draw);
        starter.feeds(wanted)
    }

    /// The starter battery after so many minutes of it: it feeds what was really taken, not what was offered.
    pub(super) fn starter_after(&mut self, ask: &Ask, driving: f64, hours: Hours, record: &mut Record) {
        let offered = self.offered(ask);
        let reaches = self.connected || !self.scenario.behind.charger;
        let taken = if offered > 0.0 { ((self.used - self.current) / offered).clamp(0.0, 1.0) } else { 0.0 };
        let Some(starter) = &mut self.starter else { return };
        let helped = starter.pass(hours, if reaches { driving * taken } else { 0.0 });
        record.starter(starter.charge(), helped, starter.keep());
    }
}
