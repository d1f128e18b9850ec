//! What is the strength of a carrier worked out from?

use crate::catalogue::{Rules, Shock, StudSize};
use crate::engine::parts::hold_down::Sizes;
use crate::engine::physics::steel::utilisation::Strengths;
use crate::engine::simulate::hold_down::chain::strips::Frames;
use crate::engine::simulate::hold_down::result::{Shape, Torque};
use crate::plan::HoldDown;
use crate::quantity::{Kilograms, Megapascals};

/// What the strength is worked out from.
pub(crate) struct Fixing<'a> {
    pub carrier: &'a HoldDown,
    pub sizes: &'a Sizes,
    pub rules: &'a Rules,
    pub shape: &'a Shape,
    /// What is carried: the battery, and what the carrier bears besides.
    pub carried: Kilograms,
    /// What of it is no battery.
    pub besides: Kilograms,
    pub shock: &'a Shock,
    pub size: &'a StudSize,
    pub studs: Strengths,
    pub rod: &'a StudSize,
    pub rod_yields: Megapascals,
    pub rods: Strengths,
    pub torque: &'a Torque,
    pub frames: &'a Frames,
}
