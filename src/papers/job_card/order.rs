//! Which tools, and one step after the other.

use crate::engine::physics::conductor::cable::Cable;
use crate::engine::{Lug, cut_list};
use crate::papers::job::{Job, sensor};
use crate::papers::raising;
use crate::quantity::{Amps, Watts};
use itertools::Itertools;

/// What must lie ready.
pub fn tools(job: &Job) -> Vec<String> {
    let cuts = cut_list(job.design).cuts;
    let area = |size: &&str| Cable::labelled(job.catalogue, size).map_or(0.0, |c| c.conductor.area.get());
    let sizes = cuts.iter().map(|c| c.size.as_str()).unique();
    let sizes = sizes.sorted_by(|a, b| area(a).total_cmp(&area(b))).join(", ");
    let rings = cuts.iter().flat_map(|c| [&c.lug_from, &c.lug_to]);
    let rings = rings.filter_map(|lug| if let Lug::Ring(stud) = lug { Some(stud.as_str()) } else { None });
    let carrier = job.design.carrier.iter().map(|c| c.sizes.stud.as_str());
    // By their number: M5 before M10.
    let threads: Vec<&str> = rings.chain(carrier).unique().sorted_by_key(|stud| (stud.len(), *stud)).collect();
    let mut all = vec![
        "Voltmeter that shows hundredths, ohmmeter, and a clamp meter for direct current.".to_string(),
        format!(
            "Crimping tool with the die that the lugs' maker names, for {sizes}; a cutter that leaves a round end."
        ),
        format!("Torque wrench from 2 Nm up, insulated, with sockets for {}.", threads.join(", ")),
        "A scale or weights for the trial crimps, a cord to measure the way, a hot-air gun, goggles and gloves.".into(),
    ];
    if job.design.carrier.is_some() {
        all.push("What steel is cut, drilled, bent and welded with; primer for every cut edge.".into());
    }
    all
}

/// The steps, numbered.
pub fn steps(job: &Job) -> Vec<(usize, String)> {
    let plan = job.plan;
    let (sun, mains) = (plan.solar.array > Watts::ZERO, plan.mains.current > Amps::ZERO);
    let inverter = plan.inverter.rating > Watts::ZERO;
    let mut all = vec![
        "Read the vehicle maker's guide for bodies and fittings: where holes may be drilled, where airbags and fuel \
         lines run. Photograph what is there."
            .to_string(),
        format!(
            "Isolate: loads off, key out{}{}; starter battery's negative off, and held away from its post.",
            if sun { ", panels covered" } else { "" },
            if mains { ", inlet unplugged" } else { "" },
        ),
        "Measure each way with a cord. Where it is longer than the cut list says, change the plan and write the papers \
         anew before anything is cut: a longer cable may need another size."
            .into(),
    ];
    all.extend(sensor(job).map(str::to_string));
    if job.design.carrier.is_some() {
        all.push(
            "Build the hold-down by the sheet Marking out and the report's Hold-down: a sizing aid and no approval."
                .into(),
        );
        all.extend(raising::steps(job));
    } else {
        all.extend(raising::mounted(job));
    }
    if job.design.battery.bank.as_ref().is_some_and(|bank| bank.blocks > 1) {
        all.push(
            "Charge each block full by itself, let all rest for some hours, and link them only when their voltages agree \
             within 0.05 V (common practice, no source): what is fuller pushes hundreds of amperes into the others. All \
             blocks are of one kind, size and age."
                .into(),
        );
    }
    all.extend([
        "Mount the devices of the connection table, each by its sheet: air around what gets warm, terminals downward \
         where water could come."
            .to_string(),
        "Drill, deburr, prime; put in the grommets.".into(),
        "Make one trial crimp of each size and pull it (cut list).".into(),
        "Cut and crimp each piece by the cut list; sleeve; a label on both ends.".into(),
        "Lay and clip each piece; conduit and sleeve where the parts list has them. Both conductors of a run lie side \
         by side."
            .into(),
        "Join by the connection table, minus first, the batteries last and not yet. The largest lug lies at the bottom \
         of a stud; washers above all lugs, never between them. All fuses stay out."
            .into(),
        "Tighten each terminal by its part's sheet and mark it (Torques, below).".into(),
        "Test sheet, section 1: no path where there should be none, polarity.".into(),
        "Section 2: settings of every device.".into(),
        "Section 3: first power, and the way of charging.".into(),
        "Section 4: each load, and the drop of each run.".into(),
        "Section 5: it charges, it stops with the engine, the cut-off acts.".into(),
    ]);
    if inverter || mains {
        all.push(
            "The electrician's part: hand-over sheet. Until it is signed nothing at mains voltage is used.".into(),
        );
    }
    all.push(
        "Fill in As built; the owner's card into the vehicle; the set and the spare fuses to the owner. Weigh the \
         vehicle."
            .into(),
    );
    all.into_iter().enumerate().map(|(n, step)| (n + 1, step)).collect()
}
