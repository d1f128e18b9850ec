//! What somebody must know who comes to a crash or a fire.

use crate::catalogue::Chemical;
use crate::papers::cautions::tow;
use crate::papers::document::Document;
use crate::papers::job::{Job, live};
use crate::plan::Choice;
use crate::quantity::{Amps, Watts};

/// The section.
pub fn section(job: &Job, paper: &mut Document) {
    let plan = job.plan;
    let mut points = vec![
        "Two batteries at 12 V. Part both: the negative of the starter battery, and the negative of the service \
         battery."
            .to_string(),
    ];
    if tow(job) {
        points.push("Pull the trailer's plug: the tow vehicle's battery feeds it.".into());
    }
    if plan.main_switch.rating.is_some() {
        let still = live(job).map_or_else(String::new, |live| format!("; {live}"));
        points.push(format!("Main switch at {}{still}.", plan.main_switch.at));
    }
    if plan.solar.array > Watts::ZERO {
        points.push("Solar panels: live while there is light; cover them.".into());
    }
    if plan.inverter.rating > Watts::ZERO {
        points.push("An inverter makes mains voltage while the vehicle is unplugged.".into());
    }
    if plan.mains.current > Amps::ZERO {
        points.push("A mains inlet: pull the plug first.".into());
    }
    if let Some(bank) = &job.design.battery.bank {
        let chemistry = job.catalogue.chemistry(&bank.chemistry);
        let name = chemistry.map_or(bank.chemistry.as_str(), |c| c.name.as_str());
        points.push(format!("Service battery: {name}, {}, {}.", bank.capacity, bank.mass));
        points.extend(chemistry.map(|c| burning(c.chemical).to_string()));
    }
    paper.list(points);
    let place = plan.service_battery.place.map(|place| format!("{}; ", place.key().replace('-', " ")));
    let blank = "______________________";
    paper.facts(vec![("Service battery stands", format!("{}{blank}", place.unwrap_or_default()))]);
}

/// What such a battery does in a fire (common practice, no source).
fn burning(chemical: Chemical) -> &'static str {
    match chemical {
        Chemical::LeadAcid => {
            "It holds acid, and hydrogen may stand above it: no sparks near it (common practice, no source)."
        }
        Chemical::Lithium | Chemical::SodiumIon => {
            "Burning it gives off poisonous gas: stay upwind, cool it with much water, and watch it for a day, since it \
             may light again (common practice, no source)."
        }
    }
}
