//! Has a kind of finding a limit of the catalogue, and is each kind raised somewhere when sources are walked?

use crate::case::{plan_of, text_with};
use crate::cited::{LIMITS, TRAY};
use crate::sources::{CATALOGUE, walk};
use loomwright::engine::{FindingKind as Kind, design};

/// Kinds that never stop a plan and have a limit of the catalogue.
const ADVICE: &[Kind] = &[
    Kind::BlockFuses,
    Kind::TailFuse,
    Kind::InverterSurge,
    Kind::DepthDeep,
    Kind::ParallelMany,
    Kind::HeaterDraw,
    Kind::Freezing,
    Kind::SurgeDeep,
    Kind::LabelTrap,
    Kind::RunsOn,
    Kind::SizeThin,
    Kind::FuseSelective,
    Kind::StandingDraw,
    Kind::PlaceCaution,
    Kind::CarrierSlips,
    Kind::Lifting,
    Kind::CarrierLoose,
    Kind::BendTight,
    Kind::TorqueHigh,
    Kind::SpacerLoose,
    Kind::MountedHot,
];

/// Kinds that have no limit of the catalogue, by the reason.
const UNNUMBERED: &[(&str, &[Kind])] = &[
    (
        "something is named that is not there, or missing",
        &[
            Kind::RunNowhere,
            Kind::RunLoose,
            Kind::RunLoop,
            Kind::LoadLoose,
            Kind::LoadEmpty,
            Kind::NoLoads,
            Kind::ChargerLoose,
            Kind::ChargerNone,
            Kind::NoCharge,
            Kind::SensingLoose,
            Kind::SourceLoose,
            Kind::CutOffLoose,
            Kind::CutOffMissing,
            Kind::InverterMissing,
            Kind::PlugLoose,
            Kind::BoardLoose,
            Kind::ReadingLoose,
            Kind::ReadingUnbuilt,
            Kind::ReadingIncomplete,
            Kind::CarrierNoMass,
            Kind::CarrierNoSize,
        ],
    ),
    (
        "the plan is held against what it gives itself: a rating, a length, hours, a voltage",
        &[
            Kind::LoadContradicts,
            Kind::AirContradicts,
            Kind::DutyTooLong,
            Kind::DutyNever,
            Kind::MainsNever,
            Kind::RunIdle,
            Kind::RunCurrentLow,
            Kind::SizesMany,
            Kind::InverterSmall,
            Kind::AlternatorShort,
            Kind::StartLost,
            Kind::ArrayVoltage,
            Kind::StringFuses,
            Kind::VoltageLow,
            Kind::MainSwitchSmall,
            Kind::BoardWays,
            Kind::BoardRating,
            Kind::WayFuses,
            Kind::CutOffRange,
            Kind::CutOffSurge,
            Kind::CutOffCounter,
            Kind::CarrierTight,
            Kind::HeightShort,
            Kind::DepartureLost,
            Kind::BuiltOff,
        ],
    ),
    (
        "over a week as much must come in as goes out",
        &[
            Kind::HotDays,
            Kind::ChargerSlow,
            Kind::ChargeShort,
            Kind::EnduranceCut,
            Kind::EnduranceDrift,
            Kind::PromiseBroken,
            Kind::UsualWeeks,
        ],
    ),
    (
        "a law of physics or of geometry decides",
        &[
            Kind::PanelMisfit,
            Kind::Collapse,
            Kind::CutOffEarly,
            Kind::CutOffFlat,
            Kind::BendShort,
            Kind::StudPattern,
            Kind::TorqueLow,
            Kind::RowDoubtful,
        ],
    ),
    ("the band of measuring decides", &[Kind::ReadingOutside, Kind::ReadingsContradict, Kind::JointUnclear]),
    (
        "a rule of order, without a number",
        &[
            Kind::FoundTwice,
            Kind::ParallelAlike,
            Kind::BlocksMixed,
            Kind::ChargerBehindCutOff,
            Kind::SourceBehindCutOff,
            Kind::StaysOnBehind,
            Kind::CutOffOrder,
            Kind::CutOffSignal,
            Kind::ProtectionOpens,
            Kind::PreCharge,
            Kind::WakeUp,
            Kind::RunPasses,
            Kind::PlugLive,
            Kind::MinusSensor,
            Kind::BatteryExposed,
            Kind::DeviceInMinus,
            Kind::MainSwitchParts,
            Kind::MainSwitchLive,
            Kind::BreakerAlone,
            Kind::BreakerPolarity,
            Kind::ChassisReturn,
            Kind::NutUnlocked,
            Kind::MetalsMeet,
            Kind::MountedWet,
        ],
    ),
    (
        "it says itself that its value was not read: `common practice, no source`, `from memory`",
        &[
            Kind::VoltageHigh,
            Kind::ChargerGentle,
            Kind::GateMemory,
            Kind::ArrayCable,
            Kind::ArrayDevice,
            Kind::ArrayDrop,
        ],
    ),
];

/// Why a kind has no limit of the catalogue, if it has none.
pub fn unnumbered(kind: Kind) -> Option<&'static str> {
    UNNUMBERED.iter().find(|(_, kinds)| kinds.contains(&kind)).map(|(why, _)| *why)
}

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
        let lists = [LIMITS.iter().any(|(k, ..)| k == kind), ADVICE.contains(kind), unnumbered(*kind).is_some()];
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
