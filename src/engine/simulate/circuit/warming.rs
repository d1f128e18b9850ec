//! How the conductor used in a run warms: time constant, starts, loads that come and go.

use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::physics::conductor::heat::HeatPath;
use crate::engine::physics::conductor::short_time::{Intermittent, Warmth};
use crate::engine::simulate::circuit::picked::{Picked, PickedRun};
use crate::engine::simulate::circuit::result::{Pulse, ShortTime};
use crate::quantity::*;
use rustc_hash::FxHashMap;

/// A start where the plan has none: long enough to be felt, short enough to be a start.
const USUAL_START: Seconds = Seconds::new(1.0);

/// The intermittent load that every run is rated for: 30 s on, 5 min off.
pub const CYCLE: Intermittent = Intermittent { on: Seconds::new(30.0), off: Seconds::new(300.0) };

const SOURCE: &str = "one heat store behind one thermal resistance, the steady one at the insulation's limit; heat \
                      capacity of copper of IEC 60853-2";

/// What the used size carries for ever that comes and goes so, by how it lies and which cable it is: the same for all
/// runs that share both.
#[derive(Debug, Default)]
pub(crate) struct Rated(FxHashMap<(usize, usize), Amps>);

impl Rated {
    /// Of all runs.
    pub fn of(picked: &Picked) -> Self {
        let mut rated = Rated::default();
        for run in &picked.runs {
            let hottest = run.asked.laid.insulation.max;
            let copper = || Warmth::of_copper(path(picked, run), hottest, run.chosen().ampacity.heat);
            rated.0.entry(key(run)).or_insert_with(|| copper().intermittent(CYCLE, hottest));
        }
        rated
    }
}

fn key(run: &PickedRun) -> (usize, usize) {
    (run.lay, run.chosen().cable)
}

/// Of the size used.
pub(crate) fn short_time(picked: &Picked, run: &PickedRun, rated: &Rated) -> ShortTime {
    let (asked, chosen) = (&run.asked, run.chosen());
    let hottest = asked.laid.insulation.max;
    let path = path(picked, run);
    let copper = Warmth::of_copper(path, hottest, chosen.ampacity.heat);
    let lasts = Some(chosen.worst_start.lasts).filter(|t| *t > Seconds::ZERO).unwrap_or(USUAL_START);
    ShortTime {
        time_constant: Warmth::new(path, hottest).time_constant(),
        after_start: chosen.after_start,
        start_lasts: lasts,
        start: copper.short_time(chosen.temperature, lasts, hottest),
        intermittent: rated.0.get(&key(run)).copied().unwrap_or_default(),
        pulse: pulse(picked, run),
    }
}

/// Of the size used, where loads beyond come and go.
pub(crate) fn pulse(picked: &Picked, run: &PickedRun) -> Option<Pulse> {
    let (asked, hottest) = (&run.asked, run.asked.laid.insulation.max);
    asked.pulsed.map(|pulsed| {
        let copper = Warmth::of_copper(path(picked, run), hottest, run.chosen().ampacity.for_ever());
        let (peak, trough) = copper.peak(pulsed, asked.current);
        let runs_on = copper.lasts(trough, asked.current, hottest);
        Pulse { cycle: pulsed.cycle, peak, trough, runs_on }
    })
}

fn path<'p>(picked: &'p Picked, run: &PickedRun) -> &'p HeatPath {
    picked.shelf.path(run.lay, run.chosen().cable)
}

/// How these numbers came about.
pub(crate) fn write(picked: &Picked, run: &PickedRun, shown: &ShortTime, subject: &Subject, notes: &mut Notes) {
    let (asked, chosen) = (&run.asked, run.chosen());
    let hottest = asked.laid.insulation.max;
    let path = path(picked, run);
    let whole = Warmth::new(path, hottest);
    let own = || subject.clone();
    notes.add(own(), "time constant", || {
        Working::new("time constant of warming", "C * r", shown.time_constant)
            .with("C", "heat store of copper and insulation, J/(m K)", Figure::number(whole.heat_store()))
            .with("r", "thermal resistance from conductor to air, K m/W", Figure::number(whole.resistance_to_air()))
            .source(match asked.laid.insulation.heat_store {
                Some(_) => format!("{SOURCE}; of the insulation: {}", asked.laid.insulation.from.heat_store.words()),
                None => SOURCE.into(),
            })
    });
    let from = |working: Working| {
        working
            .with_from("T0", "conductor at its largest steady current", chosen.temperature, own(), "temperature")
            .with("t", "the start lasts", shown.start_lasts)
    };
    let note = "copper's heat store alone; up to 5 s no heat leaves it (adiabatic)";
    notes.add(own(), "after start", || {
        from(Working::new("conductor when the worst start ends", "", shown.after_start))
            .with("I", "current of that start, the rest included", chosen.worst_start.current.max(asked.current))
            .source(SOURCE)
            .note(note)
    });
    notes.add(own(), "short-time rating", || {
        from(Working::new("largest current of a start", "", shown.start))
            .with("Tc", "hottest the insulation stands", hottest)
            .source(SOURCE)
            .note(note)
    });
    notes.add(own(), "intermittent rating", || {
        Working::new("largest current that comes and goes for ever", "", shown.intermittent)
            .with("on", "on for", CYCLE.on)
            .with("off", "then off for", CYCLE.off)
            .with("Tc", "hottest the insulation stands", hottest)
            .source(SOURCE)
            .note("copper's heat store alone, which warms fastest; the peaks stay within the insulation's limit")
    });
    let Some((pulse, pulsed)) = shown.pulse.zip(asked.pulsed) else { return };
    let cycle = |working: Working| {
        working
            .with_from("I", "while they are on, all together", asked.current, own(), "current")
            .with("r", "while they are off", pulsed.rest)
            .with("on", "on for at most", pulse.cycle.on)
            .with("off", "then off for at least", pulse.cycle.off)
            .source(SOURCE)
            .note("copper's heat store alone; peaks of a cycle that goes on for ever")
    };
    notes.add(own(), "peak", || {
        cycle(Working::new("conductor when loads that come and go are switched off", "", pulse.peak))
    });
    if let Some(runs_on) = pulse.runs_on {
        notes.add(own(), "runs on", || {
            cycle(Working::new("from switching on until the insulation is at its limit", "", runs_on))
                .with("T0", "conductor when they are switched on", pulse.trough)
                .with("Tc", "hottest the insulation stands", hottest)
        });
    }
}
