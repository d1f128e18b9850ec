//! What may mending change? Parts and how they are set and wired; never what is kept, nor what the plan is for.

use crate::plan::{Place, Plan, Section};

/// Whether the user wants this left as it is (`keep = true`).
pub fn is_kept(plan: &Plan, place: Place) -> bool {
    let n = place.index;
    match place.section {
        Section::Run => plan.runs.get(n).is_some_and(|r| r.keep),
        Section::Load => plan.loads.get(n).is_some_and(|l| l.keep),
        Section::Board => plan.boards.get(n).is_some_and(|b| b.keep),
        Section::ServiceBattery => plan.service_battery.keep,
        Section::Charger => plan.charger.keep,
        _ => false,
    }
}

/// Whether a field says which part is fitted, how it is set or how it is wired. All others say what the plan is for
/// and where: how much is used, how long the way is, how cold it is, how many days must be lasted.
pub fn is_part(place: Place) -> bool {
    match place.section {
        Section::Run => {
            !matches!(place.key, "name" | "length_m" | "surroundings" | "air_c" | "keep" | "note" | "number")
        }
        Section::Load => {
            matches!(place.key, "at" | "way" | "tail_fuse_a" | "before_cut_off")
                || place.key.starts_with("lead_") && place.key != "lead_surroundings"
        }
        Section::Board => matches!(place.key, "kind" | "ways" | "style" | "rating_a"),
        Section::ServiceBattery => {
            matches!(place.key, "chemistry" | "capacity_ah" | "in_parallel" | "block_fuse_a" | "heated" | "guards")
        }
        Section::CutOff => place.key != "reserve",
        Section::Charger | Section::Bond | Section::MainSwitch | Section::HoldDown | Section::Stud | Section::Plug => {
            true
        }
        Section::Standing => place.key == "disconnected",
        Section::Beneath => matches!(place.key, "shield" | "apart"),
        Section::Mounted => matches!(place.key, "protection" | "full_to_c" | "hottest_c" | "gap_mm" | "bolts" | "bolt"),
        Section::Solar | Section::Mains | Section::Inverter => matches!(place.key, "at" | "tail_fuse_a"),
        _ => false,
    }
}
