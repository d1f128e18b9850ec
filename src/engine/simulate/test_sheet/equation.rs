//! What does each reading say about the resistances on its way?
//!
//! Posts less point = sum of current × resistance over the runs from the posts
//! to the point. The posts' voltage is the reading's own, or that of another
//! reading at the posts with the same thing on. Errors that readings share
//! (the meter's scale, the posts' one reading, the clamp meter's scale, a load
//! whose current was guessed) are kept as covariance.

use crate::engine::installation::circuits::Side;
use crate::engine::simulate::test_sheet::flow::{On, Wiring};
use crate::engine::simulate::test_sheet::hypothesis::Equations;
use crate::engine::simulate::test_sheet::result::{Band, MeterErrors, Missing, ReadingResult, ReadingState};
use crate::engine::simulate::test_sheet::segment::Segment;
use crate::plan::{Reading, ReturnPath, point};
use crate::quantity::*;

/// A reading that counts.
pub(crate) struct Equation {
    /// Index of the reading in the plan.
    pub side: Side,
    /// By branch: current on the way to the point.
    pub currents: Vec<f64>,
    /// The point, and what the posts had.
    pub at: String,
    pub posts: f64,
    /// Measured drop.
    pub drop: f64,
    /// Expected drop.
    pub expected: f64,
    /// Current at the posts, and whether it was measured.
    pub current: f64,
    pub measured: bool,
    /// Readings with the same number share their posts' voltage.
    pub posts_from: Option<usize>,
    /// What was on.
    pub with: String,
}

/// Results of all readings, and the equations of those that count.
pub(crate) fn equations(wiring: &Wiring<'_>, meter: &MeterErrors) -> (Vec<ReadingResult>, Vec<Equation>) {
    let mut results = Vec::new();
    let mut equations = Vec::new();
    for (index, reading) in wiring.site.readings.iter().enumerate() {
        let mut result = ReadingResult {
            reading: index,
            state: ReadingState::Used,
            drop: None,
            expected: None,
            voltage: None,
            current: None,
            within: None,
        };
        match one(wiring, reading) {
            Ok(equation) => {
                fill(&mut result, wiring, reading, &equation, meter);
                if wiring.on(&reading.with) == Ok(On::All) {
                    result.state = ReadingState::Compared;
                } else {
                    equations.push(equation);
                }
            }
            Err(state) => {
                if state == ReadingState::Idle {
                    idle(&mut result, reading, meter);
                }
                result.state = state;
            }
        }
        results.push(result);
    }
    (results, equations)
}

fn one(wiring: &Wiring<'_>, reading: &Reading) -> Result<Equation, ReadingState> {
    let unusable = |why: String| ReadingState::Unusable(why);
    let on = wiring.on(&reading.with).map_err(unusable)?;
    let at = reading.at.as_str();
    if at == point::SERVICE_BATTERY || at == point::STARTER_BATTERY {
        return Err(if reading.voltage.is_some() {
            ReadingState::Posts
        } else {
            ReadingState::Waiting(Missing::Voltage)
        });
    }
    let flow = if on == On::Nothing { None } else { wiring.flow(&on, reading.current) };
    let side = flow.as_ref().map(|f| f.side);
    let path = path(wiring, at, side).ok_or_else(|| unusable(format!("no run leads to `{at}`")))?;
    let voltage = reading.voltage.ok_or(ReadingState::Waiting(Missing::Voltage))?;
    let (posts, posts_from) = posts(wiring, reading, side)?;
    if on == On::Nothing {
        return Err(ReadingState::Idle);
    }
    let flow = flow.ok_or_else(|| no_current(&on, reading))?;
    if path.iter().any(|b| wiring.segments.get(*b).is_none_or(Option::is_none)) {
        return Err(ReadingState::Unusable("a run on its way has no size yet".into()));
    }
    let currents = flow.along(&path);
    Ok(Equation {
        side: flow.side,
        expected: expected(wiring.segments, &currents),
        currents,
        at: at.into(),
        posts: posts.get(),
        drop: (posts - voltage).get(),
        current: flow.total.get(),
        measured: reading.current.is_some(),
        posts_from,
        with: reading.with.trim().to_lowercase(),
    })
}

fn no_current(on: &On, reading: &Reading) -> ReadingState {
    match on {
        On::TestLoad(..) if reading.current.is_none() => ReadingState::Waiting(Missing::Current),
        On::Charging | On::ChargerInput => ReadingState::Unusable("no charger current is known".into()),
        _ => ReadingState::Unusable(format!("`{}` draws nothing, or cannot be fed", reading.with)),
    }
}

/// Runs from the posts to a point: on the side of what is on, where a point stands on both.
fn path(wiring: &Wiring<'_>, at: &str, side: Option<Side>) -> Option<Vec<usize>> {
    let service = || wiring.site.circuits.path_to(at);
    let feed = || Some(wiring.site.circuits.path_of(*wiring.site.circuits.to_feed_point.get(at)?));
    match side {
        Some(Side::Service) => service(),
        Some(Side::Feed) => feed(),
        None => service().or_else(feed),
    }
}

/// Voltage at the posts at the same moment, and the reading it comes from when it is another.
fn posts(wiring: &Wiring<'_>, reading: &Reading, side: Option<Side>) -> Result<(Volts, Option<usize>), ReadingState> {
    if let Some(posts) = reading.posts {
        return Ok((posts, None));
    }
    let battery = if side == Some(Side::Feed) { point::STARTER_BATTERY } else { point::SERVICE_BATTERY };
    let same = |r: &Reading| r.at == battery && r.with.trim().eq_ignore_ascii_case(reading.with.trim());
    let found = wiring.site.readings.iter().position(|r| same(r) && r.voltage.is_some());
    let other = found.and_then(|i| Some((wiring.site.readings.get(i)?.voltage?, Some(i))));
    other.ok_or(ReadingState::Waiting(Missing::Posts))
}

pub(crate) fn expected(segments: &[Option<Segment>], currents: &[f64]) -> f64 {
    let each = segments.iter().zip(currents).filter_map(|(s, i)| Some(s.as_ref()?.likely.get() * i));
    each.sum()
}

/// Variance of an expected drop by the tolerance of the resistances.
pub(crate) fn tolerance(segments: &[Option<Segment>], a: &[f64], b: &[f64]) -> f64 {
    let each = segments.iter().zip(a.iter().zip(b));
    each.filter_map(|(s, (a, b))| Some(s.as_ref()?.error.get().powi(2) * a * b)).sum()
}

/// Variance of a measured drop against an expected one, by meters and current.
pub(crate) fn meter_variance(meter: &MeterErrors, drop: f64, current: f64, measured: bool) -> f64 {
    let per_amp = if current.abs() > 1e-9 { drop / current } else { 0.0 };
    let current = meter.scale_variance(current, measured) + meter.zero_variance(measured);
    2.0 * meter.volt_variance() + (meter.reading.get() * drop).powi(2) / 3.0 + per_amp * per_amp * current
}

fn fill(result: &mut ReadingResult, wiring: &Wiring<'_>, reading: &Reading, e: &Equation, meter: &MeterErrors) {
    let variance =
        tolerance(wiring.segments, &e.currents, &e.currents) + meter_variance(meter, e.expected, e.current, e.measured);
    let half = 2.0 * variance.sqrt();
    let volts = |v: f64| Volts::new(v);
    // What flows one way never drops the other way, whatever the meter's error.
    let low = if e.expected >= 0.0 { (e.expected - half).max(0.0) } else { e.expected - half };
    let band = Band { low: volts(low), likely: volts(e.expected), high: volts(e.expected + half) };
    let posts = reading.voltage.map_or(Volts::ZERO, |v| v + volts(e.drop));
    result.drop = Some(volts(e.drop));
    result.expected = Some(band);
    result.voltage = Some(Band { low: posts - band.high, likely: posts - band.likely, high: posts - band.low });
    result.current = Some((Amps::new(e.current.abs()), e.measured));
    let by_body = body_takes(wiring, e);
    result.within = Some(e.drop <= e.expected + half && e.drop >= e.expected - by_body - half);
}

/// Volts that the drop of the feed may be smaller because the body, bonded to both minus posts, lies beside its own
/// minus cable: at most what is lost in that.
fn body_takes(wiring: &Wiring<'_>, e: &Equation) -> f64 {
    if e.side == Side::Service {
        return 0.0;
    }
    let each = wiring.segments.iter().zip(&e.currents).filter_map(|(segment, current)| {
        let segment = segment.as_ref()?;
        let own = wiring.site.runs.get(segment.run)?.return_path == ReturnPath::Cable;
        Some(if own { segment.likely.get() * current / 2.0 } else { 0.0 })
    });
    each.sum::<f64>().max(0.0)
}

/// What the measured drop has beyond what sound wiring can have.
fn surplus(wiring: &Wiring<'_>, e: &Equation) -> f64 {
    let over = e.drop - e.expected;
    if over < 0.0 { (over + body_takes(wiring, e)).min(0.0) } else { over }
}

/// With nothing on there must be no drop but the meter's digits.
fn idle(result: &mut ReadingResult, reading: &Reading, meter: &MeterErrors) {
    let (Some(voltage), Some(posts)) = (reading.voltage, reading.posts) else { return };
    let half = Volts::new(2.0 * (2.0 * meter.volt_variance()).sqrt());
    result.drop = Some(posts - voltage);
    result.expected = Some(Band { low: -half, likely: Volts::ZERO, high: half });
    result.voltage = Some(Band { low: posts - half, likely: posts, high: posts + half });
    result.within = Some((posts - voltage).abs() <= half);
}

/// Weighed for least squares: surplus, currents, and the covariance of all that may be off.
pub(crate) fn weighed(wiring: &Wiring<'_>, list: &[&Equation], meter: &MeterErrors) -> Equations {
    let segments = wiring.segments;
    let covariance = |i: usize, j: usize| {
        let (a, b) = (list[i], list[j]);
        let per_amp = |e: &Equation| if e.current.abs() > 1e-9 { e.drop / e.current } else { 0.0 };
        let mut sum =
            tolerance(segments, &a.currents, &b.currents) + meter.reading.get().powi(2) / 3.0 * a.drop * b.drop;
        let same_scale = a.measured == b.measured && (a.measured || a.with == b.with);
        if same_scale {
            let scale = meter.scale_variance(a.current, a.measured) * meter.scale_variance(b.current, b.measured);
            sum += per_amp(a) * per_amp(b) * scale.sqrt() * (a.current * b.current).signum();
        }
        if i == j {
            sum += 2.0 * meter.volt_variance() + per_amp(a).powi(2) * meter.zero_variance(a.measured);
        } else if a.posts_from.is_some() && a.posts_from == b.posts_from {
            sum += meter.volt_variance();
        }
        sum
    };
    let n = list.len();
    Equations {
        surplus: list.iter().map(|e| surplus(wiring, e)).collect(),
        currents: list.iter().map(|e| e.currents.clone()).collect(),
        covariance: (0..n).map(|i| (0..n).map(|j| covariance(i, j)).collect()).collect(),
    }
}
