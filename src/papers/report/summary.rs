//! What is built, in ten lines, and on which assumptions.

use crate::engine::Severity;
use crate::papers::document::{Block, Document};
use crate::papers::job::Job;
use crate::plan::{Section, fields_of};
use crate::quantity::counted;
use crate::quantity::{AmpHours, Amps, Metres, UnitSystem, Volts};

/// What is built.
pub fn job_summary(job: &Job, paper: &mut Document) {
    let (plan, design) = (job.plan, job.design);
    if !plan.job.notes.is_empty() {
        paper.paragraph(plan.job.notes.clone());
    }
    let mut facts = vec![("Use", format!("{} or {} a day", design.budget.charge, design.budget.energy))];
    facts.extend(decided(job));
    let length: Metres = design.installation.runs.iter().map(|r| r.length).sum();
    facts.push(("Cables", format!("{}, {length} one way", counted(design.installation.runs.len(), "run"))));
    facts.push(("Findings", counts(job)));
    paper.facts(facts);
}

/// The parts that decide the rest.
pub fn decided(job: &Job) -> Vec<(&'static str, String)> {
    vec![("Battery", battery(job)), ("Charger", charger(job)), ("Cut-off", cut_off(job))]
}

/// `1 STOP, 2 cautions, 3 notes`, or `none`.
fn counts(job: &Job) -> String {
    let (stops, cautions, notes) =
        (job.design.count(Severity::Stop), job.design.count(Severity::Caution), job.design.count(Severity::Note));
    match (stops, cautions, notes) {
        (0, 0, 0) => "none".into(),
        _ => format!("{stops} STOP, {}, {}", counted(cautions, "caution"), counted(notes, "note")),
    }
}

fn battery(job: &Job) -> String {
    match &job.design.battery.bank {
        Some(bank) => {
            let name = job.catalogue.chemistry(&bank.chemistry).map_or(bank.chemistry.as_str(), |c| c.name.as_str());
            let blocks =
                if bank.blocks > 1 { format!(", {} blocks of {}", bank.blocks, bank.block) } else { String::new() };
            format!("{name}, {}{blocks}, {}", bank.capacity, bank.mass)
        }
        None => "none could be sized; see the findings".into(),
    }
}

fn charger(job: &Job) -> String {
    let charger = &job.design.charger;
    match charger.current {
        Some(current) => format!("{current} at {}, takes up to {}", charger.output, charger.input),
        None => "none".into(),
    }
}

fn cut_off(job: &Job) -> String {
    let cut_off = &job.design.cut_off;
    if cut_off.cut == Volts::ZERO {
        return "none could be set; see the findings".into();
    }
    let rating = cut_off.rating.filter(|r| *r > Amps::ZERO).map_or(String::new(), |r| format!(", rated {r}"));
    format!("opens at {}, closes at {}, delay {}{rating}", cut_off.opens(), cut_off.closes(), cut_off.delay)
}

/// What was taken for granted: the fields that every result rests on.
pub fn assumptions(job: &Job, paper: &mut Document) {
    paper.heading(1, "Assumptions");
    paper.paragraph("What the plan says, or takes when it says nothing. If one of these is wrong, so is the design.");
    let sections = [
        Section::Surroundings,
        Section::Vehicle,
        Section::StarterBattery,
        Section::ServiceBattery,
        Section::Charger,
        Section::CutOff,
        Section::Solar,
        Section::Mains,
        Section::Inverter,
        Section::Rules,
        Section::HoldDown,
    ];
    for section in sections.into_iter().filter(|s| planned(job, *s)) {
        paper.heading(2, section.title());
        let mut facts = Vec::new();
        let mut left = Vec::new();
        for field in fields_of(section) {
            match field.get(job.plan, 0) {
                Some(value) => {
                    let shown = field.show(&value, UnitSystem::Metric);
                    facts.push((field.label.to_string(), if shown.is_empty() { "none".into() } else { shown }));
                }
                None => left.push(said_in_a_list(&field.words())),
            }
        }
        if !left.is_empty() {
            facts.push(("To the program".into(), left.join(", ")));
        }
        paper.blocks.push(Block::Facts(facts));
    }
}

/// `drop, critical` would be two things in a list: `critical drop` is one.
fn said_in_a_list(words: &str) -> String {
    words.split_once(", ").map_or(words.to_string(), |(what, which)| format!("{which} {what}"))
}

/// Whether the plan has such a thing at all.
fn planned(job: &Job, section: Section) -> bool {
    let plan = job.plan;
    match section {
        Section::Solar => plan.solar.array.get() > 0.0,
        Section::Mains => plan.mains.current > Amps::ZERO,
        Section::Inverter => plan.inverter.rating.get() > 0.0,
        Section::HoldDown => job.design.carrier.is_some(),
        Section::StarterBattery => plan.starter_battery.capacity > AmpHours::ZERO,
        _ => true,
    }
}
