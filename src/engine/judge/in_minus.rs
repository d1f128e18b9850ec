//! Is anything that opens in the minus alone?
//!
//! The body is bonded to the minus, so a plus that touches it is fed past a device there.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::parts::battery::Bank;
use crate::plan::{Place, ReturnPath, Section, Value};

const RULE: &str = "each conductor that is not bonded to the body is guarded: 33 CFR 183.455 (a)";

/// Fuses, the cut-off, the main switch.
pub(crate) fn check(site: &Installation, bank: &Bank) -> Vec<Finding> {
    let fuses = site.runs.iter().enumerate().filter(|(_, run)| run.fuse_in_minus && run.own_fuse);
    let fuses = fuses.map(|(n, _)| {
        let text = format!(
            "the fuse of {} sits in its minus alone: a plus that touches the body is fed past it, by up to {}",
            run_name(&site.runs, n),
            bank.fault
        );
        told(Finding::new(Kind::DeviceInMinus, Subject::Run(n), text), Place::run(n, "fuse_in_minus"))
    });
    fuses.chain(cut_off(site)).chain(main_switch(site, bank)).collect()
}

fn told(finding: Finding, at: Place) -> Finding {
    finding.rule(RULE).at(at).remedy_edit("put it into the plus", at, Some(Value::Flag(false)))
}

fn cut_off(site: &Installation) -> Option<Finding> {
    let by_body = site.runs.iter().filter(|r| r.return_path == ReturnPath::Chassis).count();
    let (severity, past) = match by_body {
        0 => (Severity::Caution, "a load whose case touches the body goes on drawing".to_string()),
        n => (Severity::Stop, format!("what comes back through the body by {n} cables goes on drawing")),
    };
    let text = format!("the cut-off opens the minus alone: {past}");
    let found = Finding::new(Kind::DeviceInMinus, Subject::CutOff, text).as_severity(severity);
    site.cut_off.in_minus.then(|| told(found, Place::of(Section::CutOff, "in_minus")))
}

fn main_switch(site: &Installation, bank: &Bank) -> Option<Finding> {
    let fitted = site.main_switch.in_minus && site.main_switch.rating.is_some();
    let text = format!(
        "the main switch opens the minus alone: a minus that ends beside it goes past it, and the plus still gives up to {}",
        bank.fault
    );
    let found = Finding::new(Kind::DeviceInMinus, Subject::MainSwitch, text).as_severity(Severity::Caution);
    fitted.then(|| told(found, Place::of(Section::MainSwitch, "in_minus")))
}
