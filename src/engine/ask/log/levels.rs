//! What does the battery give when everything is off, and what does each load really take?
//!
//! Off: the lowest current at which it spends a good part of its time. A load: steps up of
//! about the planned size, each with the next step down of the same size.

use crate::engine::ask::log::collect::{Collected, Level, Step, level_of};
use crate::engine::ask::log::sample::{Estimate, TWO_SIDED};
use crate::engine::installation::Installation;
use crate::quantity::*;

/// A current at which it spends less of its quiet time is none of standing still.
const SHARE: f64 = 0.1;
/// Counts to either side that belong to one level (0.02 A each).
const NEAR: usize = 6;
/// A step may be so many times the planned current, or that part of it.
const ALIKE: f64 = 1.6;
/// Two loads nearer than this cannot be told apart.
const APART: f64 = 1.25;
/// A load seen less often is told as not seen.
const SEEN: usize = 4;

/// The current while everything is off, as the meter shows it, corrected by its zero.
pub fn standing(log: &Collected, zero: Option<Estimate<Amps>>) -> Option<Estimate<Amps>> {
    let levels = &log.levels;
    let whole: f64 = levels.iter().map(|l| l.seconds).sum();
    let around = |n: usize| &levels[n.saturating_sub(NEAR)..(n + NEAR + 1).min(levels.len())];
    let time = |n: usize| around(n).iter().map(|l| l.seconds).sum::<f64>();
    // Charging that trickles at a low voltage is no draw.
    let first = levels.len() / 2 - 15;
    let mut at = (first..levels.len()).find(|n| time(*n) >= SHARE * whole && whole > 0.0)?;
    // On to the middle of this level: to the mean of what lies near, until that stays.
    for _ in 0..10 {
        let (sum, rows) = around(at).iter().fold((0.0, 0.0), |(s, r), l| (s + l.sum, r + l.rows));
        at = level_of(sum / f64::max(rows, 1.0)).min(levels.len() - 1);
    }
    let sum = |f: fn(&Level) -> f64| around(at).iter().map(f).sum::<f64>();
    let (rows, mean) = (sum(|l| l.rows), sum(|l| l.sum) / sum(|l| l.rows).max(1.0));
    let scatter = (sum(|l| l.squares) / rows.max(1.0) - mean * mean).max(0.0);
    // A last digit that hardly moves hides a part of itself; it shows as the distance of the currents that occur.
    let occur = (at.saturating_sub(NEAR)..(at + NEAR + 1).min(levels.len())).filter(|n| levels[*n].rows > 0.0);
    let gaps = occur.collect::<Vec<_>>().windows(2).map(|w| (w[1] - w[0]) as f64 * 0.02).fold(f64::INFINITY, f64::min);
    let digit = if gaps.is_finite() { gaps } else { 0.1 };
    let hidden = if scatter.sqrt() < digit / 2.0 { digit / 12f64.sqrt() } else { 0.0 };
    let noise = (scatter / rows.max(1.0)).sqrt().hypot(hidden);
    let known = zero.and_then(|z| Some((z.value.get(), (z.most?.get() - z.least?.get()) / 2.0 / TWO_SIDED)));
    // The zero of a usual meter: common practice, no source.
    let (off, off_error) = known.unwrap_or((0.0, 0.1));
    Some(Estimate::within(mean - off, noise.hypot(off_error), rows as usize))
}

/// What a load does.
#[derive(Clone, Debug)]
pub struct Seen {
    /// Which of the plan.
    pub load: usize,
    /// What one of it takes.
    pub current: Estimate<Amps>,
    /// How long it draws a day; none where its ends are not seen.
    pub hours: Option<Estimate<Hours>>,
}

/// Why nothing is said of a load.
#[derive(Clone, Debug, PartialEq)]
pub enum Unseen {
    /// Too few steps of its size.
    Rare(usize),
    /// Another load takes about the same.
    Like(String),
    /// It never changes: it belongs to the standing draw.
    Always,
}

/// Each load of the plan that hangs on the service battery.
pub fn loads(log: &Collected, site: &Installation, least: Amps) -> Vec<(usize, Result<Seen, Unseen>)> {
    let sizes: Vec<Option<f64>> = site
        .loads
        .iter()
        .map(|l| (!l.on_starter).then(|| (l.law.current(Volts::new(12.6)) * l.one()).get()).filter(|a| *a > 0.0))
        .collect();
    // A load that is on all day makes no steps.
    let steady = |n: usize| {
        let load = &site.loads[n];
        load.hours.get() >= 24.0 && load.thermostat.at_25.get() >= 1.0
    };
    let moves = |n: &usize| sizes[*n].is_some() && !steady(*n);
    let each = |n: usize| -> Result<Seen, Unseen> {
        let own = sizes[n].unwrap_or(0.0);
        if steady(n) || own < least.get() {
            return Err(Unseen::Always);
        }
        let apart = |m: &usize| sizes[*m].is_some_and(|s| (s / own).max(own / s) < APART);
        if let Some(other) = (0..sizes.len()).filter(moves).find(|m| *m != n && apart(m)) {
            return Err(Unseen::Like(site.loads[other].name.clone()));
        }
        let nearest = |amps: f64| {
            let far = |m: &usize| (amps / sizes[*m].unwrap_or(1.0)).ln().abs();
            (0..sizes.len()).filter(moves).min_by(|a, b| far(a).total_cmp(&far(b)))
        };
        let its = |s: &Step| {
            let amps = s.amps.abs();
            (amps / own).max(own / amps) < ALIKE && nearest(amps) == Some(n)
        };
        seen(log, n, &its).ok_or_else(|| Unseen::Rare(log.steps.iter().filter(|s| its(s)).count()))
    };
    (0..sizes.len()).filter(|n| sizes[*n].is_some()).map(|n| (n, each(n))).collect()
}

fn seen(log: &Collected, load: usize, its: &dyn Fn(&Step) -> bool) -> Option<Seen> {
    let mut sizes: Vec<f64> = log.steps.iter().filter(|s| its(s)).map(|s| s.amps.abs()).collect();
    if sizes.len() < SEEN {
        return None;
    }
    sizes.sort_by(f64::total_cmp);
    let median = sizes[sizes.len() / 2];
    // Two loads that switch within one row make a step of neither: what lies far from the median is left out.
    let mut off: Vec<f64> = sizes.iter().map(|s| (s - median).abs()).collect();
    off.sort_by(f64::total_cmp);
    let usual = 1.4826 * off[off.len() / 2];
    sizes.retain(|s| (s - median).abs() <= (4.0 * usual).max(0.05 * median));
    let count = sizes.len() as f64;
    let mean = sizes.iter().sum::<f64>() / count;
    let scatter = (sizes.iter().map(|s| (s - mean).powi(2)).sum::<f64>() / (count - 1.0).max(1.0)).sqrt();
    Some(Seen {
        load,
        current: Estimate::within(mean, scatter / count.sqrt(), sizes.len()),
        hours: hours(log, mean, its),
    })
}

/// From a step up to the next step down.
fn hours(log: &Collected, size: f64, its: &dyn Fn(&Step) -> bool) -> Option<Estimate<Hours>> {
    let mut days: Vec<f64> = Vec::new();
    let (mut since, mut lost, mut spells) = (None, 0, 0);
    let day = |at: f64| ((at - log.first) / 86_400.0) as usize;
    days.resize(day(log.last) + 1, 0.0);
    for step in log.steps.iter().filter(|s| its(s)) {
        match (step.amps > 0.0, since) {
            (true, _) => {
                lost += usize::from(since.is_some());
                since = Some(step.at);
            }
            (false, Some(from)) => {
                if let Some(of) = days.get_mut(day(from)) {
                    *of += step.at - from;
                }
                spells += 1;
                since = None;
            }
            (false, None) => lost += 1,
        }
    }
    let count = log.counted / 86_400.0;
    // Where many ends are missing, the time between says nothing.
    if spells < SEEN || lost * 5 > spells || count < 1.0 || log.steps_left > 0 || size <= 0.0 {
        return None;
    }
    let mean = days.iter().sum::<f64>() / 3600.0 / count;
    let whole = days.len().saturating_sub(1).max(1);
    let scatter = days.iter().take(whole).map(|d| (d / 3600.0 - mean).powi(2)).sum::<f64>() / (whole.max(2) - 1) as f64;
    // Each end is uncertain by a row.
    let ends = log.interval / 3600.0 * (spells as f64).sqrt() / count;
    let told: Estimate<Hours> = Estimate::within(mean, (scatter / whole as f64).sqrt().hypot(ends), spells);
    Some(Estimate {
        least: told.least.map(|l| l.max(Hours::ZERO)),
        most: told.most.map(|m| m.min(Hours::new(24.0))),
        ..told
    })
}
