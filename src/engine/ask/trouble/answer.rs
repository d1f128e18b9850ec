//! The answer: causes by chance, what to measure next, and when it is found the repair and its proof.

use crate::engine::ask::trouble::belief::Belief;
use crate::engine::ask::trouble::evidence::Taken;
use crate::engine::ask::trouble::next::{Next, next};
use crate::engine::ask::trouble::offer::offers;
use crate::engine::ask::trouble::symptom::Symptom;
use crate::engine::simulate::trouble::cause::Cause;
use crate::engine::simulate::trouble::predict::Measurement;
use crate::engine::simulate::trouble::wired::Wired;
use crate::quantity::*;

/// What is known after some readings.
#[derive(Clone, Debug, Default)]
pub struct TroubleAnswer {
    /// What is seen, in plain words.
    pub symptom: String,
    /// Of which load; empty where of none.
    pub load: String,
    /// Causes, likeliest first.
    pub causes: Vec<Suspect>,
    /// No cause and no two explain the readings: which reading speaks against it.
    pub none_fits: Option<String>,
    /// What to measure next.
    pub next: Option<Step>,
    /// Once one cause stands out: the repair and the reading that proves it.
    pub repair: Option<Repair>,
}

/// A cause with its chance.
#[derive(Clone, Debug, Default)]
pub struct Suspect {
    /// In words.
    pub cause: String,
    /// That it is at fault, alone or beside another.
    pub chance: Share,
    /// What mends it.
    pub repair: String,
}

/// A measurement to take.
#[derive(Clone, Debug)]
pub struct Step {
    /// The number by which its reading is given.
    pub number: usize,
    /// What it is.
    pub what: Measurement,
    /// What is to be done before.
    pub safe_first: String,
    /// What is to be on.
    pub on: String,
    /// Where both probes go.
    pub probes: String,
    /// What it tells on average, in bits, and its trouble in readings taken in the cabin.
    pub bits: f64,
    /// See `bits`.
    pub trouble: f64,
    /// What either result will mean.
    pub means: Vec<Meaning>,
}

/// What a result means.
#[derive(Clone, Debug, Default)]
pub struct Meaning {
    /// What the meter shows, about.
    pub shows: String,
    /// Which causes that speaks for.
    pub cause: String,
}

/// How it is mended.
#[derive(Clone, Debug, Default)]
pub struct Repair {
    /// What is at fault.
    pub found: String,
    /// What to do.
    pub what: String,
    /// The reading that proves it.
    pub proof: String,
}

/// Once it is found, what is less likely than this is not listed.
const FAINT: f64 = 0.02;
/// Causes that are listed.
const LISTED: usize = 6;
/// A cause that has this share of the first one's chance may be meant as well.
const ALIKE: f64 = 0.1;
/// Results of a measurement that are told, and causes that each names.
const RESULTS: usize = 3;
const EACH: usize = 2;

/// What each result will mean: causes that show about the same are told together.
fn meanings(wired: &Wired<'_>, next: &Next, words: &dyn Fn(Cause) -> String) -> Vec<Meaning> {
    let mut results: Vec<(f64, f64, Vec<Cause>)> = Vec::new();
    for (cause, low, high) in &next.shows {
        let alike = |l: f64, h: f64| h.min(*high) - l.max(*low) >= (h.max(*high) - l.min(*low)) / 2.0;
        match results.iter_mut().find(|(l, h, _)| alike(*l, *h)) {
            Some((l, h, causes)) => {
                (*l, *h) = (l.min(*low), h.max(*high));
                causes.push(*cause);
            }
            None => results.push((*low, *high, vec![*cause])),
        }
    }
    let told = results.into_iter().take(RESULTS).map(|(low, high, causes)| {
        let mut cause = causes.iter().take(EACH).map(|c| words(*c)).collect::<Vec<_>>().join("; or ");
        match causes.len().saturating_sub(EACH) {
            0 => {}
            1 => cause.push_str("; or one more"),
            n => cause.push_str(&format!("; or one of {n} more")),
        }
        Meaning { shows: wired.range(next.offer.what.probe, low, high), cause }
    });
    told.collect()
}

/// What can be measured, by number: the same for a plan, a symptom and a load.
pub fn numbered(wired: &Wired<'_>, symptom: Symptom, load: Option<usize>) -> Vec<Measurement> {
    offers(wired, symptom, load).into_iter().map(|o| o.what).collect()
}

/// After these readings; what cannot be reached is not asked for.
pub fn trouble(
    wired: &Wired<'_>,
    (symptom, load): (Symptom, Option<usize>),
    taken: &[Taken],
    unreachable: &[Measurement],
) -> TroubleAnswer {
    let belief = Belief::of(wired, symptom, load, taken);
    let cause_words = |cause: Cause| wired.cause_words(cause, belief.known_size(cause));
    let ranked = belief.ranked();
    let sure = belief.is_sure();
    let causes: Vec<Suspect> = ranked
        .iter()
        .take(LISTED)
        .filter(|r| r.1 >= if sure { FAINT } else { 0.1 * FAINT })
        .map(|(cause, chance)| Suspect {
            cause: cause_words(*cause),
            chance: Share::new(*chance),
            repair: wired.repair_words(*cause),
        })
        .collect();
    let step = if sure { None } else { next(&belief, unreachable) };
    let all = numbered(wired, symptom, load);
    let step = step.map(|n| Step {
        number: all.iter().position(|m| *m == n.offer.what).map_or(0, |p| p + 1),
        what: n.offer.what,
        safe_first: wired.safe_first(&n.offer.what),
        on: wired.on_words(n.offer.what.on),
        probes: wired.probe_words(n.offer.what.probe),
        bits: n.bits,
        trouble: n.offer.trouble,
        means: meanings(wired, &n, &cause_words),
    });
    let repair = (sure || step.is_none()).then(|| causes.first()).flatten().filter(|_| belief.none_fits.is_none());
    let repair = repair.zip(ranked.first()).map(|(first, (cause, _))| {
        let (what, value) = wired.proof(&belief, *cause);
        let (on, probes) = (wired.on_words(what.on), wired.probe_words(what.probe));
        let alike = ranked.iter().skip(1).filter(|r| r.1 > ALIKE * first.chance.get()).count();
        let found = match alike {
            _ if sure => first.cause.clone(),
            0 => format!("most likely: {}", first.cause),
            1 => format!("{}; or the next cause below: no reading tells them apart", first.cause),
            n => format!("{}; or one of {n} more, likeliest first below: no reading tells them apart", first.cause),
        };
        Repair {
            found,
            what: first.repair.clone(),
            proof: format!("{on}; {probes}: about {}", wired.shown(what.probe, value)),
        }
    });
    TroubleAnswer {
        symptom: symptom.words().into(),
        load: load.and_then(|l| wired.site.loads.get(l)).map_or_else(String::new, |l| l.name.clone()),
        none_fits: belief.none_fits.and_then(|n| taken.get(n)).map(|t| {
            let (on, probes) = (wired.on_words(t.what.on), wired.probe_words(t.what.probe));
            format!("{on}; {probes}: {}", wired.shown(t.what.probe, t.shown))
        }),
        causes,
        next: step,
        repair,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::engine::design::design;
    use crate::engine::simulate::trouble::cause::Fault;
    use crate::engine::simulate::trouble::cause::OPEN;
    use crate::engine::simulate::trouble::state::On;
    use crate::engine::simulate::trouble::wired::PartKind;
    use crate::plan::{default_example, read};

    /// Each next reading is what the fault shows: what stands in the end, and the steps to there.
    fn hunt(fault: impl Fn(&Wired) -> Cause, symptom: Symptom, load: Option<&str>) -> (TroubleAnswer, Vec<Step>) {
        let catalogue = Catalogue::embedded().unwrap();
        let plan = read(default_example().text, &catalogue).plan;
        let design = design(&plan, &catalogue);
        let wired = design.wired();
        let load = load.map(|name| plan.loads.iter().position(|l| l.name == name).unwrap());
        let faults = [Some(Fault { cause: fault(&wired), size: OPEN }), None];
        let (mut taken, mut steps) = (Vec::new(), Vec::new());
        loop {
            let answer = trouble(&wired, (symptom, load), &taken, &[]);
            let Some(step) = answer.next.clone() else { return (answer, steps) };
            assert!(steps.len() < 12, "not found after twelve readings");
            let states = wired.states(&faults, step.what.on);
            let shown = wired.predict(&faults, &states, &step.what, &wired.meter()).value;
            taken.push(Taken { what: step.what, shown });
            steps.push(step);
        }
    }

    fn fuse_of(wired: &Wired, run: &str) -> usize {
        let is_fuse = |p: &&usize| wired.parts[**p].kind == PartKind::Fuse;
        let of = |b: usize| wired.site.runs[wired.site.circuits.branches[b].run].name == run;
        let branch = (0..wired.site.circuits.branches.len()).find(|b| of(*b)).unwrap();
        *wired.chains[branch][0].iter().find(is_fuse).unwrap()
    }

    /// A dark fridge with its last fuse blown; a fuse of which nobody says more, on either side of the battery.
    #[test]
    fn a_blown_fuse_is_found_by_a_few_readings() {
        for (run, symptom, load) in [
            ("fridge lead", Symptom::Dark, Some("fridge")),
            ("cabin panel feed", Symptom::FuseGone, None),
            ("charger output", Symptom::FuseGone, None),
        ] {
            let (answer, steps) = hunt(|wired| Cause::Part(fuse_of(wired, run)), symptom, load);
            let first = &answer.causes[0].cause;
            assert!(answer.repair.is_some() && first.contains("fuse blown") && first.contains(run), "{run}: {first}");
            assert!(steps.len() <= 8, "{run}: {} readings", steps.len());
        }
    }

    /// Results that look alike to a meter are told as one, and a cable that touches the body has a few ohms to it.
    #[test]
    fn results_of_a_reading_differ() {
        let (answer, steps) =
            hunt(|wired| Cause::Chafed(wired.parts[fuse_of(wired, "feed")].branch), Symptom::FuseGone, None);
        assert!(answer.causes[0].cause.contains("chafed"), "{:?}", answer.causes);
        for step in &steps {
            let shows: Vec<&str> = step.means.iter().map(|m| m.shows.as_str()).collect();
            assert!((1..shows.len()).all(|n| !shows[..n].contains(&shows[n])), "{shows:?}");
        }
        assert!(steps.iter().flat_map(|s| &s.means).any(|m| m.shows == "a few ohms or less"));
    }

    /// An engine that cranks weakly: the alternator is not named before it was measured, and the starter battery is where
    /// that is sound.
    #[test]
    fn weak_cranking_is_no_alternator_until_measured() {
        let (answer, steps) = hunt(|_| Cause::StarterWorn, Symptom::Starter, None);
        assert!(answer.causes[0].cause.contains("starter battery is worn"), "{:?}", answer.causes);
        assert!(steps.iter().any(|s| s.what.on == On::Engine), "{steps:?}");
    }
}
