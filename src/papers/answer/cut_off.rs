//! Where to disconnect a battery: settings, what they mean at other currents, what acts first.

use crate::engine::design::results::fact::At;
use crate::engine::installation::Installation;
use crate::engine::{CutOffAnswer, CutOffQuestion, Severity, TABLE_AIR};
use crate::papers::document::{Block, Document};
use crate::papers::report::cut_off;
use crate::papers::report::findings::notices;
use crate::papers::report::workings::add_workings;

/// The answer on paper.
pub fn cut_off_answer(answer: &CutOffAnswer, workings: bool) -> Document {
    let (question, design) = (&answer.question, &answer.design);
    let mut paper = Document::new(format!("Cut-off for {} of {}", question.capacity, answer.name));
    let site = Installation::default();
    let findings = notices(answer.findings.iter(), &site).map(|(_, notice)| Block::Notice(notice));
    let keeps = |charge| format!("{charge} of the charge at {}", question.current);
    let acts = match design.at_usual().and_then(|at| at.trips_at) {
        Some(at) => format!("{}; {} was to be kept", keeps(at), design.reserve),
        None => format!("never at {}, before it is empty", question.current),
    };
    if answer.findings.iter().any(|f| f.severity == Severity::Stop) {
        // Nothing that reads like a setting may stand above what forbids it.
        paper.blocks.extend(findings);
        paper.facts(vec![(
            "No setting",
            format!("keeping {} would ask for {}, which is not to be set", keeps(design.reserve), design.cut),
        )]);
    } else {
        let mut facts = vec![
            ("Acts at", acts),
            ("Set to", format!("open at {}, close at {}, delay {}", design.opens(), design.closes(), design.delay)),
            ("Rebound", format!("the posts rise to {} after the loads have gone", design.rebound)),
        ];
        facts.extend(design.counter.map(|counter| ("Counter", cut_off::counter_words(&counter))));
        facts.extend(judged(answer));
        paper.facts(facts);
        paper.blocks.extend(findings);
    }
    let site = Installation::default();
    paper.table(cut_off::currents(design, At::site(&site)));
    paper.table(cut_off::order(design, At::site(&site)));
    paper.paragraph(format!(
        "For a device that senses at the posts, at {}, in steps of 0.1 V{}. A plan takes the cable, the cold and the \
         real currents into account.",
        question.air.unwrap_or(TABLE_AIR),
        taken(question)
    ));
    if workings {
        add_workings(&answer.workings, &mut paper);
    }
    paper
}

/// Beside a setting that was asked about, the one that would be chosen; and between which voltages both currents are
/// served.
fn judged(answer: &CutOffAnswer) -> Vec<(&'static str, String)> {
    let design = &answer.design;
    let mut facts = Vec::new();
    if answer.question.at.is_some() {
        facts.push(("Nearest", format!("{} acts nearest to {}", design.nearest, design.reserve)));
    }
    facts.extend(design.window.filter(|_| design.counter.is_none()).map(|window| {
        let (from, to) = (window.lowest, window.highest);
        let words = if window.empty() {
            format!("none: the light and usual currents ask for {from} or more, the heavy one for {to} or less")
        } else {
            format!("{from} to {to} serve light, usual and heavy currents alike")
        };
        ("Window", words)
    }));
    facts
}

/// What was taken where nothing was asked.
fn taken(question: &CutOffQuestion) -> &'static str {
    match (question.light, question.heavy) {
        (None, None) => "; light is a fifth of the usual current, heavy three times it",
        (None, Some(_)) => "; light is a fifth of the usual current",
        (Some(_), None) => "; heavy is three times the usual current",
        (Some(_), Some(_)) => "",
    }
}
