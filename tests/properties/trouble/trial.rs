//! A plan with faults planted, and the hunt for them.

use super::truth::{Truth, noisy, parts_on};
use loomwright::catalogue::Catalogue;
use loomwright::engine::ask::trouble::belief::Ranked;
use loomwright::engine::{
    Belief, Cause, Fault, Guess, Measurement, On, PartKind, Pole, Probe, Symptom, Taken, Wired, design, next,
};
use loomwright::plan::read;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use std::fmt::Write;

const OPEN: f64 = 1e9;
/// Readings after which a person gives up.
const PATIENCE: usize = 15;

/// A fit-out with a panel and loads on leads of their own, some behind a second panel, some with the body as return.
fn plan(dice: &mut ChaCha8Rng, loads: Option<usize>) -> String {
    let chemistry = ["agm", "gel", "flooded", "lithium-iron-phosphate"][dice.random_range(0..4)];
    let places = ["cabin", "under-floor", "wall-cavity", "under-vehicle"];
    let mut text = format!(
        "format = 1\n[service_battery]\nchemistry = \"{chemistry}\"\ncapacity_ah = 100\n[charger]\ncurrent_a = 20\n\
         [meter]\nstep_v = 0.01\ndigits = 2\nerror = 0.005\n"
    );
    let mut run = |dice: &mut ChaCha8Rng, from: &str, to: &str, long: f64| {
        let back = if dice.random_bool(0.2) && from != "service battery" { "chassis" } else { "cable" };
        let place = places[dice.random_range(0..places.len())];
        let length = dice.random_range(0.5..long);
        let _ = write!(
            text,
            "[[run]]\nfrom = \"{from}\"\nto = \"{to}\"\nlength_m = {length:.1}\nreturn = \"{back}\"\nsurroundings = \"{place}\"\n"
        );
    };
    run(dice, "starter battery", "charger", 6.0);
    run(dice, "service battery", "charger", 2.0);
    run(dice, "service battery", "cut-off", 1.0);
    run(dice, "cut-off", "panel", 4.0);
    let second = dice.random_bool(0.5);
    if second {
        run(dice, "panel", "rear panel", 5.0);
    }
    let count = loads.unwrap_or_else(|| dice.random_range(2..6));
    for n in 0..count {
        let from = if second && n % 2 == 1 { "rear panel" } else { "panel" };
        run(dice, from, &format!("point {n}"), 5.0);
    }
    for n in 0..count {
        let kind = ["constant-power", "constant-current", "resistance"][dice.random_range(0..3)];
        let power = dice.random_range(15.0..90.0);
        let _ = write!(
            text,
            "[[load]]\nname = \"load {n}\"\nat = \"point {n}\"\npower_w = {power:.0}\nkind = \"{kind}\"\n"
        );
    }
    text
}

/// What is planted.
#[derive(Clone, Copy, Default)]
pub struct Planted {
    /// Two faults at once.
    pub two: bool,
    /// What a load draws, and the voltages then, by ngspice.
    pub by_spice: bool,
    /// So many loads, where it matters.
    pub loads: Option<usize>,
    /// What is seen, where it is not drawn.
    pub symptom: Option<Symptom>,
}

/// What came of it.
pub struct Found {
    /// Where the true cause stands in the end; of two faults the later of both.
    pub place: usize,
    pub readings: usize,
    /// What halving needs.
    pub halving: usize,
    /// The slowest step.
    pub millis: f64,
    pub words: String,
}

/// One search, until one cause stands out or nothing is left to measure.
struct Hunt {
    ranked: Ranked,
    taken: Vec<Taken>,
    stuck: bool,
    none_fits: bool,
    millis: f64,
}

fn hunt(truth: &Truth<'_>, (symptom, load): (Symptom, Option<usize>), dice: &mut ChaCha8Rng) -> Hunt {
    // What else works is known before a meter is at hand.
    let mut taken: Vec<Taken> = load.map_or_else(Vec::new, |load| looks(truth, load));
    let mut millis = 0.0_f64;
    loop {
        let start = std::time::Instant::now();
        let belief = Belief::of(truth.wired, symptom, load, &taken);
        let ranked = belief.ranked();
        let sure = belief.is_sure();
        let step =
            if sure || taken.iter().filter(|t| by_meter(t)).count() >= PATIENCE { None } else { next(&belief, &[]) };
        millis = millis.max(start.elapsed().as_secs_f64() * 1000.0);
        let Some(step) = step else {
            return Hunt { ranked, taken, stuck: !sure, none_fits: belief.none_fits.is_some(), millis };
        };
        let what = step.offer.what;
        let shown = noisy(dice, &what, truth.shows(&what));
        taken.push(Taken { what, shown });
    }
}

fn by_meter(taken: &Taken) -> bool {
    taken.what.probe != Probe::Works
}

/// Whether each other load works, one for each way.
fn looks(truth: &Truth<'_>, load: usize) -> Vec<Taken> {
    let mut ways = Vec::new();
    let mut all = Vec::new();
    for other in (0..truth.wired.site.loads.len()).filter(|l| *l != load) {
        let Some(way) = truth.wired.way_to(other).filter(|way| !ways.contains(way)) else { continue };
        ways.push(way);
        let what = Measurement { on: On::Load(other), probe: Probe::Works };
        all.push(Taken { what, shown: truth.shows(&what) });
    }
    all
}

/// One of the guesses by its chance, of another cause than one already drawn.
fn draw(before: &Belief<'_>, not: Option<Cause>, dice: &mut ChaCha8Rng) -> Option<Fault> {
    let fits =
        |g: &&Guess| g.faults[0].is_some_and(|f| Some(f.cause) != not) && g.chance > before.guesses[0].chance * 1e-4;
    let likely: Vec<_> = before.guesses.iter().filter(fits).collect();
    let mut left = dice.random_range(0.0..likely.iter().map(|g| g.chance).sum());
    let found = likely.iter().find(|g| {
        left -= g.chance;
        left <= 0.0
    });
    found?.faults[0]
}

fn fuse_of(wired: &Wired<'_>, branch: usize) -> Option<usize> {
    wired.chain(branch, Pole::Plus).iter().copied().find(|p| wired.parts[*p].kind == PartKind::Fuse)
}

/// The part that a fault changes, and its ohms; a bad one lies between the steps in which it is tried.
fn adds(wired: &Wired<'_>, fault: Fault, dice: &mut ChaCha8Rng) -> Option<(usize, f64)> {
    match fault.cause {
        Cause::Part(p) if fault.size > 1e8 => Some((p, OPEN)),
        Cause::Part(p) => Some((p, fault.size * dice.random_range(0.92..1.08))),
        Cause::WrongFuse(p) => Some((p, OPEN)),
        Cause::SenseReversed => Some((wired.parts.iter().position(|p| p.kind == PartKind::CutOff)?, OPEN)),
        Cause::Chafed(b) => Some((fuse_of(wired, b)?, OPEN)),
        _ => None,
    }
}

/// What somebody would call it with what is wrong now; none where nothing is seen any more.
fn seen(truth: &Truth<'_>, load: usize) -> Option<Symptom> {
    let wired = truth.wired;
    let end = *wired.way_to(load)?.last()?;
    let probe = Probe::Between(wired.far_end(end, Pole::Plus)?, wired.far_end(end, Pole::Minus)?);
    let volts = truth.shows(&Measurement { on: On::Load(load), probe });
    let dead = truth.has(Cause::LoadDead(load)).is_some();
    let sound =
        Truth { faults: [None, None], ohms: wired.parts.iter().map(|p| p.resistance.get()).collect(), ..*truth };
    let lost = sound.shows(&Measurement { on: On::Load(load), probe }) - volts;
    match (dead || volts < 8.0, lost >= 0.3) {
        (true, _) => Some(Symptom::Dark),
        (_, true) => Some(Symptom::Weak),
        _ => None,
    }
}

/// One plan with a fault planted, or two; where the true cause stands in the end, and after how many readings. Of
/// two faults that which is found is repaired, and the search goes on for what is still seen.
pub fn trial(seed: u64, planted: Planted, catalogue: &Catalogue) -> Option<Found> {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let text = plan(&mut dice, planted.loads);
    let read = read(&text, catalogue);
    assert!(read.problems.is_empty(), "{:?}\n{text}", read.problems);
    let design = design(&read.plan, catalogue);
    let wired = design.wired();
    let any_load = dice.random_range(0..read.plan.loads.len());
    let (symptom, load) = match dice.random_range(0..if planted.two || planted.by_spice { 8 } else { 10 }) {
        0..4 => (Symptom::Dark, Some(any_load)),
        4..8 => (Symptom::Weak, Some(any_load)),
        _ => (Symptom::NoCharge, None),
    };
    let (symptom, load) = planted.symptom.map_or((symptom, load), |given| (given, Some(any_load)));
    let before = Belief::of(&wired, symptom, load, &[]);
    let first = draw(&before, None, &mut dice)?;
    let second = if planted.two { Some(draw(&before, Some(first.cause), &mut dice)?) } else { None };
    let sound: Vec<f64> = wired.parts.iter().map(|p| p.resistance.get() * dice.random_range(0.85..1.15)).collect();
    let added: Vec<(Cause, usize, f64)> = [Some(first), second]
        .into_iter()
        .flatten()
        .filter_map(|f| adds(&wired, f, &mut dice).map(|(p, o)| (f.cause, p, o)))
        .collect();
    let with = |faults: &[Option<Fault>; 2]| {
        let mut ohms = sound.clone();
        let there = |c: &Cause| faults.iter().flatten().any(|f| f.cause == *c);
        added.iter().filter(|(c, ..)| there(c)).for_each(|(_, part, more)| ohms[*part] += more);
        ohms
    };
    let mut truth = Truth {
        wired: &wired,
        faults: [Some(first), second],
        ohms: with(&[Some(first), second]),
        rest: wired.rest.get() + dice.random_range(-0.4..0.2),
        running: wired.running.get() + dice.random_range(-0.2..0.2),
        takes: dice.random_range(0.87..1.13),
        lift: dice.random_range(0.4..0.8),
        by_spice: planted.by_spice,
    };
    let way = match load {
        Some(load) => wired.way_to(load)?.to_vec(),
        None => [wired.feed_way()?, wired.charge_way()?].concat(),
    };
    let parts = parts_on(&wired, &way).len();
    let words = format!("{symptom:?} {load:?} {first:?} {second:?}");
    let mut found = Found { place: 0, readings: 0, halving: 0, millis: 0.0, words };
    let mut seen_as = symptom;
    loop {
        let hunt = hunt(&truth, (seen_as, load), &mut dice);
        let wrong: Vec<Cause> = truth.faults.iter().flatten().map(|f| f.cause).collect();
        let place = hunt.ranked.iter().position(|r| wrong.contains(&r.0)).unwrap_or(999);
        // Where no reading is left that tells them apart, causes of about the same chance count as one.
        let alike = hunt.stuck && place < 999 && hunt.ranked[place].1 >= hunt.ranked[0].1 * 0.1;
        found.place = found.place.max(if alike { 0 } else { place });
        found.readings += hunt.taken.iter().filter(|t| by_meter(t)).count();
        found.halving += (parts as f64).log2().ceil() as usize + 1;
        found.millis = found.millis.max(hunt.millis);
        let top: Vec<_> = hunt.ranked.iter().take(4).collect();
        let of = |f: &Fault| match f.cause {
            Cause::Part(p) => Some(wired.parts[p]),
            _ => None,
        };
        let about: Vec<_> = truth.faults.iter().flatten().map(of).collect();
        let _ = write!(found.words, "\n  place {place} none fits {}, {about:?}; {top:?}", hunt.none_fits);
        hunt.taken.iter().for_each(|t| {
            let _ = write!(
                found.words,
                "\n    {:?} {}: {}",
                t.what.on,
                wired.probe_words(t.what.probe),
                wired.shown(t.what.probe, t.shown)
            );
        });
        let Some((done, _)) = hunt.ranked.get(place) else { return Some(found) };
        truth.faults = truth.faults.map(|f| f.filter(|f| f.cause != *done));
        truth.ohms = with(&truth.faults);
        match load.and_then(|l| seen(&truth, l)).filter(|_| truth.faults != [None, None]) {
            Some(symptom) => seen_as = symptom,
            None => return Some(found),
        }
    }
}
