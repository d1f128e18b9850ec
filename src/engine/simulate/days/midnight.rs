//! The days gone through, from the beginning or from a midnight up to which every load had its power.
//!
//! Days with another cut-off, which would not have opened until then either, go
//! on from there: they need not be gone through again from the beginning.

use crate::engine::physics::cell::kinetic::Wells;
use crate::engine::simulate::days::bay::Bay;
use crate::engine::simulate::days::demand::Turn;
use crate::engine::simulate::days::record::Record;
use crate::engine::simulate::days::result::{Endurance, LoadHours};
use crate::engine::simulate::days::run::{Pace, State};
use crate::engine::simulate::days::scenario::{Scenario, Vary};
use crate::engine::simulate::days::span::Span;
use crate::engine::simulate::days::starter::Starter;
use crate::quantity::*;

/// A charge that falls by less than this from one midnight to the next, where each day is like the other, will not
/// fall much over a week.
const REPEATS: Share = Share::new(0.0002);

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

/// Step a plan through its days, varied or not.
pub(crate) fn run<'a>(scenario: &'a Scenario<'a>, span: Span, vary: &Vary, pace: Pace) -> Endurance {
    run_from(scenario, span, vary, pace, (None, None))
}

/// The same from a midnight on up to which it is known; `kept`: takes the midnights up to which every load had its
/// power.
pub(crate) fn run_from<'a>(
    scenario: &'a Scenario<'a>,
    span: Span,
    vary: &Vary,
    pace: Pace,
    (from, mut kept): (Option<&Midnight>, Option<&mut Vec<Midnight>>),
) -> Endurance {
    let mut state = State::new(scenario, vary, pace);
    let mut record = Record::new(scenario.site.loads.len(), span, pace == Pace::Shown);
    let start = state.model.charge(state.wells);
    record.ledger().start = state.wells.whole();
    let mut midnight = None;
    if let Some(from) = from {
        from.put(&mut state);
        record = from.record.clone();
        midnight = Some(state.charges());
    }
    for day in from.map_or(0, |from| from.days)..span.days {
        let whole = state.day(day, span, vary, &mut record);
        let (charge, starter) = state.charges();
        record.midnight(scenario, charge);
        let daily = pace == Pace::Leaps && scenario.daily() && vary.weather.is_empty();
        // A counter strays on.
        let daily = daily && state.counting.is_none();
        let untroubled = state.untroubled(&record);
        let same = |(m, s): (Share, Share)| charge > m - REPEATS && starter > s - REPEATS;
        if !whole || (daily && untroubled && midnight.is_some_and(same)) {
            break;
        }
        midnight = Some((charge, starter));
        if let Some(kept) = kept.as_deref_mut().filter(|_| untroubled) {
            kept.push(Midnight::of(&state, day + 1, &record));
        }
    }
    record.ledger().end = state.wells.whole();
    record.out.between_full = state.counting.map(|counting| Hours::new(counting.longest));
    state.loads(&mut record);
    record.finish(scenario, start, state.model.rated())
}
