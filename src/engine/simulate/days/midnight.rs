//! How does everything stand at a midnight up to which every load had its power?
//!
//! Days with another cut-off, which would not have opened until then either, go
//! on from there: they need not be gone through again from the beginning.

use crate::engine::physics::cell::kinetic::Wells;
use crate::engine::simulate::days::bay::Bay;
use crate::engine::simulate::days::demand::Turn;
use crate::engine::simulate::days::record::Record;
use crate::engine::simulate::days::result::LoadHours;
use crate::engine::simulate::days::run::State;
use crate::engine::simulate::days::starter::Starter;
use crate::quantity::*;

/// A midnight with the cut-off closed, and all that was kept up to it.
#[derive(Clone, Debug)]
pub(crate) struct Midnight {
    /// How many days have gone.
    pub(super) days: u32,
    pub(super) record: Record,
    wells: Wells,
    posts: [f64; 3],
    starter: Option<f64>,
    bay: Option<Bay>,
    turns: Vec<Turn>,
    steady: Vec<LoadHours>,
}

impl Midnight {
    pub(super) fn of(state: &State<'_>, days: u32, record: &Record) -> Self {
        Midnight {
            days,
            record: record.clone(),
            wells: state.wells,
            posts: [state.volts, state.current, state.used],
            starter: state.starter.as_ref().map(Starter::stands),
            bay: state.bay,
            turns: state.turns.clone(),
            steady: state.steady.clone(),
        }
    }

    /// Put a plan that begins there.
    pub(super) fn put(&self, state: &mut State<'_>) {
        state.wells = self.wells;
        [state.volts, state.current, state.used] = self.posts;
        if let (Some(starter), Some(stands)) = (&mut state.starter, self.starter) {
            starter.stand(stands);
        }
        state.bay = self.bay;
        state.turns.clone_from(&self.turns);
        state.steady.clone_from(&self.steady);
    }

    /// Whether a cut-off set so, behind such a resistance and with such a delay, would not have opened before.
    pub fn keeps(&self, cut: Volts, between: Ohms, delay: Seconds) -> bool {
        self.record.out.lows.lowest(between, delay).is_none_or(|lowest| lowest >= cut)
    }
}
