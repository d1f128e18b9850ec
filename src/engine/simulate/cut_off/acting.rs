//! What does a setting mean: at which charge it acts, how far the posts rebound, how long until harm?

use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::physics::cell::store::{Age, resting_charge};
use crate::engine::simulate::cut_off::case::{Case, Flow};
use crate::engine::simulate::cut_off::curve::{curve, trips_at};
use crate::engine::simulate::cut_off::result::{AtCurrent, CutOffDesign};
use crate::quantity::*;
use crate::reckon;

/// The cut-off set to `cut`; reconnect, delay and rating are still to be given.
pub(crate) fn acting(case: &Case<'_>, cut: Volts, notes: &mut Notes) -> CutOffDesign {
    let at_currents: Vec<AtCurrent> = case.currents.all().map(|flow| at_current(case, flow, cut, notes)).into();
    let usual = case.currents.usual;
    let tenth = |off: f64| trips_at(case, usual, cut + Volts::new(off)).unwrap_or(Share::ZERO);
    let mut out = CutOffDesign {
        cut,
        exact: case.sensing(case.reserve, usual),
        reserve: case.reserve,
        between: case.path.between(),
        curve: curve(case),
        rebound: rebound(case, &at_currents, notes),
        charging: case.charging,
        surge_voltage: surge_voltage(case, notes),
        after: case.after,
        counter: case.counter,
        within_tenth: (tenth(-0.1), tenth(0.1)),
        path: case.path,
        at_currents,
        ..CutOffDesign::default()
    };
    // A counter that shows too much opens late: the least that is left counts for what comes after.
    let counted = |trips: Option<Share>, at: Share| Some(trips.map_or(at, |trips| trips.max(at)));
    let latest = out.at_usual().and_then(|a| a.trips_at);
    let latest = case.counter.map_or(latest, |c| counted(latest, c.acts_between().0));
    out.days_to_harm = days_to_harm(case, latest, notes);
    out.harm_decides = latest.is_some_and(|at| at > Share::ZERO) && harmed(case) > Share::ZERO;
    if let Some(counter) = case.counter {
        out.at_currents.iter_mut().for_each(|a| a.trips_at = counted(a.trips_at, counter.opens));
        out.within_tenth = counter.acts_between();
    }
    out
}

fn at_current(case: &Case<'_>, flow: Flow, cut: Volts, notes: &mut Notes) -> AtCurrent {
    let (chemistry, about) = (case.store.chemistry, &Subject::CutOff);
    let number = |what: &str| format!("{what}, {}", flow.name);
    let at_hand = case.reserve - case.store.behind(flow.current, flow.held);
    let posts = reckon!(Volts: V - I * R,
        V: "resting voltage at the charge at hand" = case.store.resting_most(at_hand, case.air),
        I: "current" = flow.current,
        R: "internal resistance at the reserve and the mean air, new" = case.store.resistance(case.reserve, case.air, Age::New));
    let posts = notes.reckon(about, number("posts"), posts, |r| {
        r.working(format!("voltage at the posts at the reserve, {} current", flow.name))
            .source(format!(
                "{}; resistance: {}",
                chemistry.resting.words(),
                chemistry.resistance.words(case.measured, false)
            ))
            .note(format!("{at_hand} are at hand after {}", flow.held))
            .note(
                "kinetic battery model: a current that lasts draws down the charge at hand, and a rest brings it back",
            )
    });
    let sensing = reckon!(Volts: P - I * s * R,
        P: "voltage at the posts" = posts,
        I: "current" = flow.current,
        s: "share of it that flows between posts and sensing point" = case.path.share,
        R: "resistance between them, out and back" = case.path.resistance);
    let sensing = notes.reckon(about, number("sensing"), sensing, |r| {
        r.working(format!("voltage at the sensing point, {} current", flow.name)).source("Ohm's law").from(
            "P",
            Subject::CutOff,
            number("posts"),
        )
    });
    let trips_at = trips_at(case, flow, cut);
    if let Some(share) = trips_at {
        notes.add(Subject::CutOff, number("trips"), || {
            Working::new(format!("charge at which the setting trips, {} current", flow.name), "", share)
                .with("U", "setting", cut)
                .with("I", "current", flow.current)
                .source("the curve under that current, solved for the charge by halving")
        });
    }
    AtCurrent { name: flow.name, current: flow.current, held: flow.held, posts, sensing, trips_at }
}

/// After the load has gone the posts come back to rest at whatever charge the
/// cut happened. The heavier the current, the higher that is; half of the gap
/// between resting after charge and after discharge is added.
fn rebound(case: &Case<'_>, at: &[AtCurrent], notes: &mut Notes) -> Volts {
    let highest = at.iter().filter_map(|a| a.trips_at).fold(case.reserve, Share::max);
    let resting = &case.store.chemistry.resting;
    let rebound = reckon!(Volts: V + h,
        V: "resting voltage at the highest charge at which it trips" = case.store.resting_most(highest, case.air),
        h: "gap between resting after charge and after discharge" = resting.hysteresis);
    notes.reckon(&Subject::CutOff, "rebound", rebound, |r| {
        let words = "posts after the loads have gone";
        r.working(words)
            .source(match resting.hysteresis.get() > 0.0 {
                true => format!("{}; {}", resting.words(), resting.from.hysteresis.words()),
                false => resting.words(),
            })
            .note(format!("the highest charge at which it trips is {highest}"))
    })
}

fn surge_voltage(case: &Case<'_>, notes: &mut Notes) -> Volts {
    let surge = reckon!(Volts: V - I * (R + s * P),
        V: "resting voltage at the reserve" = case.store.resting_most(case.reserve, case.air),
        I: "worst start on top of the rest" = case.surge,
        R: "internal resistance" = case.store.resistance(case.reserve, case.air, Age::New),
        s: "share through the path" = case.path.share,
        P: "resistance of the path" = case.path.resistance);
    notes.reckon(&Subject::CutOff, "surge voltage", surge, |r| {
        r.working("voltage at the sensing point in the worst start, at the reserve").source("Ohm's law")
    })
}

/// Charge at which the resting voltage is the harmful one; zero where it is empty before.
fn harmed(case: &Case<'_>) -> Share {
    let chemistry = case.store.chemistry;
    resting_charge(chemistry, chemistry.low.damage, case.air)
}

/// Days from the cut to where harm begins: empty, or the charge at which the
/// resting voltage is the harmful one.
fn days_to_harm(case: &Case<'_>, trips_at: Option<Share>, notes: &mut Notes) -> Option<Days> {
    if case.after.get() <= 0.0 {
        return None;
    }
    let chemistry = case.store.chemistry;
    let at = trips_at.unwrap_or(Share::ZERO);
    let harmed = harmed(case);
    let days = reckon!(Days: C * max(s - h, 0.0) / (I * 24.0),
        C: "capacity of the bank" = case.store.capacity,
        s: "charge at the cut-off, usual current" = at,
        h: "charge where harm begins" = harmed,
        I: "drawn after the cut-off, self-discharge included" = case.after);
    Some(notes.reckon(&Subject::CutOff, "days to harm", days, |r| {
        let stand = chemistry.low.stand_above;
        r.working("days from the cut-off to harm")
            .source(match harmed.get() > 0.0 {
                true => format!("{}; {}", chemistry.low.from.damage.words(), chemistry.resting.words()),
                false => format!("it is empty before it rests at {}, where harm begins", chemistry.low.damage),
            })
            .from("I", Subject::CutOff, "after")
            .note(if at < stand {
                format!("left standing under {stand} it ages: recharge within days")
            } else {
                format!("it may stand above {stand}")
            })
    }))
}
