//! What of the program is checked here: the paths of its parts stand in this file only.

pub use loomwright::engine::ask::cable::{CableAnswer, CableQuestion, cable_question};
pub use loomwright::engine::choose::circuit::assortment::{at_most as few_sizes, different as different_sizes};
pub use loomwright::engine::choose::circuit::optimum::{Answer, Choice, Node, lightest, mass_if_kept};
pub use loomwright::engine::judge::fuse::limits::{FuseLimits, at_least};
pub use loomwright::engine::physics::cell::model::Tables;
pub use loomwright::engine::physics::conductor::air::{Air, convection, prandtl_factor};
pub use loomwright::engine::physics::conductor::ampacity::TableFactors;
pub use loomwright::engine::physics::conductor::cable::Cable;
pub use loomwright::engine::physics::conductor::heat::HeatPath;
pub use loomwright::engine::physics::conductor::laid::Laid;
pub use loomwright::engine::physics::conductor::short_time::{Intermittent, Pulsed, Warmth};
pub use loomwright::engine::physics::copper::warm_factor;
pub use loomwright::engine::physics::fuse_link::gates::{earliest, latest, opens_from};
pub use loomwright::engine::physics::fuse_link::let_through::{cable_stands, lasts, let_through};
pub use loomwright::engine::physics::fuse_link::rating::RATED_AIR;
pub use loomwright::engine::physics::network::circuit::{Branch, Network, Point, Source as NetworkSource};
pub use loomwright::engine::physics::network::load::Load as NetworkLoad;
pub use loomwright::engine::physics::network::solution::Solution;
pub use loomwright::engine::physics::network::warming::Warming;
pub use loomwright::engine::physics::steel::bend::{bend_allowance, k_factor};
pub use loomwright::engine::physics::sun::SunDay;
pub use loomwright::engine::simulate::battery::SizedBy;
pub use loomwright::engine::simulate::fault::fuse::FuseNeed;
pub use loomwright::engine::simulate::hold_down::result::CarrierDesign;
pub use loomwright::engine::simulate::test_sheet::result::Verdict;
pub use loomwright::engine::{
    Age, BatteryDesign, BatteryModel, CutOffQuestion, Design, FindingKind, Kinetic, Notes, Span, Starts, Store,
    Subject, TABLE_AIR, Wells, calendar_life, compensated, cut_off_question, cycle_life, design, endurance,
    input_current, input_with_feed, resting_charge, resting_voltage, years_of,
};
