//! Which preload does a torque give?
//!
//! F = T / (K × d), the short form of the handbooks with one nut factor K for
//! thread and nut face together. Friction scatters, so a least and a greatest
//! preload are given beside it. Left out: settling of the joint with time.

use crate::catalogue::{Rules, StudSize};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::physics::steel::utilisation::Strengths;
use crate::engine::simulate::hold_down::result::Torque;
use crate::quantity::*;

/// Torque for a share of the proof load, and what it does; a given torque is taken as it is.
pub(crate) fn torque(
    given: Option<NewtonMetres>,
    size: &StudSize,
    strengths: &Strengths,
    rules: &Rules,
    book: &mut Book,
) -> Torque {
    let (k, scatter) = (rules.nut_factor.value, rules.torque_scatter.value.get());
    let metres = size.diameter.as_metres();
    let aimed = rules.preload.value.get();
    let best = NewtonMetres::new(k * metres.get() * aimed * strengths.proof.get());
    let torque = given.unwrap_or_else(|| settable(best));
    let preload = Newtons::new(torque.get() / (k * metres.get()));
    if given.is_none() {
        let working = Working::new("torque before rounding", "K * d * share * P", best)
            .with("K", "nut factor", Figure::number(k))
            .with("d", "diameter of the stud", metres)
            .with("share", "preload aimed at, of the proof load", Figure::number(aimed))
            .with_from("P", "proof load", strengths.proof, Subject::Carrier, "proof load")
            .source(rules.preload.from.words());
        book.work(Subject::Carrier, "torque before rounding", working);
        let step = Figure::new(step(best), Unit::NewtonMetre);
        let working = Working::new("torque of each stud", "max(1, floor(T / step)) * step", torque)
            .with_from("T", "torque before rounding", best, Subject::Carrier, "torque before rounding")
            .with("step", "what a torque wrench can be set to", step)
            .source("common practice, no source");
        book.work(Subject::Carrier, "torque", working);
    }
    let working = Working::new("preload of a stud", "T / (K * d)", preload)
        .with("T", "torque", torque)
        .with("K", "nut factor", Figure::number(k))
        .with("d", "diameter of the stud", metres)
        .source(rules.nut_factor.from.words())
        .note(format!("friction scatters: {} lower or higher", Share::new(scatter)));
    book.work(Subject::Carrier, "preload", working);
    let greatest = preload * (1.0 + scatter);
    Torque {
        torque,
        chosen: given.is_none(),
        preload,
        least: preload * (1.0 - scatter),
        greatest,
        share_of_proof: Share::new(preload / strengths.proof),
        greatest_share_of_yield: Share::new(greatest / strengths.yields),
    }
}

/// Rounded down to what a wrench is set to: half newton metres below 20, whole ones above.
fn settable(torque: NewtonMetres) -> NewtonMetres {
    let step = step(torque);
    NewtonMetres::new((torque.get() / step).floor().max(1.0) * step)
}

fn step(torque: NewtonMetres) -> f64 {
    if torque.get() < 20.0 { 0.5 } else { 1.0 }
}
