//! Days of use as a part of the report: a fortnight, new and full.

use crate::engine::{Notes, Span, endurance};
use crate::papers::document::Document;
use crate::papers::endurance::section as days_of_use;
use crate::papers::job::Job;

/// The endurance as a part of the report; nothing when there is no battery.
pub fn section(job: &Job, paper: &mut Document) {
    let span = Span::default();
    if let Ok(days) = endurance(job.design, span, &mut Notes::unkept()) {
        paper.heading(1, "Endurance");
        days_of_use(job, span, &days, false, paper);
    }
}
