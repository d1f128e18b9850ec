//! Where to disconnect a battery: settings, what they mean at other currents, what acts first.

use crate::engine::design::results::fact::At;
use crate::engine::installation::Installation;
use crate::engine::{CutOffAnswer, Severity};
use crate::papers::document::{Block, Document};
use crate::papers::report::cut_off;
use crate::papers::report::findings::finding_notice;
use crate::papers::report::workings::add_workings;

/// The answer on paper.
pub fn cut_off_answer(answer: &CutOffAnswer, workings: bool) -> Document {
    let (question, design) = (&answer.question, &answer.design);
    let mut paper = Document::new(format!("Cut-off for {} of {}", question.capacity, answer.name));
    let findings = answer.findings.iter().map(|f| Block::Notice(finding_notice(f, &Installation::default())));
    let keeps = |charge| format!("{charge} of the charge at {}", question.current);
    let kept = design.at_usual().and_then(|at| at.trips_at).unwrap_or(design.reserve);
    if answer.findings.iter().any(|f| f.severity == Severity::Stop) {
        // Nothing that reads like a setting may stand above what forbids it.
        paper.blocks.extend(findings);
        paper.facts(vec![(
            "No setting",
            format!("keeping {} would ask for {}, which is not to be set", keeps(design.reserve), design.cut),
        )]);
    } else {
        paper.facts(vec![
            ("Set to", format!("open at {}, close at {}, delay {}", design.cut, design.reconnect, design.delay)),
            ("Keeps", keeps(kept)),
            ("Rebound", format!("the posts rise to {} after the loads have gone", design.rebound)),
        ]);
        paper.blocks.extend(findings);
    }
    let site = Installation::default();
    paper.table(cut_off::currents(design, At::site(&site)));
    paper.table(cut_off::order(design, At::site(&site)));
    paper.paragraph(
        "For a device that senses at the posts, at 25 °C, in steps of 0.1 V; light is a fifth of the usual current, \
         heavy three times it. A plan takes the cable, the cold and the real currents into account.",
    );
    if workings {
        add_workings(&answer.workings, &mut paper);
    }
    paper
}
