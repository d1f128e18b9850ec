//! Which conductor joins the battery's minus to the body, and what does it have to bear?

use crate::engine::physics::conductor::short_time::Pulsed;
use crate::quantity::*;

/// The bond, given or chosen, with the limits it lies between. Runs by their index.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bond {
    /// One way.
    pub length: Metres,
    /// Its conductor; `None` where no size is enough.
    pub size: Option<String>,
    /// Copper of that size.
    pub area: SquareMillimetres,
    /// Whether the plan gives it.
    pub pinned: bool,
    /// The smallest size that bears all of it; `None` where none does.
    pub least: Option<String>,
    /// What decided: `fault`, `largest positive`, `load`, `given`.
    pub ruling: &'static str,
    /// What runs back through the body come to together.
    pub load: Amps,
    /// Where some of that comes and goes: how, and what stays.
    pub pulsed: Option<Pulsed>,
    /// What the size carries, for ever or while loads that come and go are on.
    pub ampacity: Amps,
    /// The most that a device lets through into the body.
    pub energy: AmpsSquaredSeconds,
    /// The run with that device.
    pub energy_by: Option<usize>,
    /// What the size stands.
    pub stands: AmpsSquaredSeconds,
    /// The largest positive that can touch the body.
    pub largest: SquareMillimetres,
    /// The run with it.
    pub largest_by: Option<usize>,
}
