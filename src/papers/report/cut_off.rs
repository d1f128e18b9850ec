//! The cut-off: its settings, and what they mean at other currents.

use crate::engine::design::results::fact::At;
use crate::engine::installation::counter::Counter;
use crate::engine::simulate::cut_off::result::Acts;
use crate::engine::{AtCurrent, CutOffDesign};
use crate::papers::document::{Document, Table};
use crate::papers::facts::Columns;
use crate::papers::job::Job;
use crate::papers::owner_card::whole_days;

/// The cut-off as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    let cut_off = &job.design.cut_off;
    if cut_off.cut.get() <= 0.0 {
        return;
    }
    paper.heading(1, "Cut-off");
    let mut facts = vec![
        ("Set to", format!("open at {}, close at {}, delay {}", cut_off.opens(), cut_off.closes(), cut_off.delay)),
        ("Senses at", job.plan.cut_off.senses_at.clone()),
        ("Keeps", format!("{} of the charge at the usual current", cut_off.reserve)),
        ("Carries", format!("{} steadily", cut_off.current)),
    ];
    if let Some(counter) = cut_off.counter {
        facts.push(("Counter", counter_words(&counter)));
    }
    if let Some(rating) = cut_off.rating {
        facts.push(("Rated", rating.to_string()));
    }
    facts.push(("Rebound", format!("the posts rise to {} after the loads have gone", cut_off.rebound)));
    facts.push(("Charging", format!("reaches {} where it senses", cut_off.charging)));
    if let Some(days) = cut_off.days_to_harm {
        facts.push(("Then", format!("{} until standing draws harm the battery, at the outside", whole_days(days))));
    }
    paper.facts(facts);
    paper.table(currents(cut_off, job.at()));
    paper.table(order(cut_off, job.at()));
}

/// What a counter of charge is set to, and how far it may be off.
pub fn counter_words(counter: &Counter) -> String {
    let (least, most) = counter.acts_between();
    format!(
        "set its capacity to {} of the rated; it may be {} off, so it opens with {least} to {most} left, and a full \
         battery sets it right",
        counter.counts_on, counter.error
    )
}

/// The cut-off at each current.
pub fn currents(cut_off: &CutOffDesign, at: At<'_>) -> Table {
    Columns::new()
        .fact(AtCurrent::NAME)
        .fact(AtCurrent::CURRENT)
        .fact(AtCurrent::POSTS)
        .fact(AtCurrent::SENSING)
        .fact_or(AtCurrent::TRIPS_AT, "never")
        .table(
            "cut-off",
            "Voltage at the reserve by current, and the charge at which the setting really trips",
            &cut_off.at_currents,
            at,
        )
}

/// What acts first.
pub fn order(cut_off: &CutOffDesign, at: At<'_>) -> Table {
    let columns = Columns::new().fact(Acts::WHAT).fact(Acts::AT);
    columns.table("cut-off-order", "What acts first as the voltage falls", &cut_off.order, at)
}
