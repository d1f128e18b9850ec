//! The published cases that the program works on its user's own machine: all hold as shipped, and each can fail.

use crate::catalogue::shipped;
use loomwright::catalogue::{Catalogue, Curve};
use loomwright::engine::self_check;
use loomwright::quantity::*;
use std::collections::BTreeSet;

crate::tests![all_hold_as_shipped, each_fails_where_its_rows_are_changed];

fn all_hold_as_shipped() {
    let check = self_check(&shipped());
    let failed: Vec<String> = check.failed().map(|c| format!("{}: {:?}", c.what, c.got)).collect();
    assert!(check.cases.len() >= 50 && failed.is_empty(), "{} cases, {failed:?}", check.cases.len());
    assert!(check.cases.iter().all(|c| !c.source.is_empty() && (c.least.is_some() || c.most.is_some())));
}

/// A curve with all its values moved.
fn moved<X: Quantity, Y: Quantity>(curve: &Curve<X, Y>, by: impl Fn(f64) -> f64) -> Curve<X, Y> {
    Curve::new(curve.points().iter().map(|(x, y)| (*x, Y::of(by(y.number())))).collect())
}

/// The shipped catalogue with one sort of row spoiled, each in turn.
fn spoiled() -> Vec<Catalogue> {
    let with = |change: &dyn Fn(&mut Catalogue)| {
        let mut catalogue = Catalogue::clone(&shipped());
        change(&mut catalogue);
        catalogue
    };
    vec![
        with(&|c| c.conductors.iter_mut().for_each(|r| r.resistance = r.resistance * 3.0)),
        with(&|c| c.ampacity.row.iter_mut().flat_map(|r| &mut r.amps).for_each(|a| *a = *a * 0.5)),
        with(&|c| {
            for style in &mut c.fuse_styles {
                style.breaking.iter_mut().for_each(|b| b.amps = b.amps * 3.0);
                style.ratings.iter_mut().for_each(|r| *r = *r * 20.0);
            }
        }),
        with(&|c| c.insulations.iter_mut().for_each(|i| i.adiabatic_k *= 2.0)),
        with(&|c| c.workshop.pulls.iter_mut().for_each(|p| p.least = p.least * 0.5)),
        with(&|c| {
            for chemistry in &mut c.chemistries {
                chemistry.resting.curve = moved(&chemistry.resting.curve, |v| v + 1.0);
                chemistry.cold.capacity = moved(&chemistry.cold.capacity, |s| s * 0.5);
                chemistry.cold.freezing = chemistry.cold.freezing.as_ref().map(|f| moved(f, |t| t - 30.0));
                chemistry.rate.peukert = 1.01;
                chemistry.low.damage += Volts::new(1.0);
            }
        }),
    ]
}

fn each_fails_where_its_rows_are_changed() {
    let all: BTreeSet<String> = self_check(&shipped()).cases.into_iter().map(|c| c.what).collect();
    let mut failed = BTreeSet::new();
    for catalogue in spoiled() {
        failed.extend(self_check(&catalogue).failed().map(|c| c.what.clone()));
    }
    let never: Vec<&String> = all.difference(&failed).collect();
    assert!(never.is_empty(), "cannot fail: {never:?}");
    let mut bare = Catalogue::clone(&shipped());
    bare.conductors.clear();
    let gone = self_check(&bare);
    assert!(gone.failed().any(|c| c.got.is_none()), "a missing row does not hold");
}
