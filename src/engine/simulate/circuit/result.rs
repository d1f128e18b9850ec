//! What follows for each run and each load: size, drop, heat, fuse.

use crate::engine::installation::circuits::Side;
use crate::engine::physics::conductor::short_time::{Intermittent, Pulsed};
use crate::engine::physics::network::load::Load as Law;
use crate::engine::physics::starts::{Start, Starts};
use crate::engine::simulate::circuit::candidate::Fails;
use crate::engine::simulate::circuit::demand::End;
use crate::quantity::*;

/// One run.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RunDesign {
    /// Index of the run in the plan.
    pub run: usize,
    /// Index of its branch in the topology; `None` when it hangs together with nothing.
    pub branch: Option<usize>,
    /// Largest steady current.
    pub current: Amps,
    /// Where loads beyond come and go: how, and what stays.
    pub pulsed: Option<Pulsed>,
    /// Largest short current (a start on top of the rest).
    pub surge: Amps,
    /// How long that lasts.
    pub surge_lasts: Seconds,
    /// Every start that no other exceeds in both current and time, the steady rest included.
    pub starts: Starts,
    /// Hottest air along it.
    pub air: Celsius,
    /// The size used: pinned by the plan, or chosen.
    pub size: Option<SizeRow>,
    /// Whether the plan pins it.
    pub pinned: bool,
    /// The device at its near end, as chosen together with the sizes.
    pub protector: Protector,
    /// Smallest size with which its fuse keeps every rule that a size can help with; zero where any does.
    pub least_for_fuse: SquareMillimetres,
    /// What decided the size, in words: `voltage drop`, `heat`, `fuse`, `smallest size`, `given`.
    pub ruling: &'static str,
    /// Every size of the family side by side, by growing area, the used one among them.
    pub sizes: Vec<SizeRow>,
    /// Its fuses: at the end nearer the battery, and at the far end where [`FarEnd`] says so.
    pub fuses: Vec<FuseDesign>,
    /// What guards it against sources at its far end.
    pub far_end: FarEnd,
    /// Largest drop this run may have so that each load beyond keeps its class, the other runs as they are;
    /// zero when no load lies beyond.
    pub drop_allowed: Volts,
    /// What the usual sharing by length and current would allow it.
    pub equal_share: Option<Volts>,
    /// What stands and flows in it, all steady loads on, its battery at its lowest.
    pub settled: Settled,
    /// Longest length at this size, and what stops it.
    pub longest: Option<(Metres, &'static str)>,
    /// Biggest steady current at this size and length, and what stops it.
    pub biggest: Option<(Amps, &'static str)>,
    /// Warmest air at this size, and what stops it.
    pub warmest: Option<(Celsius, &'static str)>,
    /// How the conductor used warms, and what it carries for a short time.
    pub short_time: ShortTime,
}

impl RunDesign {
    /// The steady current that heats a switch, a stud or a strap as much as what flows.
    pub fn heating(&self) -> Amps {
        self.pulsed.map_or(self.current, |pulsed| pulsed.heating(self.current))
    }

    /// Length up to which a far-end fault opens its fuses in time, where the run may be longer: from there to
    /// the longest length its cable stands the fault until the fuse opens.
    pub fn in_time_to(&self) -> Option<Metres> {
        let (longest, _) = self.longest?;
        let in_time = self.fuses.iter().filter_map(|f| f.longest).reduce(Metres::min)?;
        (in_time < longest).then_some(in_time)
    }
}

/// A device at the near end of a run.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Protector {
    /// Not chosen yet.
    #[default]
    Open,
    /// The run has none of its own, or none fits.
    Missing,
    /// Index of its style in the catalogue, and its rating.
    Of(usize, Amps),
}

/// How a conductor warms, and what it carries for a short time.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ShortTime {
    /// It comes within 37 % of its steady rise in this time.
    pub time_constant: Seconds,
    /// Conductor when the worst start beyond ends, begun at its working temperature.
    pub after_start: Celsius,
    /// How long a start is taken to last: the worst one beyond, or 1 s where nothing surges.
    pub start_lasts: Seconds,
    /// Largest current for that time, begun at its working temperature.
    pub start: Amps,
    /// Largest current that comes for 30 s and goes for 5 min, for ever.
    pub intermittent: Amps,
    /// Where loads beyond come and go.
    pub pulse: Option<Pulse>,
}

/// How the conductor used bears loads that come and go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pulse {
    /// How long they are on and off.
    pub cycle: Intermittent,
    /// Conductor when they go.
    pub peak: Celsius,
    /// Conductor when they come.
    pub trough: Celsius,
    /// From switching on until its insulation is at its limit, if they stay on; `None` where it never gets there.
    pub runs_on: Option<Seconds>,
}

impl SizeRow {
    /// What it carries for ever: the smaller of table and heat balance.
    pub fn for_ever(&self) -> Amps {
        [self.ampacity_table, self.ampacity_heat].into_iter().flatten().reduce(Amps::min).unwrap_or(self.ampacity)
    }

    /// Itself, where its figures can be: more than all of the 12 V, or copper near melting, is no answer but `cannot`.
    pub fn possible(&self) -> Option<&SizeRow> {
        Some(self).filter(|r| r.drop_share.get() < 1.0 && r.temperature.get() < 300.0)
    }
}

/// One size for one run.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SizeRow {
    /// Catalogue label.
    pub label: String,
    /// Copper as sold.
    pub area: SquareMillimetres,
    /// Resistance of the loop, hot, joints included.
    pub resistance: Ohms,
    /// What that is made of.
    pub made_of: Resistances,
    /// Drop of this run at its steady current.
    pub drop: Volts,
    /// The same as a share of what its side is made for: 12 V, or 24 V before the charger of such a vehicle.
    pub drop_share: Share,
    /// Conductor temperature at its steady current.
    pub temperature: Celsius,
    /// Ampacity by table and factors.
    pub ampacity_table: Option<Amps>,
    /// Ampacity by heat balance.
    pub ampacity_heat: Option<Amps>,
    /// What is used: the smaller of both, or what it carries while a load that comes and goes is on.
    pub ampacity: Amps,
    /// Fuse that would protect it, if any fits.
    pub fuse: Option<Amps>,
    /// Mass of copper, out and back.
    pub mass: Kilograms,
    /// Energy lost a day.
    pub loss: WattHours,
    /// What it fails; nothing when it passes all.
    pub fails: Vec<Fails>,
    /// Whether this is the size used.
    pub used: bool,
}

/// What the resistance of a run's loop is made of.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Resistances {
    /// Copper at 20 °C; of the whole loop, or one way where the body brings the current back.
    pub copper: Ohms,
    /// Crimped lugs.
    pub joints: Ohms,
    /// Contacts on the way: switches, the cut-off, the vehicle's body.
    pub contacts: Ohms,
    /// Fuse-link and holder.
    pub link: Ohms,
}

/// A run in the network, solved: the currents are those that the loads draw at the voltages they get.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Settled {
    /// Voltage at the end nearer its battery.
    pub near: Volts,
    /// Voltage at the other end.
    pub far: Volts,
    /// Current through it, away from its battery.
    pub current: Amps,
    /// Resistance of the loop then.
    pub resistance: Ohms,
    /// Its copper then.
    pub temperature: Celsius,
}

/// What guards a run against the sources at or beyond its far end.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum FarEnd {
    /// There is no source.
    #[default]
    Dead,
    /// A fuse of its own there.
    Fused,
    /// The fuse of another run opens before this one carries too much.
    Guarded {
        /// Index of that run in the plan.
        run: usize,
        /// Its fuse.
        rating: Amps,
    },
    /// The sources there cannot push more than this, which it carries.
    Limited(Amps),
    /// Nothing; a finding says so.
    Open,
}

/// One fuse.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FuseDesign {
    /// The point at which it sits.
    pub at: String,
    /// Whether that is the end away from the battery.
    pub far_end: bool,
    /// Style key.
    pub style: String,
    /// Style name as shown.
    pub style_name: String,
    /// Rating; `None` when nothing fits.
    pub rating: Option<Amps>,
    /// Whether the plan pins it.
    pub pinned: bool,
    /// Air at its holder.
    pub air: Celsius,
    /// Least rating: steady current over loading, re-rated for its air.
    pub at_least: Amps,
    /// Most: ampacity of the thinnest conductor it protects.
    pub at_most: Amps,
    /// Largest fault current at its place; zero while the battery has no size.
    pub prospective: Amps,
    /// The likely one, with a usual battery of its kind or with what is known of this one.
    pub likely: Amps,
    /// Breaking capacity of the style at the circuit's highest voltage; zero when it is not made for that.
    pub breaking: Amps,
    /// Smallest fault current at the far end.
    pub far_fault: Amps,
    /// Longest time it may take to open then; `None` when unknown or never.
    pub opens_within: Option<Seconds>,
    /// Longest that the run may be for the fuse to open in time; `None` when no length does or it is unknown.
    pub longest: Option<Metres>,
    /// Most energy it lets through in a fault of up to 5 s; `None` when unknown.
    pub let_through: Option<AmpsSquaredSeconds>,
    /// What the weakest conductor behind it stands.
    pub cable_stands: AmpsSquaredSeconds,
    /// Which rule set the rating, in words.
    pub ruling: &'static str,
    /// How much room each rule leaves.
    pub margins: Vec<Margin>,
    /// How far from the source it may sit.
    pub within: Metres,
}

/// One rule that a fuse has to keep, and by how much it does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margin {
    /// The rule, in words: `steady current`, `cable ampacity`, `breaking capacity`, …
    pub rule: &'static str,
    /// What there is.
    pub have: Figure,
    /// What the rule asks for.
    pub need: Figure,
    /// Whether `have` must be at least `need`; else at most.
    pub at_least: bool,
}

impl Margin {
    /// Whether the rule is kept.
    pub fn holds(&self) -> bool {
        if self.at_least { self.have.value >= self.need.value } else { self.have.value <= self.need.value }
    }

    /// Room left as a share of what the rule asks for; negative when it is broken, `None` where it asks for nothing.
    pub fn room(&self) -> Option<Share> {
        let (have, need) = (self.have.value, self.need.value);
        let room = if self.at_least { have / need - 1.0 } else { 1.0 - have / need };
        room.is_finite().then_some(Share::new(room))
    }
}

/// The copper of all runs together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CopperDesign {
    /// As sized.
    pub mass: Kilograms,
    /// With the path's drop shared by length and current; `None` where that breaks a limit.
    pub equal_share: Option<Kilograms>,
    /// Whether no choice that keeps every rule is lighter (pinned sizes stay).
    pub least: bool,
    /// How many devices were put into a run to find it: how long the search was.
    pub tried: usize,
    /// Where it is not proven, what no choice that keeps every drop is under.
    pub no_less: Option<Kilograms>,
    /// The different sizes to buy, by growing area.
    pub labels: Vec<String>,
    /// What no choice of free sizes serves; its own cables are sized by what they carry alone.
    pub unserved: Vec<End>,
}

/// What a load, the inverter, the charger or another source draws or feeds, and at which voltage.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Drawn {
    /// What it is; `None` for what draws nothing from the 12 V side.
    pub end: Option<End>,
    /// Which battery it hangs on; `None` for none.
    pub side: Option<Side>,
    /// What it takes from the network; a source takes a negative current. `None` when it hangs on nothing.
    pub law: Option<Law>,
    /// On while all are on that may be: of a `not_with` group only the one that draws most.
    pub on: bool,
    /// Steady current that sizes its cables: the most it can be.
    pub sized_for: Amps,
    /// What its start adds to that, and for how long.
    pub start: Start,
    /// Voltage at its terminals; `None` when it cannot be fed.
    pub voltage: Option<Volts>,
}

impl Drawn {
    /// Current at the voltage it gets; negative when it feeds.
    pub fn settled(&self) -> Option<Amps> {
        Some(self.law?.current(self.voltage.filter(|v| *v > Volts::ZERO)?))
    }
}

/// Something besides the loads that draws or feeds.
#[derive(Clone, Debug, PartialEq)]
pub struct Device {
    /// The point it hangs on.
    pub at: String,
    /// What it draws or feeds.
    pub drawn: Drawn,
}

/// What one load gets.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LoadSupply {
    /// What it draws, itself; of a load on the inverter nothing from the 12 V side.
    pub drawn: Drawn,
    /// Voltage at its terminals, or at the inverter's, all loads on that may be on together and its battery at its
    /// lowest; `None` when it cannot be fed.
    pub voltage: Option<Volts>,
    /// The lowest of all starts, one at a time on top of that.
    pub surge_voltage: Option<Volts>,
    /// The highest: as the charging sources hold their own terminals, nothing lost on the way.
    pub charging_voltage: Option<Volts>,
    /// Drop from the battery posts, out and back; `None` when it cannot be fed.
    pub drop: Option<Volts>,
    /// The same as a share of what its side is made for: 12 V, or 24 V before the charger of such a vehicle.
    pub drop_share: Option<Share>,
    /// Limit of its class.
    pub limit: Share,
    /// Whether it keeps its class and its lowest voltage.
    pub fits: bool,
}
