//! Has a kind of finding a limit of the catalogue, and is each kind raised somewhere when sources are walked?

use crate::case::{plan_of, text_with};
use crate::sources::{CATALOGUE, LIMITS, TRAY, walk};
use loomwright::engine::{FindingKind as Kind, design};

/// Kinds that never stop a plan and have a limit of the catalogue.
const ADVICE: &[Kind] = &[
    Kind::InverterSurge,
    Kind::DepthDeep,
    Kind::ParallelMany,
    Kind::HeaterDraw,
    Kind::Freezing,
    Kind::SurgeDeep,
    Kind::LabelTrap,
    Kind::SizeThin,
    Kind::FuseSurge,
    Kind::FuseSelective,
    Kind::LeadsUnplanned,
    Kind::StandingDraw,
    Kind::PlaceCaution,
    Kind::CarrierSlips,
    Kind::Lifting,
    Kind::CarrierLoose,
    Kind::BendTight,
    Kind::TorqueHigh,
];

/// Kinds that have no limit of the catalogue: they hold a plan against itself, against what it gives, against a law of
/// physics, or say a rule without a number.
pub const UNNUMBERED: &[Kind] = &[
    Kind::RunNowhere,
    Kind::RunLoose,
    Kind::RunLoop,
    Kind::LoadLoose,
    Kind::LoadEmpty,
    Kind::LoadContradicts,
    Kind::NoLoads,
    Kind::ChargerLoose,
    Kind::SensingLoose,
    Kind::RunIdle,
    Kind::CutOffLoose,
    Kind::AirContradicts,
    Kind::DutyTooLong,
    Kind::DutyNever,
    Kind::InverterMissing,
    Kind::InverterSmall,
    Kind::HotDays,
    Kind::ParallelAlike,
    Kind::NoCharge,
    Kind::ChargerSlow,
    Kind::ChargeShort,
    Kind::AlternatorShort,
    Kind::ChargerNone,
    Kind::ChargerBehindCutOff,
    Kind::SourceLoose,
    Kind::SourceBehindCutOff,
    Kind::VoltageLow,
    Kind::VoltageHigh,
    Kind::Collapse,
    Kind::RunCurrentLow,
    Kind::SizesMany,
    Kind::RunPasses,
    Kind::PlugLoose,
    Kind::PlugLive,
    Kind::MinusSensor,
    Kind::MainSwitchSmall,
    Kind::MainSwitchParts,
    Kind::PanelFuses,
    Kind::BoardWays,
    Kind::BoardRating,
    Kind::BoardLoose,
    Kind::GateMemory,
    Kind::CutOffMissing,
    Kind::StaysOnBehind,
    Kind::CutOffRange,
    Kind::CutOffEarly,
    Kind::CutOffSurge,
    Kind::CutOffOrder,
    Kind::CutOffFlat,
    Kind::EnduranceCut,
    Kind::EnduranceDrift,
    Kind::ChassisReturn,
    Kind::CarrierNoMass,
    Kind::CarrierNoSize,
    Kind::CarrierTight,
    Kind::HeightShort,
    Kind::BendShort,
    Kind::StudPattern,
    Kind::TorqueLow,
    Kind::NutUnlocked,
    Kind::ReadingLoose,
    Kind::ReadingUnbuilt,
    Kind::ReadingIncomplete,
    Kind::ReadingOutside,
    Kind::JointUnclear,
    Kind::ReadingsContradict,
];

/// Kinds that no other test of this folder raises, with changes of the sound plan that do.
const MORE: &[(Kind, &str)] = &[
    (Kind::RunNowhere, r#"run = [{ from = "service battery", to = "service battery", length_m = 1 }]"#),
    (Kind::RunLoose, r#"run = [{ from = "attic", to = "cellar", length_m = 1 }]"#),
    (Kind::LoadLoose, r#"load = [{ name = "lamp", at = "attic", power_w = 10 }]"#),
    (Kind::CarrierLoose, "hold_down.width_mm = 192"),
    (Kind::CarrierTight, "hold_down.length_mm = 325"),
    (Kind::CarrierNoSize, "hold_down.battery_height_mm = \"left out\""),
    (Kind::HeightShort, "hold_down.free_height_mm = 200"),
    (Kind::BendShort, "hold_down.rim_mm = 5"),
    (Kind::BendTight, "hold_down.bend_radius_mm = 2"),
    (Kind::StudPattern, "hold_down.studs_along = 1"),
    (Kind::TorqueHigh, "hold_down.torque_nm = 60"),
    (Kind::ReadingLoose, r#"reading = [{ at = "attic", with = "fridge", voltage_v = 12.6 }]"#),
    (Kind::ReadingIncomplete, r#"reading = [{ at = "panel", with = "fridge" }]"#),
];

/// Each kind stands in one of the lists, and in one only.
#[test]
fn every_kind_says_whether_it_has_a_limit() {
    for kind in Kind::ALL {
        let lists = [LIMITS.iter().any(|(k, ..)| k == kind), ADVICE.contains(kind), UNNUMBERED.contains(kind)];
        assert_eq!(
            lists.iter().filter(|within| **within).count(),
            1,
            "{kind:?}: limits, advice, unnumbered: {lists:?}"
        );
    }
}

#[test]
fn kinds_that_nothing_else_raises_cite_what_counts() {
    for (kind, raises) in MORE {
        let plan = text_with(&with_tray(raises));
        walk(&plan);
        let found = design(&plan_of(&plan, &CATALOGUE), &CATALOGUE).findings;
        assert!(found.iter().any(|f| f.kind == *kind), "{kind:?} is not raised by {raises}");
    }
}

/// The tray, and changes that may be of the tray itself.
fn with_tray(changes: &str) -> String {
    let tray = TRAY.trim().trim_start_matches("hold_down = {").trim_end_matches('}').replace(", ", "\nhold_down.");
    let inside: Vec<_> = tray.lines().map(|line| line.trim()).collect();
    let mine = changes.split(" = ").next().unwrap();
    let kept =
        inside.iter().enumerate().map(|(n, line)| if n == 0 { format!("hold_down.{line}") } else { line.to_string() });
    let kept: Vec<_> = kept.filter(|line| !line.starts_with(&format!("{mine} "))).collect();
    let change = (!changes.ends_with("\"left out\"")).then(|| changes.to_string());
    let mass = "service_battery.mass_kg = 13".to_string();
    kept.into_iter().chain([mass]).chain(change).collect::<Vec<_>>().join("\n")
}
