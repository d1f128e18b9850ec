//! What holds the battery: how it gets into its place alone, and what must be far enough away from it.

use super::job::Job;
use crate::engine::{Raising, raising};
use crate::quantity::{Figure, Millimetres, Unit};

/// Steps of the job card, once the carrier is built.
pub fn steps(job: &Job) -> Vec<String> {
    let Some(r) = raising(job.design) else { return Vec::new() };
    let torque = job.design.carrier.as_ref().map_or(String::new(), |c| c.torque.torque.to_string());
    let order: Vec<String> = r.order.iter().map(|n| format!("S{n}")).collect();
    let mut all = vec![if r.under { under(&r) } else { lifted(&r) }];
    all.push(format!(
        "Tighten its studs corner to corner ({}), first by hand, then half, then {torque}; second nuts or new locking \
         nuts after that, and a line of paint over each nut. Again after the first 100 km, then every year (common \
         practice, no source).",
        order.join(", ")
    ));
    all
}

fn under(r: &Raising) -> String {
    format!(
        "Raise the carrier alone: {} with its battery, and the electrics beside, its middle {} above its underside{}. \
         Jack with a board as large as the carrier and the middle of the mass over the saddle; vehicle on stands on firm \
         level ground, posts covered. Keep out from under it until a nut is on every stud.",
        r.whole,
        r.middle,
        off(r)
    )
}

fn lifted(r: &Raising) -> String {
    let index = Figure::new(r.index, Unit::Times);
    let hands = match r.index > 1.0 {
        true => "two people, a hoist or a lifting table",
        false => "one person can",
    };
    format!(
        "Lift the battery in: {} at once; from floor to hip one pair of hands should lift {} of that size at most (NIOSH \
         lifting equation; ISO 11228-1 asks 25 kg at most, from memory), so it is {index} of that: {hands}. Posts \
         covered, by its handles.",
        r.piece, r.by_hand
    )
}

fn off(r: &Raising) -> String {
    match (r.off.0.get(), r.off.1.get()) {
        (0.0, 0.0) => String::new(),
        _ => format!(", {} ahead of the carrier's middle and {} to its right", r.off.0, r.off.1),
    }
}

/// What is measured where it hangs or stands, before a hole is drilled.
pub fn place(job: &Job) -> Vec<String> {
    let Some(r) = raising(job.design) else { return Vec::new() };
    let height = job.design.carrier.as_ref().and_then(|c| c.shape.as_ref()).map(|s| s.outside_height);
    let height = height.map_or(String::new(), |h| format!(" It takes {h} of height."));
    let mut all = Vec::new();
    let (rules, beneath) = (&job.design.installation.catalogue.rules, &job.design.installation.beneath);
    let told = |length: Option<Millimetres>| length.map_or("______".into(), |l| l.to_string());
    if r.under {
        all.extend([
            format!(
                "ground: at full load with the springs on their stops it stays {} above the ground and higher than axle \
                 or sump, and above the line from the rear tyre's foot to the rear edge of the vehicle.{height} Measured \
                 at full load: {}; spring travel: {}",
                rules.ground_at_stops.value,
                told(beneath.ground),
                told(beneath.travel)
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
            "charger or cut-off beside it: their own air and heat by their sheets, and no spray from the wheels: ______"
                .into(),
        ]);
    } else {
        all.push(format!(
            "under the floor: tank, lines, wiring and beams where the studs come through.{height} Seen: ______"
        ));
    }
    all.extend([
        "ribs or a hollow floor: a spacer around each stud, half a millimetre shorter than the floor is deep: ______"
            .into(),
        "steel on aluminium: paint both, a sheet of plastic between, sealant around each hole: ______".into(),
    ]);
    all
}
