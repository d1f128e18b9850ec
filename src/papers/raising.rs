//! What holds the battery: how it gets into its place alone, and what must be far enough away from it.

use super::job::Job;
use crate::engine::simulate::hold_down::result::MountedDesign;
use crate::engine::{Raising, raising};
use crate::plan::{Choice, Mounted};
use crate::quantity::{Figure, Millimetres, Unit};

/// Steps of the job card, once the carrier is built.
pub fn steps(job: &Job) -> Vec<String> {
    let Some(r) = raising(job.design) else { return Vec::new() };
    let torque = job.design.carrier.as_ref().map_or(String::new(), |c| c.torque.torque.to_string());
    let order: Vec<String> = r.order.iter().map(|n| format!("S{n}")).collect();
    let mut all = vec![lifted(job, &r)];
    if r.under {
        all.push(under(job, &r));
    }
    all.extend(mounted(job));
    all.push(format!(
        "Tighten its studs corner to corner ({}), first by hand, then half, then {torque}; second nuts or new locking \
         nuts after that, and a line of paint over each nut. Again after the first 100 km, then every year (common \
         practice, no source).",
        order.join(", ")
    ));
    all
}

/// Thickness of the board on the jack's saddle.
const BOARD: Millimetres = Millimetres::new(18.0);

fn under(job: &Job, r: &Raising) -> String {
    let devices = match r.besides.get() > 0.0 {
        true => format!(" and {} of devices on it", r.besides),
        false => "; charger and cut-off are not on it".into(),
    };
    let ground = job.design.installation.beneath.ground;
    let top = ground.map(|g| g - BOARD).filter(|top| top.get() > 0.0);
    let saddle = top
        .map_or(format!("at the top the saddle is as far below the deck as {} and the board: ______", r.high), |top| {
            format!("at the top the saddle stands {top} above the ground")
        });
    format!(
        "Raise the hold-down alone: {} with steel and battery{devices}, the battery's middle {} above its underside{}. A jack \
         for more than that, a board of {BOARD} as large as the hold-down on it, the middle of the mass over its saddle; \
         {saddle}. Vehicle on stands on firm level ground, posts covered. Keep out from under it until a nut is on every \
         stud.",
        r.whole,
        r.middle,
        off(r)
    )
}

/// Charger and cut-off on the carrier, close beside it, or by a battery without one, each a step.
pub fn mounted(job: &Job) -> Vec<String> {
    let site = &job.design.installation;
    let step = |(given, out): (&Mounted, &MountedDesign)| {
        let (name, air) = (out.device.key(), out.air);
        let on = match (job.design.carrier.is_some(), out.on_hold_down) {
            (true, true) => "on the hold-down",
            (true, false) => "beside the hold-down",
            (false, _) => "by the battery",
        };
        let code = given.protection.map_or("IP code ______".into(), |c| c.stamped());
        let gap = given.gap.unwrap_or(site.catalogue.rules.mounted_gap.value);
        let gives = out.gives.map_or(String::new(), |a| format!(": {a}"));
        format!(
            "Mount the {name} {on}: {code}, terminals downward, behind a guard against spray from the wheels; {gap} from \
             the battery, free air above and below, since it gives off {} and in the hottest air there, {air}, gives {} of \
             its rating{gives}. {} {} bolts with locking nuts and large washers, each pulled with up to {} when its {} are \
             thrown; its sheet says how tight.",
            out.heat, out.share, out.bolts, out.bolt, out.pull, out.mass
        )
    };
    site.mounted.iter().zip(&job.design.mounted).map(step).collect()
}

fn lifted(job: &Job, r: &Raising) -> String {
    let index = Figure::new(r.index, Unit::Times);
    let two = r.piece <= job.design.installation.catalogue.rules.lift_two.value;
    let hands = match (r.index > 1.0, two) {
        (false, _) => "one person can",
        (true, true) => "two people",
        (true, false) => "a hoist or a lifting table, never hands",
    };
    let begun = match (r.under, r.blocks > 1) {
        (true, false) => "Lift the battery into the hold-down on the ground",
        (true, true) => "Lift the battery into the hold-down on the ground, block by block",
        (false, false) => "Lift the battery in",
        (false, true) => "Lift the battery in, block by block",
    };
    format!(
        "{begun}: {} at once; from floor to hip one pair of hands should lift {} of that size at most (NIOSH \
         lifting equation; ISO 11228-1 asks 25 kg at most, from memory), so it is {index} of that: {hands}. Posts \
         covered, by its handles.",
        r.piece, r.by_hand
    )
}

fn off(r: &Raising) -> String {
    match (r.off.0.get(), r.off.1.get()) {
        (0.0, 0.0) => String::new(),
        _ => format!(", {} ahead of the hold-down's middle and {} to its right", r.off.0, r.off.1),
    }
}

/// What is measured where it hangs or stands, before a hole is drilled.
pub fn place(job: &Job) -> Vec<String> {
    let Some(r) = raising(job.design) else { return Vec::new() };
    let height = job.design.carrier.as_ref().and_then(|c| c.shape.as_ref()).map(|s| s.outside_height);
    let height = height.map_or(String::new(), |h| format!(" It takes {h} of height."));
    let mut all = Vec::new();
    let site = &job.design.installation;
    let (rules, beneath) = (&job.design.installation.catalogue.rules, &job.design.installation.beneath);
    let told = |length: Option<Millimetres>| length.map_or("______".into(), |l| l.to_string());
    if r.under {
        all.extend([
            format!(
                "ground: at full load with the springs on their stops it stays {} above the ground and higher than axle \
                 or sump, and above the line from the rear tyre's foot to the rear edge of the vehicle.{height} Measured \
                 at full load: {}; spring travel: {}; behind the rear tyre's foot: {}; departure angle to keep: {}",
                rules.ground_at_stops.value,
                told(beneath.ground),
                told(beneath.travel),
                told(beneath.behind),
                beneath.departure.map_or("______".into(), |angle| angle.to_string())
            ),
            format!(
                "exhaust {} away with a plate between, or {}: {}; shaft and springs {} at full bump and lock: {}; tyre \
                 the same: {}; brake and fuel lines the same, and never behind it where nobody sees them: {}",
                rules.exhaust_shielded.value,
                rules.exhaust_bare.value,
                told(beneath.exhaust),
                rules.moving_near.value,
                told(beneath.shaft),
                told(beneath.tyre),
                told(beneath.lines)
            ),
            "a guard of sheet against stones in front, a hole of 10 mm at each low corner as drain: ______".into(),
        ]);
        if site.mounted.is_empty() {
            all.push(
                "charger or cut-off beside it: enter them as [[mounted]], or hang them inside; their own air and heat by \
                 their sheets, and no spray from the wheels: ______"
                    .into(),
            );
        }
    } else {
        all.push(format!(
            "under the floor: tank, lines, wiring and beams where the studs come through.{height} Seen: ______"
        ));
    }
    all.extend([
        "ribs or a hollow floor: a spacer around each stud, half a millimetre shorter than the floor is deep: ______"
            .into(),
        "steel on aluminium, studs too: paint both, a sheet of plastic between, zinc-plated studs in plastic sleeves and \
         washers, sealant in each hole: ______"
            .into(),
    ]);
    all
}
