//! Which cause is likely, and what to measure next, on paper.

use crate::engine::TroubleAnswer;
use crate::papers::document::{Block, Document};

/// The answer on paper.
pub fn trouble_answer(answer: &TroubleAnswer) -> Document {
    let of = if answer.load.is_empty() { String::new() } else { format!(": {}", answer.load) };
    let mut paper = Document::new(format!("Fault finding: {}{of}", answer.symptom));
    if let Some(against) = &answer.none_fits {
        paper.paragraph(
            "No fault that is known here, and no two at once, explain these readings. One may be wrong, something else \
             may have been on, or the wiring is not as planned.",
        );
        paper.facts(vec![("Read again", against.clone())]);
    }
    if let Some(repair) = &answer.repair {
        paper.blocks.push(Block::Heading(1, "Repair".into()));
        paper.facts(vec![
            ("Found", repair.found.clone()),
            ("Do", repair.what.clone()),
            ("Proof", repair.proof.clone()),
            ("Else", "begin anew: a second fault may have been hidden behind the first".into()),
        ]);
    }
    if let Some(next) = &answer.next {
        paper.blocks.push(Block::Heading(1, format!("Measure next (number {})", next.number)));
        paper.facts(vec![("First", next.safe_first.clone()), ("On", next.on.clone()), ("Meter", next.probes.clone())]);
        let means = next.means.iter().map(|m| format!("{}: {}", m.shows, m.cause));
        paper.blocks.push(Block::List(means.collect()));
    }
    paper.blocks.push(Block::Heading(1, "Causes".into()));
    let causes = answer.causes.iter().map(|s| format!("{}: {}", s.chance, s.cause));
    paper.blocks.push(Block::List(causes.collect()));
    paper.paragraph(
        "Chance that each is at fault, by itself or beside another: from how often such things fail (common practice, no \
         source) and from what each would show in this very circuit. Stop at once at a hot joint, a swollen battery or a smell: isolate it first.",
    );
    paper
}
