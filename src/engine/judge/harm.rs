//! What does it harm, what a finding speaks of: people, a battery or a start, the promise, the purse?
//!
//! Of findings alike in severity that which hurts people comes first.

use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};

/// What is harmed, the worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Harm {
    /// Fire, gas, shock, a falling mass.
    People,
    /// A battery is ruined, or the engine does not start.
    Battery,
    /// Something does not do what the plan promises.
    Promise,
    /// It costs more than it must.
    Money,
}

impl Harm {
    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Harm::People => "people",
            Harm::Battery => "battery",
            Harm::Promise => "promise",
            Harm::Money => "money",
        }
    }

    /// What that means.
    pub fn words(self) -> &'static str {
        match self {
            Harm::People => "people can be hurt: fire, gas, shock or a falling mass",
            Harm::Battery => "a battery or a start can be lost",
            Harm::Promise => "something does not do what is planned",
            Harm::Money => "it costs more than it must",
        }
    }
}

/// Kinds that can hurt people.
const PEOPLE: &[Kind] = &[
    Kind::AmpacityLow,
    Kind::SizeNone,
    Kind::InsulationHot,
    Kind::RunCurrentLow,
    Kind::RunsOn,
    Kind::LabelTrap,
    Kind::SizeThin,
    Kind::RunPasses,
    Kind::PlugSmall,
    Kind::PlugLive,
    Kind::BondThin,
    Kind::MainSwitchSmall,
    Kind::MainSwitchParts,
    Kind::MainSwitchLive,
    Kind::FuseNone,
    Kind::FuseUnmade,
    Kind::ArrayCable,
    Kind::ArrayDevice,
    Kind::FuseBig,
    Kind::FuseBreaking,
    Kind::BreakerAlone,
    Kind::BreakerPolarity,
    Kind::FuseFarFault,
    Kind::FuseMissing,
    Kind::PanelFuses,
    Kind::BoardRating,
    Kind::WayFuses,
    Kind::LeadsUnplanned,
    Kind::TailFuse,
    Kind::FuseFar,
    Kind::LetThrough,
    Kind::GateMemory,
    Kind::BlockFuses,
    Kind::BatteryGas,
    Kind::BatteryExposed,
    Kind::DeviceInMinus,
    Kind::CutOffRating,
    Kind::ChassisReturn,
    Kind::PlaceCaution,
    Kind::ChargeVoltage,
    Kind::ColdCharge,
    Kind::VoltageHigh,
    Kind::RelayMisfit,
    Kind::CarrierNoMass,
    Kind::CarrierNoSize,
    Kind::CarrierTight,
    Kind::CarrierLoose,
    Kind::BendShort,
    Kind::BendTight,
    Kind::StudPattern,
    Kind::StudWeak,
    Kind::StripWeak,
    Kind::LinkWeak,
    Kind::HoldDownWeak,
    Kind::WeldUnmade,
    Kind::GroundNear,
    Kind::DepartureLost,
    Kind::TooNear,
    Kind::MetalsMeet,
    Kind::MountedWet,
    Kind::MountedHot,
    Kind::BuiltOff,
    Kind::SpacerLoose,
    Kind::FloorCrushed,
    Kind::TorqueHigh,
    Kind::TorqueLow,
    Kind::CarrierSlips,
    Kind::NutUnlocked,
    Kind::Lifting,
    Kind::JointBad,
    Kind::JointUnclear,
    Kind::RowDoubtful,
];

/// Kinds that can ruin a battery, or cost a start.
const BATTERY: &[Kind] = &[
    Kind::DepthDeep,
    Kind::ParallelMany,
    Kind::ParallelAlike,
    Kind::BlocksMixed,
    Kind::TemperatureLimit,
    Kind::Freezing,
    Kind::ProtectionOpens,
    Kind::WakeUp,
    Kind::BatteryRate,
    Kind::ChargerFast,
    Kind::ArrayVoltage,
    Kind::AlternatorShort,
    Kind::VariableAlternator,
    Kind::CutOffMissing,
    Kind::CutOffLow,
    Kind::CutOffCounter,
    Kind::CutOffSignal,
    Kind::CutOffChatter,
    Kind::PreCharge,
    Kind::StandingDraw,
    Kind::LeftStanding,
    Kind::StarterLow,
    Kind::StartLost,
    Kind::MinusSensor,
    Kind::HeaterDraw,
];

/// Kinds that cost money or work only.
const MONEY: &[Kind] = &[Kind::SizesMany, Kind::RunIdle, Kind::NoLoads, Kind::ReadingUnbuilt, Kind::ReadingIncomplete];

impl Kind {
    /// What such a finding is about.
    pub fn harm(self) -> Harm {
        match self {
            _ if PEOPLE.contains(&self) => Harm::People,
            _ if BATTERY.contains(&self) => Harm::Battery,
            _ if MONEY.contains(&self) => Harm::Money,
            _ => Harm::Promise,
        }
    }
}

impl Finding {
    /// Whether it is a note that stands on nearly every plan: it is shown in one line, at the end.
    pub fn everywhere(&self) -> bool {
        let of_the_plan = self.kind != Kind::LabelTrap || self.subject == Subject::Plan;
        let kind = matches!(self.kind, Kind::GateMemory | Kind::LabelTrap | Kind::PlaceCaution);
        self.severity == Severity::Note && kind && of_the_plan
    }
}

/// Worst first: by severity, by what is harmed, by what it is about; at the end what stands on every plan.
pub(crate) fn worst_first(findings: &mut [Finding]) {
    findings.sort_by(|a, b| {
        let rank = |f: &Finding| (f.severity, f.everywhere(), f.kind.harm());
        rank(a).cmp(&rank(b)).then(a.subject.cmp(&b.subject))
    });
}
