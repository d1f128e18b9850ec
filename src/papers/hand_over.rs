//! What does a licensed electrician take over, where there is mains voltage in the plan?
//!
//! Nothing of it is designed here: the sheet says what is there on the 12 V side, what is
//! to be designed, and has room for what was measured.

use super::document::{Document, Table};
use super::facts::Columns;
use super::job::Job;
use crate::quantity::{Amps, Watts};

/// The sheet; `None` for a plan without mains voltage.
pub fn hand_over(job: &Job) -> Option<Document> {
    let (inverter, mains) = (job.plan.inverter.rating > Watts::ZERO, job.plan.mains.current > Amps::ZERO);
    if !inverter && !mains {
        return None;
    }
    let mut paper = Document::new(format!("Hand-over to the electrician – {}", job.title()));
    paper.caution(
        "Nothing at mains voltage is designed here: no cable, no device, no earth. All of it is for a licensed \
         electrician to design, fit, test and sign.",
    );
    paper.heading(1, "What is there");
    paper.facts(there(job, inverter, mains));
    paper.heading(1, "What is to be designed");
    paper.list(to_design(inverter, mains));
    paper.paragraph(
        "These points are common practice, no source. HD 60364-7-721 is the usual standard for caravans and motor caravans (its scope from memory); the one in \
         force where the vehicle is registered counts. The test sheet has the list to look up.",
    );
    paper.heading(1, "Tests");
    paper.table(tests(inverter, mains));
    paper.heading(1, "Taken over");
    let blank = |label| (label, "______________________".to_string());
    paper.facts(
        ["Electrician", "Licence", "Instrument, checked until", "Next inspection", "Signed"].map(blank).to_vec(),
    );
    Some(paper)
}

fn there(job: &Job, inverter: bool, mains: bool) -> Vec<(&'static str, String)> {
    let plan = job.plan;
    let mut facts = Vec::new();
    if inverter {
        facts.push(("Inverter", format!("{}, from 12 V at {}", plan.inverter.rating, plan.inverter.at)));
        let behind: Vec<&str> = plan.loads.iter().filter(|l| l.inverter).map(|l| l.name.as_str()).collect();
        facts.push(("Plugged into it", if behind.is_empty() { "nothing planned".into() } else { behind.join(", ") }));
    }
    if mains {
        facts.push(("Mains charger", format!("{} into 12 V at {}", plan.mains.current, plan.mains.at)));
    }
    let bond = match &job.design.bond.size {
        Some(size) => format!("{size}, from the service battery's minus to the body"),
        None => "none planned from the service battery's minus to the body".into(),
    };
    facts.push(("Bond of the 12 V side", bond));
    facts
}

fn to_design(inverter: bool, mains: bool) -> Vec<String> {
    let mut points = Vec::new();
    let mut add = |there: bool, text: &str| {
        if there {
            points.push(text.to_string());
        }
    };
    add(mains, "The inlet: a plug that cannot be touched while live, its cable, and a device at once behind it.");
    add(
        inverter,
        "The inverter's output: whether its neutral is bonded to earth within it, floats, or is bonded outside; its \
         sheet says which. A residual-current device behind a floating output does not act at the first fault.",
    );
    add(true, "A residual-current device of 30 mA that parts both poles, before every socket, whatever feeds it.");
    add(
        inverter && mains,
        "A change-over between inlet and inverter that can never join both, and that moves the neutral's bond with it.",
    );
    add(true, "A bond from the earth of the mains side to the vehicle's body, sized for the fault and marked.");
    add(true, "Over-current protection for each circuit by its cable and by what the source can feed into a fault.");
    add(true, "Cables of fine strands held against shaking, apart from the 12 V side, in their own ducts.");
    add(inverter, "A notice at the battery: mains voltage from the inverter while the inlet is unplugged.");
    points
}

/// A test, with room for both sources.
fn tests(inverter: bool, mains: bool) -> Table {
    let rows = [
        "earth continuous from each socket to the body",
        "insulation, line and neutral to earth, electronics unplugged",
        "polarity at each socket",
        "residual-current device: trips, and in which time",
        "no voltage at the inlet's pins while the inverter runs",
        "loop or fault current at the farthest socket",
    ];
    let mut columns = Columns::new().text("test", "Measured", |row: &&str| row);
    if mains {
        columns = columns.blank("on_mains", "From the inlet");
    }
    if inverter {
        columns = columns.blank("on_inverter", "From the inverter");
    }
    let rows: Vec<&str> = rows.into_iter().filter(|r| inverter && mains || !r.contains("inlet's pins")).collect();
    columns.list("mains-tests", "", &rows)
}
