//! Which cautions stand on the papers, and for which plan?
//!
//! Only those that matter for what is planned, so that they are read.

use super::job::Job;
use crate::catalogue::Chemical;
use crate::plan::{ReturnPath, point};
use crate::quantity::{Amps, Watts};

/// Before any work.
pub const ISOLATE: &str = "Before any work take off the negative of both batteries, and switch off solar, mains and \
    inverter: each of them is a source of its own. Take off rings and watch straps.";

/// All cautions of a plan, in the order of the work.
pub fn cautions(job: &Job) -> Vec<String> {
    let mut all = vec![ISOLATE.to_string()];
    let mut add = |text: &str| all.push(text.to_string());
    add("Check your local code and your insurer's terms; have licensed work done by licensed people. Mains voltage, \
         also behind an inverter, kills.");
    add("Put a fuse at each end of a cable that has a source, within the distance given, before the cable is \
         connected. A cable between two batteries has two.");
    if lead_acid(job) {
        add("A lead-acid battery gives off hydrogen while charging: vent it to the outside, keep sparks and \
             switches away, and never charge one that is frozen. Its acid burns; wear goggles.");
        let opening = job.design.battery.vent_opening;
        if opening.get() > 0.0 {
            add(&format!(
                "Where it stands in a box or a cabin, lead an opening of {opening} low down and one as large high up to \
                 the outside (IEC 62485-2, by analogy), and nothing that sparks into the box."
            ));
        }
    }
    if lithium(job) {
        add("Never charge a lithium battery below its lowest charging temperature: it is damaged without a sign. \
             Charger, solar and mains charger must each stop by themselves in the cold.");
        add("A lithium battery can feed thousands of amperes into a fault and its own protection may fail shut: \
             only fuses of the breaking capacity given will do.");
    }
    add(
        "Crimp with the tool made for the lug, pull each crimp by hand, put sleeve over it, and hold the cable within \
         a hand's width of each end so that no terminal carries its weight.",
    );
    add("Where cable passes metal put a grommet, where it lies on an edge put conduit; clip it at least every \
         0.3 m (common practice, no source), away from moving parts, exhaust and fuel lines.");
    add("Under the vehicle and in the engine bay use sealed splices and sealed fuse holders, let cable rise to each \
         terminal so that water runs away from it, and keep it out of spray and off the exhaust.");
    add("Heat: after an hour at full load feel each lug, fuse and switch. What is too hot to hold has a bad joint: \
         switch off and mend it.");
    if heavy(job) {
        add("The battery is heavy: lift with two people or a hoist, and never work under it while it hangs.");
    }
    if job.design.installation.runs.iter().any(|r| r.return_path == ReturnPath::Chassis) {
        add(
            "Where the body is the way back, bare the metal at the earth point, and seal it after bolting; on vehicles \
             with a battery monitor connect to the body, not to the starter battery's post.",
        );
    }
    if tow(job) {
        add("From a tow vehicle: the socket's pins and the vehicle's own cable limit the current; disconnect before \
             uncoupling, and see that the trailer cannot feed back into an unhitched plug.");
    }
    if job.plan.inverter.rating > Watts::ZERO {
        add("The inverter's output is mains voltage: it needs its own residual-current protection and earthing as \
             your code asks; do not connect it to sockets that the shore supply also feeds.");
    }
    if job.plan.vehicle.alternator_rating > Amps::ZERO && feed(job) {
        add("Disconnect chargers before welding on the vehicle, and never take a battery off while the engine runs.");
    }
    all
}

fn chemical(job: &Job, key: &str) -> Option<Chemical> {
    job.catalogue.chemistry(key).map(|c| c.chemical)
}

fn lead_acid(job: &Job) -> bool {
    let keys = [&job.plan.service_battery.chemistry, &job.plan.starter_battery.chemistry];
    keys.into_iter().any(|k| chemical(job, k) == Some(Chemical::LeadAcid))
}

fn lithium(job: &Job) -> bool {
    matches!(chemical(job, &job.plan.service_battery.chemistry), Some(Chemical::Lithium | Chemical::SodiumIon))
}

fn heavy(job: &Job) -> bool {
    let lifts = job.design.carrier.as_ref().and_then(|c| c.lifting.as_ref());
    let most = job.catalogue.rules.lift_one.value.get();
    lifts.map_or_else(|| job.design.battery.bank.as_ref().is_some_and(|b| b.mass.get() > most), |l| l.mass.get() > most)
}

fn feed(job: &Job) -> bool {
    job.design.installation.runs.iter().any(|r| r.from == point::STARTER_BATTERY || r.to == point::STARTER_BATTERY)
}

/// A trailer is told from its words: nothing else in a plan says so.
pub(super) fn tow(job: &Job) -> bool {
    let plan = job.plan;
    let words = [&plan.job.title, &plan.job.notes];
    let runs = plan.runs.iter().flat_map(|r| [&r.name, &r.from, &r.to, &r.note]);
    words
        .into_iter()
        .chain(runs)
        .map(|w| w.to_lowercase())
        .any(|w| w.contains("tow") && !w.contains("town") || w.contains("trailer"))
}
