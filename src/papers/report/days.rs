//! Days of use as a part of the report: the promise as it was tried, and a fortnight, new and full.

use crate::engine::simulate::promise::{Promise, Trial};
use crate::engine::{Finding, FindingKind, Notes, Span, endurance};
use crate::papers::document::Document;
use crate::papers::endurance::section as days_of_use;
use crate::papers::facts::Columns;
use crate::papers::job::Job;

/// The endurance as a part of the report; nothing when there is no battery.
pub fn section(job: &Job, paper: &mut Document) {
    promise(job, paper);
    let span = Span::default();
    if let Ok(days) = endurance(job.design, span, &mut Notes::unkept()) {
        paper.heading(1, "Days of use");
        days_of_use(job, span, &days, false, paper);
    }
}

/// What is promised, whether it is held, by how much, and what mends it.
fn promise(job: &Job, paper: &mut Document) {
    let (promise, site) = (&job.design.promise, &job.design.installation);
    let Some(hardest) = promise.hardest() else { return };
    paper.heading(1, "The promise");
    let days = site.days_without_charge;
    let mut facts = vec![("Promised", format!("{days} without charge, from full, new and aged, cold and warm"))];
    facts.push(("Kept", kept(promise, hardest)));
    if let (Some((volts, at)), Some(margin)) = (hardest.sensed, hardest.margin()) {
        let margin = match promise.held() {
            true => format!("{margin} above the cut-off"),
            false => format!("the cut-off is at {}", hardest.cut),
        };
        facts.push(("Lowest voltage", format!("{volts} after {at}; {margin}")));
    }
    facts.push(("Lowest charge", format!("{} after {}", hardest.lowest, hardest.lowest_at)));
    let about = |f: &&Finding| matches!(f.kind, FindingKind::PromiseBroken | FindingKind::UsualWeeks);
    let remedies = job.design.findings.iter().filter(about).flat_map(|f| &f.remedies);
    facts.extend(remedies.map(|remedy| ("Remedy", remedy.words.clone())));
    paper.facts(facts);
    let columns = Columns::new()
        .fact(Trial::CONDITIONS)
        .fact_or(Trial::FAILED_AT, "held")
        .fact_or(Trial::LOAD, "none")
        .fact(Trial::UNSERVED)
        .fact(Trial::LOWEST)
        .fact(Trial::SENSED)
        .fact(Trial::MARGIN);
    paper.table(columns.table("promise", "Days without charge", &promise.without_charge, job.at()));
    paper.table(columns.table("promise-usual", "The usual week", &promise.usual, job.at()));
}

fn kept(promise: &Promise, hardest: &Trial) -> String {
    match (promise.held(), promise.unusual()) {
        (false, _) => format!(
            "no: {}, power fails after {} of {}",
            hardest.conditions.words(),
            hardest.failed_at.unwrap_or_default(),
            hardest.tried
        ),
        (true, Some(week)) => format!("yes; but in a usual week power fails, {}", week.conditions.words()),
        (true, None) => format!("yes, and so is the usual week; the hardest: {}", hardest.conditions.words()),
    }
}
