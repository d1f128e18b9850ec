//! What is looked at once a year, and what the battery still holds.

use super::document::Document;
use super::facts::Columns;
use super::job::Job;
use crate::catalogue::Chemical;
use crate::engine::ask::ageing::Found;
use crate::engine::{Ageing, ageing};
use crate::quantity::Volts;

/// The yearly inspection of a plan.
pub fn inspection(job: &Job) -> Document {
    inspection_with(job, &ageing(job.design))
}

/// The same with what was worked out already.
pub fn inspection_with(job: &Job, ageing: &Ageing) -> Document {
    let mut paper = Document::new(format!("Yearly inspection – {}", job.title()));
    paper.caution("Isolate first: loads off, chargers off, the negative lead off. Take off rings.");
    looks(job, &mut paper);
    years(job, ageing, &mut paper);
    test(ageing, &mut paper);
    paper
}

/// What to look at, each with a place to say what was found.
fn looks(job: &Job, paper: &mut Document) {
    paper.heading(1, "Look at");
    let mut all: Vec<(&str, String)> = vec![
        ("Terminals", "every nut by its torque (job card); no lug turns by hand".into()),
        ("Corrosion", "no white or green bloom on posts, lugs and earth points; bright metal under grease".into()),
    ];
    let carrier = job.design.carrier.as_ref();
    let torque = carrier.map_or_else(String::new, |c| format!(", {} on its studs", c.torque.torque));
    all.push(("Hold-down", format!("the battery does not move when it is pulled by hand{torque}; no crack, no rust")));
    let chemistry = job.design.installation.chemistry();
    if chemistry.is_some_and(|c| c.chemical == Chemical::LeadAcid) {
        all.push((
            "Vent",
            "its way to the outside is open from end to end; fluid above the plates where it has caps".into(),
        ));
    }
    all.push(("Fuses", "each is of the rating on its label; none is brown, loose or warm after an hour of use".into()));
    all.push(("Cables", "no edge, hinge or hot part touches; clips hold; labels can be read".into()));
    if job.design.cut_off.cut > Volts::ZERO {
        let (cut, again) = (job.design.cut_off.opens(), job.design.cut_off.closes());
        all.push((
            "Cut-off",
            format!(
                "tried: it opens at {cut} and closes at {again}, by a bench supply on its sense wire or a discharge"
            ),
        ));
    }
    all.push(("Capacity", "tested as below, or told by a log".into()));
    let table = Columns::new()
        .words("what", "What", |row: &&(&str, String)| row.0.to_string())
        .words("sound", "Sound when", |row| row.1.clone())
        .blank("found", "Found")
        .list("inspection", "", &all.iter().collect::<Vec<_>>());
    paper.table(table);
}

fn years(job: &Job, ageing: &Ageing, paper: &mut Document) {
    paper.heading(1, "The battery over the years");
    let mut facts = vec![("Planned loss", format!("{} of its capacity a year", ageing.planned))];
    if let Some(needs) = ageing.needs {
        facts.push(("Promise holds", format!("down to {needs} of its capacity")));
    }
    if let Some(loses) = &ageing.loses {
        let bound = |b: Option<crate::quantity::Share>| b.map_or("–".to_string(), |b| b.to_string());
        facts.push(("Loss found", format!("{} a year ({} to {})", loses.value, bound(loses.least), bound(loses.most))));
    }
    let until = ageing.until.map(|m| m.map(|m| m.to_string()));
    if let [Some(month), earliest, latest] = &until {
        let bound = |b: &Option<String>| b.clone().unwrap_or_else(|| "not known".into());
        facts.push(("Holds until", format!("{month} ({} to {})", bound(earliest), bound(latest))));
    }
    facts.push(("Note", ageing.note.clone()));
    paper.facts(facts);
    let table = Columns::new()
        .fact(Found::AT)
        .fact(Found::SHARE)
        .fact(Found::LEAST)
        .fact(Found::MOST)
        .fact(Found::EXPECTED)
        .fact_or(Found::RESISTANCE, "")
        .fact(Found::EXPECTED_RESISTANCE)
        .table("ageing", "What it held, of what is rated", &ageing.found, job.at());
    paper.table(table);
}

fn test(ageing: &Ageing, paper: &mut Document) {
    let Some(test) = &ageing.test else { return };
    let on = match &test.loads[..] {
        [] => format!("something steady that takes about {}, several loads together if need be", test.current),
        loads => format!("{}: {} together", loads.join(", "), test.current),
    };
    paper.heading(1, "Capacity test");
    paper.steps(vec![
        "Charge the battery full; switch the charger off.".into(),
        format!("Switch on {on}. Note the clock and, each hour, volts and amperes."),
        format!(
            "Stop after {}, when the cut-off opens, or when the posts fall below {}: whichever is first. Charge drawn = amperes x hours.",
            test.hours, test.stop_at
        ),
        format!("Everything off for {}; then read the voltage at the posts, to the hundredth.", test.rest),
        "Work it out: loomwright ageing PLAN --drawn AH --hours H --rested V".into(),
    ]);
    let bounds = match (test.least, test.most) {
        (Some(least), Some(most)) => {
            format!("the capacity is then known from {least} to {most} of what is told, in 95 of 100 tests")
        }
        (Some(least), None) => format!("that evening tells only that it holds at least {least} of what is told"),
        _ => "that evening is too short to tell the capacity: take a larger load".into(),
    };
    paper.paragraph(format!("A battery that holds what is rated rests at about {}; {bounds}.", test.rested));
}
