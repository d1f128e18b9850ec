//! How did drops and the heat in a bad joint come about?

use crate::catalogue::Rules;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::simulate::test_sheet::result::{Fault, TestSheet, Verdict};
use crate::quantity::{Figure, Volts};

/// The workings of a sheet.
pub(crate) fn record(rules: &Rules, sheet: &TestSheet, notes: &mut Notes) {
    for verdict in [&sheet.service, &sheet.feed] {
        match verdict {
            Verdict::Bad { fault, .. } => heat(rules, fault, notes),
            Verdict::BadTwice(a, b) => [a, b].into_iter().for_each(|fault| heat(rules, fault, notes)),
            _ => {}
        }
    }
    for run in &sheet.runs {
        notes.add(Subject::Run(run.run), "test drop", || {
            Working::new("drop of a volt-drop test", "I * R", run.drop.likely)
                .with("I", "test current", run.current)
                .with("R", "resistance out and back, cold", run.resistance.likely)
                .source("Ohm's law; the band is two standard errors of cable, joints, meter and clamp")
                .note(format!("sound between {} and {}", run.drop.low.max(Volts::ZERO), run.drop.high))
        });
    }
}

fn heat(rules: &Rules, fault: &Fault, notes: &mut Notes) {
    let about = || Subject::Run(fault.run);
    notes.add(about(), "joint heat", || {
        Working::new("heat in the bad joint", "I^2 * R", fault.heat)
            .with("I", "largest current in the readings", fault.current)
            .with("R", "resistance above the expected", fault.excess)
            .source("Joule's law; as if all of it sat in one joint, the worst that it can be")
    });
    notes.add(about(), "joint warming", || {
        Working::new("how much hotter the bad joint gets than its surroundings", "P * k", fault.warming)
            .with("P", "heat in it at the run's full current", fault.full_heat)
            .with("k", "warming for each watt", Figure::number(rules.joint_warming.value))
            .source(rules.joint_warming.from.words())
            .note("rough: what the joint sits in decides")
    });
}
