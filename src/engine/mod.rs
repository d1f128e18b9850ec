//! What follows from a plan, in six rooms; arrows run downwards only.
//!
//! Pure: no file, clock, environment, terminal or global. The same input gives
//! the same result, always. `design` is the only door.

pub mod ask;
pub mod choose;
pub mod design;
pub mod installation;
pub mod judge;
pub mod parts;
pub mod physics;
pub mod simulate;

pub use crate::engine::ask::ageing::{Ageing, CapacityTest, ageing, by_hand};
pub use crate::engine::ask::chance::uncertainty;
pub use crate::engine::ask::cut_off::{CutOffAnswer, CutOffQuestion, cut_off_question};
pub use crate::engine::ask::days::{endurance, endurance_findings};
pub use crate::engine::ask::log::answer::{CurveAt, Line as LogLine, LogAnswer, expected, log_answer};
pub use crate::engine::ask::log::collect::{Collected, Collector, Expected};
pub use crate::engine::ask::log::sample::Sample;
pub use crate::engine::ask::published::{PublishedCase, SelfCheck, self_check};
pub use crate::engine::ask::trouble::answer::{TroubleAnswer, numbered, trouble};
pub use crate::engine::ask::trouble::belief::{Belief, Guess};
pub use crate::engine::ask::trouble::evidence::Taken;
pub use crate::engine::ask::trouble::next::{Next, next};
pub use crate::engine::ask::trouble::symptom::Symptom;
pub use crate::engine::ask::workshop::besides::{PANELS, PANELS_DEVICE};
pub use crate::engine::ask::workshop::connections::{Connections, Joins, Joint, Stud, Wire, connections};
pub use crate::engine::ask::workshop::control::{ControlWire, control_wires};
pub use crate::engine::ask::workshop::cut::{CutList, cut_list};
pub use crate::engine::ask::workshop::marking::{RodCut, laid, marking, rod_cut};
pub use crate::engine::ask::workshop::parts::{Total, parts_list, total};
pub use crate::engine::ask::workshop::piece::{BODY, Cut, Lug, is_block};
pub use crate::engine::ask::workshop::pull::{Pull, pulls};
pub use crate::engine::ask::workshop::raising::{Raising, raising};
pub use crate::engine::design::which_fuse::{Step, WhichFuse, which_fuse, which_fuses};
pub use crate::engine::design::{Design, design, design_after};
pub use crate::engine::installation::battery::planned_depth;
pub use crate::engine::installation::circuits::{Branch, Side, Topology};
pub use crate::engine::installation::sources::usual_derating;
pub use crate::engine::installation::subject::{Subject, run_name};
pub use crate::engine::installation::working::{Input, Notes, Topic, Working, Workings};
pub use crate::engine::judge::demand::Demand;
pub use crate::engine::judge::finding::{Finding, Kind as FindingKind, Severity};
pub use crate::engine::judge::harm::Harm;
pub use crate::engine::judge::own_row::{Doubt, doubts};
pub use crate::engine::judge::remedy::{Edit, Remedy};
pub use crate::engine::parts::battery::Bank;
pub use crate::engine::parts::charger::Bound;
pub use crate::engine::parts::terminal::{Part, Polarity, Terminal};
pub use crate::engine::physics::cell::formula::compensated;
pub use crate::engine::physics::cell::kinetic::{Kinetic, Wells};
pub use crate::engine::physics::cell::life::{calendar_life, cycle_life, years_of};
pub use crate::engine::physics::cell::model::BatteryModel;
pub use crate::engine::physics::cell::recovery::Recharge;
pub use crate::engine::physics::cell::store::{
    Age, Store, TABLE_AIR, cold_factor, resting_charge, resting_voltage, scaled,
};
pub use crate::engine::physics::network::load::Load as NetworkLoad;
pub use crate::engine::physics::starts::Starts;
pub(crate) use crate::engine::simulate::battery::suits;
pub use crate::engine::simulate::battery::{BatteryCurves, battery_curves};
pub use crate::engine::simulate::battery::{BatteryDesign, Candidate, NearBank};
pub use crate::engine::simulate::budget::load::LoadBudget;
pub use crate::engine::simulate::charger::feed::{input_current, input_with_feed};
pub use crate::engine::simulate::charger::result::{ChargerDesign, Recovery};
pub use crate::engine::simulate::circuit::result::{FarEnd, FuseDesign, LoadSupply, RunDesign, SizeRow};
pub use crate::engine::simulate::cut_off::result::{AtCurrent, CurvePoint, CutOffDesign};
pub use crate::engine::simulate::days::result::{Endurance, EnduranceDay, EndurancePoint, LoadHours};
pub use crate::engine::simulate::days::span::{EnduranceError, Span};
pub use crate::engine::simulate::hold_down::marking::{Fold, Hole, Marking};
pub use crate::engine::simulate::hold_down::nest::{Laid, LaidPiece};
pub use crate::engine::simulate::trouble::cause::{Cause, Fault, Faults};
pub use crate::engine::simulate::trouble::predict::{Measurement, Probe};
pub use crate::engine::simulate::trouble::state::On;
pub use crate::engine::simulate::trouble::wired::{PartKind, Pole, Spot, Wired};
