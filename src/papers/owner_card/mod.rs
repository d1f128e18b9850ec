//! The owner's card: one page that stays in the vehicle, however large the plan.

mod fuses;

use crate::catalogue::Chemical;
use crate::engine::Bank;
use crate::papers::cautions::tow;
use crate::papers::document::{Block, Document};
use crate::papers::job::{Job, live};
use crate::plan::ChargerKind;
use crate::quantity::{Amps, Days, Figure, Volts, Watts};

/// The card of a design.
pub fn owner_card(job: &Job) -> Document {
    let mut paper = Document::new(format!("Owner's card – {}", job.title()));
    paper.card = true;
    paper.heading(1, "To switch everything off");
    paper.steps(isolating(job));
    paper.heading(1, "To switch it on again");
    paper.steps(joining(job));
    paper.heading(1, "When something is dark");
    paper.list(dark(job));
    paper.heading(1, "When the cut-off has acted");
    paper.steps(after_cut(job));
    paper.heading(1, "Over the year");
    paper.list(over_the_year(job));
    let mut end = Document::default();
    end.caution("Replace a fuse only by one of the same style and rating. If it blows again, find out why first.");
    end.heading(1, "The battery");
    end.facts(battery(job));
    paper.heading(1, "What each fuse feeds");
    let room = room(paper.blocks.iter().chain(&end.blocks));
    fuses::section(job, room, &mut paper);
    paper.blocks.extend(end.blocks);
    paper
}

/// Height of Letter, the shorter page, less the card's margins, its title, a STOP, its stamp and
/// the words below the fuses, in lines of its text.
const LINES: f64 = 57.0;
/// Letters in a line: few, since a line breaks before a word.
const LETTERS: usize = 108;
/// Lines of the small table in a line of text; what a heading takes.
const SMALL: f64 = 1.1;
const HEADING: f64 = 1.9;

/// Lines of the small table that are left for the fuses beside all else.
fn room<'b>(blocks: impl Iterator<Item = &'b Block>) -> usize {
    let lines = |text: &String| text.chars().count().div_ceil(LETTERS) as f64;
    let taken: f64 = blocks
        .map(|block| match block {
            Block::Heading(..) => HEADING,
            Block::Steps(points) | Block::List(points) => points.iter().map(lines).sum::<f64>() + 0.3,
            // In two columns, each with the label before the value.
            Block::Facts(facts) => {
                facts.iter().map(|(_, value)| (value.chars().count() + 24).div_ceil(54) as f64).sum::<f64>() / 2.0 + 0.5
            }
            Block::Notice(notice) => lines(&notice.text) + 0.5,
            _ => 1.0,
        })
        .sum();
    ((LINES - taken).max(4.0) * SMALL) as usize
}

/// Plain words for whoever finds the fridge warm.
fn dark(job: &Job) -> Vec<String> {
    let mut points = Vec::new();
    if job.design.cut_off.cut > Volts::ZERO {
        points.push(
            "All of it at once, the fridge too: the cut-off has most likely acted, because the battery is low. See below."
                .to_string(),
        );
    }
    points.push(
        "Several things of one place: the fuse before that place. One thing alone: its own fuse or its plug.".into(),
    );
    points.push("Whom to ask: ______________________ telephone ______________________".into());
    points
}

/// When to charge, and what to do before it stands.
fn over_the_year(job: &Job) -> Vec<String> {
    let mut points = Vec::new();
    let bank = job.design.battery.bank.as_ref();
    let chemistry = bank.and_then(|b| job.catalogue.chemistry(&b.chemistry));
    match chemistry.map(|c| c.chemical == Chemical::LeadAcid) {
        Some(true) => points.push(
            "Charge it full after each use; before winter charge it full and switch all off: an empty lead-acid battery \
             freezes, a full one does not."
                .to_string(),
        ),
        Some(false) => points.push(format!(
            "Before it stands for long switch all off, and leave some charge in it. In frost do not charge it: not below \
             {}.",
            chemistry.map_or_else(String::new, |c| c.limits.charge_min.to_string())
        )),
        None => {}
    }
    points.push("Once a year: every nut by its torque, every lug by eye, every label readable.".into());
    points
}

/// Sources first, then the batteries, so that no source is left on a loose cable.
fn isolating(job: &Job) -> Vec<String> {
    let plan = job.plan;
    // Each of these is a source of its own: what is forgotten keeps the cables live.
    let mut steps = vec!["Switch off the loads; take off rings and watch straps.".to_string()];
    if plan.inverter.rating > Watts::ZERO {
        steps.push("Switch off the inverter; its output is mains voltage.".into());
    }
    if plan.mains.current > Amps::ZERO {
        steps.push("Unplug the mains charger.".into());
    }
    if plan.solar.array > Watts::ZERO {
        steps.push("Cover or disconnect the solar array, then its controller.".into());
    }
    if job.design.charger.current.is_some() {
        steps.push("Stop the engine, and take the key out: the charger must be off.".into());
    }
    if tow(job) {
        steps.push("Pull the trailer's plug out of the tow vehicle: it feeds the trailer by itself.".into());
    }
    let left = live(job).map_or_else(String::new, |live| format!(" {}{}.", live[..1].to_uppercase(), &live[1..]));
    let switch = plan.main_switch.rating.map(|_| format!("Open the main switch at {}.{left}", plan.main_switch.at));
    steps.extend(switch);
    steps.push("Take the negative off the service battery, then off the starter battery.".into());
    steps.push("Measure that there is no voltage where you are going to work.".into());
    steps
}

/// The other way round: a controller finds its battery before its panels, and no load before both.
fn joining(job: &Job) -> Vec<String> {
    let plan = job.plan;
    let mut steps = vec!["Put the negative on the starter battery, then on the service battery.".to_string()];
    steps.extend(plan.main_switch.rating.map(|_| format!("Close the main switch at {}.", plan.main_switch.at)));
    if plan.solar.array > Watts::ZERO {
        steps.push("Join the controller to the battery first, then the panels to the controller.".into());
    }
    if tow(job) {
        steps.push("Put the trailer's plug in, the engine off.".into());
    }
    steps.push("Switch on the loads last.".into());
    steps
}

fn after_cut(job: &Job) -> Vec<String> {
    let cut_off = &job.design.cut_off;
    let mut steps = Vec::new();
    if cut_off.cut > Volts::ZERO {
        steps.push(format!(
            "It has opened because the battery fell to {}: {} of its charge is left to protect it.",
            cut_off.opens(),
            cut_off.reserve
        ));
    }
    steps.push("Switch off what you do not need. Do not bridge the cut-off.".into());
    steps.push(format!("Charge it: {}.", ways_to_charge(job)));
    if cut_off.reconnect > Volts::ZERO {
        steps.push(format!("It closes by itself at {}.", cut_off.closes()));
    }
    steps.extend(how_soon(job));
    steps
}

/// Only what the plan has: nobody should look for a plug that is not there.
fn ways_to_charge(job: &Job) -> String {
    let plan = job.plan;
    let ways: Vec<&str> = [
        (plan.charger.kind != ChargerKind::None && job.design.charger.current.is_some(), "drive"),
        (plan.mains.current > Amps::ZERO, "plug in the mains charger"),
        (plan.solar.array > Watts::ZERO, "let the sun do it"),
    ]
    .into_iter()
    .filter_map(|(there, way)| there.then_some(way))
    .collect();
    if ways.is_empty() {
        "with a charger made for this battery; none is planned on board".into()
    } else {
        ways.join(", or ")
    }
}

/// Half-charged lead-acid ages by sulphation long before it is empty, so days
/// come first there, and the day of harm is only the outer limit.
fn how_soon(job: &Job) -> Option<String> {
    let days = job.design.cut_off.days_to_harm.map(whole_days);
    let key = job.design.battery.bank.as_ref().map_or(&job.plan.service_battery.chemistry, |b| &b.chemistry);
    let lead_acid = job.catalogue.chemistry(key).is_some_and(|c| c.chemical == Chemical::LeadAcid);
    let drawn = "what stays connected goes on drawing";
    match (lead_acid, days) {
        (true, Some(days)) => Some(format!(
            "Charge it within days: left standing half empty a lead-acid battery ages. At the very outside within {days}: \
             {drawn}, and then harms it."
        )),
        (true, None) => Some("Charge it within days: left standing half empty a lead-acid battery ages.".into()),
        (false, Some(days)) => Some(format!("Charge it within {days}: {drawn}, and then harms it.")),
        (false, None) => None,
    }
}

/// A limit in whole days, rounded down: `30 days`, `1 day`, `less than a day`.
pub fn whole_days(days: Days) -> String {
    match days.get().floor() {
        d if d < 1.0 => "less than a day".into(),
        1.0 => "1 day".into(),
        d => format!("{} days", Figure::number(d)),
    }
}

/// `260 Ah`, or `200 Ah: 2 blocks of 100 Ah`.
pub fn capacity(bank: &Bank) -> String {
    if bank.blocks == 1 {
        bank.capacity.to_string()
    } else {
        format!("{}: {} blocks of {}", bank.capacity, bank.blocks, bank.block)
    }
}

fn battery(job: &Job) -> Vec<(&'static str, String)> {
    let mut facts = Vec::new();
    if let Some(bank) = &job.design.battery.bank {
        let name = job.catalogue.chemistry(&bank.chemistry).map_or(bank.chemistry.as_str(), |c| c.name.as_str());
        facts.push(("Chemistry", name.to_string()));
        facts.push(("Capacity", capacity(bank)));
        facts.push(("Mass", bank.mass.to_string()));
        if let Some(c) = job.catalogue.chemistry(&bank.chemistry) {
            facts.push(("Charge at", format!("{}, never above {}", job.design.charger.output, c.charge.max)));
            let (low, high) = (c.limits.charge_min, c.limits.charge_max);
            facts.push(("Charge between", format!("{low} and {high}")));
        }
    }
    facts.push((
        "Cut-off",
        format!("opens at {}, closes at {}", job.design.cut_off.opens(), job.design.cut_off.closes()),
    ));
    facts
}
