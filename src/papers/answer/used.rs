//! What a used battery is still worth, with bounds, and what to write into a plan.

use crate::engine::ask::used::{Between, UsedAnswer};
use crate::papers::document::Document;
use crate::quantity::Figure;

/// The answer on paper.
pub fn used_answer(answer: &UsedAnswer) -> Document {
    let mut paper = Document::new(format!("Used battery: {} of {}", answer.question.capacity, answer.name));
    let mut facts = Vec::new();
    facts.extend(answer.charge.map(|charge| ("Charge", said(charge))));
    facts.extend(answer.holds.map(|holds| ("Holds", format!("{}, at the rated hours and 25 °C", said(holds)))));
    facts.extend(answer.health.map(|health| ("Of its rating", said(health))));
    facts.push(("Replaced at", answer.end_of_life.to_string()));
    paper.facts(facts);
    for remark in &answer.remarks {
        paper.caution(format!("{}.", capital(remark)));
    }
    match answer.holds {
        Some(holds) => paper.paragraph(format!(
            "For a plan: `capacity_ah = {:.0}` and `tested_ah = {:.0}` under `[service_battery]`, the least that it may \
             hold.",
            answer.question.capacity.get(),
            holds.least.get().floor()
        )),
        None => paper.paragraph(
            "What it still holds only a discharge tells: charge it to full, draw a steady current of a twentieth of its \
             rating down to 10.5 V (lithium: until it switches off), and give --drawn and --for.",
        ),
    }
    paper
}

fn said<Q: Copy + Into<Figure>>(range: Between<Q>) -> String {
    let [least, likely, most] = [range.least, range.likely, range.most].map(Into::into);
    format!("{likely} ({least} to {most})")
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
