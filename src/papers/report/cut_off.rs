//! The cut-off: its settings, and what they mean at other currents.

use crate::engine::CutOffDesign;
use crate::papers::document::{Cell, Column, Document, Table};
use crate::papers::job::Job;
use crate::papers::owner_card::whole_days;
use crate::quantity::{Share, Unit};

/// The cut-off as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    let cut_off = &job.design.cut_off;
    if cut_off.cut.get() <= 0.0 {
        return;
    }
    paper.heading(1, "Cut-off");
    let mut facts = vec![
        ("Set to", format!("open at {}, close at {}, delay {}", cut_off.cut, cut_off.reconnect, cut_off.delay)),
        ("Senses at", job.plan.cut_off.senses_at.clone()),
        ("Keeps", format!("{} of the charge at the usual current", cut_off.reserve)),
        ("Carries", format!("{} steadily", cut_off.current)),
    ];
    if let Some(rating) = cut_off.rating {
        facts.push(("Rated", rating.to_string()));
    }
    facts.push(("Rebound", format!("the posts rise to {} after the loads have gone", cut_off.rebound)));
    facts.push(("Charging", format!("reaches {} where it senses", cut_off.charging)));
    if let Some(days) = cut_off.days_to_harm {
        facts.push(("Then", format!("{} until standing draws harm the battery, at the outside", whole_days(days))));
    }
    paper.facts(facts);
    paper.table(currents(cut_off));
    paper.table(order(cut_off));
}

/// The cut-off at each current.
pub fn currents(cut_off: &CutOffDesign) -> Table {
    let columns = [
        Column::text("load", "Load"),
        Column::number("current", "Current", Unit::Amp),
        Column::number("posts", "At the posts", Unit::Volt),
        Column::number("sensing", "Where it senses", Unit::Volt),
        Column::number("trips_at", "Trips at", Unit::Share),
    ];
    let caption = "Voltage at the reserve by current, and the charge at which the setting really trips";
    let mut table = Table::new("cut-off", caption, &columns);
    for a in &cut_off.at_currents {
        table.row(vec![
            a.name.into(),
            Cell::of(a.current),
            Cell::of(a.posts),
            Cell::of(a.sensing),
            a.trips_at.map_or("never".into(), |s: Share| Cell::of(s)),
        ]);
    }
    table
}

/// What acts first.
pub fn order(cut_off: &CutOffDesign) -> Table {
    let columns = [Column::text("what", "What acts"), Column::number("at", "At", Unit::Volt)];
    let mut table = Table::new("cut-off-order", "What acts first as the voltage falls", &columns);
    for acts in &cut_off.order {
        table.row(vec![acts.what.as_str().into(), Cell::of(acts.at)]);
    }
    table
}
