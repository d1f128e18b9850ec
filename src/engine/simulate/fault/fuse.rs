//! What must a fuse do at its place, and which one is there?

use crate::catalogue::FuseStyle;
use crate::engine::physics::fuse_link::let_through::{LetThrough, energy};
use crate::engine::physics::starts::{Start, Starts};
use crate::engine::simulate::circuit::result::FarEnd;
use crate::engine::simulate::fault::backer::Backup;
use crate::engine::simulate::fault::current::{FarFault, Prospective};
use crate::quantity::*;

/// What a fuse has to do at its place.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FuseNeed {
    /// Largest steady current as a share of the rating, 0.3 to 1.
    pub loading: Share,
    /// Air at the fuse holder.
    pub air: Celsius,
    /// Steady current.
    pub steady: Amps,
    /// Starts to let pass, the steady rest included.
    pub starts: Starts,
    /// What the thinnest conductor that it protects carries.
    pub ampacity: Amps,
    /// The branch with that conductor.
    pub thinnest: usize,
    /// Largest fault current at its place; zero leaves the breaking capacity out.
    pub prospective: Amps,
    /// The likely one.
    pub likely: Amps,
    /// What still flows after a device upstream has broken it; `None` where none does.
    pub backed: Option<Amps>,
    /// Highest voltage of the circuit.
    pub circuit: Volts,
    /// Least rating that other rules ask for (selectivity); zero for none.
    pub floor: Amps,
}

impl FuseNeed {
    /// The starts above the steady current.
    pub fn exceeding(&self) -> impl Iterator<Item = Start> + '_ {
        self.starts.iter().filter(|s| s.current.get() > self.steady.get())
    }
}

/// The fuse-links between a place and its battery.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LinksBefore {
    /// Warm, with their holders.
    pub warm: Ohms,
    /// Cold, the links alone, at the least.
    pub least: Ohms,
}

impl LinksBefore {
    /// With one more.
    pub fn and(self, fuse: &Fuse) -> Self {
        let Some((style, rating)) = fuse.fitted() else { return self };
        LinksBefore {
            warm: self.warm + style.warm_resistance(rating),
            least: self.least + style.least_resistance(rating),
        }
    }
}

/// One fuse at its place, with all that is known of it.
#[derive(Clone, Copy, Debug)]
pub struct Fuse<'a> {
    /// The branch of the run that it protects.
    pub branch: usize,
    /// Whether it sits at the end away from the battery.
    pub far_end: bool,
    /// What it has to do; the ampacity is that of the thinnest conductor it protects.
    pub need: FuseNeed,
    /// The largest fault current at its place.
    pub prospective: Prospective,
    /// What breaks that for it where it does not alone.
    pub backup: Option<Backup<'a>>,
    /// Its style; the one to speak of where no rating fits.
    pub style: Option<&'a FuseStyle>,
    /// Its rating; `None` where nothing fits.
    pub rating: Option<Amps>,
    /// Whether the plan gives the rating.
    pub pinned: bool,
    /// Which rule set the rating, in words.
    pub ruling: &'static str,
    /// How it does with the faults behind it.
    pub clearing: Clearing,
}

impl<'a> Fuse<'a> {
    /// Style and rating, once both are known.
    pub fn fitted(&self) -> Option<(&'a FuseStyle, Amps)> {
        Some((self.style?, self.rating?))
    }
}

/// All fuses of a plan, by branch.
#[derive(Clone, Debug, Default)]
pub struct Fuses<'a> {
    /// At the end nearer the battery.
    pub near: Vec<Option<Fuse<'a>>>,
    /// At the far end, where one is needed.
    pub far: Vec<Option<Fuse<'a>>>,
    /// What guards each far end.
    pub far_ends: Vec<FarEnd>,
}

/// How a fuse does with the faults behind it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Clearing {
    /// Smallest fault current; `None` while the battery has no size.
    pub far: Option<FarFault>,
    /// By how much the link carries more than its rating in the cold.
    pub slow: f64,
    /// Latest opening then.
    pub opens: Option<Seconds>,
    /// Where that is too late, the worst that it waits through, a nearer fault's greater current included.
    pub wait: Option<LetThrough>,
    /// Fault current that opens it in time; `None` where no gate promises it.
    pub needs: Option<Amps>,
    /// The worst it lets through.
    pub through: Option<LetThrough>,
    /// What the conductors behind it stand.
    pub stands: AmpsSquaredSeconds,
    /// The branch that stands least.
    pub weakest: usize,
    /// Fuse-links between it and its battery.
    pub links_before: Ohms,
}

impl Clearing {
    /// Whether the far-end fault opens it in time.
    pub fn opens_in_time(&self, within: Seconds) -> bool {
        self.far.is_none() || self.opens.is_some_and(|t| t.get() <= within.get())
    }

    /// Whether the conductors stand a fault until the latest opening, at the far end and nearer by:
    /// by the adiabatic law, which leaves out the heat that a longer wait lets go.
    pub fn stands_the_wait(&self) -> bool {
        match self.wait {
            Some(wait) => self.far_is_stood() && wait.energy <= self.stands,
            None => self.far_is_stood(),
        }
    }

    /// The same of the far-end fault alone.
    pub fn far_is_stood(&self) -> bool {
        match (self.far, self.opens) {
            (Some(far), Some(time)) => energy(far.amps, time).get() <= self.stands.get(),
            (far, _) => far.is_none(),
        }
    }

    /// Whether the conductors stand what it lets through, as far as is known.
    pub fn is_stood(&self) -> bool {
        self.through.is_none_or(|t| t.energy.get() <= self.stands.get())
    }
}
