//! Which preload does a torque give?
//!
//! F = T / (K × d), the short form of the handbooks with one nut factor K for
//! thread and nut face together. Friction scatters, so a least and a greatest
//! preload are given beside it. Left out: settling of the joint with time.

use crate::catalogue::{Rules, StudSize};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::physics::steel::utilisation::Strengths;
use crate::engine::simulate::hold_down::result::Torque;
use crate::quantity::*;
use crate::reckon;

/// Torque for a share of the proof load, and what it does; a given torque is taken as it is.
pub(crate) fn torque(
    given: Option<NewtonMetres>,
    size: &StudSize,
    strengths: &Strengths,
    rules: &Rules,
    notes: &mut Notes,
) -> Torque {
    let (factor, scatter) = (Figure::number(rules.nut_factor.value), rules.torque_scatter.value);
    let torque = given.unwrap_or_else(|| chosen(size, strengths, rules, notes));
    let preload = reckon!(Newtons: T / (K * d),
        T: "torque" = torque,
        K: "nut factor" = factor,
        d: "diameter of the stud" = size.diameter.as_metres());
    let preload = notes.reckon(&Subject::Carrier, "preload", preload, |r| {
        r.working("preload of a stud")
            .source(rules.nut_factor.from.words())
            .note(format!("friction scatters: {scatter} lower or higher"))
    });
    let greatest = preload * (1.0 + scatter.get());
    Torque {
        torque,
        chosen: given.is_none(),
        preload,
        least: preload * (1.0 - scatter.get()),
        greatest,
        share_of_proof: Share::new(preload / strengths.proof),
        greatest_share_of_yield: Share::new(greatest / strengths.yields),
    }
}

/// Rounded down to what a wrench is set to: half newton metres below 20, whole ones above.
fn chosen(size: &StudSize, strengths: &Strengths, rules: &Rules, notes: &mut Notes) -> NewtonMetres {
    let about = &Subject::Carrier;
    let best = reckon!(NewtonMetres: K * d * share * P,
        K: "nut factor" = Figure::number(rules.nut_factor.value),
        d: "diameter of the stud" = size.diameter.as_metres(),
        share: "preload aimed at, of the proof load" = Figure::number(rules.preload.value.get()),
        P: "proof load" = strengths.proof);
    let best = notes.reckon(about, "torque before rounding", best, |r| {
        r.working("torque before rounding").from("P", Subject::Carrier, "proof load").source(rules.preload.from.words())
    });
    let step = NewtonMetres::new(if best.get() < 20.0 { 0.5 } else { 1.0 });
    let torque = reckon!(NewtonMetres: max(1.0, floor(T / step)) * step,
        T: "torque before rounding" = best,
        step: "what a torque wrench can be set to" = step);
    notes.reckon(about, "torque", torque, |r| {
        r.working("torque of each stud")
            .from("T", Subject::Carrier, "torque before rounding")
            .source("common practice, no source")
    })
}
