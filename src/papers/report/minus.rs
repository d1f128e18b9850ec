//! The minus side: the bond to the body, and what a main switch leaves live.

use crate::engine::installation::subject::run_name;
use crate::papers::document::Document;
use crate::papers::job::{Job, live};

/// As a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    let bond = &job.design.bond;
    let Some(size) = &bond.size else { return };
    paper.heading(1, "Bond to the body");
    let by = |run: Option<usize>| run.map_or_else(String::new, |r| run_name(&job.design.installation.runs, r));
    let mut facts = vec![
        ("Size", format!("{size}, {} long; decided by: {}", bond.length, bond.ruling)),
        ("Stands", format!("{}; {} come through the fuse of {}", bond.stands, bond.energy, by(bond.energy_by))),
        ("Largest positive", format!("{} of {}", bond.largest, by(bond.largest_by))),
        ("Carries", format!("{}; {} come back through the body", bond.ampacity, bond.load)),
    ];
    facts.extend(live(job).map(|words| ("Main switch open", words)));
    paper.facts(facts);
}
