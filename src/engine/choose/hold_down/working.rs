//! How the strength of the studs came about, number by number.

use crate::catalogue::{StudClass, StudSize, cite};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::physics::steel::shock::GRAVITY;
use crate::engine::physics::steel::utilisation::{COMBINED, Strengths, TENSION_SHARE};
use crate::engine::simulate::hold_down::result::Strength;
use crate::engine::simulate::hold_down::strength::Fixing;
use crate::quantity::*;

pub(crate) fn proof_load(size: &StudSize, class: &StudClass, studs: &Strengths, notes: &mut Notes) {
    notes.add(Subject::Carrier, "proof load", || {
        Working::new(format!("proof load of {} {}", size.key, class.key), "Sp * As", studs.proof)
            .with("Sp", "stress under proof load", class.proof)
            .with("As", "stress area of the thread", size.stress_area)
            .source(cite([&class.from.proof, &size.from.stress_area]))
    });
}

pub(crate) fn strength(given: &Fixing<'_>, strength: &Strength, notes: &mut Notes) {
    if notes.workings().is_none() {
        return;
    }
    forces(given, strength, notes);
    sharing(strength, notes);
    utilisation(given, strength, notes);
    margins(given, strength, notes);
}

fn forces(given: &Fixing<'_>, strength: &Strength, notes: &mut Notes) {
    for case in &strength.cases {
        let upright = matches!(case.name, "up" | "down");
        let sign = if matches!(case.name, "forward" | "right" | "up") { 1.0 } else { -1.0 };
        let (formula, result) = if upright {
            ("m * g * (sign * level - 1)", case.upright)
        } else {
            ("m * g * sign * level", if case.along.get() == 0.0 { case.across } else { case.along })
        };
        let mut working = Working::new(format!("force when thrown {}", case.name), formula, result)
            .with("m", "battery and steel", strength.total_mass)
            .with("g", "standard gravity, m/s²", Figure::number(GRAVITY))
            .with("sign", "direction", Figure::number(sign))
            .with("level", "shock level", case.level)
            .source(given.shock.source(case.name).words());
        working = working.note(if upright { "the weight is in it" } else { "the weight acts downward beside it" });
        notes.add(Subject::Carrier, format!("force {}", case.name), || working);
    }
}

fn sharing(strength: &Strength, notes: &mut Notes) {
    let Some(case) = strength.cases.get(strength.ruling) else { return };
    let most = case.utilisations.iter().fold(Share::ZERO, |a, b| a.max(*b));
    let Some(stud) = case.utilisations.iter().position(|u| *u == most) else { return };
    let place = strength.studs.get(stud).map(|s| format!("{} along, {} across", s.along, s.across));
    let note = format!("stud {} at {}, thrown {}", stud + 1, place.unwrap_or_default(), case.name);
    let source = "elastic bolt group under a rigid plate, machine-design handbooks";
    for (number, name, value) in [
        ("tension", "pull in the ruling stud", case.tensions[stud]),
        ("shear", "sideways force on the ruling stud", case.shears[stud]),
    ] {
        let working = Working::new(name, "", value)
            .with("lever", "centre of the mass from the plane of the studs", strength.lever)
            .with("n", "studs", Figure::new(strength.studs.len() as f64, Unit::Count))
            .source(source)
            .note(note.clone())
            .note("even share, and what tipping or turning around the middle of the studs adds by distance");
        notes.add(Subject::Carrier, number, || working);
    }
}

fn utilisation(given: &Fixing<'_>, strength: &Strength, notes: &mut Notes) {
    let Some(case) = strength.cases.get(strength.ruling) else { return };
    let Some(stud) = case.utilisations.iter().position(|u| *u == strength.utilisation) else { return };
    let (t, v) = (case.tensions[stud], case.shears[stud]);
    let with = |w: Working| {
        w.with_from("T", "pull", t, Subject::Carrier, "tension").with_from(
            "V",
            "sideways force",
            v,
            Subject::Carrier,
            "shear",
        )
    };
    let proof =
        with(Working::new("use against lasting stretch", "sqrt(T^2 + 3 * V^2) / P", given.studs.by_proof(t, v)))
            .with_from("P", "proof load", given.studs.proof, Subject::Carrier, "proof load")
            .source("von Mises stress on the stress area against the proof stress, machine-design handbooks");
    notes.add(Subject::Carrier, "utilisation by proof", || proof);
    let structure = with(Working::new(
        "use as a bolt of a steel structure",
        "max(V / Fv + T / (c * Ft), T / Ft)",
        given.studs.by_structure(t, v),
    ))
    .with("Fv", "shear resistance of the thread", given.studs.shear)
    .with("Ft", "tension resistance", given.studs.tension)
    .with("c", "reduction in the combined check", Figure::number(COMBINED))
    .source("EN 1993-1-8 table 3.4")
    .note(format!("tension resistance is {TENSION_SHARE} × tensile strength × stress area / {}", {
        given.rules.bolt_partial.value
    }));
    notes.add(Subject::Carrier, "utilisation by structure", || structure);
    let worse = Working::new("use of the studs", "max(proof, structure)", strength.utilisation)
        .with_from(
            "proof",
            "against lasting stretch",
            given.studs.by_proof(t, v),
            Subject::Carrier,
            "utilisation by proof",
        )
        .with_from(
            "structure",
            "as a bolt of a steel structure",
            given.studs.by_structure(t, v),
            Subject::Carrier,
            "utilisation by structure",
        )
        .source("the worse of two methods rules");
    notes.add(Subject::Carrier, "utilisation", || worse);
}

fn margins(given: &Fixing<'_>, strength: &Strength, notes: &mut Notes) {
    let largest = Working::new("largest battery carried", "max(m * safety - steel, 0)", strength.largest_mass)
        .with("m", "battery and steel", strength.total_mass)
        .with("safety", "1 / utilisation", Figure::number(strength.safety))
        .with("steel", "steel of the carrier", given.shape.steel_mass)
        .source("all forces are proportional to the mass");
    notes.add(Subject::Carrier, "largest mass", || largest);
    if let Some(strip) = &strength.strip {
        let working = Working::new("stress in the strip at its hole", "T / A", strip.stress)
            .with("T", "largest pull in a leg", strip.pull)
            .with("A", "strip width less hole, times thickness", strip.net_area)
            .source("stress = force / area");
        notes.add(Subject::Carrier, "strip stress", || working);
    }
    let slip = Working::new("friction hold over sideways force", "", Figure::new(strength.slip_margin, Unit::Times))
        .with("mu", "friction of the clamped faces", Figure::number(given.rules.slip_friction.value))
        .with("F", "least preload of a stud", given.torque.least)
        .with("n", "studs", Figure::new(strength.studs.len() as f64, Unit::Count))
        .source(given.rules.slip_friction.from.words())
        .note("mu × (n × F less what pulls away) over the sideways force, worst direction");
    notes.add(Subject::Carrier, "slip margin", || slip);
}
